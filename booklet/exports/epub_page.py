"""Floor 11, the door to the HTML parser: a part of a web page as a chapter of an EPUB.

E-readers want XHTML. A part is parsed as browsers parse it and written again as XML; links within the page lead to the
chapter where their target stands, and pictures that are carried in addresses become files of their own.
"""

from __future__ import annotations

import base64
import binascii
import hashlib
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from xml.etree import ElementTree
from xml.etree.ElementTree import Element

import tinyhtml5

_XHTML, _SVG, _XLINK, _XMLNS = (
    "http://www.w3.org/1999/xhtml",
    "http://www.w3.org/2000/svg",
    "http://www.w3.org/1999/xlink",
    "http://www.w3.org/2000/xmlns/",
)
_OPS = "http://www.idpf.org/2007/ops"
_DATA = re.compile(r"data:(image/[a-z+]+);base64,(.*)", re.DOTALL)
_PICTURED = re.compile(r"url\(\"?(data:[^)\"]*)\"?\)")
_ENDINGS = {"image/png": "png", "image/jpeg": "jpg", "image/svg+xml": "svg"}
_ADDRESSES = ("href", "src")


@dataclass(frozen=True, slots=True)
class BookChapter:
    """A part of a page on its way: its file, its title and what is in it."""

    file: str
    title: str
    body: tuple[Element, ...]

    @property
    def has_drawings(self) -> bool:
        """Whether drawings stand in it, which the list of files must say."""
        return any(each.tag == f"{{{_SVG}}}svg" for top in self.body for each in top.iter())

    def names(self) -> frozenset[str]:
        """The names of places in it that links can lead to."""
        return frozenset(
            name for top in self.body for each in top.iter() if (name := each.get("id"))
        )


def chapter(file: str, html: str, fallback: str) -> BookChapter:
    """A part of a web page as a chapter; its title is its first heading, else the label of the part, else `fallback`."""
    body = tinyhtml5.parse(html).find(f"{{{_XHTML}}}body")
    elements = tuple(body) if body is not None else ()
    return BookChapter(file, _title(elements) or fallback, elements)


def _title(elements: tuple[Element, ...]) -> str:
    for level in ("h1", "h2"):
        for top in elements:
            for each in top.iter(f"{{{_XHTML}}}{level}"):
                if words := " ".join("".join(each.itertext()).split()):
                    return words
    return next((label for top in elements if (label := top.get("aria-label"))), "")


def written(
    chapter: BookChapter, language: str, homes: Mapping[str, str], keep: Callable[[str, bytes], str]
) -> bytes:
    """The chapter as XHTML. `homes` tells the file in which a name stands; `keep` takes a picture, its kind and
    bytes, and gives the address of its file."""
    root = Element(
        "html", {"xmlns": _XHTML, "xmlns:epub": _OPS, "lang": language, "xml:lang": language}
    )
    head = ElementTree.SubElement(root, "head")
    ElementTree.SubElement(head, "title").text = chapter.title
    ElementTree.SubElement(head, "link", rel="stylesheet", type="text/css", href="style.css")
    body = ElementTree.SubElement(root, "body")
    for top in chapter.body:
        for each in top.iter():
            _set_right(each, chapter.file, homes, keep)
        body.append(top)
    return _file(root)


def navigation(chapters: tuple[BookChapter, ...], title: str, language: str) -> bytes:
    """The list of chapters by which an e-reader turns to them."""
    root = Element(
        "html", {"xmlns": _XHTML, "xmlns:epub": _OPS, "lang": language, "xml:lang": language}
    )
    head = ElementTree.SubElement(root, "head")
    ElementTree.SubElement(head, "title").text = title
    body = ElementTree.SubElement(root, "body")
    nav = ElementTree.SubElement(body, "nav", {"epub:type": "toc", "role": "doc-toc"})
    ElementTree.SubElement(nav, "h1").text = title
    listed = ElementTree.SubElement(nav, "ol")
    for each in chapters:
        item = ElementTree.SubElement(listed, "li")
        ElementTree.SubElement(item, "a", href=each.file).text = each.title
    return _file(root)


def _file(root: Element) -> bytes:
    text = ElementTree.tostring(root, encoding="unicode", short_empty_elements=False)
    return f'<?xml version="1.0" encoding="utf-8"?>\n<!DOCTYPE html>\n{_closed(text)}\n'.encode()


_VOID = "area|base|br|col|embed|hr|img|input|link|meta|source|track|wbr"


def _closed(text: str) -> str:
    """Elements that are always empty without an end of their own, as XHTML has them."""
    return re.sub(rf"<({_VOID})\b([^>]*)></\1>", r"<\1\2/>", text)


def _set_right(
    each: Element, file: str, homes: Mapping[str, str], keep: Callable[[str, bytes], str]
) -> None:
    """Names without their places of origin, addresses that lead to files of the book."""
    if isinstance(each.tag, str) and each.tag.startswith("{"):
        space, _, each.tag = each.tag[1:].partition("}")
        if space == _SVG and each.tag == "svg":
            each.attrib.update({"xmlns": _SVG, "xmlns:xlink": _XLINK})
    for name, value in list(each.attrib.items()):
        plain = name
        if name.startswith("{"):
            space, _, plain = name[1:].partition("}")
            plain = f"xlink:{plain}" if space == _XLINK else plain
            del each.attrib[name]
            if space == _XMLNS:
                continue  # said above, where it is needed
        each.attrib[plain] = value
        if plain in _ADDRESSES:
            each.attrib[plain] = _address(value, file, homes, keep)
        if plain == "style":
            each.attrib[plain] = _PICTURED.sub(lambda found: f"url({_kept(found[1], keep)})", value)
        if plain.startswith("data-") or (plain == "tabindex"):
            del each.attrib[plain]


def _address(
    value: str, file: str, homes: Mapping[str, str], keep: Callable[[str, bytes], str]
) -> str:
    if value.startswith("#"):
        home = homes.get(value[1:], file)
        return value if home == file else home + value
    return _kept(value, keep)


def _kept(value: str, keep: Callable[[str, bytes], str]) -> str:
    """The address of a picture's own file in place of one that carries it."""
    found = _DATA.fullmatch(value)
    if found is None or found[1] not in _ENDINGS:
        return value
    try:
        return keep(found[1], base64.b64decode(found[2]))
    except binascii.Error:
        return value


def picture_name(kind: str, data: bytes) -> str:
    """The file name of a picture: the same for the same bytes."""
    return f"p{hashlib.sha256(data).hexdigest()[:16]}.{_ENDINGS[kind]}"
