"""The study: what is remembered is what would be worked out; an edit costs what it touches; nothing grows."""

import os
import subprocess
import sys
from fractions import Fraction
from statistics import median
from types import MappingProxyType

import corpus
import pytest
import sampling
from edits import differs, edits, folder_of

from booklet.geometry import lay_out
from booklet.kit.diagnostic import Outcome, Span
from booklet.kit.measure import Length
from booklet.kit.records import Record, replace
from booklet.kit.remembered.content import Contents, OwnWords, handed
from booklet.kit.remembered.memory import ROUNDS, Memory, hands_words_through, plainly, unwarned
from booklet.pattern import TurnCosts
from booklet.pattern.reads import UNREAD
from booklet.recipe.checking import check_pattern
from booklet.recipe.study import Study
from booklet.sewing.auto.finding import search_order, search_tree
from booklet.source.reader import read_folder

EDITED = ("titled_steps", "flowers_in_lattice", "three_sizes")


def read_pattern(name):
    return read_folder(folder_of(name))


@pytest.mark.parametrize("name", EDITED)
def test_after_every_edit_the_study_says_what_a_run_without_memory_says(name):
    study, seen = Study(), set()
    for other in EDITED[: EDITED.index(name)]:
        list(edits(other, seen))  # keys that the pattern before has are tried there
    tried = list(edits(name, seen))
    assert len(tried) > 40
    some = sampling.some(tried)
    found, shares = {}, []
    for what, text in some:
        asked, before = study.memory.asked, study.memory.worked_out
        found[what] = differs(study, name, text)
        if study.memory.asked > asked:  # not a fault of reading
            shares.append((study.memory.worked_out - before) / (study.memory.asked - asked))
    assert {what: how for what, how in found.items() if how} == {}
    # of the edit in the middle: one that fills the rim asks 80 new questions, as many as all others together
    assert median(shares) < 0.6


def worked_out(study, read):
    """How many questions a look makes the study work out."""
    before = study.memory.worked_out
    study.plan(study.check(read).value)
    return study.memory.worked_out - before


def test_an_edit_costs_what_it_touches():
    study, read = Study(), read_pattern("three_sizes")
    first = worked_out(study, read)
    pattern = read.value
    assert first > 15 and worked_out(study, read) == 0
    assert worked_out(study, Outcome(replace(pattern, title="Other", summary="New"))) == 0
    block = replace(pattern.blocks[0], title="Other")
    assert (
        worked_out(study, Outcome(replace(pattern, blocks=(block,)))) <= 6
    )  # words of three plans
    size = replace(pattern.sizes[0], count=12, across=3, down=4)  # one of three: sewn as before
    sizes = (size, *pattern.sizes[1:])
    assert worked_out(study, Outcome(replace(pattern, sizes=sizes))) <= first / 3


def test_a_line_at_the_top_moves_all_faults_and_asks_nothing_anew():
    study, folder = Study(), folder_of("partial_by_tool")
    text = (folder / "pattern.yaml").read_text(encoding="utf-8")
    study.check(read_folder(folder, False, text.encode()))
    asked = study.memory.worked_out
    moved = study.check(read_folder(folder, False, b"# more\n# and more\n" + text.encode()))
    assert study.memory.worked_out == asked
    plain = check_pattern(read_folder(folder, False, text.encode()), plainly)
    lines = [s.span.line for a in moved.value.assemblies.values() for s in a.steps]
    assert lines == [s.span.line + 2 for a in plain.value.assemblies.values() for s in a.steps]


def test_memory_does_not_grow_over_a_thousand_edits():
    pattern = read_pattern("four_patch").value
    study, most, held = Study(), 0, 0
    for number in range(1000):
        unit = Length(1 + Fraction(number, 2000))  # no two states are alike
        sizes = tuple(replace(size, unit=unit) for size in pattern.sizes)
        study.memory.next_round()
        lay_out(replace(pattern, sizes=sizes), study.ask)
        if number < 2 * ROUNDS:
            most, held = max(most, len(study.memory)), max(held, study.memory.held)
        assert len(study.memory) <= most and study.memory.held <= held
    assert most == 2 * len(pattern.sizes) * (
        ROUNDS + 1
    )  # the block, and its letters, in this round and before


def test_memory_of_whole_patterns_does_not_grow():
    pattern = read_pattern("four_patch").value
    study, known = Study(), []
    for number in range(5 * ROUNDS):
        unit = Length(1 + Fraction(number, 2000))
        sizes = tuple(replace(size, unit=unit) for size in pattern.sizes)
        study.plan(study.check(Outcome(replace(pattern, sizes=sizes))).value)
        known.append((len(study.memory), study.memory.held))
    assert len(set(known[2 * ROUNDS :])) == 1 and known[-1][0] < 22 * ROUNDS


def test_a_block_in_twelve_sizes_is_planned_once():
    read = read_pattern("hexagon_rosette_1")
    first = read.value.sizes[0]
    sizes = [
        replace(first, id=f"size {n}", unit=Length(first.unit.inches + Fraction(n, 4)))
        for n in range(12)
    ]
    rules = replace(first.sewing, machine_from=Length(Fraction(0)))
    pattern = replace(read.value, sizes=tuple(replace(s, sewing=rules) for s in sizes))
    memory = Memory()
    made = check_pattern(Outcome(pattern), memory.only(search_order))
    assert (memory.asked, memory.worked_out) == (12, 1)
    alone = check_pattern(Outcome(replace(pattern, sizes=(pattern.sizes[7],))), plainly)
    one, other = (
        [(s.make, s.join, s.kind) for a in found.value.assemblies.values() if a.tiling.size == "size 7" for s in a.steps]
        for found in (made, alone)
    )  # fmt: skip
    assert one == other and one


def test_a_size_with_other_seams_by_hand_is_planned_anew():
    pattern = read_pattern("hexagon_rosette_1").value
    first = pattern.sizes[0]
    longest = Length(Fraction(1000))
    sewing = replace(first.sewing, machine_from=Length(Fraction(0)))
    by_hand = replace(first, id="by hand", sewing=replace(sewing, machine_from=longest))
    sizes = (replace(first, sewing=sewing), by_hand)
    state = Outcome(replace(pattern, sizes=sizes))
    memory, trees = Memory(), Memory()
    one, other = (
        check_pattern(state, m) for m in (memory.only(search_order), trees.only(search_tree))
    )
    assert (memory.asked, memory.worked_out) == (2, 2)  # other seams may be partial ones
    assert (trees.asked, trees.worked_out) == (2, 1)  # with the usual costs the joins are the same
    assert one.value == other.value == check_pattern(state, plainly).value
    dear = replace(
        by_hand.sewing, costs=TurnCosts(hand=0.5)
    )  # by hand a turn costs less: other joins may be best
    sizes = (
        sizes[0],
        replace(by_hand, sewing=dear),
        replace(sizes[0], id="costs", sewing=replace(sewing, costs=dear.costs)),
    )
    trees = Memory()
    check_pattern(Outcome(replace(pattern, sizes=sizes)), trees.only(search_tree))
    assert (trees.asked, trees.worked_out) == (3, 3)


SEED = """
import sys
sys.path.insert(0, sys.argv[1])
from edits import folder_of
from booklet.recipe.checking import check_pattern
from booklet.geometry import lay_out
from booklet.kit.remembered.content import Contents
from booklet.source.reader import read_folder
for name in sys.argv[2:]:
    print(Contents().of(check_pattern(read_folder(folder_of(name))).value).digest.hex())
"""


def test_contents_are_the_same_in_every_run():
    """In this process and in one where sets have another order."""
    names = ("units_together", "three_sizes")
    seed = "2" if os.environ.get("PYTHONHASHSEED") == "1" else "1"
    told = subprocess.run(
        [sys.executable, "-c", SEED, os.path.dirname(__file__), *names],
        env={**os.environ, "PYTHONHASHSEED": seed},
        capture_output=True, text=True, check=True,
    ).stdout  # fmt: skip
    here = [Contents().of(corpus.checked(folder_of(name)).value).digest.hex() for name in names]
    assert told.split() == here


class Thing(Record):
    name: object
    span: Span


def place(line, column=1):
    return Span("pattern.yaml", line, column, column + 1)


def digest(value, words=True):
    return Contents().of(value, words).digest


def test_content_leaves_places_out_but_not_which_are_the_same_and_in_what_order():
    one = (Thing("a", place(1)), Thing("b", place(2)), Thing("c", place(2)))
    assert digest(one) == digest(tuple(replace(t, span=place(t.span.line + 7)) for t in one))
    assert digest(one) != digest((*one[:2], Thing("c", place(3))))
    assert digest(one[:2]) != digest((Thing("a", place(2)), Thing("b", place(1))))


def test_content_tells_kinds_of_values_apart():
    values = [
        1,
        1.0,
        True,
        "1",
        ("1",),
        ["1"],
        None,
        "",
        (),
        b"1",
        Fraction(1),
        Length(Fraction(1)),
    ]
    values += [
        {"1": 1},
        frozenset({"1"}),
        (("1", 1),),
        OwnWords("1"),
        ("1", "1"),
        (1.0, 1.0),
        0.0,
        -0.0,
    ]
    assert len({digest(value) for value in values}) == len(values)
    assert digest({"a": 1}) == digest({"a": 1}) != digest({"b": 1})
    assert digest({"a": 1, "b": 2}) != digest(
        {"b": 2, "a": 1}
    )  # what is made of them has their order
    long = tuple(range(20))
    assert digest((long, long)) == digest((long, tuple(range(20))))
    with pytest.raises(TypeError):
        digest(object())


def test_own_words_are_handed_through_only_where_a_question_says_so():
    one, other = (OwnWords("first"), OwnWords("second")), (OwnWords("new"), OwnWords("newer"))
    assert digest(one) != digest(other) and digest(one, words=False) == digest(other, words=False)
    twice = (one[0], one[0])
    assert digest(one, words=False) != digest(twice, words=False)


@hands_words_through
def last_and_all(things):
    return MappingProxyType({"last": things[-1], "all": things, "size": (1.0, 2.0)})


def test_an_answer_points_to_where_its_question_was_read_and_bears_its_words():
    memory = Memory()
    one = (Thing(OwnWords("old"), place(1)), Thing("plain", place(2)))
    other = (Thing(OwnWords("new"), place(5)), Thing("plain", place(9)))
    first, second = memory.ask(last_and_all, one), memory.ask(last_and_all, other)
    assert memory.worked_out == 1
    assert first["all"] == one and second["all"] == other and second["last"] == other[-1]
    assert second["last"] is second["all"][-1]  # what was one object is one
    memory.ask(last_and_all, (replace(one[0], name="a plain word"), one[1]))
    assert memory.worked_out == 2


def test_what_holds_nothing_handed_through_stays_the_same_object():
    whole, part = (Thing("x", place(1)), (1.0, 2.0)), ("a", ("b", 3))
    made = handed((whole, part), {place(1): place(4)})
    assert made[1] is part and made[0][0] == Thing("x", place(4))


def test_answers_nobody_asked_for_are_forgotten():
    memory = Memory(rounds=2)
    for _ in range(2):
        memory.next_round()
        memory.ask(place, 1)
    assert (memory.asked, memory.worked_out, len(memory)) == (2, 1, 1)
    for _ in range(3):
        memory.next_round()
    assert len(memory) == 0


def test_a_question_holds_nothing_itself():
    held = 1
    with pytest.raises(TypeError, match="holds nothing"):
        Memory().ask(lambda: held)


def test_reading_what_was_not_handed_is_an_error():
    for read in (str, bool, float, iter, len, lambda v: f"{v}", lambda v: v < 1, lambda v: v.name):
        with pytest.raises(TypeError, match="not handed"):
            read(UNREAD)


def test_who_reads_no_warnings_gets_the_same_plan_without_them():
    read = read_pattern("star_off_the_ruler")
    told, untold = (check_pattern(read, ask) for ask in (plainly, unwarned(plainly)))
    assert told.value == untold.value
    assert {d.code for d in told.diagnostics} - {d.code for d in untold.diagnostics} == {
        "off-the-ruler"
    }
