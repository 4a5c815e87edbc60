"""Floor 11, one size: everything the templates of its pages ask for."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass
from itertools import groupby

from markupsafe import Markup

from booklet.cutting.cutting_plan import CutPatch, Method, Strip
from booklet.measure import Length
from booklet.pages.figures import Figures
from booklet.pages.quantities import quantities
from booklet.pages.setting import Setter, heading
from booklet.pages.templating import filled
from booklet.pages.values import UNIT_NAMES, area_text, with_unit
from booklet.pages.view import METHOD_KEYS, ClothView, cloth_views, cut_figure, step_rows
from booklet.pages.words import Words
from booklet.pattern import Corners
from booklet.plan import BlockPlan, SizePlan, StepCard
from booklet.quilt.sized import BorderPlan

_CORNER_KEYS = {Corners.BUTTED: "butted", Corners.MITRED: "mitred", Corners.SQUARES: "squares"}


@dataclass(frozen=True, slots=True)
class Named:
    """A line with its name: a row of blocks, a border."""

    name: Markup
    words: Markup
    width: Markup | None = None
    after: Markup | None = None


@dataclass(frozen=True, slots=True)
class StripLine:
    """Alike strips with their numbers in the cloth."""

    name: Markup
    strip: Strip


@dataclass(frozen=True, slots=True)
class SizedPages:
    """One size, set into one document."""

    plan: SizePlan
    album: Figures
    setter: Setter
    words: Words
    columns: int
    column_mm: float
    templates: str
    own_chains: bool
    threads_across: int

    def body(self, template: str, level: int, first: bool) -> Markup:
        """The body of a page for this size; its headings begin at `level`."""

        def head(depth: int, text: object) -> Markup:
            return heading(level + depth - 1, depth, text)

        return filled(
            f"pages/{template}.html",
            **self.context(level),
            head=head,
            first_of_page=first,
        )

    def context(self, level: int) -> dict[str, object]:
        """What templates may name."""
        plan, setter = self.plan, self.setter
        return {
            **self.functions(level),
            "t": self.words.markup,
            "q": quantities,
            "items": self.words.items,
            "blocks": plan.blocks,
            "cloths": cloth_views(plan),
            "amounts": {
                line.fabric.id: Amount(line.buy, line.buy_other) for line in plan.materials
            },
            "quilt": plan.quilt,
            "rows": self.rows(),
            "borders": tuple(self.border(border) for border in plan.quilt.borders),
            "sashing": plan.size.quilt is not None and plan.size.quilt.sashing is not None,
            "free_block": self.free_block(),
            "backing": plan.quilt.backing,
            "backing_words": self.backing(),
            "batting_size": self.area(plan.quilt.batting),
            "binding": plan.quilt.binding,
            "binding_width": self.cut(plan.quilt.binding.strip) if plan.quilt.binding else "",
            "binding_length": self.length(plan.quilt.binding.length) if plan.quilt.binding else "",
            "templates": self.templates,
            "own_chains": self.own_chains,
            "columns": self.columns,
            "threads_across": self.threads_across,
            "swatch": lambda fabric: setter.swatch(self.album, fabric),
            "caution": setter.caution,
        }

    def functions(self, level: int) -> dict[str, Callable[..., object]]:
        """The functions that templates may call."""
        return {
            "picture": lambda name, css="": self.setter.picture(self.album, name, css),
            "place": self.setter.place,
            "true_size": lambda figure: self.setter.place(figure, "sheet", numbered=False),
            "series": self.album.series,
            "cut": self.cut,
            "cut_size": self.cut_size,
            "method": self.method,
            "part_title": self.part_title,
            "strip_lines": self.strip_lines,
            "block_measure": self.block_measure,
            "card_rows": lambda block: step_rows(block.cards, self.wide(block), self.columns),
            "row_class": self.row_class,
            "card_html": lambda block, card: self.card(block, card, level + 1),
        }

    def length(self, value: Length) -> str:
        """A finished length with its unit."""
        return with_unit(value, self.plan.pattern.units)

    def area(self, size: tuple[Length, Length] | None) -> str:
        """Width and height, or nothing."""
        return area_text(size, self.plan.pattern.units) if size else ""

    def cut(self, value: Length) -> Markup:
        """A cutting figure with its unit."""
        units = self.plan.pattern.units
        return quantities(f"{cut_figure(value, units)} {UNIT_NAMES[units]}")

    def cut_size(self, patch: CutPatch) -> Markup:
        """The figure to cut."""
        width, height = (self.cut(side) for side in patch.cut)
        by_shape = (Method.TEMPLATE, Method.FUSSY, Method.KITE, Method.HEXAGON)
        if patch.method in by_shape:
            return self.words.markup("cutting.by_template", name=patch.name)
        strips = (
            Method.STRIP,
            Method.DIAMOND,
            Method.PARALLELOGRAM,
            Method.TRAPEZOID,
            Method.TRIANGLE,
        )
        if patch.method in strips:
            return _joined(self.words, "cutting.strip", width=width)
        if patch.cut[0] == patch.cut[1]:
            return _joined(self.words, "cutting.square", side=width)
        return _joined(self.words, "cutting.rectangle", width=width, height=height)

    def method(self, patch: CutPatch) -> Markup:
        """How the cut figure becomes patches, and how many of them are reversed."""
        parts = []
        if key := METHOD_KEYS.get(patch.method):
            angle = f"{patch.angle:g}" if patch.angle is not None else ""
            step = self.cut(patch.cut[1]) if key == "angle" else ""
            parts.append(_joined(self.words, f"cutting.method_{key}", angle=angle, step=step))
        if patch.reversed:
            parts.append(self.words.markup("cutting.reversed", n=patch.reversed))
        return Markup(" ").join(parts)

    def strip_lines(self, cloth: ClothView) -> tuple[StripLine, ...]:
        """The strips of a cloth, numbered on from each other as in its picture."""
        lines, first = [], 1
        for strip in cloth.plan.strips:
            last = first + strip.count - 1
            name = self.words.markup("cutting.strip_names", n=strip.count, first=first, last=last)
            lines.append(StripLine(name, strip))
            first = last + 1
        return tuple(lines)

    def part_title(self, name: str) -> Markup:
        """The title of a patch or part by its short name."""
        titles = {patch.name: patch.title for patch in self.plan.cutting.patches}
        return quantities(titles.get(name, name))

    def block_measure(self, block: BlockPlan) -> str | None:
        """The unfinished size of a whole block, where it is a rectangle."""
        last = block.cards[-1] if block.cards else None
        return last.measure if last is not None else None

    def free_block(self) -> str:
        """The finished size of the first block."""
        tiling = self.plan.blocks[0].tiling if self.plan.blocks else None
        return self.area((Length.of(tiling.width), Length.of(tiling.height))) if tiling else ""

    def wide(self, block: BlockPlan) -> frozenset[int]:
        """The cards whose picture is wider than a column."""
        found = set()
        for card in block.cards:
            figure = self.album.figure(f"step {block.block.id} {card.n}")
            if figure is not None and figure.width_mm > self.column_mm + 0.5:
                found.add(card.n)
        return frozenset(found)

    def row_class(self, block: BlockPlan, row: tuple[StepCard, ...]) -> str:
        """How a row of cards is styled: full, one wide card, or one card beside nothing."""
        if len(row) > 1:
            return ""
        return " wide" if row[0].n in self.wide(block) or self.columns == 1 else " single"

    def card(self, block: BlockPlan, card: StepCard, level: int) -> Markup:
        """One step card."""
        title = heading(level, 3, quantities(card.title))
        return filled(
            "pages/card.html",
            t=self.words.markup,
            q=quantities,
            card=card,
            id=f"{self.plan.size.id}-{block.block.id}-{card.n}",
            takes=self.words.series(counted(card.takes)),
            card_heading=title,
            tick=self.words.text("piecing.tick", n=card.n),
            thumb=self.thumb(block, card),
            picture_html=self.setter.picture(self.album, f"step {block.block.id} {card.n}"),
        )

    def thumb(self, block: BlockPlan, card: StepCard) -> Markup:
        """Where in the block we are, small; nothing for the step that makes the whole block."""
        figure = self.album.figure(f"thumb {block.block.id} {card.n}")
        if figure is None or card is block.cards[-1]:
            return Markup()
        return self.setter.place(figure, "thumb", numbered=False)

    def rows(self) -> tuple[Named, ...]:
        """The rows of blocks in words; alike rows are said once."""
        by_row: dict[int, list[tuple[int, str, int]]] = {}
        for placed in self.plan.quilt.placed:
            by_row.setdefault(placed.row, []).append((placed.column, placed.block, placed.turn))
        lines = [(row, self.row_words(sorted(by_row[row]))) for row in sorted(by_row)]
        alike: dict[str, list[int]] = {}
        for row, line in lines:
            alike.setdefault(line, []).append(row + 1)
        first = min(by_row, default=0)
        return tuple(
            Named(self.row_name([n - first for n in numbers]), quantities(line))
            for line, numbers in alike.items()
        )

    def row_name(self, numbers: list[int]) -> Markup:
        """The name of alike rows: "Row 1", "Rows 1, 3 and 5"."""
        return self.words.markup(
            "quilt.row", n=len(numbers), rows=self.words.series([str(n) for n in numbers])
        )

    def row_words(self, row: list[tuple[int, str, int]]) -> str:
        """One row from left to right, repeats counted."""
        titles = {block.block.id: block.block.title for block in self.plan.blocks}
        parts = []
        for (block, turn), group in groupby((block, turn) for _, block, turn in row):
            key = "quilt.block_turned" if turn else "quilt.block"
            count = len(list(group))
            title = self.words.text(key, title=titles.get(block, block), turn=turn)
            parts.append(
                self.words.text("quilt.times", n=count, title=title) if count > 1 else title
            )
        return ", ".join(parts)

    def border(self, border: BorderPlan) -> Named:
        """One border: what to cut, how to add it, what the top then measures."""
        fabric = self.plan.fabric(border.fabric).name
        lengths = list(border.lengths)
        first, second = self.cut(lengths[0]), self.cut(lengths[-1])
        return Named(
            self.words.markup("quilt.border", n=border.number, fabric=fabric),
            _joined(
                self.words, f"quilt.{_CORNER_KEYS[border.corners]}", first=first, second=second
            ),
            self.words.markup("quilt.border_width", width=self.length(border.width)),
            self.words.markup("quilt.after", size=self.area(border.outside)),
        )

    def backing(self) -> Markup:
        """How the backing is cut or joined."""
        backing = self.plan.quilt.backing
        if backing is None:
            return Markup()
        return self.words.markup(
            "finishing.backing", n=backing.widths, seam=backing.seam, size=self.area(backing.size)
        )


@dataclass(frozen=True, slots=True)
class Amount:
    """What to buy, and the same in the other measure."""

    buy: str
    other: str


def counted(parts: tuple[str, ...]) -> tuple[str, ...]:
    """Parts in order, those that come more than once with their number: "2 A"."""
    counts = Counter(parts)
    return tuple(part if n == 1 else f"{n} {part}" for part, n in counts.items())


def _joined(words: Words, key: str, **values: object) -> Markup:
    """A sentence whose values are markup already."""
    plain = {name: f"\ue000{name}\ue001" for name in values}
    sentence = str(words.markup(key, **plain))
    for name, value in values.items():
        sentence = sentence.replace(f"\ue000{name}\ue001", str(value))
    return Markup(sentence.replace(" x ", "\u00a0× "))
