"""Languages and units of editions: words by language, texts by file, both units side by side, pages that lead to each other."""

import re
from argparse import Namespace
from functools import cache
from pathlib import Path

import pytest
from markupsafe import Markup
from test_words import sticking_out

from booklet.commands import run
from booklet.commands.line.asking import unknown_edition, unknown_language
from booklet.exports.files import exported
from booklet.kit.measure import Length, Printed, printed
from booklet.kit.records import replace
from booklet.kit.remembered.memory import plainly
from booklet.kit.remembered.settled import settled
from booklet.kit.words import Worded
from booklet.pages.composing import compose
from booklet.pattern import Address, Paper, Voice
from booklet.pattern.spoken import common_name, forms_of, spoken, voices_of
from booklet.preview.bench.bench import Bench, Choice
from booklet.recipe import compiler
from booklet.recipe.checking import check_voices, in_voice
from booklet.recipe.choices import key_of
from booklet.recipe.inventory import state_of
from booklet.source.blocks.step_words import step_lines
from booklet.source.reader import read_folder

PATTERNS = Path(__file__).parent / "patterns"
TWO, BOTH = PATTERNS / "two_languages", PATTERNS / "both_units"
ENGLISH, GERMAN = Voice("en", "inch"), Voice("de", "cm", address=Address.FAMILIAR)


@cache
def checked(folder):
    found = compiler.check(folder)
    assert found.diagnostics == ()
    return found.value


@cache
def told(voice, place):
    """The web page of an edition of the windmill in a voice, and its words."""
    plan = compiler.plan(in_voice(checked(TWO), voice, plainly))
    document = compose(plan, plan.pattern.booklet.editions[place])
    return document, Markup(
        re.sub(r"<style>.*?</style>", "", document.html, flags=re.S)
    ).striptags()


# Words by language


GERMAN_WORDS = (
    "Hafenmühle", "Vier Flügel aus zwei Stoffen.", "Version 1.0, Frühling", "Deckchen", "Dunkelblau", "Windmühle",
    "Flügel", "obere Reihe", "Die schrägen Kanten nicht dehnen.", "An der Maschine", "Bevor es losgeht",
    "Deckchen an einem Nachmittag nähen.",
)  # fmt: skip
ENGLISH_WORDS = (
    "Harbor windmill", "Four sails in two cloths.", "Version 1.0, spring", "Table mat", "Dark blue", "Windmill",
    "sail", "upper row", "Mind the bias edges.", "At the machine", "Before you begin", "Sew Table mat in one afternoon.",
)  # fmt: skip


def test_an_edition_says_all_in_its_language_and_nothing_in_another():
    _, english = told(ENGLISH, 0)
    _, german = told(GERMAN, 1)
    for one, other in zip(ENGLISH_WORDS, GERMAN_WORDS, strict=True):
        assert one in english and other not in english
        assert other in german and one not in german


def test_a_class_and_the_title_of_an_edition_are_said_in_its_language():
    _, english = told(ENGLISH, 2)
    _, german = told(replace(GERMAN, units="inch", address=Address.FORMAL), 3)
    for said, other in (
        ("For the class", "Für den Kurs"),
        ("Cut the patches.", "Die Teile zuschneiden."),
        ("The sails", "Die Flügel"),
        ("Sew steps 1 to 3.", "Schritte 1 bis 3 nähen."),
    ):
        assert said in english and other not in english
        assert other in german and said not in german


def test_the_page_says_which_language_it_is_in_and_addresses_its_reader():
    document, german = told(GERMAN, 1)
    assert '<html lang="de"' in document.html
    assert "Was du nähst" in german and "Was Sie nähen" not in german
    _, formal = told(replace(GERMAN, address=Address.FORMAL), 1)
    assert "Was Sie nähen" in formal


def test_units_are_those_of_the_edition():
    # half-square triangles of 2 in: 2 + 7/8 = 2 7/8 in; 50.8 + (2 + √2) × 6.35 = 72.48 mm, up to the millimetre 7.3 cm
    _, english = told(ENGLISH, 0)
    _, german = told(GERMAN, 1)
    assert "2⅞" in english and "7,3" not in english
    assert re.search(r"7,3\s*cm", german) and "2⅞" not in german


def test_words_by_language_are_told_apart_and_kept_apart():
    one = Worded((("en", "sail"), ("de", "Flügel")), "en")
    assert one == "sail" and hash(one) == hash("sail") and one in {"sail"}
    assert one != Worded((("en", "sail"), ("de", "Segel")), "en")
    assert one.said_in("de") == "Flügel" and one.said_in("en-GB") == "sail"
    assert one.said_in("fr") == "sail"  # of the pattern's own
    assert type(one.said_in("en")) is str
    assert Worded((("de", "Flügel"),), "en") == "Flügel"  # the first there are


def test_british_and_american_english_are_one_language_unless_both_are_written():
    assert Worded((("en", "gray"), ("en-GB", "grey")), "en-GB") == "grey"
    assert Worded((("en", "gray"), ("en-GB", "grey")), "en-US") == "gray"
    assert Worded((("en-US", "gray"), ("de", "grau")), "en") == "gray"


def test_a_pattern_in_one_voice_has_no_trace_of_others():
    pattern = spoken(checked(TWO).pattern, GERMAN)
    assert "Worded" not in repr(pattern) and "Harbor" in pattern.files_title
    assert pattern.title == "Hafenmühle" and pattern.units == "cm"
    plain = read_folder(PATTERNS / "log_cabin").value
    same = spoken(plain, plain.voice)
    assert (
        same.blocks is plain.blocks and same.sizes is plain.sizes
    )  # what has no words by language stays


def test_an_edit_of_one_language_alone_is_an_edit(tmp_path):
    source = (TWO / "pattern.yaml").read_text("utf-8")
    (tmp_path / "text").mkdir()
    for name in ("welcome.md", "welcome.de.md"):
        (tmp_path / "text" / name).write_bytes((TWO / "text" / name).read_bytes())
    (tmp_path / "pattern.yaml").write_text(source, "utf-8")
    before = read_folder(tmp_path).value
    (tmp_path / "pattern.yaml").write_text(source.replace("Dunkelblau", "Nachtblau"), "utf-8")
    after = read_folder(tmp_path).value
    assert state_of(before) != state_of(after)  # so that booklets are made anew
    assert settled(after, before) is not before
    ink = spoken(settled(after, before), GERMAN).sizes[0].fabrics["ink"]
    assert ink.name == "Nachtblau"


def test_steps_are_written_back_with_all_their_languages():
    lines = step_lines(checked(TWO).pattern.blocks[0].steps[:1])
    assert lines == (
        '{make: s1, title: {en: "sail", de: "Flügel"}, join: [r1c1a, r1c1b], '
        'note: {en: "Mind the bias edges.", de: "Die schrägen Kanten nicht dehnen."}}',
    )


# Texts by file


def test_the_file_of_a_text_is_that_of_its_language():
    assert tuple(forms_of("text/welcome.md", "de")) == ("text/welcome.de.md", "text/welcome.md")
    assert tuple(forms_of("text/welcome.de.md", "en-GB"))[:2] == (
        "text/welcome.en-GB.md",
        "text/welcome.en.md",
    )
    assert common_name("text/welcome.de.md") == "text/welcome.md"
    assert common_name("text/welcome.old.md") == "text/welcome.old.md"


def test_a_text_in_every_language_needs_no_file_without_one(tmp_path):
    source = (TWO / "pattern.yaml").read_text("utf-8")
    (tmp_path / "pattern.yaml").write_text(source, "utf-8")
    (tmp_path / "text").mkdir()
    (tmp_path / "text" / "welcome.en.md").write_text("Welcome.\n", "utf-8")
    (tmp_path / "text" / "welcome.de.md").write_text("Willkommen.\n", "utf-8")
    found = compiler.check(tmp_path)
    assert found.diagnostics == ()
    assert [page.name for page in found.value.pattern.booklet.editions[0].pages][1] == (
        "text/welcome.en.md"
    )
    german = spoken(found.value.pattern, GERMAN).booklet.editions[1].pages
    assert german[1].name == "text/welcome.de.md"


def test_faults_of_a_text_in_another_language_are_found(tmp_path):
    (tmp_path / "pattern.yaml").write_bytes((TWO / "pattern.yaml").read_bytes())
    (tmp_path / "text").mkdir()
    (tmp_path / "text" / "welcome.md").write_text("Welcome.\n", "utf-8")
    (tmp_path / "text" / "welcome.de.md").write_text("Zu {{ size.titel }}.\n", "utf-8")
    faults = [d for d in compiler.check(tmp_path).diagnostics if d.is_error]
    assert [(d.code, d.span.file) for d in faults] == [("unknown-value", "text/welcome.de.md")]


# Editions and their files


@pytest.fixture(scope="module")
def built():
    files = {}
    compiler.build(checked(TWO), compiler.BuildOptions(pdf=False, beside=False), files.__setitem__)
    return files


def test_files_tell_the_language_where_an_edition_has_several(built):
    assert list(built) == [
        "harbor-windmill-pattern-en.html", "harbor-windmill-handout-en.html",
        "harbor-windmill-pattern-de.html", "harbor-windmill-handout-de.html",
    ]  # fmt: skip
    pattern = checked(BOTH).pattern  # each edition in one language: its name is enough
    files = {}
    compiler.build(checked(BOTH), compiler.BuildOptions(pdf=False, beside=False), files.__setitem__)
    assert list(files) == ["two-rulers-pattern.html", "two-rulers-anleitung.html"]
    assert voices_of(pattern)[1].language == "de"


def test_pages_lead_to_each_other_by_relative_links(built):
    for own, other, name in (("en", "de", "Deutsch"), ("de", "en", "English")):
        page = built[f"harbor-windmill-pattern-{own}.html"].decode()
        file = f"harbor-windmill-pattern-{other}.html"
        assert f'<a href="{file}" hreflang="{other}" lang="{other}">{name}</a>' in page
        assert f'<link rel="alternate" hreflang="{other}" href="{file}">' in page
        assert page.count('aria-current="page"') == 1


def test_sites_lead_to_each_other():
    files = {}
    compiler.build(
        checked(TWO),
        compiler.BuildOptions(
            editions=("handout",), web=False, pdf=False, beside=False, sites=True
        ),
        files.__setitem__,
    )
    for own, other in (("en", "de"), ("de", "en")):
        page = files[f"harbor-windmill-handout-{own}-site/index.html"].decode()
        assert (
            f'href="../harbor-windmill-handout-{other}-site/index.html" hreflang="{other}"' in page
        )
        assert f"harbor-windmill-handout-{other}-site/index.html" in files


def test_a_page_in_one_language_has_no_links_to_others():
    files = {}
    compiler.build(
        checked(TWO),
        compiler.BuildOptions(languages=("de",), editions=("handout",), pdf=False, beside=False),
        files.__setitem__,
    )
    (page,) = files.values()
    assert b"hreflang" not in page and b'class="languages"' not in page


def test_what_is_ticked_is_kept_for_all_languages_in_the_same_units():
    pattern = checked(TWO).pattern
    english, german, handout, _ = pattern.booklet.editions
    assert key_of(pattern, handout) == key_of(pattern, pattern.booklet.editions[3])
    assert key_of(pattern, english) != key_of(
        pattern, german
    )  # choices of units are numbered otherwise
    assert key_of(pattern, english) != key_of(pattern, handout)


def test_tables_beside_the_booklet_are_named_after_the_title_of_the_pattern():
    plan = compiler.plan(in_voice(checked(TWO), GERMAN, plainly))
    assert all(name.startswith("harbor-windmill-") for name, _ in exported(plan))


def test_what_is_at_fault_in_the_units_of_an_edition_is_found(tmp_path):
    # squares of 1 1/4 in and two allowances: 1 3/4 in = 44.45 mm lies on no mark of a centimetre ruler
    source = (
        (BOTH / "pattern.yaml")
        .read_text("utf-8")
        .replace("language: de", "language: de, units: cm")
    )
    (tmp_path / "pattern.yaml").write_text(source, "utf-8")
    found = check_voices(read_folder(tmp_path)).diagnostics
    assert [d.code for d in found] == ["off-the-ruler"]
    assert found[0].message.startswith("in an edition in centimetres: ")


def test_a_language_that_no_edition_has_is_said_so():
    pattern = checked(TWO).pattern
    assert unknown_language(pattern, ["de", "en"]) is None
    assert (
        unknown_language(pattern, ["fr"])
        == "this pattern has no language `fr`; known here: `de`, `en`"
    )
    asked = Namespace(edition=["pattern"], language=["de"], size=None)
    assert unknown_edition(checked(BOTH).pattern, asked) == (
        "edition `pattern` is not made in `de`; name another, or leave one of the two out"
    )


def test_the_preview_of_a_language_that_is_not_there_is_refused(capsys):
    assert run(["preview", str(TWO), "--language", "fr", "--no-open"]) == 2
    assert "this pattern has no language `fr`; known here: `de`, `en`" in capsys.readouterr().err


def test_the_preview_shows_a_language():
    bench = Bench(TWO, language="de")
    bench.refresh()
    shown = bench.shown(Choice("mat", "pattern"))
    assert shown.pattern.title == "Hafenmühle" and "Windmühle" in str(dict(shown.document.parts))


# Both units


@pytest.mark.parametrize(
    ("length", "units", "said"),
    [
        ("2 1/4 in", "cm", "5.75"),  # 57.15 mm, up to the next half millimetre
        ("8 in", "cm", "20.35"),  # 203.2 mm
        ("1 in", "cm", "2.55"),  # 25.4 mm
        ("5 in", "cm", "12.7"),  # 127 mm stands on the ruler
        ("6.5 cm", "inch", "2 9/16"),  # 65 / 25.4 = 2.559 in; 2 9/16 = 2.5625
        ("5.08 cm", "inch", "2"),  # exactly
    ],
)
def test_the_figure_beside_is_made_of_the_exact_length_and_never_too_small(length, units, said):
    exact = Length.of(length)
    assert printed(exact, units, Printed.BESIDE) == said
    unit = "cm" if units == "cm" else "in"
    assert Length.of(f"{said} {unit}") >= exact


@cache
def cutting(language):
    plan = compiler.plan(in_voice(checked(BOTH), Voice(language, "inch", both=True), plainly))
    return plan, compose(plan, plan.pattern.booklet.editions[0], paper=Paper.A4).html


def test_cutting_has_both_units_side_by_side():
    _, page = cutting("en")
    words = " ".join(Markup(page).striptags().split()).replace("\u00a0", " ")
    # binding 2 1/4 in = 5.715 cm; B: 1 1/4 and 2 1/2 in with two allowances = 1 3/4 × 3 in = 4.445 × 7.62 cm;
    # A: 1 1/4 + 7/8 = 2 1/8 in = 5.3975 cm; sides of the border: 2 × 3 3/4 + 1/2 = 8 in = 20.32 cm
    for said in (
        "2¼ in (5.75 cm)",
        "8 rectangles, 1¾ in × 3 in (4.45 cm × 7.65 cm)",
        "2 squares, 2⅛ in (5.4 cm)",
        "2 rectangles, 8 in × 2 in (20.35 cm × 5.1 cm)",
        "Cut two strips of 8 in (20.35 cm)",
        "rounded up to the next ½ mm",
    ):
        assert said in words
    assert "1½ in wide finished" in words  # what is not cut has one figure


@pytest.mark.parametrize("paper", [Paper.A4, Paper.LETTER, Paper.A5])
@pytest.mark.parametrize("language", ["en", "de", "fr"])
def test_no_column_of_both_units_runs_over(language, paper):
    plan, _ = cutting(language)
    edition = plan.pattern.booklet.editions[0]
    assert sticking_out(compose(plan, edition, paper=paper).html) == []
