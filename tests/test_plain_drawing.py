"""A picture of ours that is spelled as PDF looks like the one WeasyPrint draws; any other is left to WeasyPrint."""

import base64

import numpy as np
import pypdfium2
import pytest
from test_copies import sheet

from booklet.drawing.ink.svg import FONT, figure
from booklet.drawing.scene import Area, Fill, Ink, Label, Line, Mark, Scene, Sign
from booklet.pages.pictures.figures import image_svg
from booklet.pages.prepress import form_objects, pdf
from booklet.pages.prepress.copies import READER
from booklet.pages.prepress.letters_drawn import LettersDrawn
from booklet.pages.prepress.plain_drawing import Glyph, plain_drawing
from booklet.pages.style.fonts import FACES, SANS, text_width


def scene(*items):
    return Scene(name="one", width=80, height=50, items=items, title="One", alt="One picture.")


def square(x, y, side=14.0):
    return ((x, y), (x + side, y), (x + side, y + side), (x, y + side))


SCENES = {
    "inks": scene(
        *(
            Line(
                points=((3, 2 + n), (60, 2 + n), (70, 4 + n)),
                ink=ink,
                halo=n % 3 == 0,
                end_arrow=n % 4 == 1,
            )
            for n, ink in enumerate(Ink)
        )
    ),
    "outlines": scene(
        *(
            Area(square(2 + 3 * n, 2 + 2 * n), Fill("#cc7722", 0), ink)
            for n, ink in enumerate((*list(Ink)[:8], None))
        ),
        Area(square(40, 3), None, Ink.PATCH, more=(square(43, 6, 8.0),)),
        Area(square(60, 3), Fill("#204080"), Ink.RIM, more=(square(63, 6, 8.0)[::-1],)),
    ),
    "hatches": scene(
        *(
            Area(square(1 + 15 * (n % 5), 1 + 16 * (n // 5)), Fill("#cc7722", n), Ink.PATCH)
            for n in range(1, 13)
        ),
        Area(square(46.5, 33.2), Fill("#cc7722", 3, wrong_side=True), None),
        Area(square(61, 33.2), Fill("#1d2a38", 9, tint=True), Ink.TONAL),
    ),
    "marks": scene(
        *(
            Sign((6 + 14 * (n % 5), 8 + 14 * (n // 5)), mark, 25.0 * n)
            for n, mark in enumerate(Mark)
        )
    ),
    "words": scene(
        Label(at=(40, 5), text="7½ × 6 in, größer & <fein>"),
        Label(at=(3, 12), text="Œuf ⅓ – “so”", anchor="start", bold=True, size=11),
        Label(at=(78, 19), text="end of it", anchor="end", muted=True),
        Label(at=(40, 26), text="lifted", halo=True, accent=True, bold=True),
        Label(at=(20, 36), text="A12", plate=True, bold=True),
        Label(at=(50, 38), text="turned", turn=-70.0),
        Label(at=(62, 38), text="slanting", turn=30.0, anchor="start"),
        Label(at=(30, 46), text="two  blanks\u00a0and one", bold=True),
    ),
}


def page(svg):
    return f'<html lang="en"><title>A</title><body><p>{svg}</p>'


def looks(data, scale=4.0):
    return pypdfium2.PdfDocument(data)[0].render(scale=scale).to_numpy()[:, :, :3].astype(int)


def text(data):
    return pypdfium2.PdfDocument(data)[0].get_textpage().get_text_bounded()


@pytest.fixture
def left(monkeypatch):
    """Makes a PDF with all pictures left to WeasyPrint."""

    def made(html):
        pdf._maker.cache_clear()
        with monkeypatch.context() as patch:
            patch.setattr(form_objects, "plain_drawing", lambda *given: None)
            made = pdf.make_pdf(html).data
        pdf._maker.cache_clear()
        return made

    return made


@pytest.mark.parametrize("name", SCENES)
def test_a_picture_of_ours_looks_as_weasyprint_draws_it(name, left, monkeypatch):
    html = page(image_svg(figure(SCENES[name], "Caption"), "p"))
    by_other_hand = left(html)
    monkeypatch.setattr(form_objects, "_drawn", None)  # nothing is left to WeasyPrint
    ours = pdf.make_pdf(html).data
    apart = np.abs(looks(ours) - looks(by_other_hand)).max(axis=2)
    # a letter may begin a quarter of a pixel aside: 1/50 mm here; a line at the wrong place or of another width is far more
    assert (apart > 48).mean() < (0.002 if name == "words" else 0.0001)
    assert apart.mean() < 0.2
    assert "".join(text(ours).split()) == "".join(text(by_other_hand).split())


def test_no_picture_of_a_booklet_is_left(monkeypatch):
    monkeypatch.setattr(form_objects, "_drawn", None)
    pdf._maker.cache_clear()
    assert pdf.make_pdf(sheet(True).replace(READER, "Ida")).complaints == ()


def test_pictures_are_smaller_than_weasyprint_makes_them(left):
    html = page(image_svg(figure(SCENES["words"], "Caption"), "p"))
    assert len(pdf.make_pdf(html).data) < len(left(html))


def glyphs(weight, words):
    return {sign: Glyph("key", "F", None if sign == " " else ord(sign), 500.0) for sign in words}


def drawn(inner, attributes=f'viewBox="0 0 80 50" font-family="{FONT}"'):
    svg = f'<svg xmlns="http://www.w3.org/2000/svg" {attributes}>{inner}</svg>'
    return plain_drawing(svg.encode(), 160, 100, glyphs)


def test_a_picture_is_spelled_line_by_line():
    # 160 of 80: twice as large; black is the fill of SVG where none is said, 255/255 = 1
    made = drawn(
        '<path d="M1 2L3 4Z" stroke="#ff0000"/><path d="M1 2L-3 4.5" fill="none" stroke="#ff0000"/>'
    )
    assert made.lines.decode().split("\n") == [
        "2 0 0 2 0 0 cm", "4 M",
        "0 0 0 rg", "1 0 0 RG", "1 w", "[] 0 d", "0 J", "0 j", "1 2 m", "3 4 l", "h", "B",
        "1 2 m", "-3 4.5 l", "S",
    ]  # fmt: skip


def test_words_stand_by_their_anchor_with_room_for_blanks():
    # three signs of half an em of 10: 15 long, so the middle of 40 begins at 32.5; a blank is a move of 500 thousandths
    made = drawn('<text x="40" y="7" font-size="10" text-anchor="middle">A B</text>')
    assert made.lines.decode().split("\n")[2:] == [
        "0 0 0 rg", "0 Tr", "BT", "1 0 0 -1 32.5 7 Tm", "/F 10 Tf", "[<0041>-500<0042>] TJ", "ET",
    ]  # fmt: skip
    assert made.shown == {"key": {65: ("A", 500.0), 66: ("B", 500.0)}}


def test_a_hatch_begins_at_the_corner_of_its_area():
    # at 5, 6 of a picture shown twice as large: 10, 12
    made = drawn(
        '<defs><pattern id="h" patternUnits="userSpaceOnUse" width="2" height="3"><path d="M0 0L2 3" '
        'stroke="#000000"/></pattern></defs><path d="M5 9L8 6L9 9Z" fill="url(#h)"/>'
    )
    (hatch,) = made.hatches.values()
    assert hatch.tile == (2, 3) and hatch.matrix == (2, 0, 0, 2, 10, 12)


PATH = '<path d="{}" stroke="#000000"/>'


@pytest.mark.parametrize(
    "inner",
    [
        '<rect width="4" height="4"/>',
        '<g><path d="M1 2L3 4"/></g>',
        '<path d="M1 2L3 4" style="fill:red"/>',
        '<path d="M1 2L3 4" transform="scale(2)"/>',
        '<path d="M1 2L3 4" opacity="0.5"/>',
        '<path d="M1 2L3 4" fill="red"/>',
        '<path d="M1 2L3 4" fill="url(#none)"/>',
        '<path d="M1 2L3 4" stroke="#000000" stroke-width="10%"/>',
        '<path d="M1 2L3 4" stroke="#000000" stroke-linejoin="arcs"/>',
        *map(PATH.format, ("m1 2l3 4", "M1,2L3,4", "M1 2 3 4", "M1 2C3 4 5 6 7 8", "L1 2", "M1e1 2L3 4", "M1 2LZ")),
        '<text x="1" y="2" font-size="3">a<tspan>b</tspan></text>',
        '<text x="1 2" y="2" font-size="3">ab</text>',
        '<text x="1" y="2" font-size="3em">ab</text>',
        '<text x="1" y="2" font-size="3" text-anchor="centre">ab</text>',
        '<text x="1" y="2" font-size="3" transform="rotate(3)">ab</text>',
        '<text x="1" y="2" font-size="3" fill="url(#h)">ab</text>',
        '<circle cx="1" cy="2" r="-3%"/>',
    ],
)  # fmt: skip
def test_what_we_never_write_is_left_to_weasyprint(inner):
    assert drawn(inner) is None


def test_a_picture_in_another_font_or_with_another_corner_is_left():
    assert drawn("", 'viewBox="0 0 80 50"') is None
    assert drawn("", f'viewBox="1 0 80 50" font-family="{FONT}"') is None
    assert drawn("", f'font-family="{FONT}"') is None
    assert drawn("", f'viewBox="0 0 80 50" font-family="{FONT}"').lines == b"2 0 0 2 0 0 cm\n4 M"


def test_a_sign_that_is_no_glyph_leaves_its_picture():
    svg = f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 8 5" font-family="{FONT}"><text x="1" y="2" font-size="3">a</text></svg>'
    assert plain_drawing(svg.encode(), 8, 5, lambda weight, words: None) is None


@pytest.mark.parametrize("weight", [400, 600])
def test_letters_are_as_wide_as_the_font_says(weight, monkeypatch):
    seen = {}
    real = LettersDrawn.of

    def of(self, probe, weight, words):
        seen.update(
            {(weight, sign): glyph for sign, glyph in real(self, probe, weight, words).items()}
        )
        return real(self, probe, weight, words)

    monkeypatch.setattr(LettersDrawn, "of", of)
    pdf._maker.cache_clear()
    label = Label(at=(40, 5), text="Ag ñ7½×W", bold=weight == 600)
    pdf.make_pdf(page(image_svg(figure(scene(label), "Caption"), "p")))
    face = next(f for f in FACES if (f.family, f.weight, f.italic) == (SANS, weight, False))
    for sign in "Ag ñ7½×W":
        assert seen[weight, sign].advance == pytest.approx(text_width(face, sign, 1000), abs=0.05)
        assert (seen[weight, sign].number is None) == (sign == " ")


def test_signs_that_cannot_be_told_together_are_learnt_one_by_one():
    asked = []

    def probe(svg):
        # as WeasyPrint writes them; nothing that can be read where the odd sign is among them
        words = svg.decode().split(">")[2].split("<")[0]
        asked.append(words)
        shown = [f"1 0 0 -1 {50 * n} 9 Tm\n[<{ord(sign):04x}>0] TJ" for n, sign in enumerate(words)]
        return [b"/F 100 Tf", *(line.encode() for line in shown if "?" not in words)], {"F": "key"}

    letters = LettersDrawn()
    assert letters.of(probe, 400, "a?") is None
    assert letters.of(probe, 400, "a") == {"a": Glyph("key", "F", ord("a"), 500.0)}
    assert asked == ["nnan?n", "nnan", "nn?n"]  # what is known is not asked again


def test_bytes_do_not_depend_on_the_letters_learnt_before():
    one, two = (
        page(image_svg(figure(scene(Label(at=(40, 5), text=words)), "Caption"), "p"))
        for words in ("Abc def", "fed Xyz")
    )
    pdf._maker.cache_clear()
    first = pdf.make_pdf(one).data, pdf.make_pdf(two).data
    pdf._maker.cache_clear()
    second = pdf.make_pdf(two).data, pdf.make_pdf(one).data
    assert first == second[::-1]


def test_an_address_that_holds_a_picture_otherwise_is_left(left):
    svg = image_svg(figure(SCENES["marks"], "Caption"), "p")
    data = svg.split("base64,")[1].split('"')[0]
    words = base64.b64decode(data).decode().replace("#", "%23").replace('"', "'")
    html = page(svg.replace(f"data:image/svg+xml;base64,{data}", f"data:image/svg+xml,{words}"))
    assert (np.abs(looks(pdf.make_pdf(html).data) - looks(left(html))) > 8).mean() < 0.001
