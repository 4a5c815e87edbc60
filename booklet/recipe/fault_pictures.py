"""Floor 12: the pictures of faults: from what was read and what was found to scenes, one for each cause."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from booklet.drawing.scene import Area, Fill, Item, Scene, moved
from booklet.drawing.steps.fault_scenes import WIDTH, stuck_scene, tiling_scene
from booklet.geometry import lay_out
from booklet.geometry.soundness.sites import Fault
from booklet.geometry.soundness.unsound import Unsound, unsound_blocks
from booklet.kit.diagnostic import Diagnostic, ToldFault, by_cause
from booklet.kit.outlines.plane import rectangle
from booklet.kit.remembered.memory import Ask, plainly
from booklet.pattern import Pattern
from booklet.sewing.stuck import CODES, stuck_step

MOST = 6  # pictures: who has more faults mends the first ones first
DRAWN = frozenset({"overlap", "gap", "outside-block", "crossed-shape", "too-close", "apart"})


def fault_scenes(
    pattern: Pattern | None, diagnostics: Sequence[Diagnostic], ask: Ask = plainly
) -> Iterator[tuple[Diagnostic, Scene]]:
    """The picture of each cause that can be drawn, beside the fault that is told first of it."""
    told = [one for one in by_cause(diagnostics) if one.first.code in DRAWN | CODES]
    if pattern is None or not told:
        return
    unsound = tuple(unsound_blocks(pattern, ask))
    laid_out = lay_out(pattern, ask).value
    for number, one in enumerate(told[:MOST], 1):
        scene = _of_tiling(unsound, one, f"fault-{number}")
        if scene is None and laid_out is not None:
            stuck = stuck_step(laid_out, one.first)
            name = f"fault-{number}"
            scene = (
                stuck_scene(stuck, one.first.message, pattern.units, name)
                if stuck is not None
                else None
            )
        if scene is not None:
            yield one.first, scene


def _of_tiling(unsound: Sequence[Unsound], told: ToldFault, name: str) -> Scene | None:
    """The picture of a block's fault and what follows from it."""
    wanted = {told.first, *told.following}
    for block in unsound:
        faults: list[Fault] = [fault for fault in block.faults if fault.diagnostic in wanted]
        if faults and any(fault.areas or fault.spots for fault in faults):
            faults.sort(key=lambda fault: fault.diagnostic != told.first)
            return tiling_scene(block, faults, name)
    return None


def stacked(scenes: Sequence[Scene]) -> Scene:
    """All pictures below each other as one."""
    y, items = 0.0, list[Item]()
    for scene in scenes:
        items += [moved(item, (0.0, y)) for item in scene.items]
        y += scene.height + 6.0
    items.insert(0, Area(rectangle(0, 0, WIDTH, y), Fill("#ffffff"), None))  # paper, on any screen
    told = " ".join(scene.alt for scene in scenes)
    return Scene.of("faults", (WIDTH, max(y - 6.0, 1.0)), items, "The faults, drawn", told)
