"""Whatever `check` accepts, `build` builds: the pages of every size of every pattern, laid out.

Every page of every edition and size is composed for print, of patterns that have between them all that a source can say. Of
every second pattern the web page is composed too; of the others one document is laid out, on the author's paper (not written,
which takes half the time), each pattern another one in turn; with `--everything` of all of them both. What matters is that no picture, table or page stops, that nothing is
complained of, and that no word of ours shows through.
"""

import re

import corpus
import pytest

from booklet.exports.files import exported
from booklet.pages.prepress.pdf import make_pdf
from booklet.pages.style.fonts import boxed
from booklet.recipe import compiler

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
    web = both or number % 2 == 0
    plan, figures = corpus.plan_of(folder), corpus.figures_of(folder)
    papers = (plan.pattern.booklet.paper,)
    printed = []
    for edition in plan.pattern.booklet.editions:
        for document in compiler.documents(plan, edition, papers, figures=figures, web=web):
            assert LEAKS.search(words_of(document.html)) is None, document.name
            printed += [document] if document.paper is not None else []
    if both or not web:
        document = printed[number // 2 % len(printed)]
        made = make_pdf(boxed(document.html))
        assert made.complaints == (), document.name
        assert made.pages >= 1
    names = [name for name, _ in exported(plan, ())]
    assert len(names) == len(set(names)) > 0
