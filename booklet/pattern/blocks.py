"""Floor 1, the pattern: blocks, their patches and pieces, and the steps of sewing."""

from __future__ import annotations

from collections.abc import Mapping
from enum import Enum, StrEnum
from types import MappingProxyType

from booklet.crafts.form import Form
from booklet.kit.diagnostic import Span
from booklet.kit.measure import Extent, Length, Number
from booklet.kit.outlines.path_data import Command
from booklet.kit.records import Record, field

ExtentPoint = tuple[Extent, Extent]


class By(Enum):
    """How a seam is sewn."""

    MACHINE = "machine"
    HAND = "hand"


class StepBy(Enum):
    """How a step is written to be sewn: on printed paper it is a section, by machine."""

    MACHINE = "machine"
    HAND = "hand"
    FOUNDATION = "foundation"


class Ends(Enum):
    """Where the seams of a step end: at matching points, at raw edges, or as the tool decides."""

    AUTO = "auto"
    POINTS = "points"
    EDGES = "edges"


class Grain(Record):
    """The straight grain: along side `side` (from 1), or at `angle` degrees clockwise from up."""

    side: int | None = None
    angle: float | None = None


class AnchorKind(StrEnum):
    """What a shape is placed by."""

    CENTRE = "centre"
    CORNER = "corner"
    SIDE = "side"


class Anchor(Record):
    """Which point of a shape is its origin: its centre, corner N or the middle of side N, from 1."""

    kind: AnchorKind = AnchorKind.CENTRE
    number: int = 0


class Shape(Record, kw_only=True):
    """A shape as written: its form and the values of its measures, still in design units.

    `extents` holds its lengths, `numbers` angle (degrees) and sides, by the names of the form's measures. `corners`
    is for a free polygon, `outline` (commands of a path) for a free one with curves, in design units, or as large as makes
    it so wide as `width`; as a `stem` it is the line along the middle of a bias strip, so wide when it is folded.
    `anchor` None means the default origin.
    """

    id: str  # "" for a shape written at its piece
    form: Form
    span: Span
    extents: Mapping[str, Extent] = field(default_factory=lambda: MappingProxyType({}))
    numbers: Mapping[str, Number] = field(default_factory=lambda: MappingProxyType({}))
    corners: tuple[ExtentPoint, ...] = ()
    outline: tuple[Command, ...] | None = None
    grain: Grain | None = None
    motif: bool = False
    anchor: Anchor | None = None
    width: Extent | None = None
    stem: Extent | None = None


class At(Record):
    """A piece placed by the position of its origin."""

    position: ExtentPoint
    span: Span


class Beside(Record):
    """A piece whose side `own` lies along side `side` of an earlier piece (sides count from 1)."""

    piece: str
    side: int
    own: int
    span: Span


class Ring(Record):
    """`times` copies turned clockwise about `centre`, ids numbered from 1."""

    centre: ExtentPoint
    times: int
    span: Span


class Piece(Record, kw_only=True):
    """A piece as written; with a ring it stands for `times` pieces. Turn in degrees clockwise."""

    id: str
    fabrics: tuple[str, ...]  # one, or one for each copy of the ring
    shape: Shape
    placed: At | Beside | None  # None: the shape's own corners are in block coordinates
    span: Span
    id_span: Span
    turn: float = 0.0
    flip: bool = False
    ring: Ring | None = None

    def members(self) -> tuple[tuple[str, str], ...]:
        """The (piece id, fabric id) pairs this entry stands for, in clockwise order."""
        if self.ring is None:
            return ((self.id, self.fabrics[0]),)
        return tuple(
            (f"{self.id}{k + 1}", self.fabrics[k % len(self.fabrics)])
            for k in range(self.ring.times)
        )


class OwnPicture(Record):
    """A picture of the author's: a file in the folder, key of Pattern.pictures, and what it shows in words."""

    file: str
    words: str


class Applied(Record, kw_only=True):
    """A shape laid on the sewn ground of a block, or several alike of a ring, as written. `allowance` is what is turned
    under along its edge; None leaves the edge raw, the shape fused to the ground. `title` is "" where its outline names it."""

    piece: Piece
    allowance: Length | None
    by: By
    title: str


class PressKind(Enum):
    """What an author may say about pressing a step."""

    TOWARD = "toward"
    AWAY = "away from"
    OPEN = "open"
    FAN = "fan"


class PressWish(Record):
    """An author's wish for a step's seams; `of` names a part of the step for TOWARD and AWAY."""

    kind: PressKind
    of: str | None
    span: Span


class DeclaredStep(Record, kw_only=True):
    """One step instance, `times` and `#` already written out.

    `make` is "" for a partial seam's finish. `entry` numbers the source entry (from 0) so that
    instances of one entry stay together; `times` is how many there are. `leave` names the piece a partial seam stops short for; `finish` is true for the
    later closing of the seam between `join`.
    """

    make: str
    join: tuple[str, ...]
    span: Span
    join_spans: tuple[Span, ...]
    entry: int
    times: int = 1
    by: By | None = None
    ends: Ends | None = None
    press: PressWish | None = None
    leave: str | None = None
    finish: bool = False
    note: str | None = None
    titles: tuple[tuple[str, str], ...] = ()  # (language or "", what the unit made is called)
    foundation: bool = False  # a unit sewn on printed paper, in a block that is not
    picture: OwnPicture | None = None


class Block(Record, kw_only=True):
    """A block as written. `outline` None: whatever the patches cover. `steps` None: sew: auto.

    `dealt` are the fabrics of mixes that its pieces are cut from in turn.
    """

    id: str
    title: str
    pieces: tuple[Piece, ...]
    outline: tuple[ExtentPoint, ...] | None
    steps: tuple[DeclaredStep, ...] | None
    span: Span
    outline_span: Span
    sew_span: Span
    dealt: tuple[str, ...] = ()
    part: PartOf | None = None  # of a part block, which the geometry makes at a rim
    foundation: bool = False  # sewn on printed paper, whatever the other blocks are
    applied: tuple[Applied, ...] = ()  # laid on the sewn block, the first lowest

    def members(self) -> tuple[tuple[str, str], ...]:
        """The (piece id, fabric id) pairs of all its pieces."""
        return tuple(member for piece in self.pieces for member in piece.members())

    def all_members(self) -> tuple[tuple[str, str], ...]:
        """The same of its pieces and of all that is laid on them."""
        laid = (member for each in self.applied for member in each.piece.members())
        return (*self.members(), *laid)


class PartOf(Record, kw_only=True):
    """What a part block is a part of, how many of its patches it has, and at which edges of the top it lies.

    `first_told`: there are so many part blocks that of each the first of the cheapest orders is taken."""

    block: str
    patches: int
    of_patches: int
    where: tuple[str, ...]
    first_told: bool = False
