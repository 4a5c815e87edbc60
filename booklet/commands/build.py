"""Floor 13: `booklet build`: the booklet as web pages and PDF files, and the files for other programs."""

from __future__ import annotations

import argparse
import sys
from collections import Counter
from collections.abc import Callable, Iterator, Sequence

from booklet.checks.checked import CheckedPattern
from booklet.commands.line import console
from booklet.commands.line.arguments import WRONG_CALL
from booklet.commands.line.asking import (
    alternatives_asked,
    unknown_alternative,
    unknown_edition,
    unknown_language,
    unknown_size,
    unmade_alternative,
    wrong_folder,
)
from booklet.commands.line.saying import FAULTS, SOUND, complain, tally, tell, waiting
from booklet.exports.press.printing import USUAL_SHEET, Printing, PrintingError, read_profile
from booklet.layouts import WallError
from booklet.pages.prepress.pdf import NoPdf
from booklet.pages.prepress.variants import Attached
from booklet.pages.texts.templating import OwnPageError
from booklet.recipe import compiler
from booklet.recipe.inventory import checked_inventory, guarded, put_in_place
from booklet.recipe.output import keep_aside, refuse_link
from booklet.recipe.since import earlier, told as changes
from booklet.source.reader import source_files


def command(options: argparse.Namespace) -> int:
    """Write the files; the exit status. Raises OutputError."""
    try:
        return _build(options)
    except OwnPageError as fault:
        tell((fault.fault,), options.folder)
        print(f"{tally((fault.fault,))}; nothing was written", file=sys.stderr)
        return FAULTS
    except (NoPdf, PrintingError, WallError) as fault:
        return complain(str(fault))


def _build(options: argparse.Namespace) -> int:
    def say(text: str) -> None:
        if not options.quiet:
            print(console.printable(text), file=sys.stderr, flush=True)

    if wrong := wrong_folder(options):
        return complain(wrong, WRONG_CALL)
    if wrong := _contrary(options):
        return complain(wrong, WRONG_CALL)
    profile = _profile(options)
    say(f"reading and checking {options.folder}")
    with waiting():
        outcome = compiler.check(
            options.folder, options.trust_pages, together=alternatives_asked(options)
        )
    tell(outcome.diagnostics, options.folder)
    checked = outcome.value
    if checked is None:
        print(f"{tally(outcome.diagnostics)}; nothing was written", file=sys.stderr)
        return FAULTS
    pattern = compiler.pattern_of(checked)
    if wrong := (
        unknown_size(pattern, options.size)
        or unknown_language(pattern, options.language)
        or unknown_alternative(pattern, options.colourway, options.layout)
        or unknown_edition(pattern, options)
        or unmade_alternative(pattern, options)
    ):
        return complain(wrong, WRONG_CALL)
    target = options.out or options.folder / "out"
    refuse_link(options.folder, target)
    listed = checked_inventory(target, options.replace)
    tables = earlier(target, listed)
    say("working out the numbers and drawing the pictures")
    with keep_aside(target) as aside:
        fresh: dict[str, bytes] = {}
        put = guarded(aside, target, options.replace)

        def write(name: str, data: bytes) -> None:
            put(name, data)
            if name in tables:
                fresh[name] = data

        _make(options, checked, profile, write, say)
        whole = not any(getattr(options, name) for name in _NARROWING)
        changed = changes(tables, listed, fresh, aside.contents, pattern.version)
        names, old = put_in_place(aside, target, pattern, whole, options.replace)
    say(f"wrote {len(names)} file{'' if len(names) == 1 else 's'} to {target}")
    for line in (*_listed(names), *changed):
        say(line)
    if old:
        _tell_old(old, whole, say)
    return SOUND


def _make(
    options: argparse.Namespace,
    checked: CheckedPattern,
    profile: bytes,
    write: compiler.Write,
    say: Callable[[str], None],
) -> None:
    """Make the files that were asked for."""
    wanted = compiler.BuildOptions(
        sizes=tuple(options.size or ()),
        editions=tuple(options.edition or ()),
        languages=tuple(options.language or ()),
        alternatives=tuple(alternatives_asked(options)),
        papers=tuple(options.paper or ()),
        printing=Printing(
            imposed=options.imposed,
            creep=USUAL_SHEET if options.creep is None else options.creep,
            crop_marks=options.crop_marks,
            low_ink=options.low_ink,
            profile=profile,
            attached=_sources(options),
        ),
        beside=not (options.booklet_only or options.web or options.pdf),
        web=options.web or not options.pdf,
        pdf=options.pdf or not options.web,
        books=options.epub,
        sites=options.site,
        large=options.large_print,
    )
    compiler.build(checked, wanted, write, say)


def _profile(options: argparse.Namespace) -> bytes:
    """The colour profile of the press that pages are made for; empty if they are for none. Raises PrintingError."""
    if not options.for_printer:
        return b""
    if options.profile is None:
        from booklet.pages.prepress.inks import grey_profile

        return grey_profile()
    return read_profile(options.profile)


def _sources(options: argparse.Namespace) -> tuple[Attached, ...]:
    """What an archived booklet carries of its source."""
    if not options.archive:
        return ()
    found = source_files(options.folder, options.trust_pages)
    return tuple(Attached(name, data, "Source") for name, data in found.items())


def _contrary(options: argparse.Namespace) -> str | None:
    """A sentence if what was asked for cannot go together."""
    if options.creep is not None and not options.imposed:
        return "`--creep` is for sheets that are folded; add `--imposed`"
    if options.large_print and (
        options.imposed
        or any(paper.value in ("half letter", "a5") for paper in options.paper or ())
    ):
        return "`--large-print` needs the whole of letter or A4; leave `--imposed` and small papers out"
    if options.profile is not None and not options.for_printer:
        return "`--profile` is the colours of a press; add `--for-printer`"
    if options.for_printer and options.imposed:
        return (
            "`--for-printer` makes single pages with bleed, and on sheets that are folded the bleed of a page would lie "
            "on its neighbour; leave `--imposed` out: a print shop imposes pages itself"
        )
    other = next(
        (name for name in ("imposed", "crop_marks", "for_printer") if getattr(options, name)), None
    )
    if options.archive and other:
        option = f"--{other.replace('_', '-')}"
        return f"`--archive` keeps the plain booklet; make the files of `{option}` in a build of their own"
    printed = next((name for name in _PRINTING if getattr(options, name)), None)
    if printed and options.web and not options.pdf:
        option = f"--{printed.replace('_', '-')}"
        return f"`{option}` is for PDF files, and `--web` makes none; leave one of them out, or add `--pdf`"
    return None


def _listed(names: Sequence[str]) -> Iterator[str]:
    """A line for each file, and one for each site."""
    rooms = Counter(name.partition("/")[0] for name in names if "/" in name)
    yield from (f"  {name}" for name in names if "/" not in name)
    yield from (
        f"  {room}/: {count} files; open or put on the web its `index.html`"
        for room, count in rooms.items()
    )


_PRINTING = ("paper", "imposed", "crop_marks", "low_ink", "for_printer", "archive", "large_print")
_NARROWING = (
    "size",
    "edition",
    "language",
    "colourway",
    "layout",
    *_PRINTING,
    "booklet_only",
    "web",
    "pdf",
)


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
