"""Floor 11, composing: one edition, for the sizes and the paper asked for, becomes one HTML document.

Without a paper it is the web page: self-contained, for any screen. With a paper it is the print page,
which `pdf.py` turns into a PDF.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence

from markupsafe import Markup, escape

from booklet.drawing.bar_code import bar_code
from booklet.kit.records import Record, field, replace
from booklet.pages.pictures.album import drawn
from booklet.pages.pictures.compact import SharedPictures
from booklet.pages.pictures.figures import CARDS, LARGE, SMALL, FigureSource
from booklet.pages.pictures.large import ROOM as LARGE_PRINT
from booklet.pages.pictures.large import SCALE, enlarged, large_sheet
from booklet.pages.pictures.page_parts import Keeper, PartListener, RecordedAlbum, untold
from booklet.pages.pictures.source_marks import Marks, unmarked
from booklet.pages.pictures.typesetting import Typesetter
from booklet.pages.prepress.copies import READER
from booklet.pages.screen.merging import merged
from booklet.pages.sections import (
    ALTERNATIVE_PAGES,
    BACK,
    BLOCK_PAGES,
    EDITION_TITLES,
    KIT_PAGES,
    PAGE_TITLES,
    WHOLE_PAGES,
    SectionEntry,
    entries,
)
from booklet.pages.style.cover import wall_of
from booklet.pages.style.fonts import font_rules
from booklet.pages.style.look import logo, look_rules, own_rules, text_face, title_face
from booklet.pages.style.paper import Sheet, sheet_of
from booklet.pages.tables.kits import kit_view, makes_words
from booklet.pages.tables.lessons import block_minutes, break_time, class_time, session_rows
from booklet.pages.texts.callouts import BOX_HEADS, Box, for_students, stretches
from booklet.pages.texts.front import cover_lines, own_picture
from booklet.pages.texts.templating import filled, names_of, template_text
from booklet.pages.texts.texts import Filling, needs_size, set_text
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
from booklet.pattern import AlternativeKind, Edition, Imprint, Page, Paper, Pattern
from booklet.plan import Plan, SizePlan
from booklet.source.editions.edition_keys import named_by
from booklet.source.values.names import file_part
from booklet.spoken import common_name
from booklet.words import Phrase, listing, phrase

SHEETS_APART = "\n</style>\n<style>\n"
"""Between the style sheets of a print page: each is an element, so that `pdf.py` reads once what many documents share."""


class Document(Record, kw_only=True):
    """One document: its file name, its title, its HTML, the paper it is for (None: the web), and the edition
    and sizes that it shows."""

    name: str
    title: str
    html: str
    paper: Paper | None
    style: str
    parts: tuple[tuple[str, str], ...]  # the opening, the contents and the sections, by name
    pieces: Mapping[str, str] = field(
        default_factory=dict
    )  # parts of these that are kept by themselves
    frame: Mapping[str, object] = field(
        default_factory=dict
    )  # what stands about them in `base.html`
    edition: str = ""
    sizes: tuple[str, ...] = ()
    whole: str = ""  # of a named copy: the file that holds the copies of the whole class
    base: str = ""  # of a named copy: its HTML before the name is put in, the same for all copies
    reader: str = ""

    @property
    def called(self) -> str:
        """Its file name with the edition and the sizes that it shows, for a sentence."""
        sizes = ", ".join(f"`{size}`" for size in self.sizes)
        return f"`{self.name}` (edition `{self.edition}`, size {sizes})"


def compose(
    plan: Plan,
    edition: Edition,
    figures: FigureSource | None = None,
    paper: Paper | None = None,
    sizes: tuple[str, ...] = (),
    reader: str = "",
    marks: Marks = unmarked,
    keeper: Keeper | None = None,
    pictures: SharedPictures | None = None,
    large: bool = False,
    told: PartListener = untold,
) -> Document:
    """The document of an edition for some sizes (all of the edition's if none are named), for a `reader` whose
    name stands on it.

    `figures` gives the pictures of a size; left out, they are drawn. `marks` writes what elements tell of; `told` hears each
    part of the page as soon as it is set. Where a `keeper` knows parts from before the document is in parts only, without
    its `html`. A plan that was checked always composes.
    With `pictures`, which pages of one file share, each size of a web page is told whole, so that it can be shown alone; the
    document is then in parts too.
    """
    plan = plan.taken_as(edition.alternative)
    chosen = chosen_sizes(plan, edition, sizes)
    if not chosen:
        raise ValueError(f"edition {edition.id} has none of the sizes {sizes}")
    figures = figures or drawn(plan)
    return _Composer(
        plan.shown_by(edition),
        edition,
        chosen,
        paper=paper,
        figures=figures,
        reader=reader,
        marks=marks,
        keeper=keeper,
        pictures=pictures,
        large=large,
        whole=plan,
        told=told,
    ).document()


def copies_of(document: Document, edition: Edition) -> tuple[Document, ...]:
    """A document that was composed for the name READER, once for each name of its edition."""
    return tuple(
        replace(
            document,
            name=document.name.removesuffix(".pdf") + f"-{'-'.join(_numbered(n, name))}.pdf",
            title=document.title.replace(READER, name),
            html=document.html.replace(READER, str(escape(name))),
            base=document.html,
            reader=name,
            whole=document.name.removesuffix(".pdf") + "-whole-class.pdf",
        )
        for n, name in enumerate(edition.names, 1)
    )


def _numbered(number: int, name: str) -> tuple[str, ...]:
    """The parts of a copy's file name: numbered, since names may be alike, or have no letter that a file name
    takes."""
    return tuple(filter(None, (f"{number:02d}", slug(name))))


def chosen_sizes(plan: Plan, edition: Edition, sizes: tuple[str, ...] = ()) -> tuple[SizePlan, ...]:
    """The sizes of an edition, or those of them that are asked for, in the plan's order; of an edition for the class
    as the class makes them."""
    shown = plan.shown_by(edition).sizes
    wanted = [s for s in shown if not edition.sizes or s.size.id in edition.sizes]
    return tuple(s for s in wanted if not sizes or s.size.id in sizes)


def slug(text: str) -> str:
    """A file name's part: small letters and digits, hyphens between."""
    return file_part(text)


class _Composer:
    """Sets one document from front to back."""

    def __init__(
        self,
        plan: Plan,
        edition: Edition,
        sizes: tuple[SizePlan, ...],
        paper: Paper | None,
        figures: FigureSource,
        reader: str = "",
        marks: Marks = unmarked,
        keeper: Keeper | None = None,
        pictures: SharedPictures | None = None,
        large: bool = False,
        whole: Plan | None = None,
        told: PartListener = untold,
    ) -> None:
        self.whole = whole or plan
        self.told = told
        self.figures = figures
        self.large = large
        self.commons: dict[int, dict[str, object]] = {}
        self.alone: list[_Composer] = []
        self.is_alone = False  # as if there were no other sizes
        self.said: dict[str, set[str]] = {}
        self.reader = reader
        self.plan, self.edition, self.sizes, self.paper = plan, edition, sizes, paper
        self.pattern = plan.pattern
        self.listed = chosen_sizes(plan, edition)  # the tables show them all
        self.words: Words = Words.of(plan.pattern.tongue)
        self.sheet: Sheet | None = sheet_of(paper) if paper else None
        room = SMALL if self.sheet and self.sheet.is_small else LARGE
        if large and self.sheet:
            self.sheet, room = large_sheet(self.sheet), LARGE_PRINT
        self.room = room
        own = plan.pattern.templates
        self.setter = Typesetter(
            words=self.words,
            inline=paper is None,
            own=own,
            marks=marks,
            keeper=keeper,
            pictures=pictures,
            scale=SCALE if large else 1.0,
        )
        own_chains = any(page.name == "chains" for page in edition.pages)
        course = self.setter.course
        self.albums = {s.size.id: RecordedAlbum(figures(s, room), course) for s in sizes}

        def pages_of(shown: SizePlan, album: RecordedAlbum, size: str) -> SizedPages:
            return SizedPages(
                plan=shown,
                album=album,
                card_album=RecordedAlbum(figures(shown, CARDS if room == LARGE else room), course),
                setter=self.setter,
                words=self.words,
                room=room,
                paper=paper or plan.pattern.booklet.paper,
                own_chains=own_chains,
                alternatives=lambda kind: side_by_side(
                    self.whole,
                    AlternativeKind(kind),
                    size,
                    lambda other: RecordedAlbum(figures(other, room), course),
                    room,
                    self.setter,
                    self.words,
                ),
                kit=kit_view(plan, size, self.words),
                answers=edition.teacher,
                by_block=edition.told_by_block,
            )

        self.pages = {s.size.id: pages_of(s, self.albums[s.size.id], s.size.id) for s in sizes}
        self.kits = {
            s.size.id: pages_of(kits, RecordedAlbum(figures(kits, room), course), s.size.id)
            for s in sizes
            if (kits := plan.kits_of(s.size.id)) is not None
        }

    @property
    def shared(self) -> SizedPages:
        """The size that stands for all where a page does not depend on it: the first."""
        return self.pages[self.sizes[0].size.id]

    def document(self) -> Document:
        """The finished document."""
        opening = self.by_size(lambda c: c.opening())
        self.told("opening", opening, self.setter.parts)
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
        title = self.title()
        body = {
            "language": self.words.speaker.language,
            "medium": "print" if self.paper else "screen",
            "paper_class": slug(self.paper.value) if self.paper else "web",
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
            name=self.name(),
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
                self.told(section.id, written[-1], self.setter.parts)
        return sections, written

    def title(self) -> str:
        """The title of the document: pattern, edition, size."""
        titles = [size.size.title for size in self.sizes]
        named = listing(titles) if len(titles) == 1 or self.is_part else phrase("all sizes")
        reader = f", {self.reader}" if self.reader else ""
        told = phrase(
            "{pattern}: {edition}, {sizes}",
            pattern=self.pattern.title,
            edition=self.edition_title(),
            sizes=named,
        )
        return self.words.text(told) + reader

    def name(self) -> str:
        """The file name. A page of some of the edition's sizes names them after two hyphens, which no other
        name has: it never takes the place of a page that shows more."""
        if self.paper is None:
            shown = [size.size.id for size in self.sizes] if self.is_part else []
            return _web_name(self.pattern, self.edition, shown)
        parts = name_parts(self.pattern, self.edition)
        parts.append(slug(self.sizes[0].size.id) if len(self.sizes) == 1 else "all-sizes")
        parts.append(slug(self.paper.value))
        parts += ["large-print"] if self.large else []
        return "-".join(parts) + ".pdf"

    @property
    def is_part(self) -> bool:
        """Whether the document shows only some of the sizes of its edition."""
        return len(self.sizes) < len(self.listed)

    def edition_title(self) -> str:
        """The edition in words, with its colourway or layout, and the part of which it is."""
        if not self.edition.part:
            return self.told_title()
        number, parts = self.edition.part, self.pattern.booklet.parts
        told = phrase(
            "{edition}, part {n} of {all}: {title}",
            edition=self.told_title(),
            n=number,
            all=len(parts),
            title=parts[number - 1].title,
        )
        return self.words.text(told)

    def told_title(self) -> str:
        """The edition in words, with its colourway and its layout where these have a title."""
        told = self.whole_title()
        for one in self.pattern.alternatives_in(self.edition.alternative):
            if one.title:
                told = self.words.text(_IN[one.kind](told, one.title))
        return told

    def whole_title(self) -> str:
        """The edition in words, whatever its part, colourway and layout."""
        if self.edition.title:
            return self.edition.title
        known = EDITION_TITLES.get(self.edition.id)
        return self.words.text(known) if known is not None else self.edition.id.capitalize()

    def style(self, *texts: str) -> str:
        """The style sheet with its fonts; the web page carries only the characters that it uses in its texts."""
        if self.sheet is None:
            return "\n".join([font_rules(*texts), self.rules()])
        return self.rules()  # the fonts come with `pdf.py`

    def rules(self) -> str:
        """The style sheet without its fonts; for print in three sheets, of which all but the last are the same in other
        documents."""
        base = template_text("style.css") or ""
        ours = look_rules(self.pattern), own_rules(self.pattern)
        if self.sheet is None:
            return "\n".join([base, template_text("screen.css") or "", *ours])
        house = SHEETS_APART.join([base, str(filled("print.css", s=self.sheet))])
        running = filled(
            "running.css", title=_css_text(self.pattern.title), foot=_css_text(self.foot())
        )
        own = "\n".join([str(running), *ours])
        return SHEETS_APART.join([enlarged(house) if self.large else house, own])

    def foot(self) -> str:
        """The line at the foot of every page."""
        size = self.sizes[0].size.title if len(self.sizes) == 1 else self.edition_title()
        if not (version := self.pattern.version):
            return str(size)
        return f"{size} · {self.words.text(phrase('Version {version}', version=version))}"

    def opening(self) -> Markup:
        """The cover, or the head of a handout without one."""
        named = [page.name for page in self.edition.pages]
        opening = OpeningValues(
            one_size=self.one_size(),
            reader=self.reader,
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
            wall_of(self.sheet, *words, bool(opening.logo), lines, face, self.large, text)
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

    def one_size(self) -> str:
        """The title of the only size, or nothing."""
        return self.sizes[0].size.title if len(self.sizes) == 1 else ""

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
            self.by_size(lambda c, page=page: c.beside(page))  # type: ignore[misc]
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
                id=f"{name}-{slug(s.size.id)}",
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
        if self.is_alone and name == "sizes":  # a picture of all sizes side by side is none of one
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

    @property
    def singles(self) -> tuple[_Composer, ...]:
        """What sets each of the sizes by itself, as if there were no other."""
        if not self.alone:
            for size in self.sizes:
                setter = self.setter
                one = _Composer(
                    self.plan,
                    self.edition,
                    (size,),
                    paper=None,
                    figures=self.figures,
                    reader=self.reader,
                    marks=setter.marks,
                    keeper=None,
                    pictures=setter.pictures,
                    whole=self.whole,
                )
                one.listed, one.is_alone = (size,), True
                self.alone.append(one)
        return tuple(self.alone)

    def text_section(self, entry: SectionEntry) -> SetSection | None:
        """A text of the designer's; one that speaks of the size is set once for each."""
        assert entry.file is not None
        if entry.file not in self.pattern.texts:
            return None
        stem = slug(common_name(entry.file).rsplit("/", 1)[-1].removesuffix(".md"))
        file = entry.file
        body = self.by_size(lambda c: c.text(file))
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

    def text(self, file: str, top: int | None = None) -> Markup:
        """The markup of a text of the designer's; `top` is the level of its highest heading, if not 2."""
        text = self.pattern.texts[file]
        if not self.edition.teacher:
            text = for_students(text)
        chosen = self.sizes if needs_size(text) else self.sizes[:1]
        return Markup("\n").join(
            self.text_body(file, box, words, size, top)
            for size in chosen
            for box, words in stretches(text)
        )

    def text_body(
        self, file: str, box: Box | None, words: str, size: SizePlan, top: int | None
    ) -> Markup:
        """A stretch of a text; what is boxed stands in a frame of its own."""
        body = set_text(file, words, self.pattern, self.filling(size), top)
        if box is None:
            return body
        framed = Markup('<div class="{}" role="note"><p class="{}-head">{}</p>{}</div>')
        kind = f"own-{box.value}" if box is not Box.TEACHER else "teacher"
        return framed.format(kind, kind, self.words.markup(BOX_HEADS[box]), body)

    def beside(self, page: Page | None) -> Markup:
        """A text of the designer's at the beginning or the end of a page of ours."""
        if page is None or page.name not in self.pattern.texts:
            return Markup()
        return Markup('<div class="own-words">{}</div>\n').format(self.text(page.name, 3))

    def filling(self, size: SizePlan) -> Filling:
        """What may stand in a text: values of the size, figures and tables by name. In a part they are those of the
        whole: one text stands in all of them. Of a class that does not make what a text names it is told of the whole."""
        whole = next(one for one in self.whole.sizes if one.size.id == size.size.id)
        told = whole if self.edition.part else size
        wider = RecordedAlbum(self.figures(whole, self.room), self.setter.course)
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
                edition_title=self.edition_title(),
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


def web_name(pattern: Pattern, edition: Edition, sizes: Sequence[str] | None) -> str:
    """The file name of the web page of an edition, for the sizes that are asked for, or all."""
    has = [s.id for s in pattern.sizes if not edition.sizes or s.id in edition.sizes]
    shown = [size for size in has if not sizes or size in sizes]
    return _web_name(pattern, edition, shown if len(shown) < len(has) else [])


def _web_name(pattern: Pattern, edition: Edition, shown: Sequence[str]) -> str:
    return "--".join(["-".join(name_parts(pattern, edition)), *map(slug, shown)]) + ".html"


_IN: dict[AlternativeKind, Callable[[str, str], Phrase]] = {
    AlternativeKind.COLOURWAY: lambda edition, title: phrase(
        "{edition}, colorway {title}", edition=edition, title=title
    ),
    AlternativeKind.LAYOUT: lambda edition, title: phrase(
        "{edition}, layout {title}", edition=edition, title=title
    ),
}


def name_parts(pattern: Pattern, edition: Edition) -> list[str]:
    """What the names of all files of an edition begin with."""
    return [slug(pattern.files_title or pattern.title), *map(slug, named_by(edition))]


def _css_text(text: str) -> Markup:
    """A string literal of a style sheet."""
    safe = "".join(c if c.isalnum() or c in " ·.,:-" else f"\\{ord(c):x} " for c in text)
    return Markup(f'"{safe}"')


__all__ = ["Document", "chosen_sizes", "compose", "slug"]
