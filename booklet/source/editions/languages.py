"""Floor 2: the texts of all editions in their languages, and what is there in some of them only.

A text `welcome.md` may have others beside it, `welcome.de.md`, for editions in another language. What a language lacks
is no fault: the words for the pattern's own are printed in its place, and a warning says so.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Mapping
from posixpath import basename, dirname
from types import MappingProxyType

from booklet.kit.diagnostic import Diagnostic, Span, warning
from booklet.kit.records import replace
from booklet.kit.words import LANGUAGE_NAMES, LANGUAGES, worded
from booklet.pattern import Booklet, Edition, Page, Voice
from booklet.pattern.spoken import common_name, forms_of, text_in
from booklet.source.files.folder import Folder
from booklet.source.tree.node import shortened
from booklet.source.values.kinds import Given, Reading

_FORM = re.compile(r"(.+)\.([a-z]{2}(?:-[A-Za-z]{2})?)\.md")
_ENGLISH = {"en": "English", "de": "German", "fr": "French"}


def has_text(name: str, files: Folder) -> bool:
    """Whether the folder has a text in any language."""
    return any(files.exists(each) for each in _all_forms(name))


def _all_forms(name: str) -> tuple[str, ...]:
    """All files in which a text may stand."""
    return tuple(dict.fromkeys(each for language in LANGUAGES for each in forms_of(name, language)))


def read_texts(booklet: Booklet, own: str, files: Folder) -> dict[str, str]:
    """The text pages of all editions and the texts about pages, in the languages of the editions that ask for them, by
    the names of their files. One that is there in no language is a fault."""
    wanted: dict[str, Span] = {}
    for page, languages in _named(booklet, own):
        found = [_form(page.name, language, files) for language in (own, *languages)]
        for name in dict.fromkeys(found):
            wanted.setdefault(name, page.span)
    read = {name: files.text(name, span) for name, span in sorted(wanted.items())}
    return {name: text for name, text in read.items() if text is not None}


def _form(name: str, language: str, files: Folder) -> str:
    """The file of a text in a language; where there is none, any of the text."""
    there = [each for each in (*forms_of(name, language), *_all_forms(name)) if files.exists(each)]
    return there[0] if there else name


def _named(booklet: Booklet, own: str) -> Iterator[tuple[Page, tuple[str, ...]]]:
    """The texts that are named, each with the languages that it is printed in."""
    spoken = {edition.voice.language if edition.voice else own for edition in booklet.editions}
    found: dict[str, tuple[Page, set[str]]] = {}
    about = (*booklet.look.before.values(), *booklet.look.after.values())
    for edition in booklet.editions:
        language = edition.voice.language if edition.voice else own
        for page in edition.pages:
            if page.name.endswith(".md"):
                found.setdefault(page.name, (page, set()))[1].add(language)
    for page in about:
        found.setdefault(page.name, (page, set()))[1].update(spoken)
    for name in sorted(found):
        yield found[name][0], tuple(sorted(found[name][1]))


def in_files(booklet: Booklet, language: str, texts: Collection[str]) -> Booklet:
    """The booklet with its texts named by their files in a language."""

    def there(page: Page) -> Page:
        return replace(page, name=text_in(page.name, language, texts))

    def about(pages: Mapping[str, Page]) -> Mapping[str, Page]:
        return MappingProxyType({name: there(page) for name, page in pages.items()})

    look = replace(booklet.look, before=about(booklet.look.before), after=about(booklet.look.after))
    editions = tuple(
        replace(edition, pages=tuple(map(there, edition.pages))) for edition in booklet.editions
    )
    return replace(booklet, editions=editions, look=look)


def languages_lacking(
    booklet: Booklet, own: Voice, reading: Reading, texts: Collection[str], files: Folder
) -> tuple[Diagnostic, ...]:
    """Warnings for what an edition's language lacks, and for texts in a language that none has."""
    languages = tuple(
        dict.fromkeys(
            (own.language, *(e.voice.language for e in booklet.editions if e.voice is not None))
        )
    )
    words = (
        _without_words(given, language, own.language, span)
        for span, given in sorted(reading.worded.items())
        for language in languages
        if worded(given.wordings, language) is None
    )
    return (
        *words,
        *_without_text(booklet, own.language, texts),
        *_for_nobody(booklet, own.language, languages, files),
        *(() if reading.faults.noted else _alike(booklet.editions)),
    )


def _without_words(given: Given, language: str, own: str, span: Span) -> Diagnostic:
    """The warning for words that are missing in a language."""
    there = own if worded(given.wordings, own) is not None else given.wordings[0][0]
    instead = given.instead or f"the {_name(there)} ones (`{there}`)"
    return warning(
        "missing-language",
        f"{given.what} has no {_name(language)} words (`{language}`); "
        f"{instead} {'are' if not given.instead else 'is'} printed in their place",
        span,
        f"add `{language}: …`",
    )


def _without_text(booklet: Booklet, own: str, texts: Collection[str]) -> Iterator[Diagnostic]:
    """The warnings for texts that are missing in a language of an edition that has them."""
    for page, languages in _named(booklet, own):
        if common_name(page.name) != page.name:
            continue  # the file in one language was named
        for language in languages:
            forms = tuple(forms_of(page.name, language))
            usual = forms[:-1] if language != own else forms
            there = text_in(page.name, own, texts)
            if there in texts and not any(form in texts for form in usual):
                yield warning(
                    "missing-language",
                    f"`{shortened(page.name)}` has no {_name(language)} text (`{basename(forms[0])}`); "
                    f"`{shortened(there)}` is printed in its place",
                    page.span,
                    f"write `{shortened(forms[0])}` beside it",
                )


def _for_nobody(
    booklet: Booklet, own: str, languages: Collection[str], files: Folder
) -> Iterator[Diagnostic]:
    """The warnings for texts beside others that are in a language which no edition has."""
    spoken = {LANGUAGES[language] for language in languages}
    named = {page.name for page, _ in _named(booklet, own)}
    for folder in sorted({dirname(name) for name in named}):
        for path in files.names(folder or ".", ".md"):
            name = path.removeprefix("./")
            found = _FORM.fullmatch(name)
            if found is None or name in named or f"{found[1]}.md" not in named:
                continue
            if LANGUAGES.get(found[2]) in spoken:
                continue
            known = found[2] in LANGUAGES
            why = (
                "no edition is made in that language" if known else "the booklet does not speak it"
            )
            hint = (
                f"add the language to an edition: `language: [{', '.join((*languages, found[2]))}]`"
                if known
                else f"the languages are {', '.join(f'`{each}`' for each in LANGUAGES)}"
            )
            message = f"`{shortened(name)}` is printed nowhere: {why}"
            yield warning("unused-language", message, Span.whole(name), hint)


def _alike(editions: Collection[Edition]) -> Iterator[Diagnostic]:
    """The warnings for editions that print the same as another."""
    first: dict[object, str] = {}
    for edition in editions:
        pages = tuple(page.name for page in edition.pages)
        made = edition.alternative, edition.part, edition.order
        told = edition.teacher, edition.names, edition.title, edition.voice
        said = (pages, edition.sizes, *told, *made)
        other = first.setdefault(said, edition.id)
        if other != edition.id:
            yield warning(
                "alike-editions",
                f"editions `{shortened(other)}` and `{shortened(edition.id)}` print the same",
                edition.span,
                "take one of them out, or give it pages, sizes or a language of its own",
            )


def _name(language: str) -> str:
    """A language in English."""
    return _ENGLISH.get(language.partition("-")[0], LANGUAGE_NAMES[language])
