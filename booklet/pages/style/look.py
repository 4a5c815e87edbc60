"""Floor 11, look: the author's colours, font of titles and logo; the style sheet of one who is trusted."""

from __future__ import annotations

import base64
from collections.abc import Iterator
from hashlib import sha256

from markupsafe import Markup

from booklet.drawing.ink.colours import ACCENT, DARK, GREY, WHITE
from booklet.kit.colour import contrast, mix
from booklet.kit.diagnostic import Diagnostic
from booklet.pages.style.fonts import SANS, SERIF, USUAL, stand_in
from booklet.pages.texts.text_faults import picture_address
from booklet.pattern import OwnFont, Pattern, Tint

LEAST = 4.5  # to 1: the contrast of text and ground (WCAG 2.2, 1.4.3)
GROUND = "#f1ede6"  # where the author has none
_FONTS = {"serif": f'"{SERIF}", serif', "sans": f'"{SANS}", sans-serif'}


def title_face(pattern: Pattern) -> OwnFont | None:
    """The author's font in which titles are set, or None where it is ours."""
    look = pattern.booklet.look
    return pattern.fonts.get(look.title_font or look.text_bold or look.text_font)


def text_face(pattern: Pattern) -> OwnFont | None:
    """The author's font of the text, or None where it is ours."""
    return pattern.fonts.get(pattern.booklet.look.text_font)


def look_rules(pattern: Pattern) -> str:
    """The style rules of a look; our own style sheet names these values."""
    look, own = pattern.booklet.look, pattern.fonts.get(pattern.booklet.look.title_font)
    declared, texts = _text_faces(pattern)
    titles = _FONTS.get(look.title_font, _FONTS["serif"]) if look.title_font else texts
    if own is not None:
        name = _name(own)
        declared += _face(name, own) + "h1,h2,.back-title{font-weight:400;font-synthesis:none}"
        titles = f'"{name}", {titles}'
    values = {"titles": titles}
    values |= {"text": texts} if look.text_font != "serif" else {}
    values |= {"title": look.title_colour.colour} if look.title_colour else {}
    values |= {"ground": look.ground.colour} if look.ground else {}
    return (
        declared + ":root{" + "".join(f"--{name}:{value};" for name, value in values.items()) + "}"
    )


def _text_faces(pattern: Pattern) -> tuple[str, str]:
    """The rules that declare the author's font of the text, and the fonts of the text in order. A page of paper has no
    slanted or bold letters but those of a font that is there: where the author gives none, ours stand in the same family."""
    look = pattern.booklet.look
    own = text_face(pattern)
    if own is None:
        return "", _FONTS.get(look.text_font, _FONTS["serif"])
    name = _name(own) + "-text"
    letters = USUAL.union(*pattern.texts.values())
    italic, bold = (pattern.fonts.get(each) for each in (look.text_italic, look.text_bold))
    rules = _face(name, own)
    rules += _face(name, italic, "italic") if italic else stand_in(name, 400, True, letters)
    rules += _face(name, bold, weight=600) if bold else stand_in(name, 600, False, letters)
    if bold is None:
        also = "" if look.title_font else "h1,.back-title,"
        rules += f"{also}{_NAMES_IN_TEXT}{{font-weight:400}}"
    return rules, f'"{name}", {_FONTS["serif"]}'


_NAMES_IN_TEXT = ".block-head .depth-1,.card-head :is(h3,h4,h5,h6)"


def _name(font: OwnFont) -> str:
    """What style sheets call a font of the author's."""
    return f"own-{sha256(font.data).hexdigest()[:12]}"


def _face(name: str, font: OwnFont, style: str = "normal", weight: int = 400) -> str:
    """The rule that declares a font of the author's."""
    data = base64.b64encode(font.data).decode("ascii")
    return (
        f'@font-face{{font-family:"{name}";font-style:{style};font-weight:{weight};'
        f"src:url(data:font/woff;base64,{data})}}"
    )


def own_rules(pattern: Pattern) -> str:
    """The author's style sheet, which cannot end the element it stands in."""
    return pattern.style.replace("</", "<\\/")


def logo(pattern: Pattern) -> Markup:
    """The picture of the logo, or nothing."""
    data = pattern.pictures.get(pattern.booklet.look.logo or "")
    address = picture_address(data) if data else None
    if address is None:
        return Markup()
    return Markup('<img class="logo" src="{}" alt="{}">').format(address, pattern.designer)


def look_faults(pattern: Pattern) -> Iterator[Diagnostic]:
    """The faults of a look: text that would be hard to read."""
    look = pattern.booklet.look
    ground = look.ground.colour if look.ground else GROUND
    if look.ground:
        yield from _faint("text on this ground", look.ground, (DARK, GREY, ACCENT), WHITE)
    if look.title_colour:
        grounds = (WHITE,) if look.ground and contrast(GREY, ground) < LEAST else (WHITE, ground)
        yield from _faint("a title of this colour", look.title_colour, grounds, "#000000")


def _faint(what: str, tint: Tint, against: tuple[str, ...], towards: str) -> Iterator[Diagnostic]:
    """A fault for a colour that stands out too little, with the nearest shade of it that would do."""

    def least(colour: str) -> float:
        return min(contrast(colour, other) for other in against)

    if least(tint.colour) >= LEAST:
        return
    steps = (mix(tint.colour, towards, share / 50) for share in range(51))
    better = next((step for step in steps if least(step) >= LEAST), towards)
    message = f"{what} is hard to read: {least(tint.colour):.1f} to 1, and {LEAST} to 1 is needed"
    hint = f'write "{better}", the nearest shade of it that can be read'
    yield Diagnostic(code="hard-to-read", message=message, span=tint.span, hint=hint)
