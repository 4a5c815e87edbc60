"""Rings noded and paired in rows of numbers, held to sums by hand and to asking every point of every side, one at a time."""

from __future__ import annotations

import random
from math import dist

import pytest

from booklet.geometry.soundness.noding import noded, numbered, paired

SQUARE = ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0))


def brick(left, top):
    return ((left, top), (left + 2, top), (left + 2, top + 1), (left, top + 1))


def test_a_brick_on_two_gets_the_corner_between_them():
    # the upper brick runs from 1 to 3, the lower ones from 0 to 2 and from 2 to 4: (2, 1) lies on its lower side,
    # and its corners (1, 1) and (3, 1) lie on their upper sides
    rings, near = noded(numbered([brick(1.0, 0.0), brick(0.0, 1.0), brick(2.0, 1.0)]))
    assert rings.listed() == [
        ((1, 0), (3, 0), (3, 1), (2, 1), (1, 1)),
        ((0, 1), (1, 1), (2, 1), (2, 2), (0, 2)),
        ((2, 1), (3, 1), (4, 1), (4, 2), (2, 2)),
    ]
    assert near == []
    sides = paired(rings)
    assert sides.repeated == ()
    # fifteen sides; three are shared: two under the upper brick and one between the lower ones
    assert len(sides.owner) == 15
    assert len(sides.rim) == 15 - 2 * 3


def test_a_corner_that_is_neither_on_a_side_nor_apart_is_told():
    # the tip stands 1/10000 in above the upper side of the square
    tip = ((0.5, -0.0001), (0.2, -1.0), (0.8, -1.0))
    rings, near = noded(numbered([SQUARE, tip]))
    assert rings.listed() == [SQUARE, tip]
    assert near == [((0.5, -0.0001), ((0.0, 0.0), (1.0, 0.0)))]


def test_a_side_twice_in_one_direction_repeats_and_one_without_length_is_left_out():
    doubled = (SQUARE[0], *SQUARE)
    rings, _ = noded(numbered([SQUARE, doubled]))
    assert rings.listed() == [SQUARE, SQUARE]
    sides = paired(rings)
    assert sides.repeated == tuple((edge, 1) for edge in sides.owner)
    assert set(sides.owner.values()) == {0}
    assert sides.rim == set(sides.owner)


def test_no_ring_and_a_ring_of_one_point_are_no_side():
    assert noded(numbered([]))[0].listed() == []
    rings, near = noded(numbered([((1.0, 1.0), (1.0, 1.0)), SQUARE]))
    assert (rings.listed(), near) == ([(), SQUARE], [])


def one_by_one(rings):
    """What `noded` and `paired` are to find, by plain search."""
    points = {point for ring in rings for point in ring}

    def off(point, a, b):
        (x, y), (ax, ay), (bx, by) = point, a, b
        dx, dy = bx - ax, by - ay
        t = min(1.0, max(0.0, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy)))
        return dist(point, (ax + t * dx, ay + t * dy))

    made, near = [], set()
    for ring in rings:
        walk = []
        for a, b in zip(ring, ring[1:] + ring[:1], strict=True):
            far = {point: off(point, a, b) for point in points - {a, b}} if a != b else {}
            on = sorted((p for p in far if far[p] <= 2e-6), key=lambda p, a=a: dist(a, p))
            near |= {(p, (min(a, b), max(a, b))) for p in far if 2e-6 < far[p] <= 1e-3}
            walk += [a, *on] if a != b else []
        made.append(tuple(walk))
    owner, repeated = {}, []
    for n, ring in enumerate(made):
        for edge in zip(ring, ring[1:] + ring[:1], strict=True):
            if owner.setdefault(edge, n) != n:
                repeated.append((edge, n))
    rim = {edge for edge in owner if edge[::-1] not in owner}
    return made, sorted(near), owner, repeated, rim


@pytest.mark.parametrize("seed", range(12))
def test_rows_of_numbers_find_what_plain_search_finds(seed):
    chance = random.Random(seed)
    nudges = (0.0, 1.5e-6, 1e-4)[
        : 1 + seed % 3
    ]  # what is on a side all the same, what is too close to tell
    halves = [
        (x / 2 + (x * y % 2) * chance.choice(nudges), y / 2) for x in range(5) for y in range(5)
    ]
    rings = [tuple(chance.sample(halves, 4)) for _ in range(12)]
    rings += [brick(float(x), float(y)) for x in (0, 1) for y in (0, 1)]
    found, near = noded(numbered(rings))
    sides = paired(found)
    made, close, owner, repeated, rim = one_by_one(rings)
    assert found.listed() == made
    assert near == close
    assert list(sides.owner.items()) == list(owner.items())
    assert list(sides.repeated) == repeated
    assert sides.rim == rim
    assert repeated and rim
