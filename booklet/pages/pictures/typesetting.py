"""Floor 11, typesetting: numbers figures, places pictures, and says each caution once.

One `Typesetter` sets one document from front to back; it counts figures and remembers what it has said.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from markupsafe import Markup, escape

from booklet.drawing.scales import shown_larger
from booklet.drawing.scene import Figure
from booklet.kit.records import Mutable, field, replace
from booklet.kit.words import Phrase, phrase
from booklet.pages.pictures.album import swatch_address
from booklet.pages.pictures.compact import SharedPictures
from booklet.pages.pictures.figures import Figures, image_svg, inline_svg
from booklet.pages.pictures.page_parts import Course, Keeper, PagePart
from booklet.pages.pictures.source_marks import Marks, attribute, unmarked, with_places
from booklet.pages.texts.slots import Slots
from booklet.pages.texts.templating import filled, own_filled, uses_own
from booklet.pages.texts.words import Words
from booklet.pattern import Fabric

Caution = Literal["blade", "iron", "steam", "needle"]
CAUTIONS: dict[Caution, Phrase] = {
    "blade": phrase(
        "The rotary cutter is a blade. Close it after every cut, cut away from yourself, keep your "
        "fingers back from the edge of the ruler, and keep it where children cannot reach it. Wrap "
        "old blades in card and tape before you throw them away."
    ),
    "iron": phrase(
        "The iron burns. Stand it on its heel between presses, keep the cord out of the way, and "
        "unplug it when you leave."
    ),
    "steam": phrase(
        "Steam scalds, and damp cloth stretches. Press dry where you can; with steam, keep your other "
        "hand away and let the cloth cool where it lies."
    ),
    "needle": phrase(
        "Take your foot off the pedal before you thread the machine or change its needle. Park every "
        "hand needle and pin in a cushion, and count them at the end."
    ),
}

_WITH_PLACES = "block-picture"  # whose pieces lead to what is told of them


class Typesetter(Mutable, kw_only=True):
    """The state of one document while it is set."""

    words: Words
    inline: bool = True  # pictures as part of the page (web), or as images (print)
    course: Course = field(default_factory=Course)
    own: Mapping[str, str]  # page templates of the author's
    slots: Slots | None = None  # while one of those is set: what has its place in it
    marks: Marks = unmarked  # what elements tell of, where a page leads from one thing to another
    keeper: Keeper | None = (
        None  # of parts that are not set anew, nor sent anew, where they are as they were
    )
    parts: dict[str, Markup] = field(default_factory=dict)  # such parts, by name
    scale: float = 1.0  # how much larger than drawn pictures are shown
    pictures: SharedPictures | None = None  # of a page that holds several choices: what they share

    def filled(self, template: str, **values: object) -> Markup:
        """The markup of a page template; an author's own takes the place of ours, and is cleaned before
        our pictures are put into it."""
        values = {"of": self.of, "kept": self.kept, "version_of": self.version, **values}
        if not uses_own(template, self.own):
            return filled(template, **values)
        if self.slots is not None:  # a part of a page that is set already, and cleaned with it
            return Markup(own_filled(self.own, template, values))
        slots = self.slots = Slots()
        try:
            held = {
                name: slots.hold(value) if isinstance(value, Markup) else value
                for name, value in values.items()
            }
            made = own_filled(self.own, template, held)
        finally:
            self.slots = None
        return slots.page(made)

    def part(self, part: PagePart) -> Markup:
        """A part of a page; where parts are kept, a mark of its place. In a page of the author's it is a piece of
        that page like any other."""
        if self.keeper is None or self.own:
            return part.set()
        self.parts[part.name] = self.keeper(part)
        return Markup('<div data-piece="{}"></div>').format(part.name)

    def of(self, *parts: object) -> Markup:
        """The attribute that says what an element of ours tells of; an author's page has none."""
        return self.marks(*parts) if self.slots is None else Markup()

    def kept(self, *parts: object) -> Markup:
        """The attribute by which a page with choices keeps what its reader ticks or counts; other pages have none."""
        return self.of(*parts) if self.pictures is not None else Markup()

    def version(self, number: int) -> Markup:
        """The attribute of what is told of one version of a block, where a reader can choose one: 1 or 2."""
        return Markup(' data-v="0 {}"').format(number) if self.pictures is not None else Markup()

    def ours(self, markup: Markup) -> Markup:
        """Markup of ours; in a page of the author's, what stands for it."""
        return markup if self.slots is None else self.slots.hold(markup)

    def place(self, figure: Figure, css: str = "", numbered: bool = True) -> Markup:
        """The figure with its number and caption."""
        if not isinstance(figure, Figure):  # a page of one's own may hand on anything
            raise TypeError("only a figure can be placed")
        caption = Markup()
        if numbered:
            number = self.words.phrase("Figure {n}", n=self.course.number(figure.name))
            text = self.words.markup(self.shown(figure).caption)
            caption = Markup('<figcaption><span class="fig-n">{}</span> {}</figcaption>').format(
                number, text
            )
        if figure.true_size:
            css += " true-size"
        # on a narrow screen a wide picture scrolls in its frame, which a keyboard must reach
        whole = css in ("cover-picture", "sizes-picture", "colouring-picture")
        wide = self.inline and figure.width_mm > 130 and not whole
        reach = Markup(' tabindex="0"') if wide else Markup()
        reach += self._tells(figure, css)
        framed = Markup('<figure class="{}"{} style="--w:{}mm;--h:{}mm">{}{}</figure>').format(
            str(css).strip(),
            reach,
            f"{self.shown(figure).width_mm:g}",
            f"{self.shown(figure).height_mm:g}",
            self._svg(figure, css),
            caption,
        )
        return self.ours(framed)

    def shown(self, figure: Figure) -> Figure:
        """A figure in the size in which it is shown, with its scale; its drawing is the same."""
        if figure.true_size or self.scale == 1.0:
            return figure
        wide, tall = figure.width_mm * self.scale, figure.height_mm * self.scale
        caption = shown_larger(figure.caption, self.scale)
        return replace(figure, width_mm=wide, height_mm=tall, caption=caption)

    def picture(self, album: Figures, name: str, css: str = "") -> Markup:
        """The figure of a name, or nothing where there is none."""
        figure = album.figure(name)
        return Markup() if figure is None else self.place(figure, css)

    def _tells(self, figure: Figure, css: str) -> Markup:
        """What a picture of a page with choices shows, without the outlines of it."""
        if self.pictures is None or css == _WITH_PLACES:
            return Markup()
        if figure.name.endswith("-press-b"):
            return self.version(2)
        if not ("-step-" in figure.name or css.startswith("sheet")):
            return Markup()
        keys = {k: None for place in figure.places for k in place.of if k.startswith("patch/")}
        return attribute(keys) if keys else Markup()

    def _svg(self, figure: Figure, css: str) -> Markup:
        """The picture itself; a second use of a figure within a page gets ids of its own."""
        if not self.inline:
            return image_svg(self.shown(figure), self.words.text(figure.alt))
        again = self.course.again(figure.name)
        align = ' preserveAspectRatio="xMidYMin meet"' if css == "cover-picture" else ""
        if self.pictures is not None:
            svg = inline_svg(figure, self.words.text(figure.alt), "", align)
            short = self.pictures.shortened(svg)
            return with_places(short, figure.places) if css == _WITH_PLACES else short
        svg = inline_svg(
            figure, self.words.text(figure.alt), f"-{again + 1}" if again else "", align
        )
        if self.marks is unmarked:
            return svg
        return with_places(svg, figure.places)

    def caution(self, kind: Caution) -> Markup:
        """The plain box that warns of blade, iron, steam or needle: the first time only."""
        if not self.course.first(kind):
            return Markup()
        return Markup('<div class="caution"><p><b>{}</b> {}</p></div>').format(
            self.words.text(phrase("Take care")), self.words.markup(CAUTIONS[kind])
        )

    def swatch(self, album: Figures, fabric: Fabric) -> Markup:
        """A small piece of the cloth; its name stands beside it, so it says nothing itself."""
        if not isinstance(fabric, Fabric):
            raise TypeError("only a fabric has a swatch")
        figure = album.figure(f"swatch {fabric.id}")
        ground = f"url({swatch_address(figure)})" if figure is not None else fabric.colour
        key = "background-image" if figure is not None else "background"
        span = Markup('<span class="swatch" style="{}:{}" aria-hidden="true"></span>')
        return self.ours(span.format(key, ground))


def heading(level: int, depth: int, text: object) -> Markup:
    """A heading of HTML level `level`, styled by its depth in the section (1, 2, …)."""
    level = min(level, 6)
    return Markup('<h{} class="depth-{}">{}</h{}>').format(level, depth, escape(text), level)
