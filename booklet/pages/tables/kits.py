"""Floor 11: what the pages of a class show: its kits, how they are cut, the day, the board of samples."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from markupsafe import Markup

from booklet.kit.records import Record
from booklet.kit.trade import LAYERS
from booklet.kit.words import Text, area_text, listing, phrase, plural_phrase
from booklet.pages.tables.lessons import by_the_clock
from booklet.pages.tables.methods import what_is_sewn
from booklet.pages.tables.view import Amount, to_cut
from booklet.pages.texts.words import Words
from booklet.pattern import Fabric, Lesson, Pattern
from booklet.plan import Plan, SizePlan
from booklet.plan.workshop.day import Day, day_of
from booklet.plan.workshop.kits import KitItem, StackedStrips, kit_items, stacked
from booklet.plan.workshop.samples import Cut, cut_for, samples

KITS_ACROSS = 12  # columns of boxes that fit beside the words of a list on the smallest paper


class KitRow(Record):
    """A line of a kit: so many of one patch or part of one cloth."""

    title: Text
    fabric: Fabric
    pieces: int
    reversed: int


class KitLabel(Record):
    """The label of one bag: its number, whose it is, if that is known, and whether it is a spare one."""

    number: int
    reader: str
    spare: bool


class StackRow(Record, kw_only=True):
    """Strips of one width that are stacked: how many, how they are laid, the cuts, and what they give."""

    strips: int
    width: Text
    stacks: Text
    cuts: int
    singly: int
    gives: Text


class KitView(Record, kw_only=True):
    """All kits of a class: how many, what is in each, what is bought, and how it is cut in layers."""

    title: str
    students: int
    spares: int
    kits: int
    layers: int
    makes: Text
    rows: tuple[KitRow, ...]
    bought: tuple[tuple[Fabric, Amount], ...]
    batting: Text
    stacks: Mapping[str, tuple[StackRow, ...]]  # by fabric
    labels: tuple[KitLabel, ...]
    columns: tuple[tuple[KitLabel, ...], ...]  # the kits in rows that fit across a page

    @property
    def pieces(self) -> int:
        """How many pieces lie in each kit."""
        return sum(row.pieces for row in self.rows)


def kit_view(plan: Plan, size: str, words: Words) -> KitView | None:
    """The kits of a size; None where no students are counted."""
    whole, lesson = plan.kits_of(size), plan.pattern.booklet.lesson
    if whole is None or lesson.students is None:
        return None
    labels = _labels(lesson, _names(plan.pattern))
    batting = whole.quilt.batting
    cloths = whole.cutting.fabrics
    return KitView(
        title=plan.pattern.title,
        students=lesson.students,
        spares=lesson.spares,
        kits=lesson.kits,
        layers=LAYERS,
        makes=makes_words(whole),
        rows=tuple(_row(item, whole) for item in kit_items(whole)),
        bought=tuple((line.fabric, Amount(line.buy, line.buy_other)) for line in whole.materials),
        batting=area_text(batting, plan.pattern.units) if batting else "",
        stacks={
            cloth.fabric: tuple(_stack(row, whole) for row in stacked(whole.cutting, cloth))
            for cloth in cloths
        },
        labels=labels,
        columns=tuple(labels[at : at + KITS_ACROSS] for at in range(0, len(labels), KITS_ACROSS)),
    )


def _names(pattern: Pattern) -> tuple[str, ...]:
    """The names of the students, of the first edition of the class that has any."""
    editions = (e for e in pattern.booklet.editions if e.of_class and e.names)
    return next((edition.names for edition in editions), ())


def _labels(lesson: Lesson, names: Sequence[str]) -> tuple[KitLabel, ...]:
    """A label for each kit; the last are the spare ones."""
    students = lesson.students or 0
    return tuple(
        KitLabel(n, names[n - 1] if n <= min(len(names), students) else "", n > students)
        for n in range(1, lesson.kits + 1)
    )


def makes_words(plan: SizePlan) -> Text:
    """What each student makes: "2 blocks “Pennant”", or a whole size by its title."""
    if plan.size.in_class is None or not plan.size.in_class.blocks:
        return phrase("the whole “{size}”", size=plan.size.title)
    return listing(
        plural_phrase(
            "{n} block “{block}”", "{n} blocks “{block}”", block.count, block=block.block.title
        )
        for block in plan.blocks
    )


def _row(item: KitItem, plan: SizePlan) -> KitRow:
    return KitRow(item.title, plan.fabric(item.fabric), item.pieces, item.reversed)


def _stack(row: StackedStrips, whole: SizePlan) -> StackRow:
    """A row of the table of stacks; patches are named by their letters, parts by their titles."""
    layers: dict[int, int] = {}
    for stack in row.stacks:
        layers[stack.layers] = layers.get(stack.layers, 0) + 1
    said = [
        plural_phrase("{n} strip alone", "{n} strips alone", count)
        if deep == 1
        else plural_phrase("{n} stack of {layers}", "{n} stacks of {layers}", count, layers=deep)
        for deep, count in layers.items()
    ]
    titles = {p.name: p.title for p in whole.cutting.patches if p.outline is None}
    gives = [
        phrase("{name} × {n}", name=titles.get(name, name), n=count) for name, count in row.gives
    ]
    return StackRow(
        strips=row.strips,
        width=to_cut(whole.pattern, row.width),
        stacks=listing(said, "commas"),
        cuts=row.cuts,
        singly=row.cuts_singly,
        gives=listing(gives, "commas"),
    )


class DayRow(Record, kw_only=True):
    """A stretch of the class: when, in which session (told where it begins), what is sewn, what is needed."""

    when: Text
    session: str  # "" where it goes on
    what: Markup
    is_break: bool
    is_own: bool  # told by the author, who says what it needs
    machine: bool
    iron: bool
    light: bool


class DayView(Record):
    """The day of a class, and about how many minutes of sewing it has no time for, or nothing."""

    rows: tuple[DayRow, ...]
    left: str
    each: Text  # how many need what is marked


def day_view(plan: SizePlan, words: Words) -> DayView | None:
    """The day of the class that sews what a plan says; None without sessions."""
    lesson = plan.pattern.booklet.lesson
    if not lesson.sessions or not plan.sittings:
        return None
    day = day_of(lesson, plan)
    left = str(round(day.left)) if day.left >= 1 else ""
    each = str(lesson.students) if lesson.students else phrase("all", context="of the class")
    return DayView(_day_rows(day, lesson, plan, words), left, each)


def _day_rows(day: Day, lesson: Lesson, plan: SizePlan, words: Words) -> tuple[DayRow, ...]:
    """The rows of the table, the session named where it begins."""
    several = sum(bool(block.count and block.is_worked) for block in plan.blocks) > 1
    rows = []
    session = -1
    for n, one in enumerate(day.stretches):
        begins = n == 0 or day.stretches[n - 1].session is not one.session
        is_own = begins and one.task is None and bool(one.session.do) and not one.session.is_break
        if one.session.is_break:
            what = Markup()
        elif is_own:  # nothing that is reckoned is sewn in it
            what = words.markup(listing(one.session.do, "sentences"))
        elif one.task is None:
            what = words.phrase("Time in hand: questions, and whoever needs longer.")
        elif one.goes_on:
            what = words.phrase("{task}, continued", task=what_is_sewn(one.task, several, words))
        else:
            what = what_is_sewn(one.task, several, words)
        session += begins
        times = (by_the_clock(round(m), lesson, session) for m in (one.begin, one.end))
        rows.append(
            DayRow(
                when=phrase("{start}–{end}", start=next(times), end=next(times)),
                session=one.session.title if begins else "",
                what=what,
                is_break=one.session.is_break,
                is_own=is_own,
                machine=one.machine,
                iron=one.iron,
                light=one.light,
            )
        )
    return tuple(rows)


class SampleRow(Record, kw_only=True):
    """A stage to show: its picture by name, its title, and the patches it takes."""

    picture: str
    block: str
    title: Text
    number: int
    patches: Text


class SampleView(Record):
    """The board of samples, and what is cut for all of it."""

    rows: tuple[SampleRow, ...]
    cut: Text


def sample_view(plan: SizePlan) -> SampleView | None:
    """The board of samples; None where nothing is sewn."""
    found = samples(plan)
    if not found:
        return None
    rows = tuple(
        SampleRow(
            picture=f"thumb {one.block.block.id} {one.card.n}",
            block=one.block.block.title,
            title=one.card.title,
            number=one.card.n,
            patches=_patches(one.patches, plan),
        )
        for one in found
    )
    return SampleView(rows, _patches(cut_for(found), plan))


def _patches(counts: Sequence[tuple[Cut, int]], plan: SizePlan) -> Text:
    """Patches by letter and cloth: "A Tar × 2, B Sail × 1"."""
    said = [
        phrase("{letter} {fabric} × {n}", letter=letter, fabric=plan.fabric(fabric).name, n=count)
        for (letter, fabric), count in counts
    ]
    return listing(said, "commas")
