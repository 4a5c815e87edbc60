"""Floor 4, the planner: names for the units of an order; alike units share a word and are numbered."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

from booklet.kit.outlines.near import DRAWN
from booklet.sewing.mosaic.likeness import Likeness, Sign
from booklet.sewing.mosaic.mosaic import Faces, Mosaic, bits
from booklet.sewing.mosaic.trees import Tree
from booklet.sewing.order.table import free_name

SHARES = {2: "half", 3: "third", 4: "quarter", 5: "fifth", 6: "sixth", 8: "eighth"}
COUNTED = {2: "pair", 3: "three"}


def unit_names(
    mosaic: Mosaic, likeness: Likeness, units: Iterable[Tree], block: str
) -> dict[Faces, str]:
    """A name for every unit and patch: pair1, pair2 …, row1 …, half1, half2; the last is the block.

    Rows are numbered from the top whether alike or not, and units made only once as they are made. Where several kinds share
    a word, the later ones have a letter too: "pair b1".
    """
    units = list(units)
    names = {1 << k: name for k, name in enumerate(mosaic.names)}
    kinds: dict[Sign, list[Tree]] = {}
    for unit in units[:-1]:
        kinds.setdefault(likeness.sign(unit.faces), []).append(unit)
    words: dict[str, list[list[Tree]]] = {}
    for alike in kinds.values():
        word = _word(mosaic, likeness, alike)
        words.setdefault(word, []).append(alike)
    for word in {"row", "unit"} & set(words):
        words[word] = [[unit for alike in words[word] for unit in alike]]
    taken = {block, *mosaic.names}
    for word, groups in words.items():
        for letter, alike in enumerate(groups):
            base = word if letter == 0 else f"{word} {_letter(letter)}"
            numbered = len(alike) > 1 or base in taken or word in ("row", "unit")
            if word == "row":
                alike = sorted(alike, key=lambda unit: _place(likeness, unit))
            elif word != "unit":  # these stay in the order in which they are made
                alike = sorted(alike, key=lambda unit: unit.faces & -unit.faces)
            for unit in alike:
                name = free_name(taken, base) if numbered else base
                names[unit.faces] = name
                taken.add(name)
    names[units[-1].faces] = block
    return names


def _letter(k: int) -> str:
    """b, c, … for 1, 2, …"""
    return chr(ord("a") + k) if k < 26 else f"z{k}"


def _word(mosaic: Mosaic, likeness: Likeness, alike: list[Tree]) -> str:
    """The word for a kind of unit."""
    unit = alike[0]
    together = 0
    for other in alike:
        together |= other.faces
    if together == mosaic.whole and len(alike) in SHARES:
        return SHARES[len(alike)]
    if len(unit.parts) > 2 and all(_is_level(likeness, other) for other in alike):
        return "row"
    if unit.faces.bit_count() in COUNTED:
        return COUNTED[unit.faces.bit_count()]
    return "unit" if len(alike) == 1 else "part"


def _place(likeness: Likeness, unit: Tree) -> tuple[float, float]:
    """Where a unit lies, down and across: the middle of the middles of its faces."""
    middles = [likeness.looks[face].middle for face in bits(unit.faces)]
    across, down = (sum(at) / len(middles) for at in zip(*middles, strict=True))
    return round(down, 6), round(across, 6)


def _is_level(likeness: Likeness, unit: Tree) -> bool:
    """Whether the parts of a unit lie side by side from left to right, all as high as the unit."""
    spans = []
    for part in unit.parts:
        heights = [
            likeness.looks[f].middle[1] + y
            for f in bits(part.faces)
            for _, y in likeness.looks[f].corners
        ]
        spans.append((min(heights), max(heights)))
    return all(abs(a[0] - b[0]) < DRAWN and abs(a[1] - b[1]) < DRAWN for a, b in pairwise(spans))
