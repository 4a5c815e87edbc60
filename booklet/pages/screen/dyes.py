"""Floor 11, dyes: one page in several colourways. What differs in nothing but its colours stands there once: its look names
variables of the style sheet, which have other values where another colourway is chosen.

Views of one colourway must show an element alike; what differs otherwise is left to the patches.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from booklet.kit.records import Mutable, field
from booklet.pages.pictures.compact import SharedPictures
from booklet.pages.screen.markup import Element, Node

_ATTRIBUTE = re.compile(r"\s([\w:-]+)=\"([^\"]*)\"")
_GROUND = re.compile(r"(background(?:-image)?):(.*)")


class Dyes(Mutable, kw_only=True):
    """The colourways of the views (numbers from 0, one for each view), and the values that have taken the names of
    variables: one for each colourway."""

    pictures: SharedPictures
    colourways: tuple[int, ...]
    names: dict[tuple[str, ...], str] = field(default_factory=dict)
    known: dict[tuple[str, ...], str | None] = field(default_factory=dict)

    def whole(self, nodes: Sequence[Node]) -> str | None:
        """The markup that stands for a node in all views; None if they differ in more than colours."""
        first, said = nodes[0], nodes[0].source
        if all(node is first or node.source == said for node in nodes):
            return said
        elements = [node for node in nodes if isinstance(node, Element)]
        if len(elements) < len(nodes):
            return None
        rows = [e.children for e in elements]
        if len({len(row) for row in rows}) > 1:
            return None
        opening = self.opening(tuple(element.opening for element in elements))
        if opening is None:
            return None
        made = [self.whole(column) for column in zip(*rows, strict=True)]
        inner = [each for each in made if each is not None]
        return opening + "".join(inner) + elements[0].closing if len(inner) == len(made) else None

    def opening(self, tags: tuple[str, ...]) -> str | None:
        """The opening tag that stands for those of an element in all views; None if they differ in more than colours."""
        if len(set(tags)) == 1:
            return tags[0]
        if tags not in self.known:
            self.known[tags] = self._opening(tags)
        return self.known[tags]

    def _opening(self, tags: tuple[str, ...]) -> str | None:
        each = self._by_colourway(tags)
        rows = [_ATTRIBUTE.findall(tag) for tag in each or ()]
        if each is None or len({_ATTRIBUTE.sub("", tag) for tag in each}) > 1:
            return None
        if len({tuple(key for key, _ in row) for row in rows}) > 1:
            return None
        made = each[0]
        for column in zip(*rows, strict=True):
            key, values = column[0][0], tuple(value for _, value in column)
            if len(set(values)) == 1:
                continue
            said = self._value(key, values)
            if said is None:
                return None
            made = made.replace(f' {key}="{values[0]}"', f' {key}="{said}"', 1)
        return made

    def _by_colourway(self, tags: tuple[str, ...]) -> tuple[str, ...] | None:
        """The tag of each colourway; None if its views differ."""
        found: dict[int, str] = {}
        for number, tag in zip(self.colourways, tags, strict=True):
            if found.setdefault(number, tag) != tag:
                return None
        return tuple(found[number] for number in sorted(found))

    def _value(self, key: str, values: tuple[str, ...]) -> str | None:
        """What stands for the values of an attribute in all colourways."""
        if key == "class":
            return self._look(values)
        if key == "style":
            return self._ground(values)
        return None

    def _look(self, classes: tuple[str, ...]) -> str | None:
        """The class of a picture's look, with what else it says of the element."""
        words = [each.split(" ") for each in classes]
        rules = [self.pictures.rule(each[0]) for each in words]
        if len({tuple(each[1:]) for each in words}) > 1 or not all(rules):
            return None
        looks = [dict(part.split(":", 1) for part in rule.split(";")) for rule in rules]
        if len({tuple(look) for look in looks}) > 1:
            return None
        rule = ";".join(
            f"{key}:{self.named(tuple(look[key] for look in looks))}" for key in looks[0]
        )
        return " ".join([self.pictures.named(rule), *words[0][1:]])

    def _ground(self, styles: tuple[str, ...]) -> str | None:
        """The ground of a swatch."""
        found = [_GROUND.fullmatch(style) for style in styles]
        keys = {each[1] for each in found if each is not None}
        if len(keys) != 1 or None in found:
            return None
        values = tuple(each[2] for each in found if each is not None)
        return f"{keys.pop()}:{self.named(values)}"

    def named(self, values: tuple[str, ...]) -> str:
        """The value itself where it is one in all colourways, else a variable that has each in its own."""
        if len(set(values)) == 1:
            return values[0]
        return f"var({self.names.setdefault(values, f'--d{len(self.names)}')})"

    def rules(self) -> str:
        """The rules that give the variables their values."""
        count = max(self.colourways, default=0) + 1
        said = []
        for number in range(count) if self.names else ():
            values = ";".join(f"{name}:{each[number]}" for each, name in self.names.items())
            chosen = f'html[data-c="{number}"]' if number else "html"
            said.append(f"{chosen}{{{values}}}")
        return "\n".join(said)
