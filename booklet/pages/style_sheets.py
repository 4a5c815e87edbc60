"""Floor 11, composing: the style sheets of a document, of which all but the last are the same in other documents."""

from __future__ import annotations

import re
from functools import lru_cache

from markupsafe import Markup

from booklet.pages.pictures.large import enlarged
from booklet.pages.style.look import look_rules, own_rules
from booklet.pages.style.paper import Sheet
from booklet.pages.texts.templating import filled, template_text
from booklet.pattern import Pattern

SHEETS_APART = "\n</style>\n<style>\n"
"""Between the style sheets of a print page: each is an element, so that `pdf.py` reads once what many documents share."""
_ROOT = re.compile(r":root\s*\{([^}]*)\}")
_VALUE = re.compile(r"--([a-z]+):\s*([^;]+)")
_NAMED = re.compile(r"var\(--([a-z]+)\)")
_COMMENT = re.compile(r"/\*.*?\*/", re.DOTALL)
_EITHER = re.compile(r"([^{};]*:is\([^{}]*?)\s*\{")  # the head of a rule
_IS = re.compile(r":is\(([^()]*)\)")
_COMMA = re.compile(r",(?![^()]*\))")  # not those within brackets


def screen_rules(pattern: Pattern) -> str:
    """The style sheet of a web page, without its fonts."""
    base, screen = template_text("style.css") or "", template_text("screen.css") or ""
    return "\n".join([base, screen, look_rules(pattern), own_rules(pattern)])


def print_rules(pattern: Pattern, sheet: Sheet, foot: str, large: bool) -> str:
    """The style sheets of a print page with this line at its foot, `large` or not; the fonts come with `pdf.py`."""
    house = SHEETS_APART.join([template_text("style.css") or "", str(filled("print.css", s=sheet))])
    running = filled("running.css", title=_css_text(pattern.title), foot=_css_text(foot))
    look, author = look_rules(pattern), own_rules(pattern)
    house = enlarged(house) if large else house
    if "--" not in author:  # else she may set our values anew
        house = _settled(house, look)
    return SHEETS_APART.join([house, "\n".join([str(running), look, author])])


@lru_cache(maxsize=16)
def _settled(house: str, look: str) -> str:
    """Style sheets whose values are put in and whose heads are spelled out. WeasyPrint would look a value up for each element
    that has it, and try each head that ends in `:is()` on each element."""
    values = dict(_VALUE.findall("".join(_ROOT.findall(house + look))))
    return spelled_out(_NAMED.sub(lambda found: values.get(found[1], found[0]), house))


def spelled_out(css: str) -> str:
    """A style sheet with each `:is(a, b)` in the head of a rule written as a head for each, and without its comments."""
    return _EITHER.sub(_each_by_itself, _COMMENT.sub("", css))


def _each_by_itself(rule: re.Match[str]) -> str:
    todo, done = [each.strip() for each in _COMMA.split(rule[1])], []
    while todo:
        found = _IS.search(head := todo.pop(0))
        if found is None:
            done.append(head)
        else:
            before, after = head[: found.start()], head[found.end() :]
            todo[:0] = [f"{before}{one.strip()}{after}" for one in found[1].split(",")]
    return ", ".join(done) + " {"


def _css_text(text: str) -> Markup:
    """A string literal of a style sheet."""
    safe = "".join(c if c.isalnum() or c in " ·.,:-" else f"\\{ord(c):x} " for c in text)
    return Markup(f'"{safe}"')
