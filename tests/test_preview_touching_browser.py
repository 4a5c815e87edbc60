"""The table in a browser: by mouse and by the keyboard alone, read out, without a fault for who cannot see it."""

import subprocess
import sys

import pytest
from browser import judged, started
from test_preview_browser import previewed
from touching_helpers import copied

from booklet.recipe.checking import check
from booklet.source.lines import Lines

RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa"]


@pytest.fixture(scope="module")
def browser():
    with started() as browser:
        yield browser


def answered(page, does):
    """What is read out once what was done is answered."""
    since = touched(page)
    does()
    page.locator(f"html[data-touched]{after(since)}").wait_for(state="attached", timeout=60_000)
    return page.locator("#said").inner_text()


def touched(page):
    """How many answers the table has had."""
    return int(page.get_attribute("html", "data-touched") or 0)


def after(*counts):
    """As a selector: the table has had another number of answers than these."""
    return "".join(f":not([data-touched='{count}'])" for count in counts)


def piece(page, id):
    return page.locator(f'#pieces [data-pieces~="{id}"]')


def click(page, id):
    return answered(page, lambda: piece(page, id).locator("path").first.click(force=True))


def press(page, key):
    return answered(page, lambda: page.keyboard.press(key))


def no_violations(page, whole=True):
    """Neither at the table nor in the whole page, which need not be asked again where nothing but the table has changed."""
    asked = [("#table", [*RULES, "wcag22aa", "best-practice"]), (None, RULES)]
    for where, rules in asked if whole else asked[:1]:
        wrong, _ = judged(page, rules, where)
        assert wrong == []


def opened(page):
    answered(page, lambda: page.click("#to-table"))


def written(folder):
    return (folder / "pattern.yaml").read_text("utf-8")


def comments(text):
    lines = Lines(text)
    return lines.said(0, len(text))


def saved(page, folder, does, before):
    """Do what writes; wait until the page has seen the save and the table has been asked anew."""
    look, since = page.get_attribute("html", "data-look"), touched(page)
    said = answered(page, does)
    assert written(folder) != before
    page.locator(f"html:not([data-look='{look}'])").wait_for(state="attached", timeout=60_000)
    asked_anew = f"html{after(since, since + 1)}"
    page.locator(asked_anew).wait_for(state="attached", timeout=60_000)
    return said


def test_the_example_is_sewn_by_mouse(browser, tmp_path):
    folder = copied("example", tmp_path)
    before = written(folder)
    with previewed(browser, folder, wrote=2) as (page, _):
        opened(page)
        assert page.locator("#table-title").inner_text() == "Window block"
        assert page.locator("#pieces [data-unit]").count() == 21
        no_violations(page)
        click(page, "p1")
        assert piece(page, "p1").get_attribute("aria-pressed") == "true"
        assert click(page, "k3").startswith("They cannot be joined: k3 and p1")
        assert page.locator("#join").is_disabled()
        click(page, "k3")  # laid down again
        click(page, "t1")
        said = click(page, "q1")
        assert "p1, t1 and q1 can be joined." in said
        assert "no turns, by hand" in said
        assert "the 2 corners stay open" in said
        assert page.locator("#pieces .marks .open").count() == 2
        assert "3 alike ones can be taken along." in said
        no_violations(page, whole=False)
        answered(page, lambda: page.click("#alike"))
        assert page.locator("#pieces [data-unit]").count() == 21 - 8
        assert page.locator("#made li").count() == 4
        click(page, "p1")
        said = click(page, "h1")
        assert "Set in, 2 turns (set-in corners)" in said
        assert page.locator("#pieces .marks .turn").count() == 2
        answered(page, lambda: page.click("#join"))
        said = answered(page, lambda: page.click("#on"))
        assert "the block is sewn" in said
        assert page.locator("#pieces [data-unit]").count() == 1
        no_violations(page, whole=False)
        said = saved(page, folder, lambda: page.click("#write-order"), before)
        assert said == "Written into pattern.yaml: the order of sewing of block window."
        assert (
            page.locator("#said").inner_text() == said
        )  # and stays, though the page was sent anew
        after = written(folder)
        assert "- {make: wing#, join: [p#, t#, q#], times: 4}" in after
        assert comments(after) == comments(before)
        assert not [d for d in check(folder).diagnostics if d.is_error]
        assert page.locator("#undo").inner_text() == "Undo: the order of sewing of block window"
        saved(page, folder, lambda: page.click("#undo"), after)
        assert written(folder) == before
        page.set_viewport_size({"width": 390, "height": 844})
        assert page.evaluate("document.documentElement.scrollWidth") <= 390
        no_violations(page)


def test_three_diamonds_are_sewn_by_the_keyboard_alone(browser, tmp_path):
    folder = copied("three_diamonds", tmp_path)
    before = written(folder)
    with previewed(browser, folder, wrote=1) as (page, _):
        page.locator("#medium").focus()
        page.keyboard.press("Tab")
        assert page.evaluate("document.activeElement.id") == "to-table"
        press(page, "Enter")
        for _ in range(5):  # the block, the two ways to touch, the pieces
            page.keyboard.press("Tab")
            if page.evaluate("document.activeElement.closest('#pieces') !== null"):
                break
        names = []
        for _ in range(3):  # from piece to piece by Tab
            names.append(page.evaluate("document.activeElement.getAttribute('aria-label')"))
            page.keyboard.press("Tab")
        assert [name.split(":")[0] for name in names] == ["d1", "d2", "d3"]
        assert names[0] == "d1: diamond A of Foam"
        for _ in range(3):
            page.keyboard.press("Shift+Tab")
        here = page.evaluate("document.activeElement.dataset.unit")
        assert here == "d1"
        seen = {here}
        for key in ("ArrowDown", "ArrowLeft", "ArrowUp", "ArrowRight", "ArrowDown", "ArrowLeft"):
            page.keyboard.press(key)
            seen.add(page.evaluate("document.activeElement.dataset.unit"))
        assert seen == {"d1", "d2", "d3"}
        piece(page, "d1").focus()
        said = press(page, "Enter")
        assert said.startswith("d1 in hand. It touches d2, d3.")
        assert page.evaluate("document.activeElement.dataset.unit") == "d1"
        assert page.evaluate("document.activeElement.getAttribute('aria-label')").endswith(
            "number 1 in hand"
        )
        while page.evaluate("document.activeElement.dataset.unit") != "d2":
            page.keyboard.press("Tab")
        said = press(page, " ")
        assert "d1 and d2 can be joined." in said
        assert "the corner stays open" in said
        assert "none" not in page.locator("#said").evaluate("e => getComputedStyle(e).display")
        press(page, "Escape")
        assert page.locator("#pieces [aria-pressed=true]").count() == 0
        press(page, "Enter")
        piece(page, "d1").focus()
        press(page, "Enter")
        said = press(page, "Shift+Enter")
        assert "pair is made, by hand." in said
        assert page.evaluate("document.activeElement.dataset.unit") == "pair"  # the place is kept
        press(page, "Enter")
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.dataset.unit") != "d3":
            piece(page, "d3").focus()
        assert "1 turn (set-in corners)" in press(page, "Enter")
        no_violations(page)
        press(page, "Shift+Enter")
        for _ in range(30):
            page.keyboard.press("Tab")
            if page.evaluate("document.activeElement.id") == "write-order":
                break
        saved(page, folder, lambda: page.keyboard.press("Enter"), before)
        assert "  - {make: pair, join: [d2, d1]}" in written(folder)
        assert "# the order is left to the tool" in written(folder)
        assert not [d for d in check(folder).diagnostics if d.is_error]


def test_the_keyboard_is_never_left_nowhere(browser, tmp_path):
    folder = copied("cloths_in_ring", tmp_path)
    before = written(folder)

    def by_keyboard(id):
        page.locator(id).focus()
        assert page.evaluate("document.activeElement.matches(':focus-visible')")
        return press(page, "Enter")

    at = "document.activeElement.dataset.pieces?.split(' ')"
    with previewed(browser, folder, wrote=2) as (page, _):
        opened(page)
        piece(page, "b1").focus()
        press(page, "Enter")
        by_keyboard("#down")  # which then cannot be pressed again
        assert page.locator("#down").is_disabled()
        assert "b1" in page.evaluate(at)
        by_keyboard("#on")
        assert "b1" in page.evaluate(at)
        by_keyboard("#back")
        assert page.evaluate("document.activeElement.id") == "back"  # more can be taken back
        by_keyboard("#anew")
        assert "b1" in page.evaluate(at)
        answered(page, lambda: page.check("input[name=touch][value=cloth]"))
        piece(page, "b1").focus()
        press(page, "Enter")
        page.locator("#cloths input[value=slate]").focus()
        page.keyboard.press(" ")
        saved(page, folder, lambda: by_keyboard("#write-cloth"), before)
        assert page.evaluate(at) == ["b1"]  # where another cloth can be chosen
        saved(page, folder, lambda: by_keyboard("#undo"), written(folder))
        assert written(folder) == before
        assert page.evaluate(at) == ["b1"]


def test_a_cloth_is_chosen_by_touching(browser, tmp_path):
    folder = copied("cloths_in_ring", tmp_path)
    source = folder / "pattern.yaml"
    text = written(folder).replace("name: Rust", 'name: "<img src=x onerror=alert(1)> & Rust"')
    source.write_text(
        text.replace("title: Mill\n", 'title: "</script><script>alert(1)</script>"\n'), "utf-8"
    )
    before = written(folder)
    with previewed(browser, folder, wrote=1) as (page, _):
        page.on("dialog", lambda dialog: pytest.fail(f"a script has run: {dialog.message}"))
        opened(page)
        assert page.locator("#table-title").inner_text() == "</script><script>alert(1)</script>"
        answered(page, lambda: page.check("input[name=touch][value=cloth]"))
        said = click(page, "b1")
        assert "3 more pieces have its patch: b2, b3, b4." in said
        assert page.locator("#scopes label").all_inner_texts() == [
            "b1 alone", "all 4 of the ring b", "all 2 of patch B in Sailcloth",
        ]  # fmt: skip
        assert page.locator("#cloths img").count() == 0
        assert "<img src=x onerror=alert(1)> & Rust" in page.locator("#cloths").inner_text()
        page.check("#scopes label:nth-child(3) input")
        assert page.locator("#pieces .scoped").count() == 2
        page.check("#cloths input[value=slate]")
        no_violations(page)
        said = saved(page, folder, lambda: page.click("#write-cloth"), before)
        assert said.endswith("2 pieces of block mill in Slate.")
        assert "fabric: [slate, rust]" in written(folder)
        assert page.locator("#undo").is_enabled()
        source.write_text(written(folder) + "# mine\n", "utf-8")  # another editor saves
        page.locator("#undo:disabled").wait_for(state="attached", timeout=60_000)


def test_a_source_that_is_broken_meanwhile_is_a_sentence_and_the_table_comes_back(
    browser, tmp_path
):
    folder = copied("four_patch", tmp_path)
    text = written(folder)
    with previewed(browser, folder) as (page, _):
        opened(page)
        click(page, "a")
        click(page, "b")
        answered(page, lambda: page.click("#join"))
        (folder / "pattern.yaml").write_text(text.replace("blocks:", "blocks: ["), "utf-8")
        page.locator("#said .stop").wait_for(timeout=60_000)
        said = "The source cannot be read yet: mend the faults first."
        assert page.locator("#said").inner_text() == said
        assert click(page, "b") == said
        assert page.locator("body.stale").count() == 1
        no_violations(page)
        other = text.replace("{id: a,", "{id: aa,").replace("[a, b]", "[aa, b]")
        (folder / "pattern.yaml").write_text(other.replace("toward a}", "toward aa}"), "utf-8")
        page.locator("#said .stop", has_text="has no piece a any more").wait_for(timeout=60_000)
        answered(page, lambda: page.click("#anew"))
        assert piece(page, "aa").count() == 1
        assert piece(page, "a").count() == 0
        click(page, "aa")
        assert "aa and b can be joined" in click(page, "b")


def test_a_preview_that_has_ended_is_a_sentence(browser, tmp_path):
    served = subprocess.Popen(
        [sys.executable, "-m", "booklet", "preview", str(copied("four_patch", tmp_path)), "--no-open"],
        stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True,
    )  # fmt: skip
    page = browser.new_page()
    try:
        page.goto(served.stdout.readline().strip())
        page.locator("html[data-page]").wait_for(state="attached", timeout=60_000)
        opened(page)
    finally:
        served.terminate()
        served.communicate(timeout=30)
    said = click(page, "a")
    assert said == "The preview has ended; start it again with booklet preview."
    assert piece(page, "a").get_attribute("aria-pressed") == "false"  # nothing is taken for granted
    page.close()
