"""Quilts as a stranger would write them: what is printed of the whole, each figure with its sum by hand."""

from __future__ import annotations

import tempfile
from html import unescape
from pathlib import Path

import corpus
from markupsafe import Markup

from booklet.drawing.ink.fills import looks_of
from booklet.drawing.quilts.border import border_figure
from booklet.kit.diagnostic import Span
from booklet.kit.measure import Length
from booklet.pages.composing import compose
from booklet.pages.tables.edges import envelope_view
from booklet.pages.tables.figure_sums import figure_sums
from booklet.pages.tables.joining import border_words, one_line
from booklet.pages.texts.words import Words
from booklet.pattern import Backing, By, Paper
from booklet.plan import Plan, SizePlan
from booklet.plan.top.sash_words import sash_words
from booklet.quilt.assembling.joining import JoinedIn
from booklet.quilt.finishing.backing import NearlyEnough, nearly_enough, plan_backing
from booklet.recipe import compiler

MINI = """
title: Mini
units: inch
sizes:
  mini: {title: Mini, unit: 1 in, blocks: 1 x 1}
fabrics:
  ink: {name: Ink, colour: "#222233", kind: fat quarter}
  gold: {name: Gold, colour: "#ddaa33", kind: fat quarter}
blocks:
  four: {title: Four, grid: [[ink, gold], [gold, ink]], columns: [2, 2], rows: [2, 2]}
quilt:
  borders: [{width: 1/4 in, fabric: gold}, {width: 1 in, fabric: ink}]
  binding: {width: 1 1/2 in, fabric: gold}
  backing: {extra: 1 in, fabric: ink}
  batting: {extra: 1 in}
"""


def planned(text: str) -> Plan:
    with tempfile.TemporaryDirectory() as name:
        (Path(name) / "pattern.yaml").write_text(text, "utf-8")
        found = compiler.check(Path(name))
        assert found.value is not None, found.diagnostics
        return compiler.plan(found.value)


def only(text: str) -> SizePlan:
    return planned(text).sizes[0]


def words_of(plan: SizePlan) -> Words:
    return Words.of(plan.pattern.language)


def plain(markup: Markup) -> str:
    """What a reader reads: fractions as they are typed, spaces plain."""
    return unescape(markup.striptags()).replace("\u00a0", " ").replace("\u2044", "/")


def sums(plan: SizePlan) -> list[str]:
    groups = figure_sums(plan, words_of(plan))
    return [plain(line) for group in groups for line in group.lines]


def test_a_bordered_top_measures_its_finished_size_and_an_allowance_on_every_side():
    plan = only(MINI)
    # 4 in, and 1/4 in on either side: 4 1/2 in finished, under the ruler 4 1/2 + 2 x 1/4 = 5 in, which is also how
    # long the sides of the next border are cut; then 4 1/2 + 2 = 6 1/2 finished, 7 in under the ruler
    inner, outer = (
        border_words(plan, words_of(plan), border).after for border in plan.quilt.borders
    )
    assert inner is not None and "measures 5 in × 5 in from raw edge" in plain(inner)
    assert outer is not None and "measures 7 in × 7 in from raw edge" in plain(outer)


def test_the_strips_of_a_binding_are_reckoned_by_the_piece_of_cloth_they_are_cut_from():
    plan = only(MINI)
    # round 6 1/2 by 6 1/2 in: 26 + 10 = 36 in; a fat quarter is 21 in wide: 36 / (21 - 1 1/2) = 1.85, so 2
    assert plan.cutting.pieces("binding") == 2
    assert "binding strips: 2 × 21 − 1 × 1½ for the joins = 40½ in, enough for 36 in" in sums(plan)
    by_length = only(MINI.replace(", kind: fat quarter", ""))
    assert by_length.cutting.pieces("binding") == 1  # 36 / (40 - 1 1/2)
    assert "binding strips: 36 fits in 40 in, 1 strip" in sums(by_length)


def test_a_binding_cut_along_the_selvedge_has_no_shorter_last_strip():
    """Its strips lie beside a border, and all are of one length."""
    (folder,) = (folder for folder in corpus.FOLDERS if folder.name == "borders_of_two_widths")
    runner_and_panel = [s for s in corpus.plan_of(folder).sizes if s.size.id in ("runner", "panel")]
    for plan in runner_and_panel:
        (cut,) = (cut for cut in plan.cutting.patches if cut.name == "binding")
        assert cut.method.word == "strip along the selvedge" and cut.pieces > 1
        assert not any("of the last strip" in line for line in sums(plan))


def test_a_bias_square_is_no_larger_than_the_piece_of_cloth_it_is_cut_from():
    text = (
        MINI.replace("blocks: 1 x 1", "blocks: 7 x 7")
        .replace("binding: {width: 1 1/2 in", "binding: {cut: bias, width: 2 1/2 in")
        .replace("  backing: {extra: 1 in, fabric: ink}\n", "")
    )
    binding = only(text).quilt.binding
    # 28 + 2 1/2 = 30 1/2 in square: 122 + 10 = 132 in: one square would be 20 in (20 / sqrt 2 / 2 1/2 = 5.66: 5 strips of
    # sqrt 2 x 19 = 134 in), but a fat quarter is 18 in high; so two, each for 66 + 2 1/2 = 68 1/2 in: 15 in
    # (15 / sqrt 2 / 2 1/2 = 4.24: 4 x sqrt 2 x 14 = 79 in; of 14 in only 3 x sqrt 2 x 13 = 55 in)
    assert binding is not None and binding.square is not None
    assert (binding.strips, float(binding.square)) == (2, 15.0)


SASHED = """
title: Panes
units: inch
sizes:
  lap: {title: Lap, unit: 1 in, blocks: 4 x 5}
fabrics:
  plum: {name: Plum, colour: "#5b2a4f"}
  oat: {name: Oat, colour: "#e6dcc6"}
blocks:
  four: {title: Four, grid: [[plum, oat], [oat, plum]], columns: [3, 3], rows: [3, 3]}
quilt:
  sashing: {width: 2 in, fabric: oat, cornerstones: plum, outside: yes}
"""


def sashes(text: str) -> list[str]:
    return [str(sentence) for sentence in sash_words(only(text).size)]


def test_all_sashes_of_a_quilt_are_told():
    # 4 x 5 blocks, sashes outside: 5 in each of 5 rows, 4 in each of 6 rows between and outside: 49; 5 x 6 cornerstones
    counts = {part.name: part.count for part in only(SASHED).quilt.parts}
    assert counts == {"sash": 5 * 5 + 6 * 4, "cornerstone": 5 * 6}
    assert sashes(SASHED) == [
        "Sew a sash between every two blocks of a row, and one to both its ends.",
        "Make 6 rows of sashes: 4 sashes in each, a cornerstone between every two of them and one at both ends.",
        "Sew a row of sashes between every two rows of blocks, one above the first and one below the last.",
    ]
    assert sashes(SASHED.replace(", outside: yes", "")) == [
        "Sew a sash between every two blocks of a row.",
        "Make 4 rows of sashes: 4 sashes in each, a cornerstone between every two of them.",
        "Sew a row of sashes between every two rows of blocks.",
    ]
    assert sashes(SASHED.replace(", cornerstones: plum, outside: yes", "")) == [
        "Sew a sash between every two blocks of a row.",
        "Sew a long sash between every two rows of blocks.",
    ]


def test_a_runner_has_no_rows_to_sew_sashes_between():
    runner = SASHED.replace("blocks: 4 x 5", "blocks: 5 x 1")
    within = runner.replace(", cornerstones: plum, outside: yes", "")
    assert sashes(within) == ["Sew a sash between every two blocks of a row."]
    assert sashes(runner.replace(", cornerstones: plum", "")) == [
        "Sew a sash between every two blocks of a row, and one to both its ends.",
        "Sew a long sash to the top and to the bottom of the row.",
    ]
    column = SASHED.replace("blocks: 4 x 5", "blocks: 1 x 5")
    assert sashes(column.replace(", outside: yes", "")) == ["Sew a sash between every two blocks."]
    assert sashes(column)[1] == "Make 6 rows of sashes: a sash with a cornerstone at both ends."


PATTERNS = Path(__file__).parent / "patterns"
ITS_END = "booklet: {editions: {pattern: {pages: [finishing]}}}"


def finishing(text: str) -> str:
    plan = planned(text + ITS_END)
    edition = plan.pattern.booklet.editions[0]
    return plain(Markup(compose(plan, edition, None, Paper.LETTER, ("mini",)).html))


def test_batting_is_named_only_where_there_is_some():
    assert "smooth the batting over it" in finishing(MINI)
    without = finishing(MINI.replace("  batting: {extra: 1 in}\n", ""))
    assert "batting" not in without.split("Layers", 1)[1].split("Binding")[0]
    assert "center the top on it, right side up" in without


def test_a_back_is_never_smaller_than_the_top_with_its_allowances():
    # 6 1/2 in finished; the top lies 1/4 in farther all round: 7 in, though nothing is asked for beyond it
    back = only(MINI.replace("backing: {extra: 1 in", "backing: {extra: 0 in")).quilt.backing
    assert back is not None and [float(side) for side in back.size] == [7.0, 7.0]
    assert str(back.sums[0]) == "backing, width: 6 1/2 + 2 × 1/4 = 7 in"


HALF_DROP = """
title: Half drop
units: inch
sizes:
  throw: {title: Throw, unit: 1 in, blocks: 6 x 5}
fabrics:
  tea: {name: Tea, colour: "#a9713c"}
  milk: {name: Milk, colour: "#f5efe2"}
blocks:
  cup: {title: Cup, grid: [[milk, tea], [tea, milk]], columns: [4, 4], rows: [6, 6]}
quilt:
  set: lattice
  lattice: {across: [8, 6], down: [0, 12]}
"""


def test_in_a_half_drop_every_second_column_hangs_half_a_block_lower():
    quilt = only(HALF_DROP).quilt
    # 6 columns of 8 in are 48 in; 5 blocks of 12 in and half a block of drop are 66 in, of which the half block is cut
    # off at the top and at the bottom
    assert quilt.finished is not None and [float(side) for side in quilt.finished] == [48.0, 54.0]
    tops = {placed.origin[1] for placed in quilt.placed if placed.row == 0}
    assert tops == {-6.0, 0.0}
    hung = [placed.origin[1] for placed in quilt.placed if placed.row == 0]
    assert hung == [-6.0, 0.0] * 3
    filled = only(HALF_DROP + "  rim: fill\n").quilt
    assert filled.finished is not None and [float(side) for side in filled.finished] == [48.0, 66.0]


def told(text: str) -> list[tuple[str, int]]:
    """The rules that have something to say of a pattern, each with the line it points to."""
    with tempfile.TemporaryDirectory() as name:
        (Path(name) / "pattern.yaml").write_text(text.lstrip(), "utf-8")
        return [(d.code, d.span.line) for d in compiler.check(Path(name)).diagnostics]


def test_a_fault_of_a_part_points_to_the_part():
    line = {row.strip().split(":")[0]: n for n, row in enumerate(MINI.strip().splitlines(), 1)}
    back = MINI.replace("backing: {extra: 1 in", "backing: {extra: 12 in")  # 30 1/2 in of 18 in
    assert told(back) == [("wider-than-cloth", line["backing"])] * len(told(back)) != []
    strips = MINI.replace("{width: 1 in, fabric: ink}", "{width: 18 in, fabric: ink}").replace(
        "  backing: {extra: 1 in, fabric: ink}\n", ""
    )
    assert set(told(strips)) == {("wider-than-cloth", line["borders"])}
    sashes = SASHED.replace("width: 2 in, fabric: oat", "width: 45 in, fabric: oat")
    assert set(told(sashes)) == {
        ("wider-than-cloth", 11)
    }  # cornerstones of 45 1/2 in, of cloth 40 in wide


def test_stripes_may_run_along_a_border_all_round():
    frame = MINI.replace(
        "{width: 1 in, fabric: ink}",
        "{width: 1 in, fabric: tick, corners: mitred, cut: lengthwise}",
    ).replace(
        "fabrics:\n", 'fabrics:\n  tick: {name: Ticking, colour: "#8899aa", direction: stripe}\n'
    )
    assert told(frame) == []
    assert told(frame.replace("stripe", "one-way"))[0][0] == "one-way-turned"


def test_a_single_binding_is_folded_at_one_edge():
    single = MINI.replace("binding: {width: 1 1/2 in", "binding: {width: 1 1/8 in, fold: single")
    assert told(single) == []
    text = finishing(single)
    assert (
        "Fold one long edge ¼ in to the wrong side" in text
        and "in half" not in text.split("Binding")[1]
    )
    # 1 1/8 in with one edge turned under by 1/4 in lies 7/8 in wide: 1/4 to its seam, 1/4 to the edge, 1/4 back to the
    # seam, and 1/8 for the turn; folded in half it would lie 9/16 in wide, less than three times 1/4 in
    binding = only(single).quilt.binding
    assert binding is not None and binding.lies(Length.of("1/4")) == Length.of("7/8")
    assert [code for code, _ in told(single.replace("single", "double"))] == ["narrow-binding"]
    assert [code for code, _ in told(single.replace("1 1/8 in, fold", "7/8 in, fold"))] == [
        "narrow-binding"
    ]


def test_strip_sets_are_sewn_from_strips_that_are_bought_as_strips():
    plan = only((PATTERNS / "four_patches_from_strips" / "pattern.yaml").read_text("utf-8"))
    # 20 blocks of two rows each: 40 rows, cut every 2 + 1/2 in: (40 - 1/2) / 2 1/2 = 15 from a set, so 3 sets of a strip
    # of either cloth; binding 2 x 16 + 2 x 20 + 10 = 82 in: 82 / (40 - 2 1/2) = 2.2, so 3 strips more
    assert [(u.units, u.rounds) for u in plan.cutting.together] == [(40, 3)]
    bought = {line.fabric.id: plain(Markup(line.buy)) for line in plan.materials}
    assert bought == {"dark": "6 × 2 1/2 in strip", "light": "3 × 2 1/2 in strip"}


def test_a_runner_with_sashes_all_round():
    plan = only((PATTERNS / "runner_sashed_all_round" / "pattern.yaml").read_text("utf-8"))
    # 3 x 8 + 4 x 1 + 2 x 2 = 32 by 8 + 2 x 1 + 2 x 2 = 14 in; 4 sashes in the row, 3 above and 3 below, 2 x 4 stones;
    # the back stands out by 1/2 in: 33 by 15
    quilt = plan.quilt
    assert quilt.finished is not None and [float(side) for side in quilt.finished] == [32.0, 14.0]
    counts = {part.name: part.count for part in quilt.parts}
    assert (counts["sash"], counts["cornerstone"]) == (4 + 2 * 3, 2 * 4)
    assert quilt.backing is not None and [float(s) for s in quilt.backing.size] == [33.0, 15.0]
    assert (
        sash_words(plan.size)[-1]
        == "Sew a row of sashes to the top and to the bottom of the row of blocks."
    )


def test_a_half_drop_is_sewn_in_columns_and_nothing_turns():
    plan = only((PATTERNS / "half_drop" / "pattern.yaml").read_text("utf-8"))
    # 4 columns of 8 in, 2 blocks of 12 and the drop of 6: 32 by 30 in
    assert plan.quilt.finished is not None
    assert [float(side) for side in plan.quilt.finished] == [32.0, 30.0]
    assert plan.joined_in is JoinedIn.COLUMNS and plan.joining is not None
    assert [str(card.title) for card in plan.joining.cards][-1] == "Join the columns"
    steps = plan.joining.assembly.steps
    assert all(run.turns == () for step in steps for run in step.runs)
    assert all(sewn.by is By.MACHINE for sewn in plan.joining.assembly.sewn.values())
    # bricks, which lie in rows half a block apart, are joined in rows of straight seams, as before
    assert only(HALF_DROP.replace("[8, 6]", "[8, 0]").replace("[0, 12]", "[4, 12]")).joining is None


def test_a_width_of_cloth_for_very_little_of_a_back_is_warned_about():
    back = Backing(extra=Length.of(4), fabric="sand", span=Span.whole("pattern.yaml"))
    forty, quarter = Length.of(40), Length.of("1/4")

    def near(side: int, other: int, upright: bool = False) -> NearlyEnough | None:
        top = Length.of(side), Length.of(other)
        made = plan_backing(top, back, forty, "inch", upright, quarter)[0]
        return nearly_enough(top, back, forty, "inch", made, upright)

    # 112 + 2 x 4 = 120 in: three widths of 40 in less two seams of 1/2 in are 119: (119 - 112) / 2 = 3 1/2 in on either
    # side, and three lengths of 119 in
    king = near(112, 112)
    assert king is not None
    assert (king.extra, king.widths, king.length) == (Length.of("3 1/2"), 3, Length.of(357))
    # 72 by 80 in: two widths of 88 in, and three strips of 80 - 2 x 39 1/2 = 1 in across the cloth, 179 in; two widths
    # alone cover 79 1/2: 3 3/4 in on either side, two lengths of 87 1/2 in, and no strip to join
    lap = near(72, 80)
    assert lap is not None
    assert (lap.extra, lap.widths, lap.length) == (Length.of("3 3/4"), 2, Length.of(175))
    # 114 in: (119 - 114) / 2 = 2 1/2 in, less than three quarters of 4
    assert near(114, 114) is None
    # 30 in lie in one width of 40 in
    assert near(30, 30) is None


def test_one_row_is_not_said_to_be_rows():
    runner = SASHED.replace("blocks: 4 x 5", "blocks: 5 x 1")
    assert "Sew them into one row." in str(one_line(only(runner)))
    column = SASHED.replace("blocks: 4 x 5", "blocks: 1 x 5")
    assert one_line(only(column)) is None  # each row is a block between two sashes
    bare = column.replace(", cornerstones: plum, outside: yes", "")
    assert "one column" in str(one_line(only(bare)))
    assert one_line(only(SASHED)) is None and one_line(only(MINI)) is None


CUSHION = """\
title: Pad
units: cm
allowance: 0.75 cm
sizes: {pad: {title: Pad, unit: 1 cm, blocks: 3 x 3}}
fabrics: {ink: {colour: "#224466"}}
blocks: {tile: {grid: [[ink, ink]], columns: [6.67, 6.68], rows: [13.35]}}
quilt: {arrange: [[tile]], envelope: {fabric: ink}}
"""


def test_the_front_of_a_cushion_is_trimmed_to_the_mark_its_back_is_cut_to():
    """3 x 13.35 = 40.05 cm and 2 x 0.75 are 41.55 cm: no ruler shows that, the back is cut to the nearest millimetre, and
    so is the front."""
    view = envelope_view(only(CUSHION))
    assert view is not None
    front, back = (str(words).replace("\u00a0", " ") for words in (view.front, view.size))
    wide = back.split(" × ")[0]
    assert front == f"{wide} × {wide}"


def test_a_border_on_two_sides_is_pressed_outward_and_has_no_order():
    """Both strips of it are sewn on alike: its picture numbers them 1, and its caption does not speak of numbers."""
    for left_out in ("sides", "top and bottom"):
        found = planned(
            MINI.replace("{width: 1 in, fabric", f"{{width: 1 in, {left_out}: none, fabric")
        )
        plan = found.sizes[0]
        border = plan.quilt.borders[1]
        assert plain(border_words(plan, words_of(plan), border).words).endswith("Press outward.")
        caption = border_figure(plan, 2, looks_of(found)).caption
        assert str(caption) == "Border 2: two strips, either of them first."
