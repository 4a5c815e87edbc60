"""How dark the pages of the example are on average, as they are and with `--low-ink`.

Run: python tests/benchmarks/ink.py
"""

import io
from pathlib import Path

import pypdfium2

from booklet.exports.press.printing import Printing
from booklet.pattern import Paper
from booklet.recipe import compiler

EXAMPLE = Path(__file__).parents[2] / "example_pattern"


def shades(pdf: bytes) -> list[float]:
    """The share of black of each page, percent."""
    pages = pypdfium2.PdfDocument(io.BytesIO(pdf))
    return [100 - page.render(scale=0.7, grayscale=True).to_numpy().mean() / 2.55 for page in pages]


def main() -> None:
    """Print the share for the cover and for all pages, both ways."""
    checked = compiler.check(EXAMPLE).value
    assert checked is not None
    for low_ink in (False, True):
        made: dict[str, bytes] = {}
        compiler.build(
            checked,
            compiler.BuildOptions(
                sizes=("throw",),
                editions=("pattern",),
                papers=(Paper.LETTER,),
                printing=Printing(low_ink=low_ink),
                beside=False,
            ),
            made.__setitem__,
        )
        for name, data in made.items():
            if name.endswith(".pdf"):
                found = shades(data)
                mean = sum(found) / len(found)
                print(f"{name}: cover {found[0]:.1f} %, all pages {mean:.2f} % black")


if __name__ == "__main__":
    main()
