"""Floor 11, one size: everything the templates of its pages ask for."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from markupsafe import Markup

from booklet.drawing.cloths.cutting_order import is_short
from booklet.drawing.templates import marking
from booklet.drawing.templates.template_pages import ruled_only
from booklet.kit.measure import POINT_MM, Length
from booklet.kit.records import Record, field
from booklet.kit.trade import BINDING_TAIL
from booklet.kit.words import Text, area_text, exactly, with_unit
from booklet.pages.pictures.figures import Room
from booklet.pages.pictures.large import GROWN, ROOM as LARGE_PRINT, large_sheet
from booklet.pages.pictures.page_parts import PagePart, RecordedAlbum
from booklet.pages.pictures.typesetting import Typesetter, heading
from booklet.pages.style.paper import sheet_of
from booklet.pages.tables.block_cuts import block_cuts
from booklet.pages.tables.cutlist import PrintedSumLine, cut_lines, sum_lines
from booklet.pages.tables.edges import bias_view, envelope_view, sleeve_view
from booklet.pages.tables.figure_sums import figure_sums
from booklet.pages.tables.joining import (
    backing_words,
    block_rows,
    border_words,
    edge_words,
    joins_turn,
    one_line,
    sashing_words,
    turning_edges,
)
from booklet.pages.tables.kits import KitView, day_view, sample_view
from booklet.pages.tables.methods import pace_words, sitting_lines
from booklet.pages.tables.part_view import part_view
from booklet.pages.tables.slanted import slanted_view
from booklet.pages.tables.together import together_views
from booklet.pages.tables.view import (
    Amount,
    ClothView,
    both_note,
    cloth_views,
    inner_corners,
    to_cut,
)
from booklet.pages.texts.templating import names_of
from booklet.pages.texts.words import Words
from booklet.pages.views.cards import card_html, card_rows
from booklet.pages.views.list_columns import column_begins
from booklet.pages.views.page_values import SizeCalls, SizeValues
from booklet.pages.views.route_rows import route_rows
from booklet.pages.views.side_by_side import SideBySide
from booklet.pages.views.step_cards import StepFace, stack_labels, step_sheets
from booklet.pattern import Fold, Paper
from booklet.plan import BlockPlan, SizePlan
from booklet.quilt.assembling.joining import JoinedIn

BESIDE_LAYERS = 450
"""So many letters take two thirds of the height of the picture of pressing beside them."""


class SizedPages(Record, kw_only=True):
    """One size, set into one document."""

    plan: SizePlan
    album: RecordedAlbum
    card_album: RecordedAlbum  # its pictures as step cards have room for them
    setter: Typesetter
    words: Words
    room: Room
    paper: Paper  # for which the templates are laid out
    own_chains: bool
    alternatives: Callable[[str], SideBySide | None]
    kit: KitView | None
    is_alone: bool
    answers: bool
    by_block: frozenset[str]
    worked_out: dict[str, object] = field(default_factory=dict)

    def body(self, template: str, level: int, first: bool) -> Markup:
        """The body of a page for this size; its headings begin at `level`."""
        return self.setter.filled(
            f"pages/{template}.html",
            **self.context(level),
            head=self.heading(level),
            first_of_page=first,
        )

    def context(self, level: int) -> dict[str, object]:
        """What templates may name; what no level changes is worked out once."""
        if not self.worked_out:
            self.worked_out.update(self.words.functions() | names_of(self.values()))
        return {**self.worked_out, **names_of(self.functions(level))}

    def part(self, template: str, level: int, of: BlockPlan | ClothView) -> Markup:
        """The part of a page that tells of one block or cloth. It is set from its own values alone, so that all it
        reads is read while it is set."""
        kind, id = ("cloth", of.fabric.id) if isinstance(of, ClothView) else ("block", of.block.id)
        several = self.several_blocks

        def made() -> Markup:
            values: dict[str, Any] = (
                self.words.functions() | names_of(self.functions(level)) | self.plainly()
            )
            if kind == "cloth":
                values["amounts"] = self.amounts()
            values |= {kind: of, "head": self.heading(level), "several_blocks": several}
            return self.setter.filled(f"pages/{template}.html", **values)

        size = self.plan.size.id
        return self.setter.part(
            PagePart(
                name=f"{template} {size} {id}",
                values=(
                    template,
                    level,
                    self.plan.pattern.tongue,
                    self.room,
                    self.own_chains,
                    self.by_block,
                    several,
                ),
                records=(self.plan, of),
                set=made,
                course=self.setter.course,
                album=self.album.album,
            )
        )

    @property
    def several_blocks(self) -> bool:
        """Whether more than one block is sewn."""
        return sum(block.is_worked for block in self.plan.blocks) > 1

    def amounts(self) -> dict[str, Amount]:
        """What to buy of each cloth."""
        lines = self.plan.materials
        return {line.fabric.id: Amount(line.buy, line.buy_other) for line in lines}

    def plainly(self) -> dict[str, Any]:
        """The values that parts of pages name as well, and that no plan is read for."""
        return {
            "own_chains": self.own_chains,
            "by_block": self.by_block,
            "size_id": self.plan.size.id,
            "columns": 1 if self.room.column_mm == self.room.width_mm else 2,
            "swatch": lambda fabric: self.setter.swatch(self.album, fabric),
            "caution": self.setter.caution,
        }

    def heading(self, level: int) -> Callable[[int, object], Markup]:
        """What sets headings that begin at a level."""
        return lambda depth, text: heading(level + depth - 1, depth, text)

    def values(self) -> SizeValues:
        """What templates may name beside functions of the heading's level."""
        plan, words = self.plan, self.words
        binding, slanted = plan.quilt.binding, slanted_view(plan, words)
        return SizeValues(
            blocks=plan.made_here,
            cloths=cloth_views(plan),
            both_note=both_note(plan.pattern),
            quilt=plan.quilt,
            join_words=plan.join_words,
            join_table=plan.join_table,
            rows_opposed=plan.top is not None and plan.top.rows_opposed,
            rows=slanted.rows if slanted else block_rows(plan, words),
            slanted=slanted,
            borders=tuple(border_words(plan, words, border) for border in plan.quilt.borders),
            sashing=plan.quilt.has_sashes,
            sash_words=sashing_words(plan, words),
            turning_edges=turning_edges(plan),
            one_line=one_line(plan),
            joins_turn=joins_turn(plan),
            inner_corners=inner_corners([plan]),
            joined_in_columns=plan.joined_in is JoinedIn.COLUMNS,
            edge_words=edge_words(plan),
            joining=plan.joining,
            free_block=self.free_block(),
            backing=plan.quilt.backing,
            backing_words=backing_words(plan, words),
            batting_size=self.area(plan.quilt.batting),
            binding=binding,
            binding_strips=plan.cutting.pieces("binding"),
            binding_tail=with_unit(BINDING_TAIL.said_in(plan.pattern.units), plan.pattern.units),
            binding_single=binding is not None and binding.fold is Fold.SINGLE,
            binding_width=to_cut(plan.pattern, binding.strip) if binding else "",
            binding_length=with_unit(binding.length, plan.pattern.units) if binding else "",
            sleeve=sleeve_view(plan),
            envelope=envelope_view(plan),
            bias=bias_view(plan),
            figure_sums=figure_sums(plan, words),
            together=together_views(plan, words),
            sitting_lines=sitting_lines(plan, words),
            kit=self.kit,
            instalment=part_view(plan),
            day=day_view(plan, words),
            board=sample_view(plan),
            is_alone=self.is_alone,
            answers=self.answers,
            pace_words=pace_words(plan, words),
            templates=f"templates {self.paper.value}",
            foundations=f"foundations {self.paper.value}",
            on_paper=tuple(block for block in plan.blocks if block.assembly.papers),
            plan_title=plan.size.title,
            papers=self.papers(),
            marking=f"marking {self.paper.value}",
            marking_quilt=f"marking quilt {self.paper.value}",
            most_sheets=marking.MOST_SHEETS,
            seam_allowance=exactly(plan.pattern.allowance, plan.pattern.units),
            patch_allowance=exactly(plan.allowance, plan.pattern.units),
            text_width=sheet_of(self.paper).measure * POINT_MM,
            ruled_only=ruled_only(plan, *sheet_of(self.paper).template_area_mm),
            worked_blocks=tuple(block for block in plan.blocks if block.is_worked),
            guides=f"guides {self.paper.value}",
            sewn_blocks=tuple(block for block in plan.blocks if block.is_sewn),
            several_blocks=self.several_blocks,
            amounts=self.amounts(),
            **self.plainly(),
        )

    def functions(self, level: int) -> SizeCalls:
        """The functions that templates may call."""
        plan = self.plan
        return SizeCalls(
            picture=lambda name, css="": self.setter.picture(self.album, name, css),
            bare_picture=self.bare_picture,
            place=self.setter.place,
            true_size=lambda figure: self.setter.place(figure, "sheet", numbered=False),
            series=self.album.series,
            figure_of=self.album.figure,
            pictures=lambda names: tuple(filter(None, map(self.album.figure, names))),
            is_short=lambda cloth: is_short(plan, cloth.plan),
            cut_lines=lambda cloth: cut_lines(plan, cloth.plan, self.words),
            sums=self.sums,
            column_begins=self.column_begins,
            angled_cuts=self.angled_cuts,
            block_measure=lambda block: block.measure,
            dealt_names=lambda block: tuple(plan.fabric(id).name for id in block.block.dealt),
            route_rows=lambda figures: route_rows(figures, self.room),
            block_cuts=lambda block: block_cuts(plan, block),
            layers_beside=self.layers_beside,
            part=lambda template, of: self.part(template, level, of),
            card_rows=lambda block: card_rows(block, self.album, self.room),
            card_html=lambda block, card: card_html(
                plan.size.id,
                block,
                card,
                level + 1,
                self.album,
                self.setter,
                self.words,
                plan.pattern,
                self.column_begins,
            ),
            step_sheets=self.step_sheets,
            stack_labels=lambda: stack_labels(plan, self.words),
            alternatives=self.alternatives,
        )

    def step_sheets(self) -> tuple[tuple[StepFace, ...], ...]:
        """The step cards in sheets; in large print each on a page."""
        sheet, large = sheet_of(self.paper), self.room == LARGE_PRINT
        on = large_sheet(sheet) if large else sheet
        return step_sheets(self.plan, self.card_album, self.words, on, GROWN if large else 1.0)

    def angled_cuts(self, cloth: ClothView) -> tuple[str, ...]:
        """The names of the pictures of cuts at an angle: each patch is shown with its first cloth."""
        first = {p.name: p.fabric for p in reversed(self.plan.cutting.patches)}
        names = dict.fromkeys(p.name for p in cloth.patches if first[p.name] == p.fabric)
        return tuple(f"angle {cloth.fabric.id} {name}" for name in names)

    def sums(self) -> tuple[tuple[ClothView, tuple[PrintedSumLine, ...]], ...]:
        """The sum of each cloth."""
        return tuple((cloth, sum_lines(cloth.plan, self.words)) for cloth in cloth_views(self.plan))

    def column_begins(self, name: str, entries: Sequence[Any]) -> frozenset[int]:
        """The places of the entries of a list that begin a column; none where a browser finds them, or all stand in one."""
        if self.setter.inline or self.room == LARGE_PRINT:
            return frozenset()
        return column_begins(name, entries, sheet_of(self.paper))

    def layers_beside(self, block: BlockPlan) -> bool:
        """Whether the picture of a block's layers stands in the column of the words about pressing: where these are few
        (those of a second version are none), and no other picture would stand beside it below."""
        if block.pressing.versions:
            return self.several_blocks
        lines = (*block.press_words, *block.conflict_words, *block.version_words)
        letters = sum(len(self.words.text(line)) for line in lines)
        joins = not self.several_blocks and self.album.figure("press join") is not None
        return letters <= BESIDE_LAYERS and not joins

    def bare_picture(self, name: str, css: str = "") -> Markup:
        """A figure that needs no number and no caption."""
        figure = self.album.figure(name)
        return Markup() if figure is None else self.setter.place(figure, css, numbered=False)

    def area(self, size: tuple[Length, Length] | None) -> Text:
        """Width and height, or nothing."""
        return area_text(size, self.plan.pattern.units) if size else ""

    def papers(self) -> Text:
        """What is folded over papers, where patches are basted over them; else nothing."""
        folded = self.plan.size.sewing.papers
        return exactly(folded, self.plan.pattern.units) if folded else ""

    def free_block(self) -> Text:
        """The finished size of the first block."""
        tiling = self.plan.blocks[0].tiling if self.plan.blocks else None
        return self.area((Length.of(tiling.width), Length.of(tiling.height))) if tiling else ""
