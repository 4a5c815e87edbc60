"""Small helpers for the tests of cutting: items, plans checked by re-cutting them, patterns as text."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

from booklet.crafts.rotary.cuts import box_rows
from booklet.cutting import cut
from booklet.cutting.cutting_plan import CuttingPlan
from booklet.cutting.strips.first_fit import first_fit
from booklet.cutting.strips.items import Item, total_height, variant_of
from booklet.cutting.strips.mixing import mixed
from booklet.cutting.strips.shortest import best_plan
from booklet.geometry import lay_out
from booklet.kit.diagnostic import Span
from booklet.kit.measure import Length
from booklet.pattern import Fabric, Sold
from booklet.pressing import press
from booklet.quilt import set_quilts
from booklet.sewing import assemble
from booklet.source.reader import read_folder

STEP = 0.125


def inches(text) -> Length:
    return Length.of(text)


def box_item(name, width, height, demand, cloth, may_turn=False, step=STEP) -> Item:
    """A rectangle in inches to be cut `demand` times from cloth so many inches wide."""
    steps = int(cloth / step + 1e-9)
    rows = box_rows(width, height, may_turn)
    variants = [variant_of(row, step, steps, demand) for row in rows]
    return Item(name, demand, tuple(v for v in variants if v), width * height / step**2)


def first_fit_height(items, width):
    """The length of cloth, in steps, of the plain first fit."""
    return total_height(first_fit(items, width, ()))


def mixture_cost(items, width):
    """The length of the mixture of strips in parts, in steps: no plan is shorter."""
    return mixed(items, width, (), first_fit(items, width, ())).cost


def cloth_for(items, cloth, step=STEP) -> float:
    """The length of cloth, in inches, of the plan for the items."""
    return best_plan(tuple(items), int(cloth / step + 1e-9)).height * step


def a_fabric(**changes) -> Fabric:
    given = {
        "id": "ink",
        "name": "Ink",
        "colour": "#000000",
        "width": Length.of(40),
        "sold": Sold(Length(Fraction(9, 2)), False),  # 1/8 yd = 4 1/2 in
        "span": Span.whole("pattern.yaml"),
    }
    return Fabric(**(given | changes))


def cut_text(folder: Path, text: str):
    """The outcome of a pattern as text, through all floors up to cutting."""
    (folder / "pattern.yaml").write_text(text, encoding="utf-8")
    read = read_folder(folder)
    return read.then(lay_out).then(assemble).then(press).then(set_quilts).then(cut)


def plan_of(folder: Path, text: str, size: str = "lap") -> CuttingPlan:
    outcome = cut_text(folder, text)
    assert outcome.value is not None, outcome.diagnostics
    assert not any(d.is_error for d in outcome.diagnostics), outcome.diagnostics
    return outcome.value.cuts[size]


def pattern_text(
    fabrics: str, patches: str, pieces: str, blocks: str = "1", extra: str = ""
) -> str:
    return (
        "title: T\nunits: inch\nallowance: 1/4 in\n"
        f"sizes:\n  lap: {{title: Lap, unit: 1 in, blocks: {blocks}}}\n"
        f"fabrics:\n{fabrics}\npatches:\n{patches}\nblocks:\n  boat:\n    pieces:\n{pieces}\n{extra}"
    )


def cut_again(items, best, width) -> None:
    """Cut a plan with scissors of its own: pieces as boxes in steps, strip after strip. AssertionError if
    a piece leaves its strip or the cloth, two overlap, one is turned that may not be, or one is missing."""
    counts = [0] * len(items)
    for fill in best.plan:
        right = 0
        for share in fill.shares:
            variant = items[share.item].variants[share.variant]  # the ways allowed, no other
            assert variant.height <= fill.height, "higher than its strip"
            boxes = [variant.row.outline(index) for index in range(share.count)]
            ends = [max(x for x, _ in box) / STEP for box in boxes]
            begins = [min(x for x, _ in box) / STEP for box in boxes]
            if len(variant.row.shapes) == 1 and variant.row.pitches[0] == variant.row.width:
                assert all(a <= b + 1e-6 for a, b in zip(ends, begins[1:], strict=False)), "overlap"
            assert max(ends) <= variant.lengths[share.count - 1] + 1e-6, "longer than its row"
            right += variant.lengths[share.count - 1]
            counts[share.item] += share.count
        assert right <= width, "beyond the selvedge"
    assert counts == [item.demand for item in items], "too few or too many"
    assert sum(fill.height for fill in best.plan) == best.height
