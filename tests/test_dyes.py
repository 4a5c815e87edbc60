"""A web page in several colourways: as each is chosen, every element looks as in the page of that colourway alone."""

from __future__ import annotations

import base64
import json
import re
import zlib
from functools import cache
from pathlib import Path

import pytest
from browser import shown, started

from booklet.kit.measure import Length
from booklet.kit.records import replace
from booklet.kit.remembered.memory import Memory
from booklet.pages.pictures.album import drawn
from booklet.pages.pictures.compact import SharedPictures
from booklet.pages.screen.dyes import Dyes
from booklet.pages.screen.markup import Element, parsed
from booklet.pages.screen.page import ScreenBook, gathered, one_file
from booklet.recipe import compiler
from booklet.recipe.choices import views

GATES = Path(__file__).parent / "patterns" / "in_three_colourways"


@cache
def book() -> ScreenBook:
    """The pattern in inches and centimetres and for one other cloth, in all its colourways."""
    checked = compiler.check(GATES).value
    assert checked is not None
    plan = compiler.plan(checked)
    all_ = views(checked, plan, drawn(plan), Memory().ask)
    kept = [v for v in all_ if v.cloth in (None, Length.of("44 in"))]
    return gathered(kept, plan.pattern.booklet.editions[0], ("mat",), "key")


@cache
def page() -> tuple[dict[str, str], list[list[str | None]]]:
    """The parts of the page, and what stands in their places in other views."""
    patches = book().differences()
    parts = {name: book().part(name, patches) for name, _ in book().base.parts}
    packed = json.loads(zlib.decompress(base64.b64decode(patches.packed())))
    return parts, [[row[m] if isinstance(m, int) else m for m in row] for row in packed]


def seen(markup: str, view: int, values: dict[str, str]) -> str:
    """What stands in a part in a view: places filled, looks, grounds and blocks written out."""
    _, packed = page()

    def put(text: str) -> str:
        said = ""
        for node in parsed(text):
            opening = getattr(node, "opening", "")
            number = re.search(r' data-a="(\d+)"( data-l="1")?', opening)
            if number and not number[2]:
                other = packed[int(number[1])][view - 1] if view else None
                said += other or node.source.replace(number[0], "", 1)
            elif isinstance(node, Element):
                if number:
                    other = packed[int(number[1])][view - 1] if view else None
                    opening = opening.replace(number[0], "", 1)
                    if other:
                        label = re.sub(r"</?b|>", "", other).strip()
                        opening = re.sub(
                            r'aria-label="[^"]*"', lambda _, to=label: to, opening, count=1
                        )
                said += opening + put("".join(c.source for c in node.children)) + node.closing
            else:
                said += node.source
        return said

    return plain(looked(put(markup), values))


def plain(markup: str) -> str:
    """Markup without what patches add, and with the attributes of each element in order."""
    bare = re.sub(r'</?span>|<div class="whole">|</div>', "", markup)

    def ordered(found: re.Match[str]) -> str:
        attributes = sorted(re.findall(r'\s[\w:-]+(?:="[^"]*")?', found[2]))
        return f"<{found[1]}{''.join(attributes)}{found[3]}>"

    return re.sub(r'<(\w+)((?:\s[\w:-]+(?:="[^"]*")?)*)\s*(/?)>', ordered, bare)


def looked(markup: str, values: dict[str, str]) -> str:
    """Markup with the rules of its looks in place of their classes."""
    pictures = book().pictures
    rules = {name: rule for rule, name in pictures.looks.items()}

    def valued(text: str) -> str:
        return re.sub(r"var\((--d\d+)\)", lambda found: values[found[1]], text)

    markup = re.sub(r'(?<=class=")(_\w+)', lambda found: rules.get(found[1], found[1]), markup)
    return valued(markup)


def test_every_view_is_the_page_of_its_colourway_alone():
    shown = book()
    assert [v.colourway for v in shown.views] == ["", "dusk", "dawn"] * 4
    parts, packed = page()
    for number, (view, document) in enumerate(zip(shown.views, shown.documents, strict=True)):
        colourway = shown.dyes.colourways[number]
        values = {name: each[colourway] for each, name in shown.dyes.names.items()}
        for name, text in document.parts:
            alone = plain(looked(str(text), values))
            assert seen(parts[name], number, values) == alone, (view.units, view.colourway, name)
    assert packed and shown.dyes.names


def test_pictures_that_differ_in_colours_stand_once():
    # the cover: the same patches in other colours, so nothing of it is exchanged
    parts, _ = page()
    assert "<svg" in parts["opening"]
    cover = parts["opening"][parts["opening"].index("<svg") :]
    cover = cover[: cover.index("</svg>")]
    assert cover.count("data-a") == cover.count("data-l") == 1  # what it is called by


def test_the_page_offers_the_colourways():
    html = one_file(book()).html
    assert re.search(
        r'<select data-axis="c"[^>]*><option value="0">Day</option><option value="1">Dusk', html
    )
    said = re.search(r'id="said">(.*?)</script>', html, re.DOTALL)
    assert said is not None and '"1 0 2":' in said[1]
    assert 'html[data-c="2"]{--d' in html


def dyed(*texts: str) -> tuple[str | None, Dyes]:
    pictures = SharedPictures()
    short = [pictures.shortened(text) for text in texts]  # type: ignore[arg-type]
    dyes = Dyes(pictures=pictures, colourways=tuple(range(len(texts))))
    return dyes.whole([parsed(text)[0] for text in short]), dyes


def test_a_look_has_a_variable_for_each_value_that_differs():
    made, dyes = dyed(
        '<svg viewBox="0 0 2 2"><path d="M0 0L1 1" fill="#111111" stroke="#000000"/></svg>',
        '<svg viewBox="0 0 2 2"><path d="M0 0L1 1" fill="#222222" stroke="#000000"/></svg>',
    )
    assert made is not None and dyes.names == {("#111111", "#222222"): "--d0"}
    assert "fill:var(--d0);stroke:#000000" in dyes.pictures.looks
    assert dyes.rules() == 'html{--d0:#111111}\nhtml[data-c="1"]{--d0:#222222}'


@pytest.mark.parametrize(
    "other",
    [
        '<svg viewBox="0 0 2 2"><path d="M0 0L1 2" fill="#222222"/></svg>',  # another outline
        '<svg viewBox="0 0 2 2"><path d="M0 0L1 1" fill="#222222" stroke="#000000"/></svg>',
        '<svg viewBox="0 0 2 2"><path d="M0 0L1 1" fill="#222222"/><path d="M0 0L1 1"/></svg>',
        '<svg viewBox="0 0 3 2"><path d="M0 0L1 1" fill="#222222"/></svg>',
    ],
)  # fmt: skip
def test_what_differs_in_more_than_colours_is_left_to_the_patches(other: str):
    made, _ = dyed('<svg viewBox="0 0 2 2"><path d="M0 0L1 1" fill="#111111"/></svg>', other)
    assert made is None


def test_a_browser_shows_the_colourway_that_is_chosen():
    html = one_file(book()).html
    choose = "n => { const s = document.querySelector('[data-axis=c]'); s.value = n; s.dispatchEvent(new Event('change')); }"
    cloths = {"0": "Small flowers", "1": "Large roses", "2": "Rose buds"}
    there = "name => document.querySelector('table.materials').innerText.includes(name)"
    with started() as browser, shown(browser, html) as page_shown:
        seen_at = {}
        for number in ("0", "1", "2", "0"):
            page_shown.evaluate(choose, number)
            page_shown.wait_for_function(there, arg=cloths[number])  # it is unpacked by then
            cover = page_shown.locator(".cover-picture svg")
            now = cover.get_attribute("aria-label"), cover.screenshot()
            assert seen_at.setdefault(number, now) == now
    assert len({picture for _, picture in seen_at.values()}) == 3


# An edition that names only a layout


def test_a_page_in_one_layout_has_all_colourways_to_choose_from(tmp_path):
    """Flags of 6 in, 1 x 3 of them in the layout Pennant: 6 in × 18 in in either colourway, and red where Storm is slate. The
    pattern names Calm with Pennant and Storm with Pennant together in no edition."""
    text = (GATES.parent / "colourways_in_layouts" / "pattern.yaml").read_text("utf-8")
    before, _, _ = text.partition("    pennants:")
    (tmp_path / "pattern.yaml").write_text(
        f"{before}    long: {{layout: pennant, pages: [cover, sizes, materials, quilt]}}\n", "utf-8"
    )
    checked = compiler.check(tmp_path).value
    plan = compiler.plan(checked)
    edition = plan.pattern.booklet.editions[-1]
    assert edition.alternative == "pennant"
    all_ = views(checked, plan, drawn(plan), Memory().ask, {"pennant"})
    own = gathered(all_[:1], edition, ("mat",), "key")
    assert [view.colourway for view in own.views] == ["", "storm, pennant"]
    for document, cloth, other in zip(
        own.documents, ("Red", "Slate"), ("Slate", "Red"), strict=True
    ):
        told = " ".join(dict(document.parts).values())
        assert "6 in × 18 in" in told and cloth in told and other not in told
    choice = re.search(r'data-axis="c".*?</select>', one_file(own).html, re.DOTALL)
    assert re.findall(r"<option[^>]*>([^<]*)<", choice[0]) == ["Calm", "Storm"]
    # in an edition that names its colourway nothing is to be chosen
    named = compiler.plan(compiler.check(GATES.parent / "colourways_in_layouts").value)
    in_calm = named.pattern.booklet.editions[1]
    assert in_calm.taken == ("calm", "pennant")
    alone = gathered([replace(all_[0], plan=named, figures=drawn(named))], in_calm, ("mat",), "key")
    assert len(alone.views) == 1
