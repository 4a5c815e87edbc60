"""Whatever `check` accepts, `build` builds: the pages of every size of every pattern, laid out.

Every page of every edition and size is composed for print, of patterns that have between them all that a source can say. Of
those that have between them all that it can say of its sizes and its booklet the web page is composed too; of those that have all of
its booklet one document is laid out, on the author's paper: another edition in turn, and of that the size that takes least, for sizes
have the same kinds of pages. With `--everything` of all of them both. What matters is that no picture, table or page stops, that
nothing is complained of, and that no word of ours shows through.
"""

import re

import corpus
import pytest
from corpus import documents
from sampling import cover

from booklet.exports.files import exported
from booklet.pages.prepress.pdf import make_pdf
from booklet.pages.style.fonts import boxed

PATTERNS = corpus.FOLDERS
LEAKS = re.compile(r"\bNone\b|\bnan\b|\binf\b|[a-z]+\(\)|&lt;[a-z_.]+ object at|\{[a-z_]*\}")
"""What a value that was never set, or a phrase that was never filled in, looks like on a page."""


def words_of(html: str) -> str:
    """What a reader sees of a page: no style, no script, no marks, no pictures in data addresses."""
    without = re.sub(r"<(style|script).*?</\1>", " ", html, flags=re.DOTALL)
    return re.sub(r"<[^>]*>", " ", without)


@pytest.mark.covering()
@pytest.mark.parametrize("folder", PATTERNS, ids=lambda path: path.name)
def test_every_page_of_every_size_is_composed_and_one_in_turn_laid_out(folder, pytestconfig):
    number, both = PATTERNS.index(folder), pytestconfig.getoption("--everything")
    web = both or folder.name in cover("sizes", "booklet")
    laid_out = both or folder.name in cover("booklet")
    plan, figures = corpus.plan_of(folder), corpus.figures_of(folder)
    papers = (plan.pattern.booklet.paper,)
    printed = []
    for edition in plan.pattern.booklet.editions:
        made = list(documents(plan, edition, papers, figures=figures, web=web))
        for document in made:
            assert LEAKS.search(words_of(document.html)) is None, document.name
        printed.append([document for document in made if document.paper is not None])
    if laid_out:
        document = min(printed[number % len(printed)], key=lambda document: len(document.html))
        made = make_pdf(boxed(document.html))
        assert made.complaints == (), document.name
        assert made.pages >= 1
    names = [name for name, _ in exported(plan, ())]
    assert len(names) == len(set(names)) > 0
