"""The checks can fail: facts that are right but for one figure, and what is said of them."""

import pytest

from sewn_through import cloth, counting, order, sewing, top
from sewn_through.source import HERE, facts_of

SIXTEENTH = 0.0625


def facts(name):
    """The facts of a pattern of the tests."""
    return facts_of(HERE.parent / "patterns" / name)


def row_of(size, name, key="rotary"):
    """The first line for a patch or part."""
    return next(row for row in size[key] if row["for"] == name)


def caught(check, found, *words):
    """Whether some complaint of a check has all these words."""
    said = check.complaints(found)
    assert any(all(word in line for word in words) for line in said), said


@pytest.mark.parametrize("by", [SIXTEENTH, -SIXTEENTH])
@pytest.mark.parametrize("side", [0, 1])
def test_a_square_cut_a_sixteenth_off(by, side):
    found = facts("four_patch")
    row_of(found["sizes"]["cushion"], "A")["cut_in"][side] += by
    caught(sewing, found, "patch A", "a side is 0.06")
    if by > 0:  # what is too small does not reach the frame of the block
        caught(sewing, found, "four: ", "stated 4.000 in")
    caught(cloth, found, "A is laid")


def test_a_triangle_cut_from_the_square_of_another_kind():
    found = facts("star_ring")
    # of finished legs of 3 in: squares of 3 7/8 in; the square for four would be 3 x 1.41 + 1 1/4 = 5 1/2
    for row in found["sizes"]["lap"]["rotary"]:
        row["cut_in"] = [5.5, 5.5]
    caught(sewing, found, "across, stated")


def test_a_diamond_cut_at_another_angle():
    found = facts("star_8")
    for row in found["sizes"]["lap"]["rotary"]:
        if "angle" in row:
            row["angle"], row["by"] = 60, "ruler"
    caught(sewing, found, "a side is")


def test_a_piece_too_many_or_too_few():
    for by in (1, -1):
        found = facts("four_patch")
        row_of(found["sizes"]["cushion"], "A")["pieces"] += by
        caught(counting, found, "patch A", "are sewn")
        caught(cloth, found, "A: the strips give")


def test_a_block_told_too_often():
    found = facts("four_patch")
    found["sizes"]["cushion"]["quilt"]["blocks"]["four"] += 1
    caught(counting, found, "block four: 16 lie in the top, 17 are told")


def test_a_strip_is_missing():
    found = facts("four_patch")
    for plan in found["sizes"]["cushion"]["cutting"].values():
        if any(use["for"] == "A" for strip in plan["strips"] for use in strip["use"]):
            plan["strips"].pop()
    caught(cloth, found, "the strips give")


def test_a_strip_counted_twice():
    found = facts("four_patch")
    next(iter(found["sizes"]["cushion"]["cutting"].values()))["strips"][0]["count"] += 1
    caught(cloth, found, "are laid")


def test_cloth_that_is_too_short_or_too_narrow():
    found = facts("four_patch")
    name, plan = next(iter(found["sizes"]["cushion"]["cutting"].items()))
    plan["buy"]["metres"] -= 0.2
    caught(cloth, found, name, "are needed")
    plan["width_in"] = 2
    caught(cloth, found, name, "ends", "across cloth 2 in wide")
    plan["length_in"] = 1
    caught(cloth, found, name, "in of cloth")


def test_two_cuts_on_one_spot():
    found = facts("four_patch")
    for plan in found["sizes"]["cushion"]["cutting"].values():
        for strip in plan["strips"]:
            cuts = strip["laid"][0]["cuts"]
            if len(cuts) > 1:
                cuts[1]["outline_in"] = cuts[0]["outline_in"]
    caught(cloth, found, "lies on")


def test_steps_exchanged():
    found = facts("four_patch")
    steps = found["sizes"]["cushion"]["blocks"]["four"]["steps"]
    for key in ("make", "join", "runs"):
        steps[0][key], steps[-1][key] = steps[-1][key], steps[0][key]
    caught(order, found, "which is not made yet")


def test_a_seam_sewn_twice_or_not_at_all():
    found = facts("four_patch")
    steps = found["sizes"]["cushion"]["blocks"]["four"]["steps"]
    steps[0]["runs"].append(steps[0]["runs"][0])
    caught(order, found, "is sewn 2 times")
    steps[0]["runs"] = []
    caught(order, found, "is sewn 0 times")
    caught(order, found, "open")


def test_a_seam_to_the_edge_where_a_later_run_turns():
    found = facts("star_6")
    block = found["sizes"]["lap"]["blocks"]["star"]
    for seam in block["seams"]:
        seam["ends"] = ["edge", "edge"]
    caught(order, found, "turns over the end of")


def test_a_thread_that_leaps_and_one_that_is_gone():
    found = facts("star_6")
    threads = found["sizes"]["mini"]["blocks"]["star"]["threads"]
    longest = max(threads, key=lambda thread: len(thread["seams"]))
    longest["seams"].insert(0, longest["seams"].pop())
    longest["ways_back"] = []  # over which it would come from one end to the other
    caught(order, found, "does not go on from point to point")
    threads.remove(longest)
    caught(order, found, "lies on 0 threads")


@pytest.mark.parametrize("key", ["seams", "machine_in", "hand_in", "turns", "thread_starts"])
def test_a_total_that_is_one_off(key):
    found = facts("star_6")
    found["sizes"]["lap"]["blocks"]["star"]["totals"][key] += 1
    caught(order, found, f"totals: {key}")


def test_a_count_of_alike_steps_that_is_one_off():
    found = facts("star_6")
    found["sizes"]["lap"]["blocks"]["star"]["steps"][0]["times"] += 1
    caught(order, found, "told as 4 each")


def test_a_border_cut_short():
    found = facts("three_sizes")
    border = found["sizes"]["bed"]["finishing"]["borders"][0]
    border["lengths_in"] = [length - SIXTEENTH for length in border["lengths_in"]]
    caught(top, found, "border 1, sides", "needs")


def test_a_border_joined_from_too_little():
    found = facts("three_sizes")
    plans = found["sizes"]["bed"]["cutting"].values()
    strip = next(s for plan in plans for s in plan["strips"] if "border" in s["use"][0]["for"])
    strip["laid"][0]["cuts"][0]["outline_in"] = [[0, 0], [1, 0], [1, 2], [0, 2]]
    caught(cloth, found, "border")


def test_a_block_out_of_its_place():
    found = facts("four_patch")
    found["sizes"]["cushion"]["quilt"]["placed"][0]["at_in"][0] += SIXTEENTH
    caught(top, found, "blocks and parts cover")


def test_a_finished_size_that_is_off():
    found = facts("four_patch")
    found["sizes"]["cushion"]["quilt"]["finished_in"][0] += SIXTEENTH
    caught(top, found, "the top lies")


def test_binding_without_a_tail_and_with_a_strip_too_few():
    found = facts("four_patch")
    size = found["sizes"]["cushion"]
    row_of(size, "binding")["pieces"] -= 1
    caught(top, found, "binding", "strips are told")
    caught(top, found, "binding: the strips make")
    size["finishing"]["binding"]["length_in"] = 80  # 4 x 20 in
    caught(top, found, "without a tail")


def test_a_back_that_is_too_small():
    found = facts("three_sizes")
    row = row_of(found["sizes"]["bed"], "backing")
    row["cut_in"][0] -= 1
    caught(top, found, "backing", "not")


def test_units_made_together_with_a_square_too_few():
    found = facts("units_together")
    unit = found["sizes"]["eight"]["together"][0]
    unit["cuts"][0]["count"] -= 1
    caught(counting, found, unit["name"], "cut are")
    unit["made"] = 1
    caught(counting, found, unit["name"], "1 are made")
