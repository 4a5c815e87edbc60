"""Floor 2: steps of sewing as they are written in the source, alike ones in one line with `times`."""

from __future__ import annotations

import re
from collections.abc import Sequence

from booklet.pattern import PressKind, Step

_NUMBERED = re.compile(r"(.*?)([1-9][0-9]*)")
_PLAIN = re.compile(r"\w(?:[\w -]*[\w-])?(?:#(?:\+[0-9]+)?)?")
_EMPTY = ("null", "Null", "NULL")


def step_lines(steps: Sequence[Step]) -> tuple[str, ...]:
    """One flow map for every step or for several alike: `{make: pair#, join: [c#, n#], times: 4}`."""
    lines = []
    k = 0
    while k < len(steps):
        count = max(_alike(steps[k:]), 1)
        lines.append(_written(steps[k], count, _parts(steps[k : k + count])))
        k += count
    return tuple(lines)


def _alike(steps: Sequence[Step]) -> int:
    """How many of the first steps can be written in one line: 0 where only one can."""
    first = _numbered(steps[0].make)
    if first is None or first[1] != 1 or not _is_plain(steps[0]):
        return 0
    count = 1
    while count < len(steps):
        step = steps[count]
        same = len(step.join) == len(steps[0].join) and _is_plain(step)
        if not same or step.make != f"{first[0]}{count + 1}":
            break
        count += 1
    while count > 1:
        if all(_counted(row, count) is not None for row in _columns(steps[:count])):
            return count
        count -= 1
    return 0


def _is_plain(step: Step) -> bool:
    """Whether a step says nothing but what it joins and makes."""
    said = (step.by, step.ends, step.press, step.leave, step.note)
    return not step.finish and not any(said)


def _columns(steps: Sequence[Step]) -> list[list[str]]:
    """For every place in the join, the names that stand there step after step."""
    return [list(row) for row in zip(*(step.join for step in steps), strict=True)]


def _parts(steps: Sequence[Step]) -> tuple[str, ...]:
    """The parts of one step, or of several alike with `#`."""
    if len(steps) == 1:
        return steps[0].join
    return tuple(_counted(row, len(steps)) or "" for row in _columns(steps))


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


def _written(step: Step, times: int, parts: Sequence[str]) -> str:
    """The flow map of a step."""
    listed = ", ".join(_scalar(part) for part in parts)
    if step.finish:
        entries = [f"finish: [{listed}]"]
    else:
        make = f"{(_numbered(step.make) or ('', 0))[0]}#" if times > 1 else step.make
        entries = [f"make: {_scalar(make)}"] if step.make else []
        entries.append(f"join: [{listed}]")
    if times > 1:
        entries.append(f"times: {times}")
    if step.leave:
        entries.append(f"leave: {_scalar(step.leave)}")
    if step.by:
        entries.append(f"by: {step.by.value}")
    if step.ends:
        entries.append(f"ends: {step.ends.value}")
    if step.press:
        of = f" {step.press.of}" if step.press.kind in (PressKind.TOWARD, PressKind.AWAY) else ""
        entries.append(f"press: {_scalar(step.press.kind.value + of)}")
    if step.note:
        entries.append(f"note: {_quoted(step.note)}")
    return "{" + ", ".join(entries) + "}"


def _scalar(text: str) -> str:
    """A name as YAML, in quotes where it needs them."""
    return text if _PLAIN.fullmatch(text) and text not in _EMPTY else _quoted(text)


def _quoted(text: str) -> str:
    """A text in double quotes."""
    return '"' + " ".join(text.replace("\\", "\\\\").replace('"', '\\"').split()) + '"'
