"""Floor 9: what is laid on a sewn block, step by step: shapes in the order of the source, alike ones that lie clear of each
other together."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence

from booklet.cutting.cutting_plan import CuttingPlan
from booklet.geometry.overlay import notch, overlap_area
from booklet.geometry.tiling import AppliedShape, Tiling
from booklet.kit.measure import ZERO, Length, UnitSystem, exact_text
from booklet.kit.outlines.near import NOTHING, ONE_POINT
from booklet.kit.outlines.plane import Point, box_of, inward_corners, length_of, overlap
from booklet.kit.records import replace
from booklet.kit.trade import STEM_END
from booklet.kit.words import (
    Digits,
    Phrase,
    Text,
    in_units,
    listing,
    phrase,
    plural_phrase,
    with_unit,
)
from booklet.pattern import By
from booklet.plan.records import LayerCard
from booklet.sewing.assembly import Assembly

_PRESSED = phrase("Press the block before anything is laid on it.")
_WITHOUT_PAPER = phrase("Tear the papers out and press the block before anything is laid on it.")
_OFF_PAPERS = phrase("Take the papers out where shapes will lie, and press the block.")
STITCH = {"inch": Digits("1/8"), "cm": Digits("3")}


def layer_cards(
    tiling: Tiling,
    names: Mapping[str, str],
    units: UnitSystem,
    thread: Length,
    ground: Assembly,
    count: int,
    over_papers: bool,
) -> tuple[LayerCard, ...]:
    """The cards of the shapes of a block, of which `count` are made, after those of the steps of its `ground`; `names` are
    those of the fabrics, `thread` is how long a thread for the hand is, `over_papers` whether patches are basted over them."""
    last = max((step.card for step in ground.steps), default=0)
    cards = [
        _card(tiling, shapes, names, units, thread, n, count)
        for n, shapes in enumerate(_groups(tiling.applied), last + 1)
    ]
    if cards and last:
        before = _WITHOUT_PAPER if ground.papers else _OFF_PAPERS if over_papers else _PRESSED
        cards[0] = replace(cards[0], sentences=(before, *cards[0].sentences))
    return tuple(cards)


def _groups(applied: Sequence[AppliedShape]) -> list[tuple[AppliedShape, ...]]:
    """The shapes laid in one step: those of an entry, and alike ones that follow and lie clear of them."""
    groups: list[list[AppliedShape]] = []
    for shape in applied:
        last = groups[-1] if groups else []
        if last and (shape.entry == last[-1].entry or _goes_with(shape, last)):
            last.append(shape)
        else:
            groups.append([shape])
    return [tuple(group) for group in groups]


def _goes_with(shape: AppliedShape, others: Iterable[AppliedShape]) -> bool:
    """Whether a shape is like others and covers none of them."""
    return all(
        shape.piece.patch == other.piece.patch
        and shape.piece.fabric == other.piece.fabric
        and shape.by is other.by
        and not _covers(shape.piece.outline.points, other.piece.outline.points)
        for other in others
    )


def _covers(one: Sequence[Point], other: Sequence[Point]) -> bool:
    """Whether one outline lies on another."""
    return overlap(box_of(one), box_of(other)) and overlap_area(one, other) > NOTHING


def _card(
    tiling: Tiling,
    shapes: tuple[AppliedShape, ...],
    names: Mapping[str, str],
    units: UnitSystem,
    thread: Length,
    n: int,
    count: int,
) -> LayerCard:
    return LayerCard(
        n=n,
        title=_title(tiling, shapes),
        sentences=(
            *_edge(shapes, units),
            _lay(shapes),
            *_sew(shapes, units, thread),
        ),
        make=len(shapes),
        total=count,
        takes=_taken(shapes, names),
        shapes=shapes,
        by=shapes[0].by,
        allowance=shapes[0].allowance,
    )


def _title(tiling: Tiling, shapes: Sequence[AppliedShape]) -> Text:
    """What is laid: "Lay 2 D (leaf) on the block"."""
    letter = shapes[0].piece.patch
    name = tiling.patch(letter).name
    if len({shape.piece.patch for shape in shapes}) > 1:
        return phrase("Lay {shapes} on the block", shapes=_letters(shapes))
    return phrase("Lay {shapes} ({name}) on the block", shapes=_letters(shapes), name=name)


def _letters(shapes: Sequence[AppliedShape]) -> Text:
    """The letters of shapes, with how many of each."""
    counts: dict[str, int] = {}
    for shape in shapes:
        letter = letter_of(shape)
        counts[letter] = counts.get(letter, 0) + 1
    return listing([_counted(letter, n, len(shapes)) for letter, n in counts.items()])


def _counted(letter: str, n: int, of: int) -> Text:
    return phrase("{n} {piece}", n=n, piece=letter) if of > 1 else letter


def letter_of(shape: AppliedShape) -> str:
    """The letter of a shape as printed: "Dr" for D reversed."""
    return shape.piece.patch + ("r" if shape.piece.reversed else "")


def _taken(shapes: Sequence[AppliedShape], names: Mapping[str, str]) -> tuple[Text, ...]:
    """What to take, by letter and cloth."""
    counts: dict[tuple[str, str], int] = {}
    for shape in shapes:
        key = letter_of(shape), shape.piece.fabric
        counts[key] = counts.get(key, 0) + 1
    return tuple(
        phrase("{piece} ({fabric})", piece=_counted(letter, n, len(shapes)), fabric=names[fabric])
        for (letter, fabric), n in counts.items()
    )


def _edge(shapes: Sequence[AppliedShape], units: UnitSystem) -> list[Text]:
    """What is done to the edges before they are laid."""
    if shapes[0].is_stem:
        return _folded(shapes[0], units)
    allowance = shapes[0].allowance
    flat = sum(shape.flat for shape in shapes)
    if allowance is None:
        return [phrase("Peel the paper off the web.")]
    said: list[Text] = [
        phrase(
            "Turn the allowance of {allowance} under along the marked line: baste or glue it, or turn it under with the "
            "needle as you sew.",
            allowance=in_units(Digits(exact_text(allowance, units)), units),
        )
    ]
    if any(_turns_in(shape, float(allowance)) for shape in shapes):
        said.append(phrase("Where the line turns inward clip the allowance, almost to the line."))
    if flat > ONE_POINT:
        said.append(
            phrase(
                "Leave the edge flat where the picture has a thin dashed line, {length} altogether: later shapes lie on it.",
                length=with_unit(flat, units),
            )
        )
    return said


def _folded(stem: AppliedShape, units: UnitSystem) -> list[Text]:
    """How a bias strip becomes a stem."""
    return [
        phrase(
            "Fold both long edges of the bias strip to the middle of its back, so that it is {width} wide, and press it.",
            width=with_unit(stem.stem_width, units),
        ),
        phrase(
            "Its line is {length} long; at either end {end} more is turned under, or lies flat where a later shape covers it.",
            length=with_unit(stem.stem_length, units),
            end=in_units(Digits(exact_text(STEM_END.said_in(units), units)), units),
        ),
    ]


def _turns_in(shape: AppliedShape, allowance: float) -> bool:
    """Whether an outline has an inward corner, or an inward curve tighter than its allowance."""
    points = shape.piece.outline.points
    return bool(inward_corners(points)) or notch(points, allowance) is not None


def _lay(shapes: Sequence[AppliedShape]) -> Text:
    """How they are laid and held."""
    if shapes[0].is_stem:
        return plural_phrase(
            "Lay it along its line by the placement guide, the inner side of a bend first, and pin or baste it.",
            "Lay them along their lines by the placement guide, the inner side of a bend first, and pin or baste them.",
            len(shapes),
        )
    if shapes[0].allowance is None:
        return plural_phrase(
            "Lay it on the block by the placement guide and fuse it by the maker’s directions.",
            "Lay them on the block by the placement guide and fuse them by the maker’s directions.",
            len(shapes),
        )
    return plural_phrase(
        "Lay it on the block by the placement guide and pin or baste it.",
        "Lay them on the block by the placement guide and pin or baste them.",
        len(shapes),
    )


def _sew(shapes: Sequence[AppliedShape], units: UnitSystem, thread: Length) -> list[Text]:
    """How they are sewn down, and how far."""
    length = with_unit(sum(shape.sewn for shape in shapes), units)
    hand, turned = shapes[0].by is By.HAND, shapes[0].allowance is not None
    if not hand and not turned:
        return [
            phrase(
                "By machine: sew over the raw edge with a narrow zigzag, {length} on each block.",
                length=length,
            )
        ]
    if not hand:
        ends = any(shape.covered for shape in shapes)
        near = phrase(
            "By machine: sew close to the folded edge, {length} on each block.", length=length
        )
        return [near, phrase("Begin and end where later shapes will lie.")] if ends else [near]
    how: Phrase = (
        phrase(
            "By hand: sew the folded edge down with small hidden stitches, one every {stitch}, {length} on each block.",
            stitch=in_units(STITCH[units], units) if units == "inch" else _millimetres(),
            length=length,
        )
        if turned
        else phrase(
            "By hand: sew over the raw edge with buttonhole stitches, one every {stitch}, {length} on each block.",
            stitch=in_units(STITCH[units], units) if units == "inch" else _millimetres(),
            length=length,
        )
    )
    return [
        how,
        plural_phrase(
            "That takes {n} thread of {thread}.",
            "That takes {n} threads of {thread}.",
            threads_of(shapes, thread),
            thread=in_units(Digits(exact_text(thread, units)), units),
        ),
    ]


def _millimetres() -> Text:
    return phrase("{figure} mm", figure=STITCH["cm"])


def threads_of(shapes: Iterable[AppliedShape], thread: Length) -> int:
    """How many threads sew shapes down by hand: each stretch of an edge is sewn on threads of its own, and a thread sews
    as much as it is long, as in seams."""
    return sum(
        math.ceil(length_of(path) / float(thread) - ONE_POINT)
        for shape in shapes
        for path in shape.seen
    )


def web_length(cutting: CuttingPlan, width: Length) -> Length:
    """How much fusible web of a width the fused shapes of a size take, each as a rectangle with its margin, laid in rows,
    the highest first."""
    boxes = [patch.cut for patch in cutting.patches if patch.is_fused for _ in range(patch.pieces)]
    lying = [(max(box), min(box)) if max(box) <= width else box for box in boxes]
    rows: list[tuple[Length, Length]] = []  # what is left of each row, and its height
    for across, high in sorted(lying, key=lambda box: box[1], reverse=True):
        at = next((n for n, (left, _) in enumerate(rows) if across <= left), len(rows))
        if at == len(rows):
            rows.append((width, high))
        rows[at] = (rows[at][0] - across, rows[at][1])
    return sum((high for _, high in rows), ZERO)
