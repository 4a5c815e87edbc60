"""Floor 11, the web page: one edition in every choice that a reader has, in one file.

Each view (units, width of cloth, colourway) is a page of its own, set from its own plan; the file holds the first, and of the others what
differs (`differences.py`). Sizes lie beside each other, each told whole. Without the script the page shows all sizes in the
pattern's own units.
"""

from __future__ import annotations

import base64
import hashlib
import re
from collections.abc import Iterable, Iterator, Sequence
from enum import Enum
from functools import cache
from typing import TypeAlias

from markupsafe import Markup

from booklet.kit.measure import Length, UnitSystem, other_units
from booklet.kit.records import Mutable, Record, field, replace
from booklet.kit.trade import FAT_QUARTER
from booklet.kit.words import Phrase, Text, phrase, with_unit
from booklet.pages.composing import SetSo, compose
from booklet.pages.document import Document
from booklet.pages.naming import chosen_sizes
from booklet.pages.pictures.compact import SharedPictures
from booklet.pages.pictures.figures import FigureSource
from booklet.pages.pictures.source_marks import marked
from booklet.pages.screen.differences import Differences
from booklet.pages.screen.dyes import Dyes
from booklet.pages.screen.script import sayings, script
from booklet.pages.style.fonts import tight_rules
from booklet.pages.texts.templating import filled, template_text
from booklet.pages.texts.words import Words
from booklet.pages.views.side_by_side import NAMELESS
from booklet.pattern import BETWEEN, AlternativeKind, Edition, SoldAs
from booklet.plan import Plan, SizePlan

_BACKGROUND = re.compile(r'(?<=<span class="swatch") style="(background(?:-image)?:[^"]*)"')


OtherCloth: TypeAlias = Length | SoldAs
"""A usable width of cloth sold by the length, or a precut."""


class ScreenChoice(Record, kw_only=True):
    """What a reader chooses of a pattern: its units, the cloth where it is not the pattern's own, and the colourway where it is
    not the edition's."""

    units: UnitSystem
    cloth: OtherCloth | None
    colourway: str = ""


class ScreenView(ScreenChoice, kw_only=True):
    """A way to show a pattern: what is chosen, with the plan and pictures for it."""

    plan: Plan
    figures: FigureSource


class LinkKind(Enum):
    """What booklets of one pattern that lead to each other differ by."""

    LANGUAGE = "language"
    ALTERNATIVE = "colourway or layout"
    PART = "part"


class Link(Record, kw_only=True):
    """Where a booklet stands that differs from this one by its language, its colourway or layout, or its part: a file in the
    same folder; what readers call it, and whether it is that of the page itself."""

    kin: LinkKind
    language: str
    file: str
    name: str
    is_here: bool = False


class ScreenBook(Record, kw_only=True):
    """An edition set in all views, on its way into one file or into several: the document of each view, all with the same parts, and
    what their pictures share; of the plans it holds that of the first alone. `undyed` is what the pictures of the edition's own
    colourway share. `key` tells this pattern from others where a browser keeps what a reader has chosen and ticked; `links`
    lead to it in other languages, colourways and layouts, and to its other parts."""

    plan: Plan
    views: tuple[ScreenChoice, ...]
    documents: tuple[Document, ...]
    pictures: SharedPictures
    undyed: SharedPictures
    edition: Edition
    key: str
    dyes: Dyes
    links: tuple[Link, ...]

    @property
    def is_dyed(self) -> bool:
        """Whether it is in several colourways."""
        return len(set(self.dyes.colourways)) > 1

    def differences(self) -> Differences:
        """What is to hold whatever differs in other views than the first."""
        return Differences(len(self.views) - 1, self.dyes if self.is_dyed else None)

    @property
    def base(self) -> Document:
        """The document that is shown without the script."""
        return self.documents[0]

    @property
    def words(self) -> Words:
        """What the page itself says."""
        return Words.of(self.plan.pattern.tongue)

    def part(self, name: str, differences: Differences) -> str:
        """A part in the first view, with numbers of `differences` at whatever differs in another."""
        return differences.page([dict(document.parts)[name] for document in self.documents])

    def frame(self) -> dict[str, object]:
        """What stands about the parts."""
        plans = chosen_sizes(self.plan, self.edition, self.base.sizes)
        axes = _axes(self.plan, self.views, plans, self.words)
        return dict(self.base.frame) | {"axes": axes}

    def said(self, **more: object) -> Markup:
        """What the script says and knows."""
        return sayings(self.words, self.key, views=_numbers(self.views), **more)

    def in_one_colourway(self) -> ScreenBook:
        """The same edition in its own colourway alone."""
        shown = zip(self.views, self.documents, strict=True)
        own = [(view, document) for view, document in shown if not view.colourway]
        return replace(
            self,
            views=tuple(view for view, _ in own),
            documents=tuple(document for _, document in own),
            pictures=self.undyed,
            dyes=Dyes(pictures=self.undyed, colourways=(0,) * len(own)),
        )


def gathered(
    views: Sequence[ScreenView],
    edition: Edition,
    sizes: tuple[str, ...],
    key: str,
    links: tuple[Link, ...] = (),
) -> ScreenBook:
    """An edition in all of `views`, in every colourway, whose pages have the same parts; the pattern's own first."""
    pictures = SharedPictures()
    so = SetSo(marks=marked, pictures=pictures)
    held: dict[str, str] = {}

    def composed(view: ScreenView) -> Document:
        taken = replace(edition, alternative=view.colourway) if view.colourway else edition
        return _sharing(compose(view.plan, taken, view.figures, None, sizes, so), held)

    made = [(view, composed(view)) for view in views]
    parts = _names(made[0][1])
    own = [(view, document) for view, document in made if _names(document) == parts]
    each, undyed = [own], pictures.copied()
    for colourway in _colourways(views[0].plan, edition):
        others = [replace(view, colourway=colourway) for view, _ in own]
        more = [(view, composed(view)) for view in others]
        each += [more] if all(_names(document) == parts for _, document in more) else []
    # what is told alike but for its cloths stands close together, which packs best
    shown = [one for together in zip(*each, strict=True) for one in together]
    shared = pictures.copied()
    return ScreenBook(
        plan=views[0].plan,
        views=tuple(
            ScreenChoice(units=view.units, cloth=view.cloth, colourway=view.colourway)
            for view, _ in shown
        ),
        documents=tuple(document for _, document in shown),
        pictures=shared,
        undyed=undyed,
        edition=edition,
        key=key,
        dyes=Dyes(pictures=shared, colourways=tuple(n for _ in own for n in range(len(each)))),
        links=links,
    )


def _colourways(plan: Plan, edition: Edition) -> tuple[str, ...]:
    """The other colourways in which a reader can have an edition shown that is made in none of its own, each with the layout
    of the edition."""
    others = [one for one, _ in plan.side_by_side(AlternativeKind.COLOURWAY)]
    if any(one.id in edition.taken for one in others):
        return ()
    own = {one.id for one in plan.pattern.alternatives if one.is_own}
    layout = [name for name in edition.taken if name not in own]
    names = [BETWEEN.join((one.id, *layout)) for one in others if not one.is_own]
    there = {each.pattern.alternative for each in plan.alternatives}
    return tuple(name for name in names if name in there)


def _sharing(document: Document, held: dict[str, str]) -> Document:
    """A document whose parts are held once for all that have the same: few views differ where blocks are sewn. What
    stands about them is taken of the first, and holds them as well."""
    frame = {} if held else document.frame
    parts = tuple((name, held.setdefault(markup, markup)) for name, markup in document.parts)
    return replace(document, parts=parts, frame=frame)


def one_file(book: ScreenBook) -> Document:
    """The web page of an edition that was set in all views."""
    differences = book.differences()
    page = str(filled("base.html", **_body(book, differences), style=""))
    return replace(book.base, html=_finished(page, book, differences))


def _body(book: ScreenBook, differences: Differences) -> dict[str, object]:
    """What stands in a page of all views; held only until the page is filled, for each copy of it is large."""
    parts = {name: Markup(book.part(name, differences)) for name in _names(book.base)}
    frame = book.frame()
    return frame | {
        "links": book.links,
        "opening": parts.pop("opening"),
        "contents": parts.pop("contents"),
        "sections": list(parts.values()),
        "chooser": filled("chooser.html", **frame, chapters=()),
        "said": book.said(),
        "script": Markup(script()),
        "script_hash": _digest(script()),
    }


def _names(document: Document) -> list[str]:
    """The names of the parts of a page, in order."""
    return [name for name, _ in document.parts]


def _numbers(views: Sequence[ScreenChoice]) -> dict[str, int]:
    """The number of each view by what is chosen: units, cloth and colourway, by their places in the lists."""
    units = list(dict.fromkeys(view.units for view in views))
    cloths = list(dict.fromkeys(view.cloth for view in views))
    dyed = list(dict.fromkeys(view.colourway for view in views))
    return {
        f"{units.index(view.units)} {cloths.index(view.cloth)} {dyed.index(view.colourway)}": n
        for n, view in enumerate(views)
    }


class Axis(Record):
    """Something to choose: its name in attributes, its words, and what there is to choose from."""

    name: str
    words: Markup
    options: tuple[Markup, ...]


_UNITS: dict[UnitSystem, Phrase] = {"inch": phrase("Inches"), "cm": phrase("Centimeters")}


def _axes(
    plan: Plan, views: Sequence[ScreenChoice], plans: Sequence[SizePlan], words: Words
) -> tuple[Axis, ...]:
    """What a reader can choose on this page of some sizes."""
    units = list(dict.fromkeys(view.units for view in views))
    cloths = list(dict.fromkeys(view.cloth for view in views))
    say = words.markup
    titles = [plan.size.title for plan in plans]
    sizes = ([phrase("All sizes")] if len(titles) > 1 else []) + titles
    axes: tuple[Axis, ...] = (
        Axis("s", say(phrase("Size")), tuple(map(say, sizes))),
        Axis("c", say(phrase("Colorway")), tuple(map(say, _titles(plan, views)))),
        Axis("u", say(phrase("Units")), tuple(say(_UNITS[unit]) for unit in units)),
        Axis(
            "w",
            say(phrase("Usable width of your cloth")),
            tuple(say(_cloth(plan, cloth)) for cloth in cloths),
        ),
    )
    if any(block.pressing.versions for plan in plans for block in plan.blocks):
        kinds = (phrase("Both"), phrase("Version V1"), phrase("Version V2"))
        axes += (Axis("v", say(phrase("Version of a block")), tuple(map(say, kinds))),)
    return tuple(axis for axis in axes if len(axis.options) > 1)


def _titles(plan: Plan, views: Sequence[ScreenChoice]) -> Iterator[Text]:
    """What the colourways of the views are called."""
    there = {name for view in views for name in view.colourway.split(BETWEEN)}
    for one, _ in plan.side_by_side(AlternativeKind.COLOURWAY):
        if one.is_own or one.id in there:
            yield one.title or NAMELESS


def _cloth(plan: Plan, cloth: OtherCloth | None) -> Phrase:
    """A cloth that can be chosen: its measure in the pattern's units, and in the other."""
    own = plan.pattern.units
    other = other_units(own)
    if cloth is None:
        return _own_width(plan)
    if isinstance(cloth, Length):
        return phrase(
            "{width} ({other})", width=with_unit(cloth, own), other=with_unit(cloth, other)
        )
    across, along = (with_unit(side, own) for side in FAT_QUARTER)
    quilts = [size.size.quilt for size in plan.sizes]
    if not any(quilt and quilt.backing for quilt in quilts):
        return phrase("Fat quarters, at least {along} × {across}", along=along, across=across)
    return phrase(
        "Fat quarters, at least {along} × {across}; the cloth of the back by the length",
        along=along,
        across=across,
    )


def _own_width(plan: Plan) -> Phrase:
    """The width for which the pattern itself is cut; of cloths of several widths it is none."""
    cloths = [fabric for size in plan.sizes for fabric in size.size.fabrics.values()]
    widths = {fabric.width for fabric in cloths if fabric.kind is SoldAs.YARDAGE}
    if len(widths) != 1:
        return phrase("as in the pattern")
    return phrase("{width}, as in the pattern", width=with_unit(widths.pop(), plan.pattern.units))


def _finished(page: str, book: ScreenBook, differences: Differences) -> str:
    """The page with its style sheet, its fonts cut down and its other views packed."""
    grounds = Grounds()
    page = grounds.named(page, differences)
    sheet = style_sheet(book, [page, *differences.markup()], grounds)
    page = page.replace(_STYLE, f"<style>\n{sheet}\n</style>", 1)
    page = page.replace(_PACK, differences.packed(), 1)
    return page.replace(_STORE, book.pictures.store(), 1)


def style_sheet(book: ScreenBook, texts: Sequence[str], grounds: Grounds) -> str:
    """The style sheet of all pages of a book, whose `texts` tell which letters it needs and what can be chosen."""
    rules = (
        tight_rules(texts),
        book.base.style,
        template_text("table.css") or "",
        _choices(texts),
        book.pictures.rules(),
        book.dyes.rules(),
        grounds.rules(),
    )
    return "\n".join(rules)


_STYLE, _STORE, _PACK = "<style>\n\n</style>", "<!--store-->", "<!--pack-->"


class Grounds(Mutable):
    """The grounds of swatches, each said once."""

    names: dict[str, str] = field(default_factory=dict)

    def named(self, page: str, differences: Differences) -> str:
        """A page with names for the grounds, which its `differences` get as well."""
        page = _BACKGROUND.sub(self._name, page)
        differences.renew([_BACKGROUND.sub(self._name, each) for each in differences.markup()])
        return page

    def _name(self, found: re.Match[str]) -> str:
        return f' data-g="{self.names.setdefault(found.group(1), f"g{len(self.names)}")}"'

    def rules(self) -> str:
        """The rules of the grounds."""
        return "\n".join(f'[data-g="{name}"]{{{rule}}}' for rule, name in self.names.items())


def _choices(texts: Iterable[str]) -> str:
    """The rules that leave what is not chosen unseen."""
    rules = []
    for axis in "sv":
        mark = re.compile(rf' data-{axis}="([\d ]+)"')
        found = [choices for text in texts for choices in mark.findall(text)]
        for value in sorted({one for each in found for one in each.split()}):
            rules.append(
                f'html[data-{axis}="{value}"] [data-{axis}]:not([data-{axis}~="{value}"])'
                "{display:none!important}"
            )
    return "\n".join(rules)


@cache
def _digest(text: str) -> str:
    """The digest by which a content policy knows a script."""
    return "sha256-" + base64.b64encode(hashlib.sha256(text.encode()).digest()).decode("ascii")
