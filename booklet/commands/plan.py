"""Floor 13: `booklet plan`: the best order of sewing found, shown or written into the pattern."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator, Sequence

from booklet.commands.line.arguments import WRONG_CALL
from booklet.commands.line.asking import unknown, unknown_size, wrong_folder
from booklet.commands.line.saying import FAULTS, SOUND, complain, listed, tell
from booklet.geometry import lay_out
from booklet.kit.remembered.memory import Ask
from booklet.pattern import Pattern
from booklet.recipe.checking import lay_out_folder, of_one_run
from booklet.recipe.output import keep_aside
from booklet.sewing.auto.proposals import Proposal, proposals
from booklet.source.editor import write_steps
from booklet.source.files.folder import SOURCE, source_text


def command(options: argparse.Namespace) -> int:
    """Print the orders to standard output; the exit status."""
    if wrong := wrong_folder(options):
        return complain(wrong, WRONG_CALL)
    outcome = lay_out_folder(options.folder)
    faults = tuple(d for d in outcome.diagnostics if d.is_error)
    tell(faults, options.folder)
    if outcome.value is None:
        return FAULTS
    pattern = outcome.value.pattern
    if wrong := unknown(
        "block", _one(options.block), [b.id for b in pattern.blocks]
    ) or unknown_size(pattern, _one(options.size)):
        return complain(wrong, WRONG_CALL)
    parts = {block.id for block in pattern.blocks if block.part is not None}
    if options.write and options.block in parts:
        return complain(
            f"block `{options.block}` is a part block of a filled rim: its order is found anew for every edge, so there "
            "is nowhere to write it"
        )
    ask = of_one_run()
    found = tuple(proposals(outcome.value, options.block, options.size, ask))
    print("\n".join(proposal.text for proposal in found), end="")
    for line in (*_in_class(pattern, options), *_in_alternatives(pattern, found, options, ask)):
        print(line)
    if options.write:
        writable = tuple(proposal for proposal in found if proposal.block not in parts)
        return FAULTS if faults else _write_orders(options, writable, pattern)
    return FAULTS if faults else SOUND


def _in_class(pattern: Pattern, options: argparse.Namespace) -> Iterator[str]:
    """What the class makes in these orders, and how many kits."""
    lesson = pattern.booklet.lesson
    for size in pattern.sizes_of_class() if lesson.students or lesson.makes else ():
        if options.size not in (None, size.id):
            continue
        made = pattern.made_in_class(size)
        each = ", ".join(f"{n} × block `{block}`" for block, n in made) or f"size `{size.id}`"
        yield f"\nthe class, size `{size.id}`: each student makes {each}, in these orders"
        if lesson.students:
            spare = f", {lesson.spares} of them spare" if lesson.spares else ""
            yield f"  {lesson.kits} kit{'' if lesson.kits == 1 else 's'}{spare}"


def _in_alternatives(
    pattern: Pattern, found: Sequence[Proposal], options: argparse.Namespace, ask: Ask
) -> Iterator[str]:
    """What is said of each colourway and layout: that its orders are those above, or the orders themselves."""
    for one in pattern.alternatives:
        if one.is_own or not one.sizes:
            continue
        laid = lay_out(pattern.taken_as(one), ask).value
        if laid is None:
            continue
        other = tuple(proposals(laid, options.block, options.size, ask))
        alike = [proposal.text for proposal in other] == [proposal.text for proposal in found]
        said = "the same orders" if alike else "other orders:"
        yield f"\n{one.kind.value} `{one.id}`: {said}"
        if not alike:
            yield "\n".join(proposal.text for proposal in other).rstrip("\n")


def _one(name: str | None) -> list[str] | None:
    return None if name is None else [name]


def _write_orders(options: argparse.Namespace, found: Sequence[Proposal], pattern: Pattern) -> int:
    """Put the first order of each block into the pattern; another file takes its place when complete."""
    before = text = source_text(options.folder, SOURCE) or ""
    for proposal in {p.block: p for p in reversed(found)}.values():
        if (proposal.declared and not options.block) or not proposal.steps:
            continue
        there = pattern.block(proposal.block)
        if there.part is not None:
            continue  # no block of the source: part blocks are made where a rim is filled
        made = write_steps(text, proposal.block, proposal.steps, there.steps or ())
        if made is None:
            return complain(
                f"cannot find where the steps of block `{proposal.block}` belong in {SOURCE}; "
                "nothing was written. Write them there by hand"
            )
        text = made
        print(f"{SOURCE}: block `{proposal.block}` now has these steps", file=sys.stderr)
        if others := [p.size for p in found if p.block == proposal.block and p != proposal]:
            print(_one_order_for_all(proposal, others), file=sys.stderr)
    if text == before:
        sewn = any(proposal.steps for proposal in found)
        why = (
            "name a block to replace steps of its own"
            if sewn or not found
            else f"nothing is sewn in block `{found[0].block}`"
        )
        return complain(f"nothing to write: {why}", SOUND)
    with keep_aside(options.folder) as aside:
        aside.write(SOURCE, text.encode("utf-8"))
        aside.replace()
    return SOUND


def _one_order_for_all(written: Proposal, others: Sequence[str]) -> str:
    """Steps written are those of every size: which sizes would have had others."""
    return (
        f"they are the order found for size `{written.size}`; shown above is another for {listed(others)}. "
        f"Steps in the pattern hold for every size: leave `sew: auto` to plan each by itself, or "
        "choose by `--size`"
    )
