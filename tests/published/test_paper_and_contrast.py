"""Published figures for pages, contrast and accessible PDF."""

import io
import re
from fractions import Fraction

import pages_sample as sample
import pypdf
import pytest

from booklet.kit.colour import contrast, luminance
from booklet.kit.measure import INCHES_PER_YARD, MM_PER_INCH, Length
from booklet.pages.composing import compose
from booklet.pages.pictures.typesetting import CAUTIONS
from booklet.pages.prepress.pdf import make_pdf
from booklet.pages.style.paper import sheet_of
from booklet.pages.texts.lists import TOOLS_MACHINE
from booklet.pages.texts.templating import template_text
from booklet.pattern import Paper

MM = 72 / 25.4


@pytest.fixture(scope="module")
def made() -> bytes:
    html = compose(sample.plan(), sample.HANDOUT, sample.figures, Paper.LETTER, ("lap",)).html
    return make_pdf(html).data


def test_a5():
    # W3C web-platform-tests css-page/page-size-002 (ISO A5): 148 x 210 mm
    sheet = sheet_of(Paper.A5)
    assert (sheet.width / MM, sheet.height / MM) == (pytest.approx(148), pytest.approx(210))


def test_a5_with_20_mm_margins():
    # W3C web-platform-tests page-size-002: content box 108 x 170 mm
    sheet = sheet_of(Paper.A5)
    assert (sheet.width / MM - 40, sheet.height / MM - 40) == (
        pytest.approx(108),
        pytest.approx(170),
    )


def test_a4():
    # MDN @page size reference: 210 x 297 mm
    sheet = sheet_of(Paper.A4)
    assert (sheet.width / MM, sheet.height / MM) == (pytest.approx(210), pytest.approx(297))


def test_letter():
    # MDN @page size reference: 8.5 x 11 in
    sheet = sheet_of(Paper.LETTER)
    assert (sheet.width / 72, sheet.height / 72) == (8.5, 11)


def test_letter_and_a4_in_points():
    # page-size enumeration, general document-library docs: 612 x 792, 595 x 842, tolerance 0.5 pt
    letter, a4 = sheet_of(Paper.LETTER), sheet_of(Paper.A4)
    assert (letter.width, letter.height) == (612, 792)
    assert (a4.width, a4.height) == (pytest.approx(595, abs=0.5), pytest.approx(842, abs=0.5))


def test_half_letter():
    # derived (letter folded once): 5.5 x 8.5 in
    half, letter = sheet_of(Paper.HALF_LETTER), sheet_of(Paper.LETTER)
    assert (half.width / 72, half.height / 72) == (5.5, 8.5)
    assert (2 * half.width, half.height) == (letter.height, letter.width)


def test_iso_216():
    # ISO 216: halving A4 (297 x 210) gives A5 (148 x 210), rounded down; ratio 1 : sqrt 2
    a4, a5 = sheet_of(Paper.A4), sheet_of(Paper.A5)
    assert int(a4.height / MM + 1e-6) // 2 == round(a5.width / MM)
    assert a4.height / a4.width == pytest.approx(2**0.5, abs=0.002)


def test_inch_and_yard():
    # 1959 international yard and pound agreement: 25.4 mm, 0.9144 m
    assert Length.of("1 in").mm == pytest.approx(25.4, abs=0)
    assert Fraction(INCHES_PER_YARD) * MM_PER_INCH == Fraction(9144, 10)


def test_luminance_weights():
    # W3C, relative luminance: 0.2126 R + 0.7152 G + 0.0722 B, threshold 0.04045
    assert luminance("#ff0000") == pytest.approx(0.2126)
    assert luminance("#00ff00") == pytest.approx(0.7152)
    assert luminance("#0000ff") == pytest.approx(0.0722)
    # 10 / 255 = 0.0392 lies under the threshold: divided by 12.92
    assert luminance("#0a0a0a") == pytest.approx(10 / 255 / 12.92)


def test_black_on_white():
    # contrast docs restating W3C: 21.0, tolerance 0.0001
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0, abs=0.0001)


def test_the_lightest_grey_that_passes():
    # recomputed: #767676 on white 4.54, tolerance 0.005
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.005)


def test_every_colour_of_letters_passes():
    # W3C WAI, Understanding SC 1.4.3 (WCAG 2.2): at least 4.5 : 1
    from booklet.pages.texts.templating import template_text

    style = template_text("style.css") or ""
    colours = dict(re.findall(r"--(ink|quiet|accent): (#[0-9a-f]{6})", style))
    assert set(colours) == {"ink", "quiet", "accent"}
    assert min(contrast(colour, "#ffffff") for colour in colours.values()) >= 4.5


def test_pdf_ua(made: bytes):
    # PDF/UA-1 validation profile against ISO 14289-1:2014
    root = pypdf.PdfReader(io.BytesIO(made)).trailer["/Root"]
    metadata = root["/Metadata"].get_data().decode("utf-8")
    assert re.search(r"pdfuaid:part(>|=\")1", metadata)
    assert "/Lang" in root
    assert "/MarkInfo" in root
    assert "/StructTreeRoot" in root


def test_pdf_header(made: bytes):
    # PDF/UA-1 validation profile: %PDF-1.n with n from 0 to 7
    assert re.match(rb"%PDF-1\.[0-7]\n", made)


def test_templates_print_at_full_size():
    # pattern designer tutorial, Working with Templates: 100 percent, a 1 in test square
    words = template_text("pages/templates.html")
    assert "at 100 percent" in words
    assert "Measure both test squares on every page before you cut: 1 in" in words


def test_the_machine_needle():
    # NDSU Extension CB111, Quilting for Fun: machine needle 70/10 or 80/12
    assert any("70/10 or 80/12" in line for line in TOOLS_MACHINE)


@pytest.mark.parametrize(
    ("word", "source"),
    [
        ("children", "NDSU Extension CB111, Quilting for Fun"),
        ("Close it after every cut", "Scribbler Designs"),
        ("away from yourself", "Brookfield school, Blade Runner procedure"),
        ("fingers back", "Brookfield school, Blade Runner procedure"),
        ("card and tape", "Fabric Bias, Rotary blade safety, 2009"),
    ],
)
def test_the_caution_of_the_blade(word: str, source: str):
    assert word in CAUTIONS["blade"], source


def test_the_label_names_the_quilter_and_the_year():
    # University of Nebraska Extension, Quilt Quest: a label on the back with name and date
    label = template_text("pages/finishing.html").split("Sew a label")[1].split("</p>")[0]
    assert "back" in label
    assert "name" in label
    assert "year" in label
