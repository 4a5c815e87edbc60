"""The preview in a browser: a save is seen, faults are drawn, a piece leads to its line and a line to its piece."""

import shutil
import subprocess
import sys
from contextlib import contextmanager
from pathlib import Path

import pytest
from browser import judged, started

PATTERNS = Path(__file__).parent / "patterns"


@pytest.fixture(scope="module")
def browser():
    with started() as browser:
        yield browser


@contextmanager
def previewed(browser, folder, wrote=0, at="", sound=True):
    """The page of a preview of a folder, opened `at` a line, and the frame of its booklet, which a `sound` pattern has; so
    often it was asked to write."""
    served = subprocess.Popen(
        [sys.executable, "-m", "booklet", "preview", str(folder), "--no-open"],
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
    )  # fmt: skip
    page = browser.new_page(viewport={"width": 1400, "height": 900})
    wrong = []
    page.on("pageerror", lambda fault: wrong.append(str(fault)))
    page.on("console", lambda said: wrong.append(said.text) if said.type == "error" else None)
    try:
        page.goto(served.stdout.readline().strip() + at)
        there = "html[data-page]" if sound else "html[data-look]"
        page.locator(there).wait_for(state="attached", timeout=60_000)
        yield page, page.frame_locator("#sheet")
        # scripts of the tests that try to run in the booklet's frame are kept out as anybody's are
        assert [said for said in wrong if not said.startswith("Blocked script execution")] == []
    finally:
        page.close()
        served.terminate()
        _, said = served.communicate(timeout=30)
    assert served.returncode == 0
    times = {0: "nothing was written", 1: "pattern.yaml was written once, as was asked for"}
    told = times.get(wrote, f"pattern.yaml was written {wrote} times, as was asked for")
    assert said.endswith(f"the preview has ended; {told}\n")
    assert "Traceback" not in said


def save(folder, old, new):
    source = folder / "pattern.yaml"
    text = source.read_text("utf-8")
    assert old in text
    source.write_text(text.replace(old, new, 1), "utf-8")


def test_the_preview_follows_every_save(browser, tmp_path):
    folder = tmp_path / "four"
    shutil.copytree(PATTERNS / "four_patch", folder)
    with previewed(browser, folder) as (page, sheet):
        assert sheet.locator("h1").inner_text() == "Four Patch"
        # the place is kept while what lies above it grows
        piecing = sheet.locator("#piecing")
        piecing.evaluate("e => e.scrollIntoView({behavior: 'instant'})")
        stood = piecing.evaluate("e => e.getBoundingClientRect().top")
        card = sheet.locator("article.card").first
        card.evaluate("e => { e.dataset.kept = 'yes'; }")
        save(
            folder,
            "title: Four Patch",
            "title: Four Patch, with a title long enough for several lines of the cover",
        )
        sheet.locator("h1", has_text="long enough").wait_for(state="attached", timeout=60_000)
        page.wait_for_timeout(100)
        assert piecing.evaluate("e => e.getBoundingClientRect().top") == pytest.approx(stood, abs=2)
        assert card.get_attribute("data-kept") == "yes"  # what did not change was left alone

        # hovering a piece marks it everywhere; a click shows its line
        whole = sheet.locator(".block-picture .places path").first
        whole.hover(force=True)
        told = sheet.locator(".told")
        assert (
            told.count() >= 4
        )  # in the block, in steps, as a template, in its row of the cutting list
        assert sheet.locator("tr.told").count() >= 1
        assert sheet.locator(".page-templates .told").count() >= 1
        whole.click(force=True)
        line = next(
            n
            for n, text in enumerate((folder / "pattern.yaml").read_text("utf-8").splitlines(), 1)
            if "id: a," in text
        )
        assert page.locator("#place").inner_text().startswith(f"pattern.yaml:{line}:")
        assert page.locator("#lines li.here a").inner_text() == str(line)

        # and a line of the source shows the part of the page
        page.evaluate(f"location.hash = '#L{line + 1}'")
        assert page.locator("#lines li.here a").inner_text() == str(line + 1)
        page.wait_for_timeout(50)
        shown = sheet.locator(".shown")
        assert shown.count() >= 2  # in the block and in a step
        assert all(
            shown.nth(n).get_attribute("data-of").startswith("piece/four/b ")
            for n in range(shown.count())
        )

        # an error keeps the page, greyed, and is drawn
        save(folder, "at: [1.5, 1.5]", "at: [1.25, 1.5]")
        page.locator("body.stale").wait_for(timeout=60_000)
        assert page.locator("#old").is_visible()
        assert "overlap" in page.locator("#fault-list").inner_text()
        assert "Dashed:" in page.locator("#fault-list svg.drawn").text_content()
        assert sheet.locator("h1").inner_text().startswith("Four Patch")
        wrong, _ = judged(page, ["wcag2a", "wcag2aa", "wcag21aa"])
        assert wrong == []
        save(folder, "at: [1.25, 1.5]", "at: [1.5, 1.5]")
        page.locator("body:not(.stale)").wait_for(timeout=60_000)
        assert not page.locator("#old").is_visible()


def test_another_size(browser, tmp_path):
    folder = tmp_path / "three"
    shutil.copytree(PATTERNS / "four_patch", folder)
    save(folder, "sizes:\n", "sizes:\n  lap: {title: Lap quilt, unit: 3 in, blocks: 6 x 7}\n")
    with previewed(browser, folder) as (page, sheet):
        assert "lap quilt" in sheet.locator(".cover-kind").inner_text().lower()
        page.select_option("#size", "cushion")
        sheet.locator(".cover-kind", has_text="Cushion").wait_for(state="attached", timeout=60_000)


def test_a_colourway_and_a_layout_are_chosen(browser, tmp_path):
    (tmp_path / "pattern.yaml").write_text(
        "title: Quay\n"
        "sizes: {lap: {unit: 1 in, blocks: 6 x 6}}\n"
        'fabrics: {ink: {name: Ink, colour: navy}, sand: {colour: "#e9dcc3"}}\n'
        "blocks: {wave: {grid: [[ink, sand], [sand, ink]]}}\n"
        "quilt: {arrange: [[wave]]}\n"
        "colourways: {dusk: {title: Dusk, fabrics: {ink: {name: Wine, colour: maroon}}}}\n"
        "layouts: {short: {title: Short, sizes: {lap: {blocks: 2 x 3}}}}\n",
        encoding="utf-8",
    )
    with previewed(browser, tmp_path) as (page, sheet):
        materials = sheet.locator("#materials")
        assert "Ink" in materials.inner_text()
        page.select_option("#colourway", "dusk")
        sheet.get_by_role("rowheader", name="Wine").first.wait_for()
        page.select_option("#layout", "short")
        sheet.get_by_text("2 × 3").first.wait_for()
        assert "Wine" in materials.inner_text()
        assert page.locator("#layout").input_value() == "short"
        page.select_option("#colourway", "")
        sheet.get_by_role("rowheader", name="Ink").first.wait_for()


def test_an_address_with_a_line_shows_it_as_the_page_opens(browser, tmp_path):
    folder = tmp_path / "four"
    shutil.copytree(PATTERNS / "four_patch", folder)
    lines = (folder / "pattern.yaml").read_text("utf-8").splitlines()
    line = next(n for n, text in enumerate(lines, 1) if "id: b," in text)
    with previewed(browser, folder, at=f"#L{line}") as (page, sheet):
        assert page.locator("#lines li.here a").inner_text() == str(line)
        assert page.locator("#place").inner_text() == f"pattern.yaml:{line}:1"
        shown = sheet.locator(".shown").first
        assert shown.get_attribute("data-of").startswith("piece/four/b ")


def test_the_source_beside_the_page_is_what_stands_in_the_file_named(browser, tmp_path):
    folder = tmp_path / "four"
    shutil.copytree(PATTERNS / "four_patch", folder)
    source = folder / "pattern.yaml"
    (folder / "hello.md").write_text("# Hello\n\nOne line of mine.\n", "utf-8")
    save(
        folder, "title: Four", "booklet: {editions: {one: {pages: [cover, hello.md]}}}\ntitle: Four"
    )
    text = source.read_text("utf-8")
    with previewed(browser, folder) as (page, _):
        beside = page.locator("#lines")
        page.select_option("#file", "hello.md")
        assert beside.locator("code").first.inner_text() == "# Hello"
        (folder / "hello.md").unlink()  # the pattern is what it was
        page.locator("body.stale").wait_for(timeout=60_000)
        assert page.locator("#file").input_value() == "pattern.yaml"
        assert beside.locator("code").all_inner_texts() == text.split("\n")
        # what cannot be read has no lines, and none of those before is taken for its own
        source.write_bytes(text.replace("title: Four", "title: Vör").encode("latin-1"))
        fault = page.locator("#fault-list li", has_text="is not written in UTF-8")
        fault.wait_for(timeout=60_000)
        assert beside.locator("li").count() == 0
        fault.locator("a").first.click()
        place = fault.locator("a").first.inner_text()
        assert place != "pattern.yaml:1:1"
        assert page.locator("#place").inner_text() == place
        assert page.locator(".lines .here").count() == 0


def test_pages_in_print(browser, tmp_path):
    """They are a PDF; those that are as they were stay; and of a fault it is said that the page is of before, in print too."""
    folder = tmp_path / "four"
    shutil.copytree(PATTERNS / "four_patch", folder)
    with previewed(browser, folder) as (page, _):

        def done(does):
            """Do what has the pages asked for anew, and wait until they are there."""
            before = page.get_attribute("html", "data-printed")
            does()
            later = f"html[data-printed]:not([data-printed='{before}'])"
            page.locator(later).wait_for(state="attached", timeout=60_000)

        done(lambda: page.select_option("#medium", "a4"))
        shown = page.locator("#print iframe")
        got = page.evaluate(
            "async a => { const r = await fetch(a); return [r.status, r.headers.get('content-type'), (await r.text()).slice(0, 5)]; }",
            shown.get_attribute("src"),
        )
        assert got == [200, "application/pdf", "%PDF-"]
        assert not page.locator("#old").is_visible()
        shown.evaluate("e => { e.dataset.kept = 'yes'; }")
        done(lambda: save(folder, "at: [1.5, 1.5]", "at: [1.25, 1.5]"))
        page.locator("body.stale").wait_for(timeout=60_000)
        assert page.locator("#old").is_visible()
        done(lambda: save(folder, "at: [1.25, 1.5]", "at: [1.5, 1.5]"))
        page.locator("body:not(.stale)").wait_for(timeout=60_000)
        assert shown.get_attribute("data-kept") == "yes"
        save(folder, "title: Four Patch", "title: Four Patches")
        page.locator("#print iframe:not([data-kept])").wait_for(state="attached", timeout=120_000)
        page.select_option("#medium", "")
        assert page.locator("#sheet").is_visible() and not page.locator("#old").is_visible()
        save(folder, "at: [1.5, 1.5]", "at: [1.25, 1.5]")
        page.locator("body.stale").wait_for(timeout=60_000)
        for medium in ("", "letter"):
            page.select_option("#medium", medium)
            assert page.locator("#old").is_visible()


def test_the_faults_keep_the_place_of_the_keyboard_and_what_was_opened(browser, tmp_path):
    folder = tmp_path / "four"
    shutil.copytree(PATTERNS / "four_patch", folder)
    save(folder, "at: [1.5, 1.5]", "at: [1.25, 1.5]")
    with previewed(browser, folder, sound=False) as (page, _):
        link = page.locator("#fault-list a").first
        link.wait_for()
        page.locator("#to-help").focus()
        for _ in range(3):  # past the booklet's frame, which is empty still
            page.keyboard.press("Tab")
            if page.evaluate("document.activeElement.closest('#fault-list') !== null"):
                break
        reached = "document.activeElement.textContent"
        assert page.evaluate(reached) == link.inner_text()
        look = page.get_attribute("html", "data-look")
        save(folder, "at: [1.25, 1.5]", "at: [1.125, 1.5]")
        page.locator(f"html:not([data-look='{look}'])").wait_for(state="attached", timeout=60_000)
        assert page.evaluate(reached) == page.locator("#fault-list a").first.inner_text()
        # one that says what it said is left as it is
        page.locator("#fault-list li").first.evaluate("e => { e.dataset.kept = 'yes'; }")
        look = page.get_attribute("html", "data-look")
        save(folder, "title: Four Patch", "title: Four Patches")
        page.locator(f"html:not([data-look='{look}'])").wait_for(state="attached", timeout=60_000)
        assert page.locator("#fault-list li").first.get_attribute("data-kept") == "yes"
        assert page.evaluate(reached) == page.locator("#fault-list a").first.inner_text()
        # when none is left, it is where that is said
        save(folder, "at: [1.125, 1.5]", "at: [1.5, 1.5]")
        page.locator("body:not(.stale)").wait_for(timeout=60_000)
        assert page.evaluate(reached) == "No faults found"
