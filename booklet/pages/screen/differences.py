"""Floor 11, differences: what another view of the page (other units, cloth of another width, another colourway) says otherwise.

The page is written as its first view; whatever differs in any other is an element with a number, and the other views
are lists of what stands in its place. They are packed together: the script unpacks them when another view is chosen.
"""

from __future__ import annotations

import base64
import json
import re
import zlib
from collections.abc import Iterable, Sequence

from booklet.kit.records import Mutable, field
from booklet.pages.screen.dyes import Dyes
from booklet.pages.screen.markup import Element, Node, ScreenWords, build_of, parsed, with_attribute

WHOLE = {"text", "tspan", "title", "option", "a", "b", "h1", "h2", "h3", "h4", "h5", "h6"}
"""Elements that are exchanged whole where their words differ."""
_LABEL = re.compile(r'\saria-label="[^"]*"')
_SMALL = 160
"""Signs of an element that is exchanged whole rather than in parts."""


class Differences(Mutable):
    """What differs, by number: for each other view what stands there, None where it is as in the first."""

    views: int
    dyes: Dyes | None = None  # of a page in several colourways
    found: list[list[str | None]] = field(default_factory=list)

    def page(self, views: Sequence[str]) -> str:
        """A part of the page as its first view, with a number at whatever differs in another. Raises MarkupError for
        markup that is not ours."""
        if len(set(views)) == 1:
            return str(views[0])
        trees = {
            view: parsed(view) for view in dict.fromkeys(views)
        }  # few differ: most views are of other cloth
        rows = [trees[view] for view in views]
        if len({tuple(map(build_of, row)) for row in rows}) > 1:
            return _numbered(_within(views[0]), self._next([_within(v).source for v in views]))
        return self._row(rows)

    def _row(self, rows: Sequence[Sequence[Node]]) -> str:
        """Rows of nodes of the same build."""
        return "".join(self._one(column) for column in zip(*rows, strict=True))

    def _one(self, nodes: Sequence[Node]) -> str:
        """One node in all views."""
        first, said = nodes[0], nodes[0].source
        if all(node is first or node.source == said for node in nodes):
            return said
        if self.dyes is not None and (dyed := self.dyes.whole(nodes)) is not None:
            return dyed
        elements = [node for node in nodes if isinstance(node, Element)]
        if len(elements) == len(nodes) and len(said) > _SMALL:
            within = {id(e): e for e in elements}  # many views hold the same
            children = {each: e.children for each, e in within.items()}
            rows = [children[id(e)] for e in elements]
            opening = self._opening(elements, list(children.values()))
            if opening is not None:
                return opening + self._row(rows) + elements[0].closing
        if isinstance(first, ScreenWords):
            number = self._next([f"<span>{node.source}</span>" for node in nodes])
            return f'<span data-a="{number}">{said}</span>'
        number = self._next([node.source for node in nodes])
        return _numbered(first, number)

    def _opening(self, elements: Sequence[Element], within: Sequence[Sequence[Node]]) -> str | None:
        """The opening tag of elements that differ only `within`, in their colours, and in what they are called by (which
        gets a number of its own); None for others."""
        if not _alike(elements, within):
            return None
        bare = tuple(_LABEL.sub("", e.opening, count=1) for e in elements)
        if len(set(bare)) == 1:
            opening = bare[0]
        else:
            dyed = self.dyes.opening(bare) if self.dyes is not None else None
            if dyed is None:
                return None
            opening = dyed
        labels = ["".join(_LABEL.findall(e.opening)[:1]) for e in elements]
        if len(set(labels)) == 1:
            return with_attribute(opening, labels[0].strip()) if labels[0] else opening
        if not all(labels):
            return None
        number = self._next([f"<b{label}></b>" for label in labels])
        return with_attribute(opening, f'{labels[0].strip()} data-a="{number}" data-l="1"')

    def _next(self, sources: Sequence[str]) -> int:
        """Keep what stands in one place; its number."""
        self.found.append([None if s == sources[0] else s for s in sources[1:]])
        return len(self.found) - 1

    def markup(self) -> list[str]:
        """All that stands in other views."""
        return [source for place in self.found for source in place if source]

    def renew(self, markup: Iterable[str]) -> None:
        """Put other markup in the place of all that stands in other views, in its order."""
        fresh = iter(markup)
        for place in self.found:
            place[:] = [next(fresh) if source else None for source in place]

    def packed(self) -> str:
        """All that differs, as JSON, deflated, in letters: `[number][view]`. What an earlier view says at the same place stands there
        as its number."""
        rows = [[_earlier(row, n) for n in range(len(row))] for row in self.found]
        text = json.dumps(rows, ensure_ascii=False, separators=(",", ":"))
        return base64.b64encode(zlib.compress(text.encode(), 9)).decode("ascii")


def _earlier(row: Sequence[str | None], n: int) -> str | int | None:
    """What a view says at a place, or the number of the first other that says the same."""
    said = row[n]
    first = n if said is None else row.index(said)
    return said if first == n else first


def _within(markup: str) -> Element:
    """Markup in an element that has no look of its own."""
    source = f'<div class="whole">{markup}</div>'
    return Element("div", '<div class="whole">', "</div>", source, 0, len(source))


def _alike(elements: Sequence[Element], within: Sequence[Sequence[Node]]) -> bool:
    """Whether elements are of one kind, and of one build `within`."""
    if len({(e.name, e.closing) for e in elements}) > 1 or elements[0].name in WHOLE:
        return False
    return len({tuple(map(build_of, nodes)) for nodes in within}) == 1


def _numbered(element: Element, number: int) -> str:
    """An element with its number."""
    opening = with_attribute(element.opening, f'data-a="{number}"')
    return opening + element.source[len(element.opening) :]
