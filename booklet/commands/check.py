"""Floor 13: `booklet check`: the faults of a folder, or of a source on standard input beside a folder."""

from __future__ import annotations

import argparse
import sys

from booklet import console
from booklet.arguments import HERE, WRONG_CALL
from booklet.bounds import MOST_TEXT
from booklet.commands.asking import wrong_folder
from booklet.commands.saying import FAULTS, SOUND, complain, reader, tally, waiting


def command(options: argparse.Namespace) -> int:
    """Print the faults to standard output; the exit status."""
    given = None
    if str(options.folder) == "-":
        options.folder = options.beside or HERE
        given = sys.stdin.buffer.read(MOST_TEXT + 1)  # one byte too many is told as too large
    elif options.beside:
        return complain("`--folder` is for a source on standard input: `check -`", WRONG_CALL)
    if wrong := wrong_folder(options, has_source=given is not None):
        return complain(wrong, WRONG_CALL)
    from booklet import checking

    with waiting():
        outcome = checking.check(options.folder, options.trust_pages, given)
    home = str(options.folder)
    if options.format == "json":
        print(console.as_json(outcome.diagnostics, home), end="")
    elif options.format == "lines":
        print(console.as_lines(outcome.diagnostics, home), end="")
    else:
        if outcome.diagnostics:
            print(console.as_text(outcome.diagnostics, reader(options.folder, given), home))
        print(tally(outcome.diagnostics))
    return SOUND if outcome.value is not None else FAULTS
