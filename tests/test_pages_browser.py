"""The web page in a browser: nothing in the way of a reader, whatever the screen or the keyboard."""

from contextlib import contextmanager

import corpus
import pypdfium2
import pytest
from browser import judged, started
from source_helpers import PATTERNS

from booklet.kit.records import replace
from booklet.pattern import Page

RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]


@pytest.fixture(scope="module")
def browser():
    with started() as browser:
        yield browser


@pytest.fixture(scope="session")
def pages(example_plan, tmp_path_factory):
    """The web pages of the example by name, as files: the pattern, its throw alone, the handout."""
    folder, figures = tmp_path_factory.mktemp("pages"), corpus.figures_of(corpus.EXAMPLE)
    pattern, handout = (
        next(e for e in example_plan.pattern.booklet.editions if e.id == id)
        for id in ("pattern", "handout")
    )

    def written(name, edition, *sizes):
        (page,) = corpus.documents(example_plan, edition, (), sizes, figures)
        (folder / f"{name}.html").write_text(page.html, encoding="utf-8")
        return folder / f"{name}.html"

    return {
        "pattern": written("pattern", pattern),
        "throw": written("throw", pattern, "throw"),
        "handout": written("handout", handout),
    }


@pytest.fixture(scope="session")
def class_page(tmp_path_factory):
    """The teacher's page of a class, with its kits, its day and a card for each step."""
    plan = corpus.plan_of(PATTERNS / "class_with_kits")
    teacher = next(e for e in plan.pattern.booklet.editions if e.teacher)
    pages = (*teacher.pages, Page("step-cards", teacher.span))
    (page,) = corpus.documents(plan, replace(teacher, pages=pages), ())
    path = tmp_path_factory.mktemp("class") / "class.html"
    path.write_text(page.html, encoding="utf-8")
    return path


@contextmanager
def shown(browser, path, width=1280, **more):
    """A page in the hands of a reader who has answered what it asks first."""
    page = browser.new_page(viewport={"width": width, "height": 800}, offline=True, **more)
    page.goto(path.as_uri())
    page.wait_for_selector("#bar:not([hidden])")
    page.evaluate(
        "for (const menu of document.querySelectorAll('details[open]')) menu.open = false"
    )
    page.evaluate("document.fonts.ready")
    yield page
    page.close()


@pytest.mark.parametrize(
    ("name", "width", "look"),
    [
        ("throw", 1280, {}),
        ("throw", 320, {"color_scheme": "dark"}),
        ("handout", 320, {"contrast": "more"}),
    ],
)
def test_axe_finds_no_violation(browser, pages, name, width, look):
    with shown(browser, pages[name], width, **look) as page:
        wrong, looked = judged(page, RULES)
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


# what may be reached, in the order in which it stands
STOPS = """() => [...document.querySelectorAll('a[href], button, summary, input, select, [tabindex="0"]')]
  .filter(e => e.checkVisibility({visibilityProperty: true}) && !e.disabled && e.tabIndex >= 0)
  .map(e => [e.tagName, e.getAttribute('href')])"""


def test_the_keyboard_reaches_everything_and_shows_where_it_is(browser, pages):
    with shown(browser, pages["throw"], 320) as page:
        page.emulate_media(reduced_motion="reduce")
        stops = page.evaluate(STOPS)
        page.keyboard.press("Tab")
        first = page.evaluate(FOCUSED)
        assert first["href"] == "#contents"  # past the cover
        assert first["seen"]
        visited = [first]
        for _ in range(len(stops) - 1):
            page.keyboard.press("Tab")
            visited.append(page.evaluate(FOCUSED))
        reached = [[v["tag"], v["href"]] for v in visited]
        assert reached == stops and {"A", "BUTTON", "SUMMARY", "INPUT"} <= {tag for tag, _ in stops}
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
