"""Floor 11, the door to Jinja2: our page templates, and those of an author who is trusted with pages.

Both run in Jinja's own sandbox, every value escaped. A template of an author's sees the values a page has
and the pages' templates by their names: no name leads to a file.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from contextlib import AbstractContextManager
from functools import cache, lru_cache
from importlib import resources
from typing import Any

from jinja2 import FunctionLoader, StrictUndefined, TemplateSyntaxError, UndefinedError
from jinja2.meta import find_undeclared_variables
from jinja2.sandbox import ImmutableSandboxedEnvironment
from markupsafe import Markup

from booklet.kit.bounds import OWN_MEMORY, OWN_SECONDS
from booklet.kit.diagnostic import Diagnostic, Span
from booklet.kit.records import field_names
from booklet.kit.running.stopping import within
from booklet.source.files.page_names import OWN_TEMPLATES

Source = tuple[str, str, None]
_WITHOUT_END = f"setting it takes more than {OWN_SECONDS} s of processor time or {OWN_MEMORY >> 20} MiB of memory"

_NEXT = "Put it right, or take the file away: the booklet's own page then comes back"


class OwnPageError(Exception):
    """A page template of the author's cannot be set; the fault says where and what to do."""

    def __init__(self, fault: Diagnostic) -> None:
        super().__init__(fault.message)
        self.fault = fault


def template_text(name: str) -> str | None:
    """The text of a file among the templates, or None. Names are ours, never an author's."""
    file = resources.files("booklet.templates").joinpath(*name.split("/"))
    return file.read_text("utf-8") if file.is_file() else None


def _sandbox(load: Callable[[str], str | Source | None]) -> ImmutableSandboxedEnvironment:
    """The environment of pages; a name that a template misspells is an error, not a blank."""
    return ImmutableSandboxedEnvironment(
        loader=FunctionLoader(load),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )


@cache
def environment() -> ImmutableSandboxedEnvironment:
    """The environment of our own pages."""
    return _sandbox(template_text)


def filled(template: str, **values: object) -> Markup:
    """The markup of a template with these values."""
    return Markup(environment().get_template(template).render(**values))


@lru_cache(maxsize=8)
def _own_environment(own: tuple[tuple[str, str], ...]) -> ImmutableSandboxedEnvironment:
    """The environment in which an author's templates take the place of ours: a table by name."""
    texts = {name: template_text(name) or "" for name in OWN_TEMPLATES} | dict(own)
    return _sandbox(lambda name: (texts[name], name, None) if name in texts else None)


@cache
def page_values() -> frozenset[str]:
    """The names that stand for something on a page: those that the booklet's own templates use."""
    trees = (environment().parse(template_text(name) or "") for name in OWN_TEMPLATES)
    return frozenset(name for tree in trees for name in find_undeclared_variables(tree))


def own_faults(own: Mapping[str, str]) -> Iterator[Diagnostic]:
    """The faults of an author's templates that can be seen without setting a page: what cannot be
    read, and names that nothing stands for."""
    made = _own_environment(tuple(sorted(own.items())))
    for name, text in sorted(own.items()):
        try:
            with _limited(name):  # Jinja works out what is constant while it reads
                missing = find_undeclared_variables(made.parse(text, name)) - page_values()
                made.compile(text, name, name)  # finds filters that are not there
        except (TimeoutError, MemoryError):
            yield _fault(name, text, 1, _WITHOUT_END)
            continue
        except (TemplateSyntaxError, RecursionError) as fault:
            yield _misread(fault, name, text)
            continue
        for word in sorted(missing - set(made.globals)):
            lines = text.splitlines()
            line = next((n for n, each in enumerate(lines, 1) if _at(word, each)), 1)
            yield _fault(name, text, line, f"nothing is called `{word[:60]}` here", word)


def _limited(name: str) -> AbstractContextManager[None]:
    """Limits within which a template of the author's is read or set."""
    return within(
        OWN_SECONDS,
        OWN_MEMORY,
        f"booklet: template `{name}`: one step of it takes more than {2 * OWN_SECONDS} s of processor time, so that the "
        f"system ended the program; what was built before is still there. {_NEXT}",
    )


def uses_own(template: str, own: Mapping[str, str]) -> bool:
    """Whether a page is set from a template of the author's, itself or within ours."""
    if not own:
        return False
    text = template_text(template) or ""
    return template in own or any(f'include "{name}"' in text for name in own)


def names_of(*records: Any) -> dict[str, Any]:
    """What templates may name of some records: their fields."""
    return {name: getattr(one, name) for one in records for name in field_names(type(one))}


def own_filled(own: Mapping[str, str], template: str, values: Mapping[str, Any]) -> str:
    """What a template makes where the author's own take the place of ours, not yet cleaned. Raises
    OwnPageError."""
    try:
        made = _own_environment(tuple(sorted(own.items())))
        with _limited(template if template in own else ", ".join(sorted(own))):
            return made.get_template(template).render(values)
    except TemplateSyntaxError as fault:
        name = fault.name if fault.name and fault.name in own else min(own)
        raise OwnPageError(_misread(fault, name, own[name])) from None
    except Exception as fault:
        places = _places(fault, own)
        if not places:
            raise  # a bug of ours
        name, line = places[-1]
        raise OwnPageError(_fault(name, own[name], line, *_why(fault))) from None


def _why(fault: Exception) -> tuple[str, str]:
    """Why a template cannot be set, and the word that is to blame ("" for none)."""
    if isinstance(fault, TimeoutError | MemoryError):
        return _WITHOUT_END, ""
    word = fault.message if isinstance(fault, UndefinedError) else ""
    if lost := re.fullmatch(r"'(\w+)' is undefined", word or ""):
        return f"nothing is called `{lost[1]}` here", lost[1]
    return "what stands here cannot be worked out", ""


def _places(fault: BaseException, own: Mapping[str, str]) -> list[tuple[str, int]]:
    """The lines of the author's templates through which a fault came, the deepest last."""
    found, at = [], fault.__traceback__
    while at is not None:
        name = at.tb_frame.f_code.co_filename
        if name in own:
            found.append((name, at.tb_lineno))
        at = at.tb_next
    return found


def _misread(fault: BaseException, name: str, text: str) -> Diagnostic:
    """The fault of a template that cannot be read, in the words of the template engine."""
    if not isinstance(fault, TemplateSyntaxError):
        return _fault(name, text, 1, "its parts lie too deep in one another")
    words = " ".join((fault.message or "it cannot be read").split()).rstrip(".")[:200]
    return _fault(name, text, fault.lineno, words[:1].lower() + words[1:])


def _at(word: str, line: str) -> re.Match[str] | None:
    return re.search(rf"\b{re.escape(word)}\b", line)


def _fault(name: str, text: str, line: int, why: str, word: str = "") -> Diagnostic:
    """The fault of a template with its line, and its column where the word can be found."""
    lines = text.splitlines() or [""]
    line = min(max(line, 1), len(lines))
    found = _at(word, lines[line - 1]) if word else None
    start = found.start() + 1 if found else len(lines[line - 1]) - len(lines[line - 1].lstrip()) + 1
    end = found.end() + 1 if found else max(len(lines[line - 1]), start) + 1
    span, hint = Span(name, line, start, end), _NEXT[:1].lower() + _NEXT[1:]
    return Diagnostic(
        code="page-template", message=f"template `{name}`: {why}", span=span, hint=hint
    )
