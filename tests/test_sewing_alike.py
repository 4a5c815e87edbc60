"""Alike steps share a card; chains are alike steps by machine."""

from builders import block_of, fabrics_of, pattern_of, sewing_of, size_of, span
from sewing_blocks import box, finish, grid, hand_sewing, polygon, sew, sewn, star, wheel

from booklet.geometry import lay_out
from booklet.kit.records import replace
from booklet.pattern import By, Direction, Ends, PressKind, PressWish
from booklet.sewing import assemble


def pairs(*corners, fabric="ink"):
    """Two triangles of a unit square each, cut along the falling diagonal, at some places."""
    pieces = []
    for k, (x, y, flipped) in enumerate(corners):
        a, b, c, d = (x, y), (x + 1, y), (x + 1, y + 1), (x, y + 1)
        upper, lower = ((a, b, c), (a, c, d)) if not flipped else ((a, b, d), (b, c, d))
        pieces += [polygon(f"u{k}", *upper, fabric=fabric), polygon(f"l{k}", *lower, fabric="sand")]
    return pieces


def row(*corners):
    steps = [sew(f"u{k}", f"l{k}", make=f"p{k}") for k in range(len(corners))]
    return sewn(pairs(*corners), [*steps, sew(*(f"p{k}" for k in range(len(corners))))])


def test_turned_copies_are_alike():
    done = row((0, 0, False), (1, 0, True), (2, 0, False))
    # the rising diagonal is the falling one turned a quarter: with the same two fabrics it is alike
    assert [step.times for step in done.steps] == [3, 3, 3, 1]
    assert [step.card for step in done.steps] == [1, 1, 1, 2]
    assert [step.batch for step in done.steps] == [1, 1, 1, 2]
    assert done.batches[0].steps == (1, 2, 3)


def test_another_fabric_is_another_card():
    pieces = [*grid(2, 1), box("x", 2, 0, fabric="red"), box("y", 3, 0, fabric="sand")]
    done = sewn(pieces, [sew("r1c1", "r1c2", make="p"), sew("x", "y", make="q"), sew("p", "q")])
    assert [step.card for step in done.steps] == [1, 2, 3]


def test_mirror_images_are_not_alike_unless_a_turn_does_it_too():
    def half(x, mirrored):
        flip = (lambda p: (x + 3 - p[0], p[1])) if mirrored else (lambda p: (x + p[0], p[1]))
        one = [(0, 0), (2, 0), (1, 1), (0, 1)]
        two = [(2, 0), (3, 0), (3, 1), (1, 1)]
        return [[flip(p) for p in corners] for corners in (one, two)]

    (a, b), (c, d) = half(0, False), half(3, True)
    pieces = [
        polygon("a", *a), polygon("b", *b, fabric="sand"),
        polygon("c", *c), polygon("d", *d, fabric="sand"),
    ]  # fmt: skip
    done = sewn(pieces, [sew("a", "b", make="p"), sew("c", "d", make="q"), sew("p", "q")])
    assert [step.card for step in done.steps] == [1, 2, 3]


def test_units_made_of_the_same_patches_in_another_way_are_not_alike():
    pieces = grid(2, 4)
    steps = [sew(f"r{r}c1", f"r{r}c2", make=f"row{r}") for r in (1, 2)]
    steps += [sew("row1", "row2", make="upper")]
    steps += [sew("r3c1", "r4c1", make="left"), sew("r3c2", "r4c2", make="right")]
    steps += [sew("left", "right", make="lower"), sew("upper", "lower")]
    done = sewn(pieces, steps)
    # all four pairs are one ink and one sand square: alike. The two four-patches look the same, but a
    # quarter turn that makes the lower one's long seam level makes it the upper one's mirror image
    assert [step.times for step in done.steps] == [4, 4, 1, 4, 4, 1, 1]


def test_a_wish_makes_another_card():
    order = [sew("r1c1", "r1c2", make="top"), sew("r2c1", "r2c2", make="low", ends=Ends.POINTS)]
    done = sewn(grid(2, 2), [*order, sew("top", "low")])
    assert [step.card for step in done.steps] == [1, 2, 3]


def test_units_that_look_alike_but_are_made_otherwise_are_not():
    # twice three ink squares and a sand one; the first two squares joined are not the same two
    pieces = [box(f"i{k}{r}", k, r) for r in (0, 1) for k in range(3)]
    pieces += [box(f"s{r}", 3, r, fabric="sand") for r in (0, 1)]
    steps = [sew("i00", "i10", make="a1"), sew("a1", "i20", make="a2"), sew("a2", "s0", make="a3")]
    steps += [sew("i11", "i21", make="b1"), sew("b1", "i01", make="b2"), sew("b2", "s1", make="b3")]
    done = sewn(pieces, [*steps, sew("a3", "b3")])
    assert [step.card for step in done.steps] == [1, 2, 3, 1, 2, 4, 5]


def test_alike_steps_end_their_seams_alike():
    # p1 has a square set in at the end of its seam, the pairs of the right half have not
    order = [
        sew("r1c1", "r1c2", make="p1"),
        sew("r2c3", "r2c4", make="p2"),
        sew("r1c3", "r1c4", make="p3"),
        sew("p1", "r2c2", make="three"),
        sew("three", "r2c1", make="left"),
        sew("p2", "p3", make="right"),
        sew("left", "right"),
    ]
    done = sewn(grid(4, 2), order)
    assert [step.card for step in done.steps[:3]] == [1, 1, 1]
    for step, inner in zip(done.steps[:3], [(1, 1), (3, 1), (3, 1)], strict=True):
        seam = done.tiling.seam(step.runs[0].seams[0])
        stops = dict(zip((seam.start, seam.end), done.sewn[seam.id].ends, strict=True))
        assert stops.pop(inner).value == "point"
        assert [end.value for end in stops.values()] == ["edge"]


def test_set_ins_are_not_chained_even_where_they_are_alike():
    # each corner of a star: two diamonds and the square set between them, all by machine
    order = [sew(f"d{k}", f"d{k + 1}", make=f"pair{k}") for k in (1, 3, 5, 7)]
    order += [sew(f"pair{2 * k - 1}", f"s{k}", make=f"corner{k}") for k in (1, 2, 3, 4)]
    order += [
        sew("corner1", "t2", "corner2", make="h1"),
        sew("corner3", "t4", "corner4", make="h2"),
    ]
    order += [sew("h1", "t3", "h2", "t1")]
    done = sewn(star(), order, sewing=sewing_of(set_in_by=By.MACHINE))
    corners = done.steps[4:8]
    assert [step.times for step in corners] == [4] * 4
    assert len({step.batch for step in done.steps[:4]}) == 1
    assert len({step.batch for step in corners}) == 4


def test_hand_steps_are_not_chained():
    steps = [sew("r1c1", "r1c2", make="top"), sew("r2c1", "r2c2", make="low"), sew("top", "low")]
    done = sewn(grid(2, 2), steps, sewing=hand_sewing())
    assert [step.batch for step in done.steps] == [1, 2, 3]
    assert [step.card for step in done.steps] == [1, 1, 2]
    assert done.batches == ()


def printed(direction):
    fabrics = fabrics_of()
    fabrics["ink"] = replace(fabrics["ink"], direction=direction)
    steps = [sew("r1c1", "r1c2", make="top"), sew("r2c1", "r2c2", make="low"), sew("top", "low")]
    pattern = pattern_of(
        blocks=[block_of(grid(2, 2), steps=steps)], sizes=[size_of(fabrics=fabrics)]
    )
    return [step.times for step in lay_out(pattern).then(assemble).value.assemblies["s", "b"].steps]


def test_a_one_way_print_is_not_turned_to_make_steps_alike():
    # low is top turned by half: upside down for a one-way print, the same for stripes
    assert printed(Direction.ANY) == [2, 2, 1]
    assert printed(Direction.STRIPE) == [2, 2, 1]
    assert printed(Direction.ONE_WAY) == [1, 1, 1]


def test_a_row_written_the_other_way_is_the_same_row():
    # the lower row is the upper one turned by half; both are written from left to right
    pieces = [
        box("a1", 0, 0, 2, 1), box("b1", 2, 0, 1, 1, "sand"), box("c1", 3, 0, 1, 1, "red"),
        box("c2", 0, 1, 1, 1, "red"), box("b2", 1, 1, 1, 1, "sand"), box("a2", 2, 1, 2, 1),
    ]  # fmt: skip
    steps = [sew("a1", "b1", "c1", make="top"), sew("c2", "b2", "a2", make="low")]
    done = sewn(pieces, [*steps, sew("top", "low")])
    assert [step.card for step in done.steps] == [1, 1, 2]
    assert done.batches[0].steps == (1, 2)


def test_another_order_that_changes_the_runs_is_another_step():
    # of three squares round a corner, joined in one step, the last comes on along two seams with a turn:
    # which one that is makes the step
    pieces = grid(4, 2)
    one = sew("r1c1", "r1c2", "r2c2", "r2c1", make="left")
    two = sew("r2c4", "r2c3", "r1c3", "r1c4", make="right")  # turned by half: the same
    done = sewn(pieces, [one, two, sew("left", "right")])
    assert [step.card for step in done.steps] == [1, 1, 2]
    other = sew(
        "r1c3", "r1c4", "r2c3", "r2c4", make="right"
    )  # begun like the left, not gone on like it
    done = sewn(pieces, [one, other, sew("left", "right")])
    assert [step.card for step in done.steps] == [1, 2, 3]


def test_a_wish_for_a_finish_names_patches_of_the_one_unit():
    # the wheel: the seam left open is closed with a wish to press it toward one of the two patches
    order = [
        sew("c", "a1", leave="a4"),
        sew("c", "a2"),
        sew("c", "a3"),
        sew("c", "a4"),
        replace(finish("c", "a1"), press=PressWish(PressKind.TOWARD, "a1", span(1))),
    ]
    done = sewn(wheel(), order)
    assert [step.card for step in done.steps] == [1, 2, 3, 4, 5]
