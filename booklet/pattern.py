"""Floor 1: what the designer meant. Frozen records that know where in the source they came from.

The source floor makes a `Pattern`; nothing here reads, checks or computes. Sizes are resolved: each
holds its own fabrics, sewing rules and quilt, with the pattern's values where it says nothing.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from enum import Enum, StrEnum
from fractions import Fraction
from types import MappingProxyType

from booklet.crafts.form import Form
from booklet.diagnostic import Span
from booklet.kit.path_data import Command
from booklet.kit.records import Record, field, replace
from booklet.kit.trade import CARD, FOUNDATION_MARGIN, NEW_THREAD, THROUGH_ALLOWANCE
from booklet.measure import ZERO, Extent, Length, Number, UnitSystem
from booklet.words import FAMILIAR

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


class Direction(Enum):
    """Whether a print may be turned."""

    ANY = "any"
    ONE_WAY = "one-way"
    STRIPE = "stripe"


class SoldAs(StrEnum):
    """What a cloth is bought as: by length, or ready cut."""

    YARDAGE = "yardage"
    FAT_QUARTER = "fat quarter"
    STRIPS_2_1_2 = "strips 2 1/2 in"
    SQUARES_5 = "squares 5 in"
    SQUARES_10 = "squares 10 in"


class Sold(Record):
    """The step in which a fabric is sold: 1/8 yd or 10 cm unless the source says otherwise."""

    step: Length
    metric: bool


class Fabric(Record, kw_only=True):
    """A cloth: its look, its usable width, and how it is bought."""

    id: str
    name: str
    colour: str  # "#rrggbb"
    width: Length
    sold: Sold
    span: Span
    direction: Direction = Direction.ANY
    picture: str | None = None  # a file in the folder, key of Pattern.pictures
    repeat: tuple[Length, Length] | None = None  # across, along
    drop: Length = ZERO  # each column of motifs lies so much lower than the one on its left
    shrinks: Fraction = Fraction(0)  # a share: 5 percent is 1/20
    extra_share: Fraction = Fraction(0)  # added before rounding, as a share of the length
    extra: Length = ZERO  # added before rounding, as a length
    kind: SoldAs = SoldAs.YARDAGE


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


class PressHabit(Enum):
    """The pattern's habit of pressing where a step says nothing."""

    AUTO = "auto"
    DARK = "dark"
    OPEN = "open"
    FAN = "fan"


class Technique(Enum):
    """A way in which all patches of a size are sewn, where it is not plain piecing."""

    PAPERS = "papers"  # basted over papers, whip-stitched along their folds, by hand
    FOUNDATION = "foundation"  # sewn on printed paper, piece by piece along its lines, by machine


class BlockTechnique(Enum):
    """A way in which all patches of one block are sewn, whatever the others are."""

    FOUNDATION = "foundation"


class TurnCosts(Record):
    """What `sew: auto` reckons for a turn by machine, a turn by hand, and a partial seam in its place."""

    machine: float = 1.0
    hand: float = 1.0
    partial: float = 1.0


class RouteCosts(Record, kw_only=True):
    """What the route of a hand thread costs besides a new thread, reckoned in seam to sew: an inch gone back costs
    `back` inches, an inch of thread that lies loose `loose` inches. `turn` None: no thread saved is worth a turn."""

    turn: Length | None = None
    through: Length = THROUGH_ALLOWANCE.inch
    card: Length = CARD.inch  # what a card more to read costs
    back: float = 1.0
    loose: float = 4.0


_TEN_INCHES, _ONE_INCH = Length.of(10), Length.of(1)


class Pace(Record):
    """How fast is sewn, in inches and joins a minute, and how long a sitting is.

    The values left out are assumptions of ours, not measurements: they are printed beside every
    estimate, and a teacher sets them for the class.
    """

    machine: Length = _TEN_INCHES  # a minute
    hand: Length = _ONE_INCH  # a minute
    handling: float = 1.0  # minutes to lay out, pin and press one join
    sitting: float = 90.0  # minutes


class HandRoutes(Enum):
    """What hand threads are laid out for."""

    WHOLE_RUNS = "whole runs"  # no thread takes over a run midway
    FEWEST_THREADS = "fewest threads"


class ShortSeams(Enum):
    """Which seams shorter than `machine from` are sewn by hand."""

    ANY = "any"  # all on a shorter line: the author has said from where on the machine sews
    AT_CORNERS = "at corners"  # those that end where a corner is set in; the machine sews others edge to edge


class Sewing(Record, kw_only=True):
    """The sewing rules of a size."""

    machine_from: Length
    set_in_by: By
    ends: Ends
    thread: Length
    press: PressHabit
    span: Span
    layers: int = 8  # points where more layers of cloth lie are marked, with advice
    costs: TurnCosts = TurnCosts()
    pace: Pace = Pace()
    new_thread: Length = NEW_THREAD.inch  # a way back over sewn seams up to here beats a new thread
    routes: HandRoutes = HandRoutes.WHOLE_RUNS
    papers: Length | None = None  # what is folded over papers, where patches are basted over them
    route_costs: RouteCosts = RouteCosts()
    foundation: bool = False  # all blocks are sewn on printed paper
    foundation_margin: Length = FOUNDATION_MARGIN.inch  # beyond the allowance of their pieces
    short: ShortSeams = ShortSeams.ANY


class UnitWish(Record):
    """A wish that units be made together: the key of their kind, the way asked for, and its place."""

    key: str
    choice: str
    span: Span


class UnitCutting(Record):
    """How units are made where there is a choice; `trim` is a margin to trim off sewn units."""

    wishes: tuple[UnitWish, ...] = ()
    trim: Length = ZERO
    ruler: Length | None = None  # how far its marks lie apart; 1/8 in or 1 mm where left out


class Setting(Record):
    """A block in its place of the arrangement, turned clockwise by `turn` degrees (0 90 180 270)."""

    block: str
    turn: int
    span: Span


class Sashing(Record, kw_only=True):
    """Strips between the blocks; cornerstones are a fabric or None (then sashes run through)."""

    width: Length
    fabric: str
    cornerstones: str | None
    outside: bool
    span: Span


class Corners(Enum):
    """How the corners of a border are made."""

    BUTTED = "butted"
    MITRED = "mitred"
    SQUARES = "squares"


class BorderCut(Enum):
    """How the sides of a border are cut: along the selvedge in one piece, across the cloth (joined where
    it is not wide enough), or whichever takes less cloth."""

    AUTO = "auto"
    LENGTHWISE = "lengthwise"
    ACROSS = "across"


class Border(Record, kw_only=True):
    """One border; the first listed is the innermost."""

    width: Length
    fabric: str
    corners: Corners
    square_fabric: str | None
    span: Span
    cut: BorderCut = BorderCut.AUTO


class Binding(Record):
    """Binding strips, `width` as cut."""

    width: Length
    fabric: str
    bias: bool
    span: Span


class Backing(Record):
    """The back: `extra` on each side beyond the top."""

    extra: Length
    fabric: str
    span: Span


class Batting(Record):
    """The middle layer: `extra` on each side beyond the top."""

    extra: Length
    span: Span


class Sleeve(Record):
    """A hanging sleeve on the back: the finished width of its tube."""

    width: Length
    fabric: str
    span: Span


class Rim(Enum):
    """What becomes of the ragged rim of a lattice set."""

    TRIM = "trim"
    FILL = "fill"


class RimPatches(Enum):
    """How the patches at a filled rim are made: whole, so that the overhang is cut off after sewing, or cut to
    the edge of the top and its allowance."""

    WHOLE = "whole"
    CUT = "cut to size"


class Centre(Enum):
    """Which point of a lattice lies in the middle of its frame: the middle of a block, a point where the corners
    of three or more blocks meet, or the point half way between two neighbours."""

    BLOCK = "block"
    GAP = "gap"
    CORNER = "corner"


class RimWish(Record, kw_only=True):
    """What an author asks for a filled rim, and where each wish is written."""

    patches: RimPatches = RimPatches.WHOLE
    centre: Centre | None = None
    fill_span: Span | None = None
    patches_span: Span | None = None
    centre_span: Span | None = None


class Mirror(StrEnum):
    """A way in which a picture may come out the same."""

    HALF_TURN = "half turn"
    SIDES = "left to right"
    ENDS = "top to bottom"


class LaidSetting(Record):
    """A block of a lattice where it lies: its (0, 0) at `origin`, in inches of the lattice's plane."""

    column: int
    row: int
    setting: Setting
    origin: tuple[float, float]


class FilledRim(Record, kw_only=True):
    """A lattice that fills its frame (left, top, width, height in inches of its plane), part blocks and all:
    `sewn` square inches of finished patches, and what of them is cut off at the frame. `alike` are the ways in
    which the top comes out the same about its middle."""

    centre: Centre
    patches: RimPatches
    frame: tuple[float, float, float, float]
    laid: tuple[LaidSetting, ...]
    sewn: float
    cut_off: float
    alike: tuple[Mirror, ...]

    def holds(self, block: str) -> bool:
        """Whether a block lies in it."""
        return any(laid.setting.block == block for laid in self.laid)


class PartOf(Record, kw_only=True):
    """What a part block is a part of, how many of its patches it has, and at which edges of the top it lies.

    `first_told`: there are so many part blocks that of each the first of the cheapest orders is taken."""

    block: str
    patches: int
    of_patches: int
    where: tuple[str, ...]
    first_told: bool = False


class JoinOrder(Enum):
    """In which order the blocks of a lattice set are joined: row by row, or ring by ring from the middle."""

    ROWS = "rows"
    MIDDLE = "from the middle"


class SetKind(Enum):
    """How blocks are arranged."""

    STRAIGHT = "straight"
    ON_POINT = "on point"
    LATTICE = "lattice"


class Quilt(Record, kw_only=True):
    """How blocks become a quilt top. `arrange` is repeated over the size's blocks, row by row."""

    set: SetKind
    arrange: tuple[tuple[Setting, ...], ...]
    span: Span
    lattice: tuple[ExtentPoint, ExtentPoint] | None = None  # the across and the down step
    sashing: Sashing | None = None
    borders: tuple[Border, ...] = ()
    setting_fabric: str | None = None
    binding: Binding | None = None
    backing: Backing | None = None
    batting: Batting | None = None
    sleeve: Sleeve | None = None
    rim: Rim = Rim.TRIM
    join: JoinOrder = JoinOrder.ROWS
    rim_wish: RimWish = RimWish()
    filled: FilledRim | None = None  # worked out by the geometry


class Bed(Record):
    """The bed a size is made for: a mattress by name or size, how far the quilt hangs down, what is
    tucked in under the pillows."""

    mattress: str
    drop: Length
    tuck: Length
    span: Span


class ForClass(Record):
    """What is made of a size in a class: so many of some blocks, or the whole size where none are named, by one student or
    from so many kits. Of a booklet in parts, what is made in `part` (from 1), for which blocks are `ready`."""

    blocks: tuple[tuple[str, int], ...] = ()
    kits: int = 1
    part: int = 0
    ready: tuple[str, ...] = ()


class Size(Record, kw_only=True):
    """One size, with everything that holds for it. `count` is across * down, or the plain count."""

    id: str
    title: str
    unit: Length
    across: int
    down: int
    count: int
    fabrics: Mapping[str, Fabric]
    sewing: Sewing
    quilt: Quilt | None
    span: Span
    blocks_span: Span
    cutting: UnitCutting = UnitCutting()
    bed: Bed | None = None
    in_class: ForClass | None = None  # of a size as a class, or a part, makes it

    @property
    def kits(self) -> int:
        """How often all that is cut for it is cut: once for each kit of a class."""
        return self.in_class.kits if self.in_class else 1

    def patch_allowance(self, allowance: Length) -> Length:
        """What is added to a patch on every side, where the pattern's allowance is this."""
        return self.sewing.papers or allowance

    def on_foundation(self, block: Block) -> bool:
        """Whether a block is sewn on printed paper in this size."""
        return self.sewing.foundation or block.foundation

    def uses(self, block: str) -> bool:
        """Whether a block is made in this size: where there is a quilt, only what is set in it."""
        if self.in_class is not None and self.in_class.blocks:
            return block in dict(self.in_class.blocks)
        if self.quilt is None:
            return True
        if self.quilt.filled is not None:
            return self.quilt.filled.holds(block)
        return any(cell.block == block for row in self.quilt.arrange for cell in row)


class AlternativeKind(StrEnum):
    """In what an alternative differs from the pattern: its cloths, or how its blocks are set."""

    COLOURWAY = "colourway"
    LAYOUT = "layout"
    BOTH = "colourway and layout"


SINGLE_KINDS = (AlternativeKind.COLOURWAY, AlternativeKind.LAYOUT)
BETWEEN = ", "  # the names of a colourway and of a layout that are taken together; no name holds it


class Alternative(Record, kw_only=True):
    """The pattern in other cloths or set otherwise, with the `sizes` that it then has. One of each single kind is the pattern as
    it is (`is_own`): it has no sizes of its own, and no name or title where its author gives it none. One that is both is
    named by both, BETWEEN them, and has no title of its own."""

    kind: AlternativeKind
    id: str
    title: str
    span: Span
    sizes: tuple[Size, ...] = ()
    picture: OwnPicture | None = None  # for its cover
    is_own: bool = False


class Paper(Enum):
    """A paper; the value is the word in the source."""

    LETTER = "letter"
    A4 = "a4"
    HALF_LETTER = "half letter"
    A5 = "a5"


class Page(Record):
    """One entry of an edition's pages: a page by name, or a text file (a name ending in .md)."""

    name: str
    span: Span


class Session(Record):
    """One stretch of a class: what is done in it, and how many minutes it takes."""

    title: str
    minutes: int
    do: tuple[str, ...]
    is_break: bool = False


class Makes(Record):
    """What each student of a class makes: so many of some blocks, by name, or the whole of one size; one of the only
    block that is sewn, where neither is named."""

    span: Span
    blocks: tuple[tuple[str, int], ...] = ()
    size: str | None = None

    @property
    def one_block(self) -> bool:
        """Whether it is one of the only block that is sewn."""
        return not self.blocks and self.size is None


class Lesson(Record, kw_only=True):
    """A class that sews from the pattern: what is done before it, and its sessions in order, from the minute of the
    day at which it begins, if that is said. Where its students are counted, each gets a kit, and there are spare ones."""

    homework: tuple[str, ...] = ()
    sessions: tuple[Session, ...] = ()
    start: int | None = None
    students: int | None = None
    spares: int = 0
    makes: Makes | None = None

    @property
    def kits(self) -> int:
        """How many kits there are: one for each student, and the spare ones."""
        return (self.students or 0) + self.spares


class Instalment(Record):
    """An instalment of the pattern, with a booklet of its own: the blocks that are sewn in it, by name."""

    title: str
    blocks: tuple[str, ...]
    span: Span


CLASS_PAGES = frozenset({"class", "kits", "kit-list", "kit-labels", "day", "samples"})
"""The pages by which an edition is for the class."""


class Address(StrEnum):
    """How the reader is addressed, in languages that tell a friend from a stranger."""

    FORMAL = "formal"
    FAMILIAR = "familiar"


class Voice(Record):
    """In which language and units a booklet speaks: `both` prints the figures of cutting in the other units, too."""

    language: str
    units: UnitSystem
    both: bool = False
    address: Address = Address.FORMAL


class PageOrder(Enum):
    """How an edition goes: cutting, steps and pressing each for all blocks, or all three block by block."""

    PAGES = "by page"
    BLOCKS = "by block"


class Edition(Record, kw_only=True):
    """A way of printing the pattern: which pages, for which sizes (all if empty), in which voice (None: the pattern's).

    The notes of texts stand only where `teacher` is set; `names` are those of a class, who get a copy each. An edition
    in several languages is one of these for each; then its files `tell_language`. So is one in several colourways or layouts:
    `alternative` is the name of its own, "" where it is as the pattern is.
    """

    id: str
    pages: tuple[Page, ...]
    sizes: tuple[str, ...]
    span: Span
    teacher: bool = False
    names: tuple[str, ...] = ()
    title: str = ""
    voice: Voice | None = None
    tell_language: bool = False
    order: PageOrder = PageOrder.PAGES
    part: int = 0  # of an edition in parts, which (from 1); it is there once for each
    alternative: str = ""
    tell_alternative: bool = False

    @property
    def taken(self) -> tuple[str, ...]:
        """The names of its colourway and of its layout, if it has them."""
        return tuple(filter(None, self.alternative.split(BETWEEN)))

    @property
    def called(self) -> str:
        """Its name, with its colourway or layout where it is made in several, and its part where it is of one."""
        taken = f"{self.id}, {self.alternative}" if self.tell_alternative else self.id
        return f"{taken}, part {self.part}" if self.part else taken

    @property
    def told_by_block(self) -> frozenset[str]:
        """The pages that are told with the steps of each block, where it goes block by block. A part is cut strip by strip:
        these give pieces for later parts as well."""
        names = {page.name for page in self.pages}
        if self.order is PageOrder.PAGES or "piecing" not in names:
            return frozenset()
        return frozenset(names & ({"pressing"} if self.part else {"cutting", "pressing"}))

    @property
    def of_class(self) -> bool:
        """Whether it is for the class, and so tells what the class makes."""
        return any(page.name in CLASS_PAGES for page in self.pages)


class Tint(Record):
    """A colour of the look, and where it is written."""

    colour: str  # "#rrggbb"
    span: Span


class Look(Record, kw_only=True):
    """How the booklet looks, where its author wants it otherwise; texts and titles by the page's name."""

    title_colour: Tint | None = None
    title_font: str = (
        ""  # serif | sans | a file in the folder, key of Pattern.fonts; "" as the text
    )
    text_font: str = "serif"  # as above
    text_italic: str = ""  # files, for what is emphasised where the text's is one
    text_bold: str = ""
    ground: Tint | None = None
    logo: str | None = None  # a file in the folder, key of Pattern.pictures
    titles: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))
    before: Mapping[str, Page] = field(default_factory=lambda: MappingProxyType({}))
    after: Mapping[str, Page] = field(default_factory=lambda: MappingProxyType({}))


class Difficulty(Enum):
    """For whom a pattern is."""

    BEGINNER = "beginner"
    CONFIDENT = "confident beginner"
    INTERMEDIATE = "intermediate"
    ADVANCED = "advanced"


class CoverWish(Record, kw_only=True):
    """What stands on the cover beside the title: a picture in place of the drawn quilt, for whom the pattern is, what
    one must know, and whether it says how long the sewing takes."""

    picture: OwnPicture | None = None
    difficulty: Difficulty | None = None
    skills: tuple[str, ...] = ()
    time: bool = False


class Isbn(Record):
    """An ISBN as it was written, and its 13 digits."""

    written: str
    digits: str


class Contact(Record):
    """Where a link leads (https or mailto), and how it is printed."""

    address: str
    shown: str


class Imprint(Record, kw_only=True):
    """Who publishes the booklet."""

    copyright: str = ""
    licence: str = ""
    isbn: Isbn | None = None
    price: str = ""
    contact: tuple[Contact, ...] = ()


class Booklet(Record, kw_only=True):
    """The author's wishes for the booklet."""

    paper: Paper
    editions: tuple[Edition, ...]
    span: Span
    lesson: Lesson = Lesson()
    look: Look = Look()
    cover: CoverWish = CoverWish()
    imprint: Imprint = Imprint()
    parts: tuple[Instalment, ...] = ()  # the last is the one in which the quilt is joined


class OwnFont(Record):
    """A font of the author's as it is embedded (WOFF): the units of its em, how wide each letter is in these, and where it
    is named."""

    data: bytes
    em: int
    widths: Mapping[int, int]
    span: Span


class Pattern(Record, kw_only=True):
    """The whole pattern as meant; `texts`, `pictures` and the author's own page `templates` are the
    loaded files by their path."""

    title: str
    designer: str
    version: str
    date: date | None
    language: str
    units: UnitSystem
    allowance: Length
    summary: str
    sizes: tuple[Size, ...]
    shapes: tuple[Shape, ...]
    blocks: tuple[Block, ...]
    booklet: Booklet
    span: Span
    texts: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))
    templates: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))
    style: str = ""  # a style sheet of the author's own
    pictures: Mapping[str, bytes] = field(default_factory=lambda: MappingProxyType({}))
    fonts: Mapping[str, OwnFont] = field(default_factory=lambda: MappingProxyType({}))
    complete: bool = True  # whether nothing had to be left out of it for a fault
    both_units: bool = False  # whether figures of cutting stand in the other units, too
    address: Address = Address.FORMAL
    files_title: str = ""  # what files are named after, where the title is that of another language
    alternatives: tuple[Alternative, ...] = ()
    alternative: str = ""  # as which of them it is taken; "" as it is

    def taken_as(self, alternative: Alternative) -> Pattern:
        """The pattern in an alternative: with its sizes, and with a photograph on the cover only if that shows it."""
        cover = replace(self.booklet.cover, picture=alternative.picture)
        booklet = replace(self.booklet, cover=cover)
        return replace(
            self,
            sizes=alternative.sizes,
            booklet=booklet,
            alternative=alternative.id,
            alternatives=self.told_alternatives,
        )

    @property
    def told_alternatives(self) -> tuple[Alternative, ...]:
        """The alternatives by name and title alone."""
        return tuple(replace(one, sizes=()) for one in self.alternatives)

    def alternative_name(self, id: str) -> str:
        """The same name without what is the pattern as it is, "" where nothing else is named. KeyError if there is none."""
        found = self.alternative_of(id)
        return "" if found is None else found.id

    def alternative_of(self, id: str) -> Alternative | None:
        """The alternative of that name, or of the two names of a colourway and a layout; None for the pattern as it is.
        KeyError if there is none."""
        there = {one.id: one for one in self.alternatives}
        named = [there[name] for name in id.split(BETWEEN)] if id else []
        others = [one for one in named if not one.is_own]
        if len(others) < 2:
            return others[0] if others else None
        return there[id]

    def alternatives_in(self, id: str) -> tuple[Alternative, ...]:
        """The colourway and the layout of that name, or of these two names, as far as they are there."""
        names = id.split(BETWEEN) if id else ()
        return tuple(one for one in self.alternatives if one.id in names)

    @property
    def voice(self) -> Voice:
        """In which language and units it speaks."""
        return Voice(self.language, self.units, self.both_units, self.address)

    @property
    def tongue(self) -> str:
        """The language in which its words are said (`words_of`)."""
        return self.language + (FAMILIAR if self.address is Address.FAMILIAR else "")

    def sizes_of_class(self) -> tuple[Size, ...]:
        """The sizes of which the class has its booklets."""
        own, makes = [e for e in self.booklet.editions if e.of_class], self.booklet.lesson.makes
        return tuple(
            size
            for size in self.sizes
            if any(not edition.sizes or size.id in edition.sizes for edition in own)
            and (makes is None or makes.size in (None, size.id))
        )

    def made_in_class(self, size: Size) -> tuple[tuple[str, int], ...]:
        """The blocks of a size that each student makes, with how many; none where it is the whole size."""
        makes = self.booklet.lesson.makes
        if makes is None or makes.size is not None:
            return ()
        return makes.blocks or tuple((block.id, 1) for block in self.sewn_blocks(size))

    def part_of(self, block: Block) -> int:
        """The part (from 1) in which a block is sewn; 0 where there are none. A part block goes with the block it is
        cut from, and what no part names with the last."""
        parts, name = self.booklet.parts, block.part.block if block.part else block.id
        named = (n for n, part in enumerate(parts, 1) if name in part.blocks)
        return next(named, len(parts))

    def sewn_blocks(self, size: Size) -> tuple[Block, ...]:
        """The blocks of a size that are sewn from pieces: none that is whole when it is cut, and no part of another."""
        return tuple(
            block
            for block in self.blocks
            if block.part is None and size.uses(block.id) and len(block.all_members()) > 1
        )

    def block(self, id: str) -> Block:
        """The block of that id; KeyError if there is none."""
        for block in self.blocks:
            if block.id == id:
                return block
        raise KeyError(id)

    def size(self, id: str) -> Size:
        """The size of that id; KeyError if there is none."""
        for size in self.sizes:
            if size.id == id:
                return size
        raise KeyError(id)
