"""Floor 2: how steps stand under `sew:`: in the author's layout, entries that stay as they are written."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher

from booklet.pattern import Step
from booklet.source.blocks.step_words import in_braces, in_entries, said_of, step_keys
from booklet.source.lines import Lines
from booklet.source.tree.node import List

LONGEST = 110  # signs of a list in one line, beyond which its entries have a line each


@dataclass(frozen=True, slots=True)
class Entry:
    """One entry of the list: the number of the one that stood there and stays, or the keys of a new one."""

    old: int | None
    keys: tuple[str, ...] = ()

    @property
    def in_braces(self) -> str:
        """A new entry as one flow map."""
        return in_braces(self.keys)


def entries_of(steps: Sequence[Step], written: Sequence[Step]) -> tuple[Entry, ...]:
    """The entries of some steps: those written before whose every time is among them, in a row, stay."""
    before: dict[int, list[Step]] = {}
    for step in written:
        before.setdefault(step.entry, []).append(step)
    first = {said_of(times[0]): number for number, times in reversed(before.items())}
    found: list[Entry] = []
    fresh: list[Step] = []
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
    start, end = text.at(old), text.flow_end(text.at(old))
    items = [(text.at(item), text.flow_end(text.at(item))) for item in old.items]
    if any(not text.is_flow(item) for item in old.items):
        return None
    written = [text.text[a:b] for a, b in items]
    whole = [written[e.old] if e.old is not None else e.in_braces for e in entries]
    line = f"[{', '.join(whole)}]"
    if "\n" not in text.text[start:end] and len(line) <= LONGEST:
        return line
    first = text.line(start)
    own = text.line(items[0][0]) > first
    deep = " " * (items[0][0] - text.starts[text.line(items[0][0])] if own else indent + 2)
    befores, tails, rest = _comments_between(text, items, (start, end))
    head = [said for said in befores[0] if said in text.lines[first]] if own else []
    befores[0] = befores[0][len(head) :]
    made: list[str] = []
    left = sum(1 for _ in entries)
    for entry, gone in _aligned(entries, len(items)):
        if gone is not None:
            inside = text.said(*items[gone])
            made += [
                deep + said for said in (*befores[gone], *inside, *map(str.strip, tails[gone]))
            ]
        elif entry is not None:
            left -= 1
            kept = entry.old
            made += [deep + said for said in (befores[kept] if kept is not None else ())]
            tail = "".join(tails[kept] if kept is not None else ())
            word = written[kept] if kept is not None else entry.in_braces
            made.append(deep + word + ("," if left else "") + tail)
    made += [deep + said for said in rest]
    closing = text.line(end - 1)
    bare = text.text[text.starts[closing] : end - 1]
    outer = bare if not bare.strip() and closing > first else " " * indent
    opening = "".join(["[", *(f"  {said}" for said in head)])
    return text.end_of_line.join([opening, *made, f"{outer}]"])


def _comments_between(
    text: Lines, items: Sequence[tuple[int, int]], whole: tuple[int, int]
) -> tuple[list[list[str]], list[list[str]], list[str]]:
    """Of each entry of a list in brackets the comments in the lines before it and those in its own line; and what
    comes after the last."""
    befores, tails = [[] for _ in items], [[] for _ in items]  # type: tuple[list[list[str]], list[list[str]]]
    rest: list[str] = []
    for a, b in text.comments:
        if not whole[0] <= a < whole[1] or any(start <= a < end for start, end in items):
            continue
        said = text.text[a:b].rstrip()
        before = [n for n, (_, end) in enumerate(items) if end <= a]
        after = [n for n, (start, _) in enumerate(items) if start > a]
        if before and text.line(items[before[-1]][1] - 1) == text.line(a):
            gap = text.text[items[before[-1]][1] : a]
            tails[before[-1]].append(gap[len(gap.rstrip(" ")) :] + said)
        elif after:
            befores[after[0]].append(said)
        else:
            rest.append(said)
    return befores, tails, rest


@dataclass(frozen=True, slots=True)
class _Item:
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
