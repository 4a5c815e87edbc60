"""Scraps: one name for several fabrics, dealt out in turn."""

from source_helpers import faults, pattern

TEXT = """\
title: Scraps
sizes:
  lap: {unit: 1 in, blocks: 2 x 2}
fabrics:
  white: {}
  scraps: {mix: [brick, rust, rose]}
  brick: {}
  rust: {}
  rose: {}
blocks:
  nine:
    grid:
      - [scraps, white, scraps]
      - [white, scraps, white]
      - [scraps, white, scraps]
"""
RING = """\
blocks:
  pin:
    pieces:
      - {id: a, corners: [[0, 0], [1, 0], [1, 1]], fabric: scraps, ring: {centre: [1, 1], times: 4}}
      - {id: b, corners: [[0, 0], [1, 1], [0, 1]], fabric: [scraps, white], ring: {centre: [1, 1], times: 4}}
"""


def test_pieces_of_a_mix_are_cut_from_its_fabrics_in_turn():
    found = pattern(TEXT)
    dealt = [piece.fabrics[0] for piece in found.blocks[0].pieces if piece.fabrics[0] != "white"]
    assert dealt == ["brick", "rust", "rose", "brick", "rust"]  # five corners and the centre
    assert "scraps" not in found.sizes[0].fabrics
    assert found.blocks[0].dealt == ("brick", "rust", "rose")


def test_copies_of_a_ring_are_dealt_one_by_one():
    found = pattern(TEXT[: TEXT.index("blocks:\n")] + RING)
    fabrics = [piece.fabrics for piece in found.blocks[0].pieces]
    assert fabrics == [("brick", "rust", "rose", "brick"), ("rust", "white", "rose", "white")]


def test_a_mix_is_of_real_fabrics_and_for_pieces_only():
    assert faults(TEXT.replace("[brick, rust, rose]", "[brick, green]"))[0] == (
        "unknown-name",
        6,
        25,
    )
    assert faults(TEXT.replace("[brick, rust, rose]", "[brick, scraps]"))[0][:2] == (
        "wrong-kind",
        6,
    )
    assert faults(TEXT.replace("[brick, rust, rose]", "brick"))[0][:2] == ("wrong-kind", 6)
    bordered = TEXT + "quilt: {arrange: [[nine]], borders: [{width: 2 in, fabric: scraps}]}\n"
    assert [code for code, _, _ in faults(bordered)] == ["wrong-kind"]
