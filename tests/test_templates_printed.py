"""Templates as they come out of the PDF, measured: within 0.1 mm of the patch on every paper, tiles too."""

import io

import numpy as np
import pages_sample as sample
import pdfplumber
import pytest
import shapely

from booklet.drawing.templates.template_layout import HEAD
from booklet.drawing.templates.template_pages import templates_of
from booklet.drawing.templates.template_tiles import tiled
from booklet.pages.composing import compose
from booklet.pages.prepress.pdf import make_pdf
from booklet.pages.style.fonts import boxed
from booklet.pages.style.paper import sheet_of
from booklet.pattern import Paper
from booklet.recipe import compiler

MM = 25.4 / 72
LIMIT = 0.1  # mm

LARGE = """\
title: Large field
version: "2.1"
sizes: {lap: {title: Lap quilt, unit: 1 in, blocks: 2 x 2}}
fabrics: {ink: {name: Dark blue, colour: "#243b6b"}, sand: {name: Sand, colour: "#e9dcc3"}}
blocks:
  big:
    size: 15 x 15
    pieces:
      - {id: whole, corners: [[0, 6], [6, 0], [12, 0], [15, 3], [15, 15], [0, 15]], fabric: sand}
      - {id: left, corners: [[0, 0], [6, 0], [0, 6]], fabric: ink}
      - {id: right, corners: [[12, 0], [15, 0], [15, 3]], fabric: ink}
"""


@pytest.fixture(scope="module")
def large_plan(tmp_path_factory):
    home = tmp_path_factory.mktemp("large")
    (home / "pattern.yaml").write_text(LARGE, encoding="utf-8")
    return compiler.plan(compiler.check(home).value)


def printed(plan, paper, size):
    """Each page of templates as lists of drawn lines, in mm from the room for templates."""
    html = compose(plan, sample.edition("pattern", ("templates",)), None, paper, (size.size.id,))
    made = make_pdf(boxed(html.html))
    assert made.complaints == ()
    off = sheet_of(paper).bare
    with pdfplumber.open(io.BytesIO(made.data)) as opened:
        for page in opened.pages:
            if "bothsquares" not in page.extract_text().replace(" ", ""):
                continue
            lines = []
            for thing in (*page.lines, *page.curves, *page.rects):
                for part in subpaths(thing["path"]):
                    lines.append([((x - off) * MM, (y - off) * MM) for x, y in part])
            yield lines


def subpaths(path):
    """The parts of a path; a closed one ends where it begins."""
    part = []
    for order, *points in path:
        if order == "m" and part:
            yield part
            part = []
        if order == "h":
            part.append(part[0])
        else:
            part.append(points[-1])
    if part:
        yield part


def outlines(size):
    """{letter: its outlines, mm} as the cutting plan has them."""
    return {
        p.name: [
            np.asarray(p.outline.cut) * 25.4,
            np.asarray([*p.outline.seam.points]) * 25.4,
        ]
        for p in size.cutting.patches
        if p.outline is not None
    }


def is_drawn(outline, lines) -> bool:
    """Whether a closed line on the page is this outline, moved and turned in quarters."""
    for line in lines:
        if len(line) < 4 or line[0] != line[-1]:
            continue
        drawn = np.asarray(line)
        for _ in range(4):
            outline = np.column_stack((-outline[:, 1], outline[:, 0]))
            wanted = shapely.LinearRing(outline - outline.min(axis=0))
            found = shapely.LinearRing(drawn - drawn.min(axis=0))
            if shapely.hausdorff_distance(found, wanted) < LIMIT:
                return True
    return False


@pytest.mark.parametrize("paper", list(Paper))
def test_every_template_of_the_example_is_printed_true(example_plan, paper):
    size = next(s for s in example_plan.sizes if s.size.id == "throw")
    lines = [line for page in printed(example_plan, paper, size) for line in page]
    for letter, both in outlines(size).items():
        for outline in both:
            assert is_drawn(outline, lines), (paper, letter)


@pytest.fixture(scope="module", params=list(Paper), ids=lambda paper: paper.value)
def large_pages(request, large_plan):
    """A paper, and the pages of templates of the large pattern on it."""
    return request.param, list(printed(large_plan, request.param, large_plan.sizes[0]))


def test_a_template_in_tiles_is_printed_true(large_plan, large_pages):
    paper, pages = large_pages
    size = large_plan.sizes[0]
    room = sheet_of(paper).template_area_mm
    whole = max(templates_of(size), key=lambda t: t.width)
    tiling = tiled(whole, *room)
    assert len(tiling.tiles) >= 4
    own = [
        (tile, page) for tile, page in zip(tiling.tiles, pages[-len(tiling.tiles) :], strict=True)
    ]
    # turned back to how the cutting plan has it: the same patch
    assert any(
        shapely.hausdorff_distance(ring(tiling.template.cut), ring(turn(outlines(size)[whole.letter][0], k))) < 1e-6
        for k in range(4)
    )  # fmt: skip
    for points in (tiling.template.cut, tiling.template.seam):
        outline = shapely.LinearRing(points)
        frames = shapely.union_all([shapely.box(*tile.box) for tile in tiling.tiles])
        assert frames.buffer(1e-9).covers(outline)  # nothing is on no tile
        for tile, page in own:
            left, top, right, low = tile.box
            here = outline.intersection(shapely.box(left, top, right, low))
            # the page's (0.5, HEAD) is the corner of the tile
            drawn = shapely.MultiLineString(
                [[(x - 0.5 + left, y - HEAD + top) for x, y in line] for line in page if len(line) > 1]
            )  # fmt: skip
            for part in shapely.get_parts(here):
                for at in shapely.segmentize(part, 1.0).coords:
                    assert drawn.distance(shapely.Point(at)) < LIMIT, (paper, tile)


def turn(outline, quarters):
    for _ in range(quarters):
        outline = np.column_stack((-outline[:, 1], outline[:, 0]))
    return outline


def ring(points):
    drawn = np.asarray(points)
    return shapely.LinearRing(drawn - drawn.min(axis=0))


def test_the_test_squares_are_printed_true_on_every_page(large_pages):
    for page in large_pages[1]:
        boxes = [np.ptp(np.asarray(line), axis=0) for line in page if len(line) in (4, 5)]
        for side in (25.4, 20.0):
            assert any(np.allclose(box, side, atol=0.02) for box in boxes)
