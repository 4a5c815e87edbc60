"""Names of units that could be taken for something else: the block, another block, a patch, a piece."""

from pathlib import Path

import pytest

from booklet import compiler
from booklet.drawing.units import exploded

TOP = """title: Names
units: inch
sizes: {lap: {title: Lap, unit: 1 in, blocks: 2 x 2}}
fabrics: {ink: {name: Ink}, sand: {name: Sand}}
blocks:
"""
OTHER = "  nine: {title: Small nine, grid: [[ink, sand]]}\n"


def block_of(tmp_path: Path, text: str):
    (tmp_path / "pattern.yaml").write_text(TOP + text, "utf-8")
    found = compiler.check(tmp_path)
    assert not found.has_errors, found.diagnostics
    (size,) = compiler.plan(found.value).sizes
    return size.blocks[0]


def rows(*steps: str, block: str = "star") -> str:
    """A block of two rows, of two squares and of one rectangle, and its steps."""
    return (
        f"  {block}:\n    pieces:\n"
        "      - {id: star, corners: [[0, 0], [1, 0], [1, 1], [0, 1]], fabric: ink}\n"
        "      - {id: right, corners: [[1, 0], [2, 0], [2, 1], [1, 1]], fabric: sand}\n"
        "      - {id: low, corners: [[0, 1], [2, 1], [2, 2], [0, 2]], fabric: sand}\n"
        "    sew:\n" + "".join(f"      - {step}\n" for step in steps)
    )


def test_a_piece_may_have_the_name_of_its_block(tmp_path):
    text = rows("{make: top, join: [right, star]}", "{make: all, join: [top, low]}")
    block = block_of(tmp_path, text)
    first, last = block.cards
    assert first.title == "Sew A (sand) to A (ink)" and first.takes == ("A (sand)", "A (ink)")
    parts = exploded(block.assembly, first.step, 1.0)
    assert [part.pieces for part in parts] == [("right",), ("star",)]  # not the whole block
    assert parts[0].away != parts[1].away
    assert last.step.make == "star" and last.step.pieces == ("star", "right", "low")


def test_the_first_part_keeps_its_name_even_if_it_is_that_of_the_block(tmp_path):
    block = block_of(tmp_path, rows("{join: [star, right]}", "{join: [star, low]}"))
    first, last = block.cards
    assert (first.title, first.step.make) == ("Sew A (ink) to A (sand)", "star with right")
    assert (last.title, last.takes[0]) == ("Sew the unit of step 1 to B", "the unit (step 1)")


@pytest.mark.parametrize(
    ("make", "said", "taken"),
    [
        ("nine", "Sew the nine of step 1 to B", "the nine (step 1)"),  # another block's name
        ("small nine", "Sew the small nine of step 1 to B", "the small nine (step 1)"),  # its title
        ("block", "Sew the unit of step 1 to B", "the unit (step 1)"),  # what the last step makes
        ("block1", "Sew the unit of step 1 to B", "the unit (step 1)"),
        ("b", "Sew the unit of step 1 to B", "the unit (step 1)"),  # a patch is called B
        ("a2", "Sew the unit of step 1 to B", "the unit (step 1)"),
        ("top", "Sew the top to B", "the top (step 1)"),
    ],
)
def test_a_unit_is_never_called_like_something_else(make, said, taken, tmp_path):
    text = rows(f"{{make: {make}, join: [star, right]}}", f"{{make: tile, join: [{make}, low]}}", block="tile")  # fmt: skip
    last = block_of(tmp_path, text + OTHER).cards[-1]
    assert (last.title, last.takes[0]) == (said, taken)


def test_the_last_step_may_make_the_block_by_its_name(tmp_path):
    text = rows("{make: top, join: [star, right]}", "{make: tile, join: [top, low]}", block="tile")
    assert block_of(tmp_path, text).cards[-1].step.make == "tile"


def test_units_of_two_blocks_may_share_a_name(tmp_path):
    first = rows("{make: top, join: [star, right]}", "{make: tile, join: [top, low]}", block="tile")
    second = first.replace("  tile:", "  slab:").replace("make: tile", "make: slab")
    block = block_of(tmp_path, first + second)
    assert block.cards[-1].title == "Sew the top to B"


@pytest.mark.parametrize("name", ["pair1", "pair", "row1", "half1", "half2", "quarter1", "unit1"])
def test_an_order_found_never_makes_an_earlier_unit_of_the_blocks_name(name, tmp_path):
    text = (
        f"  {name}:\n    grid:\n      - [ink, sand]\n      - [sand, ink]\n      - [ink, sand/ink]\n"
    )
    block = block_of(tmp_path, text)
    makes = [step.make for step in block.assembly.steps]
    assert makes.count(name) == 1 and makes[-1] == name
