"""A headless browser for the tests of web pages, started once for a whole run of the tests."""

import shutil
from contextlib import contextmanager
from functools import cache

import pytest

NAMES = ("chromium", "chromium-browser", "google-chrome", "chrome")


@contextmanager
def started():
    """A browser of this machine; where there is none the test says so and is passed over."""
    path = next(filter(None, map(shutil.which, NAMES)), None)
    if path is None:
        pytest.skip("no Chromium on this machine: `apt-get install chromium` to test in a browser")
    from playwright.sync_api import sync_playwright

    with sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path=path, args=["--no-sandbox"])
        yield browser
        browser.close()


@contextmanager
def shown(browser, html, width=1280):
    """A page of the browser showing this HTML, with nothing to fetch."""
    page = browser.new_page(viewport={"width": width, "height": 800}, offline=True)
    page.set_content(html)
    page.evaluate("document.fonts.ready")
    yield page
    page.close()


AXE = {  # nothing is fetched, what is in frames is asked by itself, and of a violation the element is told, not its address
    "resultTypes": ["violations"], "preload": False, "iframes": False, "selectors": False,
}  # fmt: skip


@cache
def axe_script():
    from axe_playwright_python.sync_playwright import Axe

    return Axe().axe_script


def judged(page, asked, where=None, **options):
    """What axe finds wrong in a page or at a place in it, and how many rules find something that is right."""
    if not page.evaluate("'axe' in window"):
        page.evaluate(axe_script())
    options = {"runOnly": asked, **AXE, **options}
    found = page.evaluate(
        "([where, options]) => axe.run(where, options)", [where or "html", options]
    )
    wrong = [(v["id"], [n["html"][:150] for n in v["nodes"][:3]]) for v in found["violations"]]
    return wrong, len(found["passes"])
