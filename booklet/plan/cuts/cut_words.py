"""Floor 9: how the cuts of a row of strips become patches, in a cutter's words.

Where it matters how each cut lies (prints with an up, shapes that differ from their mirror image), the words
count what really lies in the row; elsewhere they tell the method.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from itertools import pairwise

from booklet.crafts.method import ROUND, Family
from booklet.crafts.rotary.boxes import QUARTER_SQUARES
from booklet.crafts.rotary.marks import HAIR, CutBy
from booklet.crafts.rotary.wedges import Diagonal
from booklet.cutting.cutting_plan import CutPatch, Placed
from booklet.kit.measure import Length, angle_text
from booklet.kit.outlines.alike import same_corners
from booklet.kit.outlines.near import DRAWN, ONE_POINT
from booklet.kit.outlines.plane import Point, extent
from booklet.kit.outlines.polygon import at_origin, half_turned
from booklet.kit.words import Digits, Phrase, Text, phrase, plural_phrase
from booklet.pattern import Direction

_TURNING = phrase("Turn the template or ruler end for end from cut to cut.")
_FOLDED = phrase(
    "Fold the cloth selvedge to selvedge, right sides together: each cut gives a piece and a reversed one."
)
_NOT_FOLDED = phrase("Cut in one layer: on folded cloth the print would lie turned.")
_TRIMMED = phrase("Trim each with the template.")
_HALF_MARK = phrase(
    "Half way between two marks of the ruler: count the marks twice before you cut."
)
_FINE = phrase("Between the marks of the ruler: measure twice before you cut.")
_CAUTIONS: Mapping[CutBy, tuple[Phrase, ...]] = {CutBy.HALF: (_HALF_MARK,), CutBy.FINE: (_FINE,)}


def is_bound(patch: CutPatch, direction: Direction) -> bool:
    """Whether it matters how each cut of a patch lies on its cloth."""
    return direction is not Direction.ANY or patch.method.one_sided or patch.reversed > 0


def how_cut(
    patch: CutPatch, cuts: Sequence[Placed], direction: Direction, said: Callable[[Length], Text]
) -> tuple[Text, ...]:
    """How these cuts of a patch become pieces, sentence by sentence; no cuts: the method alone. `said` says
    a cutting figure."""
    found: list[Text] = []
    if is_drawn_round(patch):
        found.append(ROUND)
        if patch.method.family is Family.IN_A_ROW and direction is Direction.ONE_WAY:
            found += _in_a_row(cuts, direction)
        elif patch.method.family is Family.SLANTED and cuts and is_bound(patch, direction):
            found += _leaning(patch, cuts)
    elif patch.method.family is Family.AGAIN and cuts and is_bound(patch, direction):
        found += _cut_again(patch, cuts, direction)
    elif patch.method.family is Family.SLANTED:
        found += _at_an_angle(patch, cuts, direction, said)
    elif patch.method.family is Family.IN_A_ROW:
        found += _in_a_row(cuts, direction)
    elif (how := patch.method.told(len(cuts) or patch.cuts)) is not None:
        found.append(how)
        if patch.method.family is Family.FREE and direction is not Direction.ANY:
            found.append(phrase("Lay the template as drawn."))
    if patch.by is CutBy.TEMPLATE and patch.method.family is Family.AGAIN:
        found.append(_TRIMMED)
    found += cautions(patch)
    if patch.pairs:
        found.append(_FOLDED)
    elif patch.no_fold:
        found.append(_NOT_FOLDED)
    back = sum(len(cut.shapes) for cut in cuts if cut.reversed)
    if back:
        found.append(plural_phrase("{n} of them reversed.", "{n} of them reversed.", back))
    return tuple(found)


def cautions(patch: CutPatch) -> tuple[Phrase, ...]:
    """What to mind where a figure lies between two marks of the ruler."""
    return _CAUTIONS.get(patch.by, ())


def is_drawn_round(patch: CutPatch) -> bool:
    """Whether a template is drawn round on cloth that is larger, though the shape has a way of its own: the
    ruler does not show its size, or how high its strip is."""
    if patch.method.family is Family.IN_A_ROW:
        return float(patch.cut[0]) - patch.exact[0] > HAIR
    return by_shape(patch) and patch.method.family is not Family.FREE


def by_shape(patch: CutPatch) -> bool:
    """Whether a patch is cut by its template alone, so that no figure is named for it."""
    if patch.method.family is Family.FREE:
        return True
    has_figures = (Family.AGAIN, Family.IN_A_ROW)
    return patch.by is CutBy.TEMPLATE and patch.method.family not in has_figures


def size_of(patch: CutPatch, cuts: Sequence[Placed], direction: Direction) -> tuple[Length, Length]:
    """The figure to cut; of a print with an up as it lies: across the cloth, then along it."""
    if direction is Direction.ANY or not cuts:
        return patch.cut
    across, along = extent(cuts[0].outline)
    lies = abs(across - float(patch.cut[0])) + abs(along - float(patch.cut[1])) < DRAWN
    return patch.cut if lies else (patch.cut[1], patch.cut[0])


def _cut_again(patch: CutPatch, cuts: Sequence[Placed], direction: Direction) -> list[Text]:
    """The second cuts of squares and rectangles, so many on either diagonal, and what is of no use."""
    if patch.method == QUARTER_SQUARES:
        twice = plural_phrase(
            "Cut it twice from corner to corner.",
            "Cut each twice from corner to corner.",
            len(cuts),
        )
        return [twice, *_of_use(cuts, 4)]
    ways = Counter(_seen(cut, direction) for cut in cuts)
    rising, falling = ways[Diagonal.RISING], ways[Diagonal.FALLING]
    found = [_once(rising, falling, direction)]
    if rising == falling:
        found.append(
            phrase("Or two at a time, right sides together, from bottom left to top right.")
            if direction is not Direction.ONE_WAY
            else phrase(
                "Or two at a time, right sides together and tops together, from bottom left to top right."
            )
        )
    return [*found, *_of_use(cuts, 2)] if direction is not Direction.ANY else found


def _seen(cut: Placed, direction: Direction) -> Diagonal | None:
    """The way a cut is cut again as its cutter sees it: the print upright, else with a long side level."""
    across, along = extent(cut.outline)
    if direction is Direction.ANY and along > across:
        return cut.wedges[0].quarter_turned.diagonal
    return cut.diagonal


def _once(rising: int, falling: int, direction: Direction) -> Text:
    """So many cut on the one diagonal, so many on the other."""
    if direction is Direction.ANY:
        if rising and falling:
            return phrase(
                "Right side up, a long side toward you: cut {n} once from bottom left to top right, {m} from"
                " top left to bottom right.",
                n=rising,
                m=falling,
            )
        if rising:
            return plural_phrase(
                "Right side up, a long side toward you: cut it once from bottom left to top right.",
                "Right side up, a long side toward you: cut each once from bottom left to top right.",
                rising,
            )
        return plural_phrase(
            "Right side up, a long side toward you: cut it once from top left to bottom right.",
            "Right side up, a long side toward you: cut each once from top left to bottom right.",
            falling,
        )
    if rising and falling:
        return phrase(
            "Cut {n} once from bottom left to top right, {m} from top left to bottom right.",
            n=rising,
            m=falling,
        )
    if rising:
        return plural_phrase(
            "Cut it once from bottom left to top right.",
            "Cut each once from bottom left to top right.",
            rising,
        )
    return plural_phrase(
        "Cut it once from top left to bottom right.",
        "Cut each once from top left to bottom right.",
        falling,
    )


def _of_use(cuts: Sequence[Placed], most: int) -> list[Text]:
    """How many of the cuts give fewer triangles than they could, because the others lie turned or are
    not needed."""
    found: list[Text] = []
    for use, count in sorted(Counter(len(cut.wedges) for cut in cuts).items()):
        if use < most:
            found.append(_only(use, count, len(cuts)))
    return found


def _only(use: int, count: int, cuts: int) -> Text:
    """So many of the squares (or rectangles) give so few triangles."""
    if count == cuts == 1:
        return plural_phrase("Only {n} triangle is of use.", "Only {n} triangles are of use.", use)
    if count == cuts:
        return plural_phrase(
            "Of each only {n} triangle is of use.", "Of each only {n} triangles are of use.", use
        )
    if count == 1:
        return plural_phrase(
            "Of one of them only {n} triangle is of use.",
            "Of one of them only {n} triangles are of use.",
            use,
        )
    return plural_phrase(
        "{count} of them give only {n} triangle of use each.",
        "{count} of them give only {n} triangles of use each.",
        use,
        count=count,
    )


def _at_an_angle(
    patch: CutPatch, cuts: Sequence[Placed], direction: Direction, said: Callable[[Length], Text]
) -> list[Text]:
    """Cuts across a strip that slant, and to which side where that matters."""
    found: list[Text] = [
        phrase(
            "Cut across the strip at {angle} degrees, every {step}, measured square to the cut.",
            angle=Digits(angle_text(patch.angle or 90.0)),
            step=said(patch.cut[1]),
        )
    ]
    if patch.pairs or not cuts or not is_bound(patch, direction):
        return found
    return [*found, *_leaning(patch, cuts)]


def _leaning(patch: CutPatch, cuts: Sequence[Placed]) -> list[Text]:
    """To which side pieces lean that differ from their mirror image."""
    found: list[Text] = []
    if patch.pairs:
        return found
    leans = Counter(leans_right(cut.outline) for cut in cuts)
    if leans[True] and leans[False]:
        found.append(
            phrase(
                "Right side up, in one layer: let {n} lean to the right and {m} to the left, as drawn.",
                n=leans[True],
                m=leans[False],
            )
        )
    elif leans[True]:
        found.append(phrase("Right side up, in one layer: let all lean to the right, as drawn."))
    else:
        found.append(phrase("Right side up, in one layer: let all lean to the left, as drawn."))
    return found


def leans_right(points: Sequence[Point]) -> bool:
    """Whether the upper side of an outline lies farther right than its lower side."""
    upper, lower = _level_sides(points)
    return sum(upper) > sum(lower)


def _level_sides(points: Sequence[Point]) -> tuple[tuple[float, float], tuple[float, float]]:
    """The ends of the uppermost and of the lowest side (or corner), from left to right."""
    heights = [y for _, y in points]
    ends = []
    for edge in (min(heights), max(heights)):
        there = [x for x, y in points if abs(y - edge) < ONE_POINT]
        ends.append((min(there), max(there)))
    return ends[0], ends[1]


def _in_a_row(cuts: Sequence[Placed], direction: Direction) -> list[Text]:
    """Triangles and trapezoids side by side: whether the ruler is turned between them, or which way up
    they lie on a print that may not be turned."""
    if direction is not Direction.ONE_WAY:
        turned = not cuts or any(_is_half_turn(a, b) for a, b in pairwise(cuts))
        return [_TURNING] if turned else []
    wide = Counter(_is_wide_below(cut.outline) for cut in cuts)
    if wide[True] and wide[False]:
        return [
            phrase(
                "Lay {n} with the long side at the bottom and {m} with it at the top, as drawn.",
                n=wide[True],
                m=wide[False],
            )
        ]
    if wide[True]:
        return [phrase("Lay all with the long side at the bottom, as drawn.")]
    return [phrase("Lay all with the long side at the top, as drawn.")] if cuts else []


def _is_half_turn(one: Placed, other: Placed) -> bool:
    """Whether a cut lies like another one turned end for end, and not like it."""
    a, b, turned = (at_origin(p) for p in (one.outline, other.outline, half_turned(one.outline)))
    return same_corners(turned, b) and not same_corners(a, b)


def _is_wide_below(points: Sequence[Point]) -> bool:
    """Whether the lower of the level sides is the longer one."""
    (a, b), (c, d) = _level_sides(points)
    return d - c > b - a
