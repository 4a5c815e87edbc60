"""Floor 13, cloths: which pieces a fabric may be chosen for when one of them is touched, and whether a change did just that."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from booklet.kit.records import Record
from booklet.pattern import Block, Pattern
from booklet.preview.touch.table import NoTable, TouchTable

MOST_NAMED = 8  # pieces that a sentence names


class Scope(Record):
    """Some pieces that a fabric may be chosen for at once, and how that is said."""

    words: str
    pieces: tuple[str, ...]


def scopes(table: TouchTable, id: str) -> tuple[Scope, ...]:
    """The scopes that the source can tell for a piece, the narrowest first, each with other pieces than those before."""
    found: dict[frozenset[str], Scope] = {}
    for scope in _scopes(table, id):
        found.setdefault(frozenset(scope.pieces), scope)
    return tuple(found.values())


def _scopes(table: TouchTable, id: str) -> Iterator[Scope]:
    pieces = table.tiling.pieces
    touched = next((piece for piece in pieces if piece.id == id), None)
    entry = next((e for e in table.block.pieces if id in dict(e.members())), None)
    if touched is None or entry is None:
        raise NoTable(f"block `{table.block.id}` has no piece `{id}` any more")
    yield Scope(f"{id} alone", (id,))
    ring = tuple(member for member, _ in entry.members())
    yield Scope(f"all {len(ring)} of the ring {entry.id}", ring)
    patch = [piece for piece in pieces if piece.patch == touched.patch]
    name = table.tiling.patch(touched.patch)
    cloth = table.size.fabrics[touched.fabric].name
    same = tuple(piece.id for piece in patch if piece.fabric == touched.fabric)
    yield Scope(f"all {len(same)} of patch {name.letter} in {cloth}", same)
    yield Scope(
        f"all {len(patch)} of patch {name.letter} ({name.name})", tuple(p.id for p in patch)
    )


def shared_words(table: TouchTable, id: str) -> str:
    """What a piece is cut from, and which others share its patch."""
    piece = table.tiling.piece(id)
    patch = table.tiling.patch(piece.patch)
    others = [p.id for p in table.tiling.pieces if p.patch == piece.patch and p.id != id]
    cloth = table.size.fabrics[piece.fabric].name
    said = f"{id} is a {patch.name} ({patch.letter}) of {cloth}."
    if not others:
        return f"{said} No other piece of the block has its patch."
    return f"{said} {len(others)} more {'piece has' if len(others) == 1 else 'pieces have'} its patch: {_few(others)}."


def _few(names: list[str]) -> str:
    more = len(names) - MOST_NAMED
    return ", ".join(names[:MOST_NAMED]) + (f" and {more} more" if more > 0 else "")


def why_not(block: Block) -> str:
    """Why the fabric of a block's pieces cannot be written into the source; empty where it can."""
    drawn = next((p.span.file for p in block.pieces if p.span.file.endswith(".svg")), None)
    if drawn:
        return f"the fabric of a piece of block `{block.id}` is the fill of its shape in `{drawn}`; change it there"
    return ""


def cloths_of(pattern: Pattern | None, block: str) -> Mapping[str, str]:
    """The fabric of every piece of a block; none where the block cannot be read."""
    found = next((b for b in pattern.blocks if b.id == block), None) if pattern else None
    return {} if found is None else dict(m for piece in found.pieces for m in piece.members())
