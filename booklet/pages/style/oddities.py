"""Floor 11, oddities: what a page would show otherwise than its author means. Warnings only.

Letters that the fonts of the booklet have not, HTML or template code, which is shown as typed, an imprint that no page
shows, colourways or layouts that no edition does, and pages for which there is nothing to print.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import islice

from booklet.kit.diagnostic import Diagnostic, Span, warning
from booklet.kit.words import wordings_of
from booklet.pages.sections import KIT_PAGES
from booklet.pages.style.fonts import LETTERS, SIGNS, missing_characters
from booklet.pages.style.own_sheet import sheet_oddities
from booklet.pattern import SINGLE_KINDS, Imprint, Pattern
from booklet.pattern.spoken import voices_of

MOST_TOLD = 20  # of one pattern; whoever has more has one cause
_CODE = re.compile(r"(?<!\\)(</?[A-Za-z][\w-]*(?:\s[^<>]*)?/?>|<!--|\{%|\{#)")
_QUOTED = re.compile(r"(`+).*?\1")
_VARIANTS = {chr(code) for code in range(0xFE00, 0xFE10)}  # they choose a form of the sign before


def oddities(pattern: Pattern) -> tuple[Diagnostic, ...]:
    """The warnings of all words of a pattern and its texts."""
    return tuple(islice(_found(pattern), MOST_TOLD))


def _found(pattern: Pattern) -> Iterator[Diagnostic]:
    yield from _unseen(pattern)
    yield from _unshown(pattern)
    yield from _empty(pattern)
    yield from _of_own_fonts(pattern)
    yield from sheet_oddities(pattern)
    for what, words, span in _words(pattern):
        yield from _missing(what, words, span)
    for file, text in sorted(pattern.texts.items()):
        for number, line in enumerate(text.splitlines(), 1):
            yield from _missing(f"`{file}`", line, Span(file, number, 1, 2))
            yield from _typed(file, number, line)


def _unseen(pattern: Pattern) -> Iterator[Diagnostic]:
    """A warning for an imprint that stands on no page."""
    pages = {page.name for edition in pattern.booklet.editions for page in edition.pages}
    if pattern.booklet.imprint != Imprint() and not pages & {"imprint", "back-cover"}:
        yield warning(
            "unseen-imprint",
            "the imprint is printed nowhere: no edition has the page `imprint` or `back-cover`",
            pattern.booklet.span,
            "add one of them to the `pages` of an edition",
        )


def _unshown(pattern: Pattern) -> Iterator[Diagnostic]:
    """A warning for colourways, or layouts, of which no edition is made and that no page shows."""
    if pattern.alternative or not pattern.complete:
        return
    editions = pattern.booklet.editions
    pages = {page.name for edition in editions for page in edition.pages}
    made = {name for edition in editions for name in edition.taken}
    for kind in SINGLE_KINDS:
        names = {one.id for one in pattern.alternatives if one.kind is kind and not one.is_own}
        if names and not names & made and f"{kind.value}s" not in pages:
            first = next(one for one in pattern.alternatives if one.id in names)
            yield warning(
                "alternatives",
                f"no edition shows the {kind.value}s",
                first.span,
                f"add the page `{kind.value}s` to an edition, or write `{kind.value}: {first.id}` in one",
            )


def _empty(pattern: Pattern) -> Iterator[Diagnostic]:
    """A warning for each page that an edition asks for and that has nothing to show."""
    if pattern.alternative or not pattern.complete:
        return
    lacking = dict(_lacking(pattern))
    asked = {page.span: page.name for edition in pattern.booklet.editions for page in edition.pages}
    for span, name in asked.items():
        if name in lacking:
            why, hint = lacking[name]
            message = f"there is nothing to print on the page `{name}`: {why}"
            yield warning("empty-page", message, span, f"{hint}, or take the page out")


def _lacking(pattern: Pattern) -> Iterator[tuple[str, tuple[str, str]]]:
    """The pages that would be empty, each with what is lacking, and what to write for it."""
    booklet, lesson = pattern.booklet, pattern.booklet.lesson
    if not (lesson.makes or lesson.homework or lesson.sessions):
        hint = "write `class: {sessions: [{title: The block, minutes: 90}]}` in `booklet`"
        yield "class", ("the booklet has no `class`", hint)
    if lesson.students is None:
        for name in KIT_PAGES:
            yield name, ("its class counts no students", "write `students: 12` in `class`")
    if not lesson.sessions:
        hint = "write `sessions: [{title: The block, minutes: 90}]` in `class`"
        yield "day", ("its class has no sessions", hint)
    for kind in SINGLE_KINDS:
        if not any(one.kind is kind for one in pattern.alternatives):
            name = f"{kind.value}s"
            yield name, (f"the pattern has no {name}", f"give it `{name}`")
    if not booklet.parts:
        yield "parts", ("the pattern does not come in parts", "write `parts` in `booklet`")
    if booklet.imprint == Imprint():
        hint = "write `imprint: {copyright: © 2026 Your Name}` in `booklet`"
        yield "imprint", ("the booklet has no `imprint`", hint)


def _of_own_fonts(pattern: Pattern) -> Iterator[Diagnostic]:
    """A warning for each font of the author's that lacks signs of what is set in it."""
    look = pattern.booklet.look
    letters = {c for voice in voices_of(pattern) for c in LETTERS.get(voice.language, ())}
    titles = "".join(
        said for each in (pattern.title, *look.titles.values()) for _, said in wordings_of(each)
    )
    texts = "".join((*SIGNS, *pattern.texts.values()))
    shown = (
        ("titles", look.title_font, titles),
        ("the text", look.text_font, texts),
        ("slanted words", look.text_italic, ""),
        ("bold words", look.text_bold, ""),
    )
    for what, name, words in shown:
        if (font := pattern.fonts.get(name)) is None:
            continue
        wanted = sorted(letters | set(words) - set(missing_characters(words)))
        lost = [
            c for c in wanted if c.isprintable() and not c.isspace() and ord(c) not in font.widths
        ]
        if lost:
            yield warning(
                "missing-letter",
                f"`{name}` has no {_signs(lost)}, which {what} may show: they are set in the booklet's own font",
                font.span,
                "look whether they go together, or take a font that has them",
            )


def _signs(lost: list[str]) -> str:
    """The first of some signs, and how many more there are."""
    more = f" and {len(lost) - 8} more" if len(lost) > 8 else ""
    return ", ".join(f"`{sign}`" for sign in lost[:8]) + more


def _words(pattern: Pattern) -> Iterator[tuple[str, str, Span]]:
    """The words of the source that are printed: what they are, the words, their place."""
    source = Span.whole(pattern.span.file)
    yield "the title", pattern.title, pattern.span
    yield "`designer`", pattern.designer, source
    yield "`version`", pattern.version, source
    yield "`summary`", pattern.summary, source
    cover, imprint = pattern.booklet.cover, pattern.booklet.imprint
    for skill in cover.skills:
        yield "`skills` of `cover`", skill, pattern.booklet.span
    for name, words in (
        ("copyright", imprint.copyright),
        ("licence", imprint.licence),
        ("price", imprint.price),
    ):
        yield f"`{name}` of `imprint`", words, pattern.booklet.span
    for one in pattern.alternatives:
        yield f"{one.kind.value} `{one.id}`", one.title, one.span
    for size in pattern.sizes:
        yield f"size `{size.id}`", size.title, size.span
    fabrics = {id: fabric for size in pattern.sizes for id, fabric in size.fabrics.items()}
    for id, fabric in sorted(fabrics.items()):
        yield f"fabric `{id}`", fabric.name, fabric.span
    for block in pattern.blocks:
        yield f"block `{block.id}`", block.title, block.span
        for step in block.steps or ():
            yield f"step `{step.make}`", f"{step.make} {step.note or ''}", step.span


def _missing(what: str, words: str, span: Span) -> Iterator[Diagnostic]:
    """A warning for words with letters that the fonts have not."""
    every = " ".join(said for _, said in wordings_of(words))
    lost = [sign for sign in missing_characters(every) if sign not in _VARIANTS]
    if not lost:
        return
    if span.file in what:  # a line of a text: point at the first of them
        at = next(i for i, sign in enumerate(words, 1) if sign in lost)
        span = Span(span.file, span.line, at, at + 1)
    shown = ", ".join(f"`{sign}`" for sign in lost[:3]) + (" and more" if len(lost) > 3 else "")
    yield warning(
        "missing-letter",
        f"{what} holds {shown}, which the fonts of the booklet have not",
        span,
        "write it in Latin, Greek or Cyrillic letters; otherwise the PDF shows an empty box",
    )


def _typed(file: str, number: int, line: str) -> Iterator[Diagnostic]:
    """A warning for the first HTML or template code of a line."""
    found = _CODE.search(_QUOTED.sub(lambda m: " " * len(m.group()), line))
    if found and not line.startswith(("    ", "\t")):
        sign = found.group(1)
        yield warning(
            "code-in-text",
            f"`{sign[:40]}` is shown as it is typed: texts are Markdown, without HTML or other code",
            Span(file, number, found.start(1) + 1, found.end(1) + 1),
            "write it in Markdown, or take it out",
        )
