"""Sheets to fold and staple, and crop marks: order, creep, true size."""

import io

import pdfplumber
import pypdf
import pytest
from hypothesis import given, strategies as st

from booklet.exports.press.imposition import faces, shift
from booklet.exports.press.printing import PLAIN, Printing, PrintingError, read_creep
from booklet.exports.press.sheets import AROUND, FOLDED_ON, imposed, places, with_crop_marks
from booklet.kit.measure import Length
from booklet.pages.prepress.pdf import make_pdf
from booklet.pages.style.paper import sheet_of
from booklet.pattern import Paper

MM = 72 / 25.4

# common practice: front and back of each sheet, outermost first, as handbooks of print finishing show it
EIGHT = [(8, 1), (2, 7), (6, 3), (4, 5)]
SIXTEEN = [(16, 1), (2, 15), (14, 3), (4, 13), (12, 5), (6, 11), (10, 7), (8, 9)]


@pytest.mark.parametrize(("pages", "order"), [(8, EIGHT), (16, SIXTEEN)])
def test_pages_stand_as_a_saddle_stitched_booklet_has_them(pages, order):
    assert [(face.left, face.right) for face in faces(pages)] == order


def test_a_back_cover_lies_outside():
    """Of seven pages the last lies where the eighth would, and the blank one before it."""
    assert [(face.left, face.right) for face in faces(7, has_back=True)] == [
        (7, 1),
        (2, None),
        (6, 3),
        (4, 5),
    ]


def test_a_page_that_would_be_blank_has_lines_for_notes():
    made = imposed(booklet(Paper.A5, 7), Paper.A5, PLAIN, has_back=True)
    with pdfplumber.open(io.BytesIO(made.data)) as opened:
        lines = [[x for x in page.lines if abs(x["y0"] - x["y1"]) < 0.1] for page in opened.pages]
    assert [len(found) > 10 for found in lines] == [False, True, False, False]
    sheet, fold = sheet_of(Paper.A5), FOLDED_ON[Paper.A5].width / 2
    for line in lines[1]:  # on the right of the fold, between the margins
        assert line["x0"] == pytest.approx(fold + sheet.inner, abs=0.1)
        assert line["x1"] == pytest.approx(fold + sheet.width - sheet.outer, abs=0.1)


@given(st.integers(1, 200))
def test_a_folded_and_nested_pile_reads_from_front_to_back(pages):
    """Fold the pile as hands do: every sheet gives two leaves; read them through."""
    sides = faces(pages)
    assert len(sides) % 2 == 0 and 4 * (len(sides) // 2) - pages in range(4)
    front: list[int | None] = []
    rear: list[int | None] = []
    for outer, inner in zip(sides[::2], sides[1::2], strict=True):
        assert outer.depth == inner.depth == len(front) // 2
        front += [outer.right, inner.left]  # the right leaf: recto, and its back
        rear = [inner.right, outer.left, *rear]
    read = [*front, *rear]
    assert read == [*range(1, pages + 1), *[None] * (len(read) - pages)]


def test_creep_moves_each_sheet_by_its_depth():
    # paper of 0.1 mm: the fourth sheet from outside has three about it, 3 * 0.1 = 0.3 mm
    assert shift(3, 0.1) == pytest.approx(0.3)
    innermost = faces(16)[6]
    sheet = FOLDED_ON[Paper.HALF_LETTER]
    (left, right) = places(innermost, sheet, Paper.HALF_LETTER, Length.of("0.1 mm"))
    assert left[1] == pytest.approx(0.3 * MM) and right[1] == pytest.approx(396 - 0.3 * MM)
    (left, right) = places(innermost, sheet, Paper.HALF_LETTER, Length.of(0))
    assert (left[1:], right[1:]) == ((0.0, 0.0), (396.0, 0.0))


def test_a5_pages_meet_at_the_fold_of_a4():
    # 2 * 148 = 296 of 297 mm: half a millimetre is left outside each
    (left, right) = places(faces(4)[1], FOLDED_ON[Paper.A5], Paper.A5, Length.of(0))
    assert left[1] == pytest.approx(0.5 * MM) and right[1] == pytest.approx(148.5 * MM)


def booklet(paper, count) -> bytes:
    """Pages of a paper, each with its number and a square of 50 mm."""
    css = sheet_of(paper).css
    square = "<div style='width:50mm;height:50mm;background:#000'></div>"
    pages = "".join(f"<section><p>page{n}</p>{square}</section>" for n in range(1, count + 1))
    return make_pdf(
        f"<html lang=en><title>t</title><style>@page {{ size: {css}; margin: 20mm }} "
        f"section {{ break-after: page }}</style><body>{pages}"
    ).data


@pytest.fixture(scope="module", params=list(Paper), ids=lambda paper: paper.value)
def folded(request):
    return request.param, imposed(booklet(request.param, 7), request.param, PLAIN)


def test_pages_are_printed_in_order_and_never_scaled(folded):
    paper, made = folded
    size = sheet_of(paper)
    assert made.sheets == 2
    with pdfplumber.open(io.BytesIO(made.data)) as opened:
        assert len(opened.pages) == 4
        for page, (left, right) in zip(opened.pages, EIGHT, strict=True):
            assert page.width == pytest.approx(FOLDED_ON[paper].width, abs=0.01)
            fold = page.width / 2
            words = {w["text"]: "left" if w["x0"] < fold else "right" for w in page.extract_words()}
            wanted = {f"page{left}": "left", f"page{right}": "right"}
            assert words == {k: v for k, v in wanted.items() if k != "page8"}
            for square in page.rects:
                assert square["width"] == pytest.approx(50 * MM, abs=0.01)
                assert square["height"] == pytest.approx(50 * MM, abs=0.01)
    assert size.width * 2 <= FOLDED_ON[paper].width + 0.01


def test_a_printer_is_asked_for_true_size_and_both_sides(folded):
    wish = pypdf.PdfReader(io.BytesIO(folded[1].data)).trailer["/Root"]["/ViewerPreferences"]
    assert (wish["/PrintScaling"], wish["/Duplex"]) == ("/None", "/DuplexFlipShortEdge")


def test_a_plain_booklet_is_printed_at_true_size_too():
    wish = pypdf.PdfReader(io.BytesIO(booklet(Paper.A5, 1))).trailer["/Root"]["/ViewerPreferences"]
    assert wish["/PrintScaling"] == "/None" and wish["/DisplayDocTitle"]


def test_the_same_pages_give_the_same_bytes():
    data = booklet(Paper.A5, 5)
    assert imposed(data, Paper.A5, PLAIN) == imposed(data, Paper.A5, PLAIN)
    assert with_crop_marks(data) == with_crop_marks(data)


def test_creep_is_seen_on_the_sheet():
    data = booklet(Paper.HALF_LETTER, 16)
    edges = []
    for creep in ("0 mm", "0.2 mm"):
        made = imposed(data, Paper.HALF_LETTER, Printing(imposed=True, creep=Length.of(creep)))
        with pdfplumber.open(io.BytesIO(made.data)) as opened:
            edges.append([[square["x0"] for square in page.rects] for page in opened.pages])
    for number, (without, moved) in enumerate(zip(*edges, strict=True)):
        by = 0.2 * MM * (number // 2)  # the sheet's depth
        assert moved == pytest.approx([without[0] + by, without[1] - by], abs=0.001)


def test_a_creep_past_the_margin_is_a_sentence():
    # 26 sheets of 1 mm: the innermost is moved by 25 mm
    with pytest.raises(PrintingError, match=r"innermost of 26 sheets would be moved by 25\.0 mm"):
        imposed(booklet(Paper.A5, 101), Paper.A5, Printing(imposed=True, creep=Length.of("1 mm")))


@pytest.mark.parametrize(
    ("text", "mm"), [("0.1 mm", 0.1), ("0.1mm", 0.1), ("0.004 in", 0.1016), ("0", 0), ("0.15", 0.15), ("1/10", 0.1)]
)  # fmt: skip
def test_a_creep_is_read(text, mm):
    assert read_creep(text).mm == pytest.approx(mm)


@pytest.mark.parametrize("text", ["banana", "", "-0.1 mm", "3 in", "1/0", "1e999", "nan", "0.1 u"])
def test_a_creep_that_is_none_is_a_sentence(text):
    with pytest.raises(PrintingError, match=r"thickness of one sheet, as `0\.1 mm`"):
        read_creep(text)


# crop marks


def test_crop_marks_stand_outside_the_trimmed_page_and_the_tags_stay():
    plain = booklet(Paper.A5, 2)
    marked = with_crop_marks(plain)
    before = pypdf.PdfReader(io.BytesIO(plain))
    after = pypdf.PdfReader(io.BytesIO(marked))
    trim = before.pages[0].mediabox
    for page in after.pages:
        assert [float(x) for x in page.trimbox] == pytest.approx([float(x) for x in trim])
        assert [float(x) for x in page.bleedbox] == pytest.approx([float(x) for x in trim])
        assert float(page.mediabox.left) == pytest.approx(float(trim.left) - AROUND)
    root = after.trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"] and "/StructTreeRoot" in root
    with pdfplumber.open(io.BytesIO(marked)) as opened:
        page = opened.pages[0]
        left, low, right, top = (float(x) for x in trim)
        assert len(page.lines) == 8
        for line in page.lines:  # in line with an edge of the trimmed page, and clear of the page
            x0, x1 = line["x0"], line["x1"]
            y0, y1 = (
                line["y0"] - AROUND,
                line["y1"] - AROUND,
            )  # pdfplumber counts y from the media box
            at, edges = (x0, (left, right)) if x1 - x0 < 0.01 else (y0, (low, top))
            assert min(abs(at - edge) for edge in edges) < 0.01
            assert x1 < left - 8 or x0 > right + 8 or y1 < low - 8 or y0 > top + 8
        (square,) = page.rects
        assert square["width"] == pytest.approx(50 * MM, abs=0.01)


def test_imposed_sheets_may_have_crop_marks_too():
    made = imposed(booklet(Paper.A5, 4), Paper.A5, Printing(imposed=True, crop_marks=True))
    with pdfplumber.open(io.BytesIO(made.data)) as opened:
        assert len(opened.pages[0].lines) == 2 + 8  # the fold, the corners
    side = pypdf.PdfReader(io.BytesIO(made.data)).pages[0]
    # the trim box is what is left when the sheet is trimmed (PDF 2.0, 14.11.2): two A5 pages are 296 x 210 mm
    box = side.trimbox
    assert (float(box.width), float(box.height)) == pytest.approx((296 * MM, 210 * MM), abs=0.01)
    assert float(side.mediabox.width) == pytest.approx(297 * MM + 2 * AROUND, abs=0.01)
    assert float(box.left) == pytest.approx(0.5 * MM + AROUND, abs=0.01)
