"""Every picture of a whole plan, drawn from a pattern folder, is sound SVG with words to it."""

import xml.etree.ElementTree as ET
from pathlib import Path

import pytest

from booklet import drawing
from booklet.checks import admit, examine
from booklet.cutting import cut
from booklet.geometry import lay_out
from booklet.plan import make_plan
from booklet.pressing import press
from booklet.quilt import set_quilts
from booklet.sewing import assemble
from booklet.source import read_folder

FOLDER = Path(__file__).parent.parent / "example_pattern"


@pytest.fixture(scope="module")
def plan():
    read = read_folder(FOLDER).then(lay_out).then(assemble).then(press).then(set_quilts)
    return make_plan(admit(read.then(cut).then(examine)).value)


def every_figure(plan, size):
    looks = drawing.looks_of(plan)
    yield drawing.cover_figure(size, looks)
    yield drawing.layout_figure(size, looks)
    yield drawing.colouring_figure(size)
    yield drawing.backing_figure(size, looks)
    yield drawing.layers_figure(size, looks)
    yield drawing.binding_figure(size, looks)
    yield drawing.patch_key_figure(size, looks)
    yield drawing.legend_figure(size.size.id, looks)
    yield drawing.practice_figure(size)
    for border in size.quilt.borders:
        yield drawing.border_figure(size, border.number, looks)
    for cloth in size.cutting.fabrics:
        yield drawing.cloth_figure(size, cloth, looks)
        yield drawing.swatch_figure(size, cloth.fabric, looks)
    for patch in size.cutting.patches:
        yield drawing.cut_figure(size, patch.fabric, patch.name, looks)
    yield from drawing.template_figures(size, 190, 250)
    for block in size.blocks:
        yield drawing.block_figure(size, block, looks)
        yield drawing.pressing_figure(block)
        yield from drawing.thread_figures(block, looks)
        yield from drawing.chain_figures(block, looks)
        for card in block.cards:
            yield drawing.step_figure(block, card, looks)
            yield drawing.thumbnail_figure(block, card, looks)


def test_every_picture_is_sound_and_has_a_name_of_its_own(plan):
    names = []
    for size in plan.sizes:
        for figure in every_figure(plan, size):
            if figure is None:
                continue
            root = ET.fromstring(figure.svg)
            assert root[0].tag.endswith("title") and root[1].tag.endswith("desc")
            assert figure.alt and figure.width_mm > 0 and figure.height_mm > 0
            for path in root.iter("{http://www.w3.org/2000/svg}path"):
                assert "nan" not in path.attrib["d"] and "inf" not in path.attrib["d"]
            names.append(figure.name)
    assert len(names) == len(set(names))


def test_templates_are_at_true_size(plan):
    size = plan.sizes[1]
    patch = next(p for p in size.cutting.patches if p.outline is not None)
    wide = max(x for x, _ in patch.outline.cut) - min(x for x, _ in patch.outline.cut)
    found = {t.letter: t for t in drawing.templates.templates_of(size)}[patch.name]
    assert max(x for x, _ in found.cut) == pytest.approx(wide * 25.4)  # 1 in = 25.4 mm
    assert all(f.true_size for f in drawing.template_figures(size, 190, 250))


def test_parts_move_together_into_their_block(plan):
    for size in plan.sizes:
        for block in size.blocks:
            for card in block.cards:
                figure = drawing.step_figure(block, card, drawing.looks_of(plan))
                assert figure.width_mm == 85.0 and figure.height_mm <= 75.01
