"""Floor 11: what the author puts on the cover and on the last page: a picture, for whom the pattern is, the imprint."""

from __future__ import annotations

from markupsafe import Markup

from booklet.kit.words import Text, listing, phrase, plural_phrase
from booklet.pages.texts.text_faults import picture_address
from booklet.pages.texts.words import Words
from booklet.pattern import Difficulty, OwnPicture, Pattern
from booklet.plan import SizePlan

DIFFICULTIES = {
    Difficulty.BEGINNER: phrase("For beginners", context="difficulty"),
    Difficulty.CONFIDENT: phrase("For confident beginners", context="difficulty"),
    Difficulty.INTERMEDIATE: phrase("For sewers with some practice", context="difficulty"),
    Difficulty.ADVANCED: phrase("For experienced sewers", context="difficulty"),
}


def own_picture(pattern: Pattern, picture: OwnPicture | None, css: str) -> Markup:
    """A picture of the author's, or nothing where there is none."""
    data = pattern.pictures.get(picture.file) if picture else None
    address = picture_address(data) if data else None
    if picture is None or address is None:
        return Markup()
    framed = Markup('<figure class="{}"><img src="{}" alt="{}"></figure>')
    return framed.format(css, address, picture.words)


def cover_lines(
    pattern: Pattern, sizes: tuple[SizePlan, ...], words: Words
) -> tuple[tuple[Markup, Markup], ...]:
    """What the cover tells a reader who chooses: for whom it is, how long it takes, what one must know; each with its
    head, or without one."""
    cover = pattern.booklet.cover
    found: list[tuple[Text, Text]] = []
    if cover.difficulty:
        found.append(("", DIFFICULTIES[cover.difficulty]))
    if cover.time and (times := _times(sizes)):
        found.append((phrase("Sewing time, estimated:"), times))
    if cover.skills:
        found.append((phrase("You should know:"), listing(cover.skills)))
    return tuple((words.markup(head), words.markup(said)) for head, said in found)


def _times(sizes: tuple[SizePlan, ...]) -> Text:
    """How long each size takes to sew, or the only one."""
    timed = [(size.size.title, whole_hours(size)) for size in sizes if size.sittings]
    if len(timed) == 1:
        return _hours(timed[0][1])
    return listing(
        tuple(phrase("{size} {hours}", size=title, hours=_hours(hours)) for title, hours in timed)
    )


def _hours(hours: int) -> Text:
    return plural_phrase("about {n} hour", "about {n} hours", hours)


def whole_hours(size: SizePlan) -> int:
    """All sittings of a size together, up to the next hour: three of 80 min are 4 h, and so are 181 min."""
    minutes = sum(each.minutes * (each.last - each.first + 1) for each in size.sittings)
    return int(-(-round(minutes, 6) // 60))
