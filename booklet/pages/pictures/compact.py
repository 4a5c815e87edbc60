"""Floor 11, pictures of the web page, said as shortly as can be without changing a stroke: looks as classes of one
style sheet, hatches once for the whole page, outlines as steps from corner to corner.
"""

from __future__ import annotations

import hashlib
import re
from functools import lru_cache

from markupsafe import Markup

from booklet.drawing.ink.fills import ground_colour
from booklet.drawing.ink.path_text import number
from booklet.drawing.ink.pens import PENS
from booklet.drawing.pressed.pressed_block import FLAP
from booklet.drawing.scene import Ink
from booklet.kit.records import Mutable, field

_LOOKS = (
    "fill", "stroke", "stroke-width", "stroke-linejoin", "stroke-linecap", "stroke-dasharray",
    "font-size", "font-weight", "text-anchor", "paint-order",
)  # fmt: skip
_TAG = re.compile(r"<(\w+)((?:\s[\w:-]+=\"[^\"]*\")*)\s*(/?)>")
_ATTRIBUTE = re.compile(r"\s([\w:-]+)=\"([^\"]*)\"")
_ROOT = re.compile(r"^<svg\b((?:\s[\w:-]+=\"[^\"]*\")*)\s*>")
_NEEDLESS = {"baseProfile", "version", "xmlns", "xmlns:ev", "xmlns:xlink", "id", "font-family"}
_TITLE = re.compile(r"<title>[^<]*</title>|<defs\s*/>|<defs>\s*</defs>")
_PATTERN = re.compile(r"<pattern\b[^>]*\bid=\"([^\"]*)\"[^>]*>.*?</pattern>", re.DOTALL)
_HALO = re.compile(
    r"<text aria-hidden=\"true\" fill=\"#ffffff\"([^>]*?) stroke=\"#ffffff\" stroke-linejoin=\"round\""
    r" stroke-width=\"0\.9\"([^>]*)>([^<]*)</text><text fill=\"(#\w+)\"\1\2>\3</text>"
)
_SHAPE = re.compile(r"[MLZ][\d. -]*")
_STEP = re.compile(r"-?\d+(?:\.\d+)?")
_FLAP = ground_colour(FLAP)
_FINE = 10_000  # parts of a millimetre that a coordinate may have
_WALK = {
    "stroke": PENS[Ink.THREAD].colour,
    "stroke-width": number(PENS[Ink.THREAD].width),
    "stroke-dasharray": " ".join(number(part) for part in PENS[Ink.THREAD].dash),
}


class SharedPictures(Mutable):
    """What the pictures of one page have in common."""

    looks: dict[str, str] = field(default_factory=dict)
    hatches: dict[str, str] = field(default_factory=dict)
    known: dict[bytes, Markup] = field(default_factory=dict)  # by the digest of the longer picture

    def copied(self) -> SharedPictures:
        """The same, to go on with by itself; what pictures said at length is forgotten."""
        return SharedPictures(dict(self.looks), dict(self.hatches))

    def shortened(self, svg: Markup) -> Markup:
        """The same picture in fewer signs; its looks and hatches are kept here."""
        digest = hashlib.blake2b(svg.encode("utf-8"), digest_size=20).digest()
        if (known := self.known.get(digest)) is None:
            known = self.known[digest] = Markup(self._shortened(str(svg)))
        return known

    def _shortened(self, svg: str) -> str:
        names: dict[str, str] = {}

        def hatch(found: re.Match[str]) -> str:
            bare = re.sub(r"\sid=\"[^\"]*\"", "", found.group(0), count=1)
            if (
                bare not in self.hatches
            ):  # its looks are named now: the style sheet is made before the store
                _TAG.sub(lambda tag: self._tag(tag, {}), bare)
            names[found.group(1)] = self.hatches.setdefault(bare, f"_h{len(self.hatches)}")
            return ""

        svg = _TITLE.sub("", _PATTERN.sub(hatch, svg))
        svg = _TITLE.sub("", svg)
        svg = _HALO.sub(
            r'<text fill="\4" stroke="#ffffff" stroke-linejoin="round" stroke-width="0.9"'
            r' paint-order="stroke"\1\2>\3</text>',
            svg,
        )
        root = _ROOT.match(svg)
        assert root is not None
        inner = svg[root.end() :]
        kept = "".join(
            f' {key}="{value}"'
            for key, value in _ATTRIBUTE.findall(root.group(1))
            if key not in _NEEDLESS
        )
        return f"<svg{kept}>" + _TAG.sub(lambda tag: self._tag(tag, names), inner)

    def _tag(self, tag: re.Match[str], names: dict[str, str]) -> str:
        """One tag with its look as a class."""
        found = _ATTRIBUTE.findall(tag.group(2))
        looks = {key: value for key, value in found if key in _LOOKS}
        walks = _is_walk(looks)  # the script reads the corners of a thread as they stand
        kept = [
            f' {key}="{shorter(value) if key == "d" and not walks else value}"'
            for key, value in found
            if key not in _LOOKS
        ]
        if looks:
            role = " walk" if walks else " flap" if looks.get("fill") == _FLAP else ""
            kept.append(f' class="{self._look(looks, names)}{role}"')
        return f"<{tag.group(1)}{''.join(kept)}{tag.group(3)}>"

    def _look(self, looks: dict[str, str], names: dict[str, str]) -> str:
        """The class of a look."""
        for key in ("fill", "stroke"):
            if looks.get(key, "").startswith("url(#"):
                looks[key] = f"url(#{names[looks[key][5:-1]]})"
        if "font-size" in looks:
            looks["font-size"] += "px"
        return self.named(";".join(f"{key}:{value}" for key, value in sorted(looks.items())))

    def named(self, rule: str) -> str:
        """The class of a rule."""
        return self.looks.setdefault(rule, f"_{_word(len(self.looks))}")

    def rule(self, name: str) -> str:
        """The rule of a class; empty if it is none of a look."""
        return {known: rule for rule, known in self.looks.items()}.get(name, "")

    def rules(self) -> str:
        """The style rules of all looks."""
        return "\n".join(f".{name}{{{rule}}}" for rule, name in self.looks.items())

    def store(self) -> str:
        """The unseen picture that holds hatches, with the looks that they have."""
        hatches = "".join(
            _TAG.sub(lambda tag: self._tag(tag, {}), pattern).replace(
                "<pattern", f'<pattern id="{name}"', 1
            )
            for pattern, name in self.hatches.items()
        )
        if not hatches:
            return ""
        return (
            '<svg class="store" width="0" height="0" aria-hidden="true" focusable="false"><defs>'
            f"{hatches}</defs></svg>"
        )


def _is_walk(looks: dict[str, str]) -> bool:
    """Whether a look is that of a thread on its way."""
    return all(looks.get(key) == value for key, value in _WALK.items()) and "fill" in looks


def shorter(data: str) -> str:
    """The same outline as steps from corner to corner; as it was where it has curves. Steps are taken between
    whole numbers of 1/10,000 mm: nothing is rounded."""
    parts = _SHAPE.findall(data)
    if "".join(parts) != data:
        return data
    said: list[str] = []
    at = begin = (0, 0)
    last = ""
    for part in parts:
        letter, numbers = part[0], [_fine(n) for n in _STEP.findall(part)]
        if letter == "Z":
            said.append("z")
            at, last = begin, "z"
            continue
        to = (numbers[0], numbers[1])
        step = (to[0] - at[0], to[1] - at[1])
        if letter == "M":
            said.append("m" + _numbers(step))
            begin, last = to, "l"  # what follows a move is a line
        elif step[0] == 0 or step[1] == 0:
            kind = "v" if step[0] == 0 else "h"
            said.append(_after(last, kind, _numbers((step[1] if kind == "v" else step[0],))))
            last = kind
        else:
            said.append(_after(last, "l", _numbers(step)))
            last = "l"
        at = to
    return "".join(said)


@lru_cache(maxsize=1 << 15)
def _fine(number: str) -> int:
    """A number of a path in whole parts of a millimetre."""
    return round(float(number) * _FINE)


def _after(last: str, kind: str, numbers: str) -> str:
    """A command, without its letter where it goes on."""
    if kind != last:
        return kind + numbers
    return numbers if numbers.startswith("-") else " " + numbers


def _numbers(values: tuple[int, ...]) -> str:
    """Numbers with no sign more than is needed."""
    first, *others = map(_number, values)
    return first + "".join(n if n.startswith("-") else " " + n for n in others)


@lru_cache(maxsize=1 << 16)
def _number(value: int) -> str:
    """One number in as few signs as can be."""
    text = f"{abs(value) / _FINE:.4f}".rstrip("0").rstrip(".")
    return ("-" if value < 0 else "") + (text[1:] if text.startswith("0.") else text)


_DIGITS = "abcdefghijklmnopqrstuvwxyz0123456789"


def _word(number: int) -> str:
    """A short name for a number."""
    said = _DIGITS[number % 36]
    return said if number < 36 else _word(number // 36 - 1) + said
