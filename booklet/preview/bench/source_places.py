"""Floor 13, places: where in the source the things of a page are written.

The keys are those that pictures and elements bear (`drawing/places.py`, `pages/pictures/source_marks.py`).
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from booklet.drawing.places import key
from booklet.kit.diagnostic import Span
from booklet.pattern import Edition
from booklet.plan import BlockPlan, SizePlan
from booklet.quilt.finishing.extras import ENVELOPE
from booklet.source.files.folder import SOURCE
from booklet.source.values.names import file_part

_KEY = re.compile(r"(\w+):")
Places = Mapping[str, Span]
_PAGES = {"quilt": "quilt", "finishing": "quilt", "cutting": "fabrics", "materials": "fabrics",
          "amounts": "fabrics", "templates": "patches", "sizes": "sizes"}  # fmt: skip
"""The part of the source that a page is made of, where no element of it says more."""


def places_of(size: SizePlan, edition: Edition, source: str) -> Places:
    """The span of every key that the page of a size may bear."""
    return {
        **dict(_top(source, edition)),
        **dict(_cloths(size)),
        **dict(_quilt(size)),
        **{k: span for block in size.blocks for k, span in _block(size, block)},
    }


def _top(source: str, edition: Edition) -> Iterator[tuple[str, Span]]:
    """The keys at the top of the source, and the pages of the edition."""
    entries = {
        found[1]: Span(SOURCE, number, 1, found.end(1) + 1)
        for number, line in enumerate(source.splitlines(), 1)
        if (found := _KEY.match(line))
    }
    yield from ((key(name), span) for name, span in entries.items())
    for page in edition.pages:
        if page.name.endswith(".md"):
            stem = file_part(page.name.rsplit("/", 1)[-1].removesuffix(".md"))
            yield key("page", f"text-{stem}"), Span(page.name, 1, 1, 1)
        else:
            yield key("page", page.name), page.span
    yield from (
        (key("page", page), entries[name]) for page, name in _PAGES.items() if name in entries
    )


def _cloths(size: SizePlan) -> Iterator[tuple[str, Span]]:
    """Fabrics, and sizes."""
    for other in size.pattern.sizes:
        yield key("size", other.id), other.span
        yield from ((key("fabric", id), f.span) for id, f in other.fabrics.items())
    yield from ((key("fabric", id), f.span) for id, f in size.size.fabrics.items())


def _block(size: SizePlan, block: BlockPlan) -> Iterator[tuple[str, Span]]:
    """A block, its pieces, its patches and its steps."""
    id = block.block.id
    yield key("block", id), block.block.span
    shapes: dict[str, Span] = {}
    for piece in block.block.pieces:
        for member, _ in piece.members():
            yield key("piece", id, member), piece.span
            shapes[member] = piece.shape.span
    for shape in block.block.applied:
        for member, _ in shape.piece.members():
            yield key("applied", id, member), shape.piece.span
            shapes[member] = shape.piece.span
    for placed in block.tiling.laid:
        if placed.id in shapes:
            yield key("patch", placed.patch), shapes[placed.id]
            yield key("cut", placed.fabric, placed.patch), shapes[placed.id]
    for card in block.cards:
        written = card.step.span
        yield key("step", id, card.n), written
    written_as = {m: e.piece.span for e in block.block.applied for m, _ in e.piece.members()}
    for layer in block.layers:
        yield key("step", id, layer.n), written_as[layer.shapes[0].piece.id]


def _quilt(size: SizePlan) -> Iterator[tuple[str, Span]]:
    """The parts of the quilt beside its blocks, by the names they are cut by."""
    quilt = size.size.quilt
    if quilt is None:
        return
    for number, border in enumerate(quilt.borders, 1):
        yield key("border", number), border.span
    extras = {
        "binding": quilt.binding,
        "backing": quilt.backing,
        "sleeve": quilt.sleeve,
        ENVELOPE: quilt.envelope,
    }
    named = {name: part.span for name, part in extras.items() if part is not None}
    for patch in size.cutting.patches:
        span = _part(size, patch.name, named)
        if span is not None:
            yield key("cut", patch.fabric, patch.name), span
    for part in size.quilt.parts:
        yield key("part", part.name), _part(size, part.name, named) or quilt.span


def _part(size: SizePlan, name: str, named: Mapping[str, Span]) -> Span | None:
    """Where a part of the quilt is written; None for a patch."""
    quilt = size.size.quilt
    if quilt is None or name in size.letters:
        return None
    for number, border in enumerate(quilt.borders, 1):
        if name.startswith(f"border {number} "):
            return border.span
    if quilt.sashing is not None and ("sash" in name or name == "cornerstone"):
        return quilt.sashing.span
    return next((span for word, span in named.items() if name.startswith(word)), quilt.span)
