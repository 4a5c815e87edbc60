"""Floor 9, facts: the tables of cutting: each cloth with its strips, the lines of the cutting tables, units made together,
parts that are joined."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.crafts.rotary.marks import CutBy
from booklet.crafts.rotary.wedges import Diagonal, Wedge
from booklet.crafts.unit import TogetherCut, TogetherUnit
from booklet.cutting.cutting_plan import (
    CutPatch,
    FabricPlan,
    JoinedPart,
    Leftover,
    Placed,
    Strip,
    StripJoin,
    StripUse,
)
from booklet.facts.kinds import (
    COUNT,
    FLAG,
    LENGTH,
    NUMBER,
    POINTS,
    TEXT,
    FactKind,
    key,
    maybe,
    pair,
    record,
    several,
    word_of,
)
from booklet.kit.records import Record
from booklet.pattern import Direction, Fabric


class ClothFacts(Record):
    """A cloth and its plan."""

    plan: FabricPlan
    fabric: Fabric


class LineFacts(Record):
    """A line of a cutting table and its cloth."""

    patch: CutPatch
    fabric: Fabric


SIZE = pair(LENGTH)
SIZES = several(LENGTH)
WEDGES: FactKind[Sequence[Wedge]] = FactKind(
    several(TEXT).schema, lambda wedges: [wedge.value for wedge in wedges]
)
# Of a square or rectangle that is cut again `triangles` are those of use, as they lie.
CUT: FactKind[Placed] = record(
    key("for", TEXT, lambda cut: cut.name),
    key("method", TEXT, lambda cut: cut.method.word),
    key("outline_in", POINTS, lambda cut: cut.outline),
    maybe("triangles", WEDGES, lambda cut: cut.wedges or None),
    maybe("reversed", FLAG, lambda cut: cut.reversed or None),
)
LAID: FactKind[tuple[float, tuple[Placed, ...]]] = record(
    key("at_in", NUMBER, lambda laid: laid[0]),
    key("cuts", several(CUT), lambda laid: laid[1]),
)
USE: FactKind[StripUse] = record(
    key("for", TEXT, lambda use: use.name), key("pieces", COUNT, lambda use: use.pieces)
)
# A kind of strip; of cloth sold ready cut with the number of the piece it is cut from. `laid` is what is cut from each
# of them, in the frame of the cloth (x across it, y along it).
STRIP: FactKind[Strip] = record(
    key("cut_in", LENGTH, lambda strip: strip.width),
    key("count", COUNT, lambda strip: strip.count),
    key("use", several(USE), lambda strip: strip.uses),
    key("laid", several(LAID), lambda strip: list(zip(strip.starts, strip.layouts, strict=True))),
    maybe("piece", COUNT, lambda strip: strip.stock or None),
    maybe("lengthwise", FLAG, lambda strip: strip.lengthwise or None),
    maybe("folded", FLAG, lambda strip: strip.folded or None),
)
# Of cloth sold ready cut the pieces, and how many are needed at least.
BUY: FactKind[FabricPlan] = record(
    key("yards", TEXT, lambda plan: plan.buy.yards_text),
    key("yards_decimal", NUMBER, lambda plan: float(plan.buy.yards)),
    key("metres", NUMBER, lambda plan: float(plan.buy.metres)),
    maybe("pieces", COUNT, lambda plan: plan.buy.count),
    maybe(
        "pieces_at_least",
        COUNT,
        lambda plan: None if plan.buy.count is None else plan.least_stock,
    ),
)
LEFT_OVER: FactKind[Leftover] = record(
    key("size_in", SIZE, lambda left: (left.across, left.along)),
    key("count", COUNT, lambda left: left.count),
)
CLOTH: FactKind[ClothFacts] = record(
    key("width_in", LENGTH, lambda of: of.plan.width),
    key("shrinks", NUMBER, lambda of: float(of.fabric.shrinks)),
    key("strips", several(STRIP), lambda of: of.plan.strips),
    key("length_in", LENGTH, lambda of: of.plan.length),
    key("area_used", NUMBER, lambda of: of.plan.area_used),
    key("lower_bound_in", LENGTH, lambda of: of.plan.lower_bound),
    key("gap_percent", NUMBER, lambda of: _gap(of.plan)),
    key("buy", BUY, lambda of: of.plan),
    key("left_over", several(LEFT_OVER), lambda of: of.plan.leftovers),
    maybe("sold_as_in", SIZE, lambda of: of.plan.stock),
)


def _gap(plan: FabricPlan) -> float:
    return 100 * (float(plan.length) / float(plan.lower_bound) - 1)


DIAGONALS: FactKind[dict[Diagonal, int]] = FactKind(
    record(*(maybe(d.value, COUNT, lambda found: None) for d in Diagonal)).schema,
    lambda found: {diagonal.value: count for diagonal, count in found.items()},
)
GIVES: FactKind[tuple[tuple[Wedge, ...], int]] = record(
    key("cuts", COUNT, lambda gives: gives[1]), key("triangles", WEDGES, lambda gives: gives[0])
)
# The lines of the cutting tables. Of a print with an up a patch has a line for each way it lies: then `cut_in` is across
# the cloth, then along it, and `up_deg` the way up in the patch's frame. `diagonals` and `gives` tell how squares and
# rectangles are cut into triangles, the first figure lying and right side up: how many on which diagonal, and which
# triangles so many of them give.
LINE: FactKind[LineFacts] = record(
    key("for", TEXT, lambda of: of.patch.name),
    key("fabric", TEXT, lambda of: of.patch.fabric),
    key("method", TEXT, lambda of: of.patch.method.word),
    key("cut_in", SIZE, lambda of: of.patch.cut),
    key("exact_in", pair(NUMBER), lambda of: of.patch.exact),
    key("by", word_of(CutBy), lambda of: of.patch.by),
    key("cuts", COUNT, lambda of: of.patch.cuts),
    key("pieces", COUNT, lambda of: of.patch.pieces),
    key("reversed", COUNT, lambda of: of.patch.reversed),
    maybe("angle", NUMBER, lambda of: of.patch.angle),
    maybe("outline_in", POINTS, lambda of: of.patch.outline.cut if of.patch.outline else None),
    maybe("diagonals", DIAGONALS, lambda of: of.patch.diagonals or None),
    maybe("gives", several(GIVES), lambda of: of.patch.gives or None),
    maybe("up_deg", NUMBER, lambda of: _way_up(of.patch, of.fabric.direction)),
)


def _way_up(patch: CutPatch, direction: Direction) -> float | None:
    """The way that is up on the cloth, degrees clockwise from up in the patch's frame; stripes have two."""
    if direction is Direction.ANY or patch.outline is None or patch.gives:
        return None
    return patch.grain % (180 if direction is Direction.STRIPE else 360)


TOGETHER_CUT: FactKind[TogetherCut] = record(
    key("for", TEXT, lambda cut: cut.name),
    key("fabric", TEXT, lambda cut: cut.fabric),
    key("cut_in", SIZES, lambda cut: cut.cut),
    key("count", COUNT, lambda cut: cut.count),
)
MEMBER: FactKind[tuple[str, frozenset[str]]] = record(
    key("block", TEXT, lambda member: member[0]),
    key("pieces", several(TEXT), lambda member: sorted(member[1])),
)
TOGETHER: FactKind[TogetherUnit] = record(
    key("name", TEXT, lambda unit: unit.name),
    key("method", TEXT, lambda unit: unit.how.word),
    key("finished_in", SIZES, lambda unit: unit.finished),
    key("trim_to_in", SIZES, lambda unit: unit.trimmed),
    key("units", COUNT, lambda unit: unit.units),
    key("made", COUNT, lambda unit: unit.rounds * unit.each),
    key("cuts", several(TOGETHER_CUT), lambda unit: unit.cuts),
    key("members", several(MEMBER), lambda unit: unit.members),
    key("trim", FLAG, lambda unit: unit.trims),
    maybe("across_in", LENGTH, lambda unit: unit.across),
)
JOINED_PART: FactKind[JoinedPart] = record(
    key("for", TEXT, lambda part: part.name),
    key("length_in", LENGTH, lambda part: part.length),
    key("stretches_in", SIZES, lambda part: part.stretches),
)
# Parts longer than the cloth is wide: strips joined end to end. Each seam takes `join_takes_in`, an allowance of either
# strip; the stretches less the seams are the length cut.
JOINED: FactKind[StripJoin] = record(
    key("fabric", TEXT, lambda join: join.fabric),
    key("strip_in", SIZE, lambda join: (join.usable, join.width)),
    key("strips", COUNT, lambda join: join.strips),
    key("seam", TEXT, lambda join: "straight"),
    key("join_takes_in", LENGTH, lambda join: join.loss),
    key("pieces", several(JOINED_PART), lambda join: join.parts),
)
