"""Pages and PDF: what they carry, measured by other libraries."""

import io
import logging
import re
from functools import cache
from itertools import pairwise

import pages_sample as sample
import pdfplumber
import pypdf
import pytest
from held_figures import Album

from booklet.drawing.ink.colours import ACCENT, GREY
from booklet.drawing.scene import Figure
from booklet.kit.colour import contrast
from booklet.kit.words import plural_phrase, words_of
from booklet.pages.composing import compose
from booklet.pages.naming import chosen_sizes
from booklet.pages.pictures.figures import inline_svg
from booklet.pages.prepress.pdf import Pdf, make_pdf
from booklet.pages.sections import entries
from booklet.pages.style.fonts import FACES, subset
from booklet.pages.style.paper import sheet_of
from booklet.pages.tables.view import allowance_test
from booklet.pages.texts.templating import template_text
from booklet.pages.texts.true_fractions import characters
from booklet.pattern import Edition, Paper
from booklet.plan import SizePlan
from booklet.source.values.names import file_part


@cache
def document(paper: Paper | None = None, handout: bool = False, size: str = "lap"):
    edition = sample.HANDOUT if handout else sample.PATTERN_EDITION
    sizes = (size,) if paper else ()
    return compose(sample.plan(), edition, sample.figures, paper, sizes)


@cache
def pdf(paper: Paper = Paper.LETTER) -> Pdf:
    return make_pdf(document(paper).html)


def reader(paper: Paper = Paper.LETTER) -> pypdf.PdfReader:
    return pypdf.PdfReader(io.BytesIO(pdf(paper).data))


# The web page


def test_the_web_page_carries_everything_itself():
    html = document().html
    assert "<script" not in html
    assert "<link" not in html
    assert not re.search(r"""(?:src|href)=["'](?!#|data:)""", html)
    assert not re.search(r"url\((?!data:|#)", html)
    assert not re.search(r"@import", html)


def test_the_web_page_has_all_sizes_and_its_names():
    page = document()
    assert page.name == "harbour-lanterns-pattern.html"
    assert 'lang="en-US"' in page.html
    for title in ("Cushion", "Lap quilt"):
        assert title in page.html


def test_every_id_is_single_and_every_link_has_its_place():
    html = re.sub(r"base64,[A-Za-z0-9+/=]+", "", document().html)
    ids = re.findall(r'\sid="([^"]+)"', html)
    assert len(ids) == len(set(ids))
    assert set(re.findall(r'href="#([^"]+)"', html)) <= set(ids)
    assert set(re.findall(r"url\(#([^)]+)\)", html)) <= set(ids)


def test_tables_have_heads_with_scope_and_a_name():
    html = document().html
    for table in re.findall(r"<table.*?</table>", html, re.DOTALL):
        assert "<caption>" in table or "aria-label=" in table[:200]
        assert all("scope=" in th for th in re.findall(r"<th[ >][^>]*", table))


def test_headings_step_down_one_at_a_time():
    levels = [int(n) for n in re.findall(r"<h([1-6])[ >]", document().html)]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(b <= a + 1 for a, b in pairwise(levels))


def test_every_picture_has_its_words():
    html = document().html
    for svg in re.findall(r"<svg [^>]*>", html):
        assert 'role="img"' in svg
        assert re.search(r'aria-label="[^"]+"', svg)


def test_each_caution_stands_once():
    html = document().html
    assert html.count('class="caution"') == 4  # needle, iron, steam, blade


def test_fractions_are_true():
    assert "2½\u00a0in" in document().html
    assert not re.search(r">[^<]*\d 1/2 in", document().html)


def test_fractions_in_pictures_are_true():
    assert characters("2 1/2 in × 1/4 in") == "2½ in × ¼ in"
    assert characters("1 1/16 in") == "1\u202f¹⁄₁₆ in"  # no such character: raised and lowered
    svg = '<svg viewBox="0 0 9 9"><text>2 1/2 in</text><path d="M1 1/2"/></svg>'
    shown = inline_svg(Figure(name="f", svg=svg, width_mm=9, height_mm=9, caption="", alt="x"), "x")
    assert ">2½ in</text>" in shown
    assert 'd="M1 1/2"' in shown


def test_a_handout_has_a_line_for_the_name_and_no_cover():
    html = document(handout=True).html
    assert "name-line" in html
    assert 'class="cover"' not in html


# The order of pages


def test_pages_that_follow_from_others():
    names = [entry.file or entry.kind.name for entry in entries(sample.PATTERN_EDITION)]
    assert names == [
        "cover", "text/welcome.md", "sizes", "materials", "before", "cutting", "templates", "piecing",
        "pressing", "quilt", "finishing", "glossary", "amounts", "colouring",
    ]  # fmt: skip


def test_a_handout_says_what_to_bring_first():
    names = [entry.kind.name for entry in entries(sample.HANDOUT)]
    assert names == ["supplies", "cutting", "practice", "piecing", "pressing"]


def test_a_page_named_by_the_author_stays_where_it_is():
    edition = sample.edition("x", ("glossary", "cover", "piecing"))
    assert [entry.kind.name for entry in entries(edition)] == ["glossary", "cover", "piecing"]


def test_an_edition_prints_its_own_sizes():
    plan = sample.plan()
    assert [s.size.id for s in chosen_sizes(plan, sample.HANDOUT)] == ["lap"]
    assert [s.size.id for s in chosen_sizes(plan, sample.PATTERN_EDITION, ("cushion",))] == [
        "cushion"
    ]


@pytest.mark.parametrize("name", [None, *Paper])
@pytest.mark.parametrize(
    "page", sorted({e.kind.name for e in entries(sample.PATTERN_EDITION)} - {"text"})
)
def test_every_page_can_stand_alone(page: str, name: Paper | None):
    edition = sample.edition("alone", (page,))
    assert compose(sample.plan(), edition, sample.figures, name).html


def test_a_pattern_without_figures_still_composes():
    assert compose(sample.plan(), sample.PATTERN_EDITION, lambda size, room: Album({})).html


# The PDF


@pytest.mark.parametrize(
    ("paper", "width", "height"),
    [
        (Paper.LETTER, 612, 792),  # 8.5 * 72, 11 * 72
        (Paper.A4, 595.28, 841.89),  # 210 / 25.4 * 72, 297 / 25.4 * 72
        (Paper.HALF_LETTER, 396, 612),  # 5.5 * 72, 8.5 * 72
        (Paper.A5, 419.53, 595.28),  # 148 / 25.4 * 72, 210 / 25.4 * 72
    ],
)
def test_page_boxes(paper: Paper, width: float, height: float):
    for page in reader(paper).pages:
        assert float(page.mediabox.width) == pytest.approx(width, abs=0.01)
        assert float(page.mediabox.height) == pytest.approx(height, abs=0.01)


@pytest.mark.parametrize("paper", list(Paper))
def test_weasyprint_has_nothing_to_complain_of(paper: Paper):
    assert pdf(paper).complaints == ()


def test_nothing_is_logged_outside(caplog: pytest.LogCaptureFixture):
    with caplog.at_level(logging.DEBUG):
        make_pdf(
            '<html lang="en"><head><title>t</title></head><body><p style="colr:red">x</p></body></html>'
        )
    assert not [r for r in caplog.records if r.name == "weasyprint"]


def test_a_complaint_is_handed_back():
    found = make_pdf(
        '<html lang="en"><head><title>t</title></head><body style="colr:red">x</body></html>'
    )
    assert len(found.complaints) == 1


@pytest.mark.parametrize("address", ["https://example.org/x.png", "file:///etc/hostname", "x.png"])
def test_nothing_is_fetched(address: str):
    html = f'<html lang="en"><head><title>t</title></head><body><img alt="x" src="{address}"></body></html>'
    assert make_pdf(html).complaints


def test_the_pdf_is_tagged_and_named():
    root = reader().trailer["/Root"]
    assert root["/Lang"] == "en-US"
    assert root["/MarkInfo"]["/Marked"]
    assert "/StructTreeRoot" in root
    assert root["/ViewerPreferences"]["/DisplayDocTitle"]
    assert reader().metadata.title == "Harbour Lanterns: Pattern, Lap quilt"
    assert reader().metadata.author == "Example Studio"
    assert b"<pdfuaid:part>1</pdfuaid:part>" in root["/Metadata"].get_data() or (
        b'pdfuaid:part="1"' in root["/Metadata"].get_data()
    )


def walk(node, found: list):
    node = node.get_object()
    if isinstance(node, pypdf.generic.ArrayObject):
        for child in node:
            walk(child, found)
    elif isinstance(node, pypdf.generic.DictionaryObject):
        if "/S" in node:
            found.append(node)
        if "/K" in node:
            walk(node["/K"], found)
    return found


def test_every_figure_has_its_alternative_and_headings_are_in_order():
    elements = walk(reader().trailer["/Root"]["/StructTreeRoot"], [])
    figures = [e for e in elements if e["/S"] == "/Figure"]
    assert len(figures) >= 6
    assert all(str(e.get("/Alt", "")) for e in figures)
    levels = [int(e["/S"][2]) for e in elements if re.fullmatch("/H[1-6]", e["/S"])]
    assert levels[0] == 1
    assert all(b <= a + 1 for a, b in pairwise(levels))
    assert {"/Table", "/TH", "/TD", "/L", "/LI", "/Caption"} <= {e["/S"] for e in elements}


def test_bookmarks_name_the_sections():
    titles = [item.title for item in reader().outline if not isinstance(item, list)]
    assert titles[:4] == ["What is where", "Before the tide", "What you will make", "Materials"]
    assert "Cutting" in titles


def test_only_our_fonts_and_all_embedded():
    names = set()
    for page in reader().pages:
        for font in page["/Resources"].get("/Font", {}).values():
            base = font.get_object()
            names.add(str(base["/BaseFont"]))
            descendant = base["/DescendantFonts"][0].get_object()["/FontDescriptor"].get_object()
            assert {"/FontFile2", "/FontFile3"} & set(descendant)
    assert names
    assert all("Source-S" in name or "SourceS" in name for name in names), names


def inch_square(size: SizePlan, room: object) -> Album:
    """A sheet with a square of 1 in at (20, 20) mm."""
    svg = (
        '<svg viewBox="0 0 190 240" width="190mm" height="240mm" xmlns="http://www.w3.org/2000/svg">'
        '<path d="M20 20H45.4V45.4H20Z" fill="none" stroke="#000000" stroke-width="0.2"/></svg>'
    )
    figure = Figure(
        name="t",
        svg=svg,
        width_mm=190,
        height_mm=240,
        caption="Templates.",
        alt="Templates.",
        true_size=True,
    )
    return Album({f"templates {paper.value} 1": figure for paper in Paper})


@pytest.mark.parametrize("paper", list(Paper))
def test_templates_are_true_to_size(paper: Paper):
    edition = Edition(
        id="t", pages=sample.edition("t", ("templates",)).pages, sizes=(), span=sample.S
    )
    html = compose(sample.plan(), edition, inch_square, paper, ("lap",)).html
    with pdfplumber.open(io.BytesIO(make_pdf(html).data)) as opened:
        squares = [
            shape
            for page in opened.pages
            for shape in (*page.rects, *page.curves)
            if abs(shape["width"] - shape["height"]) < 0.01 and shape["width"] > 50
        ]
    assert [s["width"] for s in squares] == [pytest.approx(72, abs=0.02)]  # 1 in = 72 pt


@pytest.mark.parametrize("paper", list(Paper))
def test_a_sheet_of_templates_has_room_inside_the_page(paper: Paper):
    sheet = sheet_of(paper)
    width, height = sheet.template_area_mm
    assert width < sheet.width * 25.4 / 72 - 12  # at least 6 mm to either edge for the printer
    assert height < sheet.height * 25.4 / 72 - 12


def test_the_same_source_gives_the_same_bytes():
    once = compose(sample.plan(), sample.HANDOUT, sample.figures, Paper.A4, ("lap",)).html
    again = compose(sample.plan(), sample.HANDOUT, sample.figures, Paper.A4, ("lap",)).html
    assert once == again
    assert make_pdf(once).data == make_pdf(again).data


def test_fonts_are_cut_alike_each_time():
    letters = frozenset("Sew ½")
    first = subset(FACES[0], letters)
    subset.cache_clear()
    assert subset(FACES[0], letters) == first


def test_one_accent_dark_enough():
    style = template_text("style.css") or ""
    assert f"--accent: {ACCENT};" in style
    assert f"--quiet: {GREY};" in style
    assert contrast(ACCENT, "#ffffff") >= 4.5
    assert contrast(GREY, "#ffffff") >= 4.5
    assert contrast(GREY, "#f1ede6") >= 4.5  # the wall of the cover, the column of the own size
    # used for the number of the step and nowhere else
    assert style.count("var(--accent)") == 1


# Words


def test_the_allowance_test():
    # common practice: three strips of 1 1/2 in sewn with 1/4 in measure 3 * 1 + 2 * 1/4 = 3 1/2 in
    assert allowance_test(sample.pattern()) == ("1 1/2 in", "3 1/2 in")


def test_plurals_and_lists():
    say = words_of("en").say
    assert say(plural_phrase("Make {n} block.", "Make {n} blocks.", 1)) == "Make 1 block."
    assert say(plural_phrase("Make {n} block.", "Make {n} blocks.", 24)) == "Make 24 blocks."
    assert [say(tuple("abc"[:n])) for n in range(4)] == ["", "a", "a and b", "a, b and c"]


def test_an_unknown_language_falls_back_to_english():
    assert words_of("xx").language == "en-US"
    assert words_of("../en").language == "en-US"
    assert words_of("en-GB").language == "en-GB"


def test_file_names():
    assert file_part("Été à Paris: 2½") == "ete-a-paris-2-1-2" or file_part(
        "Été à Paris: 2½"
    ).startswith("ete-a-paris")
    assert file_part("…") == "booklet"
