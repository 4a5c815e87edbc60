"""The table of materials: what a cloth is used for, in this size or in all, and the batting beside it."""

import re
from pathlib import Path

import corpus

from booklet.pages.tables.view import material_rows
from booklet.pages.texts.words import Words
from booklet.recipe.compiler import print_pages

FOLDER = Path(__file__).parent / "patterns" / "cushions"


def rows(own: str | None) -> dict[str, str]:
    plan = corpus.plan_of(FOLDER)
    size = next((size for size in plan.sizes if size.size.id == own), None)
    words = Words.of(plan.pattern.language)
    return {row.fabric.id: plain(row.use) for row in material_rows(plan.sizes, words, size)}


def plain(markup) -> str:
    return markup.striptags().replace("\N{NO-BREAK SPACE}", " ")


def test_a_cloth_that_a_size_has_nothing_of_says_so():
    # the print with an up is the back of the bolster alone
    assert rows("large")["reeds"] == "not in this size"
    assert rows("bolster")["reeds"] == "envelope back, halves × 2"


def test_the_table_of_all_sizes_names_the_uses_of_all():
    # the back is red in the large size, pale in the small one
    told = rows(None)
    assert "envelope back, halves" in told["hull"] and "envelope back, halves" in told["wake"]
    assert "×" not in "".join(told.values())


def test_a_size_without_batting_says_none():
    plan, figures = corpus.plan_of(FOLDER), corpus.figures_of(FOLDER)
    papers, edition = (plan.pattern.booklet.paper,), plan.pattern.booklet.editions[0]
    pages = print_pages(plan, edition, figures, papers)
    printed = next(page.html for page in pages if page.sizes == ("small",))
    (row,) = re.findall(r"<tr><th[^>]*>Batting</th>.*?</tr>", printed, re.DOTALL)
    # 16 in and 2 in more on each side; 24 x 12 likewise; the small cushion has no batting, so no extra is told
    row = row.replace("\N{NO-BREAK SPACE}", " ")
    assert re.findall(r"<td[^>]*>(.*?)</td>", row) == [
        "middle layer", "20 in × 20 in", "none", "28 in × 16 in",
    ]  # fmt: skip
