"""Floor 13, messages: what is sent to a tab, as plain records for JSON."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from booklet.commands.line.console import path_of, printable, way_out
from booklet.kit.diagnostic import Diagnostic, by_cause
from booklet.preview.bench.bench import FolderState, ShownPage, choices, ways
from booklet.preview.serving.page_changes import SectionChange, digest


def told_look(look: FolderState, folder: str, known: dict[str, bytes]) -> dict[str, Any]:
    """The faults, one cause first and what follows from it beneath, and the files that are not `known` to the
    tab as they are; from now on they are."""
    fresh = {name: digest(text) for name, text in look.files.items()}
    files = {name: text for name, text in look.files.items() if known.get(name) != fresh[name]}
    known.clear()
    known.update(fresh)
    return {
        "number": look.number,
        "sound": look.sound,
        "trouble": look.trouble,
        "faults": [
            {
                **_fault(one.first, folder),
                "picture": look.pictures.get(one.first, ""),
                "following": [_fault(d, folder) for d in one.following],
            }
            for one in by_cause(look.diagnostics)
        ],
        "names": list(look.files),
        "files": files,
    }


def _fault(diagnostic: Diagnostic, folder: str) -> dict[str, Any]:
    span = diagnostic.span
    return {
        "severity": diagnostic.severity.value,
        "code": diagnostic.code,
        "message": printable(diagnostic.message),
        "file": span.file,
        "path": path_of(span.file, folder),
        "line": span.line,
        "column": span.column,
        "end": span.end,
        "hint": way_out(diagnostic.hint) if diagnostic.hint else "",
    }


def told_page(number: int, shown: ShownPage, change: SectionChange) -> dict[str, Any]:
    """What a tab lacks of a page, and what may be chosen in its place."""
    pattern = shown.pattern
    return {
        "number": number,
        "title": pattern.title,
        "language": pattern.language,
        "size": shown.size,
        "edition": shown.edition,
        "paper": pattern.booklet.paper.value,
        "choices": choices(pattern),
        "ways": ways(pattern),
        "colourway": shown.choice.colourway,
        "layout": shown.choice.layout,
        "order": change.order,
        "parts": change.parts,
        "pieces": change.pieces,
        "style": change.style,
        "places": _places(shown.places),
    }


def told_part(change: SectionChange) -> dict[str, Any]:
    """What a tab lacks of one part of a page that is still being set."""
    return {"parts": change.parts, "pieces": change.pieces}


def _places(places: Mapping[str, Any]) -> dict[str, list[Any]]:
    return {name: [span.file, span.line, span.column] for name, span in places.items()}
