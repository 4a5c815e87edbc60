"""How large the example's web page is, how soon it is shown, and how long a change of size or units takes, in a headless
Chromium: `python tests/benchmarks/table.py [FOLDER]`. Times are the middle of five, in milliseconds."""

import gzip
import statistics
import sys
import tempfile
import time
from pathlib import Path

sys.path[:0] = [str(Path(__file__).parents[1]), str(Path(__file__).parents[2])]

from browser import started  # noqa: E402

from booklet.recipe import compiler  # noqa: E402

# until what is chosen has been laid out and painted: the page then says something else
CHANGE = """async ([axis, value]) => {
  const box = document.querySelector(`[data-axis="${axis}"]`);
  const said = () => document.documentElement.dataset.s + document.querySelector(".sizes tbody").textContent;
  const before = said(), began = performance.now();
  box.value = value;
  box.dispatchEvent(new Event("change"));
  while (said() === before) await new Promise(done => setTimeout(done));
  await new Promise(done => requestAnimationFrame(() => setTimeout(done)));
  return performance.now() - began;
}"""
PAINTED = "performance.getEntriesByName('first-contentful-paint')[0].startTime"


def written(folder: Path, into: Path) -> Path:
    """The largest web page of a pattern, with all its views."""
    began = time.process_time()
    compiler.build(
        compiler.check(folder).value,
        compiler.BuildOptions(beside=False, pdf=False),
        lambda name, data: (into / name).write_bytes(data),
    )
    print(f"built in {time.process_time() - began:.1f} s of the processor")
    return max(into.glob("*.html"), key=lambda path: path.stat().st_size)


def timed(browser, path: Path) -> None:
    """Print what a page takes."""
    shown, size, units = [], [], []
    for _ in range(5):
        context = browser.new_context(viewport={"width": 1280, "height": 900})
        page = context.new_page()
        page.goto(path.as_uri())
        page.wait_for_selector("#bar:not([hidden])")
        shown.append(page.evaluate(PAINTED))
        size.append(page.evaluate(CHANGE, ["s", "1"]))
        page.evaluate(CHANGE, ["u", "1"])  # unpacked
        units.append(page.evaluate(CHANGE, ["u", "0"]))
        units.append(page.evaluate(CHANGE, ["u", "1"]))
        context.close()
    for what, times in (("shown", shown), ("another size", size), ("other units", units)):
        print(f"{what:14} {statistics.median(times):6.0f} ms")


def main() -> None:
    """Build, weigh and time."""
    folder = Path(
        sys.argv[1] if len(sys.argv) > 1 else Path(__file__).parents[2] / "example_pattern"
    )
    with tempfile.TemporaryDirectory() as into, started() as browser:
        path = written(folder, Path(into))
        data = path.read_bytes()
        print(f"{len(data):,} bytes, {len(gzip.compress(data, 9)):,} when packed by gzip")
        timed(browser, path)


if __name__ == "__main__":
    main()
