"""Floor 11, shared values: what the templates of pages without a size may name."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from markupsafe import Markup

from booklet.kit.measure import Length, Printed, UnitSystem
from booklet.kit.trade import TEST_STRIP_LENGTH
from booklet.kit.words import Digits, Text, area_text, at_least, exactly, listing, phrase, with_unit
from booklet.pages.pictures.typesetting import heading
from booklet.pages.tables.methods import method_rows, method_words
from booklet.pages.tables.view import (
    allowance_test,
    material_rows,
    size_rows,
    skills,
    techniques,
    tools,
    words_used,
)
from booklet.pages.texts.templating import names_of
from booklet.pages.texts.values import date_text
from booklet.pages.views.page_values import DocumentValues
from booklet.pages.views.sized import SizedPages
from booklet.pattern import Fabric
from booklet.plan import SizePlan


def shared_values(
    first: SizedPages, sizes: tuple[SizePlan, ...], listed: tuple[SizePlan, ...], level: int
) -> dict[str, object]:
    """The values for the sizes of a document; its tables show all the sizes `listed`, and mark the
    one that is printed where it is only one. `first` lends what does not depend on the size."""
    pattern, words = first.plan.pattern, first.words
    units = pattern.units
    own = sizes[0] if len(sizes) == 1 and len(listed) > 1 else None
    strip, whole = allowance_test(pattern)
    head: Callable[[int, object], Markup] = lambda depth, text: heading(  # noqa: E731
        level + depth - 1, depth, text
    )
    batting = [area_text(s.quilt.batting, units) if s.quilt.batting else None for s in listed]
    cloths = [size.fabric(cloth.fabric) for size in sizes for cloth in size.cutting.fabrics]
    used = techniques(sizes)
    values = DocumentValues(
        head=head,
        first_of_page=True,
        title=pattern.title,
        designer=pattern.designer,
        summary=pattern.summary,
        version=pattern.version,
        date=date_text(pattern),
        in_parts=sizes[0].cutting.in_parts is not None,
        plans=listed,
        own=own,
        size_rows=size_rows(listed, own),
        method_rows=method_rows(listed, words),
        method_words=method_words(listed, words),
        material_rows=material_rows(listed, words, own),
        batting=batting if any(batting) else [],
        batting_extra=words.text(_batting_extra((own,) if own else listed)),
        cloth_widths=words.text(_widths(cloths, units)),
        washed=words.text(listing(_shrinking(cloths))),
        tools=tools(sizes, words, first.paper, is_cut=first.kit is not None),
        skills=skills(used, words),
        allowance=exactly(pattern.allowance, units),
        strip=strip,
        strip_length=with_unit(TEST_STRIP_LENGTH.said_in(units), units),
        whole=whole,
        machine="by_machine" in used,
        hand="by_hand" in used,
        set_ins="set_in" in used,
        stops="stops" in used,
        foundations_sewn="foundation" in used,
        setting=_setting(sizes),
        thread=with_unit(sizes[0].size.sewing.thread, units, Printed.ABOUT),
        glossary=words_used(used, words),
    )
    return first.context(level) | names_of(values)


def _widths(used: Iterable[Fabric], units: UnitSystem) -> Text:
    """The widths of the cloths that are bought by the length, narrowest first, each with its cloths where they differ; of
    those sold ready cut the table of materials says how large a piece is."""
    by_width: dict[Length, dict[str, None]] = {}
    for fabric in used:
        if fabric.piece is None:
            by_width.setdefault(fabric.width, {})[fabric.name] = None
    if len(by_width) < 2:
        return listing(at_least(width, units) for width in by_width)
    return listing(
        phrase("{width} ({cloths})", width=at_least(width, units), cloths=listing(names, "commas"))
        for width, names in sorted(by_width.items())
    )


def _shrinking(used: Iterable[Fabric]) -> tuple[str, ...]:
    """The names of the cloths whose amounts allow for shrinking: they are washed before they are cut."""
    return tuple(dict.fromkeys(fabric.name for fabric in used if fabric.shrinks))


def _batting_extra(sizes: Iterable[SizePlan]) -> Text:
    """How much larger the batting is on each side; where sizes differ, of one after the other."""
    layers = ((s.size.quilt.batting, s.pattern.units) for s in sizes if s.size.quilt is not None)
    said = (with_unit(layer.extra, units) for layer, units in layers if layer is not None)
    return listing(dict.fromkeys(said), "or")


def _setting(sizes: tuple[SizePlan, ...]) -> Text:
    """The one stitch length that serves all chains, or nothing where they differ."""
    found = {batch.setting_mm for s in sizes for b in s.blocks for batch in b.assembly.batches}
    found -= {None}
    return Digits(f"{found.pop():.1f}") if len(found) == 1 else ""
