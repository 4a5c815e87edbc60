"""Floor 11, merging: the same part of a page, set for several choices, becomes one that holds what is common once
and beside it what differs, each marked with the choices it is for.

Nothing is converted or worked out here: every word and figure was set by the booklet for its choice.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import groupby

from booklet.pages.screen.markup import (
    Element,
    MarkupError,
    Node,
    ScreenWords,
    build_of,
    parsed,
    with_attribute,
)

WHOLE = {"text", "tspan", "title", "desc", "option", "h1", "h2"}
"""Elements that are marked whole where their words differ."""
_ID = re.compile(r'\sid="[^"]*"')

Variant = tuple[str, Node]  # the choice, and what it shows


def merged(axis: str, variants: Sequence[tuple[str, str]]) -> str:
    """Markup of all variants in one. `axis` names the attribute (`data-u`) that holds the choices (`0`, `1`) a part is
    for; the first variant is what the page shows by itself."""
    if len({markup for _, markup in variants}) == 1:
        return variants[0][1]
    try:
        trees = [(choice, parsed(markup)) for choice, markup in variants]
    except MarkupError:  # marked as a whole it is right as well
        return "".join(
            f'<div data-{axis}="{choices}">{markup}</div>'
            for choices, markup in _grouped([(choice, markup) for choice, markup in variants])
        )
    return _rows(axis, trees)


def _grouped(variants: Sequence[tuple[str, str]]) -> list[tuple[str, str]]:
    """Equal texts once, each with all its choices, in order."""
    found: dict[str, list[str]] = {}
    for choice, text in variants:
        found.setdefault(text, []).append(choice)
    return [(" ".join(choices), text) for text, choices in found.items()]


def _rows(axis: str, rows: Sequence[tuple[str, tuple[Node, ...]]]) -> str:
    """Rows of nodes in one: node by node where they have the same build, else equal ends once and the rest
    beside each other."""
    builds = {tuple(build_of(node) for node in nodes) for _, nodes in rows}
    if len(builds) == 1:
        columns = zip(*(nodes for _, nodes in rows), strict=True)
        choices = [choice for choice, _ in rows]
        return "".join(_one(axis, list(zip(choices, column, strict=True))) for column in columns)
    start = _common([nodes for _, nodes in rows])
    end = _common([nodes[start:][::-1] for _, nodes in rows])
    first = rows[0][1]
    middle = [(choice, nodes[start : len(nodes) - end]) for choice, nodes in rows]
    by_text: dict[str, tuple[list[str], tuple[Node, ...]]] = {}
    for choice, nodes in middle:
        text = "".join(node.source for node in nodes)
        by_text.setdefault(text, ([], nodes))[0].append(choice)
    apart = "".join(
        _marked(axis, " ".join(choices), node, number > 0)
        for number, (choices, nodes) in enumerate(by_text.values())
        for node in nodes
    )
    before = "".join(node.source for node in first[:start])
    return before + apart + "".join(node.source for node in first[len(first) - end :])


def _common(rows: Sequence[Sequence[Node]]) -> int:
    """How many nodes at the beginning of all rows are equal."""
    count = 0
    for column in zip(*rows, strict=False):
        if len({node.source for node in column}) > 1:
            break
        count += 1
    return count


def _one(axis: str, variants: list[Variant]) -> str:
    """One node of all choices."""
    first = variants[0][1]
    if all(node.source == first.source for _, node in variants):
        return first.source
    elements = [(choice, node) for choice, node in variants if isinstance(node, Element)]
    if len(elements) == len(variants) and len({node.opening for _, node in elements}) == 1:
        opening, closing = elements[0][1].opening, elements[0][1].closing
        if elements[0][1].name not in WHOLE:
            inner = _rows(axis, [(choice, node.children) for choice, node in elements])
            return opening + inner + closing
    return _apart(axis, variants)


def _apart(axis: str, variants: list[Variant]) -> str:
    """Nodes beside each other, equal ones once."""
    ordered = sorted(variants, key=lambda v: [n.source for _, n in variants].index(v[1].source))
    groups = [list(group) for _, group in groupby(ordered, key=lambda v: v[1].source)]
    return "".join(
        _marked(axis, " ".join(choice for choice, _ in group), group[0][1], number > 0)
        for number, group in enumerate(groups)
    )


def _marked(axis: str, choices: str, node: Node, other: bool) -> str:
    """A node marked with its choices; an id stays with the first of those that bear it."""
    mark = f'data-{axis}="{choices}"'
    if isinstance(node, ScreenWords):
        return f"<span {mark}>{node.source}</span>" if node.source.strip() else node.source
    source = _ID.sub("", node.source) if other and " id=" in node.source else node.source
    opening = _ID.sub("", node.opening) if other else node.opening
    return with_attribute(opening, mark) + source[len(opening) :]
