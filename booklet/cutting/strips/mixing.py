"""Floor 7: how little cloth strips can take. Strips in parts: the linear programme whose prices prove a length.

After Gilmore and Gomory (1961, 1965): a linear programme mixes the ways to fill a strip found so far; at its prices
a knapsack finds for every height the filling that is worth most, and those worth more than they cost come in, until
there are none.
"""

from __future__ import annotations

import math

from booklet.cutting.strips.items import Items, ItemShare, Plan, Remnants, StripFill
from booklet.cutting.strips.pricing import Knapsack
from booklet.kit.outlines.near import WHOLE
from booklet.kit.records import Record
from booklet.kit.solver import INFINITY, Linear, Variable

ROUNDS = 300
PER_ROUND = 12  # fillings that come in at a time, of each cloth


class Mixture(Record, kw_only=True):
    """What strips in parts cost, in steps, and why no less: what each piece is worth (`prices`) and what a step of
    each remnant costs (`rents`), by which no filling is worth more than it costs. `fills` are those found, and `whole`
    of those in the mixture so many strips as are whole in it."""

    cost: float
    prices: tuple[float, ...]
    rents: tuple[float, ...]
    fills: Plan
    whole: Plan = ()

    def beyond(self, fill: StripFill) -> float:
        """How much more a filling costs than it is worth: a plan that holds it is longer than the mixture by so much."""
        rate = self.rents[fill.cloth - 1] if fill.cloth else 1.0
        return rate * fill.height - self.worth(fill)

    def worth(self, fill: StripFill) -> float:
        """What all pieces of a filling are worth."""
        return sum(share.count * self.prices[share.item] for share in fill.shares)


def mixed(items: Items, width: int, remnants: Remnants, plan: Plan) -> Mixture:
    """The cheapest mixture of strips, found from the fillings of a plan."""
    mixer = _Mixer(items, width, remnants)
    mixer.add([*plan, *_alone(items)])
    for _ in range(ROUNDS):
        mixture = mixer.mixture()
        if not mixer.add(mixer.paying(mixture)):
            return mixture
    # not at an end: worth nothing, nothing is worth more than it costs, and no length is proven
    return Mixture(
        cost=0.0,
        prices=(0.0,) * len(items),
        rents=(0.0,) * len(remnants),
        fills=tuple(mixer.fills),
    )


def whole_steps(cost: float) -> int:
    """A least cost in whole steps, as every height is; float noise of a millionth does not count."""
    return math.ceil(cost - WHOLE)


def _alone(items: Items) -> list[StripFill]:
    """A strip full of each item in each way: prices are near the truth from the beginning."""
    return [
        StripFill(variant.height, (ItemShare(index, number, min(variant.most, item.demand)),))
        for index, item in enumerate(items)
        for number, variant in enumerate(item.variants)
        if variant.most
    ]


class _Mixer:
    """The fillings found so far, in the order found, and the programme that mixes them."""

    def __init__(self, items: Items, width: int, remnants: Remnants) -> None:
        self.items = items
        self.demand = [item.demand for item in items]
        ends = enumerate(remnants, start=1)
        self.cloths = [
            Knapsack(items, width),
            *(Knapsack(items, r.width, r.height, n) for n, r in ends),
        ]
        demands = [(float(count), INFINITY) for count in self.demand]
        self._linear = Linear(
            [*demands, *((-INFINITY, float(r.height * r.count)) for r in remnants)]
        )
        self.fills: dict[StripFill, None] = {}

    def add(self, fills: list[StripFill]) -> bool:
        """Whether any of the fillings is new."""
        fresh = [fill for fill in dict.fromkeys(fills) if fill not in self.fills]
        for fill in fresh:
            cost = 0.0 if fill.cloth else float(fill.height)
            self._linear.add(Variable(cost), entries(fill, len(self.items)))
        self.fills.update(dict.fromkeys(fresh))
        return bool(fresh)

    def mixture(self) -> Mixture:
        """The cheapest mixture of the fillings found so far."""
        answer = self._linear.solve()
        if answer is None:
            raise RuntimeError("strips of one item each always make up the demand")
        count = len(self.items)
        prices = tuple(max(price, 0.0) for price in answer.prices[:count])
        rents = tuple(max(-price, 0.0) for price in answer.prices[count:])
        whole = (
            fill
            for fill, value in zip(self.fills, answer.values, strict=True)
            for _ in range(math.floor(value + WHOLE))
        )
        return Mixture(
            cost=answer.cost,
            prices=prices,
            rents=rents,
            fills=tuple(self.fills),
            whole=tuple(whole),
        )

    def paying(self, mixture: Mixture) -> list[StripFill]:
        """The fillings worth more than they cost, the best for their height first, a few of each cloth."""
        found: list[StripFill] = []
        for cloth in self.cloths:
            best = [p.fill for p in cloth.best(mixture.prices, self.demand)]
            gains = [(mixture.beyond(fill) / fill.height, fill) for fill in best]
            found += [
                fill for lost, fill in sorted(gains)[:PER_ROUND] if lost * fill.height < -WHOLE
            ]
        return found


def entries(fill: StripFill, items: int) -> list[tuple[int, float]]:
    """What a filling adds to the rows: so many of each item, and of a remnant the length it takes."""
    counts: dict[int, float] = {}
    for share in fill.shares:
        counts[share.item] = counts.get(share.item, 0.0) + share.count
    if fill.cloth:
        counts[items + fill.cloth - 1] = float(fill.height)
    return sorted(counts.items())
