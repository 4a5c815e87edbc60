"""Floor 9, facts: the tables of a quilt: how it is set, its parts and where all lies, how it is finished."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from booklet.cutting.cutting_plan import CuttingPlan
from booklet.facts.blocks import JOINING
from booklet.facts.kinds import (
    COUNT,
    DEGREES,
    FLAG,
    INDEX,
    LENGTH,
    NUMBER,
    POINT,
    POINTS,
    TEXT,
    FactKind,
    by_name,
    key,
    maybe,
    pair,
    record,
    several,
    word_of,
)
from booklet.kit.measure import Length
from booklet.kit.records import Record
from booklet.pattern import Centre, FilledRim, Mirror, RimPatches
from booklet.plan.records import JoinLine, SizePlan
from booklet.plan.top.slanted_words import slanted_of
from booklet.quilt.assembling.joining import JoinedIn
from booklet.quilt.assembling.slanted import InRow, SlantedRow
from booklet.quilt.sized import (
    BackingPlan,
    BedPlan,
    BindingPlan,
    BorderPlan,
    Part,
    PlacedBlock,
    SizedQuilt,
)


class PatchCount(Record, kw_only=True):
    """How many of a patch and fabric the blocks of one kind need in the whole quilt."""

    block: str
    letter: str
    fabric: str
    count: int
    reversed: int


def patch_counts(size: SizePlan) -> list[PatchCount]:
    """How many of each patch and fabric the blocks need, block by block, in the order of the letters."""
    found = []
    for block in size.blocks:
        tiling, made = block.tiling, size.quilt.blocks.get(block.tiling.block, 0)
        all_of = Counter((piece.patch, piece.fabric) for piece in tiling.laid)
        back = Counter((p.patch, p.fabric) for p in tiling.laid if p.reversed)
        for of, count in sorted(all_of.items(), key=lambda row: (len(row[0][0]), row)):
            if made:
                patch, fabric = of
                found.append(
                    PatchCount(
                        block=tiling.block,
                        letter=patch,
                        fabric=fabric,
                        count=count * made,
                        reversed=back[of] * made,
                    )
                )
    return found


SIZE = pair(LENGTH)
SIZES = several(LENGTH)
PATCH_COUNT: FactKind[PatchCount] = record(
    key("block", TEXT, lambda row: row.block),
    key("letter", TEXT, lambda row: row.letter),
    key("fabric", TEXT, lambda row: row.fabric),
    key("count", COUNT, lambda row: row.count),
    key("reversed", COUNT, lambda row: row.reversed),
)
JOIN: FactKind[JoinLine] = record(
    key("seams", TEXT, lambda line: line.seams),
    key("press", TEXT, lambda line: line.press),
    key("locks", COUNT, lambda line: line.locks),
)
PLACED: FactKind[PlacedBlock] = record(
    key("block", TEXT, lambda place: place.block),
    key("column", INDEX, lambda place: place.column),
    key("row", INDEX, lambda place: place.row),
    key("turn", DEGREES, lambda place: place.turn),
    key("at_in", POINT, lambda place: place.origin),
)
PART: FactKind[Part] = record(
    key("name", TEXT, lambda part: part.name),
    key("fabric", TEXT, lambda part: part.fabric),
    key("shape", TEXT, lambda part: part.shape),
    key("finished_in", SIZE, lambda part: part.finished),
    key("count", COUNT, lambda part: part.count),
    key("places_in", several(POINTS), lambda part: part.places),
)
IN_ROW: FactKind[InRow] = record(
    key("what", TEXT, lambda item: item.name if item.placed is None else "block"),
    maybe("block", TEXT, lambda item: item.placed.block if item.placed else None),
    maybe("column", INDEX, lambda item: item.placed.column if item.placed else None),
    maybe("row", INDEX, lambda item: item.placed.row if item.placed else None),
)
# A row of a set on point as it is sewn, from its lower left end. The corner triangles at the ends of rows are sewn on
# last, as are the two along the first and last.
SLANTED_ROW: FactKind[SlantedRow] = record(
    key("kind", TEXT, lambda row: "blocks" if row.has_blocks else "sashes"),
    key("number", COUNT, lambda row: row.number),
    key("holds", several(IN_ROW), lambda row: row.items),
    key("corner_triangle_at_start", FLAG, lambda row: row.start is not None),
    key("corner_triangle_at_end", FLAG, lambda row: row.end is not None),
)


# How the rim of a lattice is filled: what lies in its middle, in which ways the top is then alike about it, the square
# inches of finished patches that are sewn, and what of them lies beyond the edge and is cut off.
RIM: FactKind[FilledRim] = record(
    key("centre", word_of(Centre), lambda rim: rim.centre),
    key("alike", several(word_of(Mirror)), lambda rim: rim.alike),
    key("rim_patches", word_of(RimPatches), lambda rim: rim.patches),
    key("sewn", NUMBER, lambda rim: rim.sewn),
    key("cut_off", NUMBER, lambda rim: rim.cut_off),
)


def _rim(size: SizePlan) -> FilledRim | None:
    quilt = size.size.quilt
    return quilt.filled if quilt is not None and _is_set(size) else None


def _slanted(size: SizePlan) -> Sequence[SlantedRow] | None:
    found = slanted_of(size) if _is_set(size) else None
    return found.rows if found is not None else None


def _order(size: SizePlan) -> JoinedIn | None:
    """In which order the blocks are joined, where no straight seams of rows do it."""
    return size.joined_in


def _is_set(size: SizePlan) -> bool:
    """Whether there is a quilt; else there are only its blocks."""
    return size.quilt.finished is not None


# `kept_in` is what a set with a ragged rim is trimmed to.
QUILT: FactKind[SizePlan] = record(
    maybe("finished_in", SIZE, lambda size: size.quilt.finished),
    key("blocks", by_name(COUNT), lambda size: size.quilt.blocks),
    key("blocks_made", COUNT, lambda size: size.blocks_made),
    key("patches", several(PATCH_COUNT), patch_counts),
    maybe("joins_nest", FLAG, lambda size: size.quilt.joins_nest if _is_set(size) else None),
    maybe("seam_clashes", COUNT, lambda size: size.quilt.seam_clashes if _is_set(size) else None),
    maybe("joins", several(JOIN), lambda size: size.join_table if _is_set(size) else None),
    maybe("across", COUNT, lambda size: size.size.across if _is_set(size) else None),
    maybe("down", COUNT, lambda size: size.size.down if _is_set(size) else None),
    maybe("placed", several(PLACED), lambda size: size.quilt.placed if _is_set(size) else None),
    maybe("parts", several(PART), lambda size: size.quilt.parts if _is_set(size) else None),
    maybe("kept_in", POINTS, lambda size: (size.quilt.kept or None) if _is_set(size) else None),
    maybe("rim", RIM, _rim),
    maybe("slanted_rows", several(SLANTED_ROW), _slanted),
    maybe("joined", word_of(JoinedIn), _order),
    maybe("joining", JOINING, lambda size: size.joining),
)


class _Binding(Record):
    plan: BindingPlan
    strips: int


class _Panel(Record):
    """A panel of the back as it is cut, across the cloth x along it, and from how many strips it is joined."""

    cut: tuple[Length, Length]
    strips: int


class _Backing(Record):
    plan: BackingPlan
    panels: tuple[_Panel, ...]


class _Triangles(Record):
    """The triangles of one kind, and how many squares they are cut from."""

    part: Part
    squares: int


# Straight binding has diagonal seams, one for each strip: the last closes the ring.
BINDING: FactKind[_Binding] = record(
    key("strip_in", LENGTH, lambda of: of.plan.strip),
    key("length_in", LENGTH, lambda of: of.plan.length),
    key("strips", COUNT, lambda of: of.strips),
    key("fabric", TEXT, lambda of: of.plan.fabric),
    key("bias", FLAG, lambda of: of.plan.bias),
    key("fold", TEXT, lambda of: of.plan.fold.value),
    maybe("seam", TEXT, lambda of: None if of.plan.bias else "diagonal"),
    maybe("join_takes_in", LENGTH, lambda of: None if of.plan.bias else of.plan.strip),
)
PANEL: FactKind[_Panel] = record(
    key("across_cloth_in", LENGTH, lambda panel: panel.cut[0]),
    key("along_cloth_in", LENGTH, lambda panel: panel.cut[1]),
    maybe("strips", COUNT, lambda panel: panel.strips or None),
)
BACKING: FactKind[_Backing] = record(
    key("size_in", SIZE, lambda of: of.plan.size),
    key("widths", COUNT, lambda of: of.plan.widths),
    key("seam", TEXT, lambda of: of.plan.seam),
    key("length_in", LENGTH, lambda of: of.plan.length),
    key("fabric", TEXT, lambda of: of.plan.fabric),
    key("seam_allowance_in", LENGTH, lambda of: of.plan.allowance),
    key("panels_run", TEXT, lambda of: "across" if of.plan.turned else "down"),
    key("panels", several(PANEL), lambda of: of.panels),
)
BATTING: FactKind[tuple[Length, Length]] = record(key("size_in", SIZE, lambda size: size))
BED: FactKind[BedPlan] = record(
    key("mattress_in", SIZES, lambda bed: bed.mattress),
    key("wanted_in", SIZES, lambda bed: bed.wanted),
    key("drop_in", LENGTH, lambda bed: bed.drop),
    key("left_in", LENGTH, lambda bed: bed.left),
)
TRIANGLES: FactKind[_Triangles] = record(
    key("square_in", LENGTH, lambda of: of.part.cut[0]),
    key("count", COUNT, lambda of: of.part.count),
    key("squares", COUNT, lambda of: of.squares),
)
SETTING_TRIANGLES: FactKind[dict[str, _Triangles]] = record(
    maybe("side", TRIANGLES, lambda found: found.get("side triangle")),
    maybe("corner", TRIANGLES, lambda found: found.get("corner triangle")),
)
BORDER: FactKind[BorderPlan] = record(
    key("strips", COUNT, lambda border: len(border.lengths)),
    key("lengths_in", SIZES, lambda border: border.lengths),
    maybe("width_in", LENGTH, lambda border: border.widths[0] if len(border.widths) == 1 else None),
    maybe("widths_in", SIZE, lambda border: border.widths if len(border.widths) > 1 else None),
    key("fabric", TEXT, lambda border: border.fabric),
    key("corners", TEXT, lambda border: border.corners.value),
    key("outside_in", SIZE, lambda border: border.outside),
)
FINISHING: FactKind[SizePlan] = record(
    maybe("binding", BINDING, lambda size: _binding(size.quilt, size.cutting)),
    maybe("backing", BACKING, lambda size: _backing(size.quilt, size.cutting)),
    maybe("batting", BATTING, lambda size: size.quilt.batting),
    maybe("bed", BED, lambda size: size.quilt.bed),
    maybe("setting_triangles", SETTING_TRIANGLES, lambda size: _triangles(size) or None),
    maybe("borders", several(BORDER), lambda size: size.quilt.borders or None),
)


def _binding(quilt: SizedQuilt, cutting: CuttingPlan) -> _Binding | None:
    return _Binding(quilt.binding, cutting.pieces("binding")) if quilt.binding else None


def _backing(quilt: SizedQuilt, cutting: CuttingPlan) -> _Backing | None:
    if quilt.backing is None:
        return None
    panels = [_Panel(cut, 0) for cut in cutting.panels]
    if quilt.backing.strips and panels:
        panels[-1] = _Panel(panels[-1].cut, quilt.backing.strips)
    return _Backing(quilt.backing, tuple(panels))


def _triangles(size: SizePlan) -> dict[str, _Triangles]:
    """How many side and corner triangles a set on point needs, and the squares they are cut from."""
    found: dict[str, _Triangles] = {}
    for part in size.quilt.parts:
        if part.name in ("side triangle", "corner triangle"):
            squares = sum(p.cuts for p in size.cutting.patches if p.name == part.name)
            found[part.name] = _Triangles(part, squares)
    return found
