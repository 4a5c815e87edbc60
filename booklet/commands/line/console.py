"""Floor 13: diagnostics for people and programs: as text with the line shown, one line each, JSON."""

from __future__ import annotations

import json
import unicodedata
from collections.abc import Callable, Iterable, Iterator

from booklet.kit.diagnostic import Diagnostic, ToldFault, by_cause

LONGEST_SHOWN = 200  # characters of a source line
_UNSHOWN = {"Cc", "Cf", "Cs", "Zl", "Zp"}  # would move the cursor, turn the text or break the line
_JOINERS = "\u200c\u200d"  # these belong to words of some languages
INDENT = "      "  # before a line of the source
Reader = Callable[[str], str | None]


def as_text(diagnostics: Iterable[Diagnostic], source: Reader, folder: str = "") -> str:
    """The diagnostics with the line each points at, each beginning as editors read it:
    `path:line:column: error: message [code]`. `source` gives a file's text, if it has one; `folder` is the
    pattern's folder as the user named it.

    Of faults with one cause the first is told and the others are counted.
    """
    texts: dict[str, list[str]] = {}
    shown = []
    for told in by_cause(diagnostics):
        file = told.first.span.file
        if file not in texts:
            texts[file] = (source(file) or "").splitlines()
        shown.append(_one(told, texts[file], folder))
    return "\n".join(shown)


def _one(told: ToldFault, lines: list[str], folder: str) -> str:
    diagnostic, span = told.first, told.first.span
    parts = [_headline(diagnostic, folder)]
    line = lines[span.line - 1] if 0 < span.line <= len(lines) else ""
    if line.strip() and len(line) <= LONGEST_SHOWN:
        parts += [INDENT + printable(line), INDENT + _carets(line, span.column, span.end)]
    if diagnostic.hint:
        parts.append(f"  {way_out(diagnostic.hint)}")
    if told.following:
        verb = "follow" if len(told.following) > 1 else "follows"
        parts.append(f"  {len(told.following)} more {verb} from it.")
    return "\n".join(parts) + "\n"


def _headline(diagnostic: Diagnostic, folder: str, following: str = "") -> str:
    """`path:line:column: error: message [code]`, the form in which editors find the place."""
    span, severity = diagnostic.span, diagnostic.severity.value
    place = f"{printable(path_of(span.file, folder))}:{span.line}:{span.column}"
    return f"{place}: {severity}: {printable(diagnostic.message)}{following} [{diagnostic.code}]"


def path_of(file: str, folder: str) -> str:
    """The path of a file of the pattern from where the user stands."""
    return f"{folder.rstrip('/')}/{file}" if folder not in ("", ".") else file


def way_out(hint: str) -> str:
    """The hint as the next thing to do; a question or a list of names says so by itself."""
    asks = hint.startswith(("did you mean", "known here"))
    return printable(hint[:1].upper() + hint[1:] if asks else f"Try: {hint}")


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


def as_lines(diagnostics: Iterable[Diagnostic], folder: str = "") -> str:
    """One line for each diagnostic: path:line:column: severity: message [code]. What follows from
    another fault comes after it and says so."""
    return "".join(
        _headline(d, folder, _cause_words(first)) + "\n" for d, first in _with_causes(diagnostics)
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


def as_json(diagnostics: Iterable[Diagnostic], folder: str = "") -> str:
    """A JSON list of the diagnostics; columns count from 1 and `end` is exclusive. `file` is named from
    the pattern's folder, `path` from where the user stands.

    `follows` names the fault that a diagnostic follows from, which comes before it in the list; null for one of its own.
    """
    rows = [
        {
            "severity": d.severity.value,
            "code": d.code,
            "message": d.message,
            "file": d.span.file,
            "path": path_of(d.span.file, folder),
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
    return json.dumps(rows, indent=1) + "\n"  # in ASCII: no sign of a name steers the terminal


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
    return f"`booklet help {first.code}` tells more about it" if first else ""
