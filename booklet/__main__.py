"""Floor 13: the command line. Together with the source floor the only place that touches files."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Sequence
from pathlib import Path

from booklet import compiler, console
from booklet.checks import CheckedPattern
from booklet.diagnostic import Diagnostic
from booklet.facts import facts_text
from booklet.facts_schema import facts_schema
from booklet.output import OutputError, keep_aside, write_files
from booklet.pattern import Paper
from booklet.source import source_text
from booklet.source.schema import pattern_schema
from booklet.source.starter import starter_files

SOUND, FAULTS, WRONG_CALL = 0, 1, 2

_ABOUT = """\
Make an instruction booklet from a patchwork pattern.

A pattern is a folder with a file `pattern.yaml` in it. Start one with `booklet new`, then change it
and build it again as often as you like."""

_ENDING = """\
examples:
  booklet new lanterns             start a small pattern in the folder `lanterns`
  booklet check lanterns           look for faults; nothing is written
  booklet build lanterns           make the booklet: a web page and PDF files in `lanterns/out`
  booklet build lanterns --size lap --paper a4
  booklet explain overlap          what a rule means and how to put it right

Exit status: 0 all is well, 1 faults were found, 2 the command was not understood."""


class _Parser(argparse.ArgumentParser):
    """A parser whose complaints tell the next thing to do."""

    def error(self, message: str) -> None:  # type: ignore[override]
        self.print_usage(sys.stderr)
        print(f"{self.prog}: {message}", file=sys.stderr)
        print(f"try: {self.prog} --help", file=sys.stderr)
        raise SystemExit(WRONG_CALL)


def _parser() -> argparse.ArgumentParser:
    """The parser of the whole command line."""
    parser = _Parser(
        prog="booklet",
        description=_ABOUT,
        epilog=_ENDING,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    commands = parser.add_subparsers(dest="command", metavar="COMMAND", required=True)

    build = commands.add_parser("build", help="make the booklet: web page and PDF")
    _folder(build)
    build.add_argument(
        "--size",
        action="append",
        metavar="SIZE",
        help="only this size; may be given again (default: all)",
    )
    build.add_argument(
        "--edition",
        action="append",
        metavar="EDITION",
        help="only this edition, such as pattern or handout",
    )
    build.add_argument(
        "--paper",
        action="append",
        metavar="PAPER",
        choices=[p.value for p in Paper],
        help="letter, a4, half letter or a5 (default: letter and a4)",
    )
    build.add_argument(
        "--out", type=Path, metavar="DIR", help="where to write (default: `out` inside the folder)"
    )
    build.add_argument("--quiet", action="store_true", help="say nothing while all goes well")

    check = commands.add_parser("check", help="look for faults; write nothing")
    _folder(check)
    check.add_argument(
        "--format",
        choices=["text", "lines", "json"],
        default="text",
        help="text with the line shown, one line each, or JSON",
    )

    facts = commands.add_parser("facts", help="print every number of the booklet as JSON")
    _folder(facts)
    facts.add_argument("--size", action="append", metavar="SIZE", help="only this size")

    new = commands.add_parser(
        "new", help="start a small pattern that builds, with notes that teach"
    )
    new.add_argument("folder", type=Path, metavar="FOLDER", help="the folder to make")

    explain = commands.add_parser("explain", help="what a rule means, and how to put a fault right")
    explain.add_argument(
        "code",
        nargs="?",
        metavar="CODE",
        help="the word in brackets of a message; left out: list all rules",
    )

    schema = commands.add_parser(
        "schema", help="print the JSON Schema, so that an editor completes and checks"
    )
    schema.add_argument("--facts", action="store_true", help="of the facts instead of the pattern")
    return parser


def _folder(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "folder", type=Path, metavar="FOLDER", help="the pattern's folder (with pattern.yaml)"
    )


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; the exit status."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(encoding="utf-8", errors="replace")
    options = _parser().parse_args(arguments)
    try:
        return int(_COMMANDS[options.command](options))
    except OutputError as fault:
        print(f"booklet: {fault}", file=sys.stderr)
        return FAULTS
    except BrokenPipeError:
        sys.stderr.close()
        return FAULTS
    except KeyboardInterrupt:
        print("\nbooklet: stopped; nothing was replaced", file=sys.stderr)
        return FAULTS


def _check(options: argparse.Namespace) -> int:
    outcome = compiler.check(options.folder)
    if options.format == "json":
        print(console.as_json(outcome.diagnostics), end="")
    elif options.format == "lines":
        print(console.as_lines(outcome.diagnostics), end="")
    else:
        print(console.as_text(outcome.diagnostics, _reader(options.folder)), end="")
        print(console.tally(outcome.diagnostics))
    return SOUND if outcome.value is not None else FAULTS


def _facts(options: argparse.Namespace) -> int:
    outcome = compiler.check(options.folder)
    _tell(outcome.diagnostics, options.folder)
    if outcome.value is None or not _sizes_known(outcome.value, options.size):
        return FAULTS
    print(facts_text(compiler.plan(outcome.value, options.size)), end="")
    return SOUND


def _build(options: argparse.Namespace) -> int:
    def say(text: str) -> None:
        if not options.quiet:
            print(text, file=sys.stderr, flush=True)

    say(f"reading and checking {options.folder}")
    outcome = compiler.check(options.folder)
    _tell(outcome.diagnostics, options.folder)
    checked = outcome.value
    if checked is None:
        say(f"{console.tally(outcome.diagnostics)}; nothing was written")
        return FAULTS
    if not (_sizes_known(checked, options.size) and _editions_known(checked, options.edition)):
        return FAULTS
    target = options.out or options.folder / "out"
    papers = [Paper(p) for p in options.paper] if options.paper else None
    with keep_aside(target) as aside:
        compiler.build(
            checked,
            aside.write,
            sizes=options.size,
            editions=options.edition,
            papers=papers,
            say=say,
        )
        names = aside.replace()
    say(f"wrote {len(names)} files to {target}")
    for name in names:
        say(f"  {name}")
    return SOUND


def _new(options: argparse.Namespace) -> int:
    folder: Path = options.folder
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        print(
            f"booklet: `{folder}` is there already and not empty; choose another name",
            file=sys.stderr,
        )
        return FAULTS
    write_files(folder, starter_files())
    print(f"started a pattern in {folder}; now try: booklet build {folder}")
    return SOUND


def _explain(options: argparse.Namespace) -> int:
    if options.code is None:
        print(console.rule_list(), end="")
        return SOUND
    page, found = console.explain(options.code)
    print(page, end="", file=sys.stdout if found else sys.stderr)
    return SOUND if found else FAULTS


def _schema(options: argparse.Namespace) -> int:
    schema = facts_schema() if options.facts else pattern_schema()
    print(json.dumps(schema, indent=1, ensure_ascii=False))
    return SOUND


def _tell(diagnostics: tuple[Diagnostic, ...], folder: Path) -> None:
    """Print diagnostics to standard error."""
    print(console.as_text(diagnostics, _reader(folder)), end="", file=sys.stderr)


def _reader(folder: Path) -> console.Reader:
    return lambda file: source_text(folder, file)


def _sizes_known(checked: CheckedPattern, asked: list[str] | None) -> bool:
    return _known("size", asked, [size.id for size in compiler.pattern_of(checked).sizes])


def _editions_known(checked: CheckedPattern, asked: list[str] | None) -> bool:
    editions = compiler.pattern_of(checked).booklet.editions
    return _known("edition", asked, [edition.id for edition in editions])


def _known(word: str, asked: list[str] | None, known: list[str]) -> bool:
    """Whether every name asked for is known; else a sentence on standard error says which is not."""
    for name in asked or ():
        if name not in known:
            names = ", ".join(f"`{n}`" for n in known)
            print(f"booklet: this pattern has no {word} `{name}`; it has {names}", file=sys.stderr)
            return False
    return True


_COMMANDS = {
    "build": _build,
    "check": _check,
    "facts": _facts,
    "new": _new,
    "explain": _explain,
    "schema": _schema,
}

if __name__ == "__main__":
    sys.exit(main())
