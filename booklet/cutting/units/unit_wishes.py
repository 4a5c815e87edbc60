"""Floor 7: wishes of `cutting:` that no unit of the pattern can follow, each with the reason."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping

from booklet.crafts.ruler import Ruler
from booklet.cutting.cutting_plan import CuttingPlan
from booklet.cutting.units.together_plan import Together
from booklet.cutting.units.unit_candidates import Candidate, candidates
from booklet.cutting.units.unit_finding import (
    Found,
    flying_geese,
    half_squares,
    rows,
    squares_in_squares,
)
from booklet.cutting.units.unit_kinds import kinds_of
from booklet.cutting.units.unit_sums import LEAST_SEGMENTS, strip_figures
from booklet.diagnostic import Diagnostic, Span, warning
from booklet.quilt.sized import SetPattern, SizedQuilt

_Finder = Callable[[Iterable[Candidate]], Iterator[Found]]
_WISHES: Mapping[str, tuple[frozenset[Together], _Finder, str]] = {
    "half squares": (
        frozenset({Together.TWO, Together.FOUR, Together.EIGHT}),
        half_squares,
        "joins two half-square triangles of two fabrics to a square",
    ),
    "flying geese": (
        frozenset({Together.GEESE}),
        flying_geese,
        "joins a triangle and two of half its size, of one other fabric, to a flying goose",
    ),
    "strip sets": (
        frozenset({Together.STRIPS}),
        rows,
        "joins squares and rectangles of two or more fabrics to a row",
    ),
    "square in a square": (
        frozenset({Together.SQUARE}),
        squares_in_squares,
        "joins a square and four triangles of one other fabric to a square",
    ),
}


def unheard(pattern: SetPattern, plans: Mapping[str, CuttingPlan]) -> Iterator[Diagnostic]:
    """A warning for each wish, where it is written, that makes a unit in none of its sizes."""
    asked: dict[tuple[str, Span], list[str]] = {}
    for size, quilt in pattern.quilts.items():
        for key, span in quilt.size.cutting.wishes:
            asked.setdefault((key, span), []).append(size)
    for (key, span), sizes in asked.items():
        made = {unit.how for size in sizes for unit in plans[size].together}
        if not made & _WISHES[key][0]:
            yield _unheard(key, span, [pattern.quilts[size] for size in sizes], pattern)


def _unheard(key: str, span: Span, quilts: Iterable[SizedQuilt], pattern: SetPattern) -> Diagnostic:
    """The warning, with the reason in the first size that has such a unit at all."""
    _, find, joins = _WISHES[key]
    for quilt in quilts:
        found = tuple(find(candidates(pattern, quilt)))
        for unit in found:
            where = (
                f"`{key}` finds no unit: the one in block `{unit.block}` cannot be made so, for "
            )
            why = unit.hindrance
            if why is not None:
                hint = f"{why.remedy}, or leave out `{key}`"
                return warning("no-unit-to-make", where + why.reason, span, hint)
        if found and key == "strip sets" and not _by_ruler(found, quilt, pattern):
            return warning(
                "no-unit-to-make",
                f"`{key}` finds no unit: in size `{quilt.size.id}` their strips lie between the marks of the"
                " ruler",
                span,
                f"leave out `{key}`, or choose a `unit` at which they lie on the ruler",
            )
        if found:
            most = max(kind.count for kind in kinds_of(found, quilt.blocks))
            return warning(
                "no-unit-to-make",
                f"`{key}` finds too few units: at most `{most}` are alike in size `{quilt.size.id}`, and a"
                f" strip set is worth sewing from `{LEAST_SEGMENTS}` that its cloth is long enough for",
                span,
                f"leave out `{key}`, or make a larger size",
            )
    return warning(
        "no-unit-to-make",
        f"`{key}` finds no unit: no step {joins}",
        span,
        f"leave out `{key}`, or give such a unit a step of its own: `booklet plan --write` writes the order",
    )


def _by_ruler(found: Iterable[Found], quilt: SizedQuilt, pattern: SetPattern) -> bool:
    """Whether the ruler shows the strips of any of the rows."""
    written = pattern.pattern
    ruler = Ruler(written.allowance, written.units, asked=quilt.size.cutting.ruler)
    return any(strip_figures(kind, ruler) for kind in kinds_of(found, quilt.blocks))
