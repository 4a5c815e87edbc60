"""Floor 13, page changes: what of a page has to be sent to a tab that shows an earlier state of it."""

from __future__ import annotations

from collections.abc import Mapping
from hashlib import blake2b

from booklet.kit.records import Mutable, Record, field
from booklet.pages.document import Document


class SectionChange(Record):
    """The order of the sections, the markup of those that are new and of their pieces that are, and the style
    sheet if it is."""

    order: tuple[str, ...]
    parts: Mapping[str, str]
    pieces: Mapping[str, str]
    style: str | None


class SentSections(Mutable):
    """What a tab has been sent, by digests: it holds no page."""

    order: tuple[str, ...] = ()
    digests: dict[str, bytes] = field(default_factory=dict)

    def change(self, document: Document) -> SectionChange:
        """What the tab lacks of a document; from now on it has it."""
        order = tuple(name for name, _ in document.parts)
        fresh = {name: digest(markup) for name, markup in document.parts}
        fresh.update((_PIECE + name, digest(markup)) for name, markup in document.pieces.items())
        fresh[_STYLE] = digest(document.style)
        lacking = {name for name, mark in fresh.items() if self.digests.get(name) != mark}
        if order != self.order and not lacking:
            lacking = set(order[:1])  # a section less, or another order: something must be sent
        self.order, self.digests = order, fresh
        return SectionChange(
            order,
            {name: str(markup) for name, markup in document.parts if name in lacking},
            {n: str(markup) for n, markup in document.pieces.items() if _PIECE + n in lacking},
            document.style if _STYLE in lacking else None,
        )

    def early(self, name: str, markup: str, pieces: Mapping[str, str]) -> SectionChange | None:
        """What the tab lacks of a section that is set before the others, with its new pieces; None where nothing is, or
        where the section has no place yet. From now on the tab has it."""
        fresh = {_PIECE + piece: digest(text) for piece, text in pieces.items()}
        fresh[name] = digest(markup)
        lacking = {key for key, mark in fresh.items() if self.digests.get(key) != mark}
        if name not in self.order or not lacking:
            return None
        self.digests.update(fresh)
        return SectionChange(
            self.order,
            {name: str(markup)} if name in lacking else {},
            {piece: str(text) for piece, text in pieces.items() if _PIECE + piece in lacking},
            None,
        )


_STYLE, _PIECE = " style", " piece "  # no section has a name that begins with a blank


def digest(text: str) -> bytes:
    """A short digest of a text."""
    return blake2b(text.encode(), digest_size=16).digest()
