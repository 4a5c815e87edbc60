"""Floor 3: makes blocks of the part blocks of all sizes, and puts them into the pattern.

Kinds that have the same name and the same patches in several sizes are one block.
"""

from __future__ import annotations

from collections.abc import Mapping

from booklet.geometry.placing.placing import LaidPiece
from booklet.geometry.rims.part_titles import part_titles
from booklet.geometry.rims.rim_faults import laid_on_rim, slivers, without_rim
from booklet.geometry.rims.rims import PartKind, RimFilling, fill_rim, local_name
from booklet.geometry.soundness.sites import Sound
from booklet.kit.bounds import MOST_PART_PATCHES
from booklet.kit.diagnostic import Diagnostic, told_once
from booklet.kit.records import Record, replace
from booklet.kit.remembered.memory import Ask
from booklet.kit.words import Text
from booklet.pattern import Block, PartOf, Pattern, Piece, Rim, RimPatches, SetKind, Size
from booklet.pattern.reads import filling

Sounds = Mapping[str, tuple[Sound, ...]]


class Filled(Record):
    """A pattern whose rims are filled, its sound blocks by size with the part blocks, and what was found."""

    pattern: Pattern
    sound: Sounds
    faults: tuple[Diagnostic, ...]


def fill_rims(pattern: Pattern, sound: Sounds, ask: Ask) -> Filled:
    """The pattern with the part blocks of all sizes."""
    parts = _PartBlocks(pattern)
    sizes: list[Size] = []
    made: dict[str, tuple[Sound, ...]] = {}
    faults: list[Diagnostic] = []
    for size in pattern.sizes:
        found, told = _asked(size, sound[size.id], ask)
        faults += told
        made[size.id] = sound[size.id]
        if found is not None:
            size, more = parts.named(size, found)
            made[size.id] += more
            faults += _slivers(size, found, pattern)
        faults += without_rim(size)
        faults += laid_on_rim(size, pattern.blocks)
        sizes.append(size)
    blocks = (*pattern.blocks, *parts.blocks)
    once = told_once(faults, lambda fault: (fault.code, fault.span))
    return Filled(replace(pattern, sizes=tuple(sizes), blocks=blocks), made, once)


def _asked(
    size: Size, sound: tuple[Sound, ...], ask: Ask
) -> tuple[RimFilling | None, tuple[Diagnostic, ...]]:
    """The filled rim of a size; only what has one is worth a question."""
    quilt = size.quilt
    if quilt is None or quilt.set is not SetKind.LATTICE or quilt.rim is not Rim.FILL:
        return None, ()
    return ask(fill_rim, filling(size), sound)


def _slivers(size: Size, found: RimFilling, pattern: Pattern) -> tuple[Diagnostic, ...]:
    assert size.quilt is not None
    pieces = [piece for kind in found.kinds for piece in kind.pieces]
    least = float(pattern.allowance)
    return tuple(slivers(size.quilt, size.id, pieces, least, pattern.units))


class _PartBlocks:
    """The part blocks of a pattern, each made once for all sizes that have it."""

    def __init__(self, pattern: Pattern) -> None:
        self._pattern = pattern
        self._known: dict[tuple[object, ...], Block] = {}
        self._taken = {block.id for block in pattern.blocks}

    @property
    def blocks(self) -> tuple[Block, ...]:
        """All part blocks, as they were met."""
        made = tuple(self._known.values())
        if sum(len(block.pieces) for block in made) <= MOST_PART_PATCHES:
            return made
        return tuple(
            replace(block, part=block.part and replace(block.part, first_told=True))
            for block in made
        )

    def named(self, size: Size, found: RimFilling) -> tuple[Size, tuple[Sound, ...]]:
        """A size whose rim is filled with blocks of the pattern, and its part blocks."""
        assert size.quilt is not None
        titles = part_titles(
            found.kinds, [self._pattern.block(kind.of).title for kind in found.kinds]
        )
        cut = found.rim.patches is RimPatches.CUT
        ids = {
            local_name(n): self._block(kind, title, float(size.unit) if cut else None).id
            for n, (kind, title) in enumerate(zip(found.kinds, titles, strict=True))
        }
        laid = tuple(
            replace(
                at, setting=replace(at.setting, block=ids.get(at.setting.block, at.setting.block))
            )
            for at in found.rim.laid
        )
        quilt = replace(size.quilt, filled=replace(found.rim, laid=laid))
        more = tuple(replace(k.sound, block=ids[k.sound.block]) for k in found.kinds)
        return replace(size, quilt=quilt), more

    def _block(self, kind: PartKind, title: Text, unit: float | None) -> Block:
        """The block of a kind; `unit` in inches where its patches are cut."""
        key = (kind.of, str(title), *(_sign(piece, unit) for piece in kind.pieces))
        if key not in self._known:
            parent = self._pattern.block(kind.of)
            self._known[key] = replace(
                parent,
                id=self._free(kind.of),
                title=title,
                pieces=tuple(map(_piece, kind.pieces)),
                outline=None,
                steps=None,
                applied=(),
                part=PartOf(
                    block=kind.of,
                    patches=len(kind.pieces),
                    of_patches=kind.of_patches,
                    where=kind.where,
                ),
            )
        return self._known[key]

    def _free(self, of: str) -> str:
        """A name that no block has."""
        n = 1
        while f"{of}-rim-{n}" in self._taken:
            n += 1
        self._taken.add(f"{of}-rim-{n}")
        return f"{of}-rim-{n}"


def _sign(piece: LaidPiece, unit: float | None) -> tuple[object, ...]:
    """What tells a piece of a part block from others; of a cut one its corners, in units."""
    if unit is None:
        return (piece.id,)
    points = piece.outline.points
    return (piece.id, *((round(x / unit, 3) + 0.0, round(y / unit, 3) + 0.0) for x, y in points))


def _piece(piece: LaidPiece) -> Piece:
    """A piece of a part block as its author wrote it, one of its ring."""
    return replace(piece.piece, id=piece.id, fabrics=(piece.fabric,), ring=None)
