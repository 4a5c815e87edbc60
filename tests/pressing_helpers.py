"""Blocks for the tests of pressing: pieces by their corners, steps in a few words, laid out and sewn."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

import shapely

from booklet.geometry import lay_out
from booklet.geometry.overlay import layer_cells
from booklet.pattern import By, DeclaredStep, Ends, Piece, PressHabit, PressKind, PressWish
from booklet.pressing import press
from booklet.pressing.pressing import PressedJunction, Pressing
from booklet.sewing import assemble
from booklet.sewing.assembly import Assembled, Assembly
from tests.builders import block_of, pattern_of, piece, sewing_of, size_of, span

Corners = Sequence[tuple[float, float]]
BOTH = {"s": "b"}
FINEST = 1e-11  # inches: the grid of areas that are summed, where no sliver may be lost


def patch(id: str, corners: Corners, fabric: str = "ink") -> Piece:
    """A piece by its corners, clockwise on the page."""
    return piece(id, corners=[(float(x), float(y)) for x, y in corners], fabric=fabric)


def square(id: str, x: float, y: float, fabric: str = "ink", w: float = 1, h: float = 1) -> Piece:
    """A rectangle by its top left corner."""
    return patch(id, [(x, y), (x + w, y), (x + w, y + h), (x, y + h)], fabric)


def wish(text: str, line: int = 50) -> PressWish:
    """A wish as written: "toward a", "away from a", "open", "fan"."""
    for kind in PressKind:
        if text.startswith(kind.value):
            return PressWish(kind, text[len(kind.value) :].strip() or None, span(line, 5, 12))
    raise AssertionError(text)


def sew(
    make: str, *join: str, press: str | None = None, ends: Ends | None = None, by: By | None = None,
    line: int = 50, leave: str | None = None,
) -> DeclaredStep:  # fmt: skip
    """One step."""
    place = span(line, 3, 9)
    return DeclaredStep(
        make=make, join=join, span=place, join_spans=(place,) * len(join), entry=line, ends=ends, by=by, leave=leave,
        finish=not make, press=wish(press, line) if press else None,
    )  # fmt: skip


def sewn(
    pieces: Sequence[Piece],
    steps: Sequence[DeclaredStep] | None,
    habit: PressHabit = PressHabit.AUTO,
    *,
    unit: str = "4 in",
    by: By = By.MACHINE,
) -> Assembled:
    """One block `b` in one size `s`, sewn; `unit` is the length of 1."""
    return sewn_blocks([block_of(pieces, steps=steps)], habit, unit=unit, by=by)


def sewn_blocks(blocks, habit=PressHabit.AUTO, *, unit="4 in", by=By.MACHINE, **size) -> Assembled:
    """Several blocks in one size `s`."""
    sewing = sewing_of(
        machine_from="0 in" if by is By.MACHINE else "99 in", set_in_by=by, press=habit
    )
    pattern = pattern_of(blocks=blocks, sizes=[size_of(unit, sewing=sewing, **size)])
    laid_out = lay_out(pattern)
    assert laid_out.value is not None and not laid_out.diagnostics, laid_out.diagnostics
    made = assemble(laid_out.value)
    assert made.value is not None and not any(d.is_error for d in made.diagnostics), (
        made.diagnostics
    )
    return made.value


def pressed(*args, **keys) -> Pressing:
    """The pressing of one sewn block, without faults."""
    return pressing_of(sewn(*args, **keys))


def pressing_of(made: Assembled) -> Pressing:
    """The pressing of the block that is sewn, without faults."""
    outcome = press(made)
    assert outcome.value is not None and not outcome.diagnostics, outcome.diagnostics
    return outcome.value.pressings["s", "b"]


def assembly(*args, **keys) -> Assembly:
    return sewn(*args, **keys).assemblies["s", "b"]


def directions(pressing: Pressing) -> Mapping[tuple[str, str], str | None]:
    """(piece, piece) in order of name -> the piece it is pressed toward."""
    tiling = pressing.assembly.tiling
    return {tuple(sorted(tiling.seam(s).between)): p.toward for s, p in pressing.pressed.items()}


def kinds(pressing: Pressing) -> list[str]:
    return [junction.kind.value for junction in pressing.junctions]


def at(pressing: Pressing, x: float, y: float) -> PressedJunction:
    """The junction at a place in inches."""
    return next(j for j in pressing.junctions if math.dist(j.at, (x, y)) < 1e-6)


def four_patch(a="ink", b="sand", c="sand", d="ink") -> list[Piece]:
    """a b over c d, each 1 x 1."""
    return [square("a", 0, 0, a), square("b", 1, 0, b), square("c", 0, 1, c), square("d", 1, 1, d)]


def pairs_then_halves(top=None, low=None, middle=None, **keys) -> list[DeclaredStep]:
    """The usual order of a four-patch."""
    return [
        sew("top", "a", "b", press=top, line=50, **keys),
        sew("low", "c", "d", press=low, line=51, **keys),
        sew("b", "top", "low", press=middle, line=52, **keys),
    ]


def layered_area(cloth: Mapping[str, Sequence[Corners]]) -> float:
    """The area of the layers of cloth, summed over the plane: each cell as often as outlines cover it."""
    cells, layers = layer_cells([p for parts in cloth.values() for p in parts], grid=FINEST)
    return float((shapely.area(cells) * layers).sum())
