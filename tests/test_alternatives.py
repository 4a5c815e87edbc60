"""Colourways and layouts: amounts by hand on small patterns, and on others against patterns written so outright."""

from __future__ import annotations

import json
import re
from copy import deepcopy
from fractions import Fraction
from functools import cache
from pathlib import Path
from types import SimpleNamespace

import corpus
import pytest
from ruamel.yaml import YAML
from source_helpers import read

from booklet.comparing.changes import changes
from booklet.comparing.side import PatternState, of_plan
from booklet.facts import facts
from booklet.kit.measure import Length
from booklet.kit.records import replace
from booklet.kit.remembered.memory import Memory
from booklet.pages.composing import compose
from booklet.pages.views import side_by_side
from booklet.pages.views.side_by_side import otherwise
from booklet.pattern import AlternativeKind, Paper
from booklet.plan import Plan, make_plan
from booklet.preview.bench.bench import Bench, Choice, ways
from booklet.recipe import compiler, voices
from booklet.recipe.checking import check
from booklet.sewing.auto.finding import search_order, search_tree
from booklet.sewing.stage import assemble_block
from booklet.source.editions import alternatives

PATTERNS = Path(__file__).parent / "patterns"
GATES, STONES = PATTERNS / "in_three_colourways", PATTERNS / "in_two_layouts"
QUAY = """\
title: Quay
sizes:
  lap: {unit: 1 in, blocks: 6 x 6}
fabrics:
  ink: {colour: navy}
  sand: {colour: "#e9dcc3"}
blocks:
  wave: {grid: [[ink, sand], [sand, ink]], columns: [3, 3], rows: [3, 3]}
quilt: {arrange: [[wave]]}
"""


@cache
def plan_of(folder: Path) -> Plan:
    found = check(folder)
    assert found.value is not None and found.diagnostics == ()
    return make_plan(found.value)


def written(tmp_path: Path, text: str) -> Plan:
    """The plan of a pattern that may have warnings."""
    (tmp_path / "pattern.yaml").write_text(text, encoding="utf-8")
    found = check(tmp_path)
    assert found.value is not None, [d.message for d in found.diagnostics]
    return make_plan(found.value)


def bought(told: dict, size: str) -> dict[str, str]:
    """How many yards of each cloth are bought for a size."""
    return {id: cloth["buy"]["yards"] for id, cloth in told["sizes"][size]["cutting"].items()}


def named(told: dict, kind: str = "colourways") -> dict[str, dict]:
    return {one.get("name"): one for one in told[kind]}


# Sums by hand


def test_a_wider_cloth(tmp_path):
    # 36 blocks have 72 squares of ink, cut 3 1/2 in. A strip of 40 in gives 11 (38 1/2 in): 7 strips, 24 1/2 in. Of 110 cm
    # (43.3 in) it gives 12: 6 strips, 21 in; of 140 cm (55.1 in) 15: 5 strips, 17 1/2 in. With 1/2 in to straighten the cloth
    # 25, 21 1/2 and 18 in, in steps of 4 1/2 in (1/8 yd): 6, 5 and 4 of them.
    more = "colourways: {one: {fabrics: {ink: {width: 110 cm}}}, two: {fabrics: {ink: {width: 140 cm}}}}\n"
    told = facts(written(tmp_path, QUAY + more))
    amounts = {name: bought(one, "lap") for name, one in named(told).items() if name}
    assert bought(told, "lap") == {"ink": "3/4", "sand": "3/4"}
    assert amounts == {"one": {"ink": "5/8", "sand": "3/4"}, "two": {"ink": "1/2", "sand": "3/4"}}


def test_a_large_repeat_and_a_one_way_print():
    # 18 motifs, cut 5 1/2 in. Where the first lies is not known, so one repeat of the cloth is lost across and along. Of
    # 6 in, 5 lie across 40 in (4 x 6 + 5 1/2 + 6 = 35 1/2 in): 4 rows, 3 x 6 + 5 1/2 + 6 = 29 1/2 in; with 1/2 in to straighten
    # 30 in, 7 steps of 4 1/2 in. Of 12 in, 2 lie across (12 + 5 1/2 + 12 = 29 1/2 in): 9 rows, 8 x 12 + 5 1/2 + 12 = 113 1/2 in;
    # 114 in, 26 steps.
    # 18 posts, cut 2 1/2 x 5 1/2 in: of any cloth 7 lie across 40 in, 3 strips of 2 1/2 in, 8 in with straightening, 2 steps. Of
    # one that has an up they stand upright: 16 lie across, 2 strips of 5 1/2 in, 11 1/2 in, 3 steps.
    told = facts(plan_of(GATES))
    amounts = {name: bought(one, "mat") for name, one in named(told).items()}
    assert amounts == {
        "day": {"flower": "7/8", "sand": "1/4"},
        "dusk": {"flower": "3 1/4", "sand": "1/4"},
        "dawn": {"flower": "7/8", "sand": "3/8"},
    }
    lengths = {name: one["sizes"]["mat"]["cutting"] for name, one in named(told).items()}
    assert lengths["dusk"]["flower"]["length_in"] == 114.0
    assert lengths["dawn"]["sand"]["length_in"] == 11.5


def test_the_same_blocks_on_point():
    # Rows: 4 blocks of 6 in make 12 x 12 in. On point a block of 6 in is 6 √2 = 8.485 in across: 1 x 2 of them make
    # 8.485 x 16.971 in, with 2 blocks and 1 x 0 between.
    told = named(facts(plan_of(STONES)), "layouts")
    assert told["rows"]["sizes"]["mat"]["blocks"] == {"stones": 4}
    assert told["rows"]["sizes"]["mat"]["finished_in"] == [12.0, 12.0]
    assert told["point"]["sizes"]["mat"]["blocks"] == {"stones": 2}
    assert told["point"]["sizes"]["mat"]["finished_in"] == pytest.approx([8.485281, 16.970563])


WIDE_AND_SHORT = (
    "colourways: {day: {title: Day}, dusk: {title: Dusk, fabrics: {ink: {width: 110 cm}}}}\n"
    "layouts: {full: {title: Full}, short: {title: Short, sizes: {lap: {blocks: 5 x 6}}}}\n"
)


def test_a_wider_cloth_in_a_smaller_layout(tmp_path):
    # 36 blocks take 72 squares of each cloth: 7 strips of 40 in, 6 of 110 cm (`test_a_wider_cloth`). 30 blocks take 60: of 40 in,
    # 11 a strip, 6 strips, 21 1/2 in with straightening, 5 steps of 4 1/2 in; of 110 cm, 12 a strip, 5 strips, 18 in, 4 steps.
    editions = "booklet: {editions: {all: {colourway: [day, dusk], layout: [full, short], pages: [materials]}}}\n"
    plan = written(tmp_path, QUAY + WIDE_AND_SHORT + editions)
    made = {
        edition.alternative: bought(facts(plan.shown_by(edition)), "lap")
        for edition in plan.pattern.booklet.editions
    }
    assert made == {
        "day, full": {"ink": "3/4", "sand": "3/4"},
        "dusk, full": {"ink": "5/8", "sand": "3/4"},
        "day, short": {"ink": "5/8", "sand": "5/8"},
        "dusk, short": {"ink": "1/2", "sand": "5/8"},
    }


# Against patterns written outright


def source(name: str) -> dict:
    """The source of a pattern as a program has it."""
    there = YAML(typ="safe", pure=True).load((PATTERNS / name / "pattern.yaml").read_text("utf-8"))
    assert isinstance(there, dict)
    return json.loads(json.dumps(there, default=str))


OTHERWISE = {
    "plain_squares": {"width": "54 in", "direction": "one-way"},
    "three_sizes": {"width": "110 cm", "shrinks": "4 %"},
    "market_day": {"width": "60 in", "extra": "1/4 yd"},
    "log_cabin": {"direction": "one-way", "sold by": "1/4 yd"},
}


@pytest.mark.parametrize("name", OTHERWISE)
def test_a_colourway_is_the_pattern_written_so(name: str, tmp_path: Path):
    own = source(name)
    cloth = {"name": "Other", "colour": "#5b7f3a", **OTHERWISE[name]}
    ids = [id for id, keys in own["fabrics"].items() if "mix" not in (keys or {})]
    both = deepcopy(own) | {
        "colourways": {
            "other": {"fabrics": dict.fromkeys(ids, cloth)},
            "same": {"fabrics": dict.fromkeys(ids)},
        }
    }
    outright = deepcopy(own)
    for id in ids:
        outright["fabrics"][id] = {**(own["fabrics"][id] or {}), **cloth}
    for size in outright["sizes"].values():  # a colourway stands above what a size says of a cloth
        for id in set(size.get("fabrics") or {}) & set(ids):
            size["fabrics"][id] = {**size["fabrics"][id], **cloth}
    folders = tmp_path / "both", tmp_path / "outright"
    for folder in folders:
        folder.mkdir()
    plan = written(folders[0], json.dumps(both))
    told, there = named(facts(plan)), facts(written(folders[1], json.dumps(outright)))
    for id, size in there["sizes"].items():
        for key in ("cutting", "rotary"):
            assert told["other"]["sizes"][id][key] == size[key]
    assert facts(plan.taken_as("other"))["sizes"] == there["sizes"]
    assert told["same"]["sizes"] == told[None]["sizes"]
    assert facts(plan.taken_as("same"))["sizes"] == facts(plan)["sizes"]


@pytest.mark.parametrize("name", ["plain_squares", "three_sizes"])
def test_both_are_the_pattern_written_so(name: str, tmp_path: Path):
    own = source(name)
    ids = list(own["fabrics"])
    cloth = {"colour": "#5b7f3a", **OTHERWISE[name]}
    quilt = {"borders": [{"width": "2 1/2 in", "fabric": ids[0], "corners": "mitred"}]}
    both = deepcopy(own) | {
        "colourways": {"other": {"fabrics": dict.fromkeys(ids, cloth)}},
        "layouts": {"edged": {"quilt": quilt}},
        "booklet": {"editions": {"all": {"colourway": "other", "layout": "edged"}}},
    }
    outright = deepcopy(own)
    for id in ids:
        outright["fabrics"][id] = {**(own["fabrics"][id] or {}), **cloth}
    outright["quilt"] = {**own["quilt"], **quilt}
    for size in outright["sizes"].values():
        for id in set(size.get("fabrics") or {}):
            size["fabrics"][id] = {**size["fabrics"][id], **cloth}
        if "quilt" in size:
            size["quilt"] = {**size["quilt"], **quilt}
    folders = tmp_path / "both", tmp_path / "outright"
    for folder in folders:
        folder.mkdir()
    plan = written(folders[0], json.dumps(both))
    there = facts(written(folders[1], json.dumps(outright)))
    assert facts(plan.taken_as("other, edged"))["sizes"] == there["sizes"]
    (told,) = facts(plan)["combined"]
    assert (told["name"], told["title"]) == ("other, edged", "other, edged")
    for id, size in there["sizes"].items():
        assert told["sizes"][id]["rotary"] == size["rotary"]


def test_a_colourway_takes_away_what_a_cloth_no_longer_is(tmp_path):
    text = QUAY.replace(
        "ink: {colour: navy}",
        "ink: {colour: navy, repeat: {across: 4 in, along: 4 in}, picture: ink.png}",
    )
    plan = written_with_picture(tmp_path, text)
    ink = plan.taken_as("dusk").sizes[0].size.fabrics["ink"]
    assert (ink.repeat, ink.picture, ink.colour) == (None, None, "#800000")
    assert plan.sizes[0].size.fabrics["ink"].picture == "ink.png"


def written_with_picture(folder: Path, text: str) -> Plan:
    from PIL import Image

    Image.new("RGB", (4, 4), "navy").save(folder / "ink.png")
    return written(
        folder, text + "colourways: {dusk: {fabrics: {ink: {colour: maroon, repeat: none}}}}\n"
    )


def test_a_colourway_stands_above_what_a_size_says(tmp_path):
    text = QUAY.replace("6 x 6}", "6 x 6, fabrics: {ink: {width: 50 in, shrinks: 3 %}}}")
    plan = written(tmp_path, text + "colourways: {dusk: {fabrics: {ink: {width: 60 in}}}}\n")
    ink = plan.taken_as("dusk").sizes[0].size.fabrics["ink"]
    assert (float(ink.width), float(ink.shrinks)) == (60.0, 0.03)


def test_sizes_are_counted_in_all_colourways():
    sizes = "\n".join(f"  s{n}: {{unit: 1 in, blocks: 1 x 1}}" for n in range(12))
    text = QUAY.replace("  lap: {unit: 1 in, blocks: 6 x 6}", sizes)
    colourways = ", ".join(f"c{n}: {{fabrics: {{ink: {{colour: maroon}}}}}}" for n in range(4))
    # 12 sizes as they are and in 4 colourways: 60; in 4 and a layout: 72
    assert not any(d.is_error for d in read(text + f"colourways: {{{colourways}}}\n").diagnostics)
    more = read(text + f"colourways: {{{colourways}}}\nlayouts: {{rows: }}\n").diagnostics
    assert [(d.code, d.message) for d in more] == [
        (
            "too-large",
            "12 sizes, each as it is and in all colourways and layouts, are 72 to work out; at most 60 can be worked with",
        )
    ]
    nine = ", ".join(f"c{n}: {{fabrics: {{ink: {{colour: maroon}}}}}}" for n in range(9))
    (fault,) = read(QUAY + f"colourways: {{{nine}}}\n").diagnostics
    assert fault.message == "there are 9 colourways; at most 8 can be worked with"


# What is answered once


def test_an_order_is_searched_once_for_all_colourways(tmp_path):
    text = QUAY.replace("[[ink, sand], [sand, ink]]", "[[ink, sand, ink], [sand, ink, sand]]")
    text = text.replace("columns: [3, 3], rows", "columns: [3, 3, 3], rows")
    worked_out = []
    for colourways in (
        "",
        "colourways: {one: {fabrics: {ink: {width: 110 cm}}}, two: {fabrics: {sand: {colour: maroon}}}}\n",
    ):
        (tmp_path / "pattern.yaml").write_text(text + colourways, encoding="utf-8")
        memory = Memory()
        ask = memory.only(assemble_block, search_order, search_tree)
        assert check(tmp_path, ask=ask).value is not None
        worked_out.append(memory.worked_out)
    assert worked_out[0] == worked_out[1] > 0


# Pages, files, editions


def test_the_page_shows_all_side_by_side():
    plan = plan_of(GATES)
    edition = plan.pattern.booklet.editions[0]
    page = compose(plan, edition, paper=Paper.LETTER, sizes=("mat",)).html
    shown = page[page.index('id="colourways"') : page.index('id="before"')]
    assert shown.count('class="beside-picture"') == 3
    words = " ".join(re.sub("<[^>]*>", " ", shown).split())
    assert [words.index(f" {title} ") for title in ("Day", "Dusk", "Dawn")] == sorted(
        words.index(f" {title} ") for title in ("Day", "Dusk", "Dawn")
    )
    assert "Large roses for Small flowers 3¼ yd 2.9 m Sand ¼ yd 0.3 m" in words
    assert (
        "Large roses: 3¼ yd in place of ⅞ yd. Other than in the first: a print that repeats every "
        "12 in × 12 in (across × along)." in words
    )
    assert "Reeds: ⅜ yd in place of ¼ yd. Other than in the first: a one-way print." in words
    assert words.count("in place of") == 2  # the buds of dawn are bought as the flowers are


def test_how_a_cloth_differs_is_said():
    plan = plan_of(GATES)
    first = plan.sizes[0]
    dusk, dawn = (plan.taken_as(name).sizes[0] for name in ("dusk", "dawn"))
    told = [str(each) for each in otherwise(dusk.fabric("flower"), first.fabric("flower"), first)]
    assert told == ["a print that repeats every 12 in × 12 in (across × along)"]
    told = [str(each) for each in otherwise(dawn.fabric("sand"), first.fabric("sand"), first)]
    assert told == ["a one-way print"]
    assert list(otherwise(dawn.fabric("flower"), first.fabric("flower"), first)) == []


def test_the_figures_of_a_cloth_stand_before_those_of_the_first():
    first = plan_of(GATES).sizes[0]
    sand = first.fabric("sand")
    other = replace(sand, width=Length.of("54 in"), shrinks=Fraction(1, 20))
    told = [str(each) for each in otherwise(other, sand, first)]
    assert told == ["usable width 54 in, not 40 in", "it shrinks by 5 percent"]


@pytest.mark.parametrize(
    ("quilts", "hundredths"),
    [  # all at one scale: the widest fills a room of 100 mm, unless the tallest would be over 88 mm high
        (((60, 30), (30, 30)), (100.0, 50.0)),
        (((40, 60), (20, 80)), (44.0, 22.0)),  # 88 / 80 = 1.1 mm an inch: 40 x 1.1, 20 x 1.1
        (((40, 60), None), (100.0, 100.0)),  # no quilt, no scale
    ],
)
def test_quilts_side_by_side_are_drawn_at_one_scale(quilts, hundredths):
    plans = [SimpleNamespace(quilt=SimpleNamespace(finished=size)) for size in quilts]
    assert side_by_side._widths(plans, 100.0) == hundredths


def test_a_booklet_in_a_colourway_speaks_of_its_cloths():
    plan = plan_of(GATES)
    edition = replace(plan.pattern.booklet.editions[0], alternative="dusk", tell_alternative=True)
    document = compose(plan, edition, paper=Paper.A4, sizes=("mat",))
    assert document.name == "garden-gates-pattern-dusk-mat-a4.pdf"
    assert document.title == "Garden gates: Pattern, colorway Dusk, Mat"
    assert "Large roses" in document.html
    assert "this booklet</b>" in document.html
    without = document.html.replace(document.html[document.html.index('id="colourways"') :], "")
    assert "Small flowers" not in without


def files_of(folder: Path, **asked) -> list[str]:
    found = corpus.checked(folder).value
    assert found is not None
    names: list[str] = []
    compiler.build(
        found, compiler.BuildOptions(pdf=False, **asked), lambda name, data: names.append(name)
    )
    return sorted(names)


def test_files_tell_the_colourway():
    own = files_of(GATES)
    dusk = files_of(GATES, alternatives=("dusk",))
    assert "garden-gates-pattern.html" in own and "garden-gates-materials.csv" in own
    assert "garden-gates-pattern-dusk.html" in dusk and "garden-gates-dusk-materials.csv" in dusk
    assert not set(own) & set(dusk)
    assert files_of(GATES, alternatives=("day",)) == own


def test_pages_of_an_edition_in_several_layouts_lead_to_each_other(tmp_path):
    layouts = "layouts: {rows: {title: Rows}, point: {title: On point, quilt: {set: on point, setting fabric: sand}}}\n"
    editions = "booklet: {editions: {both: {layout: [rows, point], pages: [cutting]}, one: {pages: [quilt]}}}\n"
    (tmp_path / "pattern.yaml").write_text(QUAY + layouts + editions, encoding="utf-8")
    found = check(tmp_path).value
    assert found is not None
    made: dict[str, str] = {}
    compiler.build(
        found,
        compiler.BuildOptions(pdf=False, beside=False),
        lambda name, data: made.update({name: str(data)}),
    )
    assert set(made) == {"quay-both-rows.html", "quay-both-point.html", "quay-one.html"}
    link = re.compile(r'<li>(<span aria-current="page">|<a href="([^"]*)">)(Rows|On point)<')
    shown = {name: [each[1:] for each in link.findall(text)] for name, text in made.items()}
    assert sorted(shown["quay-both-rows.html"]) == [
        ("", "Rows"),
        ("quay-both-point.html", "On point"),
    ]
    assert sorted(shown["quay-both-point.html"]) == [
        ("", "On point"),
        ("quay-both-rows.html", "Rows"),
    ]
    assert shown["quay-one.html"] == []


def test_a_booklet_in_both_tells_both(tmp_path):
    editions = "booklet: {editions: {all: {colourway: [day, dusk], layout: short, pages: [quilt, colourways]}}}\n"
    (tmp_path / "pattern.yaml").write_text(QUAY + WIDE_AND_SHORT + editions, encoding="utf-8")
    found = check(tmp_path).value
    assert found is not None
    made: dict[str, str] = {}
    compiler.build(
        found, compiler.BuildOptions(pdf=False), lambda name, data: made.update({name: str(data)})
    )
    pages = {"quay-all-day-short.html", "quay-all-dusk-short.html"}
    assert pages < set(made)
    assert {"quay-short-materials.csv", "quay-dusk-short-materials.csv"} < set(made)
    link = re.compile(r'<li>(?:<span aria-current="page">|<a href="[^"]*">)(D[^<]*)<')
    for name in pages:
        assert sorted(link.findall(made[name])) == ["Day, Short", "Dusk, Short"]
    assert "All, colorway Dusk, layout Short" in made["quay-all-dusk-short.html"]
    shown = made["quay-all-dusk-short.html"]
    shown = shown[shown.index('id="colourways"') :]
    assert "own layout" in shown
    assert [
        title for title in ("Day", "Dusk") if re.search(f"{title}[^D]*this booklet</b>", shown)
    ] == ["Dusk"]


def test_a_call_names_both(tmp_path):
    (tmp_path / "pattern.yaml").write_text(
        QUAY
        + WIDE_AND_SHORT
        + "booklet: {editions: {all: {pages: [cover]}, night: {colourway: dusk, pages: [cover]}}}\n",
        "utf-8",
    )

    def called(*names: str) -> list[str]:
        found = check(tmp_path, together=names).value
        assert found is not None
        files: list[str] = []
        compiler.build(
            found,
            compiler.BuildOptions(pdf=False, beside=False, alternatives=tuple(names)),
            lambda name, data: files.append(name),
        )
        return sorted(files)

    assert called("dusk, short") == ["quay-all-dusk-short.html", "quay-night-dusk-short.html"]
    assert called("day, short") == ["quay-all-short.html"]
    assert called("dusk, full") == ["quay-all-dusk.html", "quay-night.html"]


@pytest.mark.parametrize(("named", "lacking"), [(("ink", "sand"), []), (("ink",), ["sand"])])
def test_a_complete_colourway_names_every_cloth_and_no_mix(named, lacking):
    # a mix of both cloths is none itself, and follows them
    mixed = QUAY.replace("\nblocks:", "\n  both: {mix: [ink, sand]}\nblocks:").replace(
        "[sand, ink]]", "[both, ink]]"
    )
    dusk = "colourways:\n  dusk:\n    title: Dusk\n    complete: yes\n    fabrics:\n"
    dusk += "".join(f"      {name}:\n" for name in named)
    said = [found.message for found in read(mixed + dusk).diagnostics]
    assert said == [
        f"colourway `dusk` is to be complete, but does not name fabric `{name}`" for name in lacking
    ]


def test_what_is_named_as_both_would_be(tmp_path):
    text = QUAY + WIDE_AND_SHORT.replace("day: {title: Day}", "dusk-short: {title: Day}")
    text += "booklet: {editions: {all: {colourway: dusk, layout: short}}}\n"
    (fault,) = read(text).diagnostics
    assert fault.message == (
        "files in colourway `dusk-short` would have the names of those in `dusk, short`"
    )


def test_a_page_that_grows_too_large_shows_one_colourway(monkeypatch):
    found = check(GATES).value
    assert found is not None
    made: dict[str, str] = {}
    said: list[str] = []

    def page() -> str:
        compiler.build(
            found,
            compiler.BuildOptions(pdf=False, beside=False),
            lambda name, data: made.update({name: data.decode()}),
            say=said.append,
        )
        return made["garden-gates-pattern.html"]

    assert 'data-axis="c"' in page()
    assert not any("one colourway" in line for line in said)
    monkeypatch.setattr(voices, "MOST_PAGE", 10_000)
    assert 'data-axis="c"' not in page()
    (told,) = (line for line in said if "one colourway" in line)
    assert told.startswith(
        "garden-gates-pattern.html shows one colourway: with all of them it would take "
    )
    assert (
        "more than 10. Make pages that lead to each other: `colourway: [...]` in edition `pattern`"
        in told
    )


def test_an_edition_in_a_layout_of_its_own():
    names = files_of(STONES)
    assert {"stepping-stones-pattern.html", "stepping-stones-point.html"} <= set(names)
    assert {"stepping-stones-materials.csv", "stepping-stones-point-materials.csv"} <= set(names)
    plan = plan_of(STONES)
    pages = [compose(plan, edition).html for edition in plan.pattern.booklet.editions]
    assert "setting triangle" not in pages[0].lower()
    assert "triangle" in pages[1].lower()


def test_a_photograph_of_the_first_is_on_no_other_cover(tmp_path):
    text = QUAY + (
        "colourways: {dusk: {fabrics: {ink: {colour: maroon}}}}\n"
        "booklet: {cover: {picture: ink.png, picture text: The quilt.}, editions: {all: {pages: [cover, colourways]}}}\n"
    )
    from PIL import Image

    Image.new("RGB", (4, 4), "navy").save(tmp_path / "ink.png")
    plan = written(tmp_path, text)
    edition = plan.pattern.booklet.editions[0]
    pages = [compose(plan, replace(edition, alternative=one)).html for one in ("", "dusk")]
    assert ["The quilt." in page for page in pages] == [True, False]


def test_the_preview_shows_an_edition_in_its_layout():
    bench = Bench(STONES)
    bench.refresh()
    shown = bench.shown(Choice(edition="point"))
    assert shown is not None


def test_the_preview_shows_what_a_tab_chooses(tmp_path):
    (tmp_path / "pattern.yaml").write_text(QUAY + WIDE_AND_SHORT, encoding="utf-8")
    bench = Bench(tmp_path)
    bench.refresh()

    def shown(**choice: str) -> tuple[str, list[str]]:
        page = bench.shown(Choice(edition="pattern", **choice))
        assert page is not None
        told = dict(page.document.parts)["materials"]
        return page.document.title, re.findall(r"[¼½¾⅛⅜⅝⅞](?=\s+yd)", told)[:2]

    own, short = "Quay: Pattern, lap", "Quay: Pattern, layout Short, lap"
    assert shown() == (own, ["¾", "¾"])
    assert shown(layout="short") == (short, ["⅝", "⅝"])
    assert shown(colourway="noon", layout="short") == (short, ["⅝", "⅝"])
    number = bench.look.number
    both = "Quay: Pattern, colorway Dusk, layout Short, lap"
    assert shown(colourway="dusk", layout="short") == (both, ["½", "⅝"])
    assert shown(colourway="dusk", layout="short") == (both, ["½", "⅝"])
    assert bench.look.number == number + 1  # worked out once
    assert ways(bench._good.plan.pattern) == {
        "colourway": [("day", "Day"), ("dusk", "Dusk")],
        "layout": [("full", "Full"), ("short", "Short")],
    }


def test_the_preview_does_without_what_would_be_too_much(tmp_path, monkeypatch):
    """One size as it is, in two colourways and in two layouts are 5; in both together they would be 6."""
    (tmp_path / "pattern.yaml").write_text(QUAY + WIDE_AND_SHORT, encoding="utf-8")
    monkeypatch.setattr(alternatives, "MOST_SIZES", 5)
    bench = Bench(tmp_path)
    bench.refresh()
    shown = bench.shown(Choice(colourway="dusk", layout="short"))
    assert bench.look.sound and shown is not None
    assert "Dusk" not in shown.document.title
    number = bench.look.number
    assert bench.shown(Choice(colourway="dusk", layout="short")) is shown
    assert bench.look.number == number  # not tried again
    (fault,) = read(
        QUAY + WIDE_AND_SHORT + "booklet: {editions: {all: {colourway: dusk, layout: short}}}\n"
    ).diagnostics
    assert "are 6 to work out; at most 5 can be worked with" in fault.message


def test_voices_and_alternatives_together():
    found = check(GATES).value
    assert found is not None
    assert found.pattern.alternative_of("day") is None
    assert "dusk" in {one.pattern.alternative for one in found.alternatives}
    with pytest.raises(KeyError):
        found.pattern.alternative_of("noon")
    assert [one.id for one, _ in plan_of(GATES).side_by_side(AlternativeKind.COLOURWAY)] == [
        "day",
        "dusk",
        "dawn",
    ]
    assert plan_of(GATES).side_by_side(AlternativeKind.LAYOUT) == ()


def test_a_print_that_must_not_be_turned_is_told_of_where_the_cloth_is(tmp_path):
    text = QUAY.replace("[[wave]]", "[[wave, wave turn 90]]")
    text += "colourways: {dusk: {fabrics: {ink: {direction: one-way}}}}\n"
    (tmp_path / "pattern.yaml").write_text(text, encoding="utf-8")
    (told,) = (d for d in check(tmp_path).diagnostics if d.code == "one-way-turned")
    assert told.span.line == text.splitlines().index(text.splitlines()[-1]) + 1
    assert told.message.startswith("in colourway `dusk`: block `wave` is set turned")


def test_a_word_for_nothing_is_answered(tmp_path):
    (fault,) = read(QUAY.replace("colour: navy", "colour: navy, repeat: no")).diagnostics
    assert fault.hint is not None and fault.hint.endswith("or `none` where there is none")


# What changed between two states


def test_compare_tells_of_colourways(tmp_path):
    def state(name: str, colourways: str) -> PatternState:
        (tmp_path / name).mkdir()
        return of_plan(written(tmp_path / name, QUAY + colourways))

    one = state("one", "colourways: {dusk: {title: Dusk, fabrics: {ink: {width: 110 cm}}}}\n")
    other = state(
        "other",
        "colourways: {dusk: {title: Dusk, fabrics: {ink: {width: 140 cm}}}, dawn: {title: Dawn, fabrics: {ink: }}}\n",
    )
    told = [(str(c.what), c.grave, str(c.was), str(c.now)) for c in changes(one, other)]
    # 72 squares of ink: 5/8 yd of 110 cm, 1/2 yd of 140 cm (`test_a_wider_cloth`)
    assert told == [
        ("the colorway Dawn", False, "not there", "there"),
        ("cloth to buy: ink, in Dusk", False, "5/8 yd", "1/2 yd"),
    ]
    back = {str(c.what): (c.grave, str(c.was), str(c.now)) for c in changes(other, one)}
    assert back["cloth to buy: ink, in Dusk"] == (True, "1/2 yd", "5/8 yd")
    assert back["the colorway Dawn"] == (False, "there", "not there")


def test_a_fabric_beside_the_fabrics_is_told_where_it_belongs():
    (fault,) = read(QUAY + "colourways: {dusk: {title: Dusk, ink: {colour: maroon}}}\n").diagnostics
    assert fault.message == "colourway `dusk` takes no key `ink`"
    assert fault.hint == "write it under `fabrics`: `fabrics: {ink: …}`"
