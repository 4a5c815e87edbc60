"""Steps are put into the text of a pattern and nothing else is touched."""

import difflib
import shutil
import tempfile
from pathlib import Path

import pytest
from builders import span
from sewing_blocks import finish, sew

from booklet.__main__ import main
from booklet.geometry import lay_out
from booklet.kit.records import replace
from booklet.pattern import By, Ends, PressKind, PressWish
from booklet.recipe import checking
from booklet.sewing.auto.finding import planned
from booklet.source.blocks.step_words import step_lines
from booklet.source.editor import write_steps
from booklet.source.reader import read_folder

HERE = Path(__file__).parent
FOLDERS = [
    folder
    for folder in sorted((HERE / "patterns").iterdir())
    if "rim: fill" not in (folder / "pattern.yaml").read_text(encoding="utf-8")
]
"""Part blocks stand in no source."""
HEAD = """\
# a quay in the morning
title: Quay stones   # the title
sizes:
  lap: {unit: 1 in, blocks: 2 x 2}
fabrics:
  ink: {colour: "#243b6b"}   # dark
  sand: {colour: "#e9dcc3"}
blocks:
"""
STEPS = [sew("r1c1", "r1c2", make="stone")]
LINE = "- {make: stone, join: [r1c1, r1c2]}"


def read(text, beside=None):
    with tempfile.TemporaryDirectory() as name:
        for drawing in beside.glob("*.svg") if beside else ():
            shutil.copy(drawing, name)
        (Path(name) / "pattern.yaml").write_text(text, encoding="utf-8", newline="")
        return read_folder(Path(name))


def told(step):
    """What a step says, without its place."""
    return (step.make, step.join, step.by, step.ends, step.leave, step.finish, step.note)


def without_steps(pattern):
    """A pattern but for its steps, as text without places in the source."""
    own = [block for block in pattern.blocks if block.part is None]  # others stand in no source
    return [(b.id, b.title, [p.members() for p in b.pieces], b.outline) for b in own]


def kept_in(new, line):
    """Whether a line that was changed told of steps, or stands in a new one with the steps put in behind its brace."""
    before, brace, behind = line.partition("{")
    put_in = any(each.startswith(before + brace) and each.endswith(behind) for each in new)
    return "sew:" in line or (bool(brace) and put_in)


@pytest.mark.covering("blocks")
@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.name)
def test_read_again_it_is_the_same_pattern_but_for_the_steps(folder):
    text = (folder / "pattern.yaml").read_text(encoding="utf-8")
    laid = read_folder(folder).then(lay_out).value
    for block in (block.id for block in laid.pattern.blocks if block.part is None):
        size = next(size for size in laid.pattern.sizes if (size.id, block) in laid.tilings)
        _, found = planned(
            laid.tilings[size.id, block], size.sewing, size.fabrics, checking.of_one_run()
        )
        made = write_steps(text, block, found)
        if not found:  # a block of one piece: nothing to sew, nothing to write
            assert len(laid.pattern.block(block).pieces) == 1 and made is None
            continue
        after = read(made, folder)
        assert not [d for d in after.diagnostics if "there is no file" not in d.message]
        assert without_steps(after.value) == without_steps(laid.pattern)
        steps = after.value.block(block).steps
        assert [told(s)[1:] for s in steps] == [told(s)[1:] for s in found]
        assert write_steps(made, block, found) == made
        changed = list(difflib.ndiff(text.splitlines(), made.splitlines()))
        lost, new = ([line[2:] for line in changed if line[0] == sign] for sign in "-+")
        old = laid.pattern.block(block).steps
        assert old is not None or [line for line in lost if not kept_in(new, line)] == []


@pytest.mark.parametrize(
    ("before", "after"),
    [
        (  # nothing there yet
            "  stone:\n    grid: [[ink, sand]]\n",
            f"  stone:\n    grid: [[ink, sand]]\n    sew:\n      {LINE}\n",
        ),
        (  # the word auto, a comment beside it, a key and another block after it
            "  stone:\n    sew: auto  # later\n    grid: [[ink, sand]]\n\n  # next\n  other:\n    grid: [[ink]]\n",
            f"  stone:\n    sew:  # later\n      {LINE}\n    grid: [[ink, sand]]\n\n  # next\n  other:\n    grid: [[ink]]\n",
        ),
        (  # steps over several lines, at the depth of their key
            "  stone:\n    grid: [[ink, sand]]\n    sew:   # mine\n    - join: [r1c1, r1c2]\n      make: x\n\n# end\n",
            "  stone:\n    grid: [[ink, sand]]\n    sew:   # mine\n    - make: stone\n      join: [r1c1, r1c2]\n\n# end\n",
        ),
        (  # a list in brackets over several lines
            "  stone:\n    sew: [\n      {make: x, join: [r1c1, r1c2]},  # ] {\n    ]\n    grid: [[ink, sand]]\n",
            "  stone:\n    sew: [\n      # ] {\n      {make: stone, join: [r1c1, r1c2]}\n    ]\n    grid: [[ink, sand]]\n",
        ),
        (  # a block in braces
            "  stone: {grid: [[ink, sand]]}  # small\n",
            "  stone: {sew: [{make: stone, join: [r1c1, r1c2]}], grid: [[ink, sand]]}  # small\n",
        ),
        (
            "  stone: {grid: [[ink, sand]], sew: auto, title: 'it''s, ]'}\n",
            "  stone: {grid: [[ink, sand]], sew: [{make: stone, join: [r1c1, r1c2]}], title: 'it''s, ]'}\n",
        ),
        (  # a title over several lines comes last; no line end at the end of the file
            "  stone:\n    grid: [[ink, sand]]\n    title: >-\n      Stone\n      of the quay",
            f"  stone:\n    grid: [[ink, sand]]\n    title: >-\n      Stone\n      of the quay\n    sew:\n      {LINE}\n",
        ),
    ],
)
def test_the_rest_of_the_text_stays(before, after):
    assert write_steps(HEAD + before, "stone", STEPS) == HEAD + after


FIVE = """\
  stone:
    grid: [[ink, sand, ink, sand, ink]]
    sew:   # the whole
      # the left half
      - {make: left, join: [r1c1, r1c2], note: "# is no comment"}  # two
      # the right half
      - {make: right,
         join: [r1c3, r1c4]}   # two more

      - {make: stone, join: [left, right, r1c5]}  # all
      # that is all
  # and another
  other: {grid: [[ink]]}
"""


def changed(text, *steps):
    """The lines that go and come when these steps are written into the block."""
    before = read(HEAD + text).value.block("stone").steps
    made = write_steps(HEAD + text, "stone", [s for step in steps for s in step(before)], before)
    assert [told(s) for s in read(made).value.block("stone").steps] == [
        told(s) for step in steps for s in step(before)
    ]
    lines = difflib.ndiff((HEAD + text).splitlines(), made.splitlines())
    return sorted(line for line in lines if line[0] in "+-")


def kept(number):
    return lambda before: [s for s in before if s.entry == number]


def new(*parts, make):
    return lambda before: [sew(*parts, make=make)]


def test_entries_that_stay_are_left_as_their_author_wrote_them():
    assert changed(FIVE, kept(0), kept(1), kept(2)) == []
    assert changed(FIVE, kept(0), new("r1c3", "r1c5", make="far"), kept(1), kept(2)) == [
        "+       - {make: far, join: [r1c3, r1c5]}"
    ]


def test_the_comments_of_an_entry_that_goes_stay_in_its_place():
    last = new("left", "r1c3", "r1c4", "r1c5", make="stone")
    assert changed(FIVE, kept(0), last) == [
        "+       # all",
        "+       # two more",
        "+       - {make: stone, join: [left, r1c3, r1c4, r1c5]}",
        "- ",
        "-          join: [r1c3, r1c4]}   # two more",
        "-       - {make: right,",
        "-       - {make: stone, join: [left, right, r1c5]}  # all",
    ]


def test_a_list_in_brackets_stays_one():
    text = """\
  stone:
    grid: [[ink, sand, ink]]
    sew: [  # in order
      {make: a, join: [r1c1, r1c2]},  # first
      # then
      {make: stone, join: [a, r1c3]}]
"""
    assert changed(text, kept(0), new("r1c3", "a", make="stone")) == [
        "+       {make: stone, join: [r1c3, a]}",
        "+     ]",
        "-       {make: stone, join: [a, r1c3]}]",
    ]
    line = "  stone: {grid: [[ink, sand, ink]], sew: [{make: a, join: [r1c1, r1c2]}, {join: [a, r1c3]}]}\n"
    assert changed(line, new("r1c3", "r1c2", make="b"), new("r1c1", "b", make="stone"))[0] == (
        "+   stone: {grid: [[ink, sand, ink]], sew: [{make: b, join: [r1c3, r1c2]}, "
        "{make: stone, join: [r1c1, b]}]}"
    )


def test_alike_steps_with_words_of_their_own_are_one_line_too():
    wish = [PressWish(PressKind.TOWARD, f"n{k}", span()) for k in (1, 2)]
    steps = [
        replace(sew(f"c{k}", f"n{k}", make=f"pair{k}", leave=f"n{3 - k}"), note="So.", press=wish[k - 1],
                titles=(("", "wing"),))
        for k in (1, 2)
    ]  # fmt: skip
    assert step_lines(steps) == (
        '{make: pair#, title: "wing", join: [c#, n#], times: 2, leave: n#+1, press: toward n#, note: "So."}',
    )
    kept_name = replace(sew("c1", "n1", make="c1"), titles=(("en", "wing"), ("de", "Flügel")))
    assert step_lines([kept_name]) == ('{title: {en: "wing", de: "Flügel"}, join: [c1, n1]}',)


def test_line_ends_of_the_other_kind_stay():
    text = (HEAD + "  stone:\n    grid: [[ink, sand]]\n").replace("\n", "\r\n")
    made = write_steps(text, "stone", STEPS)
    assert made.startswith(text) and made.endswith(f"    sew:\r\n      {LINE}\r\n")


def test_no_such_block_or_a_text_with_faults_is_left_alone():
    text = HEAD + "  stone:\n    grid: [[ink, sand]]\n"
    assert write_steps(text, "pier", STEPS) is None
    assert write_steps(text + "  stone: {}\n", "stone", STEPS) is None
    assert write_steps("[]", "stone", STEPS) is None
    assert write_steps(text, "stone", []) is None


def test_alike_steps_are_one_line():
    steps = [sew(f"c{k}", f"n{k % 4 + 1}", make=f"pair{k}") for k in range(1, 5)]
    assert step_lines(steps) == ("{make: pair#, join: [c#, n#+1], times: 4}",)
    mixed = [sew("c1", "n1", make="pair1"), sew("c2", "n3", make="pair2")]
    assert step_lines(mixed) == (
        "{make: pair1, join: [c1, n1]}",
        "{make: pair2, join: [c2, n3]}",
    )


def test_what_a_step_may_say():
    steps = [
        sew("c", "a1", make="pair b1", leave="a4", by=By.HAND, ends=Ends.POINTS),
        replace(
            sew("null", "x", make="m"),
            press=PressWish(PressKind.TOWARD, "x", span()),
            note='Say "no": a, [b].',
        ),
        finish("c", "a1"),
    ]
    assert step_lines(steps) == (
        "{make: pair b1, join: [c, a1], leave: a4, by: hand, ends: points}",
        '{make: m, join: ["null", x], press: toward x, note: "Say \\"no\\": a, [b]."}',
        "{finish: [c, a1]}",
    )


def test_the_command_shows_and_writes(tmp_path, capsys):
    source = tmp_path / "pattern.yaml"
    text = HEAD + "  stone:\n    grid: [[ink, sand]]  # two\n"
    source.write_text(text, encoding="utf-8")
    assert main(["plan", str(tmp_path)]) == 0
    assert "stone = r1c1 + r1c2" in capsys.readouterr().out
    assert source.read_text(encoding="utf-8") == text
    assert main(["plan", str(tmp_path), "stone", "--write"]) == 0
    assert source.read_text(encoding="utf-8") == text + f"    sew:\n      {LINE}\n"
    assert [path.name for path in tmp_path.iterdir()] == ["pattern.yaml"]
    assert main(["plan", str(tmp_path), "--write"]) == 0  # steps of one's own stay
    assert "name a block" in capsys.readouterr().err
    assert main(["plan", str(tmp_path), "pier"]) == 2
    assert main(["plan", str(tmp_path / "no")]) == 2


def test_a_block_of_one_piece_has_nothing_to_write(tmp_path, capsys):
    shutil.copytree(HERE / "patterns" / "plain_squares", tmp_path, dirs_exist_ok=True)
    before = (tmp_path / "pattern.yaml").read_bytes()
    for block in ([], ["plain"]):
        assert main(["plan", str(tmp_path), *block, "--write"]) == 0
        assert "one patch: nothing is joined" in (said := capsys.readouterr()).out
        assert "nothing to write: nothing is sewn in block `plain`" in said.err
    assert (tmp_path / "pattern.yaml").read_bytes() == before


def test_one_order_for_sizes_that_would_have_two_is_said(tmp_path, capsys):
    folder = tmp_path / "wheel"
    shutil.copytree(Path(__file__).parent / "patterns" / "wheel_of_five", folder)
    assert main(["plan", str(folder), "--write"]) == 0
    told = capsys.readouterr().err
    assert "order found for size `lap`; shown above is another for `mini`" in told


def test_parts_of_blocks_at_a_filled_rim_are_in_no_source(tmp_path, capsys):
    """What the geometry makes there is shown, and passed over where steps are written."""
    shutil.copytree(HERE / "patterns" / "filled_rim_3_by_3", tmp_path / "rim")
    assert main(["plan", str(tmp_path / "rim"), "--write"]) == 0
    said = capsys.readouterr()
    assert "cube-rim-1 = " in said.out
    assert said.err == "pattern.yaml: block `cube` now has these steps\n"
    text = (tmp_path / "rim" / "pattern.yaml").read_text("utf-8")
    assert "rim-" not in text
