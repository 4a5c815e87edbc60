"""Published rules of pressing, topic 8 and 10. Each names its source; the words are ours."""

from tests.pressing_helpers import (
    directions,
    four_patch,
    kinds,
    pairs_then_halves,
    pressed,
    sew,
    square,
)


def test_toward_the_darker_fabric_and_abutting_seams_in_opposite_directions():
    # rule; Quilt magazine, Lesson 5: Piecing and Pressing
    pressing = pressed(four_patch("ink", "sand", "sand", "ink"), pairs_then_halves())
    found = directions(pressing)
    assert found["a", "b"] == "a" and found["c", "d"] == "d"  # both ink, and opposite ways
    assert kinds(pressing) == ["nest"]


def test_spinning_has_rotational_symmetry():
    # rule; Instructables, Windmilled Four-Patch; Kate Colleran Designs
    pressing = pressed(four_patch(), pairs_then_halves(middle="fan"))
    found = directions(pressing)
    a_to_d = (found["a", "b"], found["b", "d"], found["c", "d"], found["a", "c"])
    assert a_to_d in (
        ("a", "b", "d", "c"),
        ("b", "d", "c", "a"),
    )  # every one lies the same way round
    assert {r.seams for r in pressing.releases} != set()  # the allowance must be free to turn there


def test_spinning_is_thinner_than_pressing_to_the_sides():
    # rule; Skeeter Bug Quilts counts 4 allowances on the spot against 2; counting the patches too, by
    # exact folding, it is 7 layers against 4: thinner by the same argument, not the same figure
    nested = pressed(four_patch(), pairs_then_halves())
    spun = pressed(four_patch(), pairs_then_halves(middle="fan"))
    assert [j.layers for j in nested.junctions] == [7]
    assert [j.layers for j in spun.junctions] == [4]


def test_rows_pressed_alternately_nest():
    # rule; This n That in the Rose Garden, 2013: one row one way, the next the other way
    pieces = [square(f"r{r}c{c}", c, r) for r in range(3) for c in range(4)]
    ends = ("r0c0", "r1c3", "r2c0")
    steps = [
        sew(f"row{r}", *[f"r{r}c{c}" for c in range(4)], press=f"toward {ends[r]}")
        for r in range(3)
    ]
    pressing = pressed(pieces, [*steps, sew("b", "row0", "row1", "row2")])
    assert set(kinds(pressing)) == {"nest"} and len(pressing.junctions) == 6
