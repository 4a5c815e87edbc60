"""Floor 13: `booklet reference`: all of `booklet help` as one web page, with pictures."""

from __future__ import annotations

import argparse

from booklet.arguments import WRONG_CALL
from booklet.commands.saying import SOUND, complain
from booklet.output import keep_aside


def command(options: argparse.Namespace) -> int:
    """Write the page; the exit status. Raises OutputError."""
    if options.file.suffix.lower() != ".html":
        return complain(f"`{options.file}`: give the page a name that ends in `.html`", WRONG_CALL)
    if options.file.exists() and not options.replace:
        return complain(
            f"`{options.file}` is there already; choose another name, or add `--replace`"
        )
    from booklet.reference.page import page  # draws, which takes libraries

    made = page().encode("utf-8")
    with keep_aside(options.file.parent) as aside:
        aside.write(options.file.name, made)
        aside.replace()
    print(f"wrote {options.file}")
    return SOUND
