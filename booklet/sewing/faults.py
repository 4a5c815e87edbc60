"""Floor 4: the sentences for orders that cannot be sewn."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from booklet.geometry.tiling import PlacedPiece, Seam, Tiling
from booklet.kit.bounds import MOST_ON_PAPER
from booklet.kit.diagnostic import Diagnostic, Span, did_you_mean
from booklet.kit.records import Record
from booklet.pattern import DeclaredStep, PressWish

MOST_NAMED = 6  # pieces of a list in a message


def listed(names: Iterable[str]) -> str:
    """Names in backticks, "`a`, `b` and `c`"."""
    quoted = [f"`{name}`" for name in names]
    return quoted[0] if len(quoted) == 1 else ", ".join(quoted[:-1]) + " and " + quoted[-1]


def does_not_touch(
    block: str, there: Iterable[str], part: str, span: Span, near: Iterable[str], first: str = ""
) -> Diagnostic:
    """A join of two parts that share no seam; `near` are units that `part` does touch, `first` is one of the same step
    that lies between them and comes later."""
    touching = sorted(near)[:6]
    hint = (
        f"`{part}` touches {listed(touching)}: join it to one of these"
        if touching
        else f"join `{part}` later, when a unit beside it is there"
    )
    if first:
        hint = f"name `{first}` before `{part}`: it touches both"
    message = (
        f"`{part}` and {listed(there)} of block `{block}` share no seam, so they cannot be joined"
    )
    return Diagnostic(code="does-not-touch", message=message, span=span, hint=hint)


def used_twice(block: str, name: str, before: str, now: str, span: Span) -> Diagnostic:
    """A piece or unit that is no longer on the table; `now` is the unit that it is in by this step."""
    message = f"`{name}` of block `{block}` is already sewn into `{before}`"
    return Diagnostic(
        code="used-twice",
        message=message,
        span=span,
        hint=f"join `{now}`, which `{name}` is in by now",
    )


def named_twice(block: str, name: str, span: Span) -> Diagnostic:
    """A piece or unit that stands twice in one join."""
    message = f"`{name}` of block `{block}` stands twice in the same join"
    return Diagnostic(
        code="used-twice",
        message=message,
        span=span,
        hint=f"name `{name}` once, and the part it is joined to",
    )


def unknown_part(block: str, name: str, span: Span, known: Iterable[str]) -> Diagnostic:
    """A name that is neither a piece nor an earlier unit."""
    message = f"block `{block}` has no piece or earlier unit `{name}` to join"
    return Diagnostic(
        code="unknown-name", message=message, span=span, hint=did_you_mean(name, known)
    )


def never_used(block: str, piece: str, span: Span) -> Diagnostic:
    """A piece no step joins."""
    message = f"piece `{piece}` of block `{block}` is never joined to anything"
    return Diagnostic(
        code="never-used", message=message, span=span, hint=f"add a step that joins `{piece}`"
    )


def never_used_many(block: str, pieces: Sequence[str], span: Span) -> Diagnostic:
    """Many pieces that no step joins, told once."""
    message = f"pieces of block `{block}` are never joined to anything: {_first_of(pieces)}"
    hint = (
        f"add steps that join them, or write `sew: auto` and see `booklet plan` for block `{block}`"
    )
    return Diagnostic(code="never-used", message=message, span=span, hint=hint)


def unfinished(block: str, units: Iterable[str], span: Span) -> Diagnostic:
    """More than one unit left when the steps end."""
    message = f"the steps of block `{block}` end with {listed(units)} still apart"
    return Diagnostic(
        code="unfinished-block", message=message, span=span, hint="add a step that joins them"
    )


def machine_over_papers(block: str, step: DeclaredStep) -> Diagnostic:
    """A step by machine where the patches are basted over papers."""
    return Diagnostic(
        code="conflicting-keys",
        message=f"a step of block `{block}` is sewn by machine, but its patches are basted over papers and whip-stitched by hand",
        span=step.span,
        hint="leave `by: machine` out of the step, or `by: papers` out of `sewing`",
    )


def cannot_stay_open(block: str, step: DeclaredStep, *, is_there: bool) -> Diagnostic:
    """A partial seam left open for what comes to no end of it, or is a part of what is joined (`is_there`)."""
    why = "is joined already" if is_there else "does not come to an end of it"
    return unsewable(
        f"the seam between {listed(step.join)} of block `{block}` cannot be left open for `{step.leave}`, which {why}",
        step.span,
        "name in `leave` the piece that will come later, at the end where the seam stays open",
    )


def left_open(
    block: str, join: tuple[str, ...], between: tuple[str, str], leave: str, span: Span
) -> Diagnostic:
    """A partial seam that is never finished; its open end lies `between` two pieces."""
    message = (
        f"the partial seam between {listed(join)} of block `{block}`, left open for `{leave}`, "
        "is never finished"
    )
    hint = f"add `- {{finish: [{', '.join(between)}]}}` after the step that joins `{leave}`"
    return Diagnostic(code="partial-left-open", message=message, span=span, hint=hint)


class ClosedSeam(Record):
    """A partial seam that was finished: between which pieces, for what it was left open, and where it was closed."""

    between: tuple[str, str]
    leave: str
    span: Span


def nothing_to_finish(
    block: str,
    step: DeclaredStep,
    open_: Sequence[tuple[tuple[str, str], str]],
    closed: ClosedSeam | None,
) -> Diagnostic:
    """A finish for which no seam was left open; `open_` are those that are, with the piece that each was left for; `closed`
    the one it names, where that was finished before."""
    message = f"no seam between {listed(step.join)} of block `{block}` was left open to finish"
    hint = f"give the step that joins {listed(step.join)} a `leave`, or take this `finish` out"
    if closed is not None:
        message = f"the seam between {listed(step.join)} of block `{block}` is already finished on line {closed.span.line}"
        hint = f"keep one `finish`, after the step that joins `{closed.leave}`"
    elif open_:
        (one, other), leave = open_[0]
        hint = f"write `finish: [{one}, {other}]`: that seam was left open for `{leave}`"
    return Diagnostic(code="finish-without-leave", message=message, span=step.span, hint=hint)


def unsewable(message: str, span: Span, hint: str) -> Diagnostic:
    """A step that no needle can do as it is written."""
    return Diagnostic(code="unsewable-step", message=message, span=span, hint=hint)


def curved_on_paper(tiling: Tiling, seam: Seam) -> Diagnostic:
    """A curved seam in a block that is to be sewn on printed paper."""
    one, other = seam.between
    message = f"block `{tiling.block}` is to be sewn on printed paper, but the seam between `{one}` and `{other}` is curved"
    return Diagnostic(
        code="not-on-paper",
        message=message,
        span=tiling.piece(other).span,
        hint=f"leave `by: foundation` out for `{tiling.block}`, or draw the seam as straight ones",
    )


def motif_on_paper(block: str, piece: PlacedPiece) -> Diagnostic:
    """A piece that shows a motif in a block on printed paper: it is cut as a rough rectangle."""
    message = (
        f"`{piece.id}` of block `{block}` is to show a motif, but pieces that are sewn on printed paper are cut as rough "
        "rectangles"
    )
    hint = f"take `motif` away, or leave `by: foundation` out for `{block}`"
    return Diagnostic(code="conflicting-keys", message=message, span=piece.span, hint=hint)


def too_many_on_paper(tiling: Tiling) -> Diagnostic:
    """A block on printed paper of more pieces than anybody sews so."""
    message = (
        f"block `{tiling.block}` is to be sewn on printed paper, but has {len(tiling.pieces)} pieces, more than "
        f"{MOST_ON_PAPER}"
    )
    where = tiling.pieces[MOST_ON_PAPER].span
    return Diagnostic(code="too-large", message=message, span=where, hint="make it several blocks")


def stuck_on_paper(tiling: Tiling, stuck: Sequence[PlacedPiece], worst: PlacedPiece) -> Diagnostic:
    """Pieces that no straight line parts, of which `worst` would have to be set in."""
    pieces = _first_of([piece.id for piece in stuck])
    message = (
        f"block `{tiling.block}` cannot be sewn on printed paper: no straight line parts {pieces}, and `{worst.id}` "
        "would have to be set in"
    )
    return Diagnostic(
        code="not-on-paper",
        message=message,
        span=worst.span,
        hint=f"cut `{worst.id}` or a piece beside it in two, so that one line goes straight through, or leave "
        f"`by: foundation` out for `{tiling.block}`",
    )


def _first_of(names: Sequence[str]) -> str:
    """Some names, the first few of many."""
    if len(names) <= MOST_NAMED:
        return listed(names)
    return ", ".join(f"`{n}`" for n in names[:MOST_NAMED]) + f" and {len(names) - MOST_NAMED} more"


def crooked_on_paper(block: str, step: DeclaredStep) -> Diagnostic:
    """A step of a block on printed paper whose seam is no straight line."""
    message = (
        f"{listed(step.join)} of block `{block}` do not meet along one straight line, as all that is sewn on printed paper "
        "must"
    )
    hint = "join them in another order, or write `sew: auto` and see `booklet plan`"
    return Diagnostic(code="unsewable-step", message=message, span=step.span, hint=hint)


def units_on_paper(block: str, step: DeclaredStep) -> Diagnostic:
    """A step `by: foundation` that joins units."""
    message = f"{listed(step.join)} of block `{block}` are to be sewn on printed paper, but not all of them are single patches"
    hint = "name all patches of the section in one step, in the order in which they are sewn"
    return Diagnostic(code="unsewable-step", message=message, span=step.span, hint=hint)


def folded_over(block: str, piece: str, step: DeclaredStep) -> Diagnostic:
    """A piece added to a section along a line on both sides of which there is something already."""
    message = (
        f"`{piece}` of block `{block}` cannot be added here on printed paper: what is sewn before lies on both sides of its "
        "line, and the paper is folded there"
    )
    hint = f"add `{piece}` earlier, or make it a section of its own that is joined later"
    return Diagnostic(code="unsewable-step", message=message, span=step.span, hint=hint)


def by_hand_on_paper(block: str, step: DeclaredStep) -> Diagnostic:
    """A step of a block on printed paper that is to be sewn by hand."""
    message = f"block `{block}` is sewn on printed paper, and this step is to be sewn by hand"
    hint = "take `by: hand` away: the paper is sewn by machine, along its lines"
    return Diagnostic(code="conflicting-keys", message=message, span=step.span, hint=hint)


def pressed_on_paper(block: str, wish: PressWish) -> Diagnostic:
    """A wish for pressing within a section, where the order decides."""
    message = f"within a section of block `{block}` each seam is pressed toward the new piece, whatever `press` says"
    hint = "take `press` away; where sections are joined you may say it"
    return Diagnostic(code="conflicting-keys", message=message, span=wish.span, hint=hint)


def stopped_on_paper(block: str, step: DeclaredStep) -> Diagnostic:
    """A section whose seams are asked to end at points."""
    message = (
        f"within a section of block `{block}` seams are sewn a few stitches beyond their lines, and this step asks for "
        "`ends: points`"
    )
    hint = "take `ends` away: where a corner is set in later, the paper shows a dot"
    return Diagnostic(code="conflicting-keys", message=message, span=step.span, hint=hint)


def blocked(block: str, early: str, late: str, span: Span) -> Diagnostic:
    """Machine seams sewn off the edge at a point where a later step has to turn."""
    message = (
        f"step `{early}` of block `{block}` is sewn by machine from edge to edge, but step `{late}` "
        "turns where it ends"
        if early != late
        else f"step `{early}` of block `{block}` is sewn from edge to edge, but turns where one of its "
        "own seams ends"
    )
    hint = f"let `{early}` end at its points: `ends: points`, or `ends: auto`"
    return Diagnostic(code="blocked-set-in", message=message, span=span, hint=hint)
