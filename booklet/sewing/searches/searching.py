"""Floor 4, the searches: a block cut along its straight lines, and every kernel that is left solved."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice

from booklet.kit.outlines.near import WHOLE
from booklet.kit.records import Mutable, field
from booklet.sewing.mosaic.likeness import Likeness, Sign
from booklet.sewing.mosaic.mosaic import Faces, Mosaic, first_face, moved
from booklet.sewing.mosaic.parallel_lines import largest, largest_first, merit, parts_along
from booklet.sewing.mosaic.straight_lines import StraightLine, halving_lines, through_lines
from booklet.sewing.mosaic.trees import Sums, Tree, joined, sums
from booklet.sewing.searches.effort import Effort
from booklet.sewing.searches.every_order import cheapest
from booklet.sewing.searches.joined_rows import with_rows
from booklet.sewing.searches.parting_paths import parting_paths
from booklet.sewing.searches.programme import programmed
from booklet.sewing.searches.rows import in_rows
from booklet.sewing.searches.sectors import round_the_middle, sectors
from booklet.sewing.searches.upward import grown

MOST_EXACT = 16
MOST_TRIED = 40  # pieces of a region for which many ways are tried
MOST_COMPARED = 1000  # pieces of a region above which straight lines are told apart by halves alone
MOST_SECTORS = 36

Solved = tuple[Tree, float]  # an order and a bound on the cost of all


class Search(Mutable, kw_only=True):
    """What is known of the regions met so far, and of those alike to them."""

    mosaic: Mosaic
    likeness: Likeness
    shapes: Likeness
    effort: Effort
    solved: dict[tuple[Faces, bool], Solved] = field(default_factory=dict)
    alike: dict[tuple[Sign, bool], Faces] = field(default_factory=dict)
    methods: set[str] = field(default_factory=set)

    def solve(self, region: Faces, kernel: bool = False) -> Solved:
        """The order of a region and a bound: cut along straight lines while there are any, then each
        kernel. A region alike to one solved before gets the same order.

        `kernel` says that the region lies within one, whose bound is reckoned as a whole.
        """
        if region & (region - 1) == 0:
            return Tree(region), 0.0
        key = (region, kernel)
        if key not in self.solved:
            self.solved[key] = self._copied(region, kernel) or self._solve(region, kernel)
            self.alike.setdefault((self.shapes.sign(region), kernel), region)
        return self.solved[key]

    def _solve(self, region: Faces, kernel: bool) -> Solved:
        huge = region.bit_count() > MOST_COMPARED
        lines = (halving_lines if huge else through_lines)(self.mosaic, region)
        if lines:
            return self._cut(region, lines, kernel)
        return (self._inner(region), 0.0) if kernel else self._kernel(region)

    def _cut(self, region: Faces, lines: list[StraightLine], kernel: bool) -> Solved:
        """The order of a region that is cut along lines; where it is small, by trying all families."""
        if region.bit_count() > MOST_COMPARED:
            sides = {
                tuple(sorted((line.side, region & ~line.side), key=first_face)) for line in lines
            }
            return self._joined(min(sides, key=largest_first), kernel)
        ways = {parts_along(self.mosaic, region, lines, line) for line in lines}
        if region.bit_count() > MOST_TRIED:
            least = min(map(largest, ways))  # what counts first: the others need no look
            best = min(
                (parts for parts in ways if largest(parts) == least),
                key=lambda parts: merit(self.likeness, parts),
            )
            return self._joined(best, kernel)
        found = [
            self._joined(parts, kernel)
            for parts in sorted(ways, key=lambda parts: merit(self.likeness, parts))[:4]
        ]
        return min(found, key=lambda solved: self.effort.worth(solved[0]))

    def _joined(self, parts: tuple[Faces, ...], kernel: bool) -> Solved:
        made = [self.solve(part, kernel) for part in parts]
        return joined(*(tree for tree, _ in made)), sum(bound for _, bound in made)

    def _kernel(self, region: Faces) -> Solved:
        """The order of a kernel, as good as it can be found, with its bound."""
        best = self._inner(region)
        made = sums(self.mosaic, best)
        bound = self.mosaic.least_cost(region)
        if made.cost <= bound + WHOLE:
            self.methods.add("shortest paths")
        elif region.bit_count() <= MOST_EXACT:
            best = self._better(best, made, cheapest(self.mosaic, region))
            bound = sums(self.mosaic, best).cost
            self.methods.add("every order")
        else:
            found, bound = programmed(self.mosaic, region, made.cost)
            if found is not None:
                best = self._better(best, made, found)
            self.methods.add("programme")
        return best, bound

    def _better(self, tree: Tree, known: Sums, other: Tree) -> Tree:
        """The other order if it is cheaper, or as cheap with fewer rings."""
        made = sums(self.mosaic, other)
        if made.cost < known.cost - WHOLE:
            return other
        return other if made.cost <= known.cost + WHOLE and made.rings < known.rings else tree

    def _inner(self, region: Faces) -> Tree:
        """The best order of a region without a straight line among those that the heuristics make.

        Of a large region the first that costs no more than the bound is taken.
        """
        large = region.bit_count() > MOST_TRIED
        least = self.mosaic.least_cost(region)
        best: Tree | None = None
        for tree in self._candidates(region):
            rowed = with_rows(self.effort.joins, self.likeness, tree, tree)
            if best is None or self.effort.worth(rowed) < self.effort.worth(best):
                best = rowed
            if large and sums(self.mosaic, best).cost <= least + WHOLE:
                break
        return best or grown(self.mosaic, self.likeness, region)

    def _candidates(self, region: Faces) -> Iterator[Tree]:
        """Orders of a region, each made in a way of its own."""
        yield from in_rows(self.mosaic, self.likeness, region)
        if region.bit_count() <= MOST_TRIED:
            yield grown(self.mosaic, self.likeness, region)
        yield from self._in_sectors(region)
        halves = self._halves(region)
        if halves is not None:
            yield self._joined(halves, kernel=True)[0]

    def _in_sectors(self, region: Faces) -> Iterator[Tree]:
        """The orders of a region in alike sectors."""
        ways = sectors(self.mosaic, self.shapes, region)
        few = MOST_SECTORS if region.bit_count() <= MOST_TRIED else 1
        for parts, middle in islice(ways, few):
            sewn = [self.solve(part, kernel=True)[0] for part in parts]
            yield from round_the_middle(self.mosaic, sewn, middle)

    def _halves(self, region: Faces) -> tuple[Faces, Faces] | None:
        """The two sides of the best parting path: least needless cost, then alike halves, then equal
        ones, then few turns."""
        best: tuple[tuple[object, ...], Faces] | None = None
        for path in parting_paths(self.mosaic, region):
            rest = region & ~path.side
            a, b = path.side.bit_count(), rest.bit_count()
            if best is not None and (path.needless, abs(a - b)) > best[0][:2]:
                continue
            twins = a == b and self.shapes.sign(path.side) == self.shapes.sign(rest)
            worth = (path.needless, abs(a - b), not twins, path.turns, path.length, path.side)
            if best is None or worth < best[0]:
                best = worth, path.side
        if best is None:
            return None
        return tuple(sorted((best[1], region & ~best[1]), key=first_face))  # type: ignore[return-value]

    def _copied(self, region: Faces, kernel: bool) -> Solved | None:
        """The order of an alike region, for this one; None where none is known."""
        sign, faces = self.shapes.signed(region)
        other = self.alike.get((sign, kernel))
        if other is None:
            return None
        to = dict(zip(self.shapes.signed(other)[1], faces, strict=True))
        beside = self.mosaic.beside
        for f, g in to.items():
            if moved(beside[f] & other, to) != beside[g] & region:
                return None  # not alike after all

        def copy(unit: Tree) -> Tree:
            return Tree(moved(unit.faces, to), tuple(copy(part) for part in unit.parts))

        tree, bound = self.solved[other, kernel]
        return copy(tree), bound
