"""The booklet explains the signs that its pictures use, and no others."""

import corpus
import pytest
from source_helpers import PATTERNS

from booklet.drawing.ink import svg
from booklet.drawing.scene import Ink, Line, Mark, Sign
from booklet.pages.pictures.album import drawn
from booklet.pages.pictures.figures import LARGE

SIGNS = {
    Mark.STOP, Mark.OPENED, Mark.CLIP, Mark.THROUGH, Mark.BACKSTITCH, Mark.OPEN, Mark.MIDDLE, Ink.MACHINE, Ink.HAND
}  # fmt: skip


def used(scene):
    marks = {item.mark for item in scene.items if isinstance(item, Sign)}
    inks = {item.ink for item in scene.items if isinstance(item, Line)}
    routes = {Ink.HAND} if Ink.THREAD in inks else set()
    return SIGNS & (marks | inks | routes)


def told_and_used(plan, size, monkeypatch):
    """The signs of the legend of a size, and those of its steps, its routes and its joins."""
    caught = []
    monkeypatch.setattr(svg, "render", lambda scene: caught.append(scene) or "")
    album = drawn(plan)(size, LARGE)
    album.figure("legend")
    (legend,) = caught
    caught.clear()
    for name in album.cards():
        album.figure(name)
    for name in album.rows:
        if name.startswith(("thread", "faces")):
            album.series(name)
    return used(legend), set().union(*map(used, caught))


@pytest.mark.parametrize(
    "name",
    [
        "example", "fan_of_five", "over_papers", "house_on_paper", "square_in_frame", "partial_by_tool", "orange_peel",
        "flowers_in_lattice", "leaves_over_leaves", "nine_patch", "crosses_in_lattice",
    ],
)  # fmt: skip
def test_every_sign_of_the_pictures_is_explained_and_no_other(name, monkeypatch):
    plan = corpus.plan_of(corpus.EXAMPLE if name == "example" else PATTERNS / name)
    for size in plan.sizes:
        told, found = told_and_used(plan, size, monkeypatch)
        assert told == found, size.size.id


def test_squares_sewn_by_machine_from_edge_to_edge_need_few_signs(monkeypatch):
    # nine squares: a machine seam, points that meet, one way to press, and the three faces of cloth
    plan = corpus.plan_of(PATTERNS / "nine_patch")
    told, _ = told_and_used(plan, plan.sizes[0], monkeypatch)
    assert told == {Ink.MACHINE}


def test_where_sizes_stand_together_the_signs_of_all_are_explained(monkeypatch):
    # the cushion is sewn by hand alone, the throw by machine as well
    plan = corpus.plan_of(corpus.EXAMPLE)
    caught = []
    monkeypatch.setattr(svg, "render", lambda scene: caught.append(scene) or "")
    album = drawn(plan)(plan.sizes[0], LARGE)
    album.figure("legend")
    album.figure("legend of all")
    own, every = map(used, caught)
    assert Ink.MACHINE not in own and {Ink.MACHINE, Ink.HAND} <= every
