"""Unbroken lines through a drawing: drawn again and again, by lot, until as few are found as there must be."""

import math
import random

from booklet.sewing.routes.trails import components, draw, fewest

TRIES = 60


def trails(edges, limit=math.inf, seed=0):
    """Trails that use every edge once, none longer than `limit` unless it is a single edge.

    As few as can be found; the same edges give the same trails.
    """
    return tuple(trail for part in components(edges) for trail in _best(part, limit, seed))


def _best(part, limit, seed):
    """The fewest trails found for one connected part."""
    bound = fewest(part, limit)
    chance = random.Random(seed)
    best = draw(part, limit, random.Random(seed) if seed else None)
    for _ in range(TRIES):
        if len(best) <= bound:
            break
        again = draw(part, limit, chance)
        best = min(best, again, key=len)
    return best
