"""Published figures for sashing and borders: sizes of tops, cut widths, strips."""

from __future__ import annotations

import pytest

from booklet.kit.diagnostic import Span
from booklet.kit.measure import ZERO, Length
from booklet.pattern import Border, Corners
from booklet.quilt.beds.bed import propose
from booklet.quilt.top.borders import add_borders
from booklet.quilt.top.straight import span_of

L = Length.of


def set_size(columns, rows, block, sash, outside=True):
    edge = L(sash) if outside else ZERO
    return tuple(float(span_of((L(block),) * n, L(sash), edge)) for n in (columns, rows))


def bordered(top, width):
    border = Border(
        sides=L(width),
        ends=L(width),
        fabric="ink",
        corners=Corners.BUTTED,
        square_fabric=None,
        span=Span.whole("pattern.yaml"),
    )
    return add_borders((L(top[0]), L(top[1])), [border], L("1/4"), "inch")


def test_five_by_six_blocks_sashed_all_round():
    # sash-78-93, Delaware Quilts, Sizes: 5 × 12 + 6 × 3, 6 × 12 + 7 × 3
    assert set_size(5, 6, 12, 3) == (78, 93)


def test_erratum_sashed_width():
    # err-sash-sherri: Sherri Quilts A Lot, Mathing the Yardage II, 2020, prints 55 3/8 x 66 3/4; 4 × 9 + 5 × 3 5/8 = 54 1/8
    wide, high = set_size(4, 5, 9, "3 5/8")
    assert (wide, high) == (54.125, 66.75)
    assert wide != 55.375


# bord-seq1, bord-seq2, Mountain View (MVC) block-of-month handout: tops given unfinished, 1/2 in more than finished
@pytest.mark.parametrize(
    ("top", "width", "cut", "side", "level", "new"),
    [
        ((32, 43.5), 1, 1.5, 44, 34.5, (34.5, 46)),
        ((34, 45.5), 2, 2.5, 46, 38.5, (38.5, 50)),
    ],
)
def test_borders_one_after_another(top, width, cut, side, level, new):
    got = bordered(top, width)
    assert [float(x) for x in got.plans[0].lengths] == [level, level, side, side]
    assert {float(part.cut[1]) for part in got.parts} == {cut}
    assert tuple(float(x) + 0.5 for x in got.outside) == new


def test_border_on_70_by_86():
    # bord-slide, School slides, Can You Figure the Amount of Yardage to Buy?: 6 1/2 in cut, 6 in finished
    got = bordered((70, 86), 6)
    assert got.outside == (L(82), L(98))
    # bord-slide-p, the same slides: 2 × 70 + 2 × 86 + 4 × 6 1/2 = 338 in of border
    assert sum(float(x) for x in got.plans[0].lengths) == 338


@pytest.mark.parametrize(
    ("cut", "seam", "target", "counts"),
    [("6 1/2", "1/4", (48, 66), (8, 11)), ("6", "1/2", (50, 65), (10, 13))],
    # Patternmart blog, Fabric cuts part 3, 2008: a lap quilt and a rag quilt
)
def test_squares_across_and_down(cut, seam, target, counts):
    finished = L(cut) - 2 * L(seam)
    got = propose((L(target[0]), L(target[1])), (finished, finished))
    assert (got.across, got.down) == counts
    assert got.border == ZERO
