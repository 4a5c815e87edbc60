"""Floor 11, look: the author's colours, font of titles and logo; the style sheet of one who is trusted."""

from __future__ import annotations

import base64
from collections.abc import Iterator
from hashlib import sha256

from markupsafe import Markup

from booklet.diagnostic import Diagnostic
from booklet.drawing.ink.colours import ACCENT, DARK, GREY, WHITE, contrast, mix
from booklet.pages.style.fonts import SANS, SERIF
from booklet.pages.texts.text_faults import picture_address
from booklet.pattern import OwnFont, Pattern, Tint

LEAST = 4.5  # to 1: the contrast of text and ground (WCAG 2.2, 1.4.3)
GROUND = "#f1ede6"  # where the author has none
_FONTS = {"serif": f'"{SERIF}", serif', "sans": f'"{SANS}", sans-serif'}


def title_face(pattern: Pattern) -> OwnFont | None:
    """The author's font of titles, or None where it is ours."""
    return pattern.fonts.get(pattern.booklet.look.title_font)


def look_rules(pattern: Pattern) -> str:
    """The style rules of a look; our own style sheet names these values."""
    look, own = pattern.booklet.look, title_face(pattern)
    titles = _FONTS.get(look.title_font, _FONTS["serif"])
    declared = ""
    if own is not None:
        name = f"own-{sha256(own.data).hexdigest()[:12]}"
        data = base64.b64encode(own.data).decode("ascii")
        declared = f'@font-face{{font-family:"{name}";src:url(data:font/woff;base64,{data})}}'
        declared += "h1,h2,.back-title{font-weight:400;font-synthesis:none}"
        titles = f'"{name}", {titles}'
    values = {"titles": titles}
    values |= {"title": look.title_colour.colour} if look.title_colour else {}
    values |= {"ground": look.ground.colour} if look.ground else {}
    return (
        declared + ":root{" + "".join(f"--{name}:{value};" for name, value in values.items()) + "}"
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
