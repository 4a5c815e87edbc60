"""Floor 4, the stage: every laid-out block gets the order in which it is sewn."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from types import MappingProxyType

from booklet.geometry.patches.congruence import letter_rank, letters
from booklet.geometry.tiling import BlockKey, LaidOut, Tiling
from booklet.kit.diagnostic import Diagnostic, Outcome, told_once
from booklet.kit.measure import UnitSystem
from booklet.kit.outlines.near import SAME_LENGTH
from booklet.kit.outlines.plane import Point
from booklet.kit.records import grown, replace
from booklet.kit.remembered.memory import Ask, hands_words_through, only_warns, plainly
from booklet.kit.running.doing import doing
from booklet.pattern import Block, By, Fabric, SetKind, Sewing, Size
from booklet.pattern.reads import prints, rules, sewn
from booklet.sewing.alike import cards, like_ends
from booklet.sewing.assembly import Assembled, Assembly, Batch, Run, SewnSeam, Step
from booklet.sewing.auto.finding import planned
from booklet.sewing.auto.judging import longer_routes
from booklet.sewing.auto.papers import by_machine, paper_steps
from booklet.sewing.batches import batch_numbers, batches
from booklet.sewing.drafts import Draft
from booklet.sewing.lettered_papers import closed_up, kinds_of, lettered_papers, relettered
from booklet.sewing.order.ends import blocked_set_ins, set_in_corners, sew_ends
from booklet.sewing.order.joins import draft_steps
from booklet.sewing.order.stretches import Stretch
from booklet.sewing.planner.judge import risks
from booklet.sewing.planner.paper_steps import unfit_units, units_on_paper
from booklet.sewing.rectangles import rectangle
from booklet.sewing.routes.threads import hand_routes
from booklet.sewing.routes.walking import Walk, goes, in_thread_order


def assemble(laid_out: LaidOut, ask: Ask = plainly) -> Outcome[Assembled]:
    """The order of every block in every size, with every fault of the declared orders.

    A block whose order is faulty gets no assembly in that size; the same fault is told once, however
    many sizes show it.
    """
    assemblies: dict[BlockKey, Assembly] = {}
    found: list[Diagnostic] = []
    judged: set[str] = set()
    pieces = sum(len(tiling.pieces) for tiling in laid_out.tilings.values())
    for size in laid_out.pattern.sizes:
        for tiling in laid_out.of_size(size):
            written = laid_out.pattern.block(tiling.block)
            block = replace(written, foundation=size.on_foundation(written))
            asked = rules(size.sewing), prints(size.fabrics)
            share = share_of(len(tiling.pieces), pieces)
            read_block = replace(tiling, size=""), sewn(block)
            with doing(f"working out how block `{block.id}` is sewn in size `{size.id}`"):
                outcome = ask(
                    assemble_block, *read_block, *asked, ask, share, is_set_in(tiling, size)
                )
            found.extend(outcome.diagnostics)
            if outcome.value is None:
                continue
            made = outcome.value
            own = replace(made.tiling, size=size.id) if made.papers else tiling
            assemblies[size.id, block.id] = replace(made, tiling=own)
            if block.steps is not None and block.id not in judged and not block.foundation:
                judged.add(block.id)  # turns are the same in every size
                with doing(f"comparing other orders of block `{block.id}`"):
                    found.extend(ask(_risks, outcome.value, *asked, laid_out.pattern.units))
        assemblies.update(_lettered_on(laid_out, size, assemblies))
    lettered = {
        key: made.tiling
        for key, made in assemblies.items()
        if made.tiling is not laid_out.tilings[key]
    }
    if lettered:  # numbers stand for the letters of pieces on paper, and the other letters close up
        laid_out = replace(laid_out, tilings=MappingProxyType({**laid_out.tilings, **lettered}))
    whole = grown(Assembled, laid_out, assemblies=MappingProxyType(assemblies))
    return Outcome(whole, told_once(found))


def _lettered_on(
    laid_out: LaidOut, size: Size, assemblies: Mapping[BlockKey, Assembly]
) -> dict[BlockKey, Assembly]:
    """The blocks of a size of which some are sewn on printed paper: the patches that are not close up to A, B …, and the
    sections are lettered on from them and from each other."""
    used = [(size.id, t.block) for t in laid_out.of_size(size) if size.uses(t.block)]
    on_paper = [key for key in used if key in assemblies and assemblies[key].papers]
    if not on_paper:
        return {}
    tilings = [assemblies[k].tiling if k in on_paper else laid_out.tilings[k] for k in used]
    plain = {
        patch.letter for t in tilings for patch in (*t.patches, *t.shapes) if not patch.on_paper
    }
    names = {old: letters(n) for n, old in enumerate(sorted(plain, key=letter_rank))}
    made = {key: closed_up(assemblies[key], names) for key in used if key in assemblies}
    first = len(names)
    for key in on_paper:
        made[key] = relettered(made[key], first) if first else made[key]
        first += len({section.letter for section in made[key].papers})
    return made


def is_set_in(tiling: Tiling, size: Size) -> bool:
    """Whether blocks of a size are joined by seams that turn: in a lattice, if they are no upright
    rectangles."""
    lattice = size.quilt is not None and size.quilt.set is SetKind.LATTICE
    return lattice and tiling.area < tiling.width * tiling.height - SAME_LENGTH


def share_of(pieces: int, of_all: int) -> float:
    """The part of the effort for some pieces of all: a half, a quarter, ..., so that one block more does not
    change the answers for every other."""
    return float(2.0 ** -math.ceil(math.log2(of_all / pieces)))


@only_warns
@hands_words_through
def _risks(
    assembly: Assembly, sewing: Sewing, fabrics: Mapping[str, Fabric], units: UnitSystem
) -> tuple[Diagnostic, ...]:
    routes = longer_routes(assembly, sewing, fabrics, units)
    return (*risks(assembly, sewing, fabrics), *routes)


@hands_words_through
def assemble_block(
    tiling: Tiling,
    block: Block,
    sewing: Sewing,
    fabrics: Mapping[str, Fabric] = MappingProxyType({}),
    ask: Ask = plainly,
    share: float = 1.0,
    set_in: bool = False,
    as_joined: bool = False,
) -> Outcome[Assembly]:
    """The order of one block in one size: as declared, or as the tool finds it (`sew: auto`).

    `share` is this block's part of the effort that a whole pattern may cost; `set_in` tells that whole blocks are set into each other, so that seams stop at the corners of this one; `as_joined` that
    runs are told as they are joined, though threads part them.
    """
    if block.foundation and tiling.seams:  # one patch is whole when it is cut
        return _on_paper(tiling, block, sewing, fabrics, ask, set_in)
    steps = block.steps
    if steps is None:
        first_told = block.part is not None and block.part.first_told
        steps = planned(tiling, sewing, fabrics, ask, first_told, share)[1]
    drafts, units, faults = draft_steps(tiling, steps, sewing, block.sew_span)
    faults = (*faults, *blocked_set_ins(drafts, tiling, sewing), *unfit_units(drafts, tiling))
    if faults:
        return Outcome(None, faults)
    held = set_in_corners(tiling) if set_in else frozenset()
    made = assembly_of(drafts, units, tiling, sewing, fabrics, held, as_joined)
    return Outcome(_numbered(made, units_on_paper(drafts), fabrics))


def _on_paper(
    tiling: Tiling,
    block: Block,
    sewing: Sewing,
    fabrics: Mapping[str, Fabric],
    ask: Ask,
    set_in: bool,
) -> Outcome[Assembly]:
    """The order of a block sewn on printed paper, by machine from edge to edge of its sections."""
    found, faults = paper_steps(tiling, block, sewing, ask)
    sewing = by_machine(sewing)
    if found is None:
        return Outcome(None, faults)
    drafts, units, faults = draft_steps(tiling, found.steps, sewing, block.sew_span)
    if faults:
        return Outcome(None, faults)
    held = set_in_corners(tiling) if set_in else frozenset()
    made = assembly_of(drafts, units, tiling, sewing, fabrics, held)
    made = _numbered(made, found.papers, fabrics)
    return Outcome(replace(made, fewest_papers=found.least))


def _numbered(
    made: Assembly, papers: Sequence[tuple[str, ...]], fabrics: Mapping[str, Fabric]
) -> Assembly:
    """The assembly with sections on printed paper, if it has any."""
    if not papers:
        return made
    return lettered_papers(made, papers, kinds_of(papers, made.steps, made.tiling, fabrics))


def assembly_of(
    drafts: Sequence[Draft],
    units: Mapping[str, tuple[str, ...]],
    tiling: Tiling,
    sewing: Sewing,
    fabrics: Mapping[str, Fabric],
    held: frozenset[Point],
    as_joined: bool = False,
) -> Assembly:
    """The assembly of drafts without a fault: how seams end, threads, cards and chains. Of an order that is only
    begun, the tiling has the seams sewn so far."""
    card, motion = cards(drafts, tiling, fabrics)
    routes = hand_routes(drafts, sew_ends(drafts, tiling, sewing, held), tiling, sewing)
    walk = Walk.of(routes.threads, drafts, routes.order)
    drafts = in_thread_order(drafts, walk, tiling, sewing)
    ends = like_ends(sew_ends(drafts, tiling, sewing, held), drafts, card, motion, tiling)
    number = batch_numbers(drafts, card)
    times = Counter(card.values())
    place = {piece.id: k for k, piece in enumerate(tiling.pieces)}
    gaps = _open_seams(drafts, tiling)
    told = {d.n: _as_joined(d) if as_joined else goes(d, walk, tiling) for d in drafts}
    made = tuple(_step(d, times, card, number, told[d.n], tiling, place, gaps) for d in drafts)
    chains: tuple[Batch, ...] = batches(made, tiling)
    in_order: Mapping[str, SewnSeam] = {seam.id: ends[seam.id] for seam in tiling.seams}
    return Assembly(
        tiling=tiling,
        steps=made,
        sewn=MappingProxyType(dict(in_order)),
        threads=routes.threads,
        batches=chains,
        units=MappingProxyType(dict(units)),
        fewest_threads=routes.fewest,
        parted_threads=routes.parted,
        route_cost=routes.cost,
        route_gap=routes.gap,
    )


def _open_seams(drafts: Sequence[Draft], tiling: Tiling) -> Callable[[int, frozenset[str]], bool]:
    """Tells whether a unit of some pieces has, after a step, a partial seam that is not yet finished: it
    does not lie flat then, and cannot be measured."""
    begun = {id: d.n for d in drafts if d.declared.leave for id in d.stretches[-1].seams}
    finishes = [(d.repeats, d.n) for d in drafts if d.repeats is not None]
    waits = [(begun[id], n, set(tiling.seam(id).between)) for id, n in finishes if id in begun]
    return lambda n, pieces: any(
        first <= n < last and between <= pieces for first, last, between in waits
    )


def _as_joined(draft: Draft) -> tuple[tuple[Stretch, By], ...]:
    """The runs of a step as its parts are joined."""
    return tuple(zip(draft.stretches, draft.by, strict=True))


def _step(
    draft: Draft,
    times: Mapping[int, int],
    card: Mapping[int, int],
    batch: Mapping[int, int],
    told: Sequence[tuple[Stretch, By]],
    tiling: Tiling,
    place: Mapping[str, int],
    gaps: Callable[[int, frozenset[str]], bool],
) -> Step:
    """The record of one step; `place` gives the place of every piece in the block's list, `gaps` tells
    whether a seam of a unit is still open after a step."""
    declared, pieces = draft.declared, draft.pieces
    return Step(
        n=draft.n,
        make=draft.make,
        join=draft.join,
        by=draft.step_by,
        kind=draft.kind,
        turns=draft.turns,
        runs=tuple(grown(Run, run, by=by) for run, by in told),
        pieces=tuple(sorted(pieces, key=place.__getitem__)),
        times=times[card[draft.n]],
        batch=batch[draft.n],
        level=draft.level,
        card=card[draft.n],
        rectangle=None if gaps(draft.n, pieces) else rectangle(sorted(pieces), tiling),
        press=declared.press,
        note=declared.note,
        leave=declared.leave,
        finish=declared.finish,
        span=declared.span,
        titles=declared.titles,
        picture=declared.picture,
    )
