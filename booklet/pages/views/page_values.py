"""Floor 11, the records of what templates may name: each field is a name of theirs. `tests/test_template_names.py` reads
every template against these types, down to the fields of the records that they go into."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from markupsafe import Markup

from booklet.drawing.scene import Figure
from booklet.kit.records import Record
from booklet.kit.words import Text
from booklet.pages.style.cover import Wall
from booklet.pages.tables.block_cuts import BlockCut
from booklet.pages.tables.cutlist import CutLine, PrintedSumLine
from booklet.pages.tables.edges import BiasView, EnvelopeView, SleeveView
from booklet.pages.tables.figure_sums import SumGroup
from booklet.pages.tables.joining import BorderLine, Named
from booklet.pages.tables.kits import DayView, KitView, SampleView
from booklet.pages.tables.lessons import SessionRow
from booklet.pages.tables.methods import MethodRow, SittingLine
from booklet.pages.tables.part_view import PartView
from booklet.pages.tables.slanted import SlantedView
from booklet.pages.tables.together import TogetherView
from booklet.pages.tables.view import Amount, ClothView, MaterialRow, SizeRow
from booklet.pages.views.cards import CardRow, CardValues
from booklet.pages.views.route_rows import RouteRow
from booklet.pages.views.side_by_side import SideBySide
from booklet.pages.views.step_cards import StackLabel, StepFace
from booklet.pattern import Fabric, Imprint
from booklet.plan import BlockPlan, SizePlan
from booklet.plan.records import Card, JoinLine
from booklet.quilt.sized import BackingPlan, BindingPlan, SizedQuilt


class SizeValues(Record, kw_only=True):
    """The values of one size."""

    blocks: tuple[BlockPlan, ...]
    sewn_blocks: tuple[BlockPlan, ...]
    worked_blocks: tuple[BlockPlan, ...]  # those, and those on which shapes are laid
    several_blocks: bool  # whether more than one is sewn
    cloths: tuple[ClothView, ...]
    amounts: Mapping[str, Amount]  # by fabric
    both_note: Text | None  # what figures in parentheses say
    quilt: SizedQuilt
    join_words: tuple[str, ...]
    join_table: tuple[JoinLine, ...]
    rows_opposed: bool
    rows: tuple[Named, ...]
    slanted: SlantedView | None
    borders: tuple[BorderLine, ...]
    sashing: bool
    sash_words: tuple[Markup, ...]
    turning_edges: bool
    one_line: Text | None
    joins_turn: bool
    inner_corners: bool  # whether any patch has one
    joined_in_columns: bool
    edge_words: Text | None  # where the edge of a filled rim lies
    joining: BlockPlan | None
    free_block: Text
    backing: BackingPlan | None
    backing_words: Markup
    batting_size: Text
    binding: BindingPlan | None
    binding_strips: int
    binding_tail: Text
    binding_width: Text
    binding_single: bool
    binding_length: Text
    sleeve: SleeveView | None
    envelope: EnvelopeView | None
    bias: BiasView | None
    figure_sums: tuple[SumGroup, ...]
    together: tuple[TogetherView, ...]
    sitting_lines: tuple[SittingLine, ...]
    kit: KitView | None  # of a class whose students are counted
    instalment: PartView | None  # of a pattern in parts
    day: DayView | None
    board: SampleView | None
    is_alone: bool  # whether its pages are read without those of other sizes
    answers: bool  # whether it is the teacher's copy, with answers and no line for a name
    pace_words: Markup
    templates: str  # the name of a row of pictures
    foundations: str  # the name of a row of pictures
    guides: str  # the name of a row of pictures
    on_paper: tuple[BlockPlan, ...]  # the blocks that are sewn on printed paper
    plan_title: str
    size_id: str
    papers: Text
    marking: str
    marking_quilt: str
    most_sheets: int  # of shapes for the whole quilt
    seam_allowance: Text
    patch_allowance: Text
    ruled_only: tuple[str, ...]
    text_width: float  # mm: a sheet of templates no wider stands under the words about it
    own_chains: bool
    by_block: frozenset[str]  # the pages told with the steps of each block
    columns: int
    swatch: Callable[[Fabric], Markup]
    caution: Callable[[str], Markup]


class SizeCalls(Record, kw_only=True):
    """The functions of one size that go by the album or by the level of headings."""

    picture: Callable[..., Markup]
    bare_picture: Callable[..., Markup]
    place: Callable[..., Markup]
    true_size: Callable[[Figure], Markup]
    series: Callable[[str], tuple[Figure, ...]]
    figure_of: Callable[[str], Figure | None]
    pictures: Callable[[Sequence[str]], tuple[Figure, ...]]
    is_short: Callable[[ClothView], bool]  # whether the table of a cloth stands beside its picture
    cut_lines: Callable[[ClothView], tuple[CutLine, ...]]
    sums: Callable[[], tuple[tuple[ClothView, tuple[PrintedSumLine, ...]], ...]]
    column_begins: Callable[
        [str, Sequence[Any]], frozenset[int]
    ]  # where columns of a list begin on paper
    angled_cuts: Callable[[ClothView], tuple[str, ...]]
    block_measure: Callable[[BlockPlan], str | None]
    dealt_names: Callable[[BlockPlan], tuple[str, ...]]
    route_rows: Callable[[Sequence[Figure]], tuple[RouteRow, ...]]
    block_cuts: Callable[[BlockPlan], tuple[BlockCut, ...]]
    layers_beside: Callable[[BlockPlan], bool]  # whether they stand under the words of pressing
    part: Callable[[str, BlockPlan | ClothView], Markup]
    card_rows: Callable[[BlockPlan], tuple[CardRow, ...]]
    card_html: Callable[[BlockPlan, Card], Markup]
    step_sheets: Callable[[], tuple[tuple[StepFace, ...], ...]]
    stack_labels: Callable[[], tuple[StackLabel, ...]]
    alternatives: Callable[[str], SideBySide | None]  # the colourways, or the layouts


class DocumentValues(Record, kw_only=True):
    """What a document adds to the values of its first size."""

    head: Callable[[int, object], Markup]
    first_of_page: bool
    title: str
    designer: str
    summary: str
    version: str
    date: str
    in_parts: bool  # whether it is of one part
    plans: tuple[SizePlan, ...]
    own: SizePlan | None
    size_rows: tuple[SizeRow, ...]
    method_rows: tuple[MethodRow, ...]
    method_words: tuple[Markup, ...]
    material_rows: tuple[MaterialRow, ...]
    batting: Sequence[Text | None]
    batting_extra: Text
    cloth_widths: str
    washed: str
    tools: tuple[Markup, ...]
    skills: tuple[Markup, ...]
    allowance: Text
    strip: Text
    strip_length: Text
    whole: Text
    machine: bool
    hand: bool
    set_ins: bool  # whether any corner is set in
    stops: bool  # whether any seam stops at a matching point
    foundations_sewn: bool  # whether any block is sewn on printed paper
    setting: Text
    thread: Text
    glossary: tuple[tuple[str, str], ...]


class EditionValues(Record, kw_only=True):
    """What the pages that do not depend on a size may name of their edition, and of its class."""

    edition_title: str
    homework: tuple[str, ...]
    sessions: tuple[SessionRow, ...]
    class_time: Text
    break_time: Text | None
    makes: Text
    by_clock: bool  # whether the sessions are told by the clock
    block_minutes: str


class OpeningValues(Record, kw_only=True):
    """What the cover, or the head of a handout, names beside the values of a document."""

    one_size: str  # the title of the only size
    reader: str
    date: str
    logo: Markup


class CoverValues(Record, kw_only=True):
    """What the cover names of its picture and of the lines above it; measures in points."""

    cover_picture: Markup
    cover_lines: tuple[tuple[Markup, Markup], ...]
    wall: Wall | None  # of a printed page
    beside: float
    hung: tuple[float, float]
    pile: tuple[Fabric, ...]


class SetSection(Record, kw_only=True):
    """A section ready for the page."""

    id: str
    kind: str  # the name of its page, or "text"
    title: str
    label: str
    body: Markup
    starts_page: bool
    listed: bool
    own_heading: bool = False


class ContentsValues(Record, kw_only=True):
    """What the table of contents names; `beside` where a text stands beside it."""

    sections: tuple[SetSection, ...]
    beside: bool


class ImprintValues(Record, kw_only=True):
    """What the imprint and the back of the cover name."""

    imprint: Imprint
    any_imprint: bool
    cover_lines: tuple[tuple[Markup, Markup], ...]
    bar_code: Markup


OWN_VALUES: Mapping[str, tuple[type, ...]] = {
    "pages/card.html": (CardValues,),
    "pages/class.html": (EditionValues,),
    "pages/contents.html": (ContentsValues,),
    "pages/cover.html": (EditionValues, OpeningValues, CoverValues),
    "pages/title.html": (EditionValues, OpeningValues),
    "pages/imprint.html": (ImprintValues,),
    "pages/back-cover.html": (ImprintValues,),
}
"""What templates are handed beside the values of a size or a document."""
