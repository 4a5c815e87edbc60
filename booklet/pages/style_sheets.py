"""Floor 11, composing: the style sheets of a document, of which all but the last are the same in other documents."""

from __future__ import annotations

from markupsafe import Markup

from booklet.pages.pictures.large import enlarged
from booklet.pages.style.look import look_rules, own_rules
from booklet.pages.style.paper import Sheet
from booklet.pages.texts.templating import filled, template_text
from booklet.pattern import Pattern

SHEETS_APART = "\n</style>\n<style>\n"
"""Between the style sheets of a print page: each is an element, so that `pdf.py` reads once what many documents share."""


def screen_rules(pattern: Pattern) -> str:
    """The style sheet of a web page, without its fonts."""
    base, screen = template_text("style.css") or "", template_text("screen.css") or ""
    return "\n".join([base, screen, look_rules(pattern), own_rules(pattern)])


def print_rules(pattern: Pattern, sheet: Sheet, foot: str, large: bool) -> str:
    """The style sheets of a print page with this line at its foot, `large` or not; the fonts come with `pdf.py`."""
    house = SHEETS_APART.join([template_text("style.css") or "", str(filled("print.css", s=sheet))])
    running = filled("running.css", title=_css_text(pattern.title), foot=_css_text(foot))
    own = "\n".join([str(running), look_rules(pattern), own_rules(pattern)])
    return SHEETS_APART.join([enlarged(house) if large else house, own])


def _css_text(text: str) -> Markup:
    """A string literal of a style sheet."""
    safe = "".join(c if c.isalnum() or c in " ·.,:-" else f"\\{ord(c):x} " for c in text)
    return Markup(f'"{safe}"')
