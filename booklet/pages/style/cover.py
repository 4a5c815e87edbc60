"""Floor 11, the cover: a band for the title, and below it a wall on which the quilt hangs.

The quilt is as large as the page allows, so the height of the title is worked out beforehand from the
widths of its letters.
"""

from __future__ import annotations

from booklet.kit.records import Record
from booklet.pages.style.fonts import FACES, text_width
from booklet.pages.style.paper import Sheet
from booklet.pattern import OwnFont

SIDE = 42.0  # points: the margin of the cover
TOP = 38.0
SMALL = 8.5
GAP = 21.0  # between the title and the wall, and about the quilt
FOOT = 40.0  # the line below the quilt
LOGO = 40.5  # the logo above the title, with the space below it
NARROWEST = 42.0  # of the pile of cloths beside the quilt


class Wall(Record, kw_only=True):
    """Where things stand on the cover, in points: the title's size and line, where the wall begins,
    and the box of the quilt upon it."""

    title: float
    line: float
    top: float
    picture_height: float
    page_width: float

    def hung(self, across: float, down: float) -> tuple[float, float]:
        """Width and height of a quilt of these proportions, as large as the wall allows."""
        wide = self.page_width - 2 * SIDE
        scale = min(wide / across, self.picture_height / down)
        return across * scale, down * scale

    @property
    def room(self) -> tuple[float, float]:
        """Width and height of all that can hang on it."""
        return self.page_width - 2 * SIDE, self.picture_height

    def beside(self, across: float, down: float) -> float:
        """The width left beside that quilt; 0 where it is too narrow for the pile of its cloths."""
        left = self.page_width - 2 * SIDE - self.hung(across, down)[0] - GAP * 0.6
        return left if left >= NARROWEST else 0.0


def wall_of(
    sheet: Sheet,
    title: str,
    summary: str,
    has_logo: bool = False,
    told: tuple[str, ...] = (),
    face: OwnFont | None = None,
    large: bool = False,
    text_face: OwnFont | None = None,
) -> Wall:
    """The cover of a sheet for a title and its summary, below a logo if there is one, above what is told in small lines;
    `face` and `text_face` are the author's fonts of titles and of the text, where they are not ours."""
    wide = sheet.width - 2 * SIDE
    size = next((s for s in (58.0, 52.0, 48.0, 44.0, 40.0) if _width(title, s, face) <= wide), 36.0)
    size = min(size, 30.0) if sheet.is_small else size
    line = size * 1.08
    lines = _lines(title, size, wide, semibold=True, own=face)
    said = (
        _lines(summary, 12.0, min(wide, 32 * 12.0), semibold=False, own=text_face) if summary else 0
    )
    if large:
        said = (
            _lines(summary, 19.2, min(wide, 32 * 19.2), semibold=False, own=text_face)
            if summary
            else 0
        )
    top = (
        TOP
        + (9.5 * said + 10 + 26 * len(told) if large else 0)
        + (LOGO if has_logo else 0)
        + 13.5
        + 4
        + lines * line
        + (4 + said * 16.875 if said else 0)
        + (4 + 13.5 * sum(_small_lines(line, wide) for line in told) if told else 0)
        + GAP
    )
    return Wall(
        title=size,
        line=line,
        top=top,
        picture_height=sheet.height - top - GAP - FOOT,
        page_width=sheet.width,
    )


def _small_lines(text: str, wide: float) -> int:
    """How many lines of small type a text fills."""
    lines, used = 1, 0.0
    for word in text.split():
        across = text_width(FACES[5], word + " ", SMALL)
        if used and used + across > min(wide, 66 * 0.5 * SMALL * 1.1):
            lines, used = lines + 1, 0.0
        used += across
    return lines


def _width(text: str, size: float, own: OwnFont | None = None) -> float:
    """The width of a title in points, in the author's font or ours; what the author's lacks is set in ours."""
    if own is None:
        return text_width(FACES[2], text, size)
    lacking = "".join(sign for sign in text if ord(sign) not in own.widths)
    there = sum(own.widths.get(ord(sign), 0) for sign in text)
    return there * size / own.em + text_width(FACES[2], lacking, size)


def _lines(text: str, size: float, wide: float, semibold: bool, own: OwnFont | None = None) -> int:
    """How many lines a text fills."""
    lines, used = 1, 0.0

    def across(word: str) -> float:
        return _width(word, size, own) if semibold or own else text_width(FACES[0], word, size)

    for word in text.split():
        if used and used + across(word) > wide:
            lines, used = lines + 1, 0.0
        used += across(word + " ")
    return lines
