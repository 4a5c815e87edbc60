"""Floor 11, the door to the HTML parser: a chapter of a page as XHTML, which e-readers want.

A chapter is parsed as browsers parse it and written again as XML.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from xml.etree import ElementTree
from xml.etree.ElementTree import Element

import tinyhtml5

from booklet.exports.chapters.chapters import BookChapter

_XHTML, _SVG, _XLINK, _XMLNS = (
    "http://www.w3.org/1999/xhtml",
    "http://www.w3.org/2000/svg",
    "http://www.w3.org/1999/xlink",
    "http://www.w3.org/2000/xmlns/",
)
_OPS = "http://www.idpf.org/2007/ops"


def written(chapter: BookChapter, language: str) -> tuple[bytes, bool]:
    """The chapter as XHTML, and whether drawings stand in it, which the list of files must say."""
    root, body = _page(chapter.title, language)
    parsed = tinyhtml5.parse(chapter.markup).find(f"{{{_XHTML}}}body")
    for top in () if parsed is None else tuple(parsed):
        for each in top.iter():
            _set_right(each)
        body.append(top)
    return _file(root), next(body.iter("svg"), None) is not None


def navigation(chapters: Iterable[BookChapter], title: str, language: str) -> bytes:
    """The list of chapters by which an e-reader turns to them."""
    root, body = _page(title, language)
    nav = ElementTree.SubElement(body, "nav", {"epub:type": "toc", "role": "doc-toc"})
    ElementTree.SubElement(nav, "h1").text = title
    listed = ElementTree.SubElement(nav, "ol")
    for each in chapters:
        item = ElementTree.SubElement(listed, "li")
        ElementTree.SubElement(item, "a", href=each.file).text = each.title
    return _file(root)


def _page(title: str, language: str) -> tuple[Element, Element]:
    """A new page with its head and the style of the book, and the body of it."""
    spaces = {"xmlns": _XHTML, "xmlns:epub": _OPS}
    root = Element("html", spaces | {"lang": language, "xml:lang": language})
    head = ElementTree.SubElement(root, "head")
    ElementTree.SubElement(head, "title").text = title
    ElementTree.SubElement(head, "link", rel="stylesheet", type="text/css", href="style.css")
    return root, ElementTree.SubElement(root, "body")


def _file(root: Element) -> bytes:
    text = ElementTree.tostring(root, encoding="unicode", short_empty_elements=False)
    return f'<?xml version="1.0" encoding="utf-8"?>\n<!DOCTYPE html>\n{_closed(text)}\n'.encode()


_VOID = "area|base|br|col|embed|hr|img|input|link|meta|source|track|wbr"


def _closed(text: str) -> str:
    """Elements that are always empty without an end of their own, as XHTML has them."""
    return re.sub(rf"<({_VOID})\b([^>]*)></\1>", r"<\1\2/>", text)


def _set_right(each: Element) -> None:
    """Names without their places of origin, and without what only a script reads."""
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
        if plain.startswith("data-") or (plain == "tabindex"):
            del each.attrib[plain]
