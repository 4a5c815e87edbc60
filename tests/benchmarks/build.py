"""How long the whole example takes to build, and how much of it is WeasyPrint: seconds of the processor.

Run: python tests/benchmarks/build.py
"""

import time
from pathlib import Path

from booklet.compiler import PAPERS, check, documents
from booklet.pages import make_pdf
from booklet.pages.pictures.album import drawn
from booklet.pages.prepress import pdf
from booklet.pages.style.fonts import boxed
from booklet.plan import make_plan

FOLDER = Path(__file__).parent.parent.parent / "example_pattern"


def timed(make):
    """What a function gives, and the seconds it took."""
    start = time.process_time()
    made = make()
    return made, time.process_time() - start


def main() -> None:
    checked, checking = timed(lambda: check(FOLDER).value)
    plan = make_plan(checked)
    figures = drawn(plan)
    composed = timed(
        lambda: [
            document
            for edition in plan.pattern.booklet.editions
            for document in documents(plan, edition, PAPERS, None, figures)
        ]
    )
    printed = [boxed(document.html) for document in composed[0] if document.paper]
    tagging = [0.0]

    def set_right(*given):
        """Our own work on the tags, which is none of WeasyPrint's."""
        tagging[0] += timed(lambda: tagged(*given))[1]

    tagged, pdf.set_right = pdf.set_right, set_right
    pages, printing = timed(lambda: sum(make_pdf(html).pages for html in printed))
    printing -= tagging[0]
    whole = checking + composed[1] + tagging[0] + printing
    print(f"{len(composed[0])} documents, {pages} pages of PDF")
    print(
        f"checking {checking:.1f} s, drawing and composing {composed[1]:.1f} s, "
        f"tags {tagging[0]:.1f} s, WeasyPrint {printing:.1f} s"
    )
    print(f"whole {whole:.1f} s; whole / WeasyPrint {whole / printing:.2f}")


if __name__ == "__main__":
    main()
