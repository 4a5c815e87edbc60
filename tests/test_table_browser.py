"""The web page at the sewing table, in a browser: chosen, ticked, walked through, printed, and still there tomorrow."""

import json
import re
from pathlib import Path

import corpus
import pypdfium2
import pytest
from browser import judged, started
from corpus import documents
from playwright.sync_api import expect

from booklet.kit.records import replace
from booklet.pages.screen.page import gathered, one_file
from booklet.pages.screen.script import MODULES, script
from booklet.pages.texts.templating import template_text
from booklet.recipe import compiler

RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
PATTERN = Path(__file__).parent / "patterns" / "three_sizes"
SIZES = {"all": "0", "pin": "1", "lap": "2", "bed": "3"}


@pytest.fixture(scope="module")
def browser():
    with started() as browser:
        yield browser


@pytest.fixture(scope="session")
def made(tmp_path_factory):
    """The page of the pattern with all its views, and a page for each view alone, as files."""
    folder = tmp_path_factory.mktemp("table")
    found = corpus.views_of(PATTERN)
    edition = corpus.plan_of(PATTERN).pattern.booklet.editions[0]

    def written(name, some):
        path = folder / f"{name}.html"
        book = gathered(some, edition, tuple(SIZES)[1:], "key")
        path.write_text(one_file(book).html, encoding="utf-8")
        return path

    whole = written("whole", found)
    by_view = {(view.units, view.cloth): view for view in found}
    alone = {
        f"{units} {width}": written(f"{number}", (replace(by_view[units, width], cloth=None),))
        for number, (units, width) in enumerate(by_view)
        if number in (1, len(by_view) - 1)
    }
    return whole, alone


class Reader:
    """Pages that readers open, each with a device of her own; whatever goes wrong in one fails the test."""

    def __init__(self, browser):
        self.browser, self.wrong, self.open, self.ours = browser, [], [], None

    def page(self, width=820, **more):
        context = self.browser.new_context(
            viewport={"width": width, "height": 900}, offline=True, **more
        )
        page = context.new_page()
        page.on("pageerror", lambda error: self.wrong.append(str(error)))
        page.on(
            "console",
            lambda said: self.wrong.append(said.text) if said.type == "error" else None,
        )
        return page

    def only(self):
        """The one page that serves tests that ask for nothing else, as on a device that knows nothing."""
        self.ours = self.ours or self.page()
        self.ours.set_viewport_size({"width": 820, "height": 900})
        return self.ours


@pytest.fixture(scope="module")
def reader(browser):
    return Reader(browser)


@pytest.fixture
def opened(reader, made):
    """Opens the page as a stranger to it: the first of a test in a page that serves others too, unless more is asked of it."""
    fresh, taken = [], []

    def open_(path=made[0], **more):
        is_first = not taken and not more
        page = reader.only() if is_first else reader.page(**more)
        (taken if is_first else fresh).append(page)
        page.goto(path.as_uri())
        if more.get("java_script_enabled", True):
            page.wait_for_selector("#bar:not([hidden])")
        return page

    yield open_
    for page in fresh:
        page.context.close()
    for page in taken:
        page.evaluate("localStorage.clear()")
        page.goto("about:blank")
    wrong, reader.wrong = reader.wrong, []
    assert wrong == []


def choose(page, axis, value):
    """Choose, and wait until the page shows it: the list of places is made anew as the last."""
    page.evaluate(
        """([axis, value]) => new Promise((done) => {
          new MutationObserver(() => done()).observe(document.querySelector("#places"), {childList: true});
          const box = document.querySelector(`[data-axis="${axis}"]`);
          box.value = value; box.dispatchEvent(new Event("change"));
          for (const menu of document.querySelectorAll("details[open]")) menu.open = false; })""",
        [axis, value],
    )


def words(page, selector="main"):
    """The words that are seen, without those in pictures."""
    said = page.evaluate(
        """selector => {
          const unseen = document.head.appendChild(document.createElement("style"));
          unseen.textContent = "svg { visibility: hidden }";
          const said = document.querySelector(selector).innerText;
          unseen.remove();
          return said; }""",
        selector,
    )
    return re.sub(r"\s+", " ", said).strip()


def test_only_the_chosen_size_is_shown_and_it_is_there_again_after_a_reload(opened):
    page = opened()
    assert page.locator("[data-axis=s]").is_visible()  # who has not chosen yet is asked
    shown = "[...document.querySelectorAll('.sized')].filter(e => e.checkVisibility()).map(e => e.id.split('-').pop())"
    assert set(page.evaluate(shown)) == {"pin", "lap", "bed"}
    choose(page, "s", SIZES["lap"])
    assert set(page.evaluate(shown)) == {"lap"}
    heads = page.locator("table.materials thead th.amount:visible").all_inner_texts()
    assert heads == ["Lap quilt"]  # of the table that has a column for each size
    assert page.locator(".page-cutting .caution:visible, .page-before .caution:visible").count() > 0
    page.reload()
    page.wait_for_selector("#bar:not([hidden])")
    assert set(page.evaluate(shown)) == {"lap"}
    assert not page.locator("[data-axis=s]").is_visible()


def test_other_units_and_widths_say_what_a_page_of_their_own_says(opened, made):
    """Nothing is converted: words and pictures are those of the page that is set for this view alone."""
    whole, alone = made
    page = opened(whole)
    before = words(page)
    numbers = page.evaluate(
        "JSON.parse(document.querySelector('body > script#said').textContent).views"
    )
    assert len(numbers) >= 6  # two units, three widths or more
    for (name, path), (units, width) in zip(
        alone.items(), (("1", "0"), max(tuple(n.split()[:2]) for n in numbers)), strict=True
    ):
        choose(page, "u", units)
        choose(page, "w", width)
        other = opened(path)
        assert words(page).split(". ") == words(other).split(". "), name
        assert page.evaluate(LABELS) == other.evaluate(LABELS), name
        assert words(page) != before
    choose(page, "u", "0")
    choose(page, "w", "0")
    assert words(page) == before


LABELS = (
    "[...document.querySelectorAll('main [aria-label]')].map(e => e.getAttribute('aria-label'))"
)


WIDTHS = (390, 820, 1280)
LOOKS = {
    "light": {"color_scheme": "light", "contrast": "no-preference"},
    "dark": {"color_scheme": "dark", "contrast": "no-preference"},
    "high contrast": {"color_scheme": "light", "contrast": "more"},
}


def open_table(page):
    page.click("#at-table")


def open_large(page):
    page.locator(".enlarge:visible").first.click()


def open_search(page):
    page.click("#bar summary:has-text('Find')")
    page.fill("#find", "sew")
    page.wait_for_selector("#found button")


OPENED = {"#table": open_table, "#large": open_large, "#bar": open_search}


def test_axe_finds_no_violation_in_any_state(opened):
    """Colours are those of a look in any width, and all else is that of a width in any look; what opens over the page is
    judged by itself, in each look and in each width. Pages of one size are judged in `test_pages_browser.py`."""
    page = opened()
    choose(page, "s", SIZES["pin"])
    wrong, looked = {}, {}

    def judge(state, asked, where=None, **options):
        found, looked[state] = judged(page, asked, where, **options)
        if found:
            wrong[state] = found

    for width in WIDTHS:
        page.set_viewport_size({"width": width, "height": 900})
        judge(width, RULES, rules={"color-contrast": {"enabled": False}})
    for turn, (look, media) in enumerate(LOOKS.items()):
        page.emulate_media(**media)
        judge(look, ["color-contrast"])
        widths = (*WIDTHS[turn:], *WIDTHS[:turn])
        for width, (place, act) in zip(widths, OPENED.items(), strict=True):
            page.set_viewport_size({"width": width, "height": 900})
            act(page)
            judge(f"{look}, {place}", RULES, place)
            page.keyboard.press("Escape")
    page.emulate_media(color_scheme=None, contrast=None)
    assert wrong == {}
    assert min(looked[width] for width in WIDTHS) > 15  # it did look
    assert all(looked[look] == 1 for look in LOOKS)
    assert min(count for state, count in looked.items() if "#" in str(state)) > 5


def test_the_keyboard_alone_leads_through_a_whole_booklet(opened):
    page = opened()
    choose(page, "s", SIZES["pin"])
    page.evaluate("document.activeElement.blur()")
    reached = []
    for _ in range(12):
        page.keyboard.press("Tab")
        reached.append(
            page.evaluate("document.activeElement.id || document.activeElement.innerText")
        )
        if reached[-1] == "at-table":
            break
    assert reached[-1] == "at-table", reached
    page.keyboard.press("Enter")
    seen = [words(page, "#table-title")]
    steps = int(re.search(r"of (\d+)", seen[0])[1])
    for _ in range(steps - 1):
        page.keyboard.press("ArrowRight")
        seen.append(words(page, "#table-title"))
        assert page.locator("#slide svg").count() > 0
    assert len(set(seen)) == steps >= 3
    page.keyboard.press("ArrowRight")  # no further
    assert words(page, "#table-title") == seen[-1]
    page.keyboard.press("Escape")
    assert not page.locator("#table").is_visible()
    assert page.locator(".card:visible").count() == page.locator(".cards .card:visible").count() > 0
    page.click("#bar summary:has-text('Find')")
    expect(page.locator("#find")).to_be_focused()
    page.keyboard.type("pincushion")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    assert page.evaluate("document.activeElement.matches('.told')")


def test_ticks_and_counts_stay_and_go_to_another_device_in_a_file(opened, tmp_path):
    page = opened()
    choose(page, "s", SIZES["lap"])
    boxes = page.locator(".page-cutting input.tick:visible")
    cuts = boxes.count()
    choose(page, "u", "1")
    choose(page, "u", "0")  # what was exchanged and came back can still be ticked
    boxes.nth(1).check()
    more = page.locator(".counter:visible button").nth(1)
    for _ in range(3):
        more.click()
    done = page.locator("#bar summary", has_text="Done so far")
    done.click()
    said = words(page, "#progress")
    assert f"Cuts: 1 of {cuts}" in said
    assert "3 of 12 made" in said  # 3 × 4 blocks
    with page.expect_download() as saved:
        page.click("#save")
    file = tmp_path / "ticks.json"
    saved.value.save_as(file)
    page.reload()
    page.wait_for_selector("#bar:not([hidden])")
    assert page.locator(".page-cutting input.tick:visible").nth(1).is_checked()
    other = opened()  # a device that knows nothing
    choose(other, "s", SIZES["lap"])
    assert not other.locator(".page-cutting input.tick:visible").nth(1).is_checked()
    other.set_input_files("#load", file)
    expect(other.locator(".page-cutting input.tick:visible").nth(1)).to_be_checked()
    assert other.locator("output:visible").first.inner_text() == "3 of 12 made"
    other.locator("#bar summary", has_text="Done so far").click()
    other.click("#clear")
    other.click("#answers button >> nth=0")  # keep them
    assert other.locator("output:visible").first.inner_text() == "3 of 12 made"
    other.click("#clear")
    other.click("#answers button >> nth=1")
    assert other.locator("output:visible").first.inner_text() == "0 of 12 made"


HOSTILE = [
    "",
    "[]",
    "null",
    '{"booklet": "another"}',
    "{" * 9000,
    json.dumps({"booklet": "key", "done": {"x": "<img src=x onerror=alert(1)>"}, "made": [1], "choice": 7}),
    json.dumps({"booklet": "key", "choice": {"s": 1e9, "u": -3, "w": "1"}, "gaps": "no"}),
    '{"booklet": "key", "__proto__": {"pace": true}, "done": {"__proto__": true}}',
    json.dumps({"booklet": "key", "done": {f"tick/{n}": True for n in range(60000)}}),
]  # fmt: skip


def test_a_file_of_ticks_from_a_stranger_does_nothing(opened, tmp_path):
    page = opened()
    page.on("dialog", lambda dialog: pytest.fail(dialog.message))
    for number, text in enumerate(HOSTILE):
        file = tmp_path / f"{number}.json"
        file.write_text(text)
        page.set_input_files("#load", file)
        expect(page.locator("#load")).to_have_value("")  # it has been read
        if page.locator("#ask").is_visible():
            page.click("#answers button")
    assert page.locator("input.tick:checked").count() == 0
    assert page.evaluate("document.documentElement.dataset.s") == "0"
    assert page.evaluate("localStorage.getItem('booklet key').length") < 500
    assert page.evaluate("({}).pace") is None


def test_without_script_all_is_there(opened):
    page = opened(java_script_enabled=False)
    assert not page.locator("#bar").is_visible()
    shown = page.locator("section.sized")
    assert shown.count() > 12
    assert all(each.is_visible() for each in shown.all())
    said = words(page)
    for part in (
        "Pincushion",
        "Lap quilt",
        "Bed quilt",
        "Cutting",
        "Sewing the blocks",
        "Make 42 blocks",
    ):
        assert part in said, part


def test_a_printed_page_holds_the_chosen_size_alone(opened):
    page = opened(color_scheme="dark")
    names = {"pin": "Pincushion", "lap": "Lap quilt", "bed": "Bed quilt"}
    for size in ("lap", "pin"):
        choose(page, "s", SIZES[size])
        data = page.pdf(format="A4", prefer_css_page_size=True)
        document = pypdfium2.PdfDocument(data)
        corner = document[1].render(scale=0.2).to_pil().convert("RGB").getpixel((2, 2))
        assert corner == (255, 255, 255)  # paper, also where the screen is dark
        text = " ".join(sheet.get_textpage().get_text_bounded() for sheet in document)
        assert names[size] in text
        for other, name in names.items():
            if other != size:
                assert name not in text and name.upper() not in text
        assert "At the table" not in text


def test_no_sheet_true_to_size_is_cut_off_where_the_page_is_printed(opened):
    page = opened(color_scheme="light")
    choose(page, "s", SIZES["lap"])
    page.emulate_media(media="print")
    margin = float(
        re.search(r"@page templates \{ margin: ([\d.]+)mm", template_text("screen.css"))[1]
    )
    sheets = page.evaluate(
        """() => [...document.querySelectorAll(".template-page")].filter((each) => each.checkVisibility())
        .map((each) => [getComputedStyle(each).overflowX, each.querySelector("svg").getBoundingClientRect()])
        .map(([overflow, box]) => [overflow, box.width / 96 * 25.4, box.height / 96 * 25.4])"""
    )
    assert sheets
    for overflow, wide, high in sheets:
        assert overflow == "visible"
        # the narrower of A4 (ISO 216: 210 x 297 mm) and letter (8 1/2 x 11 in), the lower of both
        assert wide <= 210 - 2 * margin and high <= 279.4 - 2 * margin


def test_a_box_to_tick_is_named_by_the_figures_of_its_row_apart(opened):
    page = opened()
    choose(page, "s", SIZES["lap"])
    row = page.locator(".page-cutting table.cut tbody tr:visible:has(input.tick)").first
    cells = [cell.strip() for cell in row.locator("td, th").all_inner_texts()][:3]
    named = row.locator("input.tick").get_attribute("aria-label")
    # row 1, 1 strip, 6 in: once read as "116 in"
    assert " · ".join(re.sub(r"\s+", " ", cell) for cell in cells) in named


def test_nothing_sticks_out_and_no_fraction_breaks(opened):
    page = opened()
    choose(page, "s", SIZES["lap"])
    for width in (320, 390, 820, 1280, 2560):
        page.set_viewport_size({"width": width, "height": 900})
        page.evaluate("document.querySelector('details.menu').open = false")
        assert page.evaluate("document.documentElement.scrollWidth") == width
        assert page.evaluate(BROKEN) == [], width
        large = page.add_style_tag(content="html { font-size: 200% !important }")
        assert page.evaluate(BROKEN) == [], width
        page.evaluate("document.querySelector('details.menu').open = true")
        box = page.locator("details[open] .panel").bounding_box()
        assert box["x"] >= 0 and box["x"] + box["width"] <= width + 1
        large.evaluate("e => e.remove()")


# fractions of which a part stands on another line
BROKEN = """() => [...document.querySelectorAll('main .frac')].filter(e => e.checkVisibility() && !e.closest('svg'))
  .filter(e => e.getClientRects().length > 1).map(e => e.parentElement.innerText.slice(0, 80))"""


def test_routes_and_pressing_go_on_stage_by_stage_and_lie_still_where_that_is_asked(opened):
    page = opened(reduced_motion="reduce")
    choose(page, "s", SIZES["pin"])
    page.click("#at-table")
    kinds = set()
    while True:
        if page.locator("#player").is_visible():
            assert not page.locator("#play").is_visible()
            drawn_ = page.evaluate(STAGE)
            page.click("#on")  # from the whole to the beginning
            first = page.evaluate(STAGE)
            page.click("#on")
            assert len({first, page.evaluate(STAGE)}) == 2 or first == drawn_
            kinds.add("route" if page.locator("#slide path.walk").count() else "press")
        if page.locator("#step-on").is_disabled():
            break
        page.click("#step-on")
    assert "route" in kinds


STAGE = """() => (document.querySelector('#slide .walked')?.getAttribute('d') || '') +
  document.querySelectorAll('#slide .later').length"""


def test_one_version_of_a_block_is_shown_alone(opened, example_plan, tmp_path):
    """The block of the example is pressed in two versions: a reader who makes the second sees its picture only."""
    pattern, handout = (
        next(e for e in example_plan.pattern.booklet.editions if e.id == id)
        for id in ("pattern", "handout")
    )
    figures = corpus.figures_of(corpus.EXAMPLE)
    (web,) = documents(example_plan, pattern, (), figures=figures)
    (tmp_path / "a.html").write_text(web.html, encoding="utf-8")
    page = opened(tmp_path / "a.html")
    shown = {}
    for version in "012":
        choose(page, "v", version)
        pictures = page.locator(".page-pressing figcaption:visible").all_inner_texts()
        shown[version] = {
            v for v in ("V1", "V2") if any(f"Version {v}" in words for words in pictures)
        }
    assert shown == {"0": {"V1", "V2"}, "1": {"V1"}, "2": {"V2"}}
    # where one block is made none is chosen
    (web,) = documents(example_plan, handout, (), figures=figures)
    assert "Version of a block" not in web.html and ">V1" not in web.html


def test_a_link_leads_to_its_step_in_whichever_size_it_is(opened, made):
    page = opened()
    choose(page, "s", SIZES["lap"])
    target = page.evaluate("document.querySelector('.page-piecing [data-s~=\"3\"] .card').id")
    assert target.startswith("bed-")
    page.evaluate("id => { location.hash = id }", target)
    expect(page.locator(f"#{target}")).to_be_visible()
    assert page.evaluate("document.documentElement.dataset.s") == SIZES["bed"]


def test_a_piece_leads_to_its_template_its_cut_and_its_step_and_back(opened):
    page = opened()
    choose(page, "s", SIZES["lap"])
    page.locator(".pieces:visible button").first.click()
    ways = page.locator("#answers button").all_inner_texts()
    assert any(way == "Template" for way in ways), ways
    assert any(way.startswith("Cutting:") for way in ways), ways
    assert sum(way.startswith("Step") for way in ways) == 1, ways  # in which it is sewn first
    page.locator("#answers button", has_text="Cutting").first.click()
    assert page.evaluate("document.activeElement.matches('tr.told')")
    page.click(".way-back")
    assert page.evaluate("document.activeElement.matches('.block-picture')")


def test_a_picture_fills_the_screen_and_comes_nearer(opened):
    page = opened(width=390)
    page.locator(".enlarge:visible").first.click()
    assert page.locator("#pane svg").is_visible()
    wide = page.locator("#pane svg").bounding_box()["width"]
    page.keyboard.press("+")
    assert page.locator("#pane svg").bounding_box()["width"] > 1.4 * wide
    page.keyboard.press("Escape")
    assert not page.locator("#large").is_visible()


def test_the_question_for_the_size_gives_way_when_the_reader_goes_on(opened):
    page = opened()
    panel = page.locator("details[open] .panel")
    assert panel.is_visible()
    page.locator("[data-axis=s]").focus()  # whoever is about to choose keeps it
    page.evaluate("scrollBy({ top: 40, behavior: 'instant' })")
    page.evaluate("new Promise(requestAnimationFrame)")
    assert panel.is_visible()
    page.evaluate("document.activeElement.blur()")
    page.evaluate("scrollBy({ top: 40, behavior: 'instant' })")
    page.wait_for_selector("details[open]", state="detached")


def test_the_script_is_small_and_only_it_may_run(made):
    html = made[0].read_text("utf-8")
    assert len(script().encode()) <= 20 * 1024
    policy = re.search(r'Content-Security-Policy" content="([^"]*)"', html)[1]
    assert "default-src 'none'" in policy
    assert re.findall(r"script-src ([^;]*)", policy) == [re.search(r"'sha256-[\w+/=]+'", policy)[0]]
    declared = re.findall(
        r"^(?:export )?(?:async )?(?:const|let|function) (\w+)",
        "\n".join(template_text(f"table/{name}.js") for name in MODULES),
        re.MULTILINE,
    )
    assert len(declared) == len(set(declared))  # they stand in one block of the page


def test_another_language_shows_the_same_place(opened, tmp_path):
    """The link leads to the section that is read, also where the address names none."""
    found = compiler.check(PATTERN.parent / "two_languages").value
    compiler.build(
        found,
        compiler.BuildOptions(pdf=False, beside=False),
        lambda name, data: (tmp_path / name).write_bytes(data),
    )
    page = opened(tmp_path / "harbor-windmill-pattern-en.html")
    page.evaluate("document.getElementById('cutting').scrollIntoView({behavior: 'instant'})")
    page.evaluate("document.querySelector('.languages a[hreflang=de]').click()")
    page.wait_for_url(re.compile(r"harbor-windmill-pattern-de\.html#cutting$"))
