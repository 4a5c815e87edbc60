"""Floor 4, the planner: the whole order of a block. Straight lines first, then what is left over."""

from __future__ import annotations

from dataclasses import dataclass, field

from booklet.sewing.planner.costs import Costs
from booklet.sewing.planner.cuts import Line, first_face, pieces_of, through_lines
from booklet.sewing.planner.exact import cheapest
from booklet.sewing.planner.flat import with_rows
from booklet.sewing.planner.growing import grown
from booklet.sewing.planner.improving import improved
from booklet.sewing.planner.likeness import Likeness
from booklet.sewing.planner.mosaic import Faces, Mosaic, bits
from booklet.sewing.planner.partial import Partial, partial_seams
from booklet.sewing.planner.paths import parting_paths
from booklet.sewing.planner.rows import MOST_PARTS, in_rows
from booklet.sewing.planner.strands import programmed
from booklet.sewing.planner.trees import Sums, Tree, joined, sums

MOST_EXACT = 16
MOST_GROWN = 40
MOST_TRIED = 40
TINY = 1e-6


@dataclass(frozen=True, slots=True)
class Order:
    """An order of sewing: the tree of its joins and its sums, beside a proven bound.

    No order costs less than `bound`; with the usual costs that is a number of turns. `proven` means that this one costs no
    more. A bound found by the programme holds for orders that close no ring. `methods` are the ways
    by which its kernels (the regions without a straight line) were solved. `partials` are the partial
    seams taken in place of turns; the turns they save are not among `turns`.
    """

    tree: Tree
    cost: float
    turns: int
    joins_with_turn: int
    rings: int
    bound: float
    proven: bool
    methods: tuple[str, ...]
    partials: tuple[Partial, ...] = ()

    @property
    def gap(self) -> float:
        """How far the cost may be above the least, as a share of it; 0 where proven."""
        return 0.0 if self.proven else (self.cost - self.bound) / max(self.bound, 1.0)


def best_order(mosaic: Mosaic, likeness: Likeness, costs: Costs | None = None) -> Order:
    """The cheapest order found of a whole block, and among equals the easiest to follow."""
    search = _Search(mosaic, likeness)
    tree = search.solve(mosaic.whole)
    made = sums(mosaic, tree)
    partials = partial_seams(mosaic, tree, (costs or Costs()).partial)
    bound = sum(search.bounds)
    proven = made.cost <= bound + TINY
    return Order(
        tree,
        made.cost,
        made.turns - len(partials),
        made.set_ins,
        made.rings,
        made.cost if proven else bound,
        proven,
        tuple(sorted(search.methods)) or ("straight lines",),
        partials,
    )


@dataclass(slots=True)
class _Search:
    """What is known of the regions met so far; `bounds` has an entry for each kernel."""

    mosaic: Mosaic
    likeness: Likeness
    known: dict[object, tuple[Tree, tuple[int, ...]]] = field(default_factory=dict)
    solved: dict[tuple[Faces, bool], Tree] = field(default_factory=dict)
    bounds: list[float] = field(default_factory=list)
    methods: set[str] = field(default_factory=set)

    def solve(self, region: Faces, kernel: bool = False) -> Tree:
        """The order of a region: cut along straight lines while there are any, then each kernel.

        `kernel` says that the region lies within one, whose bound is reckoned as a whole.
        """
        if region & (region - 1) == 0:
            return Tree(region)
        if (region, kernel) not in self.solved:
            self.solved[region, kernel] = self._solve(region, kernel)
        return self.solved[region, kernel]

    def _solve(self, region: Faces, kernel: bool) -> Tree:
        lines = through_lines(self.mosaic, region)
        if lines:
            return self._cut(region, lines, kernel)
        return self._inner(region) if kernel else self._kernel(region)

    def _cut(self, region: Faces, lines: list[Line], kernel: bool) -> Tree:
        """The order of a region that is cut along lines; where it is small, by trying all families."""
        ways = sorted({self._parts(region, lines, line) for line in lines}, key=self._merit)
        if region.bit_count() > MOST_TRIED:
            return joined(*(self.solve(part, kernel) for part in ways[0]))
        trees = [joined(*(self.solve(part, kernel) for part in parts)) for parts in ways[:4]]
        return min(trees, key=self._worth)

    def _kernel(self, region: Faces) -> Tree:
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
            best = improved(self.mosaic, best)
            made = sums(self.mosaic, best)
            found, bound = programmed(self.mosaic, region, made.cost)
            if found is not None:
                best = self._better(best, made, found)
            self.methods.add("programme")
        self.bounds.append(bound)
        return best

    def _better(self, tree: Tree, known: Sums, other: Tree) -> Tree:
        """The other order if it is cheaper, or as cheap with fewer rings."""
        made = sums(self.mosaic, other)
        if made.cost < known.cost - TINY:
            return other
        return other if made.cost <= known.cost + TINY and made.rings < known.rings else tree

    def _inner(self, region: Faces) -> Tree:
        """The best order of a region without a straight line among those that the heuristics make.

        A region alike to one solved before gets the same order.
        """
        sign, faces = self.likeness.signed(region)
        if sign in self.known:
            tree, theirs = self.known[sign]
            copy = self._copied(tree, dict(zip(theirs, faces, strict=True)))
            if copy is not None:
                return copy
        rowed = (with_rows(self.mosaic, self.likeness, t) for t in self._candidates(region))
        best = min(rowed, key=self._worth)
        self.known.setdefault(sign, (best, faces))
        return best

    def _candidates(self, region: Faces) -> list[Tree]:
        found = list(in_rows(self.mosaic, self.likeness, region))
        if region.bit_count() <= MOST_GROWN:
            found.append(grown(self.mosaic, self.likeness, region))
            found.append(grown(self.mosaic, self.likeness, region, many=True))
        halves = self._halves(region)
        if halves is not None:
            found.append(joined(*(self.solve(part, kernel=True) for part in halves)))
        if not found:
            found.append(grown(self.mosaic, self.likeness, region))
        return found

    def _halves(self, region: Faces) -> tuple[Faces, Faces] | None:
        """The two sides of the best parting path: least needless cost, then alike halves, then equal
        ones, then few turns."""
        best: tuple[tuple[object, ...], Faces] | None = None
        for path in parting_paths(self.mosaic, region):
            rest = region & ~path.side
            a, b = path.side.bit_count(), rest.bit_count()
            if best is not None and (path.needless, abs(a - b)) > best[0][:2]:
                continue
            twins = a == b and self.likeness.sign(path.side) == self.likeness.sign(rest)
            worth = (path.needless, abs(a - b), not twins, path.turns, path.length, path.side)
            if best is None or worth < best[0]:
                best = worth, path.side
        if best is None:
            return None
        return tuple(sorted((best[1], region & ~best[1]), key=first_face))  # type: ignore[return-value]

    def _worth(self, tree: Tree) -> tuple[object, ...]:
        """Smaller is better: cost, rings, kinds of steps to be told and set-ins, levels."""
        made = sums(self.mosaic, tree)
        kinds = {self.likeness.sign(unit.faces) for unit in tree.units()}
        return (round(made.cost, 6), made.rings, len(kinds) + made.set_ins, tree.level)

    def _copied(self, tree: Tree, to: dict[int, int]) -> Tree | None:
        """The same order for an alike region; None if the regions are not alike after all."""
        for f, g in to.items():
            near = 0
            for n in bits(self.mosaic.beside[f]):
                if n in to:
                    near |= 1 << to[n]
            theirs = sum(1 << h for h in to.values())
            if self.mosaic.beside[g] & theirs != near:
                return None

        def copy(unit: Tree) -> Tree:
            faces = sum(1 << to[f] for f in bits(unit.faces))
            return Tree(faces, tuple(copy(part) for part in unit.parts))

        return copy(tree)

    def _parts(self, region: Faces, lines: list[Line], line: Line) -> tuple[Faces, ...]:
        """The parts of a region, side by side, when it is cut along all lines parallel to one."""
        parallel = [other for other in lines if self._is_parallel(other, line)]
        gone = [e for other in parallel for e in other.edges]
        parts = pieces_of(self.mosaic, region, gone)
        if len(parts) != len(parallel) + 1 or len(parts) > MOST_PARTS:
            return tuple(sorted((line.side, region & ~line.side), key=first_face))
        return self._in_row(parts)

    def _is_parallel(self, a: Line, b: Line) -> bool:
        """Whether two lines part the region side by side: neither crosses nor touches the other."""
        if a is b:
            return True
        mine = {p for e in a.edges for p in self.mosaic.ends(e)}
        return not any(p in mine for e in b.edges for p in self.mosaic.ends(e))

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
        largest = max(part.bit_count() for part in parts)
        return (largest, kinds - len(parts), -first_face(parts[-1]), parts)
