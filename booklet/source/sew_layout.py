"""Floor 2: how steps stand under `sew:`: in the author's layout, entries that stay as they are written."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from difflib import SequenceMatcher

from booklet.kit.records import Mutable, Record, field
from booklet.pattern import DeclaredStep
from booklet.source.blocks.step_words import in_braces, in_entries, said_of, step_keys
from booklet.source.lines import Lines
from booklet.source.tree.node import List

LONGEST = 110  # signs of a list in one line, beyond which its entries have a line each


class Entry(Record):
    """One entry of the list: the number of the one that stood there and stays, or the keys of a new one."""

    old: int | None
    keys: tuple[str, ...] = ()

    @property
    def in_braces(self) -> str:
        """A new entry as one flow map."""
        return in_braces(self.keys)


def entries_of(steps: Sequence[DeclaredStep], written: Sequence[DeclaredStep]) -> tuple[Entry, ...]:
    """The entries of some steps: those written before whose every time is among them, in a row, stay."""
    before: dict[int, list[DeclaredStep]] = {}
    for step in written:
        before.setdefault(step.entry, []).append(step)
    first = {said_of(times[0]): number for number, times in reversed(before.items())}
    found: list[Entry] = []
    fresh: list[DeclaredStep] = []
    k = 0
    while k < len(steps):
        number = first.get(said_of(steps[k]))
        times = before[number] if number is not None else []
        same = list(map(said_of, steps[k : k + len(times)])) == list(map(said_of, times))
        if number is not None and same and all(entry.old != number for entry in found):
            found += [Entry(None, step_keys(group)) for group in in_entries(fresh)]
            fresh = []
            found.append(Entry(number))
            k += len(times)
        else:
            fresh.append(steps[k])
            k += 1
    return (*found, *(Entry(None, step_keys(group)) for group in in_entries(fresh)))


def fresh_lines(entries: Sequence[Entry], indent: int) -> list[str]:
    """The lines of a list where none stood, a dash before each entry."""
    return [line for entry in entries for line in _fresh(entry, " " * indent + "- ", False)]


def in_lines(text: Lines, old: List, entries: Sequence[Entry]) -> list[str] | None:
    """The lines of a list with a dash before each entry, as those that stood there. None where these cannot be taken apart
    safely."""
    items = _items(text, old)
    if items is None:
        return None
    dash = items[0].dash
    opened = sum(text.is_flow(item) for item in old.items) * 2 < len(old.items)
    made: list[str] = []
    for entry, gone in _aligned(entries, len(items)):
        if gone is not None:
            made += [f"{' ' * dash.index('-')}{said}" for said in items[gone].comments]
        elif entry is not None and entry.old is not None:
            made += items[entry.old].lines
        elif entry is not None:
            made += _fresh(entry, dash, opened)
    return made


def in_brackets(text: Lines, old: List, entries: Sequence[Entry], indent: int) -> str | None:
    """A list in brackets: in one line if it stood so, else with a line for each entry. None where what stood there cannot
    be taken apart safely."""
    if any(not text.is_flow(item) for item in old.items):
        return None
    start, end = text.at(old), text.flow_end(text.at(old))
    stood = _bracketed_items(text, old, (start, end))
    whole = [stood.items[e.old].words if e.old is not None else e.in_braces for e in entries]
    line = f"[{', '.join(whole)}]"
    if "\n" not in text.text[start:end] and len(line) <= LONGEST:
        return line
    first, places = text.line(start), [text.at(item) for item in old.items]
    own = text.line(places[0]) > first
    deep = " " * (places[0] - text.starts[text.line(places[0])] if own else indent + 2)
    made = [deep + line for line in _entry_lines(stood.items, entries)]
    closing = text.line(end - 1)
    bare = text.text[text.starts[closing] : end - 1]
    outer = bare if not bare.strip() and closing > first else " " * indent
    opening = "  ".join(["[", *stood.opening])
    return text.end_of_line.join([opening, *made, *(deep + c for c in stood.rest), f"{outer}]"])


def _entry_lines(items: Sequence[_Bracketed], entries: Sequence[Entry]) -> Iterator[str]:
    """The lines between the brackets: entries with their comments, and the comments of those that go."""
    left = len(entries)
    for entry, gone in _aligned(entries, len(items)):
        if gone is not None:
            yield from (
                *items[gone].before,
                *items[gone].inside,
                *map(str.strip, items[gone].beside),
            )
        elif entry is not None:
            left -= 1
            own = items[entry.old] if entry.old is not None else _Bracketed(entry.in_braces)
            yield from own.before
            yield own.words + ("," if left else "") + "".join(own.beside)


class _Bracketed(Mutable):
    """An entry in brackets, and the comments in the lines before it, within it, and in its own line behind it (with
    the spaces before)."""

    words: str
    before: list[str] = field(default_factory=list)
    inside: list[str] = field(default_factory=list)
    beside: list[str] = field(default_factory=list)


class _Brackets(Mutable):
    """A list in brackets: the comments beside its opening one, its entries, and what comes after the last."""

    items: list[_Bracketed]
    opening: list[str] = field(default_factory=list)
    rest: list[str] = field(default_factory=list)


def _bracketed_items(text: Lines, old: List, whole: tuple[int, int]) -> _Brackets:
    """The entries of a list in brackets with the comments about them."""
    places = [(text.at(item), text.flow_end(text.at(item))) for item in old.items]
    found = _Brackets([_Bracketed(text.text[a:b], inside=text.said(a, b)) for a, b in places])
    for a, b in text.comments:
        if not whole[0] <= a < whole[1] or any(start <= a < end for start, end in places):
            continue
        said = text.text[a:b].rstrip()
        last = sum(end <= a for _, end in places) - 1
        if last >= 0 and text.line(places[last][1] - 1) == text.line(a):
            gap = text.text[places[last][1] : a]
            found.items[last].beside.append(gap[len(gap.rstrip(" ")) :] + said)
        elif last < 0 and text.line(whole[0]) == text.line(a):
            found.opening.append(said)
        elif last + 1 < len(places):
            found.items[last + 1].before.append(said)
        else:
            found.rest.append(said)
    return found


class _Item(Record):
    """An entry as it stands: the lines from the end of the one before to its own end, the comments in them, and
    what stands before its first key."""

    lines: list[str]
    comments: list[str]
    dash: str


def _items(text: Lines, old: List) -> list[_Item] | None:
    """The entries of a list in lines; None where a dash stands by itself, or two in one line."""
    found: list[_Item] = []
    begun = old.items[0].span.line - 1
    places = [item.span.line - 1 for item in old.items]
    dashes = [
        text.lines[k][: item.span.column - 1] for k, item in zip(places, old.items, strict=True)
    ]
    if any(dash.strip() != "-" for dash in dashes) or len(set(places)) < len(places):
        return None
    while begun and _is_aside(text.lines[begun - 1]):
        begun -= 1  # the comments above the first entry
    ends = [_last(text, at, dash, text.starts) for at, dash in zip(places, dashes, strict=True)]
    for dash, end in zip(dashes, ends, strict=True):
        lines = [line.rstrip("\r\n") for line in text.lines[begun : end + 1]]
        said = text.said(text.starts[begun], text.starts[end + 1])
        found.append(_Item(lines, said, dash))
        begun = end + 1
    return found


def _is_aside(line: str) -> bool:
    """Whether a line holds a comment, or nothing."""
    return not line.strip() or line.lstrip().startswith("#")


def _last(text: Lines, at: int, dash: str, starts: Sequence[int]) -> int:
    """The last line of an entry that begins in a line with this dash: what follows it stands further in."""
    deep = dash.index("-")
    place = starts[at] + len(dash)
    last = text.line(text.flow_end(place) - 1) if text.text[place] in "{[" else at
    for number in range(last + 1, len(text.lines)):
        line = text.lines[number]
        if _is_aside(line):
            continue
        if len(line) - len(line.lstrip(" ")) <= deep:
            break
        last = number
    return last


def _fresh(entry: Entry, dash: str, opened: bool) -> list[str]:
    """The lines of a new entry: a key a line where the author's stand so, else in braces."""
    if not opened:
        return [dash + entry.in_braces]
    return [(dash if not n else " " * len(dash)) + key for n, key in enumerate(entry.keys)]


def _aligned(
    entries: Sequence[Entry], count: int
) -> Iterator[tuple[Entry, None] | tuple[None, int]]:
    """The entries in order, and where each of the `count` that stood there and goes had its place."""
    stay = {entry.old for entry in entries}
    new = [entry.old if entry.old is not None else -1 - k for k, entry in enumerate(entries)]
    for _, a, b, c, d in SequenceMatcher(None, range(count), new, autojunk=False).get_opcodes():
        yield from ((None, old) for old in range(a, b) if old not in stay)
        yield from ((entry, None) for entry in entries[c:d])
