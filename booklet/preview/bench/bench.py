"""Floor 13, the bench: what the folder says now, and the last page that could be made of it.

All of it runs in one thread; a look at the folder and a page are values, so others may keep them.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial
from pathlib import Path

from booklet.checks.checked import CheckedPattern
from booklet.checks.early import before_sewing
from booklet.drawing.ink.svg import render
from booklet.geometry import lay_out
from booklet.kit.diagnostic import Diagnostic, Outcome
from booklet.kit.records import Mutable, Record, field
from booklet.kit.remembered.settled import settled
from booklet.kit.running.doing import told_to
from booklet.pages.composing import SetSo, compose
from booklet.pages.document import Document
from booklet.pages.naming import chosen_sizes
from booklet.pages.pictures.album import drawn
from booklet.pages.pictures.bare import bare_plan
from booklet.pages.pictures.figures import FigureSource
from booklet.pages.pictures.page_parts import Keeper, PartListener, untold
from booklet.pages.pictures.source_marks import marked
from booklet.pages.texts.templating import OwnPageError
from booklet.pattern import BETWEEN, SINGLE_KINDS, Edition, Paper, Pattern
from booklet.pattern.spoken import spoken, voice_of, voices_of
from booklet.plan import Plan
from booklet.preview.bench.remembering import Parts, Pictures, Remembering
from booklet.preview.bench.source_places import Places, places_of
from booklet.preview.touch.asked import Asked
from booklet.preview.touch.table import NoTable, TouchTable, table_of
from booklet.recipe.fault_pictures import fault_scenes
from booklet.recipe.study import Study
from booklet.source.editions.edition_keys import made_in
from booklet.source.files.folder import SOURCE, source_text
from booklet.source.reader import read_folder

MOST_PAGES = 4  # kept at a time: one for each tab that looks
MOST_TOGETHER = 4  # colourways with layouts that are worked out beside those of the editions


class Choice(Record):
    """What a tab shows: a size and an edition by name; a name that is not there means the first. A colourway and a layout
    by name take the place of those of the edition, a name that is not there means these."""

    size: str = ""
    edition: str = ""
    colourway: str = ""
    layout: str = ""

    @property
    def together(self) -> str:
        """The names of its colourway and its layout, if it has both."""
        return BETWEEN.join((self.colourway, self.layout)) if self.colourway and self.layout else ""


class FolderState(Record, kw_only=True):
    """What the folder says: its files, its faults, and whether the page that is shown is of this state;
    `trouble` is a sentence where we failed ourselves, `pictures` are those of faults, as SVG."""

    number: int
    files: Mapping[str, str]
    diagnostics: tuple[Diagnostic, ...]
    sound: bool
    trouble: str = ""
    pictures: Mapping[Diagnostic, str] = field(default_factory=dict)


class ShownPage(Record, kw_only=True):
    """A page as it is shown: the document, what was chosen, where its things are written."""

    pattern: Pattern
    document: Document
    size: str
    edition: str
    choice: Choice
    places: Places


class _Good(Mutable, kw_only=True):
    """The last state that had no errors, with the pages made of it."""

    plan: Plan
    bare: Plan  # as pictures read it
    source: str
    figures: FigureSource
    shown: dict[Choice, ShownPage] = field(default_factory=dict)


class Bench:
    """One folder, looked at again and again."""

    def __init__(
        self, folder: Path, trust_pages: bool = False, language: str | None = None
    ) -> None:
        """`language`: one of the editions, in whose voice the pattern is shown, if not its own."""
        self._folder, self._trust, self._language = folder, trust_pages, language
        self._read: Outcome[Pattern] | None = None
        self._good: _Good | None = None
        self._checked: CheckedPattern | None = None
        self._study, self._remembering = Study(), Remembering()
        self._pictures, self._parts = Pictures(self._remembering), Parts(self._remembering)
        self._together: tuple[str, ...] = ()  # colourways with layouts that tabs ask for
        self._refused: tuple[str, ...] = ()  # those that are at fault, until the folder changes
        self.look = FolderState(number=0, files={}, diagnostics=(), sound=False)
        self.doing = ""

    def _tell(self, what: str) -> None:
        self.doing = what

    def refresh(self) -> bool:
        """Look at the folder; whether anything there has changed for the pattern."""
        again = self._read is not None
        return self.take(
            read_folder(self._folder, self._trust, again=again, together=self._together)
        )

    def take(self, read: Outcome[Pattern]) -> bool:
        """Take what was read of the folder for what it says now; whether anything has changed for the pattern."""
        files = self._files(read)
        if read == self._read and files == self.look.files:
            return False
        if files != self.look.files:
            self._refused = ()
        self._read = read
        for kept in (self._remembering, self._pictures, self._parts):
            kept.next_round()
        with told_to(self._tell):
            outcome = self._study.check(self._said(read))
        self._checked = checked = outcome.value
        if checked is not None:
            plan = settled(self._study.plan(checked), self._good and self._good.plan)
            bare = settled(bare_plan(plan), self._good and self._good.bare)
            figures = drawn(plan, ask=self._pictures.ask, bare=bare)
            self._good = _Good(plan=plan, bare=bare, source=files.get(SOURCE, ""), figures=figures)
        number, found = self.look.number + 1, outcome.diagnostics
        pictures = {
            fault: render(scene)
            for fault, scene in fault_scenes(read.value, found, self._study.ask)
        }
        self.look = FolderState(
            number=number,
            files=files,
            diagnostics=found,
            sound=checked is not None,
            pictures=pictures,
        )
        return True

    def _said(self, read: Outcome[Pattern]) -> Outcome[Pattern]:
        """What was read, in the language asked for; as it is where no edition has that."""
        voices = voices_of(read.value) if read.value is not None else ()
        voice = next((v for v in voices if v.language == self._language), None)
        if read.value is None or voice is None:
            return read
        return Outcome(spoken(read.value, voice), read.diagnostics)

    def table(self, asked: Asked) -> TouchTable:
        """The block that is to be touched, as the folder lays it out now. Raises NoTable where it cannot be laid out."""
        read = self._read
        laid = (
            read.then(partial(lay_out, ask=self._study.ask)).then(before_sewing) if read else None
        )
        if laid is None or laid.value is None or not laid.value.pattern.sizes:
            raise NoTable("the source cannot be read yet: mend the faults first")
        known = self._checked.assemblies if self._checked else {}
        return table_of(laid.value, asked, known, self._study.ask)

    def again(self, given: str) -> Pattern | None:
        """What the folder would say with another text of the source; None where that could not be read."""
        return read_folder(self._folder, self._trust, given.encode("utf-8")).value

    def fail(self, fault: BaseException) -> None:
        """Say that we failed, and keep the page that is shown."""
        self._read = None
        what = " ".join(f"{type(fault).__name__}: {fault}".split())[:200]
        if isinstance(fault, MemoryError):
            what = "this pattern needs more memory than there is; make it smaller"
        else:
            what = f"the program, not your pattern, is at fault: {what}"
        if what != self.look.trouble:
            self.look = FolderState(
                number=self.look.number + 1,
                files=self.look.files,
                diagnostics=(),
                sound=False,
                trouble=what,
            )

    def shown(self, choice: Choice, told: PartListener = untold) -> ShownPage | None:
        """The page of a choice as of the last state without errors; None where there was none yet. `told` hears of
        each part as soon as it is set.

        A page of the author's own that cannot be set is a fault like any other. A colourway and a layout that are together in
        no edition are worked out when they are first asked for.
        """
        if choice.together and choice.together not in (*self._together, *self._refused):
            self._work_out(choice.together)
        good = self._good
        if good is None:
            return None
        if choice not in good.shown:
            try:
                made = _made(good, choice, self._parts, told)
            except OwnPageError as fault:
                self._refuse(fault.fault)
                return None
            while len(good.shown) >= MOST_PAGES:
                good.shown.pop(next(iter(good.shown)))
            good.shown[choice] = made
        return good.shown[choice]

    def _work_out(self, together: str) -> None:
        """Work out a colourway with a layout; where that is at fault they are not shown together."""
        before, was_sound = self._together, self.look.sound
        self._together = (*before, together)[-MOST_TOGETHER:]
        self.refresh()
        if was_sound and not self.look.sound:
            self._together, self._refused = before, (*self._refused, together)
            self.refresh()

    def print_page(self, choice: Choice, paper: Paper) -> Document | None:
        """The print page of a choice; None where there is nothing to print."""
        if self._good is None:
            return None
        plan = self._good.plan
        edition, size = _named(plan, choice)
        edition = _taken(plan.pattern, edition, choice)
        return compose(plan, edition, self._good.figures, paper, (size,))

    def _refuse(self, fault: Diagnostic) -> None:
        look = self.look
        if fault not in look.diagnostics:
            found = (*look.diagnostics, fault)
            number = look.number + 1
            self.look = FolderState(
                number=number,
                files=look.files,
                diagnostics=found,
                sound=False,
                pictures=look.pictures,
            )

    def _files(self, read: Outcome[Pattern]) -> dict[str, str]:
        """The text of the source, of the texts it names, and of files with a fault."""
        texts = dict(read.value.texts) if read.value is not None else {}
        named = dict.fromkeys((SOURCE, *texts, *(d.span.file for d in read.diagnostics)))
        found = {
            name: texts[name] if name in texts else source_text(self._folder, name)
            for name in named
        }
        return {name: text for name, text in found.items() if text is not None}


def _made(good: _Good, choice: Choice, keeper: Keeper, told: PartListener) -> ShownPage:
    """The page of a choice."""
    edition, size = _named(good.plan, choice)
    called = edition.called
    edition = _taken(good.plan.pattern, edition, choice)
    if good.plan.pattern.templates:  # a page of the author's may yet turn out not to be one
        told = untold
    so = SetSo(marks=marked, keeper=keeper, told=told)
    document = compose(good.plan, edition, good.figures, None, (size,), so)
    shown = next(p for p in good.plan.shown_by(edition).sizes if p.size.id == size)
    return ShownPage(
        pattern=good.plan.pattern,
        document=document,
        size=size,
        edition=called,
        choice=choice,
        places=places_of(shown, edition, good.source),
    )


def _named(plan: Plan, choice: Choice) -> tuple[Edition, str]:
    """The edition and the size of a choice, or the first there are."""
    editions = plan.pattern.booklet.editions
    editions = tuple(
        e for e in editions if chosen_sizes(plan, e)
    )  # a part may make nothing of some sizes
    spoken_so = [e for e in editions if voice_of(plan.pattern, e) == plan.pattern.voice]
    named = (e for e in (*spoken_so, *editions) if e.called == choice.edition)
    edition = next(named, (*spoken_so, *editions)[0])
    sizes = [size.size.id for size in chosen_sizes(plan, edition)]
    return edition, choice.size if choice.size in sizes else sizes[0]


def _taken(pattern: Pattern, edition: Edition, choice: Choice) -> Edition:
    """An edition in the colourway and the layout of a choice; as it is where it names none, or one that cannot be."""
    its = {one.kind: one.id for one in pattern.alternatives_in(edition.alternative)}
    for kind, name in zip(SINGLE_KINDS, (choice.colourway, choice.layout), strict=True):
        if any(one.kind is kind and one.id == name for one in pattern.alternatives if name):
            its[kind] = name
    names = BETWEEN.join(its[kind] for kind in SINGLE_KINDS if kind in its)
    try:
        pattern.alternative_of(names)
    except KeyError:
        return edition
    return edition if names == edition.alternative else made_in(edition, names)


def ways(pattern: Pattern) -> dict[str, list[tuple[str, str]]]:
    """The colourways and the layouts by name and title; none of a kind of which there is one only."""
    named = {
        kind.value: [
            (one.id, one.title) for one in pattern.alternatives if one.kind is kind and one.id
        ]
        for kind in SINGLE_KINDS
    }
    return {kind: found for kind, found in named.items() if found}


def choices(pattern: Pattern) -> dict[str, list[tuple[str, str]]]:
    """The sizes of each edition, by name and title."""
    return {
        edition.called: [
            (size.id, size.title)
            for size in pattern.sizes
            if not edition.sizes or size.id in edition.sizes
        ]
        for edition in pattern.booklet.editions
    }
