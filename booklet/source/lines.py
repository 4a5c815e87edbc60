"""Floor 2: a text of the source in lines, with the places of its characters: for what is put into it."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from itertools import accumulate

from booklet.source.faults import Faults
from booklet.source.files.folder import SOURCE
from booklet.source.tree.node import List, Map, Node, Text
from booklet.source.tree.syntax import comments_of, read_tree

_OPEN, _CLOSE = "[{", "]}"


def tree_of(text: str) -> Map | None:
    """The tree of a text that can be read without a fault."""
    faults = Faults()
    tree = read_tree(text, SOURCE, faults)
    return tree if isinstance(tree, Map) and not faults.all() else None


def block_of(tree: Map | None, block: str) -> Map | None:
    """The keys of a block."""
    blocks = tree.find("blocks") if tree else None
    found = blocks[1].find(block) if blocks and isinstance(blocks[1], Map) else None
    return found[1] if found and isinstance(found[1], Map) else None


class Lines:
    """A text that can be read, with the places of its lines and its comments."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.lines = text.splitlines(keepends=True)
        self.starts = [0, *accumulate(len(line) for line in self.lines)]
        self.end_of_line = "\r\n" if "\r\n" in text else "\n"
        self.comments = comments_of(text)

    def at(self, node: Node) -> int:
        """The place of the first character of a node."""
        return self.starts[node.span.line - 1] + node.span.column - 1

    def line(self, place: int) -> int:
        """The number from 0 of the line that a character stands in."""
        return bisect_right(self.starts, place) - 1

    def is_flow(self, node: Node) -> bool:
        """Whether a list or group is written in brackets or braces."""
        return not isinstance(node, Text) and self.text[self.at(node)] in _OPEN

    def said(self, start: int, end: int) -> list[str]:
        """The comments that begin in a stretch of the text."""
        return [self.text[a:b].rstrip() for a, b in self.comments if start <= a < end]

    def with_lines(self, first: int, end: int, new: Sequence[str]) -> str:
        """The text with other lines from `first` up to `end`."""
        before = "".join(self.lines[:first])
        if before and not before.endswith(("\n", "\r")):
            before += self.end_of_line
        made = self.end_of_line.join(new) + self.end_of_line
        return before + made + "".join(self.lines[end:])

    def last_line(self, key: Text, value: Node) -> int:
        """The number from 0 of the last line of an entry of a block in lines."""
        indent = key.span.column - 1
        last = key.span.line - 1
        if self.is_flow(value):
            return max(last, self.line(self.flow_end(self.at(value)) - 1))
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

    def flow_end(self, start: int) -> int:
        """The place after the bracket that closes the one at `start`."""
        depth, place, text = 0, start, self.text
        while place < len(text):
            sign = text[place]
            if sign in "\"'" and text[place - 1] in " \t\n[{,:":
                place = self.after_quotes(place)
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

    def after_quotes(self, start: int) -> int:
        """The place after a text in quotes."""
        mark, place, text = self.text[start], start + 1, self.text
        while place < len(text) and text[place] != mark:
            place += 2 if text[place] == "\\" and mark == '"' else 1
        return place + 1
