"""A picture drawn once and kept as a form looks like one drawn anew, whatever it holds and wherever it stands."""

import base64
import io

import numpy as np
import pypdfium2
import pytest
from PIL import Image

from booklet.pages import forms, pdf

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
            patch.setattr(forms.Forms, "images", lambda self, pictures: {})
            return pdf.write_pdf(html)

    return made


@pytest.mark.parametrize(
    "drawing", [*PICTURES.values(), photograph()], ids=[*PICTURES, "photograph"]
)
def test_a_kept_picture_looks_like_one_drawn_anew(drawing, plainly):
    html = page(drawing, PICTURES["words"], drawing)
    again = pdf.write_pdf(html), pdf.write_pdf(html)
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
        forms.Forms,
        "_keep",
        lambda self, key, drawn: (kept.update({key: drawn}), keep(self, key, drawn)),
    )
    pdf.write_pdf(page(PICTURES[name] + "<!-- for this test -->"))
    (drawn,) = kept.values()
    assert (drawn is not None) == (name in IN_FORMS)


keep = forms.Forms._keep


def test_bytes_do_not_depend_on_what_was_made_before():
    first = page(PICTURES["words"].replace("Ax", "Qy"), before="<p>Other words: vwz</p>")
    second = page(PICTURES["words"].replace("Ax", "Qy"), PICTURES["lines"])
    pdf._maker.cache_clear()
    one = pdf.write_pdf(first), pdf.write_pdf(second)
    pdf._maker.cache_clear()
    two = pdf.write_pdf(second), pdf.write_pdf(first)
    assert one == two[::-1]


def test_a_picture_is_drawn_once_for_all_documents(monkeypatch):
    drawn = []
    real = forms._drawn
    monkeypatch.setattr(forms, "_drawn", lambda *given: drawn.append(1) or real(*given))
    pdf._maker.cache_clear()
    html = page(PICTURES["words"], PICTURES["hatching"])
    pdf.write_pdf(html)
    pdf.write_pdf(html.replace("Words", "Other words"))
    assert len(drawn) == 2


def test_no_more_is_kept_than_has_room(monkeypatch):
    monkeypatch.setattr(forms, "KEPT", 3 * forms._OWN)
    pdf._maker.cache_clear()
    *_, kept = pdf._maker()
    pdf.write_pdf(page(*(f'<path d="M0 {n}H9" stroke="red"/>' for n in range(6))))
    assert 1 <= len(kept._drawn) <= 3 and kept._bytes <= forms.KEPT
