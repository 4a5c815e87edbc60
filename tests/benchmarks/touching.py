"""How long a touch takes to be answered on the table of the preview: real clicks, a real browser, the clock from before the
click to after the answer is painted; beside it what the server's processor worked.

    python tests/benchmarks/touching.py [PATTERN] [--touches 40] [--size ID]

PATTERN is the example, or a folder. Pieces that touch are taken in hand and joined at random from a fixed seed; at the end
stands how long the tool's own continuation takes from there.
"""

from __future__ import annotations

import argparse
import os
import random
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from playwright.sync_api import Page, sync_playwright
from preview import HOUSE, worked

ASKED = {"a piece in hand": 300, "a join in hand": 300, "joined": 300}
SEEN = """() => {
  window.seen = [];
  new MutationObserver(() => requestAnimationFrame(() => requestAnimationFrame(() => window.seen.push(Date.now()))))
    .observe(document.documentElement, {attributes: true, attributeFilter: ["data-touched"]});
}"""


def timed(page: Page, server: int, does: Callable[[], object]) -> tuple[float, float]:
    """The milliseconds until what was done is answered, and those the server worked for it."""
    page.evaluate("() => { window.seen = []; }")
    before, begun = worked(server), time.time()
    does()
    while not (seen := page.evaluate("() => window.seen")):
        page.wait_for_timeout(5)
        if time.time() - begun > 60:
            raise SystemExit("nothing was answered for a minute")
    return seen[0] - begun * 1000, worked(server) - before


def touch(page: Page, piece: str) -> None:
    """Click a piece."""
    page.locator(f'#pieces [data-pieces~="{piece}"] path').first.dispatch_event("click")


def touched(page: Page, server: int, touches: int) -> dict[str, list[tuple[float, float]]]:
    """What so many touches took, by what they do."""
    dice, found = random.Random(5), {name: [] for name in ASKED}
    for _ in range(touches // 3):
        pieces = page.evaluate("() => table.told.units.map(unit => unit.pieces[0])")
        if len(pieces) < 3:
            found["joined"].append(timed(page, server, lambda: page.click("#anew")))
            continue
        first = dice.choice(pieces)
        found["a piece in hand"].append(timed(page, server, lambda: touch(page, first)))  # noqa: B023
        second = dice.choice(page.evaluate("() => table.told.near"))
        found["a join in hand"].append(timed(page, server, lambda: touch(page, second)))  # noqa: B023
        found["joined"].append(timed(page, server, lambda: page.click("#join")))
    return found


def show(served: subprocess.Popen[str], options: argparse.Namespace) -> None:
    """Open the table and print what each kind of touch takes."""
    names = ("chromium", "chromium-browser", "google-chrome")
    with sync_playwright() as driver:
        browser = driver.chromium.launch(
            executable_path=next(filter(None, map(shutil.which, names))), args=["--no-sandbox"]
        )
        page = browser.new_page(viewport={"width": 1400, "height": 900})
        page.goto(served.stdout.readline().strip() if served.stdout else "")
        page.locator("html[data-page]").wait_for(state="attached", timeout=120_000)
        if options.size:
            page.select_option("#size", options.size)
        page.wait_for_timeout(1000)
        page.evaluate(SEEN)
        print(
            f"the table is laid: {timed(page, served.pid, lambda: page.click('#to-table'))[0]:.0f} ms"
        )
        print(
            f"ms, of {options.touches} touches; the load of the machine is {os.getloadavg()[0]:.1f}"
        )
        print(f"{'touched':18}{'median':>8}{'worst':>8}{'asked':>8}{'server':>8}")
        for name, took in touched(page, served.pid, options.touches).items():
            seen, work = zip(*took, strict=True)
            middle, work = statistics.median(seen), statistics.median(work)
            print(f"{name:18}{middle:8.0f}{max(seen):8.0f}{ASKED[name]:8}{work:8.0f}")
        on = timed(page, served.pid, lambda: page.click("#on"))
        print(f"{'gone on from there':18}{on[0]:8.0f}{'':16}{on[1]:8.0f}")
        browser.close()


def main() -> None:
    """Print the table."""
    asked = argparse.ArgumentParser()
    asked.add_argument("pattern", type=Path, nargs="?", default=HOUSE / "example_pattern")
    asked.add_argument("--touches", type=int, default=40)
    asked.add_argument("--size", default="")
    options = asked.parse_args()
    with tempfile.TemporaryDirectory() as home:
        folder = Path(home) / "pattern"
        shutil.copytree(options.pattern, folder, ignore=shutil.ignore_patterns("out"))
        served = subprocess.Popen(
            [sys.executable, "-m", "booklet", "preview", folder, "--no-open"],
            stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True,
        )  # fmt: skip
        try:
            show(served, options)
        finally:
            served.terminate()
            served.communicate()


if __name__ == "__main__":
    main()
