"""Floor 11, imposition: which pages stand side by side on the sheets of a booklet that is folded and stapled.

Saddle stitch: every sheet carries four pages, and all sheets are laid into each other and stapled through
the fold. The outermost sheet carries the last page beside the first on its front, the second beside the
last but one on its back, and so on inward (common practice; any handbook of print finishing shows it).
"""

from __future__ import annotations

from booklet.kit.records import Record


class SheetSide(Record):
    """One side of a sheet: the pages at the left and at the right of the fold, counted from 1 (None:
    blank), and how many sheets lie about this one."""

    left: int | None
    right: int | None
    depth: int


def faces(pages: int, has_back: bool = False) -> tuple[SheetSide, ...]:
    """The sides of all sheets in the order they are printed: front and back of the outermost first.

    The count of pages is filled up to a multiple of four; the blank pages are the last, but for a back cover, which lies
    outside however many there are.
    """
    whole = -(-pages // 4) * 4

    def there(page: int) -> int | None:
        if has_back and page == whole:
            return pages
        return page if page <= pages - has_back else None

    made: list[SheetSide] = []
    for depth in range(whole // 4):
        first, last = 2 * depth + 1, whole - 2 * depth
        made.append(SheetSide(there(last), there(first), depth))
        made.append(SheetSide(there(first + 1), there(last - 1), depth))
    return tuple(made)


def shift(depth: int, thickness: float) -> float:
    """How far the pages of a sheet are moved toward the fold, in the unit of `thickness`.

    Each sheet about it pushes it outward by its own thickness: without the shift the margin at the fold
    would seem to grow from sheet to sheet once the fore edge is trimmed.
    """
    return depth * thickness
