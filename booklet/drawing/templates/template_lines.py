"""Floor 10: what is printed on a template: name, finished size, cloths with their counts, which face is up."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Sequence

from booklet.cutting.cutting_plan import CutPatch
from booklet.geometry.patches.curve_marks import has_hand
from booklet.geometry.tiling import Outline
from booklet.geometry.vectors import as_rectangle
from booklet.kit.measure import UnitSystem
from booklet.kit.outlines.plane import box_of, turn_point
from booklet.kit.outlines.polygon import edges, without_straight_points
from booklet.kit.words import Text, area_text, listing, phrase, plural_phrase, with_unit
from booklet.plan import SizePlan

MOST_SIDES = 3  # lengths of sides that are told; of a patch with more, its width and height are


def template_lines(
    size: SizePlan, patches: Sequence[CutPatch], motif: bool, marks: int
) -> Iterator[Text]:
    """The lines of a template; `patches` are what is cut by it, one for each cloth, `motif` whether it is a
    window, `marks` how many marks its curves bear."""
    patch = patches[0]
    assert patch.outline is not None
    named = patch.title.startswith(patch.name)
    yield patch.title if named else phrase("{piece} {name}", piece=patch.name, name=patch.title)
    yield _finished(patch.outline.seam, patch.grain, size.pattern.units)
    for block in dict.fromkeys(block for entry in patches for block, _ in entry.per_block):
        title = size.pattern.block(block).title
        cloths = listing(_cloths(size, patches, block), "semicolons")
        yield phrase("for one “{block}”: {cloths}", block=title, cloths=cloths)
    if patch.is_applied:
        yield from _applied(patch)
    elif has_hand(patch.outline.seam):
        yield phrase("drawn as the right side of the cloth lies")
        yield phrase("to mark on the wrong side, turn the template over")
    if marks:
        yield plural_phrase(
            "the stroke at the curve is its middle mark",
            "the {n} strokes at the curves are marks to match",
            marks,
        )
    if motif:
        yield phrase("fussy cut: cut out the window along the dashed line")
        yield phrase("motif on the cross, outline on the solid line")
    title, version = size.size.title, size.pattern.version
    if patch.is_fused and version:
        yield phrase("no allowance; {size}, version {version}", size=title, version=version)
    elif patch.is_fused:
        yield phrase("no allowance; {size}", size=title)
    elif version:
        yield phrase("allowance included; {size}, version {version}", size=title, version=version)
    else:
        yield phrase("allowance included; {size}", size=title)


def _applied(patch: CutPatch) -> Iterator[Text]:
    """What is said of a shape that is laid on a block."""
    if patch.is_fused:
        yield phrase("printed reversed: trace it on the paper of the web")
        if patch.reversed:
            yield phrase("for reversed pieces turn the template over")
        return
    yield phrase("drawn as the right side of the cloth lies: mark it there")
    yield phrase("dashed line: turn the edge under")


def sheet_words(size: SizePlan) -> Text:
    """What a sheet of templates belongs to: pattern, size and, where it has one, version."""
    names = {"pattern": size.pattern.title, "size": size.size.title}
    if version := size.pattern.version:
        return phrase("{pattern}, {size}, version {version}", **names, version=version)
    return phrase("{pattern}, {size}", **names)


def _cloths(size: SizePlan, patches: Sequence[CutPatch], block: str) -> list[Text]:
    """How many of each cloth one block takes, and how many of them reversed."""
    tiling = next(plan.tiling for plan in size.blocks if plan.tiling.block == block)
    letter = patches[0].name
    over = Counter(p.fabric for p in tiling.laid if p.patch == letter and p.reversed)
    found: list[Text] = []
    counts = Counter[str]()  # of a print with an up a cloth has a line for each way the patch lies
    for entry in patches:
        counts[entry.fabric] += sum(n for name, n in entry.per_block if name == block)
    for fabric, count in counts.items():
        cloth, turned = size.fabric(fabric).name, min(over[fabric], count)
        if count and turned == count:
            found.append(phrase("{n} {cloth}, all reversed", n=count, cloth=cloth))
        elif count and turned:
            found.append(
                phrase("{n} {cloth}, {r} of them reversed", n=count, cloth=cloth, r=turned)
            )
        elif count:
            found.append(phrase("{n} {cloth}", n=count, cloth=cloth))
    return found


def _finished(outline: Outline, grain: float, units: UnitSystem) -> Text:
    """The finished size of a patch: of a rectangle both sides, else the lengths of its straight sides where
    they are few, else its width across its grain and its height along it, however it lies in the block."""
    if (box := as_rectangle(outline.points)) is not None and not outline.is_curved:
        return phrase("finished {size}", size=area_text(box, units))
    corners = without_straight_points(outline.points)
    ends = edges(corners)
    lengths = dict.fromkeys(with_unit(math.dist(a, b), units) for a, b in ends)
    if len(lengths) <= MOST_SIDES and not outline.is_curved:
        sides = listing(lengths)
        return phrase("finished sides {lengths}", lengths=sides)
    left, top, right, low = box_of([turn_point(point, -grain) for point in outline.points])
    whole = area_text((right - left, low - top), units)
    return phrase("finished {size} over all", size=whole)
