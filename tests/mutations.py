"""Patterns with something changed, where a slip or a stranger might change it: keys, values, steps, texts, drawings.

A mutation knows the structure: it works on the tree of a pattern, takes values from other patterns for the same key, and
writes the tree down again. The same number gives the same source.
"""

from __future__ import annotations

import json
import random
import re
from collections import defaultdict
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

from ruamel.yaml import YAML

PATTERNS = Path(__file__).parent / "patterns"
EXAMPLE = Path(__file__).parent.parent / "example_pattern"
Tree = Any
Files = dict[str, bytes]
ODD = [
    None, True, "", " ", "0", "-1", "1/0", "1/3", "99999", "1e9", "0.0001", "√2", "2 1/2 in", "6.4 cm", "-3 in", "1 u", "1/64",
    "3 x 2", "0 x 5", "1000000", "NaN", "yes", "no", "auto", "hand", "machine", "~", "a", "a1", "A", "ü", "\u202e", "\x07", "𝄞",
    "{{ size.finished }}", "{% x %}", "<b>", "=1+1", "../x", "/etc", "x" * 300, [], {}, [[]], ["a"], {"a": 1}, "#", "a#", "a turn 90",
]  # fmt: skip
WORDS = [
    "\n::: teacher\n", "\n:::\n", "{{ size.finished }}", "{{ fabric.x.buy }}", "{{", "}}", "# ", "* ", "![](x.png)", "<script>", "&#0;", "|a|b|\n|-|-|\n",
    "[a](javascript:b)", "`" * 9, "> " * 70, "\u2028", "\ufeff", "\x00", "e\u0301" * 40, "\n" * 9, "{{ figure.quilt }}", "{{ table.sizes }}",
]  # fmt: skip


@cache
def corpus() -> tuple[tuple[str, str, tuple[tuple[str, bytes], ...]], ...]:
    """(name, text of the pattern, its other files) of every pattern of the project."""
    found = []
    for folder in (*sorted(p for p in PATTERNS.iterdir() if p.is_dir()), EXAMPLE):
        files = [
            (path.relative_to(folder).as_posix(), path.read_bytes())
            for path in sorted(folder.rglob("*"))
            if path.is_file() and "out" not in path.parts and path.name != "pattern.yaml"
        ]
        text = (folder / "pattern.yaml").read_text(encoding="utf-8")
        found.append((folder.name, text, tuple(files)))
    return tuple(found)


@cache
def _tree(text: str) -> str:
    """The tree of a pattern as JSON."""
    return json.dumps(_plain(YAML(typ="safe", pure=True).load(text)))


def _plain(node: Tree) -> Tree:
    if isinstance(node, dict):
        return {str(key): _plain(value) for key, value in node.items()}
    if isinstance(node, list):
        return [_plain(item) for item in node]
    return node if node is None or isinstance(node, (bool, int, float)) else str(node)


@cache
def _values() -> dict[str, tuple[str, ...]]:
    """All values that the patterns give to a key, as JSON."""
    found = defaultdict(set)
    for _, text, _ in corpus():
        for node in _nodes(json.loads(_tree(text))):
            if isinstance(node, dict):
                for key, value in node.items():
                    found[key].add(json.dumps(value))
    return {key: tuple(sorted(values)) for key, values in found.items()}


def _nodes(tree: Tree) -> Iterator[Tree]:
    """Every group and list of a tree."""
    if isinstance(tree, (dict, list)):
        yield tree
        for value in tree.values() if isinstance(tree, dict) else tree:
            yield from _nodes(value)


def mutated(number: int, names: tuple[str, ...] = ()) -> tuple[str, str, Files]:
    """(name of the pattern, text, other files): the mutation of that number."""
    lot = random.Random(number)
    known = [entry for entry in corpus() if not names or entry[0] in names]
    name, text, others = lot.choice(known)
    files = dict(others)
    tree = json.loads(_tree(text))
    for _ in range(lot.choice((1, 1, 1, 2, 2, 3, 5))):
        if files and lot.random() < 0.25:
            _change_file(files, lot)
        else:
            _change(tree, lot)
    if lot.random() < 0.15:
        return name, _with_slip(text, lot), files
    return name, json.dumps(tree, indent=1, ensure_ascii=lot.random() < 0.5), files


def _with_slip(text: str, lot: random.Random) -> str:
    """A text with a line lost, doubled or of another place, or a few signs taken out, doubled or put in."""
    lines = text.splitlines(keepends=True)
    if not lines:
        return lot.choice(WORDS)
    if lot.random() < 0.3:
        at = lot.randrange(len(lines))
        lines[at : at + 1] = lot.choice(([], [lines[at]] * 2, [lot.choice(lines)]))
        return "".join(lines)
    at = lot.randrange(len(text))
    end = min(len(text), at + lot.randrange(12))
    return (
        text[:at]
        + lot.choice(("", text[at:end] * 2, lot.choice(WORDS), "\t", "- ", ": "))
        + text[end:]
    )


def _change(tree: Tree, lot: random.Random) -> None:
    """Change one thing of a tree, in place."""
    node = lot.choice([n for n in _nodes(tree) if n])
    if isinstance(node, dict):
        _change_key(node, lot)
    else:
        _change_item(node, lot)


def _change_key(node: dict[str, Tree], lot: random.Random) -> None:
    key = lot.choice(list(node))
    kind = lot.randrange(7)
    if kind == 0:
        del node[key]
    elif kind == 1:
        node[lot.choice(sorted(_values()))] = node[key]
    elif kind == 2:
        other = lot.choice(sorted(_values()))
        node[other] = json.loads(lot.choice(_values()[other]))
    elif kind == 3:
        node[key] = lot.choice(ODD)
    elif kind == 4:
        node[key] = _shaken(node[key], lot)
    elif key in _values():
        node[key] = json.loads(lot.choice(_values()[key]))


def _change_item(node: list[Tree], lot: random.Random) -> None:
    at = lot.randrange(len(node))
    kind = lot.randrange(7)
    if kind == 0:
        del node[at]
    elif kind == 1:
        node.insert(at, json.loads(json.dumps(node[at])))
    elif kind == 2:
        lot.shuffle(node)
    elif kind == 3:
        node[at] = lot.choice(ODD)
    elif kind == 4 and isinstance(node[at], str):  # a step, a row of a grid: a part from elsewhere
        node[at] = lot.choice([n for n in node if isinstance(n, str)])
    elif kind == 5:
        node[at:] = node[at : at + 1] * lot.choice((2, 3, 30))
    else:
        node[at] = _shaken(node[at], lot)


def _shaken(value: Tree, lot: random.Random) -> Tree:
    """A value with its numbers a little different."""

    def other(found: re.Match[str]) -> str:
        return lot.choice(
            ("0", "1", "2", found[0] + "0", "1/3", f"{float(found[0]) * 1.01:.4f}", "-" + found[0])
        )

    text = json.dumps(value)
    made = re.sub(
        r"(?<![\w.])\d+(?:\.\d+)?(?![\w.])",
        lambda m: other(m) if lot.random() < 0.3 else m[0],
        text,
    )
    try:
        return json.loads(made)
    except ValueError:
        return str(value) + lot.choice((" 1/2", " in", "0", "."))


def _change_file(files: Files, lot: random.Random) -> None:
    """Change one of the other files: a word in a text, a number or a sign in a drawing, bytes of a picture."""
    name = lot.choice(sorted(files))
    data = files[name]
    if lot.random() < 0.05:
        del files[name]
    elif name.endswith((".md", ".svg", ".html", ".css")):
        text = data.decode("utf-8", "replace")
        if name.endswith(".svg") and lot.random() < 0.7:
            numbers = list(re.finditer(r"\d+(?:\.\d+)?", text))
            found = lot.choice(numbers)
            new = lot.choice(("0", "-1", found[0] + "1", "1e3", "0.5", "NaN", "99999999999"))
            text = text[: found.start()] + new + text[found.end() :]
        else:
            text = _with_slip(text, lot)
        files[name] = text.encode("utf-8", "surrogatepass")
    elif data:
        at = lot.randrange(len(data))
        files[name] = data[:at] + bytes([lot.randrange(256)]) + data[at + 1 :]
