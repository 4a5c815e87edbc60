"""No number, letter or word of any picture breaks a rule of placement, in any pattern."""

from pathlib import Path

import corpus
import pytest
from placement import breaches

from booklet.drawing.ink import svg
from booklet.drawing.scene import Figure, Ink, Label, Line, Mark, Scene, Sign
from booklet.pages.pictures.album import drawn
from booklet.pages.pictures.figures import LARGE, SMALL
from booklet.pages.views.route_rows import route_rows

HERE = Path(__file__).parent
FOLDERS = [corpus.EXAMPLE, *corpus.FOLDERS]


def scenes(plan, room, monkeypatch):
    """Every picture as a page with such room draws it, caught before it becomes SVG."""
    caught = []
    monkeypatch.setattr(svg, "render", lambda scene: caught.append(scene) or "")
    source = drawn(plan)
    for size in plan.sizes:
        album = source(size, room)
        for name in album.single() | album.cards():
            album.figure(name)
        for name in album.rows:
            album.series(name)
    return caught


def told_of(plan, room, monkeypatch):
    return [f"{s.name}: {words}" for s in scenes(plan, room, monkeypatch) for words in breaches(s)]


@pytest.mark.covering("patches", "blocks", "sewing", "quilt")
@pytest.mark.parametrize("folder", FOLDERS, ids=lambda path: path.name)
def test_no_picture_breaks_a_rule(folder, monkeypatch):
    plan = corpus.plan_of(folder)
    assert told_of(plan, LARGE, monkeypatch) == []


def test_small_pages_keep_the_rules_too(example_plan, monkeypatch):
    assert told_of(example_plan, SMALL, monkeypatch) == []


def told(*items):
    return list(breaches(Scene(name="s", width=40, height=40, items=items, title="T", alt="Alt.")))


def number(x, y, of=(), size=8.5, turn=0.0):
    return Label(at=(x, y), text="2", size=size, of=of, turn=turn)


def test_the_rules_find_what_they_are_for():
    mine, other = Sign((10, 10), Mark.DOT), Sign((20, 10), Mark.DOT)
    seam = Line(points=((10, 10), (20, 10)), ink=Ink.HAND)
    assert told(mine, other, seam, number(10, 6.5, ((10, 10),))) == []
    # 16 lies 6 from its own dot at 10 and 4 from that at 20
    assert "nearer to another" in told(mine, other, number(16, 6.5, ((10, 10),)))[0]
    # with a leader from its foot to its dot it may
    leader = Line(points=((16, 7.4), (11, 9.6)), ink=Ink.LEADER)
    assert told(mine, other, leader, number(16, 6.5, ((10, 10),))) == []
    assert "on a stroke" in told(seam, number(15, 10.2))[0]
    assert "on a dot" in told(mine, number(10.5, 10))[0]
    assert "on each other" in told(number(15, 15), number(15.5, 15))[0]
    # a plate at 8.5 pt has a radius of 8.5 × 0.353 × 0.68 = 2.04 mm; the number beside it begins 1.3 mm off
    assert "plate" in told(number(15, 15), Label(at=(17.1, 15), text="3", size=8.5, plate=True))[0]
    assert "leaves" in told(number(0, 5))[0]
    assert "pt" in told(number(5, 5, size=6.5))[0] and "turned" in told(number(5, 5, turn=90))[0]
    # a needle with its tip at (10, 20) lies back 8 mm, to (2, 20) where it points right
    assert "on a stroke" in told(Sign((10, 20), Mark.NEEDLE, 90), number(5, 20))[0]


def test_routes_stand_side_by_side_as_far_as_the_widest_allows():
    def drawn(width):
        return Figure(name="route", svg="<svg/>", width_mm=width, height_mm=40, caption="", alt="")

    # three of 52 mm in a row; one of 81.5 mm takes half a row, and the next shares it; 168 mm fill one
    rows = route_rows([drawn(w) for w in (52, 52, 52, 81.5, 52, 168)], LARGE)
    assert [(row.kind, len(row.figures), row.gaps) for row in rows] == [
        ("thirds", 3, 0),
        ("halves", 2, 0),
        ("whole", 1, 0),
    ]
