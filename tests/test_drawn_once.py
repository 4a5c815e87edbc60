"""A picture drawn once and kept as a form looks like one drawn anew, whatever it holds and wherever it stands."""

import base64
import io
import re

import numpy as np
import pypdfium2
import pytest
from PIL import Image

from booklet.pages.prepress import form_objects, pdf

SVG = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 60" width="100mm" height="60mm">{}</svg>'
HATCH = (
    '<defs><pattern id="h" patternUnits="userSpaceOnUse" width="6" height="6">'
    '<path d="M0 0L6 6" stroke="#246"/></pattern></defs><rect width="90" height="50" fill="url(#h)"/>'
)
PICTURES = {
    "lines": '<path d="M0 0L100 60M0 60L100 0" stroke="#000" stroke-width="2"/>',
    "words": '<text x="50" y="30" font-size="9" font-family="Source Sans Pro" text-anchor="middle">Ax 3½</text>',
    "hatching": HATCH,
    "pale": '<g opacity="0.5"><circle cx="40" cy="30" r="25"/><rect width="50" height="30" fill="red"/></g>',
    "gradient": '<defs><linearGradient id="g"><stop stop-color="red"/><stop offset="1" stop-color="blue"/>'
    '</linearGradient></defs><rect width="100" height="60" fill="url(#g)"/>',
    "masked": '<defs><mask id="m"><circle cx="40" cy="30" r="25" fill="white"/></mask></defs>'
    '<rect width="100" height="60" mask="url(#m)"/>',
}
IN_FORMS = {"lines", "words", "hatching", "pale"}


def photograph() -> str:
    out = io.BytesIO()
    Image.effect_noise((40, 24), 60).save(out, "PNG")
    data = base64.b64encode(out.getvalue()).decode()
    return f'<image href="data:image/png;base64,{data}" width="100" height="60"/>'


def page(*drawings: str, before: str = "") -> str:
    """A print page with pictures and words below each other."""
    addresses = (base64.b64encode(SVG.format(d).encode()).decode() for d in drawings)
    pictures = (f'<img src="data:image/svg+xml;base64,{each}" alt="p">' for each in addresses)
    return (
        '<html lang="en"><title>A</title><style>body{font-family:"Source Sans Pro"}img{margin:3mm}</style>'
        f"<body>{before}<p>Words, 3½ wide.</p>{'<p>more</p>'.join(pictures)}</body></html>"
    )


def looks(data: bytes) -> np.ndarray:
    """The first page as its grey values."""
    shown = pypdfium2.PdfDocument(data)[0].render(scale=1.5).to_numpy()
    return shown[:, :, :3].astype(int)


def text(data: bytes) -> str:
    return pypdfium2.PdfDocument(data)[0].get_textpage().get_text_bounded()


@pytest.fixture
def plainly(monkeypatch):
    """Makes a PDF as WeasyPrint does by itself."""

    def made(html: str) -> bytes:
        with monkeypatch.context() as patch:
            patch.setattr(form_objects.FormObjects, "images", lambda self, pictures: {})
            return pdf.make_pdf(html).data

    return made


@pytest.mark.parametrize(
    "drawing", [*PICTURES.values(), photograph()], ids=[*PICTURES, "photograph"]
)
def test_a_kept_picture_looks_like_one_drawn_anew(drawing, plainly):
    html = page(drawing, PICTURES["words"], drawing)
    again = pdf.make_pdf(html).data, pdf.make_pdf(html).data
    assert again[0] == again[1]
    apart = np.abs(looks(again[1]) - looks(plainly(html)))
    assert (
        apart.max() <= 32 and apart.mean() < 0.02
    )  # of 255: only where edges of lines are smoothed
    assert text(again[1]) == text(plainly(html))


@pytest.mark.parametrize("name", PICTURES)
def test_what_belongs_to_one_document_is_not_kept(name, monkeypatch):
    kept = {}
    monkeypatch.setattr(
        form_objects.FormObjects,
        "_keep",
        lambda self, key, drawn: (kept.update({key: drawn}), keep(self, key, drawn)),
    )
    pdf.make_pdf(page(PICTURES[name] + "<!-- for this test -->"))
    (drawn,) = kept.values()
    assert (drawn is not None) == (name in IN_FORMS)


keep = form_objects.FormObjects._keep


def test_bytes_do_not_depend_on_what_was_made_before():
    first = page(PICTURES["words"].replace("Ax", "Qy"), before="<p>Other words: vwz</p>")
    second = page(PICTURES["words"].replace("Ax", "Qy"), PICTURES["lines"])
    pdf._maker.cache_clear()
    one = pdf.make_pdf(first).data, pdf.make_pdf(second).data
    pdf._maker.cache_clear()
    two = pdf.make_pdf(second).data, pdf.make_pdf(first).data
    assert one == two[::-1]


def test_a_picture_is_drawn_once_for_all_documents(monkeypatch):
    drawn = []
    real = form_objects._drawn
    monkeypatch.setattr(form_objects, "_drawn", lambda *given: drawn.append(1) or real(*given))
    pdf._maker.cache_clear()
    html = page(PICTURES["words"], PICTURES["hatching"])
    pdf.make_pdf(html)
    pdf.make_pdf(html.replace("Words", "Other words"))
    assert len(drawn) == 2


def test_no_more_is_kept_than_has_room(monkeypatch):
    monkeypatch.setattr(form_objects, "KEPT", 3 * form_objects._OWN)
    pdf._maker.cache_clear()
    *_, kept = pdf._maker()
    pdf.make_pdf(page(*(f'<path d="M0 {n}H9" stroke="red"/>' for n in range(6))))
    assert 1 <= len(kept._drawn) <= 3 and kept._bytes <= form_objects.KEPT


def test_a_font_is_held_once_for_all_pictures():
    # two pictures with other words: two sets of glyphs, of one file of some 270 KB
    pdf._maker.cache_clear()
    *_, kept = pdf._maker()
    pdf.make_pdf(page(PICTURES["words"], PICTURES["words"].replace("Ax", "Qy")))
    fonts = [font for drawn in kept._drawn.values() for font in drawn.fonts.values()]
    assert len(fonts) == 2 and len({id(font.file_content) for font in fonts}) == 1
    signs = [set(font.to_unicode.values()) for font in fonts]
    assert signs == [set("Ax3½"), set("Qy3½")]  # spaces are moves, not signs


def test_fonts_stand_in_the_order_in_which_a_picture_shows_them():
    pdf._maker.cache_clear()
    serif = PICTURES["words"].replace("Sans", "Serif")
    both = (serif + PICTURES["words"]).replace("Ax", "Both")
    anew = pdf.make_pdf(page(both)).data
    pdf.make_pdf(page(PICTURES["words"], serif))  # known now, the other way round
    assert pdf.make_pdf(page(both)).data == anew


def test_a_picture_that_waits_is_held_as_its_outer_element(monkeypatch):
    held = []
    real = form_objects._empty
    monkeypatch.setattr(form_objects, "_empty", lambda image: (real(image), held.append(image)))
    pdf.make_pdf(page(PICTURES["hatching"]))
    (image,) = held
    root = image._svg.tree._etree_node
    assert len(root) == 0 and root.get("width") == "100mm"
    assert image.get_intrinsic_size(1, 16)[0] == pytest.approx(100 / 25.4 * 96)
    assert not hasattr(image._context, "style_for")


def test_long_addresses_are_set_aside_and_found_again():
    html = page(PICTURES["lines"], PICTURES["words"], PICTURES["lines"])
    shorter, pictures = form_objects.set_aside(html)
    assert len(pictures) == 2 and "base64" not in shorter
    for short, own in sorted(pictures.items(), reverse=True):
        shorter = shorter.replace(f'"{short}"', f'"{own}"')
    assert shorter == html


@pytest.mark.parametrize(
    "rule",
    [
        "float: footnote",
        "float: FootNote",
        r"float: foot\6e ote",
        r"float: f\ootnote",
        "position: note(side)",
    ],
)
def test_notes_have_their_styles_where_a_page_has_notes(rule):
    # with a note WeasyPrint sets its number, 1, as a call in its place
    html = page().replace("Words,", f'<span style="{rule}">aside</span> Words,')
    made = pdf.make_pdf(html)
    assert text(made.data).startswith("1") and not made.complaints


def test_pages_are_alike_with_and_without_the_styles_of_notes(monkeypatch):
    html = page(PICTURES["words"])
    without = pdf.make_pdf(html).data
    monkeypatch.setattr(pdf, "_NOTES", re.compile(""))  # found on every page
    assert pdf.make_pdf(html).data == without


def test_a_large_document_is_the_same_bytes(monkeypatch):
    html = page(PICTURES["words"], PICTURES["hatching"])
    small = pdf.make_pdf(html)
    collected = []
    monkeypatch.setattr(pdf, "MANY_PAGES", 0)
    monkeypatch.setattr(pdf.gc, "collect", lambda *which: collected.append(which))
    assert pdf.make_pdf(html) == small and collected == [()]


def test_pictures_that_differ_in_words_and_name_alone_are_drawn_once(monkeypatch):
    drawn = []
    real = form_objects._drawn
    monkeypatch.setattr(form_objects, "_drawn", lambda *given: drawn.append(1) or real(*given))

    def named(name: str, title: str, fill: str = "#246") -> str:
        picture = SVG.format(f'<title id="{name}-t">{title}</title>{HATCH}').replace("#246", fill)
        picture = picture.replace('id="h"', f'id="{name}-h"').replace("#h)", f"#{name}-h)")
        return picture.replace("<svg ", f'<svg id="{name}" aria-labelledby="{name}-t" ', 1)

    def shown(*pictures: str) -> str:
        made = (base64.b64encode(each.encode()).decode() for each in pictures)
        images = (f'<img src="data:image/svg+xml;base64,{each}" alt="p">' for each in made)
        return f"<html lang='en'><title>A</title><body>{'<p>more</p>'.join(images)}</body></html>"

    pdf._maker.cache_clear()
    pdf.make_pdf(shown(named("lap-one", "Lap"), named("bed-one", "Bed, as large as it is")))
    assert len(drawn) == 1
    pdf.make_pdf(shown(named("lap-one", "Lap"), named("lap-one", "Lap", "#a23")))
    assert len(drawn) == 2
