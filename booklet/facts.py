"""Floor 9: the facts. Everything the booklet says in numbers, as one JSON object.

The names of the keys are an interface for other programs: keys may be added, never renamed. Lengths
are decimal inches (`_in`), areas square inches, coordinates inches in the block's own frame.
"""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Collection, Iterable, Mapping
from typing import Any

from booklet.crafts.marks import ruler_step
from booklet.crafts.unit import TogetherUnit
from booklet.cutting.cutting_plan import (
    CutPatch,
    CuttingPlan,
    FabricPlan,
    Placed,
    Strip,
    StripJoin,
)
from booklet.geometry.curve_marks import patch_marks
from booklet.geometry.tiling import Tiling
from booklet.kit.plane import Point
from booklet.measure import Length
from booklet.pattern import Direction
from booklet.plan.records import BlockPlan, Plan, Sitting, SizePlan
from booklet.plan.slanted_words import slanted_of
from booklet.pressing.pressing import FanReport, JunctionKind, Pressed, Versions
from booklet.quilt.sized import Part, SizedQuilt
from booklet.quilt.slanted import InRow
from booklet.sewing.totals import totals

Json = dict[str, Any]


def facts(plan: Plan) -> Json:
    """The facts of every size of the plan."""
    pattern = plan.pattern
    return {
        "title": pattern.title,
        "version": pattern.version,
        "allowance_in": _inches(pattern.allowance),
        "sizes": {size.size.id: _size(size) for size in plan.sizes},
    }


def facts_text(plan: Plan) -> str:
    """The facts as JSON text that ends with a line break; the same plan gives the same bytes."""
    return json.dumps(facts(plan), indent=1, ensure_ascii=False) + "\n"


def _size(size: SizePlan) -> Json:
    return {
        "unit_in": _inches(size.size.unit),
        **_papers(size),
        "ruler_in": _inches(Length(ruler_step(size.size.cutting.ruler, size.pattern.units))),
        "blocks": {
            block.block.id: _block(block, size.cutting.trims.get(block.block.id, ()))
            for block in size.blocks
        },
        "quilt": _quilt(size),
        "cutting": {plan.fabric: _cloth(plan, size) for plan in size.cutting.fabrics},
        "rotary": _rotary(size),
        "together": [_together(unit) for unit in size.cutting.together],
        "together_offers": [_together(unit) for unit in size.cutting.offers],
        "joined": [_joined(join) for join in size.cutting.joins],
        "finishing": _finishing(size.quilt, size.cutting),
        "sittings": [_sitting(sitting) for sitting in size.sittings],
    }


def _papers(size: SizePlan) -> Json:
    """Where patches are basted over papers, what is folded over them."""
    folded = size.size.sewing.papers
    return {} if folded is None else {"paper_allowance_in": _inches(folded)}


def _sitting(sitting: Sitting) -> Json:
    """A sitting, or several alike; minutes are estimates at the pattern's pace, for one of them."""
    return {
        "first": sitting.first,
        "last": sitting.last,
        "minutes": round(sitting.minutes, 1),
        "tasks": [
            {
                "block": portion.block,
                "cards": list(portion.cards),
                "by": portion.by.value,
                "chain": portion.chain,
                **({"together": portion.together} if portion.together else {}),
                "count": portion.count,
                "routes": portion.routes * portion.count,
                "minutes": round(portion.minutes, 1),
            }
            for portion in sitting.portions
        ],
    }


def _block(block: BlockPlan, trims: Collection[int]) -> Json:
    tiling = block.tiling
    return {
        "finished_in": [_number(tiling.width), _number(tiling.height)],
        "area": _number(tiling.area),
        "pieces": [
            {
                "id": piece.id,
                "patch": piece.patch,
                "reversed": piece.reversed,
                "fabric": piece.fabric,
                "corners_in": _points(piece.outline.corners),
                **_curve("outline_in", piece.outline.is_curved, piece.outline.points),
            }
            for piece in tiling.pieces
        ],
        "patches": [
            {
                "letter": patch.letter,
                "shape": patch.name,
                "area": _number(patch.area),
                "corners_in": _points(patch.outline.corners),
                "reversed_too": patch.reversed_too,
                **_curve("outline_in", patch.outline.is_curved, patch.outline.points),
                **_curve(
                    "curve_marks_in", bool(marks := patch_marks([tiling], patch.letter)), marks
                ),
            }
            for patch in tiling.patches
        ],
        "seams": _seams(block),
        "steps": _steps(block, trims),
        "threads": [
            {
                "seams": list(thread.seams),
                "length_in": _number(thread.length),
                "turns": thread.turns,
                "through": len(thread.through),
                "used_up": thread.full,
            }
            for thread in block.assembly.threads
        ],
        "ways_back": [
            {
                "from_thread": back.first,
                "to_thread": back.then,
                "seams": list(back.seams),
                "length_in": _number(back.length),
            }
            for back in block.assembly.retraces
        ],
        "junctions": [
            {
                "at_in": _point(junction.at),
                "seams": list(junction.seams),
                "kind": junction.kind.value,
                "layers": junction.layers,
            }
            for junction in block.pressing.junctions
        ],
        "totals": _totals(block),
        **_versions(block.pressing.versions),
        **_fans(block.pressing.fans),
    }


def _seams(block: BlockPlan) -> list[Json]:
    rows = []
    for seam in block.tiling.seams:
        sewn = block.assembly.sewn[seam.id]
        rows.append(
            {
                "id": seam.id,
                "between": list(seam.between),
                "from_in": _point(seam.start),
                "to_in": _point(seam.end),
                "length_in": _number(seam.length),
                "by": sewn.by.value,
                "step": sewn.step,
                "ends": [end.value for end in sewn.ends],
                "press": _press(block.pressing.pressed[seam.id]),
                **_curve("curve_in", len(seam.path) > 2, seam.path),
            }
        )
    return rows


def _versions(versions: Versions | None) -> Json:
    """The second version of a block: how it is pressed, and where it lies; nothing without one."""
    if versions is None:
        return {}
    return {
        "second_version": {
            "opposite": versions.opposite,
            "layout": versions.layout.value,
            "count": versions.count,
            "places": [list(place) for place in versions.places],
            "press": {seam: _press(p) for seam, p in sorted(versions.second.pressed.items())},
        }
    }


def _fans(fans: FanReport | None) -> Json:
    """What can be fanned of the points at which all seams end; nothing without such points."""
    if fans is None:
        return {}
    return {
        "fans": {
            "points": len(fans.clockwise) + len(fans.unfanned),
            "fewest_unfanned": len(fans.unfanned),
            "proved_at_least": fans.least,
            "odd_cycle": list(fans.odd_cycle),
        }
    }


def _press(pressed: Pressed) -> str:
    return f"toward {pressed.toward}" if pressed.toward else "open"


def _steps(block: BlockPlan, trims: Collection[int]) -> list[Json]:
    return [
        {
            "n": step.n,
            "make": step.make,
            "join": list(step.join),
            "by": step.by.value,
            "kind": step.kind.value,
            "turns": step.turns,
            "runs": [list(run.seams) for run in step.runs],
            "times": step.times,
            "batch": step.batch,
            **({"rectangle_in": [_number(x) for x in step.rectangle]} if step.rectangle else {}),
            **({"trim": True} if step.n in trims else {}),
        }
        for step in block.assembly.steps
    ]


def _totals(block: BlockPlan) -> Json:
    """The counts of one block: seams, inches by machine and by hand, set-ins, threads, clashes."""
    found = totals(block.assembly)
    clashes = sum(j.kind is JunctionKind.CLASH for j in block.pressing.junctions)
    return {
        "seams": found.seams,
        "machine_in": _number(found.machine_in),
        "hand_in": _number(found.hand_in),
        "set_in_joins": found.set_in_joins,
        "turns": found.turns,
        "thread_starts": found.thread_starts,
        "thread_bound": block.assembly.fewest_threads,
        "threads_if_runs_are_parted": block.assembly.parted_threads,
        "ways_back_could_save_in": _number(block.assembly.retrace_gap),
        "clashes": clashes,
    }


def _quilt(size: SizePlan) -> Json:
    quilt = size.quilt
    rows = [row for block in size.blocks for row in patch_counts(block.tiling, quilt.blocks)]
    found: Json = {
        "blocks": dict(quilt.blocks),
        "blocks_made": size.blocks_made,
        "patches": rows,
    }
    if quilt.finished is not None:
        found = {
            "finished_in": [_inches(x) for x in quilt.finished],
            **found,
            "joins_nest": quilt.joins_nest,
            "seam_clashes": quilt.seam_clashes,
            "joins": [
                {"seams": line.seams, "press": line.press, "locks": line.locks}
                for line in size.join_table
            ],
            "across": size.size.across,
            "down": size.size.down,
            **_set(quilt),
            **_slanted(size),
        }
    return found


def _slanted(size: SizePlan) -> Json:
    """The rows of a set on point as they are sewn, each from its lower left end; nothing of another set.
    The corner triangles at the ends of rows are sewn on last, as are the two along the first and last."""
    found = slanted_of(size)
    if found is None:
        return {}
    return {
        "slanted_rows": [
            {
                "kind": "blocks" if row.has_blocks else "sashes",
                "number": row.number,
                "holds": [_in_row(item) for item in row.items],
                "corner_triangle_at_start": row.start is not None,
                "corner_triangle_at_end": row.end is not None,
            }
            for row in found.rows
        ]
    }


def _in_row(item: InRow) -> Json:
    if item.placed is None:
        return {"what": item.name}
    place = item.placed
    return {"what": "block", "block": place.block, "column": place.column, "row": place.row}


def _set(quilt: SizedQuilt) -> Json:
    """Where every block and every part lies in the finished top; `kept_in` is what a set with a ragged
    rim is trimmed to."""
    found: Json = {
        "placed": [
            {
                "block": place.block,
                "column": place.column,
                "row": place.row,
                "turn": place.turn,
                "at_in": _point(place.origin),
            }
            for place in quilt.placed
        ],
        "parts": [
            {
                "name": part.name,
                "fabric": part.fabric,
                "shape": part.shape,
                "finished_in": [_inches(x) for x in part.finished],
                "count": part.count,
                "places_in": [_points(place) for place in part.places],
            }
            for part in quilt.parts
        ],
    }
    if quilt.kept:
        found["kept_in"] = _points(quilt.kept)
    return found


def patch_counts(tiling: Tiling, blocks: Mapping[str, int]) -> list[Json]:
    """How many of each patch and fabric the blocks of one kind need in the whole quilt."""
    made = blocks.get(tiling.block, 0)
    all_of = Counter((piece.patch, piece.fabric) for piece in tiling.pieces)
    reversed_of = Counter((p.patch, p.fabric) for p in tiling.pieces if p.reversed)
    return [
        {
            "block": tiling.block,
            "letter": letter,
            "fabric": fabric,
            "count": count * made,
            "reversed": reversed_of[letter, fabric] * made,
        }
        for (letter, fabric), count in sorted(all_of.items(), key=lambda row: (len(row[0][0]), row))
        if made
    ]


def _cloth(plan: FabricPlan, size: SizePlan) -> Json:
    fabric = size.size.fabrics[plan.fabric]
    found: Json = {
        "width_in": _inches(plan.width),
        "shrinks": _number(float(fabric.shrinks)),
        "strips": [_strip(strip) for strip in plan.strips],
        "length_in": _inches(plan.length),
        "area_used": _number(plan.area_used),
        "lower_bound_in": _inches(plan.lower_bound),
        "gap_percent": _number(100 * (float(plan.length) / float(plan.lower_bound) - 1)),
        "buy": _buy(plan),
        "left_over": [
            {"size_in": [_inches(left.across), _inches(left.along)], "count": left.count}
            for left in plan.leftovers
        ],
    }
    if plan.stock:
        found["sold_as_in"] = [_inches(side) for side in plan.stock]
    return found


def _strip(strip: Strip) -> Json:
    """A kind of strip; of cloth sold ready cut with the number of the piece it is cut from. `laid` is
    what is cut from each of them, in the frame of the cloth (x across it, y along it)."""
    found: Json = {
        "cut_in": _inches(strip.width),
        "count": strip.count,
        "use": [{"for": use.name, "pieces": use.pieces} for use in strip.uses],
        "laid": [
            {"at_in": _number(start), "cuts": [_laid(cut) for cut in layout]}
            for start, layout in zip(strip.starts, strip.layouts, strict=True)
        ],
    }
    if strip.stock:
        found["piece"] = strip.stock
    for word, is_so in (("lengthwise", strip.lengthwise), ("folded", strip.folded)):
        if is_so:
            found[word] = True
    return found


def _laid(cut: Placed) -> Json:
    """One cut; of a square or rectangle that is cut again the triangles of use, as they lie."""
    found: Json = {"for": cut.name, "method": cut.method.word, "outline_in": _points(cut.outline)}
    if cut.wedges:
        found["triangles"] = [wedge.value for wedge in cut.wedges]
    if cut.reversed:
        found["reversed"] = True
    return found


def _buy(plan: FabricPlan) -> Json:
    """What to buy; of cloth sold ready cut the pieces, and how many are needed at least."""
    found: Json = {
        "yards": plan.buy.yards_text,
        "yards_decimal": _number(float(plan.buy.yards)),
        "metres": _number(float(plan.buy.metres)),
    }
    if plan.buy.count is not None:
        found |= {"pieces": plan.buy.count, "pieces_at_least": plan.least_stock}
    return found


def _rotary(size: SizePlan) -> list[Json]:
    """The lines of the cutting tables. Of a print with an up a patch has a line for each way it lies: then
    `cut_in` is across the cloth, then along it, and `up_deg` the way up in the patch's frame."""
    return [
        {
            "for": patch.name,
            "fabric": patch.fabric,
            "method": patch.method.word,
            "cut_in": [_inches(x) for x in patch.cut],
            "exact_in": [_number(x) for x in patch.exact],
            "by": patch.by.value,
            "cuts": patch.cuts,
            "pieces": patch.pieces,
            "reversed": patch.reversed,
            **({} if patch.angle is None else {"angle": _number(patch.angle)}),
            **({} if patch.outline is None else {"outline_in": _points(patch.outline.cut)}),
            **_cut_again(patch),
            **_way_up(patch, size.size.fabrics[patch.fabric].direction),
        }
        for patch in size.cutting.patches
    ]


def _way_up(patch: CutPatch, direction: Direction) -> Json:
    """The way that is up on the cloth, degrees clockwise from up in the patch's frame; stripes have two."""
    if direction is Direction.ANY or patch.outline is None or patch.gives:
        return {}
    return {"up_deg": _number(patch.grain % (180 if direction is Direction.STRIPE else 360))}


def _cut_again(patch: CutPatch) -> Json:
    """How squares and rectangles are cut into triangles, the first figure lying and right side up: how many
    on which diagonal, and which triangles so many of them give; nothing of other cuts."""
    if not patch.gives:
        return {}
    return {
        "diagonals": {diagonal.value: count for diagonal, count in patch.diagonals.items()},
        "gives": [
            {"cuts": count, "triangles": [wedge.value for wedge in wedges]}
            for wedges, count in patch.gives
        ],
    }


def _together(unit: TogetherUnit) -> Json:
    return {
        "name": unit.name,
        "method": unit.how.word,
        "finished_in": [_inches(x) for x in unit.finished],
        "trim_to_in": [_inches(x) for x in unit.trimmed],
        "units": unit.units,
        "made": unit.rounds * unit.each,
        "cuts": [
            {
                "for": part.name,
                "fabric": part.fabric,
                "cut_in": [_inches(x) for x in part.cut],
                "count": part.count,
            }
            for part in unit.cuts
        ],
        "members": [{"block": block, "pieces": sorted(pieces)} for block, pieces in unit.members],
        "trim": unit.trims,
        **({} if unit.across is None else {"across_in": _inches(unit.across)}),
    }


def _joined(join: StripJoin) -> Json:
    """Parts longer than the cloth is wide: strips joined end to end. Each seam takes `join_takes_in`, an
    allowance of either strip; the stretches less the seams are the length cut."""
    return {
        "fabric": join.fabric,
        "strip_in": [_inches(join.usable), _inches(join.width)],
        "strips": join.strips,
        "seam": "straight",
        "join_takes_in": _inches(join.loss),
        "pieces": [
            {
                "for": part.name,
                "length_in": _inches(part.length),
                "stretches_in": [_inches(stretch) for stretch in part.stretches],
            }
            for part in join.parts
        ],
    }


def _finishing(quilt: SizedQuilt, cutting: CuttingPlan) -> Json:
    found: Json = {}
    if quilt.binding:
        found["binding"] = {
            "strip_in": _inches(quilt.binding.strip),
            "length_in": _inches(quilt.binding.length),
            "strips": cutting.pieces("binding"),
            "fabric": quilt.binding.fabric,
            "bias": quilt.binding.bias,
        }
        if not quilt.binding.bias:  # diagonal seams, one for each strip: the last closes the ring
            found["binding"] |= {"seam": "diagonal", "join_takes_in": _inches(quilt.binding.strip)}
    if quilt.backing:
        found["backing"] = {
            "size_in": [_inches(x) for x in quilt.backing.size],
            "widths": quilt.backing.widths,
            "seam": quilt.backing.seam,
            "length_in": _inches(quilt.backing.length),
            "fabric": quilt.backing.fabric,
            "seam_allowance_in": _inches(quilt.backing.allowance),
            "panels_run": "across" if quilt.backing.turned else "down",
            "panels": [
                {"across_cloth_in": _inches(across), "along_cloth_in": _inches(along)}
                for across, along in cutting.panels
            ],
        }
    if quilt.batting:
        found["batting"] = {"size_in": [_inches(x) for x in quilt.batting]}
    if quilt.bed:
        found["bed"] = {
            "mattress_in": [_inches(x) for x in quilt.bed.mattress],
            "wanted_in": [_inches(x) for x in quilt.bed.wanted],
            "drop_in": _inches(quilt.bed.drop),
            "left_in": _inches(quilt.bed.left),
        }
    triangles = _setting_triangles(quilt.parts, cutting)
    if triangles:
        found["setting_triangles"] = triangles
    if quilt.borders:
        found["borders"] = [
            {
                "strips": len(border.lengths),
                "lengths_in": [_inches(x) for x in border.lengths],
                "width_in": _inches(border.width),
                "fabric": border.fabric,
                "corners": border.corners.value,
                "outside_in": [_inches(x) for x in border.outside],
            }
            for border in quilt.borders
        ]
    return found


def _setting_triangles(parts: Iterable[Part], cutting: CuttingPlan) -> Json:
    """How many side and corner triangles a set on point needs, and the squares they are cut from."""
    kinds = {"side triangle": "side", "corner triangle": "corner"}
    found: Json = {}
    for part in parts:
        if part.name in kinds:
            squares = sum(p.cuts for p in cutting.patches if p.name == part.name)
            found[kinds[part.name]] = {
                "square_in": _inches(part.cut[0]),
                "count": part.count,
                "squares": squares,
            }
    return found


def _curve(key: str, curved: bool, points: tuple[Point, ...]) -> Json:
    return {key: _points(points)} if curved else {}


def _points(points: Iterable[Point]) -> list[list[float]]:
    return [_point(point) for point in points]


def _point(point: Point) -> list[float]:
    return [_number(point[0]), _number(point[1])]


def _inches(length: Length) -> float:
    return _number(float(length))


def _number(value: float) -> float:
    """A number to a millionth, without a minus before zero."""
    return round(float(value), 6) + 0.0
