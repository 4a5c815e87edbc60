"""Floor 13: `booklet bed`: blocks and borders proposed for a mattress."""

from __future__ import annotations

import argparse

from booklet.commands.line.arguments import WRONG_CALL
from booklet.commands.line.saying import SOUND, complain
from booklet.quilt.beds.bed_words import BedError, bed_text


def command(options: argparse.Namespace) -> int:
    """Print a proposal for a mattress. Lengths come as words: `--drop 14 in` needs no quotes."""

    def said(words: list[str] | None) -> str | None:
        return None if words is None else " ".join(words)

    try:
        text = bed_text(
            " ".join(options.bed),
            " ".join(options.block),
            said(options.drop),
            said(options.tuck),
            said(options.sashing),
            said(options.border),
        )
    except BedError as fault:
        return complain(str(fault), WRONG_CALL)
    print(text, end="")
    return SOUND
