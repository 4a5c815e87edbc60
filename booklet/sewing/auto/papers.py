"""Floor 4: the steps of a block sewn on printed paper, asked up to scale: the same sections in every size."""

from __future__ import annotations

from booklet.geometry.tiling import Tiling
from booklet.kit.diagnostic import Diagnostic
from booklet.kit.measure import ZERO
from booklet.kit.records import replace
from booklet.kit.remembered.memory import Ask
from booklet.pattern import Block, By, Ends, PressHabit, Sewing
from booklet.sewing.auto.unscaled import question_of
from booklet.sewing.planner.paper_steps import (
    PaperSteps,
    found_steps,
    search_papers,
    unfit_for_paper,
    written_steps,
)


def by_machine(sewing: Sewing) -> Sewing:
    """The rules with which all is sewn by machine, from edge to edge where nothing turns; nothing is fanned."""
    return replace(
        sewing, machine_from=ZERO, ends=Ends.AUTO, set_in_by=By.MACHINE, press=PressHabit.AUTO
    )


def paper_steps(
    tiling: Tiling, block: Block, sewing: Sewing, ask: Ask
) -> tuple[PaperSteps | None, tuple[Diagnostic, ...]]:
    """The steps of a block sewn on printed paper, as the author wrote them or as the tool finds them; or why it cannot
    be sewn so."""
    unfit = unfit_for_paper(tiling)
    if unfit is not None:
        return None, (unfit,)
    sewing = by_machine(sewing)
    if block.steps is not None:
        return written_steps(tiling, block.steps, sewing, block.sew_span)
    asked = question_of(tiling, sewing, {})
    return found_steps(tiling, ask(search_papers, asked.tiling, asked.sewing))
