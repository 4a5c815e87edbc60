"""Floor 13: `booklet check`: the faults of a folder, or of a source on standard input beside a folder."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from booklet.commands.line import console
from booklet.commands.line.arguments import HERE, WRONG_CALL
from booklet.commands.line.asking import wrong_folder
from booklet.commands.line.saying import FAULTS, SOUND, complain, reader, tally, waiting
from booklet.kit.bounds import MOST_TEXT

if TYPE_CHECKING:
    from booklet.checks.checked import CheckedPattern
    from booklet.kit.diagnostic import Outcome
    from booklet.pattern import Pattern

_OURS = b'id="faults"'  # in the first line of a picture of ours


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
    if options.picture is not None and (wrong := _no_place(options.picture)):
        return complain(wrong, WRONG_CALL)
    from booklet.recipe import checking
    from booklet.source.reader import read_folder

    with waiting():
        read = read_folder(options.folder, options.trust_pages, given)
        outcome = checking.check_voices(read)
    home = str(options.folder)
    if options.format == "json":
        print(console.as_json(outcome.diagnostics, home), end="")
    elif options.format == "lines":
        print(console.as_lines(outcome.diagnostics, home), end="")
    else:
        if outcome.diagnostics:
            print(console.as_text(outcome.diagnostics, reader(options.folder, given), home))
        print(tally(outcome.diagnostics))
    if options.picture is not None and (wrong := _draw(options.picture, read.value, outcome)):
        return complain(wrong)
    return SOUND if outcome.value is not None else FAULTS


def _no_place(path: Path) -> str | None:
    """A sentence if a picture cannot be put there: it has another ending, or a file of somebody else's is there."""
    if path.suffix.lower() != ".svg":
        return f"the picture is an SVG file: call it `{path.with_suffix('.svg')}`"
    try:
        if path.is_file() and _OURS not in path.read_bytes()[:600]:
            return f"`{path}` is there already and is no picture of faults; give the picture another name"
    except OSError:
        pass  # said when it is written
    return None


def _draw(path: Path, pattern: Pattern | None, outcome: Outcome[CheckedPattern]) -> str | None:
    """Write the picture of the faults and say so; a sentence if that cannot be."""
    from booklet.drawing.ink.svg import render
    from booklet.recipe.fault_pictures import fault_scenes, stacked

    scenes = [scene for _, scene in fault_scenes(pattern, outcome.diagnostics)]
    if not scenes:
        print("no fault here can be drawn; no picture was written", file=sys.stderr)
        return None
    try:
        path.write_text(render(stacked(scenes)) + "\n", "utf-8")
    except OSError as fault:
        return f"cannot write `{path}`: {(fault.strerror or str(fault)).lower()}; name another file"
    print(f"drew {len(scenes)} of the faults in {path}", file=sys.stderr)
    return None
