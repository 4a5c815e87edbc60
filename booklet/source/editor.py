"""Floor 2: puts steps of sewing into the text of a pattern and leaves every other line as it is."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate

from booklet.pattern import Step
from booklet.source.blocks.step_words import step_lines
from booklet.source.faults import Faults
from booklet.source.files.folder import SOURCE
from booklet.source.tree.node import List, Map, Node, Text, plain_value
from booklet.source.tree.syntax import read_tree

_OPEN, _CLOSE = "[{", "]}"


def write_steps(text: str, block: str, steps: Sequence[Step]) -> str | None:
    """The text with these steps under `sew:` of a block, in place of what stood there.

    Comments and layout of all else are kept; alike steps are written once with `times`. None where
    there is no such block, or where the place cannot be found safely.
    """
    tree = _tree(text)
    there = _block(tree, block)
    if tree is None or there is None or not there.entries or not steps:
        return None
    made = _Text(text).edited(there, step_lines(steps))
    after = _tree(made) if made is not None else None
    return made if after is not None and _same_but_for_steps(tree, after, block) else None


def _tree(text: str) -> Map | None:
    """The tree of a text that can be read without a fault."""
    faults = Faults()
    tree = read_tree(text, SOURCE, faults)
    return tree if isinstance(tree, Map) and not faults.all() else None


def _block(tree: Map | None, block: str) -> Map | None:
    """The keys of a block."""
    blocks = tree.find("blocks") if tree else None
    found = blocks[1].find(block) if blocks and isinstance(blocks[1], Map) else None
    return found[1] if found and isinstance(found[1], Map) else None


def _same_but_for_steps(before: Map, after: Map, block: str) -> bool:
    """Whether two trees say the same apart from the steps of a block, which the second has."""
    old, new = _block(before, block), _block(after, block)
    if old is None or new is None or not isinstance((new.find("sew") or (0, 0))[1], List):
        return False
    plain = [plain_value(before), plain_value(after)]
    for tree in plain:
        tree["blocks"][block].pop("sew", None)  # type: ignore[index]
    return plain[0] == plain[1]


class _Text:
    """A text in lines, with the places of its characters."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.lines = text.splitlines(keepends=True)
        self.starts = [0, *accumulate(len(line) for line in self.lines)]
        self.end_of_line = "\r\n" if "\r\n" in text else "\n"

    def edited(self, block: Map, steps: Sequence[str]) -> str | None:
        """The text with the steps in the block."""
        sew = block.find("sew")
        if self.text[self._at(block)] == "{":
            return self._in_flow(block, sew, steps)
        indent = " " * (block.entries[0][0].span.column - 1)
        if sew is None:
            last = self._last_line(*block.entries[-1])
            return self._with_lines(last + 1, last + 1, self._block_lines(indent, steps, ""))
        first, last = sew[0].span.line - 1, self._last_line(*sew)
        return self._with_lines(
            first, last + 1, self._block_lines(indent, steps, self._comment(*sew))
        )

    def _block_lines(self, indent: str, steps: Sequence[str], comment: str) -> list[str]:
        """`sew:` and the steps, a line each."""
        return [f"{indent}sew:{comment}", *(f"{indent}  - {step}" for step in steps)]

    def _with_lines(self, first: int, end: int, new: Sequence[str]) -> str:
        """The text with other lines from `first` up to `end`."""
        before = "".join(self.lines[:first])
        if before and not before.endswith(("\n", "\r")):
            before += self.end_of_line
        made = self.end_of_line.join(new) + self.end_of_line
        return before + made + "".join(self.lines[end:])

    def _in_flow(
        self, block: Map, sew: tuple[Text, Node] | None, steps: Sequence[str]
    ) -> str | None:
        """The text with the steps in a block written in braces."""
        made = f"[{', '.join(steps)}]"
        if sew is None:
            start = self._at(block) + 1
            return f"{self.text[:start]}sew: {made}, {self.text[start:]}"
        start, value = self._at(sew[1]), sew[1]
        if isinstance(value, Text):
            if value.span.line != sew[0].span.line or value.span == sew[0].span:
                return None
            end = self.starts[value.span.line - 1] + value.span.end - 1
        else:
            end = self._flow_end(start)
        return self.text[:start] + made + self.text[end:]

    def _at(self, node: Node) -> int:
        """The place of the first character of a node."""
        return self.starts[node.span.line - 1] + node.span.column - 1

    def _comment(self, key: Text, value: Node) -> str:
        """The comment at the end of the key's line, with the spaces in front."""
        line = self.lines[key.span.line - 1].rstrip("\r\n")
        end = key.span.end
        if value.span.line == key.span.line and value.span != key.span:
            flow = self.text[self._at(value)] in _OPEN and not isinstance(value, Text)
            place = self._flow_end(self._at(value)) - self.starts[key.span.line - 1]
            end = place if flow else value.span.end - 1
        cut = line.find("#", min(end, len(line)))
        return f"  {line[cut:]}" if cut >= 0 else ""

    def _last_line(self, key: Text, value: Node) -> int:
        """The number from 0 of the last line of an entry of a block in lines."""
        indent = key.span.column - 1
        last = key.span.line - 1
        if not isinstance(value, Text) and self.text[self._at(value)] in _OPEN:
            end = self._flow_end(self._at(value))
            return max(last, sum(start < end for start in self.starts[:-1]) - 1)
        for number in range(last + 1, len(self.lines)):
            line = self.lines[number]
            bare = line.strip()
            deep = len(line) - len(line.lstrip(" "))
            if not bare or bare.startswith("#"):
                continue
            listed = deep == indent and isinstance(value, List) and bare.startswith("-")
            if deep <= indent and not listed:
                break
            last = number
        return last

    def _flow_end(self, start: int) -> int:
        """The place after the bracket that closes the one at `start`."""
        depth, place, text = 0, start, self.text
        while place < len(text):
            sign = text[place]
            if sign in "\"'" and text[place - 1] in " \t\n[{,:":
                place = self._after_quotes(place)
                continue
            if sign == "#" and text[place - 1] in " \t\n":
                while place < len(text) and text[place] != "\n":
                    place += 1
                continue
            depth += (sign in _OPEN) - (sign in _CLOSE)
            place += 1
            if depth == 0:
                break
        return place

    def _after_quotes(self, start: int) -> int:
        """The place after a text in quotes."""
        mark, place, text = self.text[start], start + 1, self.text
        while place < len(text) and text[place] != mark:
            place += 2 if text[place] == "\\" and mark == '"' else 1
        return place + 1
