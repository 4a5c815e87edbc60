"""Floor 9: everything the booklet will say, for every size, as numbers and words; no markup.

A `Plan` is made only from a `CheckedPattern`. Pages and pictures take it as it is: all that is decided
about sewing is decided here or below.
"""

from __future__ import annotations

from booklet.cutting.cutting_plan import CuttingPlan
from booklet.geometry.tiling import AppliedShape, Tiling
from booklet.kit.measure import Length
from booklet.kit.records import Record, replace
from booklet.pattern import (
    Alternative,
    AlternativeKind,
    Block,
    By,
    Edition,
    Fabric,
    OwnPicture,
    Pattern,
    Size,
)
from booklet.pressing.pressing import Pressing
from booklet.quilt.assembling.joining import JoinedIn
from booklet.quilt.assembling.top_pressing import PressedTop
from booklet.quilt.sized import SizedQuilt
from booklet.sewing.assembly import Assembly, Step

V1, V2 = VERSIONS = ("V1", "V2")
"""The versions of a block, by names that no patch and no step bears."""


class Card(Record, kw_only=True):
    """What stands on a card of the booklet; `n` numbers cards in the block. Words are plain text with lengths such as
    "2 1/2 in"."""

    n: int
    title: str  # "Sew n to c"
    sentences: tuple[str, ...]  # what to do
    make: int  # how many in one block
    measure: str | None = None  # "2 1/2 in x 4 1/2 in" unfinished, where the unit is a rectangle
    press: tuple[str, ...] = ()
    warnings: tuple[str, ...] = ()  # look-alikes, left and right
    takes: tuple[str, ...] = ()  # what to take: "pair (step 1)", "C (sand)"
    total: int = 0  # how many in the whole quilt
    together: str | None = None  # the unit made together that it is, or is a part of
    together_whole: bool = False
    trim: bool = False  # sewn from triangles cut large, to be trimmed to `measure`
    picture: OwnPicture | None = None  # of the author's


class StepCard(Card, kw_only=True):
    """One card of sewing: alike steps said once. `step` is the instance drawn (the first), `steps` all of them."""

    step: Step
    steps: tuple[Step, ...]
    setting: str | None = None  # machine stitch length, such as "2.5 mm"
    together_each: int = 1  # how many of them are made at once
    parts: tuple[str, ...] = ()  # what is joined, by name, in the order of the join
    makes: str = ""  # what is made: "Pair"; "" where a seam is closed


class LayerCard(Card, kw_only=True):
    """One card of shapes that are laid on a sewn block and sewn down; `make` are the shapes on one block, `total` the
    blocks."""

    shapes: tuple[AppliedShape, ...]
    by: By
    allowance: Length | None  # what is turned under; None where they are fused


class PressLine(Record, kw_only=True):
    """One row of the table of presses: seams between the same two patches, pressed alike."""

    cards: tuple[int, ...]  # the steps that sew them
    seams: str  # "A to B"
    count: int
    toward: str  # "toward B", "open", "4 toward A, 4 toward B"
    when: str  # "as sewn", "at the end", "after step 4"
    how: str  # "iron", "finger-press"


class JoinLine(Record):
    """One row of the table of joins: seams between the parts of the top, pressed alike."""

    seams: str  # "in rows 1 and 3", "between the rows", "border 1, corners"
    press: str  # "to the left", "toward the sashes", "down"
    meets: str  # "they lock at 6 joints", "nothing to lock with"
    locks: int = 0  # at how many joints they lock


class BlockPlan(Record, kw_only=True):
    """One block in one size."""

    block: Block
    tiling: Tiling
    assembly: Assembly
    pressing: Pressing
    cards: tuple[StepCard, ...]
    count: int  # how many blocks of it the size needs
    press_words: tuple[str, ...]
    thread_words: tuple[str, ...]  # how many hand threads, and how some could be saved
    press_table: tuple[PressLine, ...] = ()
    version_words: tuple[str, ...] = ()  # the second version, and where it lies
    conflict_words: tuple[str, ...] = ()  # what could not be had, and the ways out
    measure: str | None = None  # the whole block unfinished, where it is a rectangle
    patch: str = ""  # of a block of one patch: what it is, "A (white)"
    is_ready: bool = False  # sewn in an earlier part: it has no cards here
    layers: tuple[LayerCard, ...] = ()  # what is laid on it when it is sewn
    over_papers: bool = False  # folded edges are whip-stitched: no allowance lies in a seam, none is clipped or opened

    @property
    def is_sewn(self) -> bool:
        """Whether any pieces are joined: a block of one patch is whole when it is cut."""
        return bool(self.cards)

    @property
    def all_cards(self) -> tuple[Card, ...]:
        """The cards of its pieces, then of what is laid on them."""
        return (*self.cards, *self.layers)

    @property
    def is_worked(self) -> bool:
        """Whether there is anything to sew: pieces to join, or shapes to lay on them."""
        return bool(self.all_cards)


class FabricSummary(Record):
    """One line of the materials list."""

    fabric: Fabric
    use: tuple[str, ...]  # "A 120", "border 1"
    buy: str  # "1 3/8 yd"
    buy_other: str  # "1.3 m"


class Portion(Record, kw_only=True):
    """What is sewn of one thing in one sitting. By machine it is one card, `count` of it; by hand it is
    the hand work of `count` whole blocks, over several cards. `routes` are the threads begun in each."""

    block: str  # the block's title
    cards: tuple[int, ...]
    title: str  # of the card, where it is just one
    by: By
    chain: bool
    count: int
    minutes: float  # for all of them
    routes: int = 0
    together: str | None = None  # the kind of unit on the cutting page that they are
    joins: bool = False  # blocks, or rows of them, that are sewn on: `count` of them
    laid: bool = False  # shapes that are laid on sewn blocks: `count` blocks


class Sitting(Record):
    """One sitting, or several alike that follow each other: from number `first` to `last`."""

    first: int
    last: int
    portions: tuple[Portion, ...]

    @property
    def minutes(self) -> float:
        """About how long each of them takes."""
        return sum(portion.minutes for portion in self.portions)


class SizePlan(Record, kw_only=True):
    """Everything for one size."""

    pattern: Pattern
    size: Size
    blocks: tuple[BlockPlan, ...]
    quilt: SizedQuilt
    cutting: CuttingPlan
    materials: tuple[FabricSummary, ...]
    letters: tuple[str, ...]  # all patch letters in order
    join_words: tuple[str, ...] = ()  # pressing where blocks join
    sittings: tuple[Sitting, ...] = ()
    join_table: tuple[JoinLine, ...] = ()
    top: PressedTop | None = None  # how the parts of the quilt are pressed where they are joined
    joined_in: JoinedIn | None = None  # the order of `joining`
    joining: BlockPlan | None = (
        None  # the top as a block of blocks, where no straight seams join them
    )

    @property
    def allowance(self) -> Length:
        """What is added to a patch on every side: a seam's allowance, or what is folded over its paper."""
        return self.size.patch_allowance(self.pattern.allowance)

    @property
    def made_here(self) -> tuple[BlockPlan, ...]:
        """The blocks without those that were sewn in an earlier part."""
        return tuple(block for block in self.blocks if not block.is_ready)

    @property
    def blocks_made(self) -> int:
        """How many blocks are made in all: also those between others on point, and at a filled edge."""
        return sum(self.quilt.blocks.values())

    def fabric(self, id: str) -> Fabric:
        """The fabric of that id as it is in this size."""
        return self.size.fabrics[id]


class Plan(Record, kw_only=True):
    """The whole plan. Of a pattern with a class `student` is the plan of what each student makes, where that is not a
    whole size, and `kits` of all kits together, each size named with `-kits`. Of one that comes in parts there is a plan of each,
    with the sizes of which it makes anything. `alternatives` are the plans of the pattern in its other colourways and layouts."""

    pattern: Pattern
    sizes: tuple[SizePlan, ...]
    student: Plan | None = None
    kits: Plan | None = None
    parts: tuple[Plan, ...] = ()
    alternatives: tuple[Plan, ...] = ()

    def taken_as(self, alternative: str) -> Plan:
        """The plan of the pattern in the colourway or layout of that name, or in both, with the others beside it; itself where
        the name is that of the pattern as it is, or "". KeyError if there is none."""
        name = self.pattern.alternative_name(alternative)
        if name in ("", self.pattern.alternative):
            return self
        taken = next(p for p in self.alternatives if p.pattern.alternative == name)
        others = tuple(p for p in self.alternatives if p is not taken)
        return replace(taken, alternatives=(replace(self, alternatives=()), *others))

    def side_by_side(self, kind: AlternativeKind) -> tuple[tuple[Alternative, Plan], ...]:
        """The colourways, or the layouts, each with its plan, the pattern as it is first; none of a kind that it has not.
        Layouts are in the pattern's own cloths, colourways in its own layout, whichever this is."""
        plans = {plan.pattern.alternative: plan for plan in (self, *self.alternatives)}
        alike = [
            (one, "" if one.is_own else one.id)
            for one in self.pattern.alternatives
            if one.kind is kind
        ]
        return tuple((one, plans[name]) for one, name in alike if name in plans)

    def shown_by(self, edition: Edition) -> Plan:
        """The plan that an edition tells: of what the class makes, where it is for the class; of its part, where it is of
        one; in its colourway or layout."""
        whole = self.taken_as(edition.alternative)
        if edition.part:  # the plan of a part has none itself
            return whole.parts[edition.part - 1] if whole.parts else whole
        makes = self.pattern.booklet.lesson.makes
        if not edition.of_class or makes is None:
            return whole
        if whole.student is not None:
            return whole.student
        return replace(
            whole, sizes=tuple(s for s in whole.sizes if makes.size in (None, s.size.id))
        )

    @property
    def made_of_it(self) -> tuple[Plan, ...]:
        """The plans of what is made of the pattern beside the whole of it."""
        return tuple(plan for plan in (self.student, self.kits, *self.parts) if plan is not None)

    def kits_of(self, size: str) -> SizePlan | None:
        """The plan of all kits of a size; None where there are none."""
        sizes = self.kits.sizes if self.kits is not None else ()
        return next((plan for plan in sizes if plan.size.own_id == size), None)
