"""Floor 11, composing: one edition, for the sizes and the paper asked for, becomes one HTML document.

Without a paper it is the web page: self-contained, for any screen. With a paper it is the print page,
which `pdf.py` turns into a PDF.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cached_property

from markupsafe import Markup

from booklet.drawing.bar_code import bar_code
from booklet.kit.records import Record, replace
from booklet.pages.document import Document
from booklet.pages.naming import DocumentName, chosen_sizes
from booklet.pages.own_texts import OwnTexts
from booklet.pages.pictures.album import drawn
from booklet.pages.pictures.compact import SharedPictures
from booklet.pages.pictures.figures import CARDS, LARGE, SMALL, FigureSource, Room
from booklet.pages.pictures.large import ROOM as LARGE_PRINT, SCALE, large_sheet
from booklet.pages.pictures.page_parts import Keeper, PartListener, RecordedAlbum, untold
from booklet.pages.pictures.source_marks import Marks, unmarked
from booklet.pages.pictures.typesetting import Typesetter
from booklet.pages.screen.merging import merged
from booklet.pages.sections import (
    ALTERNATIVE_PAGES,
    BACK,
    BLOCK_PAGES,
    KIT_PAGES,
    PAGE_TITLES,
    WHOLE_PAGES,
    SectionEntry,
    entries,
)
from booklet.pages.style.cover import wall_of
from booklet.pages.style.fonts import font_rules
from booklet.pages.style.look import logo, text_face, title_face
from booklet.pages.style.paper import Sheet, sheet_of
from booklet.pages.style_sheets import print_rules, screen_rules
from booklet.pages.tables.kits import kit_view, makes_words
from booklet.pages.tables.lessons import block_minutes, break_time, class_time, session_rows
from booklet.pages.texts.front import cover_lines, own_picture
from booklet.pages.texts.templating import filled, names_of
from booklet.pages.texts.texts import Filling
from booklet.pages.texts.values import date_text, pattern_values, size_values
from booklet.pages.texts.words import Words
from booklet.pages.views.page_values import (
    ContentsValues,
    CoverValues,
    EditionValues,
    ImprintValues,
    OpeningValues,
    SetSection,
)
from booklet.pages.views.shared import shared_values
from booklet.pages.views.side_by_side import side_by_side
from booklet.pages.views.sized import SizedPages
from booklet.pattern import AlternativeKind, Edition, Imprint, Paper
from booklet.pattern.spoken import common_name
from booklet.plan import Plan, SizePlan
from booklet.source.values.names import file_part


class SetSo(Record, kw_only=True):
    """How a document is set beside its edition, sizes and paper: with the name of a `reader`, in `large` print; `marks` writes
    what elements tell of, and `told` hears each part as soon as it is set. Where a `keeper` knows parts from before the
    document is in parts only, without its `html`. With `pictures`, which pages of one file share, each size of a web page is
    told whole, so that it can be shown alone; the document is then in parts too."""

    reader: str = ""
    large: bool = False
    marks: Marks = unmarked
    told: PartListener = untold
    keeper: Keeper | None = None
    pictures: SharedPictures | None = None
    alone: bool = False  # as if there were no other sizes


PLAINLY = SetSo()


def compose(
    plan: Plan,
    edition: Edition,
    figures: FigureSource | None = None,
    paper: Paper | None = None,
    sizes: tuple[str, ...] = (),
    so: SetSo = PLAINLY,
) -> Document:
    """The document of an edition for some sizes (all of the edition's if none are named). `figures` gives the pictures of a
    size; left out, they are drawn. A plan that was checked always composes."""
    plan = plan.taken_as(edition.alternative)
    chosen = chosen_sizes(plan, edition, sizes)
    if not chosen:
        raise ValueError(f"edition {edition.id} has none of the sizes {sizes}")
    listed, figures = chosen_sizes(plan, edition), figures or drawn(plan)
    return _Composer(plan, edition, figures, paper, chosen, listed, so).document()


class _Composer:
    """Sets one document from front to back. Its tables show all sizes `listed`. `whole` is the plan of all parts, of which
    an edition may show one."""

    def __init__(
        self,
        whole: Plan,
        edition: Edition,
        figures: FigureSource,
        paper: Paper | None,
        sizes: tuple[SizePlan, ...],
        listed: tuple[SizePlan, ...],
        so: SetSo,
    ) -> None:
        self.whole, self.edition, self.sizes, self.listed = whole, edition, sizes, listed
        self.so, self.figures, self.paper = so, figures, paper
        self.plan = whole.shown_by(edition)
        self.pattern = self.plan.pattern
        self.words = Words.of(self.pattern.tongue)
        self.naming = DocumentName(
            pattern=self.pattern,
            edition=edition,
            sizes=sizes,
            listed=listed,
            words=self.words,
            reader=so.reader,
        )
        self.commons: dict[int, dict[str, object]] = {}
        self.said: dict[str, set[str]] = {}
        self.sheet: Sheet | None = sheet_of(self.paper) if self.paper else None
        self.room = SMALL if self.sheet and self.sheet.is_small else LARGE
        if so.large and self.sheet:
            self.sheet, self.room = large_sheet(self.sheet), LARGE_PRINT
        self.setter = Typesetter(
            words=self.words,
            inline=self.paper is None,
            own=self.pattern.templates,
            marks=so.marks,
            keeper=so.keeper,
            pictures=so.pictures,
            scale=SCALE if so.large else 1.0,
        )
        self.albums = {s.size.id: self.album(s) for s in sizes}
        self.pages = {s.size.id: self.sized(s.size.id, s, self.albums[s.size.id]) for s in sizes}
        self.kits = {
            s.size.id: self.sized(s.size.id, kits, self.album(kits))
            for s in sizes
            if (kits := self.plan.kits_of(s.size.id)) is not None
        }
        self.texts = OwnTexts(
            pattern=self.pattern,
            sizes=sizes,
            words=self.words,
            teacher=edition.teacher,
            filling=self.filling,
        )

    def album(self, size: SizePlan, room: Room | None = None) -> RecordedAlbum:
        """The pictures of a size, for the room that the pages give or another."""
        return RecordedAlbum(self.figures(size, room or self.room), self.setter.course)

    def sized(self, size: str, shown: SizePlan, album: RecordedAlbum) -> SizedPages:
        """What sets the pages of one size, where it is shown as it is or with all its kits."""
        return SizedPages(
            plan=shown,
            album=album,
            card_album=self.album(shown, CARDS if self.room == LARGE else None),
            setter=self.setter,
            words=self.words,
            room=self.room,
            paper=self.paper or self.pattern.booklet.paper,
            own_chains=any(page.name == "chains" for page in self.edition.pages),
            alternatives=lambda kind: side_by_side(
                self.whole,
                AlternativeKind(kind),
                size,
                self.album,
                self.room,
                self.setter,
                self.words,
            ),
            kit=kit_view(self.plan, size, self.words),
            is_alone=len(self.sizes) == 1 or self.pictures is not None,
            answers=self.edition.teacher,
            by_block=self.edition.told_by_block,
        )

    @property
    def shared(self) -> SizedPages:
        """The size that stands for all where a page does not depend on it: the first."""
        return self.pages[self.sizes[0].size.id]

    def document(self) -> Document:
        """The finished document."""
        opening = self.by_size(lambda c: c.opening())
        self.so.told("opening", opening, self.setter.parts)
        sections, written = self.sections()
        has_cover = any(page.name == "cover" for page in self.edition.pages)
        beside = bool(sections) and sections[0].kind == "text"
        contents = self.setter.filled(
            "pages/contents.html",
            **self.words.functions(),
            **names_of(ContentsValues(sections=tuple(sections), beside=beside)),
        )
        if not (has_cover or self.paper is None):
            contents = Markup()
        title = self.naming.title()
        body = {
            "language": self.words.speaker.language,
            "medium": "print" if self.paper else "screen",
            "paper_class": file_part(self.paper.value) if self.paper else "web",
            "document_title": title,
            "designer": self.pattern.designer,
            "summary": self.pattern.summary,
            "date": date_text(self.pattern),
            **self.words.functions(),
            "script": "",
            "links": (),
            "opening": opening,
            "contents": contents,
            "sections": written,
        }
        html, pieces = "", self.setter.parts
        is_whole = self.setter.keeper is None and self.pictures is None
        if is_whole and self.paper is None:
            html = str(filled("base.html", **body, style=""))  # shows which letters are used
        if self.pictures is not None:
            style = self.rules()
        else:
            style = self.style(html or title, *written, opening, contents, *pieces.values())
        if is_whole:
            html = str(filled("base.html", **body, style=Markup(style)))
        named = zip((section.id for section in sections), written, strict=True)
        parts = (("opening", opening), ("contents", contents), *named)
        shown = tuple(size.size.id for size in self.sizes)
        return Document(
            name=self.naming.file_name(self.paper, self.so.large),
            title=title,
            html=html,
            paper=self.paper,
            style=style,
            parts=parts,
            pieces=pieces,
            frame=body,
            edition=self.edition.id,
            sizes=shown,
        )

    def sections(self) -> tuple[list[SetSection], list[Markup]]:
        """The sections that are not empty, and their markup."""
        sections, written = list[SetSection](), list[Markup]()
        for entry in entries(self.edition):
            section = None if entry.kind.name == "cover" else self.section(entry)
            if section is not None:
                sections.append(section)
                written.append(filled("section.html", section=section))
                self.so.told(section.id, written[-1], self.setter.parts)
        return sections, written

    def style(self, *texts: str) -> str:
        """The style sheet with its fonts; the web page carries only the characters that it uses in its texts."""
        if self.sheet is None:
            return "\n".join([font_rules(*texts), self.rules()])
        return self.rules()  # the fonts come with `pdf.py`

    def rules(self) -> str:
        """The style sheet without its fonts."""
        if self.sheet is None:
            return screen_rules(self.pattern)
        return print_rules(self.pattern, self.sheet, self.naming.foot, self.so.large)

    def opening(self) -> Markup:
        """The cover, or the head of a handout without one."""
        named = [page.name for page in self.edition.pages]
        opening = OpeningValues(
            one_size=self.naming.one_size,
            reader=self.so.reader,
            date=self.words.text(self.pattern.date) if self.pattern.date else "",
            logo=logo(self.pattern),
        )
        values = self.common(2) | names_of(opening)
        if "cover" not in named:
            return self.setter.filled("pages/title.html", **values)
        shown = self.sizes[len(self.sizes) // 2]
        cover = self.albums[shown.size.id].figure("cover")
        told = cover_lines(self.pattern, self.sizes, self.words)
        words = self.pattern.title, self.pattern.summary
        lines = tuple(f"{head} {said}".strip() for head, said in told)
        face, text = title_face(self.pattern), text_face(self.pattern)
        wall = (
            wall_of(self.sheet, *words, bool(opening.logo), lines, face, self.so.large, text)
            if self.sheet
            else None
        )
        photo = own_picture(self.pattern, self.pattern.booklet.cover.picture, "cover-photo")
        if photo:
            cover = None
        beside = wall.beside(cover.width_mm, cover.height_mm) if wall and cover else 0.0
        hung = wall.room if wall else (0.0, 0.0)
        if wall and cover:
            hung = wall.hung(cover.width_mm, cover.height_mm)
        told_there = CoverValues(
            cover_picture=self.setter.place(cover, "cover-picture", False) if cover else photo,
            cover_lines=told,
            wall=wall,
            beside=beside,
            hung=hung,
            pile=tuple(line.fabric for line in shown.materials) if beside else (),
        )
        return self.setter.filled("pages/cover.html", **values, **names_of(told_there))

    def section(self, entry: SectionEntry) -> SetSection | None:
        """One section, or None where it would be empty."""
        name = entry.kind.name
        if entry.file is not None:
            return self.text_section(entry)
        look = self.pattern.booklet.look
        title = look.titles.get(name) or self.words.text(PAGE_TITLES[name])
        body = (
            self.sized_body(name)
            if entry.kind.sized
            else self.by_size(lambda c: c.plain_body(name))
        )
        if not str(body).strip():
            return None
        before, after = (
            self.by_size(lambda c, page=page: c.texts.beside(page))  # type: ignore[misc]
            for page in (look.before.get(name), look.after.get(name))
        )
        body = before + body + after
        return SetSection(
            id=name,
            kind=name,
            title=title if name != BACK else "",
            label=title,
            body=body,
            starts_page=entry.kind.starts,
            listed=entry.kind.listed,
        )

    def sized_body(self, name: str) -> Markup:
        """The body of a page that is set once for each size."""
        if (name in KIT_PAGES and not self.kits) or self.is_for_later(name):
            return Markup()
        if name in ALTERNATIVE_PAGES and not self.whole.side_by_side(ALTERNATIVE_PAGES[name]):
            return Markup()
        if len(self.sizes) == 1:
            return self.page(name, self.sizes[0]).body(name, 3, True)
        return Markup("").join(
            self.setter.filled(
                "size.html",
                id=f"{name}-{file_part(s.size.id)}",
                size_title=s.size.title,
                body=self.one_body(name, number),
                chosen=Markup(' data-s="0 {}"').format(number + 1) if self.pictures else "",
            )
            for number, s in enumerate(self.sizes)
        )

    def is_for_later(self, name: str) -> bool:
        """Whether a page is of no part like this one: of the whole quilt, before it is joined, or of blocks, where none is
        sewn."""
        if not self.edition.part:
            return False
        if self.edition.part < len(self.pattern.booklet.parts):
            return name in WHOLE_PAGES
        return name in BLOCK_PAGES and not any(size.made_here for size in self.sizes)

    def page(self, name: str, size: SizePlan) -> SizedPages:
        """What sets a page of a size: of all kits together where the page tells of those."""
        pages = self.kits if name in KIT_PAGES else self.pages
        return pages[size.size.id]

    @property
    def pictures(self) -> SharedPictures | None:
        """What the pictures of a page with choices share; None for any other page."""
        return self.setter.pictures

    def one_body(self, name: str, number: int) -> Markup:
        """The body of a page for one of several sizes. Where sizes are shown one at a time, each has the words with
        which a page begins and the cautions that the pages before it have not said."""
        page = self.page(name, self.sizes[number])
        if self.pictures is None:
            return page.body(name, 4, number == 0)
        course = self.setter.course
        self.said.setdefault(name, set(course.cautions))
        course.cautions = set(self.said[name])
        return page.body(name, 4, True)

    def plain_body(self, name: str) -> Markup:
        """The body of a page that does not depend on the size."""
        values = self.common(3)
        if name in ("imprint", BACK):
            values = {**values, **names_of(self.imprint_values(name))}
        if self.so.alone and name == "sizes":  # a picture of all sizes side by side is none of one
            values = {**values, "picture": lambda *names: Markup()}
        return self.setter.filled(f"pages/{name}.html", **values)

    def imprint_values(self, name: str) -> ImprintValues:
        """What the pages of the imprint may name beside what all pages may."""
        imprint = self.pattern.booklet.imprint
        shown = imprint.isbn if name == BACK else None
        code = self.setter.place(bar_code(shown), "bar-code", False) if shown else Markup()
        return ImprintValues(
            imprint=imprint,
            any_imprint=imprint != Imprint(),
            cover_lines=cover_lines(self.pattern, self.sizes, self.words),
            bar_code=code,
        )

    def by_size(self, made: Callable[[_Composer], Markup]) -> Markup:
        """A part of the page; where sizes are shown one at a time, what it says of all and of each of them."""
        if self.pictures is None or len(self.sizes) == 1:
            return made(self)
        parts = [("0", str(made(self)))]
        parts += [(f"{n}", str(made(one))) for n, one in enumerate(self.singles, 1)]
        return Markup(merged("s", parts))

    @cached_property
    def singles(self) -> tuple[_Composer, ...]:
        """What sets each of the sizes by itself, as if there were no other."""
        so = replace(self.so, keeper=None, told=untold, alone=True)
        return tuple(
            _Composer(self.whole, self.edition, self.figures, self.paper, (size,), (size,), so)
            for size in self.sizes
        )

    def text_section(self, entry: SectionEntry) -> SetSection | None:
        """A text of the designer's; one that speaks of the size is set once for each."""
        assert entry.file is not None
        if entry.file not in self.pattern.texts:
            return None
        stem = file_part(common_name(entry.file).rsplit("/", 1)[-1].removesuffix(".md"))
        file = entry.file
        body = self.by_size(lambda c: c.texts.markup(file))
        found = re.search(r"<h2\b[^>]*>(.*?)</h2>", str(body), re.DOTALL)
        title = Markup(found.group(1)).striptags() if found else ""
        return SetSection(
            id=f"text-{stem}",
            kind="text",
            title=title,
            label=title or stem,
            body=body,
            starts_page=False,
            listed=bool(title),
            own_heading=True,
        )

    def filling(self, size: SizePlan) -> Filling:
        """What may stand in a text: values of the size, figures and tables by name. In a part they are those of the
        whole: one text stands in all of them. Of a class that does not make what a text names it is told of the whole."""
        whole = next(one for one in self.whole.sizes if one.size.id == size.size.id)
        told = whole if self.edition.part else size
        wider = self.album(whole)
        albums = (wider,) if told is whole else (self.albums[size.size.id], wider)
        named = pattern_values(self.pattern) | size_values(whole) | size_values(told)
        values = {name: self.words.text(value) for name, value in named.items()}

        def block(name: str) -> Markup | None:
            kind, _, rest = name.partition(".")
            if kind == "figure":
                rest = rest.replace("pressing.", "press ").replace("block.", "block ")
                found = (self.setter.picture(album, rest) for album in albums)
                return next(filter(None, found), Markup())
            if name == "table.sittings":
                return self.pages[size.size.id].body("sittings", 3, True)
            if kind == "table":
                page = {"sizes": "sizes_table", "materials": "materials_table"}.get(rest)
                return self.setter.filled(f"pages/{page}.html", **self.common(3)) if page else None
            return None

        return Filling(values, block)

    def common(self, level: int) -> dict[str, object]:
        """What the templates of pages without a size may name."""
        if level not in self.commons:
            values = shared_values(self.shared, self.sizes, self.listed, level)
            lesson = self.pattern.booklet.lesson
            edition = EditionValues(
                edition_title=self.naming.edition_title,
                homework=lesson.homework,
                sessions=session_rows(lesson),
                class_time=class_time(lesson),
                break_time=break_time(lesson),
                makes=makes_words(self.sizes[0]) if lesson.makes else "",
                by_clock=lesson.start is not None,
                block_minutes=block_minutes(self.sizes[0]) if len(self.sizes) == 1 else "",
            )
            self.commons[level] = values | names_of(edition)
        return self.commons[level]
