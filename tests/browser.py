"""A headless browser for the tests of web pages, started once for a whole run of the tests."""

import shutil
from contextlib import contextmanager

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
