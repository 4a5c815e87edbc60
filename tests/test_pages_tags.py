"""The PDF of the example as a screen reader meets it: PDF/UA-1 (ISO 14289-1), walked tag by tag."""

import io
import re
from collections import Counter
from itertools import pairwise

import pypdf
import pytest
from pypdf.generic import ArrayObject, ContentStream, DictionaryObject, NumberObject

from booklet.pages.prepress.tagging import link_words
from booklet.pattern import Paper

PAINTS = {b"Tj", b"TJ", b"'", b'"', b"S", b"s", b"f", b"F", b"f*", b"B", b"b", b"B*", b"b*", b"Do", b"sh"}  # fmt: skip


class Tree:
    """What a PDF says of itself: its elements in reading order, and the marks they own."""

    def __init__(self, data):
        self.reader = pypdf.PdfReader(io.BytesIO(data))
        self.root = self.reader.trailer["/Root"]
        self.elements, self.owned = [], set()
        self.pages = {p.indirect_reference.idnum: n for n, p in enumerate(self.reader.pages)}
        self.walk(self.root["/StructTreeRoot"], (), None)

    def walk(self, node, path, page):
        node = node.get_object() if hasattr(node, "get_object") else node
        if isinstance(node, ArrayObject):
            for kid in node:
                self.walk(kid, path, page)
        elif isinstance(node, NumberObject):
            self.owned.add((page, int(node)))
        elif isinstance(node, DictionaryObject):
            if "/Pg" in node:
                page = self.pages[node.raw_get("/Pg").idnum]
            if "/S" in node:
                self.elements.append((path, str(node["/S"]), node))
                path = (*path, str(node["/S"]))
            if "/K" in node:
                self.walk(node["/K"], path, page)

    def all(self, kind):
        return [node for _, found, node in self.elements if found == kind]


@pytest.fixture(scope="module")
def made(example_html, example_print):
    """The print page of the throw on A5, and its tree: the paper where most is to be split."""
    of = ("pattern", "throw", Paper.A5)
    return example_html(*of), Tree(example_print(*of))


@pytest.fixture(scope="module")
def tree(made):
    return made[1]


def test_the_document_names_its_language_title_and_standard(tree):
    assert tree.root["/Lang"].startswith("en")
    assert tree.root["/ViewerPreferences"]["/DisplayDocTitle"]
    assert tree.root["/MarkInfo"]["/Marked"]
    assert tree.reader.metadata.title.startswith("Glasshouse Evening")
    assert re.search(rb'pdfuaid:part(>|=")1', tree.root["/Metadata"].get_data())
    assert all(page["/Tabs"] == "/S" for page in tree.reader.pages)


def test_everything_painted_is_tagged_or_an_artifact(tree):
    for number, page in enumerate(tree.reader.pages):
        inside, marks = [], set()
        for values, paint in ContentStream(page.get_contents(), tree.reader).operations:
            if paint in (b"BDC", b"BMC"):
                inside.append(str(values[0]))
                if paint == b"BDC" and "/MCID" in values[1]:
                    marks.add((number, int(values[1]["/MCID"])))
            elif paint == b"EMC":
                inside.pop()
            else:
                assert paint not in PAINTS or inside, f"page {number + 1} paints untagged"
        assert marks <= tree.owned, f"page {number + 1} has marks that no element owns"


def test_running_heads_are_not_read_out(tree):
    last = tree.reader.pages[3]
    assert "/Artifact" in {
        str(values[0])
        for values, paint in ContentStream(last.get_contents(), tree.reader).operations
        if paint == b"BDC" and values[1].get("/Type") == "/Pagination"
    }


def test_every_mark_leads_back_to_its_element(tree):
    numbers = tree.root["/StructTreeRoot"]["/ParentTree"]["/Nums"]
    parents = {int(numbers[k]): numbers[k + 1] for k in range(0, len(numbers), 2)}
    for number, page in enumerate(tree.reader.pages):
        owners = parents[page["/StructParents"]]
        for _, mark in (owned for owned in tree.owned if owned[0] == number):
            assert owners[mark].get_object()["/Type"] == "/StructElem"


def test_headings_begin_at_one_and_step_down_one_at_a_time(tree):
    levels = [int(kind[2]) for _, kind, _ in tree.elements if re.fullmatch("/H[1-6]", kind)]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(b <= a + 1 for a, b in pairwise(levels))


def test_table_headings_say_which_way_they_point(tree):
    headings = tree.all("/TH")
    assert len(headings) > 50
    assert {str(h["/A"]["/Scope"]) for h in headings} == {"/Column", "/Row"}
    assert all(cell["/A"]["/Headers"] for cell in tree.all("/TD"))


def test_elements_stand_where_they_may(tree):
    above = Counter((path[-1] if path else "", kind) for path, kind, _ in tree.elements)
    allowed = {
        "/LI": {"/L"}, "/Lbl": {"/LI"}, "/LBody": {"/LI"}, "/TR": {"/THead", "/TBody"},
        "/TH": {"/TR"}, "/TD": {"/TR"}, "/THead": {"/Table"}, "/TBody": {"/Table"},
    }  # fmt: skip
    for (parent, kind), count in above.items():
        assert parent in allowed.get(kind, {parent}), f"{count} {kind} in {parent}"
        assert parent not in ("/L", "/TR", "/Table") or kind in (
            "/LI", "/L", "/TH", "/TD", "/THead", "/TBody", "/Caption",
        ), f"{count} {kind} in {parent}"  # fmt: skip


def test_every_figure_has_an_alternative_and_lies_on_its_page(made, tree):
    figures = tree.all("/Figure")
    assert len(figures) > 20
    for figure in figures:
        said = str(figure["/Alt"])
        assert len(said.split()) >= 3, said
        left, low, right, high = (float(side) for side in figure["/A"]["/BBox"])
        page = figure["/Pg"]["/MediaBox"]
        assert -1 <= left < right <= float(page[2]) + 1, said
        assert -1 <= low < high <= float(page[3]) + 1, said
    words = re.findall(r'<img [^>]*alt="([^"]*)"', made[0])
    assert len(words) == len(figures)
    assert all(words)


def test_one_could_sew_from_the_alternatives_of_the_steps(example_plan, tree):
    said = [str(figure["/Alt"]) for figure in tree.all("/Figure")]
    block = next(size for size in example_plan.sizes if size.size.id == "throw").blocks[0]
    # one picture of what to sew, or one picture a run
    steps = [text for text in said if text.startswith(("Left, what to sew.", "Picture “First”"))]
    assert len(steps) == len(block.cards)
    for text in steps:  # what lies where, how it is sewn and how far, what comes of it
        assert " lies " in text
        assert re.search("by (machine|hand)", text, re.IGNORECASE)
        assert "matching point" in text
        assert re.search("(Right|At the end), the unit made:", text)


def test_what_is_read_comes_in_the_order_of_the_page(made, tree):
    titles = re.findall(r'<li><a href="#[^"]*">([^<]*)</a></li>', made[0])
    marks = [item.title for item in tree.reader.outline if not isinstance(item, list)]
    assert [mark for mark in marks if mark in titles] == titles
    pages = [tree.pages[e.raw_get("/Pg").idnum] for _, _, e in tree.elements if "/Pg" in e]
    assert pages == sorted(pages)


def test_nothing_splits_that_belongs_together(example_plan, made, tree):
    # what is split over two pages has two elements
    block = next(size for size in example_plan.sizes if size.size.id == "throw").blocks[0]
    assert len(tree.all("/Art")) == len(block.cards)
    # the head of a table that goes on is said again
    rows = [path for path, kind, _ in tree.elements if kind == "/TR" and "/THead" not in path]
    assert len(rows) == made[0].count("<tr") - made[0].count("<thead")
    assert len(tree.all("/Figure")) == len(re.findall("<img ", made[0]))


def test_links_are_read_as_words(tree):
    said = {
        str(mark.get_object()["/Contents"])
        for page in tree.reader.pages
        for mark in page.get("/Annots", [])
    }
    assert {"Materials", "Cutting", "Sewing the blocks"} <= said


def test_the_words_of_links_are_plain():
    assert link_words('<a class="x" href="#a">Cut &amp; <b>sew</b></a>') == {"a": "Cut & sew"}


def test_every_font_is_embedded_and_maps_to_letters(tree):
    for page in tree.reader.pages:
        for font in page["/Resources"].get("/Font", {}).values():
            font = font.get_object()
            below = font["/DescendantFonts"][0].get_object()["/FontDescriptor"].get_object()
            assert {"/FontFile2", "/FontFile3"} & set(below)
            assert "/ToUnicode" in font


def test_no_paragraph_and_no_link_stands_inside_its_like(tree):
    assert tree.all("/Link") and tree.all("/P")
    for path, kind, _ in tree.elements:
        assert kind not in {"/P", "/Link", "/LI", "/TR", "/Figure"} & set(path[-1:]), path
        assert not (kind == "/P" and "/P" in path), path


def test_every_link_of_the_contents_is_owned_by_one_tag(tree):
    nums = tree.root["/StructTreeRoot"]["/ParentTree"]["/Nums"]
    owners = dict(zip(nums[::2], nums[1::2], strict=True))
    links = [
        note.get_object()
        for page in tree.reader.pages
        for note in page.get("/Annots", ())
        if note.get_object()["/Subtype"] == "/Link"
    ]
    assert links
    assert all(owners[link["/StructParent"]].get_object()["/S"] == "/Link" for link in links)
