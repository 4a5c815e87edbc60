"""The web page in a browser: nothing in the way of a reader, whatever the screen or the keyboard."""

import pypdfium2
import pytest
from browser import judged, shown, started
from source_helpers import PATTERNS

from booklet.kit.records import replace
from booklet.pages.composing import compose
from booklet.pages.pictures.album import drawn
from booklet.pattern import Page
from booklet.recipe import compiler

RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]


@pytest.fixture(scope="module")
def browser():
    with started() as browser:
        yield browser


@pytest.fixture(scope="module")
def pages(example_plan):
    """The web pages of the example by name: the pattern, its throw alone, the handout."""
    pattern, handout = (
        next(e for e in example_plan.pattern.booklet.editions if e.id == id)
        for id in ("pattern", "handout")
    )
    figures = drawn(example_plan)
    return {
        "pattern": compose(example_plan, pattern, figures).html,
        "throw": compose(example_plan, pattern, figures, sizes=("throw",)).html,
        "handout": compose(example_plan, handout, figures).html,
    }


@pytest.fixture(scope="module")
def class_page():
    """The teacher's page of a class, with its kits, its day and a card for each step."""
    plan = compiler.plan(compiler.check(PATTERNS / "class_with_kits").value)
    teacher = next(e for e in plan.pattern.booklet.editions if e.teacher)
    pages = (*teacher.pages, Page("step-cards", teacher.span))
    return compose(plan, replace(teacher, pages=pages), drawn(plan)).html


@pytest.mark.parametrize(("name", "width"), [("throw", 1280), ("throw", 320), ("handout", 320)])
def test_axe_finds_no_violation(browser, pages, name, width):
    """Of the throw the colours are judged once: they are the same in any width, and take as long as all else."""
    colours = (name, width) != ("throw", 320)
    with shown(browser, pages[name], width) as page:
        wrong, looked = judged(page, RULES, rules={"color-contrast": {"enabled": colours}})
    assert looked > 20
    assert wrong == []


# what sticks out of the window and lies in no frame that scrolls on its own
STICKS_OUT = """() => [...document.body.querySelectorAll('*')].filter(e => {
  if (e.closest('svg') && e.tagName !== 'svg') return false;
  const box = e.getBoundingClientRect();
  if (box.right <= innerWidth + 1 && box.left >= -1 || box.width <= 1 || box.right < 0) return false;
  for (let p = e.parentElement; p; p = p.parentElement)
    if (['auto', 'scroll', 'hidden'].includes(getComputedStyle(p).overflowX)) return false;
  return true;
}).map(e => e.outerHTML.slice(0, 120))"""


@pytest.mark.parametrize("name", ["pattern", "handout"])
def test_a_narrow_screen_scrolls_one_way_only(browser, pages, name):
    with shown(browser, pages[name], 320) as page:
        assert page.evaluate("document.documentElement.scrollWidth") == 320
        assert page.evaluate(STICKS_OUT) == []
        small = page.evaluate(
            "() => [...document.querySelectorAll('main p, main td, main th, main li, figcaption')]"
            ".filter(e => e.innerText.trim() && parseFloat(getComputedStyle(e).fontSize) < 12)"
            ".map(e => e.outerHTML.slice(0, 80))"
        )
        assert small == []


# a picture that leaves the card it stands on
OFF_ITS_CARD = """() => [...document.querySelectorAll('.step-card svg')].filter(e =>
  e.getBoundingClientRect().right > e.closest('.step-card').getBoundingClientRect().right - 1)
  .map(e => e.closest('.step-card').innerText.slice(0, 40))"""


@pytest.mark.parametrize("width", [320, 390, 700, 1280])
def test_the_pages_of_a_class_fit_any_window(browser, class_page, width):
    """Its kits in layers, its day, its cards: on a phone the day is told line by line, and each picture stays on its card."""
    with shown(browser, class_page, width) as page:
        assert page.evaluate("document.documentElement.scrollWidth") == width
        assert page.evaluate(STICKS_OUT) == []
        assert page.locator(".step-card svg").count() > 0
        assert page.evaluate(OFF_ITS_CARD) == []
        needs = "() => [...document.querySelectorAll('td.need')].map(e => e.getBoundingClientRect().height)"
        assert width > 500 or max(page.evaluate(needs)) < 30  # each on one line


FOCUSED = """() => {
  const e = document.activeElement, s = getComputedStyle(e), box = e.getBoundingClientRect();
  return {tag: e.tagName, href: e.getAttribute('href'), outline: s.outlineStyle, wide: parseFloat(s.outlineWidth),
    seen: box.bottom > 0 && box.top < innerHeight && box.right > 0 && box.left < innerWidth};
}"""


def test_the_keyboard_reaches_everything_and_shows_where_it_is(browser, pages):
    with shown(browser, pages["throw"], 320) as page:
        page.emulate_media(reduced_motion="reduce")
        stops = page.evaluate("document.querySelectorAll('a[href], [tabindex=\"0\"]').length")
        page.keyboard.press("Tab")
        first = page.evaluate(FOCUSED)
        assert first["href"] == "#contents"  # past the cover
        assert first["seen"]
        visited = [first]
        for _ in range(stops - 1):
            page.keyboard.press("Tab")
            visited.append(page.evaluate(FOCUSED))
        assert len({(v["tag"], v["href"]) for v in visited if v["tag"] == "A"}) > 8
        for stop in visited:
            assert stop["seen"], stop
            assert stop["outline"] != "none", stop
            assert stop["wide"] >= 2, stop


def test_a_web_page_prints_well(browser, pages):
    with shown(browser, pages["throw"]) as page:
        data = page.pdf(format="Letter", prefer_css_page_size=True)
    printed = pypdfium2.PdfDocument(data)
    texts = []
    for number, sheet in enumerate(printed, 1):
        text = sheet.get_textpage()
        texts.append(text.get_text_bounded())
        boxes = [text.get_rect(n) for n in range(text.count_rects())]
        assert boxes, f"page {number} is empty"
        assert min(left for left, _, _, _ in boxes) > 20, f"page {number}"
        assert max(right for _, _, right, _ in boxes) < sheet.get_width() - 20, f"page {number}"
        text.close()
        sheet.close()
    printed.close()
    assert "Skip to" not in texts[0]
    assert len(texts) < 30
    assert (
        sum(text.startswith("Sewing the blocks") for text in texts) == 1
    )  # begins on a page of its own
