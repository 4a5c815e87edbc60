"""Floor 4, the planner: the steps of a block sewn on printed paper: one for each section, then those that join them.

Found by the tool, or the author's own: her steps are read as sections as far as they add one patch to what is there, and
every other step joins sections.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from booklet.geometry.tiling import Tiling
from booklet.kit.bounds import MOST_ON_PAPER
from booklet.kit.diagnostic import Diagnostic, Span
from booklet.kit.outlines.plane import mean
from booklet.kit.records import Record, replace
from booklet.pattern import By, DeclaredStep, Ends, Sewing, TurnCosts
from booklet.sewing import faults
from booklet.sewing.alike import onto
from booklet.sewing.assembly import StepKind
from booklet.sewing.drafts import Draft
from booklet.sewing.mosaic.mosaic import bits, mosaic_of
from booklet.sewing.order.joins import draft_steps
from booklet.sewing.order.table import free_name
from booklet.sewing.planner.paper_sections import Parting, Sections, parted_by
from booklet.sewing.planner.paper_turns import in_order


class PaperSteps(Record):
    """The steps of a block on paper: `papers` are its sections, each the pieces in the order sewn. No section fewer than
    `least` would do (0: the author parted it)."""

    steps: tuple[DeclaredStep, ...]
    papers: tuple[tuple[str, ...], ...]
    least: int


class PaperNode(Record):
    """A section (its pieces), or what a step joins (its parts, and the step as declared)."""

    pieces: tuple[str, ...] = ()
    parts: tuple[PaperNode, ...] = ()
    declared: DeclaredStep | None = None


class FoundPapers(Record):
    """The fewest sections found of a block, as a tree, and how many are proven to be needed; or the pieces that no straight
    line parts, the one in the way first."""

    root: PaperNode | None
    least: int = 0
    stuck: tuple[str, ...] = ()


def search_papers(tiling: Tiling, sewing: Sewing) -> FoundPapers:
    """The fewest sections of a block of straight seams, each with the fewest turns of the paper; alike ones in alike
    order. By far the longest part of the work, and the same in every size."""
    sections = Sections(tiling=tiling, mosaic=mosaic_of(tiling, sewing, TurnCosts()))
    found = sections.found()
    if found.parting is None:
        worst = sections.in_the_way(found.stuck)
        others = [face for face in bits(found.stuck) if face != worst]
        return FoundPapers(None, stuck=tuple(tiling.pieces[face].id for face in (worst, *others)))
    ordered: list[tuple[str, ...]] = []

    def node(parting: Parting) -> PaperNode:
        if parting.parts:
            return PaperNode(parts=tuple(map(node, parting.parts)))
        ids = tuple(tiling.pieces[face].id for face in in_order(sections, parting.faces))
        ordered.append(_as_before(tiling, ids, ordered))
        return PaperNode(pieces=ordered[-1])

    return FoundPapers(node(found.parting), found.least)


def unfit_for_paper(tiling: Tiling) -> Diagnostic | None:
    """Why no order of a block could be sewn on printed paper: a curved seam, a motif to be shown, or far too many pieces."""
    curved = next((seam for seam in tiling.seams if len(seam.path) > 2), None)
    if curved is not None:
        return faults.curved_on_paper(tiling, curved)
    motif = next((piece for piece in tiling.pieces if piece.motif), None)
    if motif is not None:
        return faults.motif_on_paper(tiling.block, motif)
    if len(tiling.pieces) > MOST_ON_PAPER:
        return faults.too_many_on_paper(tiling)
    return None


def found_steps(
    tiling: Tiling, found: FoundPapers
) -> tuple[PaperSteps | None, tuple[Diagnostic, ...]]:
    """The steps of what was found, or why the block cannot be sewn on printed paper."""
    if found.root is not None:
        return _named(tiling, found.root, found.least), ()
    stuck = [piece for piece in tiling.pieces if piece.id in found.stuck]
    return None, (faults.stuck_on_paper(tiling, stuck, tiling.piece(found.stuck[0])),)


def _as_before(
    tiling: Tiling, ids: tuple[str, ...], before: Iterable[tuple[str, ...]]
) -> tuple[str, ...]:
    """The pieces of a section in the order of an earlier one that is alike when turned; else as they are."""
    marks = _shape(tiling, ids)
    for other in before:
        theirs = _shape(tiling, other)
        if {label: len(points) for label, points in marks.items()} != {
            label: len(points) for label, points in theirs.items()
        }:
            continue
        way = onto(marks, theirs)
        if way is not None:
            places = {id: mean(tiling.piece(id).outline.corners) for id in other}
            moved = {id: way(mean(tiling.piece(id).outline.corners)) for id in ids}
            return tuple(
                min(ids, key=lambda id, at=at: _apart(moved[id], at))  # type: ignore[misc]
                for at in (places[id] for id in other)
            )
    return ids


def _apart(p: tuple[float, float], q: tuple[float, float]) -> float:
    return (p[0] - q[0]) ** 2 + (p[1] - q[1]) ** 2


def _shape(
    tiling: Tiling, ids: Iterable[str]
) -> dict[tuple[object, ...], tuple[tuple[float, float], ...]]:
    """The corners of some pieces by what they are, whatever their cloth."""
    found: dict[tuple[object, ...], list[tuple[float, float]]] = {}
    for id in ids:
        piece = tiling.piece(id)
        found.setdefault((piece.patch, piece.reversed), []).extend(piece.outline.points)
    return {label: tuple(points) for label, points in found.items()}


def written_steps(
    tiling: Tiling, steps: Sequence[DeclaredStep], sewing: Sewing, block_span: Span
) -> tuple[PaperSteps | None, tuple[Diagnostic, ...]]:
    """The author's steps as sections and joins, with what cannot be sewn on paper."""
    drafts, _, wrong = draft_steps(tiling, steps, sewing, block_span)
    if not wrong:
        wrong = tuple(fault for draft in drafts for fault in _crooked(draft, tiling))
    if wrong:
        return None, wrong
    nodes: dict[int, PaperNode] = {}
    for draft in drafts:
        parts = [
            nodes[step] if step else PaperNode(pieces=tuple(part))
            for part, step in zip(draft.parts, draft.part_steps, strict=True)
        ]
        made = nodes[draft.n] = _joined(parts, draft.declared)
        wrong = (*wrong, *_unfolded(tiling, draft, parts))
        if made.pieces:
            wrong = (*wrong, *_wishes(draft, tiling))
    return (None, wrong) if wrong else (_named(tiling, nodes[drafts[-1].n], 0), ())


def units_on_paper(drafts: Iterable[Draft]) -> tuple[tuple[str, ...], ...]:
    """The pieces of each unit sewn on printed paper in a block that is not, in the order sewn."""
    return tuple(draft.join for draft in drafts if draft.declared.foundation)


def unfit_units(drafts: Iterable[Draft], tiling: Tiling) -> Iterator[Diagnostic]:
    """Why such units cannot be sewn on paper."""
    for draft in drafts:
        said = draft.declared
        if not said.foundation:
            continue
        if any(draft.part_steps):
            yield faults.units_on_paper(tiling.block, said)
            continue
        yield from _crooked(draft, tiling)
        motif = next((p for id in draft.join if (p := tiling.piece(id)).motif), None)
        if motif is not None:
            yield faults.motif_on_paper(tiling.block, motif)
        yield from _wishes(draft, tiling)
        if draft.kind is StepKind.STRAIGHT:
            yield from _unfolded(tiling, draft, [PaperNode(pieces=(id,)) for id in draft.join])


def _joined(parts: list[PaperNode], declared: DeclaredStep) -> PaperNode:
    """What a step makes: a longer section as far as single patches are added to one, else parts that are joined."""
    first, *others = parts
    while others and first.pieces and others[0].pieces:
        one, other = first.pieces, others[0].pieces
        if len(other) > 1 and (len(one) > 1 or len(parts) > 2):
            break
        grown = (*one, *other) if len(other) == 1 else (*other, *one)
        first, others = PaperNode(pieces=grown, declared=declared), others[1:]
    return PaperNode(parts=(first, *others), declared=declared) if others else first


def _crooked(draft: Draft, tiling: Tiling) -> Iterator[Diagnostic]:
    """What of a step is no straight line: a corner, a partial seam; or is to be sewn or pressed as paper forbids."""
    declared = draft.declared
    if draft.kind is not StepKind.STRAIGHT:
        yield faults.crooked_on_paper(tiling.block, declared)
    if declared.by is By.HAND:
        yield faults.by_hand_on_paper(tiling.block, declared)


def _wishes(draft: Draft, tiling: Tiling) -> Iterator[Diagnostic]:
    """What is asked of a section that its paper decides: how it is pressed, and where its seams end."""
    if draft.declared.press is not None:
        yield faults.pressed_on_paper(tiling.block, draft.declared.press)
    if draft.declared.ends is Ends.POINTS:
        yield faults.stopped_on_paper(tiling.block, draft.declared)


def _unfolded(tiling: Tiling, draft: Draft, parts: Sequence[PaperNode]) -> Iterator[Diagnostic]:
    """Pieces added to a section along a line that does not part them from all that is there."""
    if not all(part.pieces for part in parts):
        return
    made = _joined(list(parts), draft.declared)
    if not made.pieces:
        return
    grows = (
        parts
        if len(parts[0].pieces) > 1 or len(parts) > 2
        else sorted(parts, key=lambda p: -len(p.pieces))
    )
    done = grows[0].pieces
    for part, stretch in zip(grows[1:], draft.stretches, strict=True):
        line = stretch.points[0], stretch.points[-1]
        if not parted_by(tiling, line, part.pieces, done):
            yield faults.folded_over(tiling.block, part.pieces[0], draft.declared)
        done = (*done, *part.pieces)


def _named(tiling: Tiling, root: PaperNode, least: int) -> PaperSteps:
    """The steps of a tree of sections: all sections first, then how they are joined."""
    names = _Names(tiling, root)
    papers = list(_papers(root))
    sections = [names.step(node) for node in papers if len(node.pieces) > 1]
    joins = [names.step(node) for node in _joins(root)]
    steps = [replace(step, entry=n) for n, step in enumerate((*sections, *joins))]
    return PaperSteps(tuple(steps), tuple(node.pieces for node in papers), least)


def _papers(node: PaperNode) -> Iterator[PaperNode]:
    """The sections of a tree."""
    if node.pieces:
        yield node
    for part in node.parts:
        yield from _papers(part)


def _joins(node: PaperNode) -> Iterator[PaperNode]:
    """What is joined of sections, each after its parts."""
    for part in node.parts:
        yield from _joins(part)
    if node.parts:
        yield node


class _Names:
    """Names what steps make: as the author did, else "section 1", "unit 1"; the whole is the block."""

    def __init__(self, tiling: Tiling, root: PaperNode) -> None:
        self.taken = {tiling.block, *(piece.id for piece in tiling.pieces)}
        self.span = tiling.pieces[0].span
        self.names: dict[int, str] = {id(root): tiling.block}

    def name(self, node: PaperNode) -> str:
        """What a node is called."""
        if len(node.pieces) == 1:
            return node.pieces[0]
        if id(node) not in self.names:
            own = node.declared.make if node.declared is not None else ""
            stem = "section " if node.pieces else "unit "
            self.names[id(node)] = (
                own if own not in {"", *self.taken} else free_name(self.taken, stem)
            )
            self.taken.add(self.names[id(node)])
        return self.names[id(node)]

    def step(self, node: PaperNode) -> DeclaredStep:
        """The step that sews a section, or joins some."""
        said = node.declared
        join = node.pieces or tuple(map(self.name, node.parts))
        span = self.span if said is None else said.span
        words = said if not node.pieces else None
        return DeclaredStep(
            make=self.name(node),
            join=join,
            span=span,
            join_spans=(span,) * len(join),
            entry=0,
            by=By.MACHINE,
            press=words.press if words else None,
            ends=words.ends if words else None,
            note=said.note if said else None,
            titles=words.titles if words else (),
            picture=said.picture if said else None,
        )
