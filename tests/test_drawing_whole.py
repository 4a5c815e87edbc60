"""Every picture of a whole plan, drawn from a pattern folder, is sound SVG with words to it."""

import re
import xml.etree.ElementTree as ET

import pytest
from builders import ENGLISH

from booklet.drawing.cloths.cutting_order import cloth_figure
from booklet.drawing.ink.fills import looks_of
from booklet.drawing.ink.svg import figure as figure_of
from booklet.drawing.lettering.text_widths import text_width
from booklet.drawing.pressed.pressed_block import pressing_figure
from booklet.drawing.quilts.back import backing_figure
from booklet.drawing.quilts.block import (
    block_figure,
    patch_key_figure,
    swatch_figure,
    thumbnail_figure,
)
from booklet.drawing.quilts.border import border_figure
from booklet.drawing.quilts.finishing import binding_figure, layers_figure
from booklet.drawing.quilts.legend import legend_figure
from booklet.drawing.quilts.mitre import mitre_figure
from booklet.drawing.quilts.patchwork import together, trimmed
from booklet.drawing.quilts.quilt import colouring_figure, cover_figure, layout_figure, sizes_figure
from booklet.drawing.scene import Area, Fill, Ink
from booklet.drawing.steps.chains import chain_figures
from booklet.drawing.steps.step import step_figure
from booklet.drawing.steps.threads import thread_scenes
from booklet.drawing.templates.practice import practice_figure
from booklet.drawing.templates.template_pages import template_figures, templates_of
from booklet.drawing.told import told_step
from booklet.kit.outlines.polygon import area_of
from booklet.plan.cards.frames import is_framed


@pytest.fixture(scope="module")
def plan(example_plan):
    return example_plan


def every_figure(plan, size):
    looks = looks_of(plan)
    yield cover_figure(size, looks)
    yield layout_figure(size, looks)
    yield colouring_figure(size)
    yield backing_figure(size, looks)
    yield layers_figure(size, looks)
    yield binding_figure(size, looks)
    yield mitre_figure(size)
    yield patch_key_figure(size, looks)
    yield legend_figure(size.size.id, (size,), looks)
    yield practice_figure(size)
    for border in size.quilt.borders:
        yield border_figure(size, border.number, looks)
    for cloth in size.cutting.fabrics:
        yield cloth_figure(size, cloth, looks)
        yield swatch_figure(size, cloth.fabric, looks)
    yield from template_figures(size, 190, 250)
    for block in size.blocks:
        yield block_figure(size, block, looks)
        yield pressing_figure(block, speaker=ENGLISH)
        for scene, caption in thread_scenes(block, looks, (60.0,), "inch"):
            yield figure_of(scene, caption)
        yield from chain_figures(block, looks, speaker=ENGLISH)
        for card in block.cards:
            yield step_figure(block, card, looks, speaker=ENGLISH)
            yield thumbnail_figure(block, card, looks)


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
    found = {t.letter: t for t in templates_of(size)}[patch.name]
    assert max(x for x, _ in found.cut) == pytest.approx(wide * 25.4)  # 1 in = 25.4 mm
    assert all(f.true_size for f in template_figures(size, 190, 250))


def test_parts_move_together_into_their_block(plan):
    for size in plan.sizes:
        for block in size.blocks:
            for card in block.cards:
                figure = step_figure(block, card, looks_of(plan), speaker=ENGLISH)
                assert figure.width_mm == 85.0
                if not is_framed(card.step, block.assembly):
                    assert figure.height_mm <= 75.01


def test_pieces_are_trimmed_to_what_is_kept():
    kept = ((0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0))
    square = ((-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0))
    # a quarter of the 2 by 2 square lies inside: 1 by 1
    assert area_of(trimmed(square, kept)) == pytest.approx(1.0)
    assert trimmed(tuple((x - 5, y) for x, y in square), kept) == ()
    beside = tuple((x + 5, y + 1.5) for x, y in square)  # it only touches
    assert trimmed(beside, kept) == ()
    assert trimmed(square, None) == square


def test_areas_of_one_look_are_put_together():
    one, two, red = ((0.0, 0.0),), ((1.0, 1.0),), Fill("#ff0000")
    areas = [Area(one, red, Ink.PATCH), Area(one, None, Ink.PATCH), Area(two, red, Ink.PATCH)]
    assert together(areas) == [
        Area(one, red, Ink.PATCH, (two,)),
        Area(one, None, Ink.PATCH),
    ]


def test_the_sizes_stand_side_by_side_and_their_words_apart(plan):
    figure = sizes_figure(plan, looks_of(plan), 168.0)
    places = [float(x) for x in re.findall(r'<text[^>]* x="([\d.]+)"', figure.svg)]
    starts = sorted(set(places))
    assert len(starts) == len(plan.sizes)
    for size, x, y in zip(plan.sizes, starts, starts[1:], strict=False):
        assert y - x > text_width(size.size.title, 9.0)


def test_two_parts_of_one_name_are_told_apart(plan):
    block = plan.sizes[0].blocks[0]
    told = [str(told_step(block, card)) for card in block.cards]
    # step 1 sews an A to either end of B: the picture stands on one A, so there is another
    assert "The other patch A lies to the right of patch A." in told[0]
    assert not any(re.search(r"Patch (\w+) lies [a-z ]* of patch \1\.", each) for each in told)
