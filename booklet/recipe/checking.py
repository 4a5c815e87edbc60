"""Floor 12: the first half of the recipe. A folder goes in; a checked pattern comes out, or every fault found.

It loads nothing that draws or sets pages: an editor asks for faults at every save.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import partial
from pathlib import Path
from typing import TypeVar

from booklet.checks.bounds import within_bounds
from booklet.checks.checked import CheckedPattern, admit, examine, tidy
from booklet.checks.class_made import class_faults, taught
from booklet.checks.early import before_sewing
from booklet.checks.parts_made import part_faults, parted
from booklet.checks.whole import UNUSED
from booklet.cutting import cut
from booklet.geometry import lay_out
from booklet.geometry.tiling import LaidOut
from booklet.kit.diagnostic import Diagnostic, Outcome
from booklet.kit.records import replace
from booklet.kit.remembered.memory import Ask, Memory
from booklet.kit.running.doing import doing
from booklet.pages.style.look import look_faults
from booklet.pages.style.oddities import oddities
from booklet.pages.texts.text_faults import text_faults
from booklet.pattern import Alternative, AlternativeKind, Pattern, Voice
from booklet.pattern.spoken import spoken, voices_of
from booklet.pressing import press
from booklet.quilt import set_quilts
from booklet.sewing import assemble
from booklet.sewing.auto.finding import search_order, search_tree, with_routes
from booklet.sewing.planner.paper_steps import search_papers
from booklet.sewing.stage import assemble_block
from booklet.source.reader import read_folder

TURNED = "one-way-turned"

T = TypeVar("T")
U = TypeVar("U")


def check(
    folder: Path,
    trust_pages: bool = False,
    given: bytes | None = None,
    ask: Ask | None = None,
    together: Sequence[str] = (),
) -> Outcome[CheckedPattern]:
    """The checked pattern of a folder, with everything computed and every diagnostic found; with page
    templates and a style sheet of the author's own only where they are trusted. `given`, if not None, is
    read in place of the folder's `pattern.yaml`; `together` names colourways with layouts that are taken together beside
    those of the editions."""
    return check_voices(read_folder(folder, trust_pages, given, together=together), ask)


def check_voices(read: Outcome[Pattern], ask: Ask | None = None) -> Outcome[CheckedPattern]:
    """As `check_pattern`, with what is at fault only where an edition prints in other units than the pattern."""
    ask = ask or of_one_run()
    found = check_pattern(read, ask)
    if found.value is None or read.value is None:
        return found
    other = next((v for v in voices_of(read.value) if v.units != read.value.units), None)
    if other is None:
        return found
    told = {(d.code, d.span) for d in found.diagnostics}
    also = check_pattern(Outcome(spoken(read.value, other)), ask).diagnostics
    units = "centimetres" if other.units == "cm" else "inches"
    more = tuple(
        replace(d, message=f"in an edition in {units}: {d.message}")
        for d in also
        if (d.code, d.span) not in told
    )
    value = None if any(d.is_error for d in more) else found.value
    return Outcome(value, (*found.diagnostics, *more))


def in_voice(checked: CheckedPattern, voice: Voice, ask: Ask) -> CheckedPattern:
    """The checked pattern in the voice of an edition. ValueError where `check` finds it at fault."""
    if voice == checked.pattern.voice:
        return checked
    found = check_pattern(Outcome(spoken(checked.pattern, voice)), ask).value
    if found is None:
        raise ValueError(f"the pattern cannot be printed as {voice}")
    return found


def check_pattern(read: Outcome[Pattern], ask: Ask | None = None) -> Outcome[CheckedPattern]:
    """The checked pattern of what was read, in each of its colourways and layouts as well; its questions are put to `ask`,
    by default to a memory of this run alone. What an alternative has in common with the pattern is answered once."""
    ask = ask or of_one_run()
    found = _check_alone(read, ask)
    if read.value is None or not any(one.sizes for one in read.value.alternatives):
        return found
    made = [
        (one, _check_alone(Outcome(read.value.taken_as(one)), ask))
        for one in read.value.alternatives
        if not one.is_own
    ]
    diagnostics = tidy((*_own(found, made), *_of_alternatives(found, made)))
    values = tuple(outcome.value for _, outcome in made if outcome.value is not None)
    if found.value is None or len(values) < len(made):
        return Outcome(None, diagnostics)
    return Outcome(replace(found.value, alternatives=values), diagnostics)


_Made = Sequence[tuple[Alternative, Outcome[CheckedPattern]]]


def _own(found: Outcome[CheckedPattern], made: _Made) -> Iterator[Diagnostic]:
    """The diagnostics of the pattern as it is, but for names that an alternative uses."""
    unused = [{d.message for d in one.diagnostics if d.code == UNUSED} for _, one in made]
    for d in found.diagnostics:
        if d.code != UNUSED or all(d.message in each for each in unused):
            yield d


def _of_alternatives(found: Outcome[CheckedPattern], made: _Made) -> tuple[Diagnostic, ...]:
    """What is at fault in alternatives only, each told for the first that has it."""
    told = {(d.code, d.span, d.severity) for d in found.diagnostics}
    more: dict[object, Diagnostic] = {}
    for one, outcome in made:
        for d in outcome.diagnostics:
            key = d.code, d.span, d.severity
            if d.code != UNUSED and key not in told:
                more.setdefault(key, _said_of(one, d))
    return tuple(more.values())


def _said_of(one: Alternative, found: Diagnostic) -> Diagnostic:
    """What is at fault in an alternative only, with its name. Blocks stand turned in every colourway: where a print must
    not, it is the colourway that is to be mended."""
    message = f"in {one.kind.value} `{one.id}`: {found.message}"
    of_cloth = one.kind is AlternativeKind.COLOURWAY and found.code == TURNED
    return replace(found, message=message, span=one.span if of_cloth else found.span)


def _check_alone(read: Outcome[Pattern], ask: Ask) -> Outcome[CheckedPattern]:
    """The checked pattern of what was read, without its colourways and layouts."""
    made = admit(
        read.then(read_texts)
        .then(partial(lay_out, ask=ask))
        .then(before_sewing)
        .then(partial(assemble, ask=ask))
        .then(_named("how the allowances are pressed", partial(press, ask=ask)))
        .then(_named("how the blocks are set", partial(set_quilts, ask=ask)))
        .then(within_bounds)
        .then(_named("how the cloth is cut", partial(cut, ask=ask)))
        .then(examine)
    )
    return made.then(_named("what the class makes", partial(taught, ask=ask))).then(
        _named("what is made in each part", partial(parted, ask=ask))
    )


def _named(what: str, stage: Callable[[T], Outcome[U]]) -> Callable[[T], Outcome[U]]:
    """The same stage, which tells what it works out."""

    def told(value: T) -> Outcome[U]:
        with doing(f"working out {what}"):
            return stage(value)

    return told


def of_one_run() -> Ask:
    """Remembers what one pattern asks more than once: blocks that are sewn alike in several sizes."""
    return Memory().only(assemble_block, with_routes, search_order, search_papers, search_tree)


def lay_out_folder(folder: Path) -> Outcome[LaidOut]:
    """The laid-out blocks of a folder, whatever their orders say."""
    return read_folder(folder).then(lay_out).then(before_sewing)


def read_texts(pattern: Pattern) -> Outcome[Pattern]:
    """The same pattern with the faults of its texts and of all words that are printed."""
    own = (*_own_faults(pattern), *look_faults(pattern))
    made = (*class_faults(pattern), *part_faults(pattern))
    return Outcome(pattern, (*text_faults(pattern), *own, *oddities(pattern), *made))


def _own_faults(pattern: Pattern) -> tuple[Diagnostic, ...]:
    """The faults of page templates of the author's own: few have any, so what reads them is loaded for those."""
    if not pattern.templates:
        return ()
    from booklet.pages.texts.templating import own_faults

    return tuple(own_faults(pattern.templates))


def pattern_of(checked: CheckedPattern) -> Pattern:
    """The pattern that was checked."""
    return checked.pattern
