"""Floor 2: `quilt`, read for one size: how the blocks are set, and what goes round and behind them."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

from booklet.kit import trade
from booklet.kit.bounds import MOST_BORDERS
from booklet.kit.diagnostic import Span
from booklet.kit.measure import ZERO, Length
from booklet.pattern import (
    Backing,
    Batting,
    Binding,
    Border,
    BorderCut,
    Centre,
    Corners,
    Envelope,
    ExtentPoint,
    Fold,
    JoinOrder,
    Quilt,
    Rim,
    RimPatches,
    RimWish,
    Sashing,
    SetKind,
    Sleeve,
)
from booklet.source.sizes.arranging import ARRANGE, read_arrangement
from booklet.source.tree.node import Map
from booklet.source.values.fields import Fields, Key, Table, open_fields
from booklet.source.values.groups import group, groups, none_or
from booklet.source.values.kinds import Reading, name_of, one_of, word, yes_no
from booklet.source.values.quantities import length, point

_FABRIC = name_of("fabric")

WIDTH = Key("width", length(), "The finished width.", required=True)
FABRIC = Key("fabric", _FABRIC, "The fabric.", required=True)
CORNERSTONES = Key(
    "cornerstones",
    none_or(_FABRIC),
    "The fabric of the squares where sashes cross; left out, the sashes run through.",
)
OUTSIDE = Key("outside", yes_no(), "Whether sashing goes round the outside as well.", default="no")
SASHING = Table("sashing", "Strips between the blocks.", (WIDTH, FABRIC, CORNERSTONES, OUTSIDE))

BORDER_CORNERS = Key(
    "corners", one_of(Corners), "How the corners are made; butted if left out.", default="butted"
)
SQUARE_FABRIC = Key("square fabric", _FABRIC, "The fabric of the corner squares.")
BORDER_WIDTH = Key(
    "width",
    length(),
    "The finished width, of its sides and of top and bottom, as far as these have none of their own.",
)
SIDES = Key(
    "sides",
    none_or(length(or_none=True)),
    "The finished width of its sides where it is another, or none: only top and bottom have the border.",
)
TOP_AND_BOTTOM = Key(
    "top and bottom",
    none_or(length(or_none=True)),
    "The finished width of top and bottom where it is another, or none: only the sides have the border.",
)
BORDER_CUT = Key(
    "cut",
    one_of(BorderCut),
    "Whether the sides are cut lengthwise (along the selvedge, without joins) or across the cloth; auto, or"
    " left out: whichever takes less cloth.",
    default="auto",
)
BORDER = Table(
    "border",
    "A border; the first listed is the innermost.",
    (BORDER_WIDTH, SIDES, TOP_AND_BOTTOM, FABRIC, BORDER_CORNERS, SQUARE_FABRIC, BORDER_CUT),
)

CUT_WIDTH = Key("width", length(), "The width the strips are cut; 2 1/2 in or 6.5 cm if left out.")
CUT = Key(
    "cut",
    word(("straight", "bias")),
    "Whether the strips are cut straight or on the bias.",
    default="straight",
)
FOLD = Key(
    "fold",
    one_of(Fold),
    "Whether the strips are folded in half (double), or lie single with one edge turned under; double if left out.",
    default="double",
)
BINDING = Table("binding", "The binding.", (CUT_WIDTH, FABRIC, CUT, FOLD))

EXTRA = Key(
    "extra",
    length("zero"),
    "How far it reaches beyond the top on each side; 4 in or 10 cm if left out.",
)
BACK_EXTRA = Key(
    "extra",
    length("zero"),
    "How far it reaches beyond the top on each side; 4 in or 10 cm if left out, and never less than the allowance of"
    " the top's edge.",
)
BACKING = Table("backing", "The back of the quilt.", (BACK_EXTRA, FABRIC))
BATTING = Table("batting", "The layer between top and back.", (EXTRA,))

TUBE = Key("width", length(), "The finished width of the tube; 4 in or 10 cm if left out.")
SLEEVE = Table("sleeve", "A hanging sleeve on the back.", (TUBE, FABRIC))

LAP = Key("lap", length(), "How far one half lies over the other; 4 in or 10 cm if left out.")
ENVELOPE = Table(
    "envelope",
    "A back in two hemmed halves that overlap, to close a cushion; its edge is bound, or without a binding sewn and turned.",
    (LAP, FABRIC),
)

ACROSS = Key(
    "across",
    point(),
    "The step from one block to the next in a row; in a half drop it goes down by half a block, `[8, 6]` for blocks of 8 x 12.",
    required=True,
)
DOWN = Key("down", point(), "The step from one row to the next.", required=True)
LATTICE = Table("lattice", "The steps of a lattice set.", (ACROSS, DOWN))

SET = Key(
    "set", one_of(SetKind), "How the blocks are set; straight if left out.", default="straight"
)
IN_LATTICE = Key("lattice", group("lattice"), "The steps of a lattice set.")
HAS_SASHING = Key("sashing", none_or(group("sashing")), "Strips between the blocks.")
BORDERS = Key(
    "borders",
    none_or(groups("border", "a list of borders", MOST_BORDERS)),
    "The borders, from the inside out.",
)
SETTING_FABRIC = Key(
    "setting fabric",
    none_or(_FABRIC),
    "The fabric of the side and corner triangles of a set on point.",
)
HAS_BINDING = Key("binding", none_or(group("binding")), "The binding.")
HAS_BACKING = Key("backing", none_or(group("backing")), "The back of the quilt.")
HAS_BATTING = Key("batting", none_or(group("batting")), "The layer between top and back.")
HAS_ENVELOPE = Key(
    "envelope", none_or(group("envelope")), "A back in two halves that close a cushion."
)
HAS_SLEEVE = Key("sleeve", none_or(group("sleeve")), "A hanging sleeve on the back.")
RIM = Key(
    "rim",
    one_of(Rim),
    "Whether the ragged rim of a lattice set is trimmed straight, or filled with part blocks: of further "
    "blocks only the patches that show; trimmed if left out.",
    default="trim",
)
RIM_PATCHES = Key(
    "rim patches",
    one_of(RimPatches),
    "How the patches of a filled rim are made: whole, and what hangs over is cut off after sewing, or cut to "
    "size, along the edge of the top with its allowance; whole if left out.",
    default="whole",
)
CENTRE = Key(
    "centre",
    one_of(Centre),
    "What lies in the middle of a lattice whose rim is filled: a block, the gap half way between two blocks, or a "
    "corner where three or more meet. Left out: whichever looks most alike on all sides and, of those, wastes least.",
)
JOIN = Key(
    "join",
    one_of(JoinOrder),
    "Whether the blocks of a lattice set are joined row by row, or ring by ring from the middle of the top; "
    "in rows if left out.",
    default="rows",
)
QUILT = Table(
    "quilt",
    "How blocks become a quilt.",
    (
        SET,
        ARRANGE,
        IN_LATTICE,
        HAS_SASHING,
        BORDERS,
        SETTING_FABRIC,
        HAS_BINDING,
        HAS_BACKING,
        HAS_BATTING,
        HAS_SLEEVE,
        HAS_ENVELOPE,
        RIM,
        RIM_PATCHES,
        CENTRE,
        JOIN,
    ),
)


def read_quilt(node: Map, where: Span, reading: Reading) -> Quilt | None:
    """The quilt of one size; None if its set or arrangement is faulty. A faulty part is left out."""
    fields = Fields(node, QUILT, "`quilt`", where, reading)
    kind = fields.get(SET) or SetKind.STRAIGHT
    arrange = read_arrangement(fields, reading)
    lattice = _lattice(fields)
    setting = fields.get(SETTING_FABRIC)
    if kind is SetKind.LATTICE and not fields.has(IN_LATTICE):
        fields.missing(IN_LATTICE, "which a lattice set needs")
    _unused_lattice(fields, node, kind)
    parts = (
        _sashing(fields),
        _borders(fields),
        _binding(fields),
        _backing(fields),
        _batting(fields),
    )
    sashing, borders, binding, backing, batting = parts
    sleeve, envelope, rim = _sleeve(fields), _envelope(fields), fields.get(RIM) or Rim.TRIM
    if sleeve and envelope:
        message = (
            "`quilt` has a `sleeve`, by which it hangs, and an `envelope`, which makes it a cushion"
        )
        hint = "write `sleeve: none` for a cushion, `envelope: none` for a quilt that hangs"
        reading.faults.add("conflicting-keys", message, fields.key_span(HAS_SLEEVE), hint)
    if arrange is None or (kind is SetKind.LATTICE and lattice is None):
        return None
    return Quilt(
        set=kind, arrange=arrange, span=where, lattice=lattice, sashing=sashing, borders=borders,
        setting_fabric=None if setting == "none" else setting, binding=binding, backing=backing, batting=batting,
        sleeve=sleeve, envelope=envelope, rim=rim, join=fields.get(JOIN) or JoinOrder.ROWS, rim_wish=_rim_wish(fields, rim),
    )  # fmt: skip


def _unused_lattice(fields: Fields, node: Map, kind: SetKind) -> None:
    """A fault for the steps of a lattice in a quilt that is set otherwise. Those written elsewhere than its set, as in the
    pattern where one size is set otherwise, wait for the others."""
    together = node.origin(IN_LATTICE.name) == node.origin(SET.name) or not fields.has(SET)
    if fields.has(IN_LATTICE) and kind is not SetKind.LATTICE and together:
        message = f"`quilt` has the steps of a `lattice`, but is set {kind.value}"
        hint = "write `set: lattice` beside it, or leave out `lattice`"
        fields.reading.faults.add("conflicting-keys", message, fields.span(IN_LATTICE), hint)


def _rim_wish(fields: Fields, rim: Rim) -> RimWish:
    """What is asked for the rim, with the places of the wishes that ask for more than what is usual."""
    patches, centre = fields.get(RIM_PATCHES) or RimPatches.WHOLE, fields.get(CENTRE)
    return RimWish(
        patches=patches,
        centre=centre,
        fill_span=fields.span(RIM) if rim is Rim.FILL else None,
        patches_span=fields.span(RIM_PATCHES) if patches is not RimPatches.WHOLE else None,
        centre_span=fields.span(CENTRE) if centre is not None else None,
    )


def _inner(fields: Fields, key: Key[Any], table: Table) -> Fields | None:
    """The group of a part of the quilt; None if it is not there, is `none`, or is faulty."""
    return fields.inner(key, table, f"`{key.name}`")


def _lattice(fields: Fields) -> tuple[ExtentPoint, ExtentPoint] | None:
    inner = _inner(fields, IN_LATTICE, LATTICE)
    across, down = (inner.get(ACROSS), inner.get(DOWN)) if inner else (None, None)
    return None if across is None or down is None else (across, down)


def _sashing(fields: Fields) -> Sashing | None:
    inner = _inner(fields, HAS_SASHING, SASHING)
    if inner is None:
        return None
    width, fabric, stones = inner.get(WIDTH), inner.get(FABRIC), inner.get(CORNERSTONES)
    outside = inner.get(OUTSIDE, False)
    if width is None or fabric is None:
        return None
    stones = None if stones == "none" else stones
    return Sashing(
        width=width, fabric=fabric, cornerstones=stones, outside=outside, span=inner.where
    )


def _borders(fields: Fields) -> tuple[Border, ...]:
    nodes = fields.get(BORDERS)
    if nodes is None or nodes == "none":
        return ()
    found: list[Border] = []
    for number, node in enumerate(nodes, start=1):
        inner = open_fields(node, BORDER, f"border {number}", node.span, fields.reading)
        border = _border(inner) if inner else None
        if border:
            found.append(border)
    return tuple(found)


def _border(inner: Fields) -> Border | None:
    sides, ends = _border_widths(inner)
    fabric, corners = inner.get(FABRIC), inner.get(BORDER_CORNERS) or Corners.BUTTED
    square = inner.get(SQUARE_FABRIC)
    if corners is Corners.SQUARES and not inner.has(SQUARE_FABRIC):
        inner.missing(SQUARE_FABRIC, "which its corner squares need")
        square = fabric
    if corners is not Corners.SQUARES and inner.has(SQUARE_FABRIC):
        message = f"{inner.what} has a `square fabric`, but its corners are {corners.value}"
        hint = "write `corners: squares`, or leave out `square fabric`"
        inner.reading.faults.add("conflicting-keys", message, inner.span(SQUARE_FABRIC), hint)
    if sides is None or ends is None or fabric is None:
        return None
    if not _has_corners(inner, corners, sides, ends):
        return None
    cut = inner.get(BORDER_CUT) or BorderCut.AUTO
    return Border(
        sides=sides, ends=ends, fabric=fabric, corners=corners, square_fabric=square, span=inner.where, cut=cut
    )  # fmt: skip


def _border_widths(inner: Fields) -> tuple[Length | None, Length | None]:
    """How wide the sides of a border are, and its top and bottom; nought where it has none there, None where that is
    not said, or faulty (the fault is noted)."""
    own = SIDES, TOP_AND_BOTTOM
    bare = [key for key in own if not inner.has(key)]
    width = None
    if len(bare) == 1 and not inner.has(BORDER_WIDTH):
        [key] = bare
        message = f"{inner.what} has no width for its {key.name}"
        hint = f"write `{key.name}: none` if it has none there, or its width, such as `{key.name}: 2 1/2 in`"
        inner.reading.faults.add("missing-key", message, inner.where, hint)
    elif bare:
        width = inner.need(BORDER_WIDTH, "which its sides, top and bottom need")
    elif inner.has(BORDER_WIDTH):
        message = f"{inner.what} has a `width` that none of its sides has: `sides` and `top and bottom` have their own"
        hint = "leave out `width`, or `sides`, or `top and bottom`"
        inner.reading.faults.add("conflicting-keys", message, inner.span(BORDER_WIDTH), hint)
    found = (inner.get(key) if inner.has(key) else width for key in own)
    sides, ends = (ZERO if wide == "none" else wide for wide in found)
    return sides, ends


def _has_corners(inner: Fields, corners: Corners, sides: Length, ends: Length) -> bool:
    """Whether a border of these widths can have such corners; what it cannot is noted."""
    faults, at = inner.reading.faults, inner.span(BORDER_CORNERS)
    if not (sides.inches or ends.inches):
        message = f"{inner.what} has neither sides nor top and bottom"
        faults.add(
            "border-corners", message, inner.where, "take the border out, or give it a width"
        )
    elif corners is Corners.SQUARES and not (sides.inches and ends.inches):
        message = f"{inner.what} has no corners for squares: it lies on two sides only"
        faults.add(
            "border-corners", message, at, "write `corners: butted`, or give it all four sides"
        )
    elif corners is Corners.MITRED and not (sides.inches and ends.inches):
        message = f"{inner.what} has no corners to miter: it lies on two sides only"
        faults.add(
            "border-corners", message, at, "write `corners: butted`, or give it all four sides"
        )
    else:
        return True
    return False


def _binding(fields: Fields) -> Binding | None:
    inner = _inner(fields, HAS_BINDING, BINDING)
    if inner is None:
        return None
    width, fabric = inner.usual(CUT_WIDTH, trade.BINDING_STRIP), inner.get(FABRIC)
    bias = inner.get(CUT) == "bias"
    if fabric is None:
        return None
    fold = inner.get(FOLD, Fold.DOUBLE)
    return Binding(width=width, fabric=fabric, bias=bias, span=inner.where, fold=fold)


def _batting(fields: Fields) -> Batting | None:
    inner = _inner(fields, HAS_BATTING, BATTING)
    return Batting(inner.usual(EXTRA, trade.LAYER_EXTRA), inner.where) if inner else None


Part = TypeVar("Part", Backing, Sleeve, Envelope)


def _of_one_cloth(
    kind: Callable[[Length, str, Span], Part],
    length: Key[Length],
    usual: trade.Usual,
    inner: Fields | None,
) -> Part | None:
    """A part of one cloth that has one length of its own; None without it."""
    if inner is None:
        return None
    own, fabric = inner.usual(length, usual), inner.get(FABRIC)
    return None if fabric is None else kind(own, fabric, inner.where)


def _backing(fields: Fields) -> Backing | None:
    inner = _inner(fields, HAS_BACKING, BACKING)
    return _of_one_cloth(Backing, BACK_EXTRA, trade.LAYER_EXTRA, inner)


def _sleeve(fields: Fields) -> Sleeve | None:
    return _of_one_cloth(Sleeve, TUBE, trade.SLEEVE_WIDTH, _inner(fields, HAS_SLEEVE, SLEEVE))


def _envelope(fields: Fields) -> Envelope | None:
    inner = _inner(fields, HAS_ENVELOPE, ENVELOPE)
    return _of_one_cloth(Envelope, LAP, trade.ENVELOPE_LAP, inner)
