"""Floor 13: diagnostics for people and programs: as text with the line shown, one line each, JSON."""

from __future__ import annotations

import json
import unicodedata
from collections.abc import Callable, Iterable, Iterator, Mapping
from difflib import get_close_matches

from booklet.checks import Rule, rules
from booklet.diagnostic import Diagnostic, Told, by_cause

LONGEST_SHOWN = 200  # characters of a source line
_UNSHOWN = {"Cc", "Cf", "Cs", "Zl", "Zp"}  # would move the cursor, turn the text or break the line
_JOINERS = "\u200c\u200d"  # these belong to words of some languages
Reader = Callable[[str], str | None]


def as_text(diagnostics: Iterable[Diagnostic], source: Reader) -> str:
    """The diagnostics with the line each points at; `source` gives a file's text, if it has one.

    Of faults with one cause the first is told and the others are counted.
    """
    texts: dict[str, list[str]] = {}
    shown = []
    for told in by_cause(diagnostics):
        file = told.first.span.file
        if file not in texts:
            texts[file] = (source(file) or "").splitlines()
        shown.append(_one(told, texts[file]))
    return "\n".join(shown)


def _one(told: Told, lines: list[str]) -> str:
    diagnostic, span = told.first, told.first.span
    number = str(span.line)
    gutter = " " * len(number)
    parts = [
        f"{diagnostic.severity.value}[{diagnostic.code}]: {printable(diagnostic.message)}",
        f"{gutter}--> {printable(span.file)}:{span.line}:{span.column}",
    ]
    line = lines[span.line - 1] if 0 < span.line <= len(lines) else ""
    if line.strip() and len(line) <= LONGEST_SHOWN:
        parts += [
            f"{gutter} |",
            f"{number} | {printable(line)}",
            f"{gutter} | {_carets(line, span.column, span.end)}",
        ]
    if diagnostic.hint:
        parts.append(f"{gutter} = try: {printable(diagnostic.hint)}")
    if told.following:
        verb = "follow" if len(told.following) > 1 else "follows"
        parts.append(f"{gutter} = and {len(told.following)} more that {verb} from it")
    return "\n".join(parts) + "\n"


def _carets(line: str, start: int, end: int) -> str:
    """Carets under the columns from `start` to before `end`, as a terminal sets the line."""
    before, marked = line[: start - 1], line[start - 1 : end - 1]
    beyond = start - 1 - len(before)  # a place after the end of the line
    return " " * (_width(before) + beyond) + "^" * max(1, _width(marked))


def _width(text: str) -> int:
    """How many places of a terminal a text takes: East Asian signs two, accents set above none."""
    return sum(map(_places, printable(text)))


def _places(sign: str) -> int:
    if unicodedata.category(sign) in ("Mn", "Me") or sign in _JOINERS:
        return 0
    return 2 if unicodedata.east_asian_width(sign) in "WF" else 1


def printable(text: str) -> str:
    """The text with every sign that could disturb a terminal replaced by `\ufffd`, tabs by spaces."""
    return "".join(
        "\ufffd" if unicodedata.category(c) in _UNSHOWN and c not in _JOINERS else c
        for c in text.replace("\t", " ")
    )


def as_lines(diagnostics: Iterable[Diagnostic]) -> str:
    """One line for each diagnostic: severity[code] file:line:column: message. What follows from
    another fault comes after it and says so."""
    return "".join(
        f"{d.severity.value}[{d.code}] {printable(d.span.file)}:{d.span.line}:{d.span.column}: "
        f"{printable(d.message)}{_cause_words(first)}\n"
        for d, first in _with_causes(diagnostics)
    )


def _with_causes(
    diagnostics: Iterable[Diagnostic],
) -> Iterator[tuple[Diagnostic, Diagnostic | None]]:
    """Each diagnostic with the one it follows from, if any."""
    for told in by_cause(diagnostics):
        yield told.first, None
        yield from ((diagnostic, told.first) for diagnostic in told.following)


def _cause_words(first: Diagnostic | None) -> str:
    return "" if first is None else f" (follows from line {first.span.line})"


def as_json(diagnostics: Iterable[Diagnostic]) -> str:
    """A JSON list of the diagnostics; columns count from 1 and `end` is exclusive.

    `follows` names the fault that a diagnostic follows from, which comes before it in the list; null for one of its own.
    """
    rows = [
        {
            "severity": d.severity.value,
            "code": d.code,
            "message": d.message,
            "file": d.span.file,
            "line": d.span.line,
            "column": d.span.column,
            "end": d.span.end,
            "hint": d.hint,
            "follows": None
            if first is None
            else {
                "code": first.code,
                "file": first.span.file,
                "line": first.span.line,
                "column": first.span.column,
            },
        }
        for d, first in _with_causes(diagnostics)
    ]
    return json.dumps(rows, indent=1, ensure_ascii=False) + "\n"


def tally(diagnostics: Iterable[Diagnostic]) -> str:
    """How many errors and warnings there are, as a sentence; those that follow from others are
    counted by themselves."""
    told = by_cause(diagnostics)
    errors = sum(one.first.is_error for one in told)
    more = sum(len(one.following) for one in told)
    if not told:
        return "no faults found"
    parts = [_count(errors, "error"), _count(len(told) - errors, "warning")]
    follow = f" ({more} more follow{'s' if more == 1 else ''})" if more else ""
    return " and ".join(part for part in parts if part) + follow


def _count(number: int, word: str) -> str:
    return f"{number} {word}{'' if number == 1 else 's'}" if number else ""


def more_about(diagnostics: Iterable[Diagnostic]) -> str:
    """The next thing to do for a reader who does not understand a fault; empty without faults."""
    told = [one.first for one in by_cause(diagnostics)]
    first = next(iter(sorted(told, key=lambda d: not d.is_error)), None)
    return f"`booklet explain {first.code}` tells more about `{first.code}`" if first else ""


def explain(code: str) -> tuple[str, bool]:
    """The page of a rule and True; or a sentence that names the nearest rule, and False.

    The code may come as a message shows it: `error[overlap]` or `[overlap]`.
    """
    known: Mapping[str, Rule] = rules()
    plain = code.strip().lower().rpartition("[")[2].rstrip("]:").replace("_", "-").replace(" ", "-")
    if plain in known:
        return known[plain].page, True
    near = get_close_matches(plain, known, n=1, cutoff=0.5)
    hint = f"; did you mean `{near[0]}`?" if near else "; these are the rules:"
    shown = printable(code if len(code) <= 60 else code[:59] + "…")
    return f"there is no rule `{shown}`{hint}\n" + ("" if near else "\n" + rule_list()), False


def rule_list() -> str:
    """All rules, one line each: code, severity, summary."""
    width = max(map(len, rules()), default=0)
    return "".join(
        f"{r.code:<{width}}  {r.severity.value:<7}  {r.summary}\n" for r in rules().values()
    )
