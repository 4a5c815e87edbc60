"""Floor 11, tagging: the tag tree of a PDF, set right before it is written (PDF/UA-1, ISO 14289-1).

WeasyPrint tags what it draws. Six things it leaves for us: running heads are artifacts and not text, a
heading of a table says which way it points, a link says in words where it leads, the words of a
glossary are list items, the box of a figure is measured in points from the foot of the page, and no
paragraph or link stands inside its like.
What goes in are WeasyPrint's own PDF objects (dictionaries and lists); they are changed in place.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from html import unescape
from typing import Any

_LINK = re.compile(r'<a [^>]*href="#([^"]+)"[^>]*>(.*?)</a>', re.DOTALL)
_TAG = re.compile(r"<[^>]+>")
_CSS_PIXEL = 0.75  # points


def link_words(html: str) -> dict[str, str]:
    """The words of the links to each place of a page."""
    return {place: unescape(_TAG.sub("", words)).strip() for place, words in _LINK.findall(html)}


def set_right(pdf: Any, words: Mapping[str, str]) -> None:
    """Set the tag tree of a PDF right; `words` are those of the links, by place."""
    objects = {each.reference: each for each in pdf.objects if each.number}
    root = objects[pdf.catalog["StructTreeRoot"]]
    _flatten(root, objects, _owners(root, objects), ())
    tree = list(_elements(root, objects))
    for element in tree:
        kind = element.get("S")
        if kind == "/TH":
            _point(element, objects)
        elif kind == "/Figure":
            _measure(element, objects)
        elif kind == "/Div" and _kind(element["P"], objects) == "/L":
            _item(element, objects)
    _name_links(pdf, words)
    _take_out(root, objects, {element.reference for element in tree})


def _elements(node: Any, objects: Mapping[bytes, Any]) -> Iterator[Any]:
    """The structure elements below a node, in reading order."""
    for kid in node.get("K", ()):
        element = objects.get(kid) if isinstance(kid, bytes) else None
        if element is not None and element.get("Type") == "/StructElem":
            yield element
            yield from _elements(element, objects)


def _owners(root: Any, objects: Mapping[bytes, Any]) -> list[Any]:
    """The lists of the parent tree: which element owns each marked content, and each annotation."""
    numbers = objects[root["ParentTree"]]["Nums"]
    return [numbers, *(each for each in numbers if isinstance(each, list))]


def _flatten(
    node: Any, objects: Mapping[bytes, Any], owners: list[Any], within: tuple[str, ...]
) -> None:
    """Let no link stand in a link (a page number set by the style sheet is part of the words) and no
    paragraph in a paragraph (a paragraph set as a table has one for each of its boxes)."""
    for kid in list(node.get("K", ())):
        element = objects.get(kid) if isinstance(kid, bytes) else None
        if element is None or element.get("Type") != "/StructElem":
            continue
        kind = element["S"]
        if kind == "/P" and kind in within:
            element["S"] = "/NonStruct"
        _flatten(element, objects, owners, (*within, kind))
        if kind == "/Link" and node.get("S") == kind:
            _merge(element, node, objects, owners)


def _merge(inner: Any, outer: Any, objects: Mapping[bytes, Any], owners: list[Any]) -> None:
    """Give what an element holds to the element it stands in."""
    at = outer["K"].index(inner.reference)
    outer["K"][at : at + 1] = inner["K"]
    for kid in inner["K"]:
        if isinstance(kid, bytes) and "P" in objects[kid]:
            objects[kid]["P"] = outer.reference
    for listed in owners:
        listed[:] = [outer.reference if owner == inner.reference else owner for owner in listed]
    inner.clear()


def _kind(reference: bytes, objects: Mapping[bytes, Any]) -> str:
    """What the element of a reference is."""
    return str(objects[reference].get("S", ""))


def _point(heading: Any, objects: Mapping[bytes, Any]) -> None:
    """Say whether a heading speaks for its column (in the head of a table) or for its row."""
    row = objects[heading["P"]]
    in_head = _kind(row["P"], objects) == "/THead"
    heading["A"]["Scope"] = "/Column" if in_head else "/Row"


def _measure(figure: Any, objects: Mapping[bytes, Any]) -> None:
    """Turn the box of a figure from CSS pixels, counted down, into points, counted up."""
    left, top, right, bottom = (value * _CSS_PIXEL for value in figure["A"]["BBox"])
    height = objects[figure["Pg"]]["MediaBox"][3]
    figure["A"]["BBox"][:] = [round(v, 3) for v in (left, height - bottom, right, height - top)]


def _item(pair: Any, objects: Mapping[bytes, Any]) -> None:
    """Make a word and its meaning one list item: label and body."""
    parts: list[Any] = []
    for kid in pair["K"]:
        if _kind(kid, objects) == "/LI":
            parts += [objects[body] for body in objects[kid]["K"]]
        elif parts:  # the space between the two
            parts[-1]["K"].append(kid)
            objects[kid]["P"] = parts[-1].reference
    for part in parts:
        part["S"], part["P"] = "/LBody" if part is not parts[0] else "/Lbl", pair.reference
    pair["S"] = "/LI"
    pair["K"][:] = [part.reference for part in parts]


def _name_links(pdf: Any, words: Mapping[str, str]) -> None:
    """Let a link be read as its words."""
    for link in pdf.objects:
        if isinstance(link, dict) and link.get("Subtype") == "/Link":
            said = link["Contents"]
            said.string = words.get(said.string, said.string)


def _take_out(root: Any, objects: Mapping[bytes, Any], kept: set[bytes]) -> None:
    """Mark as artifacts what the tree does not hold: the running heads and feet of pages."""
    pages = [
        each for each in objects.values() if isinstance(each, dict) and "StructParents" in each
    ]
    numbers = objects[root["ParentTree"]]["Nums"]
    listed = dict(zip(numbers[::2], numbers[1::2], strict=True))
    for page in pages:
        owners = listed[page["StructParents"]]
        loose = {mark for mark, owner in enumerate(owners) if owner not in kept}
        _as_artifacts(objects[page["Contents"]].stream, loose)
        for mark in loose:
            if owners[mark] in objects:
                objects[owners[mark]].clear()
            owners[mark] = b"null"


def _as_artifacts(content: list[Any], marks: set[int]) -> None:
    """Turn the marked content of a page with these numbers into artifacts."""
    for at, part in enumerate(content):
        if isinstance(part, dict) and part.get("MCID") in marks:
            content[at - 1] = "/Artifact"
            part.clear()
            part["Type"] = "/Pagination"
