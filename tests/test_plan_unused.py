"""A block that a size does not use is checked like all; it is neither cut nor told in the booklet."""

from booklet.recipe import compiler

TWO_SIZES = """
title: Two rooms
units: inch
sizes:
  lap: {title: Lap, unit: 1 in, blocks: 2 x 2}
  wall: {title: Wall, unit: 1 in, blocks: 2 x 2, quilt: {arrange: [[small]]}}
fabrics:
  ink: {name: Ink, colour: "#243b6b"}
  sand: {name: Sand, colour: "#e9dcc3"}
blocks:
  small:
    title: Small
    grid: [[ink, sand], [sand, ink]]
  large:
    title: Large
    grid: [[ink, sand], [sand, ink]]
    columns: [2, 2]
    rows: [2, 2]
quilt:
  arrange: [[large]]
"""


def test_only_blocks_that_are_set_in_a_size_are_made_in_it(tmp_path):
    (tmp_path / "pattern.yaml").write_text(TWO_SIZES, "utf-8")
    lap, wall = compiler.plan(compiler.check(tmp_path).value).sizes
    # 2 x 2 blocks of four squares, two of each cloth
    assert [(block.block.id, block.count) for block in lap.blocks] == [("large", 4)]
    assert [(block.block.id, block.count) for block in wall.blocks] == [("small", 4)]
    for size, side in ((lap, 2), (wall, 1)):
        assert size.letters == (
            "A",
        )  # the first letter, though smaller squares stand in the pattern
        cuts = {(cut.name, cut.fabric): (cut.pieces, cut.exact) for cut in size.cutting.patches}
        both = (side + 0.5, side + 0.5)
        assert cuts == {("A", "ink"): (8, both), ("A", "sand"): (8, both)}
