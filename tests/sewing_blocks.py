"""Blocks for the tests of sewing: small ones a teacher knows, and random ones."""

from __future__ import annotations

import math
import random
from collections.abc import Sequence

from builders import block_of, pattern_of, piece, sewing_of, size_of, span

from booklet.geometry import lay_out
from booklet.geometry.tiling import Tiling
from booklet.pattern import By, DeclaredStep, Ends, Piece, PressKind, PressWish, Sewing
from booklet.sewing import assemble
from booklet.sewing.assembly import Assembly

_entry = [0]


def sew(
    *join: str,
    make: str = "",
    by: By | None = None,
    ends: Ends | None = None,
    leave: str | None = None,
    press: PressKind | None = None,
) -> DeclaredStep:
    """A declared step: sew("a", "b", make="pair")."""
    _entry[0] += 1
    line = 200 + _entry[0]
    return DeclaredStep(
        make=make or join[0],
        join=join,
        span=span(line),
        join_spans=tuple(span(line, 20 + 5 * k, 23 + 5 * k) for k in range(len(join))),
        entry=_entry[0],
        by=by,
        ends=ends,
        leave=leave,
        press=None if press is None else PressWish(press, None, span(line, 60, 64)),
    )


def finish(*join: str, by: By | None = None) -> DeclaredStep:
    """The later closing of a partial seam."""
    _entry[0] += 1
    line = 200 + _entry[0]
    spans = tuple(span(line, 20 + 5 * k, 23 + 5 * k) for k in range(len(join)))
    return DeclaredStep(
        make="", join=join, span=span(line), join_spans=spans, entry=_entry[0], by=by, finish=True
    )


def outcome(
    pieces: Sequence[Piece],
    steps: Sequence[DeclaredStep] | None = None,
    *,
    unit: str = "1 in",
    sewing: Sewing | None = None,
):
    """What assemble says of one block `b` in one size `s`."""
    block = block_of(pieces, steps=steps)
    pattern = pattern_of(blocks=[block], sizes=[size_of(unit, sewing=sewing)])
    laid = lay_out(pattern)
    assert not laid.diagnostics, laid.diagnostics
    return laid.then(assemble)


def sewn(
    pieces: Sequence[Piece],
    steps: Sequence[DeclaredStep] | None = None,
    *,
    unit: str = "1 in",
    sewing: Sewing | None = None,
) -> Assembly:
    """The assembly of one block that has no fault."""
    found = outcome(pieces, steps, unit=unit, sewing=sewing)
    assert not any(d.is_error for d in found.diagnostics), (
        found.diagnostics
    )  # risks are only warned about
    assembly = found.value.assemblies["s", "b"]
    assert_sound(assembly)
    return assembly


def codes(pieces: Sequence[Piece], steps: Sequence[DeclaredStep]) -> list[str]:
    """The codes of the faults of an order; a faulty block has no assembly."""
    found = outcome(pieces, steps)
    assert not found.value.assemblies
    return [d.code for d in found.diagnostics if d.is_error]


def tiling_of(pieces: Sequence[Piece], unit: str = "1 in") -> Tiling:
    """The tiling of one block."""
    laid = lay_out(pattern_of(pieces=pieces, unit=unit))
    assert not laid.diagnostics, laid.diagnostics
    return laid.value.tilings["s", "b"]


def polygon(id: str, *corners: Sequence[float], fabric: str = "ink") -> Piece:
    """A piece by its corners in block coordinates."""
    return piece(id, "polygon", corners=corners, fabric=fabric)


def box(id: str, x: float, y: float, w: float = 1, h: float = 1, fabric: str = "ink") -> Piece:
    """A rectangle by its top left corner."""
    return polygon(id, (x, y), (x + w, y), (x + w, y + h), (x, y + h), fabric=fabric)


def grid(columns: int, rows: int, cell: float = 1) -> list[Piece]:
    """Squares r1c1, r1c2, … in two fabrics like a chessboard."""
    return [
        box(f"r{r + 1}c{c + 1}", c * cell, r * cell, cell, cell, ("ink", "sand")[(r + c) % 2])
        for r in range(rows)
        for c in range(columns)
    ]


def wheel() -> list[Piece]:
    """Five rectangles: a square and four 2 x 1 round it, none of which can be sewn on last."""
    return [
        box("c", 1, 1, fabric="sand"),
        box("a1", 0, 0, 2, 1),
        box("a2", 2, 0, 1, 2),
        box("a3", 1, 2, 2, 1),
        box("a4", 0, 1, 1, 2),
    ]


def star() -> list[Piece]:
    """An eight-pointed star of 2 in diamonds, squares in its corners, triangles at its sides."""
    d = 2 * math.sqrt(0.5)
    half = 2 + d
    pieces: list[Piece] = []

    def turned(x: float, y: float, degrees: float) -> tuple[float, float]:
        a = math.radians(degrees)
        return (
            half + x * math.cos(a) - y * math.sin(a),
            half + x * math.sin(a) + y * math.cos(a),
        )

    for k in range(4):
        q = 90 * k
        for j, (inner, outer, tip) in enumerate(
            [((0, -2), (d, -d), (d, -2 - d)), ((d, -d), (2, 0), (2 + d, -d))]
        ):
            corners = [turned(*p, q) for p in ((0, 0), inner, tip, outer)]
            pieces.append(polygon(f"d{2 * k + j + 1}", *corners, fabric=("ink", "red")[j]))
        square = [(d, -d), (d, -2 - d), (2 + d, -2 - d), (2 + d, -d)]
        pieces.append(polygon(f"s{k + 1}", *(turned(*p, q) for p in square), fabric="sand"))
        side = [(0, -2), (-d, -2 - d), (d, -2 - d)]
        pieces.append(polygon(f"t{k + 1}", *(turned(*p, q) for p in side), fabric="sand"))
    return pieces


def rosette() -> list[Piece]:
    """A hexagon `c` with six round it, a1 at the upper right and on clockwise, sides 1 in."""
    reach = math.sqrt(3)
    pieces = [piece("c", "hexagon", side=1, at=(0, 0), fabric="sand")]
    for k in range(6):
        a = math.radians(60 * k - 60)
        at = (reach * math.cos(a), reach * math.sin(a))
        pieces.append(piece(f"a{k + 1}", "hexagon", side=1, at=at))
    return pieces


def quarter_circle() -> list[Piece]:
    """A 3 in square: a quarter disc of 2 in radius in its lower left corner, and the rest."""
    return [
        piece("pie", "path", outline="M 0 1 A 2 2 0 0 1 2 3 L 0 3 Z"),
        piece("rest", "path", outline="M 0 0 L 3 0 L 3 3 L 2 3 A 2 2 0 0 0 0 1 Z", fabric="sand"),
    ]


def guillotine(n: int, seed: int) -> list[Piece]:
    """n rectangles made by cutting a 12 x 12 square straight through, again and again."""
    chance = random.Random(seed)
    boxes = [(0.0, 0.0, 12.0, 12.0)]
    while len(boxes) < n:
        boxes.sort(key=lambda b: b[2] * b[3])
        x, y, w, h = boxes.pop()
        share = chance.choice([0.25, 0.375, 0.5, 0.625, 0.75])
        if w > h or (w == h and chance.random() < 0.5):
            boxes += [(x, y, w * share, h), (x + w * share, y, w - w * share, h)]
        else:
            boxes += [(x, y, w, h * share), (x, y + h * share, w, h - h * share)]
    return [box(f"p{k + 1}", *b) for k, b in enumerate(sorted(boxes))]


def assert_sound(assembly: Assembly) -> None:
    """What must hold for every order: the whole block, each seam sewn once, ends that let it open."""
    tiling = assembly.tiling
    assert set(assembly.sewn) == {seam.id for seam in tiling.seams}
    if not assembly.steps:
        return
    assert [step.n for step in assembly.steps] == list(range(1, len(assembly.steps) + 1))
    assert assembly.steps[-1].make == tiling.block
    assert set(assembly.steps[-1].pieces) == {piece.id for piece in tiling.pieces}
    runs = [(step, run) for step in assembly.steps for run in step.runs]
    sewn_once = [s for step, run in runs for s in run.seams if assembly.sewn[s].step == step.n]
    assert sorted(sewn_once) == sorted(assembly.sewn)
    for _, run in runs:
        assert len(run.points) == len(run.seams) + 1
        for k, id in enumerate(run.seams):
            seam = tiling.seam(id)
            assert {seam.start, seam.end} == {run.points[k], run.points[k + 1]}
    assert_turns_are_open(assembly)
    assert_agrees(assembly)
    hand = [id for id, how in assembly.sewn.items() if how.by is By.HAND]
    assert sorted(s for thread in assembly.threads for s in thread.seams) == sorted(hand)
    for thread in assembly.threads:
        numbers = [assembly.sewn[s].step for s in thread.seams]
        assert numbers == sorted(numbers)
        assert_goes_on(assembly, thread)


def assert_goes_on(assembly, thread):
    """A thread sews on from where its last seam ended, or goes back from there over seams that are sewn by then."""
    back = {way.before: way for way in thread.back}
    assert all(0 < k < len(thread.seams) for k in back)
    for k, id in enumerate(thread.seams):
        seam = assembly.tiling.seam(id)
        here = thread.points[k + 1]
        if way := back.get(k + 1):
            assert way.points[-1] == here
            here = way.points[0]
            step = assembly.sewn[thread.seams[k + 1]].step
            for n, over in enumerate(way.seams):
                there = assembly.tiling.seam(over)
                assert {there.start, there.end} == {way.points[n], way.points[n + 1]}
                assert assembly.sewn[over].step < step or assert_sewn_by(assembly, over, thread, k)
            far = sum(math.dist(a, b) for a, b in zip(way.points, way.points[1:], strict=False))
            assert way.loose == (not way.seams) and (way.seams or math.isclose(way.length, far))
        assert {seam.start, seam.end} == {thread.points[k], here}


def assert_sewn_by(assembly, over, thread, k):
    """A seam of the same step is sewn earlier on its card than what the thread sews after seam k."""
    step = assembly.steps[assembly.sewn[over].step - 1]
    card = [seam for seam, _ in on_the_card(assembly, step)]
    assert card.index(over) < card.index(thread.seams[k + 1])
    return True


def on_the_card(assembly, step):
    """The hand seams of a step as its card says them, run by run, each with the point it begins at."""
    return [
        (seam, point)
        for run in step.runs
        if run.by is By.HAND
        for seam, point in run.goes
        if assembly.sewn[seam].step == step.n
    ]


def assert_agrees(assembly):
    """Every thread sews the seams of a step in the order of the card, and each the same way."""
    for step in assembly.steps:
        card = on_the_card(assembly, step)
        for thread in assembly.threads:
            there = zip(thread.seams, thread.points, strict=False)
            walked = [sewn for sewn in there if assembly.sewn[sewn[0]].step == step.n]
            assert [sewn for sewn in card if sewn in walked] == walked, step.n


def assert_turns_are_open(assembly: Assembly) -> None:
    """At every point where a run turns, every seam sewn before and ending there stops there."""
    order = [(step.n, run) for step in assembly.steps for run in step.runs]
    when = {
        s: k for k, (n, run) in enumerate(order) for s in run.seams if assembly.sewn[s].step == n
    }
    for k, (_, run) in enumerate(order):
        for point in (run.points[t] for t in run.turns):
            for seam in assembly.tiling.seams:
                for end, at in zip(
                    assembly.sewn[seam.id].ends, (seam.start, seam.end), strict=True
                ):
                    if at == point and when[seam.id] <= k:
                        assert end.value == "point", (seam.id, point)


def hand_sewing(**keys: object) -> Sewing:
    """Sewing rules under which everything is sewn by hand."""
    return sewing_of(machine_from="99 in", **keys)  # type: ignore[arg-type]
