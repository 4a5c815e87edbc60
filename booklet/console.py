"""Floor 13: diagnostics for people and programs: as text with the line shown, one line each, JSON."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Mapping
from difflib import get_close_matches

from booklet.checks import Rule, rules
from booklet.diagnostic import Diagnostic

LONGEST_SHOWN = 200  # characters of a source line
Reader = Callable[[str], str | None]


def as_text(diagnostics: Iterable[Diagnostic], source: Reader) -> str:
    """The diagnostics with the line each points at; `source` gives a file's text, if it has one."""
    texts: dict[str, list[str]] = {}
    shown = []
    for diagnostic in diagnostics:
        file = diagnostic.span.file
        if file not in texts:
            texts[file] = (source(file) or "").splitlines()
        shown.append(_one(diagnostic, texts[file]))
    return "\n".join(shown)


def _one(diagnostic: Diagnostic, lines: list[str]) -> str:
    span = diagnostic.span
    number = str(span.line)
    gutter = " " * len(number)
    parts = [
        f"{diagnostic.severity.value}[{diagnostic.code}]: {diagnostic.message}",
        f"{gutter}--> {span.file}:{span.line}:{span.column}",
    ]
    if 0 < span.line <= len(lines) and len(lines[span.line - 1]) <= LONGEST_SHOWN:
        line = lines[span.line - 1].replace("\t", " ")
        width = max(1, min(span.end, len(line) + 1) - span.column)
        parts += [
            f"{gutter} |",
            f"{number} | {line}",
            f"{gutter} | {' ' * (span.column - 1)}{'^' * width}",
        ]
    if diagnostic.hint:
        parts.append(f"{gutter} = try: {diagnostic.hint}")
    return "\n".join(parts) + "\n"


def as_lines(diagnostics: Iterable[Diagnostic]) -> str:
    """One line for each diagnostic: severity[code] file:line:column: message."""
    return "".join(
        f"{d.severity.value}[{d.code}] {d.span.file}:{d.span.line}:{d.span.column}: {d.message}\n"
        for d in diagnostics
    )


def as_json(diagnostics: Iterable[Diagnostic]) -> str:
    """A JSON list of the diagnostics; columns count from 1 and `end` is exclusive."""
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
        }
        for d in diagnostics
    ]
    return json.dumps(rows, indent=1, ensure_ascii=False) + "\n"


def tally(diagnostics: Iterable[Diagnostic]) -> str:
    """How many errors and warnings there are, as a sentence."""
    told = tuple(diagnostics)
    errors = sum(d.is_error for d in told)
    warnings = len(told) - errors
    if not told:
        return "no faults found"
    parts = [_count(errors, "error"), _count(warnings, "warning")]
    return " and ".join(part for part in parts if part)


def _count(number: int, word: str) -> str:
    return f"{number} {word}{'' if number == 1 else 's'}" if number else ""


def explain(code: str) -> tuple[str, bool]:
    """The page of a rule and True; or a sentence that names the nearest rules, and False."""
    known: Mapping[str, Rule] = rules()
    if code in known:
        return known[code].page, True
    near = get_close_matches(code, known, n=1, cutoff=0.5)
    hint = f"; did you mean `{near[0]}`?" if near else ""
    return f"there is no rule `{code}`{hint}\n\n{rule_list()}", False


def rule_list() -> str:
    """All rules, one line each: code, severity, summary."""
    width = max(map(len, rules()), default=0)
    return "".join(
        f"{r.code:<{width}}  {r.severity.value:<7}  {r.summary}\n" for r in rules().values()
    )
