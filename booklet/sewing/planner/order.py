"""Floor 4, the planner: the whole order of a block. Straight lines first, then what is left over."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import islice

from booklet.sewing.planner.bounding import choice_of, programmed
from booklet.sewing.planner.costs import Costs
from booklet.sewing.planner.cuts import Line, first_face, halving_lines, pieces_of, through_lines
from booklet.sewing.planner.exact import cheapest
from booklet.sewing.planner.flat import with_rows
from booklet.sewing.planner.growing import grown
from booklet.sewing.planner.improving import improved
from booklet.sewing.planner.likeness import Likeness, Sign
from booklet.sewing.planner.mosaic import Faces, Mosaic, bits, moved
from booklet.sewing.planner.partial import Partial, partial_seams
from booklet.sewing.planner.paths import parting_paths
from booklet.sewing.planner.rows import MOST_PARTS, in_rows
from booklet.sewing.planner.sectors import round_the_middle, sectors
from booklet.sewing.planner.trees import Sums, Tree, joined, sums
from booklet.sewing.planner.turning import kind_of, retold

MOST_EXACT = 16
MOST_TRIED = 40  # pieces of a region for which many ways are tried
MOST_COMPARED = 1000  # pieces of a region above which straight lines are told apart by halves alone
MOST_SECTORS = 36
MOST_QUICK = 120  # pieces of a kernel that the programme solves without a better start
TINY = 1e-6


@dataclass(frozen=True, slots=True)
class Order:
    """An order of sewing a mosaic: the tree of its joins and its sums, beside a proven bound.

    No order costs less than `bound`; with the usual costs that is a number of turns. `proven` means that this one costs no
    more. A bound found by the programme holds for orders that close no ring. `methods` are the ways
    by which its kernels (the regions without a straight line) were solved. `partials` are the partial
    seams taken in place of turns; the turns they save are not among `turns`.
    """

    mosaic: Mosaic
    likeness: Likeness
    tree: Tree
    cost: float
    turns: int
    joins_with_turn: int
    rings: int
    bound: float
    proven: bool
    methods: tuple[str, ...]
    costs: Costs
    partials: tuple[Partial, ...] = ()

    @property
    def gap(self) -> float:
        """How far the cost may be above the least, as a share of it; 0 where proven."""
        return 0.0 if self.proven else (self.cost - self.bound) / max(self.bound, 1.0)


def best_order(
    mosaic: Mosaic, likeness: Likeness, shapes: Likeness | None = None, costs: Costs | None = None
) -> Order:
    """The cheapest order found of a whole block, and among equals the easiest to follow.

    `likeness` tells which units are alike, cloth and all; what has the same shape (`shapes`) is
    sewn in the same order.
    """
    costs = costs or Costs()
    search = _Search(mosaic, likeness, shapes or likeness)
    tree, bound = search.solve(mosaic.whole)
    if mosaic.whole.bit_count() <= MOST_TRIED:
        tree = min((tree, *search.told_otherwise()), key=search.worth)
        tree = retold(mosaic, likeness, tree, search.worth)
    made = sums(mosaic, tree)
    partials = partial_seams(mosaic, tree, costs.partial)
    closed = choice_of(mosaic, tree).items()
    spared = sum(mosaic.pair(point, *pair).spared for point, pair in closed)
    cost = made.cost + spared - sum(partial.spared for partial in partials)
    proven = cost <= bound + TINY
    return Order(
        mosaic,
        likeness,
        tree,
        cost,
        made.turns - len(partials),
        made.set_ins,
        made.rings,
        cost if proven else bound,
        proven,
        tuple(sorted(search.methods)) or ("straight lines",),
        costs,
        partials,
    )


Solved = tuple[Tree, float]  # an order and a bound on the cost of all


@dataclass(slots=True)
class _Search:
    """What is known of the regions met so far, and of those alike to them."""

    mosaic: Mosaic
    likeness: Likeness
    shapes: Likeness
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

    def _cut(self, region: Faces, lines: list[Line], kernel: bool) -> Solved:
        """The order of a region that is cut along lines; where it is small, by trying all families."""
        if region.bit_count() > MOST_COMPARED:
            sides = {
                tuple(sorted((line.side, region & ~line.side), key=first_face)) for line in lines
            }
            return self._joined(min(sides, key=_largest_first), kernel)
        ways = {self._parts(region, lines, line) for line in lines}
        if region.bit_count() > MOST_TRIED:
            least = min(map(_largest, ways))  # what counts first: the others need no look
            best = min((parts for parts in ways if _largest(parts) == least), key=self._merit)
            return self._joined(best, kernel)
        found = [self._joined(parts, kernel) for parts in sorted(ways, key=self._merit)[:4]]
        return min(found, key=lambda solved: self.worth(solved[0]))

    def _joined(self, parts: tuple[Faces, ...], kernel: bool) -> Solved:
        made = [self.solve(part, kernel) for part in parts]
        return joined(*(tree for tree, _ in made)), sum(bound for _, bound in made)

    def _kernel(self, region: Faces) -> Solved:
        """The order of a kernel, as good as it can be found, with its bound."""
        best = self._inner(region)
        made = sums(self.mosaic, best)
        bound = self.mosaic.least_cost(region)
        if made.cost <= bound + TINY:
            self.methods.add("shortest paths")
        elif region.bit_count() <= MOST_EXACT:
            best = self._better(best, made, cheapest(self.mosaic, region))
            bound = sums(self.mosaic, best).cost
            self.methods.add("every order")
        else:
            if region.bit_count() > MOST_QUICK:
                best = improved(self.mosaic, best)
                made = sums(self.mosaic, best)
            found, bound = programmed(self.mosaic, region, best)
            if found is not None:
                best = self._better(best, made, found)
            self.methods.add("programme")
        return best, bound

    def _better(self, tree: Tree, known: Sums, other: Tree) -> Tree:
        """The other order if it is cheaper, or as cheap with fewer rings."""
        made = sums(self.mosaic, other)
        if made.cost < known.cost - TINY:
            return other
        return other if made.cost <= known.cost + TINY and made.rings < known.rings else tree

    def _inner(self, region: Faces) -> Tree:
        """The best order of a region without a straight line among those that the heuristics make.

        Of a large region the first that costs no more than the bound is taken.
        """
        large = region.bit_count() > MOST_TRIED
        least = self.mosaic.least_cost(region)
        best: Tree | None = None
        for tree in self._candidates(region):
            rowed = with_rows(self.mosaic, self.likeness, tree)
            if best is None or self.worth(rowed) < self.worth(best):
                best = rowed
            if large and sums(self.mosaic, best).cost <= least + TINY:
                break
        return best or grown(self.mosaic, self.likeness, region)

    def told_otherwise(self) -> Iterator[Tree]:
        """Orders of a whole small block that do not begin with its straight lines: outer pieces may be
        sewn to alike units first."""
        for looks in (self.likeness, self.shapes):
            for many in (False, True):
                tree = grown(self.mosaic, looks, self.mosaic.whole, many=many)
                yield with_rows(self.mosaic, self.likeness, tree)

    def _candidates(self, region: Faces) -> Iterator[Tree]:
        """Orders of a region, each made in a way of its own."""
        yield from in_rows(self.mosaic, self.likeness, region)
        if region.bit_count() <= MOST_TRIED:
            yield grown(self.mosaic, self.likeness, region)
            yield grown(self.mosaic, self.likeness, region, many=True)
            yield grown(self.mosaic, self.shapes, region, many=True)
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

    def worth(self, tree: Tree) -> tuple[object, ...]:
        """Smaller is better: cost, rings, cards to be told and set-ins, shapes, levels."""
        made = sums(self.mosaic, tree)
        kinds = {kind_of(self.likeness, unit) for unit in tree.units()}
        shapes = {self.shapes.sign(unit.faces) for unit in tree.units()}
        effort = len(kinds) + made.set_ins + 3 * made.wraps
        return (round(made.cost, 6), made.rings, effort, len(shapes), tree.level)

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

    def _parts(self, region: Faces, lines: list[Line], line: Line) -> tuple[Faces, ...]:
        """The parts of a region, side by side, when it is cut along all lines parallel to one."""
        parallel = [line]
        for other in lines:
            if all(self._are_parallel(other, one) for one in parallel):
                parallel.append(other)
        gone = [e for other in parallel for e in other.edges]
        parts = pieces_of(self.mosaic, region, gone)
        if len(parts) != len(parallel) + 1 or len(parts) > MOST_PARTS:
            return tuple(sorted((line.side, region & ~line.side), key=first_face))
        return self._in_row(parts)

    def _are_parallel(self, a: Line, b: Line) -> bool:
        """Whether two lines run the same way side by side."""
        if a is b or len({*a.ends, *b.ends}) < 4:
            return False
        return self.mosaic.are_parallel(a.ends, b.ends)

    def _in_row(self, parts: list[Faces]) -> tuple[Faces, ...]:
        """The parts in an order in which each touches those before it."""
        near = {}
        for part in parts:
            beside = 0
            for f in bits(part):
                beside |= self.mosaic.beside[f]
            near[part] = [other for other in parts if other != part and beside & other]
        row = [min(parts, key=lambda part: (len(near[part]), first_face(part)))]
        while len(row) < len(parts):
            ahead = [p for p in parts if p not in row and any(o in row for o in near[p])]
            row.append(min(ahead, key=first_face))
        return tuple(row)

    def _merit(self, parts: tuple[Faces, ...]) -> tuple[object, ...]:
        """Smaller is better: parts that repeat, then parts of equal size, then level rows."""
        kinds = len({self.likeness.sign(part) for part in parts})
        return (_largest(parts), kinds - len(parts), -first_face(parts[-1]), parts)


def _largest(parts: tuple[Faces, ...]) -> int:
    """How many faces the largest part has."""
    return max(part.bit_count() for part in parts)


def _largest_first(parts: tuple[Faces, ...]) -> tuple[int, int]:
    """Smaller is better: the largest part, then level rows."""
    return _largest(parts), -first_face(parts[-1])
