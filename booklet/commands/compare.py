"""Floor 13: `booklet compare`: what changed for readers between two states of a pattern."""

from __future__ import annotations

import argparse
from pathlib import Path

from booklet.commands.line import console
from booklet.commands.line.arguments import WRONG_CALL
from booklet.commands.line.asking import said_in, unknown_language, wrong_folder
from booklet.commands.line.page_file import write_page
from booklet.commands.line.saying import FAULTS, SOUND, complain, tell
from booklet.comparing.changes import Change, changes
from booklet.comparing.side import PatternState, of_file, of_plan
from booklet.comparing.told import as_json, lines
from booklet.recipe import compiler

_NO_FACTS = (KeyError, TypeError, ValueError, AttributeError, IndexError)


def command(options: argparse.Namespace) -> int:
    """Print the changes to standard output, write the page; the exit status."""
    for path in (options.old, options.new):
        if not path.is_file() and (wrong := _wrong(options, path)):
            return complain(wrong, WRONG_CALL)
    sides = [_side(path, options) for path in (options.old, options.new)]
    old, new = sides
    if old is None or new is None:
        return FAULTS
    found = _changes(old, new)
    if found is None:
        return complain("a file of facts lacks figures that `booklet facts` prints; print it anew")
    if options.format == "json":
        print(as_json(found), end="")
    else:
        for line in lines(found, old, new):
            print(console.printable(line))
    if options.page is None:
        return SOUND
    from booklet.comparing.page import page  # draws, which takes libraries

    return write_page(options.page, options.replace, lambda: page(found, old, new))


def _wrong(options: argparse.Namespace, path: Path) -> str | None:
    return wrong_folder(argparse.Namespace(command="compare", folder=path))


def _side(path: Path, options: argparse.Namespace) -> PatternState | None:
    """One side, in the language asked for where it has that; its faults are told."""
    if path.is_file():
        read = of_file(path)
        if isinstance(read, str):
            complain(read)
            return None
        return read
    outcome = compiler.check(path, options.trust_pages)
    tell(outcome.diagnostics, path)
    if outcome.value is None:
        return None
    asked = [options.language] if options.language else None
    if path == options.new and (wrong := unknown_language(outcome.value.pattern, asked)):
        complain(wrong)
        return None
    has = unknown_language(outcome.value.pattern, asked) is None
    checked = said_in(outcome.value, options.language if has else None)
    return of_plan(compiler.plan(checked))


def _changes(old: PatternState, new: PatternState) -> tuple[Change, ...] | None:
    """The changes, or None where a file holds other than facts. Those of a folder are ours, and whole."""
    try:
        return changes(old, new)
    except _NO_FACTS:
        if old.plan is not None and new.plan is not None:
            raise
        return None
