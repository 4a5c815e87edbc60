"""Floor 2: `booklet`: the paper, and which pages each edition prints."""

from __future__ import annotations

from itertools import product

from booklet.bounds import MOST_NAMES, MOST_PAGES
from booklet.diagnostic import Span, did_you_mean
from booklet.pattern import Booklet, Edition, Page, Paper
from booklet.source.editions.lessons import read_lesson
from booklet.source.editions.look import read_look
from booklet.source.files.page_names import PAGES
from booklet.source.tree.node import Map, Node, Text, shortened
from booklet.source.values.fields import Fields, Key, Table, open_fields
from booklet.source.values.groups import group, list_of, named
from booklet.source.values.kinds import Kind, Reading, name_of, one_of, text, wrong_kind, yes_no
from booklet.source.values.names import file_part, named_entries

WELCOME = "text/welcome.md"
DEFAULT_PAGES = {
    "pattern": (
        "cover", WELCOME, "materials", "cutting", "templates", "piecing", "pressing", "quilt",
        "finishing", "colouring",
    ),
    "handout": ("class", "supplies", "cutting", "practice", "piecing", "pressing"),
}  # fmt: skip
_PAGE_WORDS = "a page by name, or a text file ending in `.md`"


def _page(node: Node, what: str, reading: Reading) -> Page | None:
    if not isinstance(node, Text) or node.is_empty:
        wrong_kind(node, what, _PAGE_WORDS, reading)
        return None
    name = node.value.strip()
    if name in PAGES or name.endswith(".md"):
        return Page(name, node.span)
    message = f"there is no page `{shortened(name)}`"
    reading.faults.add("unknown-name", message, node.span, did_you_mean(name, PAGES))
    return None


_ONE_PAGE = Kind(
    _PAGE_WORDS, _page, {"anyOf": [{"enum": list(PAGES)}, {"type": "string", "pattern": r"\.md$"}]}
)
ED_PAGES = Key(
    "pages",
    list_of(_ONE_PAGE, "a list of pages", most=MOST_PAGES),
    "The pages in order, by name; a name ending in .md is a text of the folder.",
)
ED_SIZES = Key(
    "sizes",
    list_of(name_of("size"), "a list of sizes"),
    "The sizes it is printed for; all if left out.",
)
ED_TEACHER = Key(
    "teacher",
    yes_no(),
    "Whether it is the teacher's own copy: only that holds the notes of the texts.",
    default="no",
)
ED_NAMES = Key(
    "names",
    list_of(text("a name", longest=60), "a list of names", most=MOST_NAMES),
    "The names of a class; each gets a copy. Left out, the copy has a line to write on.",
)
EDITION = Table(
    "edition",
    "A way of printing the pattern.",
    (ED_PAGES, ED_SIZES, ED_TEACHER, ED_NAMES),
)
PAPER = Key("paper", one_of(Paper), "The paper of the readers.")
EDITIONS = Key(
    "editions",
    named("edition", "edition", may_be_empty=True),
    "The editions; left out, `pattern` and `handout` are made.",
)
CLASS = Key(
    "class", group("class"), "The class that sews from the pattern; the page `class` shows it."
)
LOOK = Key("look", group("look"), "Colours, the font of titles, a logo, titles, texts about pages.")
BOOKLET = Table("booklet", "The wishes for the booklet.", (PAPER, EDITIONS, CLASS, LOOK))


def read_booklet(node: Map | None, where: Span, reading: Reading, has_welcome: bool) -> Booklet:
    """The booklet; its default pages hold the welcome text only if the folder has one."""
    span = node.span if node else where
    fields = Fields(node or Map((), where), BOOKLET, "`booklet`", span, reading)
    written = fields.get(EDITIONS)
    editions: list[Edition] = []
    for key, value in named_entries(written, "edition", reading) if written else ():
        editions.append(_edition(key, value, reading, has_welcome))
    if not editions:
        editions = [
            Edition(id=id, pages=_defaults(id, span, has_welcome), sizes=(), span=span)
            for id in DEFAULT_PAGES
        ]
    usual = Paper.LETTER if reading.units == "inch" else Paper.A4
    lesson = read_lesson(fields.get(CLASS), reading)
    look = read_look(fields.get(LOOK), fields.key_span(LOOK), reading)
    return Booklet(
        paper=fields.get(PAPER) or usual,
        editions=tuple(editions),
        span=span,
        lesson=lesson,
        look=look,
    )


def refuse_same_files(booklet: Booklet, sizes: tuple[str, ...], reading: Reading) -> None:
    """Note editions whose file for one size and paper would have the name of another's for others."""
    first: dict[str, tuple[str, str]] = {}
    for edition in booklet.editions:
        for size, paper in product((*sizes, "all sizes"), Paper):
            name = "-".join(map(file_part, (edition.id, size, paper.value)))
            other, in_size = first.setdefault(name, (edition.id, size))
            if other != edition.id:
                message = (
                    f"edition `{shortened(other)}` in size `{shortened(in_size)}` and edition "
                    f"`{shortened(edition.id)}` in size `{shortened(size)}` would have files of the same name"
                )
                hint = "give one of them another name; its `title` may stay"
                reading.faults.add("duplicate-name", message, edition.span, hint)
                break


def _defaults(id: str, span: Span, has_welcome: bool) -> tuple[Page, ...]:
    names = DEFAULT_PAGES.get(id, DEFAULT_PAGES["pattern"])
    return tuple(Page(name, span) for name in names if name != WELCOME or has_welcome)


def _edition(key: Text, value: Node, reading: Reading, has_welcome: bool) -> Edition:
    """One edition; without pages it has the usual ones."""
    if isinstance(value, Text) and value.is_empty:
        value = Map((), key.span)
    fields = open_fields(value, EDITION, f"edition `{key.value}`", key.span, reading)
    pages = fields.get(ED_PAGES) if fields else None
    sizes = fields.get(ED_SIZES) if fields else None
    teacher = fields.get(ED_TEACHER) if fields else None
    usual = _defaults(key.value, key.span, has_welcome)
    for page in repeated(pages or ()):
        reading.faults.add(
            "duplicate-name",
            f"page `{shortened(page.name)}` is listed twice in edition `{key.value}`",
            page.span,
            "take one of the two out",
        )
    return Edition(
        id=key.value,
        pages=pages or usual,
        sizes=sizes or (),
        span=key.span,
        teacher=bool(teacher),
        names=(fields.get(ED_NAMES) if fields else None) or (),
    )


def repeated(pages: tuple[Page, ...]) -> tuple[Page, ...]:
    """The pages that stand in the list once already."""
    return tuple(
        page for k, page in enumerate(pages) if page.name in {one.name for one in pages[:k]}
    )
