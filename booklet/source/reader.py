"""Floor 2: from a pattern folder to a `Pattern`, with every fault of the writing in one run."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from contextlib import closing
from pathlib import Path
from types import MappingProxyType

from booklet.kit import trade
from booklet.kit.diagnostic import Diagnostic, Outcome, Span
from booklet.kit.measure import Length
from booklet.kit.records import replace
from booklet.pattern import (
    SINGLE_KINDS,
    Address,
    AlternativeKind,
    Block,
    Fabric,
    Pattern,
    Size,
    Voice,
)
from booklet.source.blocks.applied import Drawings
from booklet.source.blocks.block_keys import read_blocks
from booklet.source.blocks.shapes import read_shapes
from booklet.source.editions.alternatives import own_picture_of, read_alternatives, with_both
from booklet.source.editions.edition_keys import WELCOME, read_booklet, refuse_same_files
from booklet.source.editions.languages import has_text, in_files, languages_lacking, read_texts
from booklet.source.faults import Faults
from booklet.source.files.folder import SOURCE, Folder
from booklet.source.files.own_pages import left_out, own_pages
from booklet.source.files.text_pictures import pictures_of_texts
from booklet.source.pattern_keys import (
    ADDRESS,
    ALLOWANCE,
    BLOCKS,
    BOOKLET,
    COLOURWAYS,
    CUTTING,
    DATE,
    DESIGNER,
    FABRICS,
    LANGUAGE,
    LAYOUTS,
    PATCHES,
    PATTERN,
    QUILT,
    SEWING,
    SIZES,
    SUMMARY,
    TITLE,
    UNITS,
    VERSION,
)
from booklet.source.sizes.fabrics import read_fabrics, stand_in
from booklet.source.sizes.mixes import Mixes, dealt, is_without_mixes, read_mixes
from booklet.source.sizes.size_keys import Common, read_sizes
from booklet.source.tree.node import Map
from booklet.source.tree.syntax import read_tree
from booklet.source.values.fields import Fields
from booklet.source.values.kinds import Reading, wrong_kind
from booklet.source.values.names import names_in
from booklet.source.values.own_pictures import TEXT_BOX
from booklet.source.values.units_of_length import INCH
from booklet.source.values.wide import warn_if_wide


def read_folder(
    folder: Path,
    trust_pages: bool = False,
    given: bytes | None = None,
    again: bool = False,
    together: Sequence[str] = (),
) -> Outcome[Pattern]:
    """The pattern written in a folder's `pattern.yaml`, with its texts and pictures; page templates and
    a style sheet beside it, which are code, only with `trust_pages`. `given`, if not None, is the source
    that is read in place of that file. Where the source is read `again`, after an edit, only what was edited is parsed.
    `together` names a colourway with a layout that are taken together, beside those of its editions.

    A value may come with errors: then faulty parts are left out of it, and a fabric that does not
    exist is a plain grey cloth. No value if there is nothing to read.
    """
    faults = Faults()
    with closing(Folder(folder, faults, given)) as files:
        return _read(files, faults, trust_pages, again, together)


def source_files(folder: Path, trust_pages: bool) -> dict[str, bytes]:
    """The files of a folder that make its pattern, by name: those that are read, and no other that lies there."""
    faults = Faults()
    with closing(Folder(folder, faults)) as files:
        _read(files, faults, trust_pages, False)
        return dict(files.seen)


def _read(
    files: Folder, faults: Faults, trust_pages: bool, again: bool, together: Sequence[str] = ()
) -> Outcome[Pattern]:
    """The pattern of a folder that is open."""
    start = Span.whole(SOURCE)
    text = files.text(SOURCE, start)
    tree = read_tree(text, SOURCE, faults, again) if text is not None else None
    if tree is None:
        return Outcome(None, faults.all())
    if not isinstance(tree, Map):
        wrong_kind(tree, "the pattern", "keys, beginning with `title:`", Reading(faults=faults))
        return Outcome(None, faults.all())
    lacks: list[Diagnostic] = []
    pattern = _pattern(tree, files, faults, lacks, together)
    if trust_pages:
        templates, style = own_pages(files)
        pattern = replace(pattern, templates=MappingProxyType(templates), style=style)
    warnings = () if trust_pages else left_out(files)
    pattern = replace(pattern, complete=not faults.noted)
    return Outcome(pattern, (*faults.all(), *warnings, *lacks))


def _pattern(
    tree: Map, files: Folder, faults: Faults, lacks: list[Diagnostic], together: Sequence[str]
) -> Pattern:
    """The pattern of a tree: the parts in the order in which they name one another. What is there in some languages
    only goes to `lacks`."""
    start = Span.whole(SOURCE)
    fields = Fields(tree, PATTERN, "the pattern", start, Reading(faults=faults))
    printed = fields.get(UNITS) or INCH
    units = printed.first
    own = Voice(
        fields.get(LANGUAGE) or "en",
        units,
        printed.both,
        fields.get(ADDRESS) or Address.FORMAL,
    )
    named = {
        "fabric": names_in(fields.get(FABRICS)),
        "patch": names_in(fields.get(PATCHES)),
        "block": names_in(fields.get(BLOCKS)),
        "size": names_in(fields.get(SIZES)),
        "colourway": names_in(fields.get(COLOURWAYS)),
        "layout": names_in(fields.get(LAYOUTS)),
        "key": PATTERN.names(),
    }
    reading = Reading(
        faults=faults,
        units=units,
        bare="in" if units == "inch" else "cm",
        names=named,
        language=own.language,
    )
    fields.reading = reading
    in_units = replace(reading, bare="u")
    shapes = read_shapes(fields.get(PATCHES), in_units)
    drawings = Drawings(files, _colours(fields.get(FABRICS), reading))
    blocks = read_blocks(fields.get(BLOCKS), shapes, drawings, in_units)
    mixes = read_mixes(fields.get(FABRICS), reading)
    blocks = tuple(dealt(block, mixes) for block in blocks)
    common = Common(
        fabrics=fields.get(FABRICS),
        sewing=fields.get(SEWING),
        quilt=fields.get(QUILT),
        quilt_at=fields.key_span(QUILT),
        sewing_at=fields.key_span(SEWING),
        cutting=fields.get(CUTTING),
        cutting_at=fields.key_span(CUTTING),
    )
    sizes = read_sizes(fields.get(SIZES), common, reading)
    written = {
        AlternativeKind.COLOURWAY: fields.get(COLOURWAYS),
        AlternativeKind.LAYOUT: fields.get(LAYOUTS),
    }
    alternatives = read_alternatives(
        written,
        fields.get(SIZES),
        common,
        lambda size: _sound(size, blocks, mixes, reading),
        reading,
    )
    without = {kind.value + "s" for kind in SINGLE_KINDS if written[kind] is None}
    without |= set() if has_text(WELCOME, files) else {WELCOME}
    booklet = read_booklet(fields.get(BOOKLET), fields.key_span(BOOKLET), reading, without, own)
    asked = (*(edition.alternative for edition in booklet.editions), *together)
    alternatives = with_both(alternatives, asked, len(sizes), reading)
    refuse_same_files(booklet, tuple(size.id for size in sizes), alternatives, reading)
    texts = read_texts(booklet, own.language, files)
    shown = pictures_of_texts(texts, files)
    if booklet.cover.picture is None and (shown_on := own_picture_of(alternatives)) is not None:
        booklet = replace(booklet, cover=replace(booklet.cover, picture=shown_on))
    pattern = Pattern(
        title=fields.get(TITLE) or "",
        designer=fields.get(DESIGNER) or "",
        version=fields.get(VERSION) or "",
        date=fields.get(DATE),
        language=own.language,
        both_units=own.both,
        address=own.address,
        units=units,
        allowance=fields.get(ALLOWANCE) or trade.ALLOWANCE.said_in(reading.units),
        summary=fields.get(SUMMARY) or "",
        sizes=tuple(_sound(size, blocks, mixes, reading) for size in sizes),
        shapes=tuple(shapes.values()),
        blocks=blocks,
        booklet=in_files(booklet, own.language, texts),
        span=fields.span(TITLE),
        texts=MappingProxyType(texts),
        pictures=MappingProxyType(dict.fromkeys(shown, b"") | _pictures(shown, reading, files)),
        alternatives=alternatives,
    )
    fonts = {name: files.font(name, span) for name, span in sorted(reading.fonts.items())}
    sound = {name: font for name, font in fonts.items() if font is not None}
    warn_if_wide(ALLOWANCE, trade.ALLOWANCE, fields, reading)
    pattern = replace(pattern, fonts=MappingProxyType(sound))
    lacks += languages_lacking(booklet, own, reading, texts, files)  # all words are read by now
    lacks += reading.doubts
    return pattern


def _colours(node: Map | None, reading: Reading) -> dict[str, str]:
    """The colour of each fabric as the pattern has it; its faults are told where sizes are read."""
    quiet = replace(reading, faults=Faults(), unit=Length.of(1), pictures={})
    return {name: fabric.colour for name, fabric in read_fabrics(node, quiet).items()}


def _without_lost_blocks(size: Size, blocks: tuple[Block, ...]) -> Size:
    """The size without its quilt if that is set with a block that had to be left out."""
    sound = {block.id for block in blocks}
    if size.quilt and any(s.block not in sound for row in size.quilt.arrange for s in row):
        return replace(size, quilt=None)
    return size


def _sound(size: Size, blocks: tuple[Block, ...], mixes: Mixes, reading: Reading) -> Size:
    """The size with all that later floors rely on: blocks that are there, and real cloths only."""
    whole = _with_stand_ins(_without_lost_blocks(size, blocks), reading)
    fabrics = {name: fabric for name, fabric in whole.fabrics.items() if name not in mixes}
    quilt = whole.quilt
    if quilt and not is_without_mixes(quilt, mixes, reading.faults):
        quilt = None
    return replace(whole, fabrics=MappingProxyType(fabrics), quilt=quilt)


def _with_stand_ins(size: Size, reading: Reading) -> Size:
    """The size with a plain cloth for every fabric that was named but does not exist."""
    fabrics: dict[str, Fabric] = dict(size.fabrics)
    missing = {*reading.stand_ins, *reading.names["fabric"]} - set(fabrics)
    for name in sorted(missing):
        fabrics[name] = stand_in(name, size.span, reading)
    return replace(size, fabrics=MappingProxyType(fabrics))


def _pictures(in_texts: Mapping[str, Span], reading: Reading, files: Folder) -> dict[str, bytes]:
    """The swatches of all fabrics, the pictures of all texts and those shown as they are, by their path in the folder;
    each as large as its largest place. What is laid as cloth cannot be a drawing."""
    for name, span in in_texts.items():
        reading.show(name, span, TEXT_BOX)
    for name, span in reading.pictures.items():
        reading.show(name, span, TEXT_BOX)
    read = {
        name: files.picture(name, span, box, drawn=name not in reading.pictures)
        for name, (span, box) in sorted(reading.shown.items())
    }
    return {name: data for name, data in read.items() if data is not None}
