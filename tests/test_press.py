"""Booklets for a print shop (PDF/X-4) and for an archive (PDF/A-3).

What is asked is what public summaries of the standards say: of PDF/X the application notes of CGATS (2002) for boxes, dates, title
and the trapping key; of ISO 15930-7 (PDF/X-4) and ISO 19005-3 (PDF/A-3), which cannot be read freely, from memory; where a line says nothing
else it is from there. ICC.1:2022 is public.
"""

import base64
import io
import re

import corpus
import pypdf
import pypdfium2
import pytest
from PIL import Image, ImageCms
from source_helpers import GOOD, PATTERNS

from booklet.__main__ import main
from booklet.exports.press.printed import PrintJob, printed
from booklet.exports.press.printing import Printing as Asked, PrintingError, read_profile
from booklet.exports.press.sheets import bound_together
from booklet.kit.records import replace
from booklet.layouts import Layouts
from booklet.pages.composing import compose
from booklet.pages.prepress.inks import Inks, ProfileError, grey_profile
from booklet.pages.prepress.variants import Attached
from booklet.pattern import Paper

MM = 72 / 25.4
GREY = grey_profile()


def photograph(kind: str) -> str:
    made = io.BytesIO()
    Image.new("RGB", (4, 4), (200, 30, 30)).save(made, kind)
    return f"data:image/{kind};base64,{base64.b64encode(made.getvalue()).decode()}"


DRAWN = base64.b64encode(
    b'<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"><rect width="9" height="9" fill="#a23b12"/></svg>'
).decode()
PAGE = f"""<html lang="en"><head><title>Tile</title><style>@page {{ size: 148mm 210mm; margin: 0 }}
.cover {{ position: relative; height: 200mm }} .cover-wall {{ position: absolute; inset: 50mm 0 0 0 }}
p {{ color: #1d2a38; background: #cc2222 }}</style></head><body><h1 id="a">Tile</h1><p><a href="#a">up</a>
<a href="https://example.org/">out</a></p><img alt="a" src="{photograph("jpeg")}"><img alt="b" src="{photograph("png")}">
<img alt="c" src="data:image/svg+xml;base64,{DRAWN}"><div style="opacity:.5"><p>pale</p></div>
<div style="height:9mm;background:linear-gradient(red,blue)"></div></body></html>"""


def made(printing: Asked, html: str = PAGE, paper: Paper = Paper.A5):
    (copy,) = printed(PrintJob(html, paper, printing))
    ((ending, data),) = copy.files
    assert copy.said == ()
    return ending, pypdf.PdfReader(io.BytesIO(data), strict=True), data


@pytest.fixture(scope="module")
def press():
    return made(Asked(profile=GREY))


def streams(reader):
    """Every stream of a PDF."""
    count = int(reader.trailer["/Size"])
    for number in range(1, count):
        found = reader.get_object(pypdf.generic.IndirectObject(number, 0, reader))
        if isinstance(found, pypdf.generic.StreamObject):
            yield found


def test_a_press_gets_bleed_and_boxes_within_each_other(press):
    ending, reader, _ = press
    assert ending == "-press.pdf" and reader.pdf_header == "%PDF-1.6"
    for page in reader.pages:
        trim, bleed = (list(map(float, box)) for box in (page["/TrimBox"], page["/BleedBox"]))
        # 148 x 210 mm, and 3 mm on each side
        assert trim == pytest.approx([0, 0, 148 * MM, 210 * MM], abs=0.01)
        out = 3 * MM
        assert bleed == pytest.approx([-out, -out, 148 * MM + out, 210 * MM + out], abs=0.01)
        assert list(map(float, page["/MediaBox"])) == pytest.approx(bleed)
        assert "/ArtBox" not in page  # trim box or art box, not both (CGATS notes)
        assert "/Annots" not in page


def test_on_letter_papers_the_bleed_is_an_eighth_of_an_inch():
    _, reader, _ = made(Asked(profile=GREY), PAGE, Paper.HALF_LETTER)
    assert float(reader.pages[0]["/BleedBox"][0]) == pytest.approx(-9)  # 72 / 8 points


def test_a_press_is_told_its_inks_and_the_document_its_dates(press):
    _, reader, _ = press
    (intent,) = reader.trailer["/Root"]["/OutputIntents"]
    assert intent["/S"] == "/GTS_PDFX" and intent["/OutputConditionIdentifier"]
    assert intent["/DestOutputProfile"].get_data() == GREY
    assert intent["/DestOutputProfile"]["/N"] == 1
    told = reader.metadata
    assert told["/Title"] == "Tile" and told["/Trapped"] == "/False"
    assert told["/CreationDate"] and told["/ModDate"] and reader.trailer["/ID"]
    xmp = reader.trailer["/Root"]["/Metadata"].get_data().decode()
    assert "<pdfxid:GTS_PDFXVersion>PDF/X-4</pdfxid:GTS_PDFXVersion>" in xmp
    for entry in ("xmpMM:DocumentID", "xmpMM:VersionID", "xmpMM:RenditionClass", "pdf:Trapped"):
        assert f"<{entry}>" in xmp
    for entry in ("xmp:CreateDate", "xmp:ModifyDate", "xmp:MetadataDate"):
        assert f"<{entry}>" in xmp


def test_no_colour_is_left_but_the_inks_and_what_says_its_own_space(press):
    _, reader, data = press
    shown = 0
    for stream in streams(reader):
        if stream.get("/Subtype") == "/Image":
            assert stream["/ColorSpace"] == "/DeviceGray"
            shown += 1
        elif stream.get("/Type") not in ("/Metadata",) and b" Tf" in stream.get_data()[:99999]:
            assert not re.search(rb"[\d.]+ [\d.]+ [\d.]+ (rg|RG)\b", stream.get_data())
    assert shown == 2 and b"/DeviceRGB" not in data
    assert b"0 g\n" in reader.pages[0].get_contents().get_data()  # our letters are black ink alone


def test_photographs_come_in_the_brightness_the_profile_gives(press):
    _, reader, _ = press
    pictures = [s for s in streams(reader) if s.get("/Subtype") == "/Image"]
    # sRGB 200, 30, 30 is 0.13 of white (0.2126 * 0.578 + 0.7874 * 0.013, WCAG 2.2); to the power of 1 / 2.2: 0.40
    for picture in pictures[:1]:
        assert set(picture.get_data()) and min(picture.get_data()) == pytest.approx(102, abs=4)


def test_crop_marks_stand_outside_the_bleed():
    ending, reader, _ = made(Asked(profile=GREY, crop_marks=True), PAGE, Paper.HALF_LETTER)
    assert ending == "-press-crop-marks.pdf" and reader.pdf_header == "%PDF-1.6"
    page = reader.pages[0]
    assert float(page["/BleedBox"][0]) == pytest.approx(-9)
    assert float(page["/MediaBox"][0]) < -9 and "/ArtBox" not in page
    starts = re.findall(rb"(-?[\d.]+) (-?[\d.]+) m", page.get_contents().get_data())[-8:]
    assert all(
        min(float(x), float(y)) < -9 or float(x) > 148 * MM + 9 or float(y) > 210 * MM + 9
        for x, y in starts
    )


def test_the_same_pages_give_the_same_bytes_by_the_clock_of_no_one(press):
    assert made(Asked(profile=GREY))[2] == press[2]


def test_the_copies_of_a_class_stay_for_the_press_in_one_file(press):
    whole = pypdf.PdfReader(io.BytesIO(bound_together([press[2], press[2]])), strict=True)
    assert len(whole.pages) == 4  # a page each, and an empty one so that each begins on a front
    for page in whole.pages:
        assert page["/TrimBox"] == whole.pages[0]["/TrimBox"]
        assert page["/MediaBox"] == whole.pages[0]["/MediaBox"]
    (intent,) = whole.trailer["/Root"]["/OutputIntents"]
    assert intent["/DestOutputProfile"].get_data() == GREY and whole.metadata["/Trapped"]
    assert "PDF/X-4" in whole.trailer["/Root"]["/Metadata"].get_data().decode()


def test_an_archive_carries_source_and_facts_and_can_be_read_aloud():
    files = (
        Attached("pattern.yaml", b"title: Tile\n", "Source"),
        Attached("facts.json", b"{}", "Data"),
    )
    ending, reader, data = made(Asked(attached=files))
    assert ending == "-archive.pdf" and data == made(Asked(attached=files))[2]
    root = reader.trailer["/Root"]
    assert reader.attachments == {"pattern.yaml": [b"title: Tile\n"], "facts.json": [b"{}"]}
    told = [file.get_object() for file in root["/AF"]]
    assert {file["/AFRelationship"] for file in told} == {"/Source", "/Data"}
    assert all(file["/EF"]["/F"].get_object()["/Subtype"] for file in told)
    (intent,) = root["/OutputIntents"]
    assert intent["/S"] == "/GTS_PDFA1" and intent["/DestOutputProfile"]["/N"] == 3
    xmp = root["/Metadata"].get_data().decode()
    assert 'pdfaid:part="3"' in xmp and 'pdfaid:conformance="A"' in xmp
    assert 'pdfuaid:part="1"' in xmp and "<pdfaSchema:prefix>pdfuaid<" in xmp
    assert root["/MarkInfo"]["/Marked"] and root["/Lang"] == "en" and "/StructTreeRoot" in root
    for page in reader.pages:
        assert all(int(each.get_object()["/F"]) & 4 for each in page["/Annots"])  # printed


@pytest.mark.parametrize("low_ink", [False, True])
def test_what_runs_to_the_edge_runs_on_to_the_bleed(low_ink):
    plan = corpus.plan_of(PATTERNS / "four_patch")
    edition = plan.pattern.booklet.editions[0]
    pages = tuple(replace(edition.pages[0], name=name) for name in ("cover", "back-cover"))
    html = compose(plan, replace(edition, pages=pages), paper=Paper.A5, sizes=("cushion",)).html
    _, reader, data = made(Asked(profile=GREY, low_ink=low_ink), html)
    media = [float(side) for side in reader.pages[0]["/MediaBox"]]
    cover = pypdfium2.PdfDocument(data)[0].render(scale=2, crop=(0, 0, 0, 0)).to_pil().convert("L")
    assert cover.width == pytest.approx(2 * (media[2] - media[0]), abs=2)  # trim and bleed
    edges = [cover.getpixel((x, y)) for x in (2, cover.width - 3) for y in range(cover.height)]
    half = len(edges) // 2
    if low_ink:  # a line between title and quilt, and no ground
        assert min(edges[:half]) < 128 and min(edges[half:]) < 128
        assert sum(edge < 250 for edge in edges) < 12
    else:  # the ground, f1ede6, below the title, down to the last row
        for side in (edges[:half], edges[half:]):
            assert 200 < side[-3] < 250 and sum(edge < 250 for edge in side) > half / 2
            assert side[3] == 255


# profiles


def cmyk(data: bytes) -> bytes:
    """A head that says it is of a press with four inks, and nothing that could be worked with."""
    return data[:16] + b"CMYK" + data[20:]


def test_our_own_grey_profile_is_read_back_by_littlecms():
    opened = ImageCms.ImageCmsProfile(io.BytesIO(GREY)).profile
    assert (opened.xcolor_space.strip(), opened.device_class.strip()) == ("GRAY", "prtr")
    inks = Inks(GREY)
    assert inks.of((1.0, 1.0, 1.0)) == (1.0,) and inks.of((0.0, 0.0, 0.0)) == (0.0,)
    assert inks.of((0.5, 0.5, 0.5))[0] == pytest.approx(0.5, abs=0.01)


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (None, "there is no file `shop.icc`; give the profile"),
        (b"", "`shop.icc` is no colour profile, or not all of it"),
        (b"%PDF-1.7 " * 30, "is no colour profile"),
        (GREY[:-1], "is no colour profile, or not all of it"),
        (GREY[:12] + b"mntr" + GREY[16:], "not of a press that prints CMYK or grey"),
        (bytes(2**24 + 1), "has more than 16 MB"),
    ],
)
def test_a_profile_that_is_none_is_refused_with_the_reason(data, words, tmp_path):
    file = tmp_path / "shop.icc"
    if data is not None:
        file.write_bytes(data)
    with pytest.raises(PrintingError, match=re.escape(words)):
        read_profile(file)


@pytest.mark.parametrize("data", [cmyk(GREY), GREY[:140] + bytes(len(GREY) - 140)])
def test_a_profile_with_a_sound_head_and_nothing_in_it_is_refused_too(data):
    with pytest.raises(ProfileError, match="damaged"):
        Inks(data)


def test_a_damaged_profile_is_met_behind_the_walls_and_told():
    layouts = Layouts(1)
    try:
        job = PrintJob(PAGE, Paper.A5, Asked(profile=cmyk(GREY)))
        with pytest.raises(PrintingError, match=r"damaged.*; give another with `--profile`"):
            layouts.submit(job, "`x.pdf`").result(timeout=300)
    finally:
        layouts.close()


@pytest.mark.parametrize(
    ("options", "words"),
    [
        (["--for-printer", "--imposed"], "a print shop imposes pages itself"),
        (["--profile", "x.icc"], "add `--for-printer`"),
        (["--archive", "--for-printer"], "in a build of their own"),
        (["--for-printer", "--web"], "is for PDF files, and `--web` makes none"),
        (["--for-printer", "--profile", "x.icc"], "there is no file `x.icc`"),
    ],
)
def test_what_cannot_go_together_is_said(options, words, tmp_path, capsys):
    (tmp_path / "pattern.yaml").write_text(GOOD, encoding="utf-8")
    assert main(["build", str(tmp_path), *options]) in (1, 2)
    assert words in capsys.readouterr().err
