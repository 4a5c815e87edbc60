"""Floor 2: `booklet`: the paper, and which pages each edition prints."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from itertools import product
from typing import Any

from booklet.kit.bounds import MOST_NAMES, MOST_PAGES
from booklet.kit.diagnostic import Span, did_you_mean
from booklet.kit.records import replace
from booklet.kit.words import LANGUAGES, worded
from booklet.pattern import (
    BETWEEN,
    Address,
    Alternative,
    Booklet,
    Edition,
    Instalment,
    Page,
    PageOrder,
    Paper,
    Voice,
)
from booklet.source.editions.front import read_cover, read_imprint
from booklet.source.editions.lessons import read_lesson
from booklet.source.editions.look import read_look
from booklet.source.editions.parts import part_list, read_parts
from booklet.source.files.page_names import PAGES
from booklet.source.tree.node import Map, Node, Text, shortened
from booklet.source.values.fields import Fields, Key, Table, open_fields
from booklet.source.values.groups import group, list_of, named, one_or_list
from booklet.source.values.kinds import (
    Kind,
    Reading,
    name_of,
    one_of,
    text,
    word,
    wrong_kind,
    yes_no,
)
from booklet.source.values.names import file_part, named_entries
from booklet.source.values.units_of_length import Units, unit_words
from booklet.source.values.wordings import by_language, wording

WELCOME = "text/welcome.md"
DEFAULT_PAGES = {
    "pattern": (
        "cover", WELCOME, "materials", "colourways", "layouts", "cutting", "templates", "piecing", "pressing", "quilt",
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
ED_TITLE = Key("title", wording("a title", longest=80), "What the booklet calls the edition.")
ED_LANGUAGE = Key(
    "language",
    one_or_list(word(tuple(LANGUAGES)), "a language, or a list such as `[en, de]`"),
    "Its language; of several, it is made in each. The pattern's own if left out.",
)
ED_UNITS = Key(
    "units",
    by_language(unit_words(), "{en: inch, de: cm}"),
    "Its units, for each language if they differ; the pattern's own if left out.",
)
ED_ADDRESS = Key(
    "address",
    by_language(one_of(Address), "{de: familiar, fr: formal}"),
    "How it addresses the reader in German and French; as the pattern does if left out.",
)
_NAME = text("a name", longest=60)


def _person(node: Node, what: str, reading: Reading) -> str | None:
    """A name that can be read on a copy."""
    name = _NAME.read(node, what, reading)
    if name == "":
        reading.faults.add(
            "wrong-kind", f"a name in {what} is empty", node.span, "write a name, or take it out"
        )
        return None
    return name


ED_NAMES = Key(
    "names",
    list_of(Kind(_NAME.words, _person, _NAME.schema), "a list of names", most=MOST_NAMES),
    "The names of a class; each gets a copy. Left out, the copy has a line to write on.",
)
ED_ORDER = Key(
    "order",
    one_of(PageOrder),
    "In which order it goes; `by block` tells with the steps of each block what is cut for it and how it is pressed, and on "
    "the page `cutting` the strips of all.",
    default="by page",
)
ED_PARTS = Key(
    "parts",
    yes_no(),
    "Whether it is made once for each part; else it tells of the whole.",
    default="no",
)
ED_COLOURWAY = Key(
    "colourway",
    one_or_list(name_of("colourway"), "a colourway, or a list such as `[day, dusk]`"),
    "The colourway in which it is made; of several, it is made in each, and in each layout it names. The pattern as it is if left out.",
)
ED_LAYOUT = Key(
    "layout",
    one_or_list(name_of("layout"), "a layout, or a list such as `[rows, ring]`"),
    "The layout in which it is made; of several, it is made in each, and in each colourway it names. The pattern as it is if left out.",
)
EDITION = Table(
    "edition",
    "A way of printing the pattern.",
    (
        ED_TITLE,
        ED_PAGES,
        ED_SIZES,
        ED_LANGUAGE,
        ED_UNITS,
        ED_ADDRESS,
        ED_TEACHER,
        ED_NAMES,
        ED_ORDER,
        ED_PARTS,
        ED_COLOURWAY,
        ED_LAYOUT,
    ),
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
COVER = Key(
    "cover",
    group("cover"),
    "A photograph for the cover, for whom the pattern is, what one must know.",
)
IMPRINT = Key(
    "imprint", group("imprint"), "Whose it is, its ISBN with its bar code, price and contact."
)
PARTS = Key(
    "parts",
    part_list(),
    "The parts in which the pattern comes, in order, for editions that say `parts: yes`. Cloth is planned for all of them "
    "at once; in the last the quilt is joined.",
)
BOOKLET = Table(
    "booklet", "The wishes for the booklet.", (PAPER, EDITIONS, PARTS, COVER, IMPRINT, CLASS, LOOK)
)


def read_booklet(
    node: Map | None, where: Span, reading: Reading, left_out: Collection[str], own: Voice
) -> Booklet:
    """The booklet; its default pages have none of those `left_out`, on which there is nothing. `own` is the voice of the
    pattern, which holds where an edition says nothing. An edition in several languages is there once for each."""
    span = node.span if node else where
    fields = Fields(node or Map((), where), BOOKLET, "`booklet`", span, reading)
    written = fields.get(EDITIONS)
    parts = read_parts(fields.get(PARTS), reading)
    editions: list[Edition] = []
    for key, value in named_entries(written, "edition", reading) if written else ():
        editions += _editions(key, value, reading, left_out, own, parts)
    if not editions:
        editions = [
            Edition(id=id, pages=_defaults(id, span, left_out), sizes=(), span=span)
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
        cover=read_cover(fields.get(COVER), reading),
        imprint=read_imprint(fields.get(IMPRINT), reading),
        parts=parts,
    )


def refuse_same_files(
    booklet: Booklet, sizes: tuple[str, ...], alternatives: Sequence[Alternative], reading: Reading
) -> None:
    """Note editions whose file for one size and paper, in one colourway or layout, would have the name of another's for
    others."""
    first: dict[str, tuple[str, str]] = {}
    others = [one.id for one in alternatives if not one.is_own]
    editions = [
        e for each in booklet.editions for e in (each, *(made_in(each, id) for id in others))
    ]
    for edition in editions:  # those of one name in other languages are told apart by these
        for size, paper in product((*sizes, "all sizes"), Paper):
            name = "-".join(map(file_part, (*named_by(edition), size, paper.value)))
            other, in_size = first.setdefault(name, (edition.id, size))
            if other != edition.id:
                message = (
                    f"edition `{shortened(other)}` in size `{shortened(in_size)}` and edition "
                    f"`{shortened(edition.id)}` in size `{shortened(size)}` would have files of the same name"
                )
                hint = "give one of them another name; its `title` may stay"
                reading.faults.add("duplicate-name", message, edition.span, hint)
                break


def made_in(edition: Edition, alternative: str) -> Edition:
    """An edition in a colourway or layout, which the names of its files tell."""
    return replace(edition, alternative=alternative, tell_alternative=True)


def may_be_made_in(edition: Edition, alternative: str) -> bool:
    """Whether an edition that is asked for in a colourway, a layout or both is not in another one by itself."""
    return set(edition.taken) <= set(alternative.split(BETWEEN))


def named_by(edition: Edition) -> tuple[str, ...]:
    """What the names of an edition's files tell it by: its name, its colourway or layout where it could be made in others,
    its part, and its language where it is made in several."""
    taken = edition.taken if edition.tell_alternative else ()
    part = (*taken, *((f"part {edition.part}",) if edition.part else ()))
    if edition.voice is None or not edition.tell_language:
        return (edition.id, *part)
    return (edition.id, *part, edition.voice.language)


def _defaults(id: str, span: Span, left_out: Collection[str]) -> tuple[Page, ...]:
    names = DEFAULT_PAGES.get(id, DEFAULT_PAGES["pattern"])
    return tuple(Page(name, span) for name in names if name not in left_out)


def _editions(
    key: Text,
    value: Node,
    reading: Reading,
    left_out: Collection[str],
    own: Voice,
    parts: Sequence[Instalment],
) -> tuple[Edition, ...]:
    """An edition in each of its languages, and of each of its parts; without pages it has the usual ones."""
    what, empty = f"edition `{key.value}`", Map((), key.span)
    if isinstance(value, Text) and value.is_empty:
        value = empty
    fields = open_fields(value, EDITION, what, key.span, reading)
    if fields is None:
        fields = Fields(empty, EDITION, what, key.span, reading)
    pages = fields.get(ED_PAGES, ())
    for page in repeated(pages):
        reading.faults.add(
            "duplicate-name",
            f"page `{shortened(page.name)}` is listed twice in edition `{key.value}`",
            page.span,
            "take one of the two out",
        )
    edition = Edition(
        id=key.value,
        pages=pages or _defaults(key.value, key.span, left_out),
        sizes=fields.get(ED_SIZES, ()),
        span=key.span,
        teacher=fields.get(ED_TEACHER, False),
        names=fields.get(ED_NAMES, ()),
        title=fields.get(ED_TITLE, ""),
        order=fields.get(ED_ORDER, PageOrder.PAGES),
    )
    _refuse_order(edition, fields)
    alternatives, voices = _alternatives(fields), _voices(fields, own)
    several, apart = len(voices) > 1, len(alternatives) > 1
    in_each = tuple(
        replace(edition, alternative=one, tell_alternative=apart) for one in alternatives
    ) or (edition,)
    said = (
        tuple(replace(each, voice=v, tell_language=several) for each in in_each for v in voices)
        or in_each
    )
    if not _in_parts(edition, fields, parts):
        return said
    return tuple(replace(each, part=n) for each in said for n in range(1, len(parts) + 1))


def _alternatives(fields: Fields) -> tuple[str, ...]:
    """The names of the colourways and layouts in which an edition is made, of both BETWEEN them; none where it is as the
    pattern is."""
    colourways = _named_once(ED_COLOURWAY, fields)
    layouts = _named_once(ED_LAYOUT, fields)
    if colourways and layouts:
        return tuple(map(BETWEEN.join, product(colourways, layouts)))
    return colourways or layouts


def _named_once(key: Key[tuple[str, ...]], fields: Fields) -> tuple[str, ...]:
    """The names under a key, each once; noted is one that stands there again."""
    there = fields.get(key) or ()
    for k, name in enumerate(there):
        if name in there[:k]:
            message = f"{fields.what} is made in `{shortened(name)}` twice"
            hint = "take one of the two out"
            fields.reading.faults.add("duplicate-name", message, fields.span(key), hint)
    return tuple(dict.fromkeys(there))


def _in_parts(edition: Edition, fields: Fields, parts: Sequence[Instalment]) -> bool:
    """Whether an edition is made in parts; noted where there are none, and where it is for a class."""
    if not fields.get(ED_PARTS):
        return False
    faults, span = fields.reading.faults, fields.span(ED_PARTS)
    if not parts:
        message = f"{fields.what} is to be made in parts, but `booklet` has no `parts`"
        faults.add(
            "parts", message, span, "write them: `parts: [{title: First month, blocks: [...]}]`"
        )
    if edition.of_class:
        message = f"{fields.what} is made in parts and is for the class"
        hint = "take `parts` out, or the pages of the class"
        faults.add("conflicting-keys", message, span, hint)
    return bool(parts) and not edition.of_class


def _refuse_order(edition: Edition, fields: Fields) -> None:
    """Note an order by block in an edition without steps, which would change nothing."""
    if edition.order is PageOrder.BLOCKS and not edition.told_by_block:
        message = f"{fields.what} goes `by block`, but without the pages `piecing` and `cutting` or `pressing` there is nothing to order"
        hint = "add these pages, or take `order` out"
        fields.reading.faults.add("conflicting-keys", message, fields.span(ED_ORDER), hint)


def _voices(fields: Fields, own: Voice) -> tuple[Voice, ...]:
    """The voices of an edition, one for each of its languages; none where it is as the pattern is."""
    languages = fields.get(ED_LANGUAGE)
    units, address = fields.get(ED_UNITS) or (), fields.get(ED_ADDRESS) or ()
    made = languages or (own.language,)
    _refuse_twice(made, fields)
    misspelt = fields.has(ED_LANGUAGE) and not languages  # it is not known which are made
    if not misspelt:
        for key, said in ((ED_UNITS, units), (ED_ADDRESS, address)):
            _refuse_others(key, [language for language, _ in said], made, fields)
    if not (languages or units or address):
        return ()
    return tuple(_voice(language, own, units, address) for language in dict.fromkeys(made))


def _refuse_twice(made: Sequence[str], fields: Fields) -> None:
    """Note a language in which an edition is made twice."""
    spoken = [LANGUAGES[language] for language in made]
    for k, language in enumerate(made):
        if spoken[k] in spoken[:k]:
            message = f"{fields.what} is made in `{language}` twice"
            hint = "take one of the two out"
            fields.reading.faults.add("duplicate-name", message, fields.span(ED_LANGUAGE), hint)


def _refuse_others(key: Key[Any], said: Sequence[str], made: Sequence[str], fields: Fields) -> None:
    """Note a language for which something is said and in which the edition is not made."""
    spoken = {LANGUAGES[language] for language in made}
    for language in said:
        if language and LANGUAGES[language] not in spoken:
            message = f"{fields.what} is not made in `{language}`"
            hint = f"add the language: `language: [{', '.join((*made, language))}]`"
            fields.reading.faults.add("unknown-name", message, fields.span(key), hint)


def _voice(
    language: str,
    own: Voice,
    units: Sequence[tuple[str, Units]],
    address: Sequence[tuple[str, Address]],
) -> Voice:
    """The voice of an edition in a language; what it does not say is as in the pattern."""
    printed = worded(units, language) or Units(own.units, own.both)
    return Voice(language, printed.first, printed.both, worded(address, language) or own.address)


def repeated(pages: tuple[Page, ...]) -> tuple[Page, ...]:
    """The pages that stand in the list once already."""
    return tuple(
        page for k, page in enumerate(pages) if page.name in {one.name for one in pages[:k]}
    )
