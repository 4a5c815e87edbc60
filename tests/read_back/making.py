"""Patterns in other languages and units, their facts, pages and PDFs."""

import json
import re
import shutil
from pathlib import Path

import corpus
import pypdfium2
from held_figures import Album

from booklet.facts import facts_text
from booklet.kit.records import replace
from booklet.pages.composing import compose
from booklet.pages.pictures.album import drawn
from booklet.pages.prepress.pdf import make_pdf
from booklet.pages.style.fonts import boxed
from booklet.pattern import Paper
from booklet.recipe import compiler

HERE = Path(__file__).parent
# what a class makes, and what is cut in one part, is less than the facts of the size tell: test_class_kits.py and test_in_parts.py
LESS = {"class_with_kits", "in_two_parts"}
PATTERNS = (corpus.EXAMPLE, *(folder for folder in corpus.FOLDERS if folder.name not in LESS))


def in_words(folder, language, units, to):
    """A copy of a pattern in another language, and in other units if they are given; a pattern that names
    its ruler keeps its own."""
    copy = to / folder.name
    shutil.copytree(folder, copy)
    source = copy / "pattern.yaml"
    text = source.read_text(encoding="utf-8")
    keys = {"language": language, **({"units": units} if units and "ruler:" not in text else {})}
    for key, value in keys.items():
        text = f"{key}: {value}\n" + re.sub(rf"^{key}:.*\n", "", text, flags=re.M)
    source.write_text(text, encoding="utf-8")
    return copy


def said_in(folder, language):
    """The plan of a pattern for readers of another language: what was cut and sewn for its own stays."""
    checked = corpus.checked(folder).value
    return compiler.plan(replace(checked, pattern=replace(checked.pattern, language=language)))


def facts_of(plan):
    """The facts as a program reads them."""
    return json.loads(facts_text(plan))


def web_page(plan, size):
    """The laid-out web page of one size, without its pictures."""
    edition = plan.pattern.booklet.editions[0]
    return compose(plan, edition, lambda *_: Album({}), None, (size,)).html


def printed(plan, size, paper=Paper.A4):
    """The print page of one size, and the text of its PDF, page by page."""
    edition = plan.pattern.booklet.editions[0]
    html = compose(plan, edition, drawn(plan), paper, (size,)).html
    sheets = pypdfium2.PdfDocument(make_pdf(boxed(html)).data)
    return html, [sheet.get_textpage().get_text_bounded() for sheet in sheets]
