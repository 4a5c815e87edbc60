"""Floor 13: whether what a call names is there: its folder, its sizes, its editions."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from itertools import product
from pathlib import Path
from typing import TYPE_CHECKING

from booklet.commands.line.arguments import HERE
from booklet.commands.line.saying import listed, quoted
from booklet.kit.diagnostic import did_you_mean
from booklet.pattern import BETWEEN, SINGLE_KINDS, Pattern
from booklet.pattern.spoken import voice_of, voices_of
from booklet.source.editions.edition_keys import may_be_made_in
from booklet.source.files.folder import SOURCE

if TYPE_CHECKING:
    from booklet.checks.checked import CheckedPattern


def wrong_folder(options: argparse.Namespace, has_source: bool = False) -> str | None:
    """A sentence if what was named is no folder, or none was named and here is no pattern (unless its
    source comes from elsewhere)."""
    folder: Path = options.folder
    try:
        if folder.is_dir():
            return _nothing_here(options.command) if folder is HERE and not has_source else None
        if folder.is_file():
            call = f"booklet {options.command} {quoted(folder.parent)}"
            hint = f"its folder is meant: {call}" if folder.name == SOURCE else "name a folder"
            return f"`{folder}` is a file; {hint}"
        if folder.exists():
            return f"`{folder}` is not a folder; name a pattern's folder"
        beside = _patterns_in(folder.parent)
    except (OSError, ValueError):
        beside = []
    hint = did_you_mean(folder.name, beside) or f"`booklet new {quoted(folder)}` starts one"
    return f"there is no folder `{folder}`; {hint}"


def _nothing_here(command: str) -> str | None:
    """A sentence if the current folder has no pattern in it."""
    if (HERE / SOURCE).exists():
        return None
    below = _patterns_in(HERE)
    name = quoted(Path(below[0])) if below else "lanterns"
    also = "" if below else "; `booklet new lanterns` starts one"
    return f"there is no `{SOURCE}` here; name a pattern's folder, as in `booklet {command} {name}`{also}"


def _patterns_in(folder: Path) -> list[str]:
    """The names of the folders in a folder that hold a pattern."""
    return sorted(entry.name for entry in folder.iterdir() if (entry / SOURCE).is_file())


def unknown_size(pattern: Pattern, asked: Sequence[str] | None) -> str | None:
    """A sentence that names the first size asked for that the pattern has not."""
    return unknown("size", asked, [size.id for size in pattern.sizes])


def unknown_edition(pattern: Pattern, options: argparse.Namespace) -> str | None:
    """A sentence if an edition is not known, or none of those asked for has a size asked for."""
    editions = pattern.booklet.editions
    if wrong := unknown("edition", options.edition, [edition.id for edition in editions]):
        return wrong
    chosen = [
        e
        for e in editions
        if (not options.edition or e.id in options.edition)
        and (not options.language or voice_of(pattern, e).language in options.language)
    ]
    if not chosen:
        named, spoken = listed(options.edition), listed(options.language)
        return f"edition {named} is not made in {spoken}; name another, or leave one of the two out"
    if any(not options.size or not e.sizes or set(e.sizes) & set(options.size) for e in chosen):
        return None
    names = ", ".join(f"`{e.id}` has {listed(e.sizes)}" for e in chosen)
    return f"nothing is printed in size {listed(options.size)}: edition {names}"


def alternatives_asked(options: argparse.Namespace) -> list[str]:
    """The colourways or the layouts that a call names; where it names both, each colourway in each layout."""
    colourways, layouts = options.colourway or (), options.layout or ()
    if colourways and layouts:
        return list(map(BETWEEN.join, product(colourways, layouts)))
    return [*colourways, *layouts]


def unknown_alternative(
    pattern: Pattern, colourways: Sequence[str] | None, layouts: Sequence[str] | None
) -> str | None:
    """A sentence that names the first colourway or layout asked for that the pattern has not."""
    for kind, asked in zip(SINGLE_KINDS, (colourways, layouts), strict=True):
        known = [one.id for one in pattern.alternatives if one.kind is kind and one.id]
        if asked and not known:
            return f"this pattern has no {kind.value}s; write them under `{kind.value}s:`"
        if wrong := unknown(kind.value, asked, known):
            return wrong
    return None


def unmade_alternative(pattern: Pattern, options: argparse.Namespace) -> str | None:
    """A sentence if all editions asked for are made in other colourways and layouts than those asked for."""
    named = alternatives_asked(options)
    asked = {pattern.alternative_name(name) for name in named}
    chosen = [e for e in pattern.booklet.editions if not options.edition or e.id in options.edition]
    others = [
        e
        for e in chosen
        if pattern.alternative_name(e.alternative) not in asked
        and not any(may_be_made_in(e, name) for name in named)
    ]
    if not asked or len(others) < len(chosen):
        return None
    names = ", ".join(f"edition `{e.id}` is made in `{e.alternative}`" for e in others)
    return f"nothing is made in {listed(named)}: {names}"


def unknown_language(pattern: Pattern, asked: Sequence[str] | None) -> str | None:
    """A sentence that names the first language asked for in which the pattern has nothing."""
    return unknown("language", asked, [voice.language for voice in voices_of(pattern)])


def said_in(checked: CheckedPattern, language: str | None) -> CheckedPattern:
    """The checked pattern in a language of its editions, in the units of the first of these; as it is if none is named."""
    from booklet.kit.remembered.memory import plainly
    from booklet.recipe.checking import in_voice

    if language is None or language == checked.pattern.language:
        return checked
    voice = next(v for v in voices_of(checked.pattern) if v.language == language)
    return in_voice(checked, voice, plainly)


def unknown(word: str, asked: Sequence[str] | None, known: Sequence[str]) -> str | None:
    """A sentence that names the first name asked for that is not known."""
    lost = next((name for name in asked or () if name not in known), None)
    if lost is None:
        return None
    return f"this pattern has no {word} `{lost}`; {did_you_mean(lost, known)}"
