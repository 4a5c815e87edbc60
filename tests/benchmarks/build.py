"""How long the example takes to build, and the share of it that WeasyPrint needs for the same HTML.

    python tests/benchmarks/build.py

Prints seconds for the whole build (read, check, plan, draw, set, PDF), seconds for WeasyPrint alone on the
print pages of that build, the ratio, and the pages made.
"""

import time
from pathlib import Path

from booklet import compiler
from booklet.pages import make_pdf

EXAMPLE = Path(__file__).parents[2] / "example_pattern"


def built() -> tuple[float, int]:
    """Seconds and bytes of a whole build in memory."""
    made: dict[str, bytes] = {}
    begun = time.perf_counter()
    checked = compiler.check(EXAMPLE).value
    assert checked is not None
    compiler.build(checked, made.__setitem__)
    return time.perf_counter() - begun, sum(map(len, made.values()))


def set_alone() -> tuple[float, int]:
    """Seconds and pages of WeasyPrint alone on the same print pages."""
    checked = compiler.check(EXAMPLE).value
    assert checked is not None
    plan = compiler.plan(checked)
    documents = [
        document
        for edition in plan.pattern.booklet.editions
        for document in compiler.documents(plan, edition, compiler.PAPERS)
        if document.paper is not None
    ]
    begun = time.perf_counter()
    pages = sum(make_pdf(document.html).pages for document in documents)
    return time.perf_counter() - begun, pages


def main() -> None:
    """Print the figures."""
    set_alone()  # warm up: imports, fonts
    alone, pages = set_alone()
    whole, size = built()
    print(f"whole build {whole:.1f} s, {size / 1e6:.1f} MB")
    print(
        f"WeasyPrint alone {alone:.1f} s for {pages} pages ({1000 * alone / pages:.0f} ms a page)"
    )
    print(f"ratio {whole / alone:.2f}, share of WeasyPrint {alone / whole:.0%}")


if __name__ == "__main__":
    main()
