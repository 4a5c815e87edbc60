"""An edition as a book for e-readers: its files by the EPUB 3.3 and Open Container Format texts of the W3C."""

import io
import re
import shutil
import subprocess
from datetime import date
from pathlib import Path
from xml.etree import ElementTree
from zipfile import ZIP_STORED, ZipFile

import corpus
import pytest

from booklet.__main__ import main
from booklet.exports.chapters.epub import epub
from booklet.kit.records import replace
from booklet.pages.composing import compose
from booklet.pages.style_sheets import spelled_out
from booklet.pages.texts.templating import template_text

HERE = Path(__file__).parent
OPF = "{http://www.idpf.org/2007/opf}"
DC = "{http://purl.org/dc/elements/1.1/}"
NAMES = ("words_about_pages", "hexagon_rosette_1", "own_look")


def made(name: str):
    plan = corpus.plan_of(HERE / "patterns" / name)
    edition = plan.pattern.booklet.editions[0]
    return epub(compose(plan, edition), plan.pattern), plan


def files(book: bytes) -> dict[str, bytes]:
    with ZipFile(io.BytesIO(book)) as opened:
        return {each: opened.read(each) for each in opened.namelist()}


@pytest.mark.parametrize("name", NAMES)
def test_every_file_is_listed_and_every_address_leads_to_one(name):
    book, _ = made(name)
    inside = files(book)
    package = ElementTree.fromstring(inside["book/book.opf"])
    listed = {each.get("id"): each.get("href") for each in package.iter(f"{OPF}item")}
    assert {f"book/{href}" for href in listed.values()} == {
        each for each in inside if each.startswith("book/") and each != "book/book.opf"
    }
    spine = [listed[each.get("idref")] for each in package.iter(f"{OPF}itemref")]
    assert sorted(spine) == sorted(each for each in listed.values() if each.endswith(".xhtml"))
    names = {
        href: [
            found
            for found in ElementTree.fromstring(inside[f"book/{href}"]).iter()
            if found.get("id")
        ]
        for href in spine
    }
    for href in spine:
        text = inside[f"book/{href}"].decode()
        assert "<script" not in text and "data:" not in text
        ids = [each.get("id") for each in names[href]]
        assert len(ids) == len(set(ids))
        for address in map(max, re.findall(r'\b(?:href|src)="([^"]*)"|url\(([^)#]*)\)', text)):
            if address.startswith(("https:", "mailto:")):
                continue
            file, _, place = address.partition("#")
            assert not file or f"book/{file}" in inside, address
            home = file or href
            if place and home.endswith(".xhtml"):
                assert place in {each.get("id") for each in names[home]}, address


def test_the_container_is_as_readers_look_for_it():
    book, plan = made("hexagon_rosette_1")
    with ZipFile(io.BytesIO(book)) as opened:
        first = opened.infolist()[0]
        assert (first.filename, first.compress_type, first.extra) == ("mimetype", ZIP_STORED, b"")
        assert opened.read("mimetype") == b"application/epub+zip"
    assert book[30:58] == b"mimetypeapplication/epub+zip"  # at its fixed place
    package = ElementTree.fromstring(files(book)["book/book.opf"])
    assert package.find(f"{OPF}metadata/{DC}language").text == plan.pattern.language
    assert plan.pattern.title in package.find(f"{OPF}metadata/{DC}title").text


def test_the_same_pattern_gives_the_same_bytes_and_dates_are_the_authors():
    book, plan = made("hexagon_rosette_1")
    assert book == made("hexagon_rosette_1")[0]
    dated = replace(plan.pattern, date=date(2031, 5, 4))
    told = files(epub(compose(plan, dated.booklet.editions[0]), dated))["book/book.opf"].decode()
    assert '<meta property="dcterms:modified">2031-05-04T00:00:00Z</meta>' in told


@pytest.mark.parametrize(
    ("head", "plain"),
    [
        (":is(.a, .b) h3 {", ".a h3, .b h3 {"),
        ("p, .c :is(td, th) > :is(i, b) {", "p, .c td > i, .c td > b, .c th > i, .c th > b {"),
        (":not(.x) :is(a, b):lang(de) {", ":not(.x) a:lang(de), :not(.x) b:lang(de) {"),
    ],
)
def test_rules_are_spelled_out_for_older_readers(head, plain):
    assert spelled_out(head) == plain


@pytest.mark.parametrize("sheet", ["style.css", "screen.css", "print.css"])
def test_no_head_of_ours_holds_brackets_that_are_not_spelled_out(sheet):
    assert ":is(" not in spelled_out(template_text(sheet))


def test_books_are_made_where_they_are_asked_for(tmp_path):
    folder = HERE / "patterns" / "nine_patch"
    assert main(["build", str(folder), "--out", str(tmp_path), "--web", "--epub", "--quiet"]) == 0
    assert len(list(tmp_path.glob("*.epub"))) == len(list(tmp_path.glob("*.html"))) > 0


def jar() -> str | None:
    found = shutil.which("epubcheck")
    return str(Path(found).resolve()) if found and shutil.which("java") else None


@pytest.mark.skipif(
    jar() is None, reason="the W3C's checker of such books, which needs Java, is not here"
)
def test_the_checker_of_the_w3c_finds_nothing(tmp_path):
    path = tmp_path / "book.epub"
    path.write_bytes(made("words_about_pages")[0])
    done = subprocess.run(
        ["java", "-jar", jar(), str(path)], capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr[:2000]
