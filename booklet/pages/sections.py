"""Floor 11, sections: which pages an edition has, in the order a sewer needs them."""

from __future__ import annotations

from collections.abc import Iterable

from booklet.kit.records import Record
from booklet.kit.words import phrase
from booklet.pattern import AlternativeKind, Edition


class SectionKind(Record):
    """A kind of page: whether it is set once for each size, and whether it begins on a new page."""

    name: str
    sized: bool
    starts: bool
    listed: bool = True


KINDS = {
    kind.name: kind
    for kind in (
        SectionKind("cover", sized=False, starts=True, listed=False),
        SectionKind("sizes", sized=False, starts=False),
        SectionKind("materials", sized=False, starts=False),
        SectionKind("class", sized=False, starts=False),
        SectionKind("day", sized=True, starts=False),
        SectionKind("samples", sized=True, starts=False),
        SectionKind("kits", sized=True, starts=True),
        SectionKind("kit-list", sized=True, starts=False),
        SectionKind("kit-labels", sized=True, starts=True),
        SectionKind("parts", sized=True, starts=False),
        SectionKind("colourways", sized=True, starts=False),
        SectionKind("layouts", sized=True, starts=False),
        SectionKind("supplies", sized=False, starts=False),
        SectionKind("before", sized=False, starts=False),
        SectionKind("cutting", sized=True, starts=False),
        SectionKind("amounts", sized=True, starts=False),
        SectionKind("templates", sized=True, starts=False),
        SectionKind("marking", sized=True, starts=False),
        SectionKind("marking-quilt", sized=True, starts=False),
        SectionKind("route-sheet", sized=True, starts=True),
        SectionKind("pocket-card", sized=True, starts=False),
        SectionKind("step-cards", sized=True, starts=True),
        SectionKind("patch-labels", sized=True, starts=True),
        SectionKind("piecing", sized=True, starts=True),
        SectionKind("pressing", sized=True, starts=False),
        SectionKind("quilt", sized=True, starts=False),
        SectionKind("finishing", sized=True, starts=False),
        SectionKind("colouring", sized=True, starts=True),
        SectionKind("practice", sized=False, starts=True),
        SectionKind("chains", sized=True, starts=False),
        SectionKind("notes", sized=False, starts=True),
        SectionKind("glossary", sized=False, starts=False),
        SectionKind("imprint", sized=False, starts=False, listed=False),
        SectionKind("back-cover", sized=False, starts=True, listed=False),
        SectionKind("text", sized=False, starts=False),
    )
}
PAGE_TITLES = {
    "sizes": phrase("What you will make", context="page"),
    "materials": phrase("Materials", context="page"),
    "class": phrase("The class", context="page"),
    "day": phrase("The day", context="page"),
    "samples": phrase("Samples to show", context="page"),
    "kits": phrase("Kits", context="page"),
    "kit-list": phrase("What goes into each kit", context="page"),
    "kit-labels": phrase("Labels for the bags", context="page"),
    "parts": phrase("The parts", context="page"),
    "colourways": phrase("Colorways", context="page"),
    "layouts": phrase("Layouts", context="page"),
    "supplies": phrase("Bring to class", context="page"),
    "before": phrase("Before you start", context="page"),
    "cutting": phrase("Cutting", context="page"),
    "amounts": phrase("How the amounts were worked out", context="page"),
    "templates": phrase("Templates", context="page"),
    "marking": phrase("Shapes to mark with", context="page"),
    "marking-quilt": phrase("Shapes for the whole quilt", context="page"),
    "route-sheet": phrase("Your own routes", context="page"),
    "pocket-card": phrase("Pocket cards", context="page"),
    "step-cards": phrase("Step cards", context="page"),
    "patch-labels": phrase("Labels for the stacks", context="page"),
    "piecing": phrase("Sewing the blocks", context="page"),
    "chains": phrase("Chains", context="page"),
    "pressing": phrase("Pressing", context="page"),
    "quilt": phrase("Joining the blocks", context="page"),
    "finishing": phrase("Finishing", context="page"),
    "colouring": phrase("Coloring page", context="page"),
    "glossary": phrase("Words used here", context="page"),
    "practice": phrase("Practice sheet", context="page"),
    "notes": phrase("Notes", context="page"),
    "imprint": phrase("Imprint", context="page"),
    "back-cover": phrase("Back cover", context="page"),
}
EDITION_TITLES = {
    "pattern": phrase("Pattern", context="edition"),
    "handout": phrase("Class handout", context="edition"),
    "teacher": phrase("For the teacher"),
}
BACK = "back-cover"
KIT_PAGES = ("kits", "kit-list", "kit-labels")
"""The pages that tell of all kits of a class together."""
ALTERNATIVE_PAGES = {
    "colourways": AlternativeKind.COLOURWAY,
    "layouts": AlternativeKind.LAYOUT,
}
"""The pages that show a pattern in other cloths or set otherwise: only where it is."""
WHOLE_PAGES = ("quilt", "finishing", "colouring", "marking-quilt")
"""The pages that tell of the quilt as a whole: of a pattern in parts they stand in the last."""
BLOCK_PAGES = ("templates", "marking", "piecing", "chains", "route-sheet", "pocket-card")
"""The pages that tell of the blocks that are sewn."""


class SectionEntry(Record):
    """One section of an edition: its kind, and the file where it is a text."""

    kind: SectionKind
    file: str | None = None


def entries(edition: Edition) -> tuple[SectionEntry, ...]:
    """The sections of an edition: those named, with the ones that follow from them.

    The table of sizes goes before the materials, and before the cutting, in an edition in parts, what is kept between
    them. A full pattern, which has a cover, also has the test of the allowance before the cutting, and its words and its sums
    before the sheets to copy and write on, which begin a page each. A page named by the author stays where it is named, but for
    the back cover, which is the last.
    """
    named = [page.name for page in edition.pages]
    earlier = {**_EARLIER, **(_EARLIER_IN_FULL if "cover" in named else {})}
    order: list[str] = []
    for name in named:
        parts = ("parts",) if edition.part and name == "cutting" else ()
        early = (*parts, *earlier.get(name, ()))
        order += [page for page in early if page not in (*named, *order)]
        order.append(name)
    if "cover" in named:
        late = [name for name in ("glossary", "amounts") if name not in order]
        last = len(order)
        while last and order[last - 1] in (*_SHEETS, BACK):
            last -= 1
        order[last:last] = [name for name in late if _NEEDS[name] & set(named)]
    back = [name for name in order if name == BACK]
    return tuple(_entry(name) for name in _single([n for n in order if n != BACK] + back))


_EARLIER = {"materials": ("sizes",)}
_EARLIER_IN_FULL = {"cutting": ("before",)}
_SHEETS = ("colouring", "practice", "notes", "route-sheet", "pocket-card")
_NEEDS = {"amounts": {"cutting"}, "glossary": {"piecing"}}


def _single(names: Iterable[str]) -> list[str]:
    """The names without repeats."""
    return list(dict.fromkeys(names))


def _entry(name: str) -> SectionEntry:
    """The entry of a page by name, or of a text file."""
    if name.endswith(".md"):
        return SectionEntry(KINDS["text"], name)
    return SectionEntry(KINDS[name])
