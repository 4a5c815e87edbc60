"""Floor 2: steps of sewing as they are written in the source, alike ones in one line with `times`."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from booklet.kit.words import wordings_of
from booklet.pattern import DeclaredStep, StepBy

_NUMBERED = re.compile(r"(.*?)([1-9][0-9]*)")
_PLAIN = re.compile(r"\w(?:[\w -]*[\w-])?(?:#(?:\+[0-9]+)?)?")
_EMPTY = ("null", "Null", "NULL")


def step_lines(steps: Sequence[DeclaredStep]) -> tuple[str, ...]:
    """One flow map for every step or for several alike: `{make: pair#, join: [c#, n#], times: 4}`."""
    return tuple(in_braces(step_keys(group)) for group in in_entries(steps))


def in_entries(steps: Sequence[DeclaredStep]) -> tuple[tuple[DeclaredStep, ...], ...]:
    """The steps gathered into entries of the source: alike ones that follow each other are one."""
    found = []
    k = 0
    while k < len(steps):
        count = max(_alike(steps[k:]), 1)
        found.append(tuple(steps[k : k + count]))
        k += count
    return tuple(found)


def in_braces(keys: Sequence[str]) -> str:
    """The keys of an entry as one flow map."""
    return "{" + ", ".join(keys) + "}"


def step_keys(steps: Sequence[DeclaredStep]) -> tuple[str, ...]:
    """The keys of one entry with their values, `make: pair#` first."""
    return tuple(_entries(steps[0], len(steps), _parts(steps), steps))


def said_of(step: DeclaredStep) -> tuple[object, ...]:
    """All that a step says, without where it says it."""
    press = step.press and (step.press.kind, step.press.of)
    return (
        step.make, step.join, step.by, step.foundation, step.ends, press, step.leave, step.finish, step.note,
        step.titles, step.picture,
    )  # fmt: skip


def _alike(steps: Sequence[DeclaredStep]) -> int:
    """How many of the first steps can be written in one line: 0 where only one can."""
    first = _numbered(steps[0].make)
    if first is None or first[1] != 1 or steps[0].finish:
        return 0
    count = 1
    while count < len(steps):
        step = steps[count]
        same = len(step.join) == len(steps[0].join) and _words(step) == _words(steps[0])
        if not same or step.make != f"{first[0]}{count + 1}":
            break
        count += 1
    while count > 1:
        if all(_counted(row, count) is not None for row in _columns(steps[:count])):
            return count
        count -= 1
    return 0


def _words(step: DeclaredStep) -> tuple[object, ...]:
    """What alike steps say alike: all but the names of parts."""
    kind = step.press and (step.press.kind, step.press.of is None)
    return (
        step.by,
        step.foundation,
        step.ends,
        kind,
        step.leave is None,
        step.finish,
        step.note,
        step.titles,
        step.picture,
    )


def _columns(steps: Sequence[DeclaredStep]) -> list[list[str]]:
    """For every place in the join, and for what is left open or pressed to, the names that stand there step
    after step."""
    rows = [list(row) for row in zip(*(step.join for step in steps), strict=True)]
    rows += [row for row in ([s.leave for s in steps], [_of(s) for s in steps]) if None not in row]
    return rows


def _of(step: DeclaredStep) -> str | None:
    """The part that the seams of a step are pressed to."""
    return step.press.of if step.press else None


def _parts(steps: Sequence[DeclaredStep]) -> tuple[str, ...]:
    """The parts of one step, or of several alike with `#`."""
    rows = zip(*(step.join for step in steps), strict=True)
    return tuple(_told(row) for row in rows)


def _told(names: Sequence[str | None]) -> str:
    """One name, or the names of several alike steps as one with `#`."""
    plain = [name or "" for name in names]
    return plain[0] if len(plain) == 1 else _counted(plain, len(plain)) or ""


def _counted(names: Sequence[str], times: int) -> str | None:
    """The names as one with `#`, `#+1` …, None where they do not count round."""
    split = [_numbered(name) for name in names]
    if any(entry is None or entry[0] != (split[0] or ("", 0))[0] for entry in split):
        return None
    numbers = [entry[1] for entry in split if entry is not None]
    shift = (numbers[0] - 1) % times
    if numbers != [(k + shift) % times + 1 for k in range(times)]:
        return None
    stem = (split[0] or ("", 0))[0]
    return f"{stem}#+{shift}" if shift else f"{stem}#"


def _numbered(name: str) -> tuple[str, int] | None:
    """A name in two: its stem and its number; None without a number, or where `#` is in it."""
    match = _NUMBERED.fullmatch(name)
    return (match[1], int(match[2])) if match and "#" not in name else None


def _entries(
    step: DeclaredStep, times: int, parts: Sequence[str], like: Sequence[DeclaredStep]
) -> Iterator[str]:
    """The keys of a step, done so many times."""
    listed = ", ".join(scalar(part) for part in parts)
    if step.finish:
        yield f"finish: [{listed}]"
    else:
        make = f"{(_numbered(step.make) or ('', 0))[0]}#" if times > 1 else step.make
        if make and make != step.join[0]:  # without a name the first part keeps its own
            yield f"make: {scalar(make)}"
        if step.titles:
            yield f"title: {_titles(step.titles)}"
        yield f"join: [{listed}]"
    if times > 1:
        yield f"times: {times}"
    if step.leave:
        yield f"leave: {scalar(_told([s.leave for s in like]))}"
    if step.by:
        yield f"by: {StepBy.FOUNDATION.value if step.foundation else step.by.value}"
    if step.ends:
        yield f"ends: {step.ends.value}"
    if step.press:
        of = f" {_told([_of(s) for s in like])}" if step.press.of else ""
        yield f"press: {scalar(step.press.kind.value + of)}"
    if step.note:
        yield f"note: {_titles(wordings_of(step.note))}"
    if step.picture:
        yield f"picture: {scalar(step.picture.file)}"
        yield f"picture text: {_titles(wordings_of(step.picture.words))}"


def _titles(titles: Sequence[tuple[str, str]]) -> str:
    """What a unit is called, or a note, in one language or in several."""
    if [language for language, _ in titles] == [""]:
        return _quoted(titles[0][1])
    return "{" + ", ".join(f"{language}: {_quoted(said)}" for language, said in titles) + "}"


def scalar(text: str) -> str:
    """A name as YAML, in quotes where it needs them."""
    return text if _PLAIN.fullmatch(text) and text not in _EMPTY else _quoted(text)


def _quoted(text: str) -> str:
    """A text in double quotes."""
    return '"' + " ".join(text.replace("\\", "\\\\").replace('"', '\\"').split()) + '"'
