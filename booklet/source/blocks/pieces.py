"""Floor 2: the `pieces` of a block: which shape, which fabric, and where."""

from __future__ import annotations

from collections.abc import Mapping

from booklet.crafts.forms import path, polygon
from booklet.kit.bounds import MOST_PIECES
from booklet.kit.diagnostic import Span
from booklet.kit.records import Mutable, field
from booklet.pattern import At, Beside, Piece, Ring, Shape
from booklet.source.blocks.shape_keys import ANCHOR, GRAIN, MOTIF
from booklet.source.blocks.shapes import with_wishes
from booklet.source.faults import near
from booklet.source.tree.node import Node, shortened
from booklet.source.values.fields import Fields, Key, Table, open_fields
from booklet.source.values.groups import group, list_of, one_or_list
from booklet.source.values.kinds import Reading, name_of, text, yes_no
from booklet.source.values.names import is_name
from booklet.source.values.path_values import path as path_data
from booklet.source.values.quantities import count, number, point

CENTRE = Key("centre", point(), "The point the copies are turned about.", required=True)
TIMES = Key("times", count(2, 360, "how many copies"), "How many copies go round.", required=True)
RING = Table(
    "ring", "Copies of a piece turned about a centre, numbered clockwise from 1.", (CENTRE, TIMES)
)

PIECE_NAME = Key("piece", text(longest=80), "An earlier piece of this block.", required=True)
SIDE = Key(
    "side",
    count(1, 10_000, "the number of a side"),
    "The side of the earlier piece.",
    required=True,
)
OWN = Key(
    "own",
    count(1, 10_000, "the number of a side"),
    "The side of this piece that lies along it.",
    required=True,
)
BESIDE = Table(
    "beside", "Lays a side of this piece along a side of an earlier one.", (PIECE_NAME, SIDE, OWN)
)

ID = Key("id", text(longest=80), "The name of the piece in this block.", required=True)
PATCH = Key("patch", name_of("patch"), "The patch it is made of.")
FABRIC = Key(
    "fabric",
    one_or_list(name_of("fabric"), "a fabric, or a list with one for each copy"),
    "The fabric; for a ring, a list may name one for each copy.",
    required=True,
)
AT = Key("at", point(), "Where the patch's origin lies: across, then down.")
TURN = Key(
    "turn", number(-3600, 3600, "degrees clockwise"), "Degrees to turn it clockwise.", default="0"
)
FLIP = Key(
    "flip", yes_no(), "Whether it is mirrored left to right before it is turned.", default="no"
)
IN_RING = Key("ring", group("ring"), "Copies turned about a centre.")
IS_BESIDE = Key("beside", group("beside"), "Place it along a side of an earlier piece.")
CORNERS = Key(
    "corners",
    list_of(point(), "a list of points", least=3),
    "Its corners in the block, clockwise, instead of a patch.",
)
OUTLINE = Key("outline", path_data(), "Its outline in the block as path data, instead of a patch.")
PIECE = Table(
    "piece",
    "A piece of a block.",
    (ID, PATCH, FABRIC, AT, TURN, FLIP, IN_RING, IS_BESIDE, CORNERS, OUTLINE, GRAIN, MOTIF, ANCHOR),
)


class Known(Mutable):
    """The piece names of a block read so far, sound or not, with where each was first written.

    `faulty` is set when a piece had to be left out: then the block cannot be laid out.
    """

    names: dict[str, Span] = field(default_factory=dict)
    faulty: bool = False

    def add(self, name: str, span: Span, reading: Reading) -> bool:
        """Whether the name is new; notes a fault if not."""
        earlier = self.names.setdefault(name, span)
        if earlier is span:
            return True
        message = f"a piece `{shortened(name)}` stands already on line {earlier.line}"
        reading.faults.add("duplicate-name", message, span, "give one of the two another name")
        return False


def read_pieces(
    nodes: tuple[Node, ...], shapes: Mapping[str, Shape], reading: Reading, known: Known
) -> tuple[Piece, ...]:
    """The sound pieces in the order written."""
    found: list[Piece] = []
    for node in nodes:
        fields = open_fields(node, PIECE, "a piece", node.span, reading)
        piece = _piece(fields, shapes, reading, known) if fields else None
        if piece is None:
            known.faulty = True
        else:
            found.append(piece)
        if len(known.names) > MOST_PIECES:
            message = f"the block has more than {MOST_PIECES} pieces"
            reading.faults.add("too-large", message, node.span, "make it several blocks")
            known.faulty = True
            break
    return tuple(found)


def _piece(
    fields: Fields, shapes: Mapping[str, Shape], reading: Reading, known: Known
) -> Piece | None:
    """One piece, or None if something it cannot do without is missing or faulty."""
    id = fields.get(ID)
    if id is None or not is_name(id, fields.span(ID), "piece", reading):
        return None
    fields.what = f"piece `{id}`"
    shape = _shape(fields, shapes)
    ring = read_ring(fields)
    placed = _placed(fields, known)
    fabrics = fields.get(FABRIC)
    new = [known.add(name, fields.span(ID), reading) for name in member_names(id, ring)]
    turn, flip = fields.get(TURN), fields.get(FLIP)
    lost = any(fields.has(k) for k in (AT, IS_BESIDE)) and placed is None
    lost = lost or (fields.has(IN_RING) and ring is None) or (fields.has(PATCH) and placed is None)
    if shape is None or fabrics is None or lost or not all(new):
        return None
    if not fabrics_fit(fabrics, ring, fields):
        fabrics = fabrics[:1]
    return Piece(
        id=id,
        fabrics=fabrics,
        shape=shape,
        placed=placed,
        span=fields.where,
        id_span=fields.span(ID),
        turn=float(turn or 0),
        flip=bool(flip),
        ring=ring,
    )


def member_names(id: str, ring: Ring | None) -> list[str]:
    """The names of a piece, or of the copies of its ring."""
    return [id] if ring is None else [f"{id}{k}" for k in range(1, ring.times + 1)]


def _shape(fields: Fields, shapes: Mapping[str, Shape]) -> Shape | None:
    """The shape of a piece: a patch of the pattern, or corners or an outline of its own."""
    ways = [key for key in (PATCH, CORNERS, OUTLINE) if fields.has(key)]
    if not ways:
        fields.missing(PATCH, "and neither `corners` nor `outline`")
        return None
    if len(ways) > 1:
        fields.both(ways[0], ways[1])
    if ways[0] is PATCH:
        shape = shapes.get(fields.get(PATCH) or "")
        return None if shape is None else with_wishes(shape, fields)
    if ways[0] is CORNERS:
        corners = fields.get(CORNERS)
        if corners is None:
            return None
        drawn = Shape(id="", form=polygon.FORM, span=fields.span(CORNERS), corners=corners)
        return with_wishes(drawn, fields)
    outline = fields.get(OUTLINE)
    if outline is None:
        return None
    return with_wishes(
        Shape(id="", form=path.FORM, span=fields.span(OUTLINE), outline=outline), fields
    )


def read_ring(fields: Fields) -> Ring | None:
    """The ring of a piece; None where it has none, or with a fault."""
    inner = fields.inner(IN_RING, RING)
    if inner is None:
        return None
    centre, times = inner.get(CENTRE), inner.get(TIMES)
    return None if centre is None or times is None else Ring(centre, times, inner.where)


def _placed(fields: Fields, known: Known) -> At | Beside | None:
    """Where the piece lies; None for one drawn in the block itself, or with a fault."""
    if fields.has(AT) and fields.has(IS_BESIDE):
        fields.both(AT, IS_BESIDE)
    if fields.has(AT):
        position = fields.get(AT)
        return None if position is None else At(position, fields.span(AT))
    if fields.has(IS_BESIDE):
        return _beside(fields, known)
    if fields.has(PATCH):
        fields.missing(AT, "so nothing says where it lies")
    return None


def _beside(fields: Fields, known: Known) -> Beside | None:
    inner = fields.inner(IS_BESIDE, BESIDE)
    if inner is None:
        return None
    piece, side, own = inner.get(PIECE_NAME), inner.get(SIDE), inner.get(OWN)
    if piece is not None and piece not in known.names:
        message = f"there is no piece `{shortened(piece)}` before {fields.what}"
        hint = near(piece, known.names) or "name a piece that stands further up"
        fields.reading.faults.add("unknown-name", message, inner.span(PIECE_NAME), hint)
        piece = None
    if piece is None or side is None or own is None:
        return None
    return Beside(piece, side, own, inner.where)


def fabrics_fit(fabrics: tuple[str, ...], ring: Ring | None, fields: Fields) -> bool:
    """Whether the list of fabrics goes evenly round the ring; notes a fault if not."""
    copies = ring.times if ring else 1
    if copies % len(fabrics) == 0:
        return True
    message = f"{fields.what} has {len(fabrics)} fabrics for {copies} " + (
        "copies" if ring else "piece without a ring"
    )
    hint = "name one fabric, one for each copy, or a few that come round evenly"
    fields.reading.faults.add("bad-number", message, fields.span(FABRIC), hint)
    return False
