"""Floor 11, source marks: what an element of a page tells of, for whoever looks at the page beside its source.

A booklet that is built has none: `unmarked` says nothing. The keys are those of the places in pictures
(`drawing/places.py`).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable

from markupsafe import Markup

from booklet.drawing.places import key
from booklet.drawing.scene import PlaceOutline

Marks = Callable[..., Markup]
"""Takes the kind and the names of a thing; the attribute of an element that tells of it."""


def unmarked(*parts: object) -> Markup:
    """Nothing: the page of a built booklet."""
    return Markup()


def marked(*parts: object) -> Markup:
    """The attribute that says what an element tells of."""
    return attribute((key(*parts),))


def attribute(keys: Iterable[str]) -> Markup:
    """The attribute with the keys of what is told of."""
    return Markup(' data-of="{}"').format(" ".join(keys))


def with_places(svg: Markup, places: Iterable[PlaceOutline]) -> Markup:
    """A picture with unseen outlines over it of what lies where; as it was without places."""
    paths = Markup("").join(
        Markup('<path d="{}"{}/>').format(place.path, attribute(place.of)) for place in places
    )
    if not paths:
        return svg
    end = svg.rindex("</svg>")
    return (
        svg[:end] + Markup('<g class="places" aria-hidden="true">{}</g>').format(paths) + svg[end:]
    )
