"""Floor 13: the commands. Together with the source floor the only place that touches files."""

from __future__ import annotations

import argparse
import json
import os
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from traceback import extract_tb

from booklet import compiler, console
from booklet.arguments import WRONG_CALL, command_parser, joined
from booklet.checks import CheckedPattern
from booklet.diagnostic import Diagnostic, did_you_mean
from booklet.exports import Printing, PrintingError
from booklet.exports.printing import USUAL_SHEET
from booklet.facts import facts_text
from booklet.facts_schema import facts_schema
from booklet.inventory import checked_inventory, guarded, put_in_place
from booklet.output import OutputError, keep_aside, refuse_link, write_files
from booklet.pages.pdf import NoPdf
from booklet.pages.templating import OwnPageError
from booklet.quilt.bed_words import BedError, bed_text
from booklet.sewing.proposals import Proposal, proposals
from booklet.source import source_text
from booklet.source.editor import write_steps
from booklet.source.schema import pattern_schema
from booklet.source.starter import starter_files
from booklet.walls import WallError

SOUND, FAULTS, OUR_FAULT = 0, 1, 3
SOURCE = "pattern.yaml"


def run(arguments: Sequence[str] | None = None) -> int:
    """Run one command; the exit status. A request to end passes through."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(encoding="utf-8", errors="replace")
    words = joined(sys.argv[1:] if arguments is None else arguments)
    parser, commands = command_parser()
    if not words:
        parser.print_help(sys.stderr)
        return WRONG_CALL
    options, unknown = parser.parse_known_args(words)
    if unknown:
        commands[options.command].refuse(unknown)
    try:
        return int(_COMMANDS[options.command](options))
    except OwnPageError as fault:
        _tell((fault.fault,), options.folder)
        print(f"{_tally((fault.fault,))}; nothing was written", file=sys.stderr)
        return FAULTS
    except (OutputError, NoPdf, PrintingError, WallError) as fault:
        return _complain(str(fault))
    except BrokenPipeError:  # whoever reads our output has seen enough
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return FAULTS
    except MemoryError:
        return _complain("this pattern needs more memory than there is; make it smaller")
    except Exception as fault:
        if os.environ.get("BOOKLET_TRACEBACK"):
            raise
        return _complain(_ours(fault), OUR_FAULT)


def _complain(sentence: str, status: int = FAULTS) -> int:
    """Print a sentence to standard error and return the exit status."""
    print(f"booklet: {console.printable(sentence)}", file=sys.stderr)
    return status


def _ours(fault: Exception) -> str:
    """What is said when the program itself is at fault."""
    place = extract_tb(fault.__traceback__)[-1]
    what = " ".join(f"{type(fault).__name__}: {fault}".split())[:200]
    return (
        f"the program, not your pattern, is at fault: {what} ({Path(place.filename).name}, "
        f"line {place.lineno}); what was built before is still there. "
        "Please tell its makers, with this line and your pattern"
    )


def _check(options: argparse.Namespace) -> int:
    if wrong := _wrong_folder(options):
        return _complain(wrong, WRONG_CALL)
    outcome = compiler.check(options.folder, options.trust_pages)
    if options.format == "json":
        print(console.as_json(outcome.diagnostics), end="")
    elif options.format == "lines":
        print(console.as_lines(outcome.diagnostics), end="")
    else:
        if outcome.diagnostics:
            print(console.as_text(outcome.diagnostics, _reader(options.folder)))
        print(_tally(outcome.diagnostics))
    return SOUND if outcome.value is not None else FAULTS


def _facts(options: argparse.Namespace) -> int:
    if wrong := _wrong_folder(options):
        return _complain(wrong, WRONG_CALL)
    outcome = compiler.check(options.folder, options.trust_pages)
    _tell(outcome.diagnostics, options.folder)
    if outcome.value is None:
        return FAULTS
    if wrong := _unknown_size(outcome.value, options.size):
        return _complain(wrong, WRONG_CALL)
    print(facts_text(compiler.plan(outcome.value, options.size)), end="")
    return SOUND


def _build(options: argparse.Namespace) -> int:
    def say(text: str) -> None:
        if not options.quiet:
            print(console.printable(text), file=sys.stderr, flush=True)

    if wrong := _wrong_folder(options):
        return _complain(wrong, WRONG_CALL)
    if options.creep is not None and not options.imposed:
        return _complain("`--creep` is for sheets that are folded; add `--imposed`", WRONG_CALL)
    say(f"reading and checking {options.folder}")
    outcome = compiler.check(options.folder, options.trust_pages)
    _tell(outcome.diagnostics, options.folder)
    checked = outcome.value
    if checked is None:
        print(f"{_tally(outcome.diagnostics)}; nothing was written", file=sys.stderr)
        return FAULTS
    if wrong := _unknown_size(checked, options.size) or _unknown_edition(checked, options):
        return _complain(wrong, WRONG_CALL)
    target = options.out or options.folder / "out"
    refuse_link(options.folder, target)
    checked_inventory(target, options.replace)
    say("working out the numbers and drawing the pictures")
    with keep_aside(target) as aside:
        compiler.build(
            checked,
            guarded(aside, target, options.replace),
            sizes=options.size,
            editions=options.edition,
            papers=options.paper,
            say=say,
            printing=Printing(
                options.imposed,
                USUAL_SHEET if options.creep is None else options.creep,
                options.crop_marks,
                options.low_ink,
            ),
            beside=not options.booklet_only,
        )
        whole = not any(getattr(options, name) for name in _NARROWING)
        names, old = put_in_place(
            aside, target, compiler.pattern_of(checked), whole, options.replace
        )
    say(f"wrote {len(names)} file{'' if len(names) == 1 else 's'} to {target}")
    for name in names:
        say(f"  {name}")
    if old:
        _tell_old(old, whole, say)
    return SOUND


_NARROWING = ("size", "edition", "paper", "imposed", "crop_marks", "low_ink", "booklet_only")


def _tell_old(old: Sequence[str], removed: bool, say: Callable[[str], None]) -> None:
    """Say what became of the files of an earlier state of the pattern."""
    if removed:
        say("removed, since they were of an earlier state of the pattern:")
    else:
        say(
            "of an earlier state of the pattern; `booklet build` without options renews or removes:"
        )
    for name in old:
        say(f"  {name}")


def _plan(options: argparse.Namespace) -> int:
    if wrong := _wrong_folder(options):
        return _complain(wrong, WRONG_CALL)
    outcome = compiler.lay_out_folder(options.folder)
    faults = tuple(d for d in outcome.diagnostics if d.is_error)
    _tell(faults, options.folder)
    if outcome.value is None:
        return FAULTS
    pattern = outcome.value.pattern
    if wrong := _unknown("block", _one(options.block), [b.id for b in pattern.blocks]) or _unknown(
        "size", _one(options.size), [size.id for size in pattern.sizes]
    ):
        return _complain(wrong, WRONG_CALL)
    found = tuple(proposals(outcome.value, options.block, options.size))
    print("\n".join(proposal.text for proposal in found), end="")
    if options.write:
        return FAULTS if faults else _write_orders(options, found)
    return FAULTS if faults else SOUND


def _write_orders(options: argparse.Namespace, found: Sequence[Proposal]) -> int:
    """Put the first order of each block into the pattern; another file takes its place when complete."""
    before = text = source_text(options.folder, SOURCE) or ""
    for proposal in {p.block: p for p in reversed(found)}.values():
        if (proposal.declared and not options.block) or not proposal.steps:
            continue
        made = write_steps(text, proposal.block, proposal.steps)
        if made is None:
            return _complain(
                f"cannot find where the steps of block `{proposal.block}` belong in {SOURCE}; "
                "nothing was written. Write them there by hand"
            )
        text = made
        print(f"{SOURCE}: block `{proposal.block}` now has these steps", file=sys.stderr)
        if others := [p.size for p in found if p.block == proposal.block and p != proposal]:
            print(_one_order_for_all(proposal, others), file=sys.stderr)
    if text == before:
        return _complain("nothing to write: name a block to replace steps of its own", SOUND)
    with keep_aside(options.folder) as aside:
        aside.write(SOURCE, text.encode("utf-8"))
        aside.replace()
    return SOUND


def _one_order_for_all(written: Proposal, others: Sequence[str]) -> str:
    """Steps written are those of every size: which sizes would have had others."""
    sizes = ", ".join(f"`{size}`" for size in others)
    return (
        f"they are the order found for size `{written.size}`; shown above is another for {sizes}. "
        f"Steps in the pattern hold for every size: leave `sew: auto` to plan each by itself, or "
        "choose by `--size`"
    )


def _one(name: str | None) -> list[str] | None:
    return None if name is None else [name]


def _bed(options: argparse.Namespace) -> int:
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
        return _complain(str(fault), WRONG_CALL)
    print(text, end="")
    return SOUND


def _new(options: argparse.Namespace) -> int:
    folder: Path = options.folder
    try:
        taken = folder.exists() and (not folder.is_dir() or any(folder.iterdir()))
    except OSError as fault:
        return _complain(f"cannot look into `{folder}`: {(fault.strerror or str(fault)).lower()}")
    if taken:
        return _complain(f"`{folder}` is there already and not empty; choose another name")
    write_files(folder, starter_files())
    print(f"started a pattern in {folder}")
    print(f"  {folder / SOURCE} is the pattern: open it in any text editor and read its notes")
    print(f"now try: booklet build {_quoted(folder)}")
    return SOUND


def _explain(options: argparse.Namespace) -> int:
    if options.code is None:
        print(console.rule_list(), end="")
        return SOUND
    page, found = console.explain(options.code)
    print(page, end="", file=sys.stdout if found else sys.stderr)
    return SOUND if found else WRONG_CALL


def _schema(options: argparse.Namespace) -> int:
    schema = facts_schema() if options.facts else pattern_schema()
    print(json.dumps(schema, indent=1, ensure_ascii=False))
    return SOUND


def _tell(diagnostics: tuple[Diagnostic, ...], folder: Path) -> None:
    """Print diagnostics to standard error."""
    if diagnostics:
        print(console.as_text(diagnostics, _reader(folder)), file=sys.stderr)


def _tally(diagnostics: tuple[Diagnostic, ...]) -> str:
    """How many faults there are, and where to read more about the first."""
    parts = (console.tally(diagnostics), console.more_about(diagnostics))
    return "; ".join(part for part in parts if part)


def _reader(folder: Path) -> console.Reader:
    return lambda file: source_text(folder, file)


def _quoted(path: Path) -> str:
    """A path as it is written in a command."""
    return f'"{path}"' if " " in str(path) else str(path)


def _wrong_folder(options: argparse.Namespace) -> str | None:
    """A sentence if what was named is no folder."""
    folder: Path = options.folder
    try:
        if folder.is_dir():
            return None
        if folder.is_file():
            call = f"booklet {options.command} {_quoted(folder.parent)}"
            hint = f"its folder is meant: {call}" if folder.name == SOURCE else "name a folder"
            return f"`{folder}` is a file; {hint}"
        beside = [entry.name for entry in folder.parent.iterdir() if (entry / SOURCE).is_file()]
    except (OSError, ValueError):
        beside = []
    hint = did_you_mean(folder.name, beside) or f"`booklet new {_quoted(folder)}` starts one"
    return f"there is no folder `{folder}`; {hint}"


def _unknown_size(checked: CheckedPattern, asked: list[str] | None) -> str | None:
    sizes = compiler.pattern_of(checked).sizes
    return _unknown("size", asked, [size.id for size in sizes])


def _unknown_edition(checked: CheckedPattern, options: argparse.Namespace) -> str | None:
    """A sentence if an edition is not known, or none of those asked for has a size asked for."""
    editions = compiler.pattern_of(checked).booklet.editions
    if wrong := _unknown("edition", options.edition, [edition.id for edition in editions]):
        return wrong
    chosen = [e for e in editions if not options.edition or e.id in options.edition]
    if any(not options.size or not e.sizes or set(e.sizes) & set(options.size) for e in chosen):
        return None
    names = ", ".join(f"`{e.id}` has {_listed(e.sizes)}" for e in chosen)
    return f"nothing is printed in size {_listed(options.size)}: edition {names}"


def _unknown(word: str, asked: list[str] | None, known: list[str]) -> str | None:
    """A sentence that names the first name asked for that is not known."""
    lost = next((name for name in asked or () if name not in known), None)
    if lost is None:
        return None
    return f"this pattern has no {word} `{lost}`; {did_you_mean(lost, known)}"


def _listed(names: Sequence[str]) -> str:
    return ", ".join(f"`{name}`" for name in names)


_COMMANDS = {
    "build": _build,
    "check": _check,
    "facts": _facts,
    "plan": _plan,
    "bed": _bed,
    "new": _new,
    "explain": _explain,
    "schema": _schema,
}
