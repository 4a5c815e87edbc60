"""How long a save takes to be seen: real saves, a real browser, the clock from before the write to after the paint.
Beside it, what the server's processor worked, which says more on a machine that is busy with other things.

    python tests/benchmarks/preview.py [PATTERN] [--saves 20] [--no-build]

PATTERN is the example, or a folder; the sampler of 20 blocks is made by this script with `--sampler`. Each save
changes one thing there and back. Beside the figures stands the time of a full build of the same folder.
"""

from __future__ import annotations

import argparse
import os
import re
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from playwright.sync_api import sync_playwright

HOUSE = Path(__file__).parent.parent.parent
# when the page was whole, and when the last of what is in the window was put there
SEEN = """() => {
  window.seen = []; window.looked = [];
  const painted = (to) => requestAnimationFrame(() => requestAnimationFrame(() => to.push(Date.now())));
  const root = document.documentElement, sheet = document.getElementById("sheet").contentDocument;
  new MutationObserver(() => painted(window.seen)).observe(root, {attributes: true, attributeFilter: ["data-page"]});
  const inWindow = (node) => {
    const box = (node.nodeType === 1 ? node : node.parentElement)?.getBoundingClientRect();
    return box && box.height > 0 && box.bottom > 0 && box.top < sheet.defaultView.innerHeight;
  };
  new MutationObserver((all) => {
    const nodes = all.flatMap((one) => one.type === "childList" ? [...one.addedNodes] : [one.target]);
    if (nodes.some(inWindow)) painted(window.looked);
  }).observe(sheet.body, {childList: true, subtree: true, attributes: true, characterData: true});
}"""
# what is saved: the file, what stands there, and what is put in its place
# `@` is the number of the save: none comes back to a state that is remembered
SAVES = {
    "a text": ("text/welcome.md", r"(\w{5,})", r"\g<1>s@", 100),
    "the title": ("pattern.yaml", r"(?m)^(title: \S+)", r"\g<1>s@", 100),
    "a colour": ("pattern.yaml", r'colour: "#(\w\w)\w\w(\w\w)"', 'colour: "#\\g<1>@\\2"', 200),
    "a border's width": ("pattern.yaml", r"width: 1 1/2 in", "width: 2@/64 in", 300),
    "a unit": ("pattern.yaml", r"unit: 1/2 in", "unit: 3@/500 in", 300),
    "a step": (
        "pattern.yaml",
        r"make: row1, join: \[k1, side1, k2\](.*\n.*)join: \[k3, side3, k4\]",
        "STEP",
        500,
    ),
    "a line put in": ("pattern.yaml", r"(?m)^fabrics:", "# note @\nLINESfabrics:", None),
}
# orders of the two rows; with a note that differs, for there are fewer orders than saves, though more than the states
# that are remembered
STEPS = ("k{0}, side{2}, k{1}", "k{1}, side{2}, k{0}", "side{2}, k{0}, k{1}", "side{2}, k{1}, k{0}")


def sampler(folder: Path, blocks: int = 20) -> None:
    """A sampler: the blocks of the sampler of six again and again, each with a name of its own."""
    shutil.copytree(HOUSE / "example_pattern", folder)
    text = (folder / "pattern.yaml").read_text("utf-8")
    start, end = text.index("  window:\n"), text.index("\nsewing:")
    block = text[start:end]
    made = []
    for number in range(1, blocks + 1):
        one = block.replace("  window:\n", f"  window{number}:\n", 1)
        one = one.replace("make: window,", f"make: window{number},")
        made.append(one.replace("title: Window block", f"title: Window {number}"))
    names = ", ".join(f"window{number}" for number in range(1, blocks + 1))
    text = text[:start] + "\n".join(made) + text[end:]
    text = text.replace("makes: one block", "makes: {window1: 1}")
    (folder / "pattern.yaml").write_text(text.replace("[[window]]", f"[[{names}]]"), "utf-8")


def written(new: str, n: int) -> str:
    """What is put in by the save of this number."""
    one, other = STEPS[n % 4].format(1, 2, 1), STEPS[(n // 4 + n) % 4].format(3, 4, 3)
    step = f"make: row1, join: [{one}], note: Corners first {n}.\\1join: [{other}]"
    lines = "# more\n" * n
    return new.replace("STEP", step).replace("LINES", lines).replace("@", f"{n + 30}")


def worked(process: int) -> float:
    """The milliseconds of processor time that a process has had; 0 where the system does not say."""
    try:
        counts = Path(f"/proc/{process}/stat").read_text().rpartition(")")[2].split()
    except OSError:
        return 0.0
    return (int(counts[11]) + int(counts[12])) * 1000 / os.sysconf("SC_CLK_TCK")


def timed(
    page, folder: Path, name: str, saves: int, server: int
) -> list[tuple[float, float | None, float]]:
    """Of so many saves of one kind the milliseconds until the page was whole, until all that is in the window was there
    (None where nothing there changed), and those the server worked for it; none where the pattern has nothing of it."""
    file, old, new, _ = SAVES[name]
    path = folder / file
    if not path.exists():
        return []
    before = path.read_text("utf-8")
    if not re.search(old, before):
        return []
    found = []
    for n in range(saves):
        after = re.sub(old, written(new, n), before, count=1)
        page.evaluate("() => { window.seen = []; window.looked = []; }")
        before_it, begun = worked(server), time.time()
        path.write_text(after, "utf-8")
        while not (seen := page.evaluate("() => window.seen")):
            page.wait_for_timeout(5)
            if time.time() - begun > 60:
                raise SystemExit(f"{name}: nothing was seen for a minute")
        page.wait_for_timeout(150)
        looked = page.evaluate("() => window.looked")
        found.append(
            (
                seen[0] - begun * 1000,
                looked[-1] - begun * 1000 if looked else None,
                worked(server) - before_it,
            )
        )
    path.write_text(before, "utf-8")
    page.wait_for_timeout(1500)
    return found


def main() -> None:
    """Print the table."""
    asked = argparse.ArgumentParser()
    asked.add_argument("pattern", type=Path, nargs="?", default=HOUSE / "example_pattern")
    asked.add_argument("--saves", type=int, default=20)
    asked.add_argument("--size", default="")
    asked.add_argument("--sampler", action="store_true")
    asked.add_argument("--no-build", action="store_true")
    options = asked.parse_args()
    with tempfile.TemporaryDirectory() as home:
        folder = Path(home) / "pattern"
        if options.sampler:
            sampler(folder)
        else:
            shutil.copytree(options.pattern, folder, ignore=shutil.ignore_patterns("out"))
        if not options.no_build:
            begun = time.time()
            subprocess.run(
                [
                    sys.executable,
                    "-m",
                    "booklet",
                    "build",
                    folder,
                    "--out",
                    Path(home) / "o",
                    "--quiet",
                ],
                check=True,
            )
            print(f"a full build: {time.time() - begun:.1f} s")
        served = subprocess.Popen(
            [sys.executable, "-m", "booklet", "preview", folder, "--no-open"],
            stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True,
        )  # fmt: skip
        try:
            show(served, folder, options)
        finally:
            served.terminate()
            served.wait()


def show(served: subprocess.Popen, folder: Path, options: argparse.Namespace) -> None:
    """Open the page and print what each kind of save takes."""
    chromium = next(
        filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome")))
    )
    with sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path=chromium, args=["--no-sandbox"])
        page = browser.new_page(viewport={"width": 1400, "height": 900})
        begun = time.time()
        page.goto(served.stdout.readline().strip())
        page.locator("html[data-page]").wait_for(state="attached", timeout=120_000)
        print(f"the first page: {time.time() - begun:.1f} s")
        if options.size:
            page.select_option("#size", options.size)
            page.wait_for_timeout(5000)
        page.evaluate(SEEN)
        print(f"ms, of {options.saves} saves; the load of the machine is {os.getloadavg()[0]:.1f}")
        print(f"{'changed':18}{'whole':>8}{'worst':>8}{'in view':>8}{'asked':>8}{'server':>8}")
        for name, (*_, most) in SAVES.items():
            found = timed(page, folder, name, options.saves, served.pid)
            if found:
                seen, looked, work = zip(*found, strict=True)
                middle, work = statistics.median(seen), statistics.median(work)
                there = [one for one in looked if one is not None]
                view = f"{statistics.median(there):.0f}" if there else "-"
                print(
                    f"{name:18}{middle:8.0f}{max(seen):8.0f}{view:>8}{most or '':>8}{work:8.0f}",
                    flush=True,
                )
        browser.close()


if __name__ == "__main__":
    main()
