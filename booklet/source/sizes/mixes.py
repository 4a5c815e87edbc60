"""Floor 2: mixes: a fabric that stands for several, dealt out over the pieces of a block one after the other."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import count

from booklet.kit.records import replace
from booklet.pattern import Block, Piece, Quilt
from booklet.source.faults import Faults
from booklet.source.sizes.fabrics import FABRIC, MIX
from booklet.source.tree.node import Map
from booklet.source.values.fields import Fields
from booklet.source.values.kinds import Reading

Mixes = Mapping[str, tuple[str, ...]]


def read_mixes(node: Map | None, reading: Reading) -> dict[str, tuple[str, ...]]:
    """The fabrics of each mix by its name; one that names another mix is a fault and left as it is."""
    found: dict[str, tuple[str, ...]] = {}
    for key, value in node.entries if node else ():
        if isinstance(value, Map) and value.find(MIX.name):
            quiet = replace(reading, faults=Faults())  # other keys are read with the fabrics
            fields = Fields(value, FABRIC, f"fabric `{key.value}`", key.span, quiet)
            fields.reading = reading
            members = fields.get(MIX)
            if members:
                found[key.value] = members
    for name, members in found.items():
        for member in members:
            if member in found and node is not None:
                entry = node.find(name)
                message = f"mix `{name}` holds `{member}`, which is a mix itself"
                hint = "name the fabrics one by one"
                reading.faults.add("wrong-kind", message, (entry or node.entries[0])[0].span, hint)
    return {name: m for name, m in found.items() if not set(m) & set(found)}


def dealt(block: Block, mixes: Mixes) -> Block:
    """The block with the pieces of every mix cut from its fabrics in turn."""
    turns = {name: count() for name in mixes}
    used: dict[str, None] = {}

    def piece_of(piece: Piece) -> Piece:
        names = [fabric for _, fabric in piece.members()]
        if not set(names) & set(mixes):
            return piece
        found = [
            mixes[name][next(turns[name]) % len(mixes[name])] if name in mixes else name
            for name in names
        ]
        used.update(
            dict.fromkeys(
                fabric for name, fabric in zip(names, found, strict=True) if name in mixes
            )
        )
        return replace(piece, fabrics=tuple(found))

    pieces = tuple(piece_of(piece) for piece in block.pieces)
    applied = tuple(replace(each, piece=piece_of(each.piece)) for each in block.applied)
    return replace(block, pieces=pieces, applied=applied, dealt=tuple(used))


def is_without_mixes(quilt: Quilt, mixes: Mixes, faults: Faults) -> bool:
    """Whether no part of a quilt asks for a mix; notes a fault if one does."""
    asked = [(fabric, span) for fabric, span in quilt.cloths() if fabric in mixes]
    for fabric, span in asked:
        message = f"`{fabric}` is a mix, from which only pieces of blocks can be cut"
        hint = f"name one fabric, such as `{mixes[fabric][0]}`"
        faults.add("wrong-kind", message, span, hint)
    return not asked
