"""Floor 3: what a part block is called: what it is and where it lies, "half rosette, left"."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from booklet.geometry.rims.rims import SAME_SHARE, SIDES, PartKind
from booklet.kit.words import Text, listing, phrase

_AT = {
    "left": phrase("left", context="edge of the quilt"),
    "right": phrase("right", context="edge of the quilt"),
    "top": phrase("top", context="edge of the quilt"),
    "bottom": phrase("bottom", context="edge of the quilt"),
    "top left": phrase("top left", context="corner of the quilt"),
    "top right": phrase("top right", context="corner of the quilt"),
    "bottom left": phrase("bottom left", context="corner of the quilt"),
    "bottom right": phrase("bottom right", context="corner of the quilt"),
}
_CORNERS = tuple(_AT)[4:]


def where_words(where: Sequence[str]) -> Text:
    """Where in the quilt a part block lies."""
    sides = [side for side in SIDES if side in where]
    corners = [corner for corner in _CORNERS if corner in where]
    found: list[Text] = [_AT[side] for side in sides]
    if len(sides) == len(SIDES):
        found = [phrase("all edges", context="edge of the quilt")]
    if len(corners) == len(_CORNERS):
        found.append(phrase("the corners", context="corner of the quilt"))
    else:
        found += [_AT[corner] for corner in corners]
    return listing(found) if len(found) > 1 else found[0]


def part_titles(kinds: Sequence[PartKind], titles: Sequence[Text]) -> tuple[Text, ...]:
    """The names of the kinds of one size, `titles` those of the blocks they are parts of; alike ones are numbered."""
    said = [_title(kind, title) for kind, title in zip(kinds, titles, strict=True)]
    often, met = Counter(map(str, said)), Counter[str]()
    found: list[Text] = []
    for title in said:
        met[str(title)] += 1
        several = often[str(title)] > 1
        number = met[str(title)]
        found.append(phrase("{title} ({n})", title=title, n=number) if several else title)
    return tuple(found)


def _title(kind: PartKind, block: Text) -> Text:
    where = where_words(kind.where)
    if len(kind.pieces) == 1 < kind.of_patches:
        return phrase("Single patch of {block}, {where}", block=block, where=where)
    for share, name in (
        (1 / 2, phrase("Half {block}, {where}", block=block, where=where)),
        (1 / 4, phrase("Quarter {block}, {where}", block=block, where=where)),
        (3 / 4, phrase("Three-quarter {block}, {where}", block=block, where=where)),
    ):
        if kind.share is not None and abs(kind.share - share) < SAME_SHARE:
            return name
    if len(kind.pieces) >= kind.of_patches:
        return phrase("Cut-down {block}, {where}", block=block, where=where)
    return phrase(
        "Part of {block} with {n} patches, {where}", block=block, n=len(kind.pieces), where=where
    )
