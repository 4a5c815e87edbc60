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
def previewed(browser, folder, wrote=0):
    """The page of a preview of a folder, and the frame of its booklet; so often it was asked to write."""
    served = subprocess.Popen(
        [sys.executable, "-m", "booklet", "preview", str(folder), "--no-open"],
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
    )  # fmt: skip
    page = browser.new_page(viewport={"width": 1400, "height": 900})
    wrong = []
    page.on("pageerror", lambda fault: wrong.append(str(fault)))
    page.on("console", lambda said: wrong.append(said.text) if said.type == "error" else None)
    try:
        page.goto(served.stdout.readline().strip())
        page.locator("html[data-page]").wait_for(state="attached", timeout=60_000)
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


def test_another_size_and_print(browser, tmp_path):
    folder = tmp_path / "three"
    shutil.copytree(PATTERNS / "four_patch", folder)
    save(folder, "sizes:\n", "sizes:\n  lap: {title: Lap quilt, unit: 3 in, blocks: 6 x 7}\n")
    with previewed(browser, folder) as (page, sheet):
        assert "lap quilt" in sheet.locator(".cover-kind").inner_text().lower()
        page.select_option("#size", "cushion")
        sheet.locator(".cover-kind", has_text="Cushion").wait_for(state="attached", timeout=60_000)
        page.select_option("#medium", "a4")
        page.locator("#print iframe").wait_for(state="attached", timeout=120_000)
        address = page.locator("#print iframe").get_attribute("src")
        got = page.evaluate(
            "async a => { const r = await fetch(a); return [r.status, r.headers.get('content-type'), (await r.text()).slice(0, 5)]; }",
            address,
        )
        assert got == [200, "application/pdf", "%PDF-"]
        page.select_option("#medium", "")
        assert page.locator("#sheet").is_visible()


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
