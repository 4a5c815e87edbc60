"""Floor 9, facts: the tables of a block: its pieces, patches and seams, how it is sewn and pressed."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from booklet.facts.kinds import (
    COUNT,
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
from booklet.geometry.patches.curve_marks import patch_marks
from booklet.geometry.tiling import AppliedShape, Outline, Patch, PlacedPiece, Seam, Tiling
from booklet.kit.outlines.plane import Point
from booklet.kit.records import Record
from booklet.pattern import By, PartOf
from booklet.plan.cards.on_paper import printed_section
from booklet.plan.records import BlockPlan
from booklet.pressing.pressing import (
    FanReport,
    JunctionKind,
    Layout,
    Pressed,
    PressedJunction,
    Versions,
)
from booklet.quilt.assembling.joining import block_of
from booklet.sewing.assembly import End, PaperSection, SewnSeam, Step, StepKind, Thread, WayBack
from booklet.sewing.totals import totals


class BlockFacts(Record):
    """A block, and the steps after which its unit is trimmed."""

    plan: BlockPlan
    trims: Collection[int]


class _Patch(Record):
    patch: Patch
    tiling: Tiling


class _Seam(Record):
    seam: Seam
    sewn: SewnSeam
    pressed: Pressed


class _Step(Record):
    step: Step
    trims: bool


class _Section(Record):
    section: PaperSection
    tiling: Tiling


class _Applied(Record):
    shape: AppliedShape
    step: int


def _applied(block: BlockPlan) -> list[_Applied]:
    """The shapes laid on a block, each with its step; 0 where a block was made in an earlier part."""
    steps = {shape.piece.id: card.n for card in block.layers for shape in card.shapes}
    return [_Applied(shape, steps.get(shape.piece.id, 0)) for shape in block.tiling.applied]


def _shapes(tiling: Tiling) -> list[_Patch]:
    return [_Patch(patch, tiling) for patch in tiling.shapes]


def _sections(block: BlockPlan) -> list[_Section]:
    return [_Section(section, block.tiling) for section in block.assembly.papers]


def _curved(outline: Outline) -> Sequence[Point] | None:
    return outline.points if outline.is_curved else None


PRESS: FactKind[Pressed] = FactKind(
    {"type": "string", "pattern": "^(toward .+|open)$"},
    lambda pressed: f"toward {pressed.toward}" if pressed.toward else "open",
)
BY = word_of(By)
PIECE: FactKind[PlacedPiece] = record(
    key("id", TEXT, lambda piece: piece.id),
    key("patch", TEXT, lambda piece: piece.patch),
    key("reversed", FLAG, lambda piece: piece.reversed),
    key("fabric", TEXT, lambda piece: piece.fabric),
    key("corners_in", POINTS, lambda piece: piece.outline.corners),
    maybe("outline_in", POINTS, lambda piece: _curved(piece.outline)),
)
PATCH: FactKind[_Patch] = record(
    key("letter", TEXT, lambda of: of.patch.letter),
    key("shape", TEXT, lambda of: of.patch.name),
    key("area", NUMBER, lambda of: of.patch.area),
    key("corners_in", POINTS, lambda of: of.patch.outline.corners),
    key("reversed_too", FLAG, lambda of: of.patch.reversed_too),
    maybe("outline_in", POINTS, lambda of: _curved(of.patch.outline)),
    maybe("curve_marks_in", POINTS, lambda of: patch_marks([of.tiling], of.patch.letter) or None),
)
SEAM: FactKind[_Seam] = record(
    key("id", TEXT, lambda of: of.seam.id),
    key("between", pair(TEXT), lambda of: of.seam.between),
    key("from_in", POINT, lambda of: of.seam.start),
    key("to_in", POINT, lambda of: of.seam.end),
    key("length_in", NUMBER, lambda of: of.seam.length),
    key("by", BY, lambda of: of.sewn.by),
    key("step", COUNT, lambda of: of.sewn.step),
    key("ends", pair(word_of(End)), lambda of: of.sewn.ends),
    key("press", PRESS, lambda of: of.pressed),
    maybe("curve_in", POINTS, lambda of: of.seam.path if len(of.seam.path) > 2 else None),
)
STEP: FactKind[_Step] = record(
    key("n", COUNT, lambda of: of.step.n),
    key("make", TEXT, lambda of: of.step.make),
    key("join", several(TEXT), lambda of: of.step.join),
    key("by", BY, lambda of: of.step.by),
    key("kind", word_of(StepKind), lambda of: of.step.kind),
    key("turns", COUNT, lambda of: of.step.turns),
    key("runs", several(several(TEXT)), lambda of: [run.seams for run in of.step.runs]),
    key("begun_at_corner", several(FLAG), lambda of: [run.begun for run in of.step.runs]),
    key("times", COUNT, lambda of: of.step.times),
    key("batch", COUNT, lambda of: of.step.batch),
    maybe("rectangle_in", pair(NUMBER), lambda of: of.step.rectangle),
    maybe("trim", FLAG, lambda of: of.trims or None),
    maybe("section", TEXT, lambda of: of.step.section or None),  # sewn on printed paper
)
# Where a thread goes back over sewn seams, or lies loose behind the patches, `before` its seam of that index from 0 is sewn.
THREAD_BACK: FactKind[WayBack] = record(
    key("before", COUNT, lambda back: back.before),
    key("seams", several(TEXT), lambda back: back.seams),
    key("length_in", NUMBER, lambda back: back.length),
    key("loose", FLAG, lambda back: back.loose),
)
THREAD: FactKind[Thread] = record(
    key("seams", several(TEXT), lambda thread: thread.seams),
    key("length_in", NUMBER, lambda thread: thread.length),
    key("turns", COUNT, lambda thread: thread.turns),
    key("through", COUNT, lambda thread: len(thread.through)),
    key("used_up", FLAG, lambda thread: thread.full),
    key("back_in", NUMBER, lambda thread: thread.gone_back),
    key("loose_in", NUMBER, lambda thread: thread.loose),
    key("ways_back", several(THREAD_BACK), lambda thread: thread.back),
)


class _GoneBack(Record):
    """A way back with the number of its thread."""

    thread: int
    way: WayBack


def _ways_back(threads: Sequence[Thread]) -> list[_GoneBack]:
    """The ways back over sewn seam of all threads."""
    return [
        _GoneBack(n, way)
        for n, thread in enumerate(threads, 1)
        for way in thread.back
        if not way.loose
    ]


# All ways back over sewn seam; they are taken, so that the thread is the same before and after.
WAY_BACK: FactKind[_GoneBack] = record(
    key("from_thread", COUNT, lambda back: back.thread),
    key("to_thread", COUNT, lambda back: back.thread),
    key("seams", several(TEXT), lambda back: back.way.seams),
    key("length_in", NUMBER, lambda back: back.way.length),
)
JUNCTION: FactKind[PressedJunction] = record(
    key("at_in", POINT, lambda junction: junction.at),
    key("seams", several(TEXT), lambda junction: junction.seams),
    key("kind", word_of(JunctionKind), lambda junction: junction.kind),
    key("layers", COUNT, lambda junction: junction.layers),
)
# Of one block: seams, inches by machine and by hand, set-ins, threads, clashes.
TOTALS: FactKind[BlockPlan] = record(
    key("seams", COUNT, lambda block: totals(block.assembly).seams),
    key("machine_in", NUMBER, lambda block: totals(block.assembly).machine_in),
    key("hand_in", NUMBER, lambda block: totals(block.assembly).hand_in),
    key("set_in_joins", COUNT, lambda block: totals(block.assembly).set_in_joins),
    key("turns", COUNT, lambda block: totals(block.assembly).turns),
    key("thread_starts", COUNT, lambda block: totals(block.assembly).thread_starts),
    key("thread_bound", COUNT, lambda block: block.assembly.fewest_threads),
    key("threads_if_runs_are_parted", COUNT, lambda block: block.assembly.parted_threads),
    key("ways_back_could_save_in", NUMBER, lambda block: block.assembly.route_gap),
    key("route_cost_in", NUMBER, lambda block: block.assembly.route_cost),
    key(
        "clashes",
        COUNT,
        lambda block: sum(j.kind is JunctionKind.CLASH for j in block.pressing.junctions),
    ),
)
# Blocks pressed another way than `seams` say, so that neighbours nest: those at `places`, each a column and a
# row of the set, from 0; blocks that fill a rim lie before 0 too.
SECOND_VERSION: FactKind[Versions] = record(
    key("opposite", FLAG, lambda versions: versions.opposite),
    key("layout", word_of(Layout), lambda versions: versions.layout),
    key("count", COUNT, lambda versions: versions.count),
    key("places", several(pair(INDEX)), lambda versions: versions.places),
    key("press", by_name(PRESS), lambda versions: dict(sorted(versions.second.pressed.items()))),
)
# What can be fanned of the points at which all seams end.
FANS: FactKind[FanReport] = record(
    key("points", COUNT, lambda fans: len(fans.clockwise) + len(fans.unfanned)),
    key("fewest_unfanned", COUNT, lambda fans: len(fans.unfanned)),
    key("proved_at_least", COUNT, lambda fans: fans.least),
    key("odd_cycle", several(TEXT), lambda fans: fans.odd_cycle),
)
# Of a part block at the rim of a lattice: the block it is part of, how many of its patches it has, at which edges of the
# top it lies.
PART_OF: FactKind[PartOf] = record(
    key("block", TEXT, lambda part: part.block),
    key("patches", COUNT, lambda part: part.patches),
    key("of_patches", COUNT, lambda part: part.of_patches),
    key("where", several(TEXT), lambda part: part.where),
)
# Of a block sewn on printed paper: the pieces of each section in the order sewn, those of the section whose paper it
# takes, and the corners of that paper's seam line, mirrored as it is printed.
SECTION: FactKind[_Section] = record(
    key("letter", TEXT, lambda of: of.section.letter),
    key("pieces", several(TEXT), lambda of: of.section.pieces),
    key("paper_of", several(TEXT), lambda of: of.section.like),
    key("printed_in", POINTS, lambda of: printed_section(of.tiling, of.section)),
)
# A shape laid on the sewn block, in the order they are laid: how many inches of its edge are sewn down in which step, how
# many lie flat under later shapes; without an allowance its edge is raw, and it is fused.
APPLIED: FactKind[_Applied] = record(
    key("id", TEXT, lambda of: of.shape.piece.id),
    key("patch", TEXT, lambda of: of.shape.piece.patch),
    key("reversed", FLAG, lambda of: of.shape.piece.reversed),
    key("fabric", TEXT, lambda of: of.shape.piece.fabric),
    key("outline_in", POINTS, lambda of: of.shape.piece.outline.points),
    maybe("allowance_in", LENGTH, lambda of: of.shape.allowance),
    key("by", BY, lambda of: of.shape.by),
    key("sewn_in", NUMBER, lambda of: of.shape.sewn),
    key("flat_in", NUMBER, lambda of: of.shape.flat),
    maybe("step", COUNT, lambda of: of.step or None),
    # of a stem, a bias strip: how wide it is when folded, and how long its line is
    maybe("stem_width_in", NUMBER, lambda of: of.shape.stem_width or None),
    maybe("stem_length_in", NUMBER, lambda of: of.shape.stem_length or None),
)
BLOCK: FactKind[BlockFacts] = record(
    key("finished_in", pair(NUMBER), lambda of: (of.plan.tiling.width, of.plan.tiling.height)),
    key("area", NUMBER, lambda of: of.plan.tiling.area),
    key("pieces", several(PIECE), lambda of: of.plan.tiling.pieces),
    key(
        "patches",
        several(PATCH),
        lambda of: [_Patch(patch, of.plan.tiling) for patch in of.plan.tiling.patches],
    ),
    key("seams", several(SEAM), lambda of: _seams(of.plan)),
    key(
        "steps",
        several(STEP),
        lambda of: [_Step(step, step.n in of.trims) for step in of.plan.assembly.steps],
    ),
    key("threads", several(THREAD), lambda of: of.plan.assembly.threads),
    key("ways_back", several(WAY_BACK), lambda of: _ways_back(of.plan.assembly.threads)),
    key("junctions", several(JUNCTION), lambda of: of.plan.pressing.junctions),
    key("totals", TOTALS, lambda of: of.plan),
    maybe("sections", several(SECTION), lambda of: _sections(of.plan) or None),
    maybe("sections_bound", COUNT, lambda of: of.plan.assembly.fewest_papers or None),
    maybe("applied", several(APPLIED), lambda of: _applied(of.plan) or None),
    maybe("shapes", several(PATCH), lambda of: _shapes(of.plan.tiling) or None),
    maybe("part_of", PART_OF, lambda of: of.plan.block.part),
    maybe("second_version", SECOND_VERSION, lambda of: of.plan.pressing.versions),
    maybe("fans", FANS, lambda of: of.plan.pressing.fans),
)


# How blocks are joined whose edges turn corners: a block whose pieces are the blocks laid, in the frame of the top.
LAID: FactKind[PlacedPiece] = record(
    key("id", TEXT, lambda piece: piece.id),
    key("block", TEXT, lambda piece: block_of(piece.fabric)),
    key("turn", NUMBER, lambda piece: piece.turn),
    key("corners_in", POINTS, lambda piece: piece.outline.corners),
)
JOINING: FactKind[BlockPlan] = record(
    key("pieces", several(LAID), lambda top: top.tiling.pieces),
    key("seams", several(SEAM), lambda top: _seams(top)),
    key("steps", several(STEP), lambda top: [_Step(step, False) for step in top.assembly.steps]),
    key("threads", several(THREAD), lambda top: top.assembly.threads),
    key("totals", TOTALS, lambda top: top),
)


def _seams(block: BlockPlan) -> list[_Seam]:
    sewn, pressed = block.assembly.sewn, block.pressing.pressed
    return [_Seam(seam, sewn[seam.id], pressed[seam.id]) for seam in block.tiling.seams]
