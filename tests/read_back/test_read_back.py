"""Numbers in the pages and the PDFs of every pattern are those of its facts, in four kinds of words."""

from collections import Counter

import corpus
import pytest

from read_back.figures import counts, lengths, numbers
from read_back.making import HERE, PATTERNS, facts_of, in_words, printed, said_in, web_page
from read_back.pages import complaints, parsed, rows_of, text_of

OTHERS = (("de", None), ("en-GB", "cm"), ("fr", None))

KNOWN: dict[str, str] = {}
"""Faults of the booklet that are not mended yet; once mended, take the line out."""


def marked(folders):
    """Cases, those with a known fault expected to fail."""
    return [
        pytest.param(
            folder,
            marks=[pytest.mark.xfail(reason=KNOWN[folder.name], strict=True)]
            if folder.name in KNOWN
            else [],
            id=folder.name,
        )
        for folder in folders
    ]


def in_both_units(folder):
    """Whether a pattern prints figures in both units, of which the reader knows one."""
    return "units: inch and cm" in (folder / "pattern.yaml").read_text(encoding="utf-8")


def read(plan, converted=False):
    """Complaints about the pages of every size of a plan."""
    facts = facts_of(plan)
    return [
        f"{id}: {fault}"
        for id in facts["sizes"]
        for fault in complaints(facts, parsed(web_page(plan, id)), id, converted)
    ]


@pytest.mark.covering("units", "sizes", "fabrics", "patches", "blocks", "quilt", "cutting")
@pytest.mark.parametrize("folder", marked(PATTERNS))
def test_pages_say_what_the_facts_say(folder, tmp_path):
    if in_both_units(folder):
        folder = in_words(folder, "en", "inch", tmp_path)
    found = read(corpus.plan_of(folder))
    assert not found, "\n".join(found)


@pytest.mark.covering("sizes", "blocks", "quilt")
@pytest.mark.parametrize("folder", marked(PATTERNS))
def test_pages_in_another_language_say_what_the_facts_say(folder, tmp_path):
    language, units = OTHERS[PATTERNS.index(folder) % len(OTHERS)]
    units = units or ("inch" if in_both_units(folder) else None)
    if units is None:
        plan = said_in(folder, language)
    else:
        plan = corpus.plan_of(in_words(folder, language, units, tmp_path))
    found = read(plan, units == "cm")
    assert not found, "\n".join(found)


SAMPLE = [  # fractions, decimal commas, a unit called otherwise; what more there is has the same signs
    ("three_sizes", "bed", "en", None),
    ("star_8", "lap", "fr", None),
    ("metric", "rug", "de", "cm"),
    pytest.param("plain_alternate", "cot", "en-GB", "cm", marks=pytest.mark.everything),
    pytest.param("square_in_square", "lap", "de", None, marks=pytest.mark.everything),
]


@pytest.mark.parametrize(("name", "size", "language", "units"), SAMPLE)
def test_a_pdf_says_what_the_facts_say(name, size, language, units, tmp_path):
    plan = corpus.plan_of(in_words(HERE.parent / "patterns" / name, language, units, tmp_path))
    facts = facts_of(plan)
    html, pages = printed(plan, size)
    found = complaints(facts, parsed(html), size, bool(units))
    assert not found, "\n".join(found)
    text = "\n".join(pages)
    body = next(parsed(html).iter("body"))
    for read_all in (lengths, counts):
        short = Counter(rounded(read_all(words(body)))) - Counter(rounded(read_all(text)))
        assert not short, f"not in the text of the PDF: {short}"
    strips_in_the_pdf(html, text)


def rounded(found):
    return [round(x, 3) for x in found]


def words(element):
    """The text of a print page without its pictures, its cells and lines apart."""
    if element.tag in ("svg", "style", "title"):
        return ""
    inner = " ".join(words(child) + " " + (child.tail or "") for child in element)
    return " ".join(f"{element.text or ''} {inner}".split())


def strips_in_the_pdf(html, text):
    """Every line of the cutting tables stands in a line of the PDF: how many strips, and how wide."""
    lines = [numbers(line) for line in text.splitlines()]
    for table in parsed(html).iter("table"):
        if "cut" in (table.get("class") or "").split():
            for cells in rows_of(table):
                wanted = [n for cell in cells[:3] for n in numbers(text_of(cell))]
                assert not wanted or any(line[: len(wanted)] == wanted for line in lines), wanted


def plus(record, key, by):
    """One more of a figure of the facts, or of every figure of a list."""
    if isinstance(record[key], list):
        record[key] = [x + by for x in record[key]]
    else:
        record[key] += by


SIXTEENTH = 0.0625
CHANGED = [
    lambda s: plus(s["quilt"], "finished_in", SIXTEENTH),
    lambda s: plus(s["quilt"]["blocks"], "checks", 1),
    lambda s: plus(s["blocks"]["checks"], "finished_in", SIXTEENTH),
    lambda s: plus(s["blocks"]["checks"]["totals"], "machine_in", 1),
    lambda s: plus(s["blocks"]["checks"]["totals"], "thread_starts", 1),
    lambda s: plus(s["blocks"]["checks"]["steps"][0], "times", 1),
    lambda s: plus(s["blocks"]["checks"]["steps"][-1], "rectangle_in", SIXTEENTH),
    lambda s: plus(s["cutting"]["ink"]["buy"], "yards_decimal", 0.125),
    lambda s: plus(s["cutting"]["ink"]["buy"], "metres", 0.1),
    lambda s: plus(s["cutting"]["ink"]["strips"][0], "cut_in", SIXTEENTH),
    lambda s: plus(s["cutting"]["ink"]["strips"][0], "count", 1),
    lambda s: plus(s["cutting"]["ink"]["strips"][-1]["use"][0], "pieces", 1),
    lambda s: s["cutting"]["sand"]["strips"].pop(),
    lambda s: [plus(row, "cut_in", SIXTEENTH) for row in s["rotary"]],
    lambda s: plus(s["rotary"][0], "pieces", 1),
    lambda s: plus(s["finishing"]["binding"], "length_in", SIXTEENTH),
    lambda s: plus(s["finishing"]["binding"], "strip_in", SIXTEENTH),
    lambda s: plus(s["finishing"]["binding"], "strips", 10),
    lambda s: plus(s["finishing"]["backing"], "size_in", SIXTEENTH),
    lambda s: plus(s["finishing"]["batting"], "size_in", SIXTEENTH),
    lambda s: plus(s["finishing"]["borders"][0], "lengths_in", SIXTEENTH),
    lambda s: plus(s["finishing"]["borders"][0], "outside_in", SIXTEENTH),
    lambda s: plus(s["sittings"][0]["tasks"][0], "count", 1),
    lambda s: plus(s["sittings"][0], "minutes", 10),
    lambda s: plus(s["quilt"]["joins"][0], "locks", 1),
]


@pytest.fixture(scope="module")
def bed():
    """A plan and one of its pages, read."""
    plan = corpus.plan_of(HERE.parent / "patterns" / "three_sizes")
    return plan, parsed(web_page(plan, "bed"))


@pytest.mark.parametrize("number", range(len(CHANGED)))
def test_a_figure_that_differs_is_caught(bed, number):
    plan, page = bed
    facts = facts_of(plan)
    CHANGED[number](facts["sizes"]["bed"])
    assert complaints(facts, page, "bed")


def test_figures_of_all_words_are_read():
    assert numbers("2½ 2 1/2 5 3⁄16 ⅞ 70,6 12") == [2.5, 2.5, 5.1875, 0.875, 70.6, 12]
    assert numbers("15⁄16 11⁄16") == [0.9375, 0.6875]
    assert lengths("62½ in × 72 in, 6,35 cm; 2½ po, 3 inch; 4 m") == [62.5, 72, 2.5, 2.5, 3]
    assert counts("A square × 84; border × 2 2 in × 8½ in") == [84, 2]
