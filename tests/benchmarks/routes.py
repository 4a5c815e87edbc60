"""Order and routes planned together beside planned one after the other: what both cost, in inches of seam.

    .venv/bin/python tests/benchmarks/routes.py

One after the other: the order with the fewest turns and, of those, the fewest cards; then its threads, once without
going back over sewn seam and once with it. Together: the order and its routes at once. No order turns more than another
here, so turns are left out; a bound is what every order and every route costs at least, where it is known.
"""

from __future__ import annotations

import time
from pathlib import Path

from booklet.kit.records import replace
from booklet.recipe.checking import lay_out_folder
from booklet.sewing.auto.choosing import Weighed, weighed_steps
from booklet.sewing.auto.finding import search_order, ways_known
from booklet.sewing.auto.rings import BuildKind
from booklet.sewing.auto.unit_bench import turn_worth
from booklet.sewing.auto.unscaled import question_of

PATTERNS = Path(__file__).parent.parent / "patterns"
BLOCKS = (
    ("rosette of 7", "hexagon_rosette_1", "mini"),
    ("rosette of 19", "hexagon_rosette_2", "mini"),
    ("rosette of 37", "hexagon_rosette_3", "mini"),
    ("ring of four", "elongated_ring", "mini"),
    ("ring of eight", "eight_long_hexagons", "small"),
    ("star of eight", "star_8", "mini"),
)


def plainly(question, *read):
    """Answers a question without remembering."""
    return question(*read)


def figures(way: Weighed) -> str:
    """The routes of a way in figures."""
    back = f"{way.gone_back:5.2f} in back" + (f", {way.loose:.2f} in loose" if way.loose else "")
    return f"{way.route:6.2f} in: {way.threads:2} threads, {back}, {way.cards} cards"


def main() -> None:
    for title, name, size_id in BLOCKS:
        laid = lay_out_folder(PATTERNS / name).value
        assert laid is not None
        size = next(size for size in laid.pattern.sizes if size.id == size_id)
        (tiling,) = laid.of_size(size)
        sewing, fabrics = size.sewing, size.fabrics
        found = search_order(question_of(tiling, sewing, fabrics))
        span = tiling.pieces[0].span
        steps = tuple(replace(s, span=span, join_spans=(span,) * len(s.join)) for s in found.steps)
        never = replace(sewing, route_costs=replace(sewing.route_costs, back=1000.0, loose=1000.0))
        only = weighed_steps(BuildKind.FOUND, found.order, steps, tiling, never, fabrics)
        after = weighed_steps(BuildKind.FOUND, found.order, steps, tiling, sewing, fabrics)
        begun = time.process_time()
        known = ways_known(tiling, sewing, fabrics, plainly)
        took = time.process_time() - begun
        assert only and after and known
        best = known.best
        print(f"{title}, {len(tiling.pieces)} patches")
        print(f"  one after the other, no going back  {figures(only)}")
        print(f"  one after the other                 {figures(after)}")
        bound = known.bound and known.bound - best.turns * turn_worth(sewing)
        least = f", at least {bound:.2f} in" if bound else ""
        print(
            f"  together ({best.kind.value}){'':{max(0, 25 - len(best.kind.value))}} {figures(best)}{least}"
        )
        assert best.turns <= after.turns
        print(f"  {best.route / after.route:.0%} of it, in {took:.1f} s of the processor")


if __name__ == "__main__":
    main()
