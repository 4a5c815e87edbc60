"""What a build of the example takes, beside WeasyPrint alone on the same pages: seconds of the processor.

WeasyPrint alone sets each print page as it was composed, our fonts read once for all: it draws a picture wherever it stands, reads
the style sheets of every document, and sets each named copy anew. What both need is in neither: the pages were composed before.
Two things are set beside it: the PDFs of a build, with and without checking, drawing and composing them; and the whole command, which
also composes the web pages in all their views and writes files for other programs, in its own processes.

Run: python tests/benchmarks/build.py [--size ID]
"""

from __future__ import annotations

import argparse
import gc
import resource
import subprocess
import sys
import tempfile
import time
import warnings
from itertools import groupby
from pathlib import Path

from booklet.pages.document import Document
from booklet.pages.pictures.album import drawn
from booklet.pages.prepress import pdf
from booklet.pages.prepress.pdf import make_pdfs
from booklet.pages.style.fonts import boxed
from booklet.plan import make_plan
from booklet.recipe.build_options import PAPERS
from booklet.recipe.compiler import check, print_pages

FOLDER = Path(__file__).parent.parent.parent / "example_pattern"


def timed(make):
    """What a function gives, and the seconds it took."""
    start = time.process_time()
    made = make()
    return made, time.process_time() - start


def ours(printed: list[Document]) -> int:
    """The pages of all documents as a build makes them."""
    pages = 0
    for _, group in groupby(printed, key=lambda document: document.base or document.name):
        alike = tuple(group)
        readers = tuple(document.reader for document in alike if document.base)
        pages += sum(
            made.pages for made in make_pdfs(boxed(alike[0].base or alike[0].html), readers)
        )
        gc.collect()
    return pages


def alone(printed: list[Document]) -> int:
    """The pages of all documents by WeasyPrint as it is."""
    from weasyprint import HTML

    _, only_data, faces, fonts, _ = pdf._maker()
    pages = 0
    for document in printed:
        page = HTML(string=boxed(document.html), url_fetcher=only_data(), media_type="print")
        made = page.render(font_config=fonts, stylesheets=[faces])
        made.write_pdf(pdf_variant="pdf/ua-1")
        pages += len(made.pages)
        del page, made
        gc.collect()
    return pages


def command(size: str | None) -> float:
    """The seconds of the whole command and its workers."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    with tempfile.TemporaryDirectory() as out:
        asked = [sys.executable, "-m", "booklet", "build", str(FOLDER), "--out", out, "--quiet"]
        subprocess.run([*asked, *(["--size", size] if size else [])], check=True)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def main() -> None:
    """Print the seconds."""
    warnings.simplefilter("ignore")
    asked = argparse.ArgumentParser()
    asked.add_argument("--size", help="this size only")
    size = asked.parse_args().size
    checked, checking = timed(lambda: check(FOLDER).value)
    plan, planning = timed(lambda: make_plan(checked))
    figures = drawn(plan)
    printed, composing = timed(
        lambda: [
            document
            for edition in plan.pattern.booklet.editions
            for document in print_pages(plan, edition, figures, PAPERS, (size,) if size else ())
        ]
    )
    _, loading = timed(pdf.load)
    gc.freeze()
    gc.disable()  # as in a worker
    pages, printing = timed(lambda: ours(printed))
    same, plain = timed(lambda: alone(printed))
    assert pages == same, (pages, same)
    made = loading + printing
    before = checking + planning + composing
    whole = command(size)
    print(f"{len(printed)} documents on paper, {pages} pages; WeasyPrint alone {plain:.1f} s")
    print(f"their PDFs {made:.1f} s: {made / plain:.2f} of WeasyPrint alone")
    print(
        f"and checked, drawn and composed ({before:.1f} s): {(before + made) / plain:.2f} of WeasyPrint alone"
    )
    print(
        f"the whole command, with web pages in all views: {whole:.1f} s, {whole / plain:.2f} of WeasyPrint alone"
    )


if __name__ == "__main__":
    main()
