"""A pattern in parts, cut by one plan of the whole cloth: sums by hand on two small patterns, and on all units, prints and
ready cut cloth the sums of the parts against the whole."""

from __future__ import annotations

import re
from collections import Counter
from functools import cache
from pathlib import Path

import pytest

from booklet.checks.checked import CheckedPattern
from booklet.checks.parts_made import parted
from booklet.facts import facts
from booklet.kit.records import replace
from booklet.pages.composing import compose
from booklet.pattern import CLASS_PAGES, Edition, Instalment, Page, Paper
from booklet.plan import Plan, make_plan
from booklet.preview.bench.bench import Bench, Choice
from booklet.recipe import compiler
from booklet.recipe.checking import check
from booklet.source.files.page_names import PAGES

PATTERNS = Path(__file__).parent / "patterns"


@cache
def checked(name: str) -> CheckedPattern:
    found = check(PATTERNS / name).value
    assert found is not None
    return found


@cache
def coves() -> Plan:
    return make_plan(checked("in_two_parts"))


@cache
def told() -> list[dict]:
    return facts(coves())["parts"]


def cut_in(number: int) -> dict[tuple[str, str], int]:
    """How many pieces of each patch and cloth are cut in a part."""
    rotary = told()[number - 1]["sizes"]["mat"]["rotary"]
    return {(line["for"], line["fabric"]): line["pieces"] for line in rotary}


def test_what_is_cut_in_each_part():
    # 4 waves of 2 ink and 2 sand, 4 shores of 1 ink and 3 sand: 12 ink, 20 sand. Squares are cut 2 1/2 in, so that a strip
    # of 40 in gives 40 / 2.5 = 16: ink takes 1 strip of 12, sand one of 16 and one of 4. The waves need 8 of either,
    # one strip of each cloth; the second strip of sand and the border are cut in the second part.
    assert cut_in(1) == {("A", "ink"): 12, ("A", "sand"): 16}
    assert cut_in(2) == {
        ("A", "sand"): 4,
        ("border 1 top and bottom", "reed"): 2,
        ("border 1 sides", "reed"): 2,
    }


def test_what_is_kept_and_ready():
    first, second = (part["sizes"]["mat"] for part in told())
    kept = [
        {"for": "A", "fabric": "ink", "count": 4, "part": 2},  # 12 - 8
        {"for": "A", "fabric": "sand", "count": 8, "part": 2},  # 16 - 8
    ]
    assert first["kept"] == second["ready"] == kept
    assert first["ready"] == second["kept"] == []
    assert first["cloth_left_in"] == {"sand": 2.5}  # one strip
    assert (first["buys"], second["buys"]) == (["ink", "sand"], ["reed"])


def test_the_sum_of_an_amount_stands_where_its_cloth_is_bought():
    # sand is cut in both parts and bought once
    summed = [
        {cloth.fabric for cloth in part.sizes[0].cutting.fabrics if cloth.sum}
        for part in coves().parts
    ]
    cut = [
        {cloth.fabric for cloth in part.sizes[0].cutting.fabrics if cloth.strips}
        for part in coves().parts
    ]
    assert cut == [{"ink", "sand"}, {"sand", "reed"}]
    assert summed == [{"ink", "sand"}, {"reed"}]


def test_the_last_part_has_the_quilt():
    first, second = (part["sizes"]["mat"] for part in told())
    assert (first["makes"], first["joins_quilt"]) == ({"wave": 4}, False)
    assert (second["makes"], second["joins_quilt"]) == ({"shore": 4}, True)
    quilt = coves().parts[1].sizes[0]
    assert [(b.block.id, b.is_ready, bool(b.cards)) for b in quilt.blocks] == [
        ("wave", True, False),
        ("shore", False, True),
    ]


def test_booklets_and_files_tell_their_part():
    plan = coves()
    names, texts = [], []
    for edition in plan.pattern.booklet.editions:
        document = compose(plan, edition, paper=Paper.A4, sizes=("mat",))
        names.append(document.name)
        texts.append(document.html)
    assert names == ["two-coves-monthly-part-1-mat-a4.pdf", "two-coves-monthly-part-2-mat-a4.pdf"]
    assert "Monthly, part 1 of 2: Waves" in texts[0]
    assert 'id="quilt"' not in texts[0] and 'id="finishing"' not in texts[0]
    assert 'id="quilt"' in texts[1]
    assert "bought in part 1" in texts[1] and "bought in part" not in texts[0]


def test_the_pages_of_the_parts_lead_to_each_other():
    files = {}
    compiler.build(
        checked("in_two_parts"), compiler.BuildOptions(pdf=False, beside=False), files.__setitem__
    )
    first, second = "two-coves-monthly-part-1.html", "two-coves-monthly-part-2.html"
    titles = {first: "Waves", second: "Shores and quilt"}
    for own, other in ((first, second), (second, first)):
        page = files[own].decode()
        assert '<nav class="languages" aria-label="Parts">' in page
        assert f'aria-current="page">{titles[own]}</span>' in page
        assert f'<a href="{other}">{titles[other]}</a>' in page
        assert '<link rel="alternate"' not in page  # another part is no other form of the page


SWEPT = (
    "one_way_everywhere",
    "fat_quarters",
    "plain_alternate",
    "long_borders",
    "quarter_squares",
    "half_rectangles",
)


def in_parts_of_its_blocks(name: str) -> Plan:
    """A pattern in parts of one block each; the last has what is left and joins the quilt."""
    own = checked(name)
    blocks = [b.id for b in own.pattern.blocks if b.part is None]
    span = own.pattern.span
    parts = (*(Instalment(id, (id,), span) for id in blocks[:3]), Instalment("rest", (), span))
    pages = tuple(Page(page, span) for page in PAGES if page not in CLASS_PAGES)
    editions = tuple(
        Edition(id="monthly", pages=pages, sizes=(), span=span, part=n)
        for n in range(1, len(parts) + 1)
    )
    booklet = replace(own.pattern.booklet, parts=parts, editions=editions)
    made = parted(replace(own, pattern=replace(own.pattern, booklet=booklet))).value
    assert made is not None
    return make_plan(made)


@pytest.mark.parametrize("name", ["fat_quarters", "in_two_parts"])
def test_every_page_of_every_part_is_set(name: str):
    # The blocks of `fat_quarters` are pressed in two versions, which only the last part can place; in the last part of
    # either no block is sewn.
    plan = in_parts_of_its_blocks(name)
    told = []
    for edition in plan.pattern.booklet.editions:
        sizes = tuple(size.size.id for size in plan.shown_by(edition).sizes)
        told.append(compose(plan, edition, paper=Paper.A4, sizes=sizes[:1]).html)
    assert 'id="piecing"' in told[0] and 'id="piecing"' not in told[-1]
    assert ("the part in which the quilt is joined shows" in told[0]) == (name == "fat_quarters")
    assert ("Which blocks are which version" in told[-1]) == (name == "fat_quarters")


@pytest.mark.parametrize("name", SWEPT)
def test_the_parts_add_up_to_the_whole(name: str):
    plan = in_parts_of_its_blocks(name)
    for size in plan.sizes:
        mine = [s for part in plan.parts for s in part.sizes if s.size.id == size.size.id]
        for counted in (_pieces, _strips, _units, _bought):
            whole: Counter[object] = counted(size)
            assert sum((counted(one) for one in mine), Counter()) == whole, counted.__name__
        _nothing_is_missing(mine)


def _pieces(size) -> Counter[object]:
    found: Counter[object] = Counter()
    for patch in size.cutting.patches:
        found[patch.fabric, patch.name, "pieces"] += patch.pieces
        found[patch.fabric, patch.name, "cuts"] += patch.cuts
        found[patch.fabric, patch.name, "reversed"] += patch.reversed
    return +found


def _strips(size) -> Counter[object]:
    found: Counter[object] = Counter()
    for cloth in size.cutting.fabrics:
        for strip in cloth.strips:
            found[cloth.fabric, strip.width] += strip.count
            for use in strip.uses:
                found[cloth.fabric, use.name] += use.pieces
    return found


def _units(size) -> Counter[object]:
    return Counter({unit.name: unit.rounds for unit in size.cutting.together})


def _bought(size) -> Counter[object]:
    stands = size.cutting.in_parts
    return Counter(
        {
            cloth.fabric: cloth.buy.count or cloth.buy.yards
            for cloth in size.cutting.fabrics
            if cloth.stock or stands is None or stands.bought_in[cloth.fabric] == stands.number
        }
    )


def _nothing_is_missing(parts) -> None:
    """What is cut and kept up to a part is at least what its blocks take, counted from the blocks themselves."""
    have: Counter[tuple[str, str]] = Counter()
    for size in parts:
        for patch in size.cutting.patches:
            have[patch.fabric, patch.name] += patch.pieces
        in_units = {
            (block, piece)
            for unit in size.cutting.together
            for block, pieces in unit.members
            for piece in pieces
        }
        for block in size.blocks:
            if block.is_ready:
                continue
            for piece in block.tiling.pieces:
                if (block.block.id, piece.id) not in in_units:
                    have[piece.fabric, piece.patch] -= block.count
        assert min(have.values(), default=0) >= 0


def test_a_text_tells_of_the_whole_in_every_part():
    # 4 waves and 4 shores; the mat is 2 x 4 in + 2 x 1 in = 10 in wide, and the border's cloth is bought in part 2.
    words = (
        "{{ block.wave.count }}+{{ block.shore.count }}, {{ size.width }}, {{ fabric.reed.buy }}"
    )
    own = coves()
    span = own.pattern.span
    edition = replace(own.pattern.booklet.editions[0], pages=(Page("hello.md", span),))
    pattern = replace(own.pattern, texts={"hello.md": words})
    parts = tuple(replace(part, pattern=pattern) for part in own.parts)
    plan = replace(own, pattern=pattern, parts=parts)
    for number in (1, 2):
        told = compose(plan, replace(edition, part=number), sizes=("mat",)).html
        text = re.sub(r"<[^>]+>", "", told).replace("\N{NO-BREAK SPACE}", " ")
        assert "4+4, 10 in, ⅛ yd" in text


def test_the_preview_offers_each_part():
    bench = Bench(PATTERNS / "in_two_parts")
    bench.refresh()
    for name in ("monthly, part 1", "monthly, part 2"):
        shown = bench.shown(Choice("mat", name))
        assert shown.edition == name and name.removeprefix("monthly, ") in shown.document.title


def test_ready_cut_cloth_of_a_part_is_as_long_as_its_pieces():
    # fat quarters of 18 in by 21 in: 3 of white are 3 x 18 = 54 in long, 2 of red and of blue 2 x 18 = 36 in (of red the
    # binding takes 7 strips: 7 x 21 - 6 x 2 1/2 = 132, enough for 130 in); the back, bought in the last part from the bolt,
    # is its strip of 33 in
    first, last = in_parts_of_its_blocks("fat_quarters").parts
    long = {
        cloth.fabric: (cloth.buy.count, cloth.length.inches)
        for part in (first, last)
        for cloth in part.sizes[0].cutting.fabrics
    }
    assert long == {"red": (2, 36), "blue": (2, 36), "white": (3, 54), "back": (None, 33)}
