"""A site in a browser: without a network after one visit, renewed when the booklet changes, and one state for all its chapters."""

import hashlib
import json
import os
import re
import threading
import time
from contextlib import contextmanager
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import corpus
import hostile
import pytest
from browser import judged, started
from playwright.sync_api import expect

from booklet.exports.chapters.site import WORKER, site
from booklet.pages.pictures.album import drawn
from booklet.pages.screen.page import ScreenView, gathered
from booklet.recipe import compiler
from booklet.recipe.choices import key_of

PATTERN = Path(__file__).parent / "patterns" / "three_sizes"
ROOM = "some/where/lamps"  # a sub-folder of the host


@pytest.fixture(scope="module")
def browser():
    with started() as browser:
        yield browser


@pytest.fixture(scope="session")
def files():
    plan = corpus.plan_of(PATTERN)
    found = corpus.views_of(PATTERN)[:3]  # other units, another width
    edition = plan.pattern.booklet.editions[0]
    return site(gathered(found, edition, ("pin", "lap", "bed"), key_of(plan.pattern, edition)))


class Host:
    """A host of the web on this machine that notes what it is asked for."""

    def __init__(self, folder: Path) -> None:
        self.folder, self.asked = folder / ROOM, []
        self.latest = time.time() - 3600
        self.folder.mkdir(parents=True)
        asked = self.asked

        class Handler(SimpleHTTPRequestHandler):
            def log_message(self, *words):
                asked.append(self.path)

        handler = partial(Handler, directory=str(folder))
        self.server = ThreadingHTTPServer(("127.0.0.1", 0), handler)
        self.home = f"http://127.0.0.1:{self.server.server_port}/{ROOM}/"
        threading.Thread(target=self.server.serve_forever, daemon=True).start()

    def put(self, files):
        """Put files there, a minute later than those before: the host tells times in whole seconds, and a browser asks
        only for what is later."""
        self.latest += 60
        for name, data in files.items():
            (self.folder / name).write_bytes(data)
            os.utime(self.folder / name, (self.latest, self.latest))


@contextmanager
def hosted(folder, files):
    host = Host(folder)
    host.put(files)
    yield host
    host.server.shutdown()
    host.server.server_close()


@contextmanager
def visitor(browser, host, **more):
    """A window that is away from everything but the site; whatever goes wrong in it fails the test."""
    context = browser.new_context(viewport={"width": 820, "height": 900}, **more)
    wrong = []
    context.on("request", lambda r: wrong.append(r.url) if not r.url.startswith(host) else None)
    page = context.new_page()
    page.on("pageerror", lambda error: wrong.append(str(error)))
    page.on("console", lambda said: wrong.append(said.text) if said.type == "error" else None)
    page.on("dialog", lambda dialog: wrong.append(dialog.message))
    yield page
    context.close()
    assert wrong == []


def ready(page, address):
    page.goto(address)
    page.wait_for_selector("#bar:not([hidden])")


def kept(page):
    """Wait until the site is kept on the device."""
    page.evaluate(
        """() => navigator.serviceWorker.controller ? 1 : new Promise((done) =>
          navigator.serviceWorker.addEventListener("controllerchange", () => done(1)))"""
    )


def choose(page, axis, value):
    page.evaluate(
        """([axis, value]) => { const box = document.querySelector(`[data-axis="${axis}"]`);
          box.value = value; box.dispatchEvent(new Event("change"));
          for (const menu of document.querySelectorAll("details[open]")) menu.open = false; }""",
        [axis, value],
    )


def test_after_one_visit_every_page_is_there_without_a_network(browser, files, tmp_path):
    with hosted(tmp_path, files) as host, visitor(browser, host.home) as page:
        ready(page, host.home)  # the folder, as a reader would type it
        kept(page)
        host.server.shutdown()
        host.server.server_close()
        page.context.set_offline(True)
        order, at = [], "index.html"
        while at:
            ready(page, host.home + at)
            order.append(at)
            assert page.evaluate("document.fonts.ready.then(f => f.size)") >= 4
            assert page.locator("main").inner_text().strip()
            links = page.evaluate("[...document.links].map(a => a.href)")
            for link in links:
                address = link.split("#")[0].removeprefix(host.home)
                assert address in files or link.startswith(("https:", "mailto:")), link
            turn = page.locator(".turn a[rel=next]")
            at = turn.get_attribute("href") if turn.count() else None
        assert sorted(order) == sorted(name for name in files if name.endswith(".html"))


# until a new state of the booklet was looked for and refused
REFUSED = """async () => {
  const kept = await navigator.serviceWorker.getRegistration();
  await kept.update();
  const fresh = kept.installing;
  if (fresh && fresh.state !== "redundant") await new Promise((done) => fresh.addEventListener("statechange", () => done(1)));
  return fresh?.state;
}"""


def test_only_what_changed_is_fetched_when_the_booklet_changes(browser, files, tmp_path):
    changed = dict(files)
    changed["glossary.html"] = files["glossary.html"].replace(b"</main>", b"<p>New.</p></main>")
    old, new = (hashlib.sha256(each["glossary.html"]).hexdigest() for each in (files, changed))
    changed[WORKER] = files[WORKER].replace(old.encode(), new.encode())
    with hosted(tmp_path, files) as host, visitor(browser, host.home) as page:
        ready(page, host.home + "cutting.html")
        kept(page)
        host.put(changed)
        host.asked.clear()
        ready(page, host.home + "cutting.html")
        page.wait_for_selector(".renewed a")  # she is told, and nothing jumps
        ready(page, host.home + "glossary.html")
        assert page.locator("main p", has_text="New.").is_visible()
        fetched = {path.rpartition("/")[2] for path in host.asked}
        assert fetched == {WORKER, "glossary.html"}
        # a host that has half of the files: the earlier state stays whole
        broken = dict(changed)
        broken["glossary.html"] = files["glossary.html"]
        broken[WORKER] = changed[WORKER].replace(new.encode(), b"0" * 64)
        host.put(broken)
        assert page.evaluate(REFUSED) == "redundant"
        ready(page, host.home + "glossary.html")
        assert page.locator("main p", has_text="New.").is_visible()


def test_what_is_chosen_and_ticked_in_one_chapter_is_so_in_all(browser, files, tmp_path):
    with hosted(tmp_path, files) as host, visitor(browser, host.home) as page:
        ready(page, host.home + "cutting.html")
        choose(page, "s", "2")
        choose(page, "u", "1")
        page.locator("input.tick:visible").first.check()
        expect(page.locator("table:visible").first).to_contain_text("cm")
        rows = page.locator("table:visible").first.inner_text()
        cuts = page.locator("main input.tick:visible").count()
        ready(page, host.home + "piecing.html")
        assert page.evaluate("({...document.documentElement.dataset}).s") == "2"
        page.locator(".counter:visible button").nth(1).click()
        ready(page, host.home + "glossary.html")  # where nothing is ticked
        page.click("#bar summary:has-text('Done so far')")
        said = page.locator("#progress").inner_text()
        assert cuts > 5 and f"Cuts: 1 of {cuts}" in said  # the rows of the chapter before
        assert "Steps: 0 of 2" in said
        assert "1 of 12 made" in said
        page.go_back()  # a page that the browser has kept knows what was ticked meanwhile
        page.go_back()
        page.wait_for_selector("#bar:not([hidden])")
        assert page.locator("input.tick:checked").count() == 1
        assert page.locator("table:visible").first.inner_text() == rows
        page.locator("input.tick:visible").nth(1).check()
        held = json.loads(page.evaluate("Object.values(localStorage)[0]"))
        assert len(held["done"]) == 2 and list(held["made"].values()) == [1]


def test_pieces_words_and_steps_lead_to_other_chapters(browser, files, tmp_path):
    with hosted(tmp_path, files) as host, visitor(browser, host.home) as page:
        ready(page, host.home + "piecing.html")
        choose(page, "s", "2")
        page.locator(".pieces:visible button").first.click()
        assert page.locator("#answers button").all_inner_texts() == [
            "Step 1", "Cutting", "Templates", "Close",
        ]  # fmt: skip
        page.locator("#answers button", has_text="Templates").click()
        page.wait_for_selector(".sheet.told")
        assert page.url == host.home + "templates.html"
        page.go_back()
        page.wait_for_selector("#bar:not([hidden])")
        page.click("#bar summary:has-text('Find')")
        page.fill("#find", "lay all blocks")
        finds = page.locator("#found a").all_inner_texts()
        assert "Joining the blocks" in finds, finds
        page.locator("#found a", has_text="Joining the blocks").click()
        page.wait_for_selector("details[open] #found button")
        assert page.url == host.home + "quilt.html"
        ready(page, host.home + "index.html")
        page.click("#at-table")
        page.wait_for_selector("#table[open]")
        assert page.url == host.home + "piecing.html"
        assert page.locator("#step-back").is_disabled()
        title = page.locator("#table-title")
        expect(title).to_have_text(re.compile("^1 of 2"))  # the steps of the block
        page.keyboard.press("ArrowRight")
        expect(title).to_have_text(re.compile("^2 of 2"))
        page.keyboard.press("ArrowRight")
        page.wait_for_url("**/pressing.html")
        page.wait_for_selector("#table[open]")
        page.keyboard.press("ArrowLeft")
        page.wait_for_url("**/piecing.html")
        expect(title).to_have_text(re.compile("^2 of 2"))


def test_its_pages_can_be_read_as_files(browser, files, tmp_path):
    for name, data in files.items():
        (tmp_path / name).write_bytes(data)
    for script in (True, False):
        context = browser.new_context(java_script_enabled=script, offline=True)
        page = context.new_page()
        page.goto((tmp_path / "index.html").as_uri())
        page.click("#contents a[href^='cutting']")
        page.wait_for_url("**/cutting.html*")
        assert page.locator("h2", has_text="Cutting").is_visible()
        assert page.locator("#bar").is_visible() == script
        context.close()


def test_axe_finds_no_violation_in_a_chapter(browser, files, tmp_path):
    rules = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
    with hosted(tmp_path, files) as host, visitor(browser, host.home) as page:
        for name, width in (("index.html", 390), ("piecing.html", 1280)):
            page.set_viewport_size({"width": width, "height": 900})
            ready(page, host.home + name)
            choose(page, "s", "1")
            page.click("#bar summary:has-text('What is where')")
            assert page.locator("#chapters [aria-current=page]").count() == 1
            wrong, _ = judged(page, rules)
            assert wrong == [], name


STRANGE = "</script><img src=x onerror=alert(1)><script>alert(1)</script>\"'`${alert(1)}"


def test_words_of_a_stranger_do_nothing_in_any_chapter(browser, tmp_path):
    folder = tmp_path / "pattern"
    for name, data in {**hostile.SOUND, "pattern.yaml": hostile.source(STRANGE)}.items():
        (folder / name).parent.mkdir(exist_ok=True, parents=True)
        (folder / name).write_bytes(data if isinstance(data, bytes) else data.encode())
    plan = compiler.plan(compiler.check(folder).value)
    edition = plan.pattern.booklet.editions[0]
    own = ScreenView(units=plan.pattern.units, cloth=None, plan=plan, figures=drawn(plan))
    made = site(gathered((own,), edition, ("lap",), key_of(plan.pattern, edition)))
    names = [name for name in made if name.endswith(".html")]
    assert len(names) > 1
    with hosted(tmp_path / "host", made) as host, visitor(browser, host.home) as page:
        for name in names:
            ready(page, host.home + name)
            page.click("#bar summary:has-text('Find')")
            page.fill("#find", "alert")
            expect(page.locator("#found li").first).to_be_visible()
            page.keyboard.press("Escape")
            page.click("#bar summary:has-text('What is where')")
        assert "alert(1)" in page.locator("h1").inner_text()
