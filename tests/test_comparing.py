"""`booklet compare`: what changed for whoever owns the earlier booklet, and what of it makes that booklet wrong."""

import json
import re
from functools import cache

import pytest

from booklet.commands import run
from booklet.comparing.changes import About, changes
from booklet.comparing.page import page
from booklet.comparing.side import PatternState, of_file, of_plan
from booklet.comparing.told import as_json, lines
from booklet.facts import facts_text
from booklet.recipe import compiler

SQUARES = """\
title: Two by two
units: inch
allowance: 1/4 in
version: "{version}"
sizes:
  small: {{title: Small, unit: {unit}, blocks: {blocks}}}
fabrics:
  ink: {{name: Ink, colour: "#203040"}}
  sand: {{name: Sand, colour: "#e0d0b0"}}
blocks:
  four:
    title: Four squares
    size: 4 x 4
    pieces:
      - {{id: a, outline: "M 0 0 h 2 v 2 h -2 Z", fabric: ink}}
      - {{id: b, outline: "M 2 0 h 2 v 2 h -2 Z", fabric: {cloth}}}
      - {{id: c, outline: "M 2 2 h 2 v 2 h -2 Z", fabric: ink}}
      - {{id: d, outline: "M 0 2 h 2 v 2 h -2 Z", fabric: sand}}
    sew: {sew}
quilt:
  set: straight
  borders: [{{width: {border}, fabric: sand}}]
  binding: {{width: {binding}, fabric: ink}}
"""
ROWS = "[{make: top, join: [a, b]}, {make: low, join: [d, c]}, {make: four, join: [top, low]}]"
COLUMNS = (
    "[{make: left, join: [a, d]}, {make: right, join: [b, c]}, {make: four, join: [left, right]}]"
)
USUAL = {
    "version": "1",
    "unit": "1 in",
    "blocks": "3 x 3",
    "cloth": "sand",
    "sew": ROWS,
    "border": "1 in",
    "binding": "2 1/2 in",
}


@pytest.fixture(scope="module")
def state(tmp_path_factory):
    @cache
    def side(**edits):
        folder = tmp_path_factory.mktemp("state")
        (folder / "pattern.yaml").write_text(SQUARES.format(**USUAL | edits), encoding="utf-8")
        checked = compiler.check(folder)
        assert checked.value is not None, checked.diagnostics
        return of_plan(compiler.plan(checked.value))

    return side


def told(old, new):
    return {(c.about, str(c.what)): (c.grave, str(c.was), str(c.now)) for c in changes(old, new)}


def test_a_pattern_beside_itself_has_no_changes(state):
    assert changes(state(), state()) == ()
    assert list(lines((), state(), state()))[-1] == "nothing changed for readers"


def test_a_wider_border_makes_the_earlier_booklet_wrong(state):
    found = told(state(), state(border="2 in"))
    # 3 blocks of 4 in are 12 in; with 1 in on both sides 14, with 2 in 16
    assert found[About.QUILT, "the finished quilt"] == (True, "14 × 14 in", "16 × 16 in")
    # the sides are sewn first, as long as the blocks: 12 in and two allowances; one allowance each beside the width
    assert found[About.CUTTING, "border 1, sides of Sand"][1:] == (
        "2 cuts of 12 1/2 × 1 1/2 in",
        "2 cuts of 12 1/2 × 2 1/2 in",
    )
    # what stays is not told: the patches of the blocks
    assert not any(str(what).startswith("A of") for _, what in found)


def test_another_unit_changes_every_cut(state):
    found = told(state(), state(unit="1 1/2 in"))
    # a square of 2 units: 2 + 1/2 and 3 + 1/2
    assert found[About.CUTTING, "A of Ink"] == (
        True,
        "18 cuts of 2 1/2 × 2 1/2 in",
        "18 cuts of 3 1/2 × 3 1/2 in",
    )
    assert found[About.BLOCK, "Four squares, finished"] == (True, "4 × 4 in", "6 × 6 in")


def test_fewer_blocks_need_less_and_more_need_more(state):
    fewer = told(state(), state(blocks="2 x 3"))
    # 9 blocks of two ink squares, then 6
    assert fewer[About.CUTTING, "A of Ink"] == (
        False,
        "18 cuts of 2 1/2 × 2 1/2 in",
        "12 cuts of 2 1/2 × 2 1/2 in",
    )
    more = told(state(blocks="2 x 3"), state())
    assert more[About.CUTTING, "A of Ink"][0] is True
    assert more[About.QUILT, "blocks to make of Four squares"] == (True, "6 blocks", "9 blocks")


def test_another_cloth_of_a_piece_is_wrong_and_another_order_is_only_nicer(state):
    cloth = told(state(), state(cloth="ink"))
    assert cloth[About.BLOCK, "1 piece of Four squares"] == (True, "Sand", "Ink")
    order = told(state(), state(sew=COLUMNS))
    grave, _, now = order[About.SEWING, "the order in which Four squares is sewn"]
    assert not grave and now == "3 steps, 0 turns, 0 threads by hand"
    assert not any(grave for grave, _, _ in order.values())


def test_a_narrower_binding_is_another_cut(state):
    found = told(state(), state(binding="2 1/4 in"))
    # round 14 in: 56 in, and more for joins and the end; two strips of 40 in
    assert found[About.FINISHING, "the binding"] == (
        True,
        "2 strips 2 1/2 in wide, Ink",
        "2 strips 2 1/4 in wide, Ink",
    )


def test_grave_changes_come_first_and_the_version_is_asked_for(state):
    old, new = state(), state(border="2 in", sew=COLUMNS)
    found = changes(old, new)
    weights = [change.grave for change in found]
    assert weights == sorted(weights, reverse=True) and set(weights) == {True, False}
    assert "same `version`" in list(lines(found, old, new))[-1]
    newer = state(border="2 in", sew=COLUMNS, version="2")
    said = list(lines(changes(old, newer), old, newer))
    assert said[0] == "Two by two, from version 1 to 2" and "version" not in said[-1]


def test_a_file_of_facts_tells_the_same_but_for_names(state, tmp_path):
    file = tmp_path / "new.json"
    new = state(border="2 in")
    file.write_text(facts_text(new.plan), encoding="utf-8")
    read = of_file(file)
    assert isinstance(read, PatternState)

    def figures(found):
        return [(c.grave, c.about, re.findall(r"[\d /]+", f"{c.was}; {c.now}")) for c in found]

    assert figures(changes(state(), read)) == figures(changes(state(), new))
    rows = json.loads(as_json(changes(state(), read)))
    assert rows[0]["grave"] is True and set(rows[0]) == {
        "size",
        "about",
        "grave",
        "what",
        "was",
        "now",
    }


def test_the_page_shows_both_pictures_once(state):
    old, new = state(), state(border="2 in")
    made = page(changes(old, new), old, new)
    assert "Small: wrong in the earlier booklet" in made
    # of the quilt, of the back and of the cloth of the border, each before and after
    assert made.count("<img") % 2 == 0 and made.count("<img") >= 4
    alts = re.findall(r'alt="([^"]*)" style', made)
    assert any("14 × 14" in alt or "14" in alt for alt in alts)
    assert "<script" not in made
    assert page((), old, old).count("Nothing changed") == 1


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("{", "not JSON"),
        ("[1]", "no sizes"),
        ('{"sizes": 3}', "no sizes"),
        ("[" * 100_000, "not JSON"),
    ],
)
def test_what_is_no_facts_is_said(tmp_path, capsys, text, why):
    file = tmp_path / "old.json"
    file.write_text(text, encoding="utf-8")
    assert run(["compare", str(file), str(file)]) == 1
    err = capsys.readouterr().err
    assert why in err and "booklet facts FOLDER > FILE" in err


def test_facts_with_holes_and_wrong_names_get_a_sentence(tmp_path, capsys):
    holes, whole = tmp_path / "holes.json", tmp_path / "whole.json"
    holes.write_text('{"sizes": {"a": {"quilt": 1}}}', encoding="utf-8")
    whole.write_text('{"sizes": {"a": {"quilt": {"blocks": {}}}}}', encoding="utf-8")
    assert run(["compare", str(holes), str(whole)]) == 1
    assert "print it anew" in capsys.readouterr().err
    assert run(["compare", str(tmp_path / "gone"), str(whole)]) == 2
    assert "there is no folder" in capsys.readouterr().err


def test_the_page_is_written_and_never_over_a_file_that_is_there(tmp_path, capsys):
    folder = tmp_path / "squares"
    folder.mkdir()
    (folder / "pattern.yaml").write_text(SQUARES.format(**USUAL), encoding="utf-8")
    made = tmp_path / "changes.html"
    call = ["compare", str(folder), str(folder), "--page", str(made)]
    assert run(call) == 0 and made.read_text(encoding="utf-8").startswith("<!DOCTYPE html>")
    made.write_text("mine", encoding="utf-8")
    assert run(call) == 1 and "there already" in capsys.readouterr().err
    assert made.read_text(encoding="utf-8") == "mine"
    assert run([*call, "--replace"]) == 0 and made.read_text(encoding="utf-8") != "mine"
    assert run([*call[:-1], "changes.txt"]) == 2


def test_languages_gained_and_lost_are_told(state):
    def side(*languages):
        editions = [{"name": "pattern", "language": language} for language in languages]
        made = state()
        return PatternState(facts={**made.facts, "editions": editions}, plan=made.plan)

    found = told(side("en", "de"), side("en", "fr"))
    assert found == {
        (About.LANGUAGES, "languages of the edition pattern"): (False, "en and de", "en and fr")
    }
    assert told(side("en"), side("en")) == {}
    shown = list(lines(changes(side("en"), side("en", "de")), side("en"), side("en", "de")))
    assert "  All sizes" in shown
    assert "    languages of the edition pattern: en and de (was en)" in shown
    assert "All sizes" in page(changes(side("en"), side("en", "de")), side("en"), side("en", "de"))


def test_who_sews_down_what_is_laid_on_a_block_is_told(tmp_path):
    leaf = (
        "title: Leaf\nsizes: {mat: {unit: 1 in, blocks: 1 x 1}}\nfabrics: {sand: {}, green: {}}\n"
        "blocks:\n  leaf:\n    grid: [[sand]]\n    columns: [6]\n    rows: [6]\n"
        '    applied: [{outline: "M 1 3 Q 3 1 5 3 Q 3 5 1 3 Z", title: leaf, fabric: green, by: machine}]\n'
    )
    sides = []
    for name, text in (("one", leaf), ("other", leaf.replace("by: machine", "by: hand"))):
        (tmp_path / name).mkdir()
        (tmp_path / name / "pattern.yaml").write_text(text, "utf-8")
        found = compiler.check(tmp_path / name).value
        assert found is not None
        sides.append(of_plan(compiler.plan(found)))
    told = {str(c.what): (c.grave, str(c.was), str(c.now)) for c in changes(*sides)}
    assert told["how the shapes on leaf are sewn down"] == (False, "1 by machine", "1 by hand")


PANS = """\
title: Salt pans
units: cm
allowance: 0.75 cm
sizes: {{tray: {{unit: 1 cm, blocks: 4 x 4}}}}
fabrics: {{brine: {{name: Brine, colour: teal}}, salt: {{name: Salt, colour: white}}}}
blocks: {{pan: {{title: Pan, grid: [[brine, salt], [salt, brine]], columns: [6, 6], rows: [6, 6]}}}}
quilt: {{arrange: [[pan]]}}
colourways: {{night: {{title: Night, fabrics: {{brine: {{colour: navy, width: 110 cm}}}}}}}}
layouts:
  framed:
    title: Framed
    quilt: {{sashing: {{width: {sash}, fabric: brine}}}}
    sizes: {{tray: {{blocks: {blocks}}}}}
booklet:
  editions: {{both: {{colourway: {colourway}, layout: framed, pages: [cutting]}}}}
"""


@pytest.fixture(scope="module")
def pans(tmp_path_factory):
    @cache
    def side(sash="2 cm", blocks="3 x 4", colourway="[]"):
        folder = tmp_path_factory.mktemp("pans")
        text = PANS.format(sash=sash, blocks=blocks, colourway=colourway)
        text = text.replace("colourway: [], ", "")
        (folder / "pattern.yaml").write_text(text, encoding="utf-8")
        checked = compiler.check(folder)
        assert checked.value is not None, checked.diagnostics
        return of_plan(compiler.plan(checked.value))

    return side


def test_a_wider_sash_of_a_layout_is_told_with_all_it_changes_there_and_nothing_else(pans):
    # 3 x 4 blocks of 12 cm: 36 + 2 x 2 = 40 by 48 + 3 x 2 = 54; with 3 cm, 42 by 57. A sash is cut 1.5 cm wider
    # and longer: 3.5 and 4.5 by 13.5, the long ones 41.5 and 43.5. No cloth is bought anew: 0.3 m either way.
    assert told(pans(), pans(sash="3 cm")) == {
        (About.QUILT, "the finished quilt, in Framed"): (True, "40 × 54 cm", "42 × 57 cm"),
        (About.CUTTING, "sash of Brine, in Framed"): (
            True,
            "8 cuts of 3.5 × 13.5 cm",
            "8 cuts of 4.5 × 13.5 cm",
        ),
        (About.CUTTING, "long sash of Brine, in Framed"): (
            True,
            "3 cuts of 3.5 × 41.5 cm",
            "3 cuts of 4.5 × 43.5 cm",
        ),
    }


def test_more_metres_are_grave_where_the_yards_are_the_same(pans):
    # with 3 x 5 blocks, 30 squares and 10 sashes of 110 cm: 0.4 m, which is 3/8 yd like 0.3 m
    found = told(pans(colourway="night"), pans(colourway="night", blocks="3 x 5"))
    assert found[About.CLOTH, "cloth to buy: Brine, in Night, Framed"] == (True, "0.3 m", "0.4 m")
    assert found[About.QUILT, "blocks to make of Pan, in Night, Framed"] == (
        True,
        "12 blocks",
        "15 blocks",
    )
    # 40 by 60 + 4 x 2 = 68
    assert found[About.QUILT, "the finished quilt, in Night, Framed"][2] == "40 × 68 cm"
    yards = [s.facts["combined"][-1]["sizes"]["tray"]["cutting"]["brine"]["buy"]["yards"] for s in (pans(colourway="night"), pans(colourway="night", blocks="3 x 5"))]  # fmt: skip
    assert yards[0] == yards[1]


def test_the_back_of_a_layout_is_told_where_it_is_cut_otherwise_than_that_of_the_pattern(tmp_path):
    def state(name, edge):
        (tmp_path / name).mkdir()
        text = PANS.format(sash="2 cm", blocks="3 x 4", colourway="[]")
        text = text.replace("colourway: [], ", "").replace(
            "quilt: {sashing:", f"quilt: {{backing: {{fabric: salt, extra: {edge}}}, sashing:"
        )
        (tmp_path / name / "pattern.yaml").write_text(text, encoding="utf-8")
        return of_plan(compiler.plan(compiler.check(tmp_path / name).value))

    found = told(state("one", "5 cm"), state("other", "6 cm"))
    # only the layout has a back: 40 + 2 x 5 = 50 by 54 + 10 = 64; with 6 cm, 52 by 66
    backs = {what: said for (_, what), said in found.items() if "back" in what}
    assert backs == {
        "backing of Salt, in Framed": (True, "1 cut of 50 × 64 cm", "1 cut of 52 × 66 cm")
    }
