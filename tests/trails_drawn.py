"""Unbroken lines through a drawing, all of which is sewn in one step."""

import math

from booklet.sewing.routes.hand_seams import Work
from booklet.sewing.routes.linking import linked


def trails(edges, limit=math.inf):
    """Trails that use every edge once, none longer than `limit` unless it is a single edge, as few as are found."""
    step = {edge.id: 1 for edge in edges}
    return linked(Work(edges=edges, step=step, above={1: frozenset()}, limit=limit))
