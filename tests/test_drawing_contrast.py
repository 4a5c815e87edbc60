"""Letters in pictures stand out from what lies beneath them: WCAG 2.2 asks for a contrast of 4.5."""

import pytest
from test_drawing_whole import every_figure

from booklet.drawing.ink import svg
from booklet.drawing.ink.colours import WHITE
from booklet.drawing.ink.fills import ground_colour
from booklet.drawing.scene import Area, Label
from booklet.kit.colour import contrast


def inside(point, outline):
    """Whether a point lies in a polygon: a ray to the right crosses its sides an odd number of times."""
    x, y = point
    odd = False
    for (ax, ay), (bx, by) in zip(outline, (*outline[1:], outline[0]), strict=True):
        if (ay > y) != (by > y) and x < ax + (y - ay) * (bx - ax) / (by - ay):
            odd = not odd
    return odd


def ground(point, items):
    """The colour that lies on top at a point, white paper where nothing does."""
    found = WHITE
    for item in items:
        if isinstance(item, Area) and item.fill is not None:
            outlines = (item.points, *item.more)
            if any(inside(point, outline) for outline in outlines):
                found = ground_colour(item.fill)
    return found


def ink(label):
    return svg.ACCENT if label.accent else svg.GREY if label.muted else svg.DARK


def test_the_ray_counts_sides():
    square = ((0, 0), (2, 0), (2, 2), (0, 2))
    assert inside((1, 1), square)
    assert not inside((3, 1), square)
    assert not inside((-1, 1), square)


@pytest.fixture
def scenes(monkeypatch):
    seen = []
    render = svg.render
    monkeypatch.setattr(svg, "render", lambda scene: seen.append(scene) or render(scene))
    return seen


def test_every_letter_of_every_picture_stands_out(scenes, example_plan):
    for size in example_plan.sizes[:2]:
        for figure in every_figure(example_plan, size):
            del figure
    faint, labels, grounds = {}, 0, set()
    for scene in scenes:
        for number, item in enumerate(scene.items):
            if isinstance(item, Label):
                labels += 1
                # a plate or a halo is white
                below = WHITE if item.plate or item.halo else ground(item.at, scene.items[:number])
                grounds.add(below)
                ratio = contrast(ink(item), below)
                if ratio < 4.5:
                    faint[scene.name, item.text] = (ink(item), below, round(ratio, 2))
    assert labels > 100
    assert len(grounds) > 1, grounds
    assert faint == {}
