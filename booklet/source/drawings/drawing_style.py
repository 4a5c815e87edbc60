"""Floor 2: the look of a drawn shape: its fill and whether it is seen, from attributes, `style`, classes."""

from __future__ import annotations

import re
from collections.abc import Mapping

from booklet.kit.bounds import MOST_RULES
from booklet.kit.records import Record
from booklet.source.values.colour_names import NAMED

Rules = Mapping[str, Mapping[str, str]]  # ".name" or an element -> its properties
_COMMENT = re.compile(r"/\*.*?(?:\*/|\Z)", re.DOTALL)
_HEX = re.compile(r"#([0-9a-f]{3}|[0-9a-f]{6})")
_RGB = re.compile(r"rgb\(\s*(\d{1,3}%?)\s*,\s*(\d{1,3}%?)\s*,\s*(\d{1,3}%?)\s*\)")


class Style(Record):
    """What a shape takes from itself and the groups around it; black is the fill that SVG begins with."""

    fill: str = "black"
    hidden: bool = False  # visibility, which a shape inside may take back
    gone: bool = False  # display: none, which takes all inside with it

    @classmethod
    def of(cls, attributes: Mapping[str, str], around: Style) -> Style:
        """The style of an element inside another."""
        return around.over(attributes).over(declared(attributes.get("style", "")))

    def over(self, properties: Mapping[str, str]) -> Style:
        """This style with the properties of one more source laid over it."""
        fill = properties.get("fill", "").strip()
        seen = properties.get("visibility", "").strip()
        return Style(
            self.fill if fill in ("", "inherit") else fill,
            seen in ("hidden", "collapse") if seen else self.hidden,
            self.gone or properties.get("display", "").strip() == "none",
        )

    def ruled(self, rules: Rules, element: str, attributes: Mapping[str, str]) -> Style:
        """This style with the rules of a style sheet for an element and its classes; the shape's own
        `style` still goes before them."""
        found = self.over(rules.get(element, {}))
        for name in attributes.get("class", "").split():
            found = found.over(rules.get(f".{name}", {}))
        return found.over(declared(attributes.get("style", "")))

    @property
    def is_seen(self) -> bool:
        """Whether the shape is drawn at all."""
        return not (self.hidden or self.gone)


def declared(text: str) -> dict[str, str]:
    """The properties of a `style`: `fill:#fff; display:none`."""
    pairs = (part.partition(":") for part in text.replace("!important", "").split(";"))
    return {key.strip().lower(): value.strip() for key, _, value in pairs if value.strip()}


def read_rules(css: str) -> Rules:
    """The rules of a style sheet that name a class or an element; all others are passed over."""
    rules: dict[str, dict[str, str]] = {}
    for part in _COMMENT.sub(" ", css).split("}")[:MOST_RULES]:
        before, _, inside = part.rpartition("{")
        for name in before.rpartition("{")[2].split(","):
            rules.setdefault(name.strip(), {}).update(declared(inside))
    return rules


def colour_of(fill: str) -> str | None:
    """A fill as "#rrggbb"; None if it is no plain colour."""
    plain = fill.strip().lower()
    if match := _HEX.fullmatch(plain):
        return "#" + (match[1] if len(match[1]) == 6 else "".join(2 * d for d in match[1]))
    if match := _RGB.fullmatch(plain):
        parts = (min(255, _byte(value)) for value in match.groups())
        return "#" + "".join(f"{part:02x}" for part in parts)
    return NAMED.get(plain)


def _byte(value: str) -> int:
    return round(int(value[:-1]) * 2.55) if value.endswith("%") else int(value)
