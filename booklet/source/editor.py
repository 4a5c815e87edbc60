"""Floor 2: puts steps of sewing into the text of a pattern and leaves every other line as it is."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from booklet.pattern import DeclaredStep
from booklet.source.lines import Lines, block_of, tree_of
from booklet.source.sew_layout import Entry, entries_of, fresh_lines, in_brackets, in_lines
from booklet.source.tree.node import List, Map, Node, Text, plain_value


def write_steps(
    text: str, block: str, steps: Sequence[DeclaredStep], written: Sequence[DeclaredStep] = ()
) -> str | None:
    """The text with these steps under `sew:` of a block, in place of what stood there.

    Comments and layout of all else are kept; alike steps are written once with `times`. An entry that stood there
    and is among the steps, as told by those `written` there, stays as its author wrote it; the comments of one that goes
    stay in its place. None where there is no such block, or where the place cannot be found safely.
    """
    tree = tree_of(text)
    there = block_of(tree, block)
    if tree is None or there is None or not there.entries or not steps:
        return None
    entries = entries_of(steps, written)
    stood = {step.entry for step in written}
    if [entry.old for entry in entries] == sorted(stood):
        return text  # as it stands
    made = _edited(Lines(text), there, entries)
    after = tree_of(made) if made is not None else None
    if made is None or after is None or not _same_but_for_steps(tree, after, block):
        return None
    return made if _comments(made) == _comments(text) else None


def _comments(text: str) -> Counter[str]:
    return Counter(Lines(text).said(0, len(text)))


def _same_but_for_steps(before: Map, after: Map, block: str) -> bool:
    """Whether two trees say the same apart from the steps of a block, which the second has."""
    old, new = block_of(before, block), block_of(after, block)
    if old is None or new is None or not isinstance((new.find("sew") or (0, 0))[1], List):
        return False
    plain = [plain_value(before), plain_value(after)]
    for tree in plain:
        tree["blocks"][block].pop("sew", None)  # type: ignore[index]
    return plain[0] == plain[1]


def _edited(text: Lines, block: Map, entries: Sequence[Entry]) -> str | None:
    """The text with the steps in the block."""
    sew = block.find("sew")
    if text.is_flow(block):
        return _in_flow(text, block, sew, entries)
    key_indent = block.entries[0][0].span.column - 1
    if sew is None:
        last = text.last_line(*block.entries[-1])
        new = fresh_lines(entries, key_indent + _dash(text, block))
        return text.with_lines(last + 1, last + 1, [f"{' ' * key_indent}sew:", *new])
    key, value = sew
    if isinstance(value, List) and value.items and text.is_flow(value):
        return _bracketed(text, value, entries, key_indent)
    first, last = key.span.line - 1, text.last_line(key, value)
    if isinstance(value, List) and value.items:
        lines = in_lines(text, value, entries)
        head = text.lines[first].rstrip("\r\n")
        return None if lines is None else text.with_lines(first, last + 1, [head, *lines])
    return _in_place_of_a_word(text, key, entries, (first, last), key_indent + _dash(text, block))


def _in_place_of_a_word(
    text: Lines, key: Text, entries: Sequence[Entry], lines: tuple[int, int], indent: int
) -> str:
    """The text with steps where `auto`, or nothing, stood."""
    first, last = lines
    said = text.said(text.starts[first], text.starts[last + 1])
    beside = f"  {said[0]}" if said else ""
    rest = [f"{' ' * indent}{comment}" for comment in said[1:]]
    head = f"{' ' * (key.span.column - 1)}sew:{beside}"
    return text.with_lines(first, last + 1, [head, *rest, *fresh_lines(entries, indent)])


def _dash(text: Lines, block: Map) -> int:
    """How far the items of the lists of a block stand in from their key; 2 where it has none."""
    for key, value in block.entries:
        if isinstance(value, List) and value.items and not text.is_flow(value):
            line = text.lines[value.items[0].span.line - 1]
            return max(len(line) - len(line.lstrip(" ")) - (key.span.column - 1), 0)
    return 2


def _in_flow(
    text: Lines, block: Map, sew: tuple[Text, Node] | None, entries: Sequence[Entry]
) -> str | None:
    """The text with the steps in a block written in braces."""
    plain = f"[{', '.join(entry.in_braces for entry in entries)}]"
    if sew is None:
        start = text.at(block) + 1
        return f"{text.text[:start]}sew: {plain}, {text.text[start:]}"
    key, value = sew
    if isinstance(value, List) and value.items:
        return _bracketed(text, value, entries, key.span.column - 1)
    start = text.at(value)
    if isinstance(value, Text):
        if value.span.line != key.span.line or value.span == key.span:
            return None
        end = text.starts[value.span.line - 1] + value.span.end - 1
    else:
        end = text.flow_end(start)
    return text.text[:start] + plain + text.text[end:]


def _bracketed(text: Lines, value: List, entries: Sequence[Entry], indent: int) -> str | None:
    """The text with the steps in a list that is written in brackets."""
    start = text.at(value)
    made = in_brackets(text, value, entries, indent)
    return None if made is None else text.text[:start] + made + text.text[text.flow_end(start) :]
