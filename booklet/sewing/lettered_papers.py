"""Floor 4: sections on printed paper get their letters, and their pieces numbers: A1, A2, A3 (common practice).

A piece of a block on paper is what its number says, so the number takes the place of the patch letter everywhere: in the
pictures, the cutting list, on the paper. Alike sections share a letter, and so their pieces do.
"""

from __future__ import annotations

from collections.abc import Container, Iterator, Mapping, Sequence

from booklet.geometry.patches.congruence import letters
from booklet.geometry.tiling import Patch, PlacedPiece, Tiling
from booklet.geometry.vectors import shifted
from booklet.kit.outlines.plane import box_of, tidy_angle
from booklet.kit.records import replace
from booklet.pattern import Fabric
from booklet.sewing.alike import print_ways
from booklet.sewing.assembly import Assembly, PaperSection, Step


def kinds_of(
    papers: Sequence[tuple[str, ...]],
    steps: Sequence[Step],
    tiling: Tiling,
    fabrics: Mapping[str, Fabric],
) -> tuple[int, ...]:
    """For each section the number of the first that is alike when turned."""
    card = {frozenset(step.pieces): step.card for step in reversed(steps)}
    first: dict[object, int] = {}
    found = []
    for n, pieces in enumerate(papers):
        piece = tiling.piece(pieces[0])
        upright = print_ways(fabrics.get(piece.fabric))
        alone = (piece.patch, piece.reversed, piece.fabric, piece.turn if upright else None)
        key = card[frozenset(pieces)] if len(pieces) > 1 else alone
        found.append(first.setdefault(key, n))
    return tuple(found)


def lettered_papers(
    assembly: Assembly, papers: Sequence[tuple[str, ...]], kinds: Sequence[int], first: int = 0
) -> Assembly:
    """The assembly with the sections of its papers, from letter number `first` on."""
    order = sorted(set(kinds))
    letter = {kind: letters(first + n) for n, kind in enumerate(order)}
    sections = tuple(
        PaperSection(letter[kind], pieces, papers[kind])
        for pieces, kind in zip(papers, kinds, strict=True)
    )
    of = {frozenset(section.pieces): section.letter for section in sections}
    steps = tuple(
        replace(step, section=of.get(frozenset(step.pieces), "")) for step in assembly.steps
    )
    return replace(
        assembly, steps=steps, papers=sections, tiling=_numbered(assembly.tiling, sections)
    )


def closed_up(assembly: Assembly, names: Mapping[str, str]) -> Assembly:
    """The same with new letters for its patches; those that have none keep theirs, as the numbers on papers do."""
    if all(old == new for old, new in names.items()):
        return assembly
    tiling = assembly.tiling

    def piece(one: PlacedPiece) -> PlacedPiece:
        return replace(one, patch=names.get(one.patch, one.patch))

    def patch(one: Patch) -> Patch:
        return replace(one, letter=names.get(one.letter, one.letter))

    renamed = replace(
        tiling,
        pieces=tuple(map(piece, tiling.pieces)),
        patches=tuple(map(patch, tiling.patches)),
        applied=tuple(replace(shape, piece=piece(shape.piece)) for shape in tiling.applied),
        shapes=tuple(map(patch, tiling.shapes)),
    )
    return replace(assembly, tiling=renamed)


def relettered(assembly: Assembly, first: int) -> Assembly:
    """The same from another letter on."""
    papers = [section.pieces for section in assembly.papers]
    kinds = [papers.index(section.like) for section in assembly.papers]
    return lettered_papers(assembly, papers, kinds, first)


def _numbered(tiling: Tiling, sections: Sequence[PaperSection]) -> Tiling:
    """The tiling in which the numbers of pieces are their patch letters."""
    made: dict[str, PlacedPiece] = {}
    patches: dict[str, Patch] = {}
    for section in sections:
        for n, (id, like) in enumerate(zip(section.pieces, section.like, strict=True), 1):
            number, piece, model = f"{section.letter}{n}", tiling.piece(id), tiling.piece(like)
            turn = tidy_angle(piece.turn - model.turn)
            made[id] = replace(piece, patch=number, reversed=False, turn=turn)
            before = patches.get(number) or _patch(number, model, tiling.patch(model.patch))
            patches[number] = replace(before, pieces=(*before.pieces, id))
    pieces = tuple(made.get(piece.id, piece) for piece in tiling.pieces)
    return replace(
        tiling, pieces=pieces, patches=(*_others(tiling, made.keys()), *patches.values())
    )


def _others(tiling: Tiling, numbered: Container[str]) -> Iterator[Patch]:
    """The patches of pieces that are not on paper, each with those that are left of it."""
    for patch in tiling.patches:
        left = tuple(id for id in patch.pieces if id not in numbered)
        if left:
            yield replace(patch, pieces=left)


def _patch(number: str, model: PlacedPiece, was: Patch) -> Patch:
    """The patch of a number, as its first piece lies in the block."""
    left, top, _, _ = box_of(model.outline.points)
    outline = shifted(model.outline, (-left, -top))
    return replace(
        was,
        letter=number,
        outline=outline,
        grain=model.grain,
        pieces=(),
        reversed_too=False,
        on_paper=True,
    )
