"""Floor 11, the cutting list: one line for every row of strips in a cloth's picture, in cutting order.

A line says how many strips of which width to cut, what each row gives, and how that is cut from them.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from functools import partial

from markupsafe import Markup

from booklet.crafts.method import STRIP, Family, Method
from booklet.crafts.rotary.rough import ROUGH
from booklet.cutting.cutting_plan import (
    CutPatch,
    CuttingPlan,
    FabricPlan,
    JoinedPart,
    Placed,
    StripJoin,
)
from booklet.drawing.cloths.cutting_order import StripRow, strip_rows
from booklet.kit.measure import Length, Printed
from booklet.kit.outlines.plane import extent
from booklet.kit.records import Record, replace
from booklet.kit.words import Text, listing, phrase, with_unit
from booklet.pages.tables.view import beside_text, to_cut
from booklet.pages.texts.words import Words
from booklet.pattern import Direction, Pattern
from booklet.plan import SizePlan
from booklet.plan.cuts.cut_words import (
    by_shape,
    cautions,
    how_cut,
    is_bound,
    is_drawn_round,
    size_of,
)
from booklet.plan.cuts.joined import join_sum
from booklet.quilt.sized import BindingPlan

_ALONG_STRIP = (Family.SLANTED, Family.IN_A_ROW)


class Gives(Record):
    """What a row of strips gives: how many of which piece, the figure to cut, and how; `name` is the patch's
    letter, or the part's name."""

    pieces: Markup
    figure: Markup
    how: Markup
    name: str


class CutLine(Record, kw_only=True):
    """One row of strips: its number in the picture, how many strips, how wide, what they give."""

    number: int | None
    count: int | None
    width: Markup
    gives: tuple[Gives, ...]
    key: str = (
        ""  # what tells the row from others, in any units: how many strips of what exact width
    )


def cut_lines(plan: SizePlan, cloth: FabricPlan, words: Words) -> tuple[CutLine, ...]:
    """The lines of a cloth; what comes from no strip has a line of its own at the end."""
    direction = plan.size.fabrics[cloth.fabric].direction
    patches = _merged(p for p in plan.cutting.patches if p.fabric == cloth.fabric)
    row_words = _RowWords(
        plan=plan.cutting,
        direction=direction,
        pattern=plan.pattern,
        words=words,
        binding=plan.quilt.binding,
        kits=plan.size.kits,
    )
    said: set[Line] = set()
    lines = []
    for number, row in enumerate(strip_rows(cloth), 1):
        groups = [(patches[key], cuts) for key, cuts in _groups(row, direction) if key in patches]
        alike = _alike(groups, direction)
        gives = [
            row_words.gives(made[0][0], made[0][1], _line(made[0][0]) in said)
            if len(made) == 1
            else row_words.several(made)
            for made in alike
        ]
        said |= {_line(patch) for patch, _ in groups}
        width = _width(row.strip.width, plan.pattern, words)
        key = f"{row.count}x{float(row.strip.width):.4f}"
        lines.append(
            CutLine(number=number, count=row.count, width=width, gives=tuple(gives), key=key)
        )
    for line, patch in patches.items():
        if line not in said:
            lines.append(
                CutLine(
                    number=None,
                    count=None,
                    width=Markup(),
                    gives=(row_words.gives(patch, (), False),),
                )
            )
    return tuple(lines)


def _width(width: Length, pattern: Pattern, words: Words) -> Markup:
    """The width of a row of strips; in the other units below it where the pattern prints both."""
    own = words.markup(with_unit(width, pattern.units, Printed.CUT))
    if not pattern.both_units:
        return own
    beside = words.markup(beside_text(width, pattern.units))
    return Markup('{} <span class="beside">({})</span>').format(own, beside)


Line = tuple[str, Method]
"""Name and method of a line of the cutting table: of a print with an up one patch may be cut in several."""


def _line(patch: CutPatch) -> Line:
    return patch.name, patch.method


def _groups(row: StripRow, direction: Direction) -> list[tuple[Line, list[Placed]]]:
    """The cuts of a row of strips by their line; rectangles that may not be turned by how they lie too."""
    found: dict[tuple[Line, bool], list[Placed]] = {}
    for cut in row.cuts:
        across, along = extent(cut.outline)
        bound = direction is not Direction.ANY and cut.method.oblong
        stands = bound and across < along
        found.setdefault(((cut.name, cut.method), stands), []).append(cut)
    return [(line, cuts) for (line, _), cuts in found.items()]


def _alike(
    groups: Sequence[tuple[CutPatch, list[Placed]]], direction: Direction
) -> list[list[tuple[CutPatch, list[Placed]]]]:
    """The groups of a row with rough pieces that are cut alike put together: they are told apart by their paper."""
    found: dict[object, list[tuple[CutPatch, list[Placed]]]] = {}
    for n, (patch, cuts) in enumerate(groups):
        rough = patch.method == ROUGH and cuts
        key = size_of(patch, cuts, direction) if rough else n
        found.setdefault(key, []).append((patch, cuts))
    return list(found.values())


def _merged(patches: Iterable[CutPatch]) -> dict[Line, CutPatch]:
    """The patches of one cloth by line; those of a print with an up that lie in several ways as one."""
    found: dict[Line, CutPatch] = {}
    for patch in patches:
        before = found.get(_line(patch))
        found[_line(patch)] = patch if before is None else _both(before, patch)
    return found


def _both(one: CutPatch, other: CutPatch) -> CutPatch:
    return replace(
        one,
        pieces=one.pieces + other.pieces,
        reversed=one.reversed + other.reversed,
        cuts=one.cuts + other.cuts,
        pairs=max(one.pairs, other.pairs),
        no_fold=one.no_fold and other.no_fold,
    )


class _RowWords(Record, kw_only=True):
    """Tells what the cuts of one cloth give."""

    plan: CuttingPlan
    direction: Direction
    pattern: Pattern
    words: Words
    binding: BindingPlan | None
    kits: int

    def gives(self, patch: CutPatch, cuts: Sequence[Placed], again: bool) -> Gives:
        """What some cuts for a patch, a part, the panels of the back give; no cuts: all of them."""
        if made := self.plan.joined(patch.name):
            return self._joined(patch, made, cuts, again)
        if patch.name == "binding" and patch.method == STRIP:
            how = self._binding(patch, again)
            lengths = self._lengths(cuts) if self.kits > 1 else Markup()
            return Gives(self.words.markup(patch.title), lengths, how, patch.name)
        if patch.method == STRIP:
            figure = self._rectangles(patch.cut, len(cuts) or patch.cuts)
            how = self.words.markup(listing(cautions(patch), "sentences"))
            return Gives(self.words.markup(patch.title), figure, how, patch.name)
        pieces = sum(len(cut.shapes) for cut in cuts) or patch.pieces
        named = self.words.phrase("{name} × {n}", n=pieces, name=patch.title)
        if again and not is_bound(patch, self.direction):
            likewise = self.words.phrase("Likewise", context="cut as above")
            return Gives(named, Markup(), likewise, patch.name)
        said = how_cut(patch, cuts, self.direction, partial(to_cut, self.pattern))
        how = self.words.markup(listing(said, "sentences"))
        return Gives(named, self._figure(patch, cuts), how, patch.name)

    def several(self, alike: Sequence[tuple[CutPatch, Sequence[Placed]]]) -> Gives:
        """What rough pieces that are cut alike give: how many of which, and the one figure of all."""
        each = listing(
            [phrase("{name} × {n}", n=len(cuts), name=patch.name) for patch, cuts in alike],
            "commas",
        )
        patch, cuts = alike[0]
        figure = self._rectangles(
            size_of(patch, cuts, self.direction), sum(len(cuts) for _, cuts in alike)
        )
        said = how_cut(patch, cuts, self.direction, partial(to_cut, self.pattern))
        return Gives(
            self.words.markup(each),
            figure,
            self.words.markup(listing(said, "sentences")),
            patch.name,
        )

    def _binding(self, patch: CutPatch, again: bool) -> Markup:
        """How strips of the binding are joined, and to which length; nothing of one strip."""
        if patch.pieces < 2 or self.binding is None:
            return Markup()
        if again:
            return self.words.phrase("Likewise", context="cut as above")
        if self.kits > 1:
            return self.words.phrase(
                "{n} for each kit, joined there with diagonal seams: {length} altogether",
                n=patch.pieces // self.kits,
                length=to_cut(self.pattern, self.binding.length),
            )
        return self.words.phrase(
            "{n} joined with diagonal seams: {length} altogether",
            n=patch.pieces,
            length=to_cut(self.pattern, self.binding.length),
        )

    def _joined(
        self,
        patch: CutPatch,
        made: tuple[StripJoin, tuple[JoinedPart, ...]],
        cuts: Sequence[Placed],
        again: bool,
    ) -> Gives:
        """What a row of strips gives to a longer part, and, once, what that is joined from."""
        how: Text = phrase("Likewise", context="cut as above")
        if not again:
            join, parts = made
            sums = [
                phrase(
                    "{n} joined with straight seams: {sum}",
                    n=n,
                    sum=join_sum(join, part, self.pattern.units),
                )
                for part, n in Counter(parts).items()
            ]
            how = listing(sums, "sentences")
        say = self.words.markup
        return Gives(say(patch.title), self._lengths(cuts), say(how), patch.name)

    def _lengths(self, cuts: Sequence[Placed]) -> Markup:
        """The stretches that a row of strips gives to what is joined from them."""
        stretches = Counter(cut.stretch for cut in cuts if cut.stretch is not None)
        each = [
            phrase("{n} × {length}", n=count, length=to_cut(self.pattern, stretch))
            for stretch, count in stretches.items()
        ]
        return self.words.markup(listing(each))

    def _figure(self, patch: CutPatch, cuts: Sequence[Placed]) -> Markup:
        """The figure to cut from the strip, with its number where each gives several pieces."""
        if by_shape(patch) or is_drawn_round(patch):
            return self.words.phrase("Template {name}", name=patch.name)
        if patch.method.family in _ALONG_STRIP:
            return Markup()
        return self._rectangles(size_of(patch, cuts, self.direction), len(cuts) or patch.cuts)

    def _rectangles(self, cut: tuple[Length, Length], count: int) -> Markup:
        """Squares or rectangles with their number."""
        if cut[0] == cut[1]:
            width = to_cut(self.pattern, cut[0])
            return self.words.plural(
                "{n} square, {width}", "{n} squares, {width}", count, width=width
            )
        size = to_cut(self.pattern, *cut)
        return self.words.plural(
            "{n} rectangle, {size}", "{n} rectangles, {size}", count, size=size
        )


class PrintedSumLine(Record):
    """One line of a sum: words, figure, and whether it is the total."""

    words: Markup
    figure: Markup
    total: bool


def sum_lines(cloth: FabricPlan, words: Words) -> tuple[PrintedSumLine, ...]:
    """How the amount of a cloth came about, its words apart from its figures."""
    return tuple(
        PrintedSumLine(words.markup(line.words), words.markup(line.figure), line.role == "total")
        for line in cloth.sum
        if line.role != "sold"
    )
