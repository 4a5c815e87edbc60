"""Floor 1, the pattern: what each booklet prints, for whom, and how it looks."""

from __future__ import annotations

from collections.abc import Mapping
from enum import Enum, StrEnum
from types import MappingProxyType

from booklet.kit.diagnostic import Span
from booklet.kit.measure import UnitSystem
from booklet.kit.records import Record, field
from booklet.pattern.blocks import OwnPicture
from booklet.pattern.sizes import BETWEEN


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


class Until(Record):
    """How far is sewn: to the end of a step, of a block, or of a step of a block; without a block, of the one then sewn.
    `span` is where that is written."""

    block: str | None
    step: int | None
    span: Span

    @property
    def told(self) -> str:
        """The same as it is written."""
        return " ".join(str(each) for each in (self.block, self.step) if each is not None)


class Session(Record, kw_only=True):
    """One stretch of a class: what is done in it, and how many minutes it takes; `until` is how far is sewn at most. With
    a `start`, a minute of the day, the class meets anew; `homework` is done between."""

    title: str
    minutes: int
    do: tuple[str, ...]
    is_break: bool = False
    until: Until | None = None
    start: int | None = None
    homework: tuple[str, ...] = ()


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
    def begins(self) -> tuple[int, ...]:
        """At which minute of its day each session begins, then at which the last one ends; of a class that does not say when
        it begins, in minutes from there."""
        found = [self.start or 0]
        for number, session in enumerate(self.sessions):
            if session.start is not None:
                found[number] = session.start
            found.append(found[number] + session.minutes)
        return tuple(found)

    @property
    def meetings(self) -> int:
        """How often the class meets: once, and again with every later session that has a start of its own."""
        return 1 + sum(session.start is not None for session in self.sessions[1:])

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
