"""Floor 11, pages of one's own: an author's page templates, sandboxed and bounded.

A template may come from a stranger. It sees the values a page has and nothing else; it has no string
methods, no long numbers and few filters; every pass of a loop, every call of a macro and every template
within a template is counted, and what comes out is read tag by tag: nothing that runs, nothing fetched.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from html.parser import HTMLParser
from itertools import islice
from typing import Any

from markupsafe import Markup, escape

from booklet.diagnostic import Diagnostic, Span
from booklet.pages.templating import (
    SandboxedEnvironment,
    TemplateNotFound,
    TemplateSyntaxError,
    Undefined,
    nodes,
    template_text,
    undeclared,
)
from booklet.source.own_pages import OWN_TEMPLATES

MOST_STEPS = 50_000  # passes of loops, macros and templates in one page
MOST_SIGNS = 20_000_000  # that a page may come to
LONGEST = 100_000  # signs of a text put together, and numbers of a range
FILTERS = (
    "abs", "batch", "capitalize", "default", "e", "escape", "first", "float", "int", "join", "last",
    "length", "list", "lower", "map", "max", "min", "rejectattr", "reverse", "round", "selectattr", "sort",
    "sum", "title", "trim", "unique", "upper",
)  # fmt: skip
_RUNS = {
    "applet", "audio", "base", "button", "embed", "form", "frame", "frameset", "iframe", "input", "link",
    "math", "meta", "noscript", "object", "plaintext", "script", "select", "source", "style", "template",
    "textarea", "track", "video", "xmp", "foreignobject", "animate", "set",
}  # fmt: skip
_LEADS = {
    "href",
    "src",
    "xlink:href",
    "srcset",
    "action",
    "formaction",
    "poster",
    "data",
    "background",
}
_INSIDE = re.compile(r"#|data:image/(?:png|jpeg|svg\+xml);base64,", re.IGNORECASE)
_ADDRESS = re.compile(r"url\(\s*[\"']?(?!#|data:image/)", re.IGNORECASE)


class OwnPageError(Exception):
    """A page template of the author's cannot be set; the fault says where and what to do."""

    def __init__(self, fault: Diagnostic) -> None:
        super().__init__(fault.message)
        self.fault = fault


class _TooMuch(Exception):
    """A template goes on for too long, or makes too much."""


class _Bounded(SandboxedEnvironment):
    """The sandbox for a stranger's templates."""

    intercepted_binops = frozenset(("+", "*", "**", "%"))

    def is_safe_attribute(self, obj: Any, attr: str, value: Any) -> bool:
        """Whether a template may read an attribute: none of a text, which could make long ones."""
        if isinstance(obj, (str, bytes, int, float)):
            return False
        return bool(super().is_safe_attribute(obj, attr, value))

    def wrap_str_format(self, value: Any) -> None:
        """Nothing: a text may not be made by a pattern such as `{:999999999}`."""

    def call_binop(self, context: Any, operator: str, left: Any, right: Any) -> Any:
        """Reckon with numbers of a fit size, put two lists together, and nothing else."""
        if operator == "+" and isinstance(left, tuple) and isinstance(right, tuple):
            return _checked(left + right)
        for side in (left, right):
            if isinstance(side, bool) or not isinstance(side, (int, float)):
                raise _TooMuch(
                    f"`{operator}` reckons with numbers only; put texts together with `~`"
                )
            if abs(side) > 1e9:
                raise _TooMuch("a number grows beyond all use")
        if operator == "**" and abs(right) > 9:
            raise _TooMuch("a number grows beyond all use")
        return super().call_binop(context, operator, left, right)

    def _parse(self, source: str, name: str | None, filename: str | None) -> Any:
        """The template with its loops, macros and texts put together under count."""
        tree = super()._parse(source, name, filename)
        for kind in (nodes.For, nodes.Macro, nodes.CallBlock, nodes.Block):
            for node in tree.find_all(kind):
                node.body.insert(0, _counting())  # type: ignore[attr-defined]
        for node in tree.find_all(nodes.For):
            node.iter = _call("bounded_", (node.iter,))
        for parent in [tree, *tree.find_all(nodes.Node)]:
            _replace_joins(parent)
        tree.body.insert(0, _counting())
        return tree


def _counting() -> Any:
    """A statement that counts one step."""
    return nodes.ExprStmt(_call("count_", ()))


def _call(name: str, parts: tuple[Any, ...]) -> Any:
    return nodes.Call(nodes.Name(name, "load"), list(parts), [], None, None)


def _replace_joins(parent: Any) -> None:
    """Let `a ~ b` go through our own hands, wherever it stands below a node."""
    for key in parent.fields:
        value = getattr(parent, key)
        if isinstance(value, nodes.Concat):
            setattr(parent, key, _call("join_", tuple(value.nodes)))
        elif isinstance(value, list):
            for at, item in enumerate(value):
                if isinstance(item, nodes.Concat):
                    value[at] = _call("join_", tuple(item.nodes))


def _printable(value: Any) -> Any:
    """What may be printed: a text, a number, nothing. A list could hold itself many times over."""
    if value is None or isinstance(value, (str, int, float, Undefined)):
        return value
    if isinstance(value, Mapping) or hasattr(value, "__iter__"):
        raise _TooMuch("a list is printed as it is; name what of it you want, in a `for` loop")
    return str(value)[:LONGEST]


@dataclass(slots=True)
class _Count:
    """What a page has used so far."""

    steps: int = 0

    def step(self) -> str:
        """Count one step."""
        self.steps += 1
        if self.steps > MOST_STEPS:
            raise _TooMuch(f"it goes round more than {MOST_STEPS} times")
        return ""

    def bounded(self, things: Any) -> Any:
        """What a loop goes over, counted as it goes."""
        if isinstance(things, (str, bytes)):
            raise _TooMuch("a loop goes over the letters of a text")
        return self._each(things)

    def _each(self, things: Any) -> tuple[Any, ...]:
        found = []
        for thing in things:
            self.step()
            found.append(thing)
        return tuple(found)


def _joined(*parts: Any) -> Markup:
    """Texts put together, escaped, of a fit length."""
    whole = Markup("").join(escape(_printable(part)) for part in parts)
    if len(whole) > LONGEST:
        raise _TooMuch("a text grows beyond all use")
    return whole


def _in_a_row(things: Iterable[Any], between: str = "") -> Markup:
    """The things of a list as one text."""
    parts = list(islice(things, LONGEST))
    return _joined(*[part for thing in parts for part in (between, thing)][1:])


def _range(*ends: int) -> range:
    """The numbers between two ends, not too many."""
    found = range(*ends)
    if len(found) > LONGEST // 100:
        raise _TooMuch(f"a range has more than {LONGEST // 100} numbers")
    return found


@lru_cache(maxsize=8)
def _environment(own: tuple[tuple[str, str], ...]) -> _Bounded:
    """The sandbox in which an author's templates take the place of ours."""
    texts = dict(own)

    def load(name: str) -> Any:
        if name in texts:  # under its own name, so that a fault is told with its line
            return texts[name], name, None
        return template_text(name)

    made = _Bounded(load, _printable)
    made.filters = {name: made.filters[name] for name in FILTERS}
    made.filters["join"] = _in_a_row
    batch = made.filters["batch"]
    made.filters["batch"] = lambda things, count: batch(things, min(count, LONGEST))
    made.globals = {"range": _range, "join_": _joined, "count_": str, "bounded_": tuple}
    return made


def _checked(text: Any) -> Any:
    if len(text) > LONGEST:
        raise _TooMuch("a text grows beyond all use")
    return text


@cache
def page_values() -> frozenset[str]:
    """The names that stand for something on a page: those that the booklet's own templates use."""
    environment = _environment(())
    texts = ((name, template_text(name) or "") for name in OWN_TEMPLATES)
    return frozenset(
        name for file, text in texts for name, _ in undeclared(environment.parse(text, file))
    )


def own_faults(templates: Mapping[str, str]) -> Iterator[Diagnostic]:
    """The faults of an author's templates that can be seen without setting a page: what cannot be
    read, and names that nothing stands for."""
    environment = _environment(tuple(sorted(templates.items())))
    for name, text in sorted(templates.items()):
        try:
            tree = environment.parse(text, name)
            environment.compile(text, name, name)  # finds filters that are not there
        except TemplateSyntaxError as fault:
            yield _fault(name, text, fault.lineno, (fault.message or "it cannot be read"))
            continue
        except RecursionError:
            yield _fault(name, text, 1, "its parts lie too deep in one another")
            continue
        for missing, line in undeclared(tree):
            if missing not in page_values():
                yield _fault(name, text, line, f"nothing is called `{missing[:60]}` here", missing)


def _fault(name: str, text: str, line: int, why: str, word: str = "") -> Diagnostic:
    """The fault of a template with its line, and its column where the word can be found."""
    lines = text.splitlines() or [""]
    line = min(max(line, 1), len(lines))
    found = re.search(rf"\b{re.escape(word)}\b", lines[line - 1]) if word else None
    start = found.start() + 1 if found else len(lines[line - 1]) - len(lines[line - 1].lstrip()) + 1
    end = found.end() + 1 if found else max(len(lines[line - 1]), start) + 1
    hint = "put it right, or take the file away: the booklet's own page then comes back"
    return Diagnostic(
        "page-template", f"template `{name}`: {_sentence(why)}", Span(name, line, start, end), hint
    )


def _sentence(words: str) -> str:
    """A message of the template engine as ours: small at its beginning, no full stop, one line."""
    words = " ".join(words.split()).rstrip(".")[:200]
    return words[:1].lower() + words[1:]


def uses_own(template: str, own: Mapping[str, str]) -> bool:
    """Whether a page is set from a template of the author's, itself or within ours."""
    text = template_text(template) or ""
    return bool(own) and (template in own or any(f'include "{name}"' in text for name in own))


def own_filled(own: Mapping[str, str], template: str, values: Mapping[str, Any]) -> Markup:
    """The markup of a template where the author's own take the place of ours. Raises OwnPageError."""
    environment, count = _environment(tuple(sorted(own.items()))), _Count()
    try:
        made = environment.get_template(template)
        text = made.render({**values, "count_": count.step, "bounded_": count.bounded})
        if len(text) > MOST_SIGNS:
            raise _TooMuch("the page grows beyond all use")
    except _TooMuch as fault:
        raise OwnPageError(_fault(*_line_of(fault, own), str(fault))) from None
    except RecursionError:
        raise OwnPageError(
            _fault(template, own.get(template, ""), 1, "it calls itself without end")
        ) from None
    except TemplateSyntaxError as fault:
        name = fault.name if fault.name and fault.name in own else _first_own(template, own)
        why = fault.message or "it cannot be read"
        raise OwnPageError(_fault(name, own[name], fault.lineno, why)) from None
    except TemplateNotFound as fault:
        why = f"there is no template `{str(fault)[:60]}` to include"
        raise OwnPageError(_fault(*_line_of(fault, own), why)) from None
    except Exception as fault:
        if not _theirs(fault, own):
            raise  # a bug of ours
        raise OwnPageError(_fault(*_line_of(fault, own), str(fault))) from None
    if why := _unsafe(text):
        raise OwnPageError(_fault(_first_own(template, own), own.get(template, ""), 1, why))
    return Markup(text)


def _places(fault: BaseException, own: Mapping[str, str]) -> list[tuple[str, int]]:
    """The lines of the author's templates through which a fault came, the deepest last."""
    found, at = [], fault.__traceback__
    while at is not None:
        name = at.tb_frame.f_code.co_filename
        if name in own:
            found.append((name, at.tb_lineno))
        at = at.tb_next
    return found


def _theirs(fault: BaseException, own: Mapping[str, str]) -> bool:
    """Whether a fault came about in a template of the author's."""
    return bool(_places(fault, own))


def _line_of(fault: BaseException, own: Mapping[str, str]) -> tuple[str, str, int]:
    places = _places(fault, own) or [(next(iter(sorted(own))), 1)]
    name, line = places[-1]
    return name, own[name], line


def _first_own(template: str, own: Mapping[str, str]) -> str:
    return template if template in own else min(own)


class _Reader(HTMLParser):
    """Reads a page tag by tag and keeps the first thing that may not stand in it."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.found = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Look at a tag and where it leads."""
        if tag in _RUNS:
            self.found = self.found or f"a page may not hold `<{tag}>`"
        for name, value in attrs:
            value = (value or "").strip()
            if name.startswith("on"):
                self.found = self.found or f"a page may not run anything: `{name[:40]}`"
            elif (name in _LEADS and not _INSIDE.match(value)) or _ADDRESS.search(value):
                self.found = self.found or f"a page fetches nothing from elsewhere: `{value[:60]}`"

    def handle_comment(self, data: str) -> None:
        """Comments may hide tags from us that a browser sees."""
        self.found = self.found or "a page may not hold `<!--` comments; use `{# … #}`"

    def handle_decl(self, decl: str) -> None:
        """So may declarations."""
        self.found = self.found or "a page may not hold `<!`"

    def handle_pi(self, data: str) -> None:
        """And instructions."""
        self.found = self.found or "a page may not hold `<?`"

    def unknown_decl(self, data: str) -> None:
        """And sections of raw text."""
        self.found = self.found or "a page may not hold `<![`"


def _unsafe(text: str) -> str:
    """What in a page may not stand there, or nothing."""
    reader = _Reader()
    reader.feed(text)
    reader.close()
    return reader.found
