"""How the web page is put together: markup side by side, differences, and pictures said shortly; each undone again."""

import base64
import json
import re
import zlib
from collections import defaultdict
from pathlib import Path

import corpus
import pytest
from markupsafe import Markup

from booklet.kit.measure import Length
from booklet.kit.remembered.memory import Memory
from booklet.pages.pictures.album import drawn
from booklet.pages.pictures.compact import SharedPictures, shorter
from booklet.pages.screen.differences import Differences
from booklet.pages.screen.markup import MarkupError, parsed
from booklet.pages.screen.merging import merged
from booklet.pages.screen.page import ScreenView, gathered
from booklet.pattern import SoldAs

PATTERNS = Path(__file__).parent / "patterns"


def shown(markup: str, axis: str, choice: str) -> str:
    """What of merged markup is seen with a choice, its marks taken out."""
    mark = rf' data-{axis}="([\d ]+)"'
    said = ""
    for node in parsed(markup):
        opening = getattr(node, "opening", None)
        if opening is None:
            said += node.source
            continue
        found = re.search(mark, opening)
        if found and choice not in found[1].split():
            continue
        bare = re.sub(mark, "", opening)
        inner = shown("".join(child.source for child in node.children), axis, choice)
        said += inner if found and bare == "<span>" else bare + inner + node.closing
    return said


VARIANTS = [
    ["<p>Cut 3 strips <b>2 in</b> wide.</p>", "<p>Cut 3 strips <b>5 cm</b> wide.</p>"],
    ["<ul><li>a</li><li>b 1</li></ul>", "<ul><li>a</li><li>x</li><li>b 2</li></ul>", "<ul></ul>"],
    ["<p>a</p>", "", "<p>a</p>"],
    ['<svg aria-label="1 in"><path d="m0 0"/></svg>', '<svg aria-label="3 cm"><path d="m0 0"/></svg>'],
    ["<p>a &lt;b&gt; c</p>", "<p>a &lt;d&gt; c</p>"],
]  # fmt: skip


@pytest.mark.parametrize("variants", VARIANTS)
def test_merged_markup_shows_each_variant_as_it_was(variants):
    both = merged("s", [(str(n), text) for n, text in enumerate(variants)])
    for number, text in enumerate(variants):
        assert shown(both, "s", str(number)) == text
    assert both.count("<b>") <= 2


def test_an_id_stands_once_in_merged_markup():
    both = merged("s", [("0", '<p id="a">1</p>'), ("1", '<p id="a" class="b">2</p>')])
    assert both.count(' id="a"') == 1


@pytest.mark.parametrize("variants", VARIANTS)
def test_patches_give_each_view_as_it_was(variants):
    differences = Differences(len(variants) - 1)
    page = differences.page(variants)
    packed = json.loads(zlib.decompress(base64.b64decode(differences.packed())))
    packed = [[row[m] if isinstance(m, int) else m for m in row] for row in packed]
    assert packed == differences.found

    def seen(view: int) -> str:
        def put(markup: str) -> str:
            said = ""
            for node in parsed(markup):
                opening = getattr(node, "opening", "")
                if number := re.search(r' data-a="(\d+)"', opening):
                    other = packed[int(number[1])][view - 1] if view else None
                    said += other or node.source.replace(number[0], "", 1)
                elif opening:
                    said += opening + put("".join(c.source for c in node.children)) + node.closing
                else:
                    said += node.source
            return said

        return re.sub(r'</?span>|<div class="whole">|</div>', "", put(page))

    for number, text in enumerate(variants):
        assert seen(number) == text


@pytest.mark.parametrize("markup", ["<p>a", "<p><b></p></b>", "</p>", "<p></p></p>"])
def test_markup_that_is_not_nested_is_no_markup_of_ours(markup):
    with pytest.raises(MarkupError):
        parsed(markup)


def corners(data: str) -> list[tuple[float, float]]:
    """The corners of a path of M, L, Z, m, l, h, v and z, in order."""
    found, at, begin, last = [], (0.0, 0.0), (0.0, 0.0), ""
    for letter, numbers in re.findall(r"([MLZmlhvz])([^MLZmlhvz]*)", data):
        values = [float(n) for n in re.findall(r"-?(?:\d+\.?\d*|\.\d+)", numbers)]
        if letter in "Zz":
            at = begin
        while values:
            if letter in "hv":
                step = (values.pop(0), 0.0) if letter == "h" else (0.0, values.pop(0))
            else:
                step = (values.pop(0), values.pop(0))
            at = step if letter in "ML" else (at[0] + step[0], at[1] + step[1])
            if letter in "Mm" and last != letter + numbers:
                begin, last = at, letter + numbers
            found.append(at)
    return found


@pytest.mark.parametrize(
    "data",
    [
        "M36.91 15.16L16.59 15.16L6.43 5L47.07 5Z",
        "M0 0L10 0L10 10ZM20.5 -3.25L20.5 7L-4 7Z",
        "M1 1L2 2M2 2L3 1",
        "M0.13 0.07L0.14 0.07L0.14 0.08",
    ],
)
def test_a_shorter_outline_has_the_same_corners(data):
    short = shorter(data)
    assert len(short) <= len(data)
    flat = [number for corner in corners(data) for number in corner]
    assert [n for corner in corners(short) for n in corner] == pytest.approx(flat, abs=1e-9)


def test_an_outline_with_curves_stays_as_it_is():
    assert shorter("M0 0C1 1 2 2 3 3Z") == "M0 0C1 1 2 2 3 3Z"


def test_the_look_of_a_picture_becomes_a_class_and_its_hatch_stands_once():
    pictures = SharedPictures()
    svg = (
        '<svg role="img" aria-label="{0}" width="9mm" height="9mm" version="1.1" id="{0}"><title>{0}</title><defs>'
        '<pattern id="{0}-h1" width="2"><path d="M0 0L1 1" stroke="#abc"/></pattern></defs>'
        '<path d="M0 0L5 0L5 5Z" fill="url(#{0}-h1)" stroke="#123"/></svg>'
    )
    one, two = (str(pictures.shortened(Markup(svg.format(name)))) for name in "ab")
    assert one.replace('"a"', '"b"') == two
    assert "<title>" not in one and "pattern" not in one
    rules = pictures.rules()  # made before the store, and knows the looks of hatches
    store = pictures.store()
    assert store.count("<pattern") == 1
    assert all(f".{name}{{" in rules for name in re.findall(r'class="(_[^"]*)"', store))
    assert "fill:url(#_h0);stroke:#123" in rules
    assert "stroke:#abc" in rules


@pytest.mark.parametrize("name", ["long_sashes_metric", "runner_sashed_all_round"])
def test_pictures_taken_from_another_width_are_those_of_ones_own(name, monkeypatch):
    """Strips of 40 in and 44 in are joined in other places: what shows that is drawn for each."""
    from booklet.recipe import choices

    checked, plan = corpus.checked(PATTERNS / name).value, corpus.plan_of(PATTERNS / name)
    asked = set()

    def kept(album, what):
        found = album._album(what)
        same = repr(found.figure(what)) == repr(album.own.figure(what))
        asked.add((what.split(" ")[0], found is album.other))
        assert same, what
        return found.figure(what)

    monkeypatch.setattr(choices._ClothAlbum, "figure", kept)
    ways = choices.views(checked, plan, drawn(plan), Memory().ask)
    edition, chosen = plan.pattern.booklet.editions[0], (plan.sizes[0].size.id,)
    gathered(ways, edition, chosen, choices.key_of(plan.pattern, edition))
    assert ("quilt", False) in asked and ("block", True) in asked


def test_a_plan_for_another_width_is_its_own(example_checked):
    """A wider cloth takes no more strips, and of some cloth fewer: 40 in and 44 in, binding and borders."""
    from booklet.plan import make_plan
    from booklet.recipe.choices import views

    plan = make_plan(example_checked)
    found = views(example_checked, plan, drawn(plan), Memory().ask)
    assert {view.units for view in found} == {"inch", "cm"}
    assert {view.cloth for view in found} >= {None, Length.of("42 in"), Length.of("44 in")}
    assert Length.of("40 in") not in {view.cloth for view in found}  # the pattern's own
    lengths = {
        view.cloth: {c.fabric: c.length for c in view.plan.sizes[1].cutting.fabrics}
        for view in found
        if view.units == "inch"
    }
    own, wide = lengths[None], lengths[Length.of("44 in")]
    assert all(wide[cloth] <= own[cloth] for cloth in own)
    assert any(wide[cloth] < own[cloth] for cloth in own)


@pytest.mark.parametrize(
    ("name", "quarters"),
    [
        ("metric", {"ink"}),  # the other cloth is that of the back
        ("log_cabin", {"ink", "sand"}),  # there is no back
        (
            "medallion",
            {"well", "roof", "tree"},
        ),  # its binding on the bias from two squares of 15 in
        ("fat_quarters", None),  # is cut from them already
    ],
)
def test_fat_quarters_are_offered_where_all_but_the_back_can_be_cut_from_them(name, quarters):
    from booklet.recipe.choices import _cloths, _of_cloth

    plan = corpus.plan_of(PATTERNS / name)
    units = plan.pattern.units
    own = ScreenView(units=units, cloth=None, plan=plan, figures=drawn(plan))
    asked = [cloth for cloth in _cloths(plan.pattern) if cloth is SoldAs.FAT_QUARTER]
    found = [view for cloth in asked for view in _of_cloth([own], cloth, Memory().ask)]
    assert len(found) == (0 if quarters is None else 1)
    for view in found:
        for size in view.plan.sizes:
            assert {c.fabric for c in size.cutting.fabrics if c.stock is not None} == quarters
            assert [block.tiling for block in size.blocks] == [
                block.tiling
                for one in plan.sizes
                if one.size.id == size.size.id
                for block in one.blocks
            ]
            for cloth in size.cutting.fabrics:
                if cloth.stock is not None:
                    held(cloth)


def held(cloth):
    """What is cut of a cloth lies in the quarters that are to be bought: 21 in across and 18 in along each."""
    used = defaultdict(float)
    for strip in cloth.strips:
        used[strip.stock] += strip.count * strip.width.inches
        ends = [x for cuts in strip.layouts for cut in cuts for x, _ in cut.outline]
        assert strip.lengthwise or max(ends) <= 21 + 1e-9
    assert len(used) == cloth.buy.count
    assert max(used.values()) <= 18
