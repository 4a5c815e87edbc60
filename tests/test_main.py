"""The command line as a newcomer meets it: what is printed where, and the exit status."""

import io
import json
import shutil
import subprocess
import sys

import jsonschema
import pytest

from booklet.__main__ import main
from booklet.checks.rulebook import rules
from booklet.kit.running.stopping import Stopped
from booklet.pages.prepress import pdf as pdf_door
from booklet.recipe import compiler
from booklet.recipe.output import OutputError

SMALL = """\
title: Quay stones
sizes:
  lap: {title: Lap, unit: 2 in, blocks: 2 x 2}
  bed: {title: Bed, unit: 4 in, blocks: 3 x 3}
fabrics:
  ink: {name: Dark blue, colour: "#243b6b"}
  sand: {name: Sand, colour: "#e9dcc3"}
blocks:
  stone:
    grid:
      - [ink, sand]
      - [sand, ink]
quilt: {set: straight, arrange: [[stone]]}
booklet:
  editions:
    pattern: {pages: [cover, materials, cutting]}
    handout: {sizes: [lap], pages: [supplies]}
"""


@pytest.fixture
def folder(tmp_path):
    home = tmp_path / "stones"
    home.mkdir()
    (home / "pattern.yaml").write_text(SMALL, encoding="utf-8")
    return home


@pytest.fixture
def faulty(folder):
    (folder / "pattern.yaml").write_text(SMALL.replace("[ink, sand]", "[inc, sand]", 1))
    return folder


def call(capsys, *words) -> tuple[int, str, str]:
    """Exit status, standard output, standard error."""
    try:
        status = main([str(word) for word in words])
    except SystemExit as stop:
        status = stop.code
    told = capsys.readouterr()
    return status, told.out, told.err


# what is asked for


def test_without_a_word_the_help_is_shown(capsys):
    status, out, err = call(capsys)
    assert (status, out) == (2, "") and "booklet new lanterns" in err


def test_help_names_every_command_and_its_exit_status(capsys):
    status, out, _ = call(capsys, "--help")
    assert status == 0 and "Exit status: 0" in out
    for command in ("build", "check", "facts", "new", "help", "schema", "completion"):
        assert f"\n    {command}" in out
        assert call(capsys, command, "--help")[0] == 0


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (["chekc", "x"], "there is no command `chekc`; did you mean `check`?"),
        (["frob"], "there is no command `frob`; known here: `"),
        (
            ["--check", "x"],
            "there is no option `--check`; a command has no hyphens: `booklet check`",
        ),
        (["--verson"], "there is no option `--verson`; did you mean `--version`?"),
        (["."], "`.` is a folder; say first what to do with it, as in `booklet build .`"),
        (
            ["bed", "queen"],
            "name a mattress and the finished block, as in `booklet bed queen --block",
        ),
        (["new"], "name the folder to make, as in `booklet new lanterns`"),
        (
            ["explain", "gap"],
            "there is no command `explain`; `booklet help overlap` tells of a rule",
        ),
        (["completion"], "name your shell: `bash`, `zsh` or `fish`"),
        (["completion", "csh"], "there is no completion for `csh`; choose `bash`, `zsh` or `fish`"),
        (["build", "x", "--sise", "lap"], "there is no option `--sise`; did you mean `--size`?"),
        (["build", "x", "--sise=lap"], "there is no option `--sise=lap`; did you mean `--size`?"),
        (["build", "x", "--size"], "`--size` needs a word after it"),
        (["build", "x", "y"], "`y` is one word too many; a name with spaces in it needs quotes"),
        (
            ["build", "x", "--paper", "a3"],
            "there is no paper `a3`; choose `letter`, `a4`, `half letter` or `a5`",
        ),
        (
            ["check", "x", "--format", "xml"],
            "`--format` cannot be `xml`; choose `text`, `lines` or `json`",
        ),
    ],
)
def test_a_wrong_call_gets_a_sentence_and_what_to_try(capsys, words, sentence):
    status, out, err = call(capsys, *words)
    assert (status, out) == (2, "")
    assert (
        sentence in err
        and err.splitlines()[-1].startswith("try: booklet")
        and len(err.splitlines()) == 2
    )


def test_a_folder_that_is_none_gets_a_sentence(capsys, folder, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    for command in ("check", "build", "facts"):
        status, out, err = call(capsys, command, "stone")
        assert (status, out) == (2, "")
        assert err == "booklet: there is no folder `stone`; did you mean `stones`?\n"
    (tmp_path / "stones").rename(tmp_path / "moved")
    assert call(capsys, "check", "elsewhere")[2] == (
        "booklet: there is no folder `elsewhere`; known here: `moved`\n"
    )
    (tmp_path / "moved").rename(tmp_path / "stones")
    assert (
        "is a file; its folder is meant: booklet check stones"
        in call(capsys, "check", "stones/pattern.yaml")[2]
    )
    assert call(capsys, "check", "x" * 5000)[0] == 2
    assert call(capsys, "check", "a\0b")[0] == 2


def test_sizes_and_editions_are_known_by_name(capsys, folder):
    for words, sentence in (
        (["build", folder, "--size", "lab"], "this pattern has no size `lab`; did you mean `lap`?"),
        (
            ["facts", folder, "--size", "zzz"],
            "this pattern has no size `zzz`; known here: `bed`, `lap`",
        ),
        (
            ["build", folder, "--edition", "handuot"],
            "no edition `handuot`; did you mean `handout`?",
        ),
        (
            ["build", folder, "--edition", "handout", "--size", "bed"],
            "nothing is printed in size `bed`: edition `handout` has `lap`",
        ),
    ):
        status, out, err = call(capsys, *words)
        assert (status, out) == (2, "") and sentence in err
    assert not (folder / "out").exists()


# check


def test_check_tells_faults_in_three_forms(capsys, faulty):
    status, out, err = call(capsys, "check", faulty)
    assert (status, err) == (1, "")
    assert out.splitlines() == [
        f"{faulty}/pattern.yaml:11:10: error: there is no fabric `inc` [unknown-name]",
        "            - [inc, sand]",
        "               ^^^",
        "  Did you mean `ink`?",
        "",
        "1 error; `booklet help unknown-name` tells more about it",
    ]
    assert call(capsys, "check", faulty, "--format", "lines") == (
        1,
        f"{faulty}/pattern.yaml:11:10: error: there is no fabric `inc` [unknown-name]\n",
        "",
    )
    status, out, _ = call(capsys, "check", faulty, "--format", "json")
    assert status == 1 and [d["code"] for d in json.loads(out)] == ["unknown-name"]


def test_check_of_a_sound_pattern_says_so(capsys, folder):
    before = sorted(folder.rglob("*"))
    assert call(capsys, "check", folder) == (0, "no faults found\n", "")
    assert call(capsys, "check", folder, "--format", "lines") == (0, "", "")
    assert json.loads(call(capsys, "check", folder, "--format", "json")[1]) == []
    assert sorted(folder.rglob("*")) == before


def test_warnings_do_not_stop(capsys, folder):
    (folder / "pattern.yaml").write_text(SMALL.replace("  sand:", "  gold: {name: Gold}\n  sand:"))
    status, out, _ = call(capsys, "check", folder)
    assert status == 0 and ": warning: " in out and "[unused-name]" in out and "1 warning;" in out


# facts and schema


def test_facts_are_json_on_standard_output(capsys, folder):
    status, out, err = call(capsys, "facts", folder, "--size", "lap")
    assert (status, err) == (0, "")
    facts = json.loads(out)
    schema = json.loads(call(capsys, "schema", "--facts")[1])
    jsonschema.validate(facts, schema)
    assert "lap" in out and "bed" not in out


def test_facts_with_faults_print_nothing_but_the_faults(capsys, faulty):
    status, out, err = call(capsys, "facts", faulty)
    assert (status, out) == (1, "") and "unknown-name" in err


def test_the_schema_is_a_json_schema(capsys):
    for words in (["schema"], ["schema", "--facts"]):
        status, out, _ = call(capsys, *words)
        schema = json.loads(out)
        assert status == 0
        jsonschema.validators.validator_for(schema).check_schema(schema)


# help


def test_help_prints_a_rule_and_near_names(capsys):
    status, out, err = call(capsys, "help", "overlap")
    assert (status, out, err) == (0, rules()["overlap"].page, "")
    status, out, err = call(capsys, "help", "overlpa")
    assert (status, out) == (2, "") and "did you mean `overlap` or `cover`?" in err
    assert "`hexagon` or `half hexagon`" in call(capsys, "help", "hexgon")[2]
    status, out, err = call(capsys, "help", "z" * 10_000)
    assert status == 2 and len(err) < 150 and "`booklet help` lists what there is" in err
    assert "\x1b" not in call(capsys, "help", "\x1b[2J")[2]
    status, out, err = call(capsys, "help")
    assert (status, err) == (0, "") and "shapes" in out and "texts" in out


# what is left out, and what comes from standard input


def test_the_folder_is_here_where_none_is_named(capsys, folder, tmp_path, monkeypatch):
    monkeypatch.chdir(folder)
    assert call(capsys, "check") == (0, "no faults found\n", "")
    monkeypatch.chdir(tmp_path)
    for command in ("check", "build", "facts", "plan"):
        status, out, err = call(capsys, command)
        assert (status, out) == (2, "")
        assert err == (
            "booklet: there is no `pattern.yaml` here; name a pattern's folder, as in "
            f"`booklet {command} stones`\n"
        )
    (tmp_path / "empty").mkdir()
    monkeypatch.chdir(tmp_path / "empty")
    assert "`booklet new lanterns` starts one" in call(capsys, "check")[2]


def typed(monkeypatch, text: bytes) -> None:
    """Standard input holds this text."""
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(text)))


def test_check_reads_what_an_editor_has_not_saved(capsys, folder, tmp_path, monkeypatch):
    wrong = SMALL.replace("[ink, sand]", "[inc, sand]", 1).encode()
    monkeypatch.chdir(folder)
    typed(monkeypatch, wrong)
    status, out, err = call(capsys, "check", "-")
    assert (status, err) == (1, "")
    assert out.startswith("pattern.yaml:11:10: error: there is no fabric `inc`")
    assert "[inc, sand]" in out  # the line is that of the text read, not of the file
    monkeypatch.chdir(tmp_path)
    typed(monkeypatch, wrong)
    status, out, _ = call(capsys, "check", "-", "--folder", "stones", "--format", "lines")
    assert out == "stones/pattern.yaml:11:10: error: there is no fabric `inc` [unknown-name]\n"
    typed(monkeypatch, SMALL.encode())
    assert call(capsys, "check", "-", "--folder", "stones") == (0, "no faults found\n", "")
    typed(monkeypatch, b"title: \xff")
    assert "is not written in UTF-8" in call(capsys, "check", "-")[1]
    typed(monkeypatch, b"#" * 3_000_000)
    assert "[too-large]" in call(capsys, "check", "-")[1]
    typed(monkeypatch, b"")
    assert call(capsys, "check", "-")[0] == 1
    typed(monkeypatch, b"")
    assert "there is no folder `nowhere`" in call(capsys, "check", "-", "--folder", "nowhere")[2]
    assert (
        "`--folder` is for a source on standard input"
        in (call(capsys, "check", "stones", "--folder", "stones")[2])
    )


# shells


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_a_shell_completes_every_command_and_option(capsys, shell):
    status, out, err = call(capsys, "completion", shell)
    assert (status, err) == (0, "")
    for word in ("check", "completion", "trust-pages", "low-ink", "web"):
        assert word in out


def test_bash_completes_what_is_begun(capsys, tmp_path):
    if shutil.which("bash") is None:
        pytest.skip("there is no bash here")
    script = tmp_path / "booklet.bash"
    script.write_text(call(capsys, "completion", "bash")[1], encoding="utf-8")
    typed = "COMP_WORDS=(booklet build --lo); COMP_CWORD=2; _shtab_booklet; echo ${COMPREPLY[@]}"
    told = subprocess.run(
        ["bash", "-c", f"source {script}; {typed}"], capture_output=True, text=True, timeout=60
    )
    assert told.stdout == "--low-ink\n"


# what is loaded


def test_help_and_check_load_only_what_they_need(folder):
    def loaded(*words: object) -> set[str]:
        told = subprocess.run(
            [sys.executable, "-X", "importtime", "-m", "booklet", *map(str, words)],
            capture_output=True, text=True, timeout=120,
        )  # fmt: skip
        return {line.rpartition("|")[2].strip() for line in told.stderr.splitlines()}

    heavy = {"numpy", "shapely", "highspy", "weasyprint", "jinja2", "markdown", "svgwrite", "babel"}
    for words in (["--help"], ["--version"], ["build", "--help"], ["schema", "--sise"]):
        assert not loaded(*words) & heavy, words
    drawing = {
        "weasyprint",
        "jinja2",
        "markdown",
        "svgwrite",
        "fontTools",
        "booklet.drawing.ink.svg",
    }
    assert not loaded("check", folder) & drawing


# new


def test_new_starts_a_pattern_that_has_no_fault(capsys, tmp_path):
    home = tmp_path / "my lanterns"
    status, out, _ = call(capsys, "new", home)
    assert status == 0 and f'now try: booklet build "{home}"' in out
    assert call(capsys, "check", home) == (0, "no faults found\n", "")


def test_new_never_writes_where_something_is(capsys, tmp_path):
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "a.txt").write_text("mine")
    for place in (
        tmp_path / "mine",
        tmp_path / "mine" / "a.txt",
        tmp_path / "mine" / "a.txt" / "b",
    ):
        status, out, err = call(capsys, "new", place)
        assert (
            (status, out) == (1, "") and err.startswith("booklet: ") and len(err.splitlines()) == 1
        )
    assert [p.name for p in (tmp_path / "mine").iterdir()] == ["a.txt"]
    (tmp_path / "empty").mkdir()
    assert call(capsys, "new", tmp_path / "empty")[0] == 0


# build


def bytes_of(folder):
    return {p.name: p.read_bytes() for p in folder.iterdir()}


def test_a_build_tells_what_it_makes_and_writes(capsys, folder, tmp_path):
    """That the same source gives the same bytes stands in `test_same_bytes.py`, over all kinds of files."""
    out = tmp_path / "out"
    asked = ("--size", "lap", "--paper", "A4", "--out", out)
    status, printed, err = call(capsys, "build", folder, *asked)
    assert (status, printed) == (0, "")
    assert err.splitlines() == [
        f"reading and checking {folder}",
        "working out the numbers and drawing the pictures",
        "making 1 of 4: quay-stones-pattern--lap.html",
        "making 2 of 4: quay-stones-pattern-lap-a4.pdf",
        "making 3 of 4: quay-stones-handout.html",
        "making 4 of 4: quay-stones-handout-lap-a4.pdf",
        "making templates and tables for other programs",
        f"wrote 10 files to {out}",
        "  quay-stones-pattern--lap.html",
        "  quay-stones-pattern-lap-a4.pdf",
        "  quay-stones-handout.html",
        "  quay-stones-handout-lap-a4.pdf",
        "  quay-stones-templates-lap.svg",
        "  quay-stones-templates-lap.dxf",
        "  quay-stones-materials.csv",
        "  quay-stones-cutting.csv",
        "  quay-stones-strips.csv",
        "  quay-stones-tables.xlsx",
    ]
    made = bytes_of(out)
    assert len(made) == 11  # the list of what was built among them
    assert all(data.startswith(b"%PDF-") for name, data in made.items() if name.endswith(".pdf"))


def test_faults_stop_a_build_before_anything_is_written(capsys, faulty):
    (faulty / "out").mkdir()
    (faulty / "out" / "old.pdf").write_bytes(b"old")
    status, out, err = call(capsys, "build", faulty, "--quiet")
    assert (status, out) == (1, "") and "[unknown-name]" in err
    assert err.splitlines()[-1].endswith("; nothing was written")
    assert bytes_of(faulty / "out") == {"old.pdf": b"old"}


def test_a_fault_in_a_page_of_ones_own_ends_like_every_other(capsys, folder):
    (folder / "pages").mkdir()
    (folder / "pages" / "materials.html").write_text("{{ ''.__class__.__mro__ }}", encoding="utf-8")
    narrow = ("--size", "lap", "--paper", "a4", "--booklet-only", "--quiet")
    status, _, err = call(capsys, "build", folder, *narrow, "--trust-pages")
    assert status == 1 and "[page-template]" in err
    last = err.splitlines()[-1]
    assert last.startswith("1 error; `booklet help page-template`")
    assert last.endswith("; nothing was written")


@pytest.mark.parametrize(
    ("fault", "status", "words"),
    [
        (KeyboardInterrupt(), 130, "stopped; what was built before is still there"),
        (Stopped(15), 143, "stopped; what was built before is still there"),
        (MemoryError(), 1, "needs more memory than there is"),
        (OutputError("cannot write `x`"), 1, "cannot write `x`"),
        (pdf_door.NoPdf("Pango is missing"), 1, "Pango is missing"),
        (KeyError("a\nb"), 3, "the program, not your pattern, is at fault: KeyError:"),
    ],
)
def test_whatever_stops_a_build_older_files_stay(capsys, folder, monkeypatch, fault, status, words):
    (folder / "out").mkdir()
    name = "quay-stones-pattern.html"
    (folder / "out" / name).write_bytes(b"old")

    def stopped(checked, options, write, say):
        write(name, b"new")
        raise fault

    monkeypatch.setattr(compiler, "build", stopped)
    found, out, err = call(capsys, "build", folder, "--quiet", "--replace")
    assert (found, out) == (status, "") and words in err and len(err.splitlines()) == 1
    assert bytes_of(folder / "out") == {name: b"old"}


def test_the_output_cannot_be_a_file(capsys, folder):
    status, _, err = call(capsys, "build", folder, "--quiet", "--out", folder / "pattern.yaml")
    assert status == 1 and "is a file, not a folder" in err and "--out" in err
    assert (folder / "pattern.yaml").read_text(encoding="utf-8") == SMALL


def test_without_pango_the_sentence_names_what_to_install(monkeypatch):
    monkeypatch.setitem(sys.modules, "weasyprint", None)  # as if it could not be loaded
    pdf_door._maker.cache_clear()
    real = __import__

    def missing(name, *args, **options):
        if name == "weasyprint":
            raise OSError("cannot load library 'libpango-1.0-0'")
        return real(name, *args, **options)

    monkeypatch.setattr("builtins.__import__", missing)
    with pytest.raises(pdf_door.NoPdf, match="apt-get install libpango"):
        pdf_door.make_pdf("<p>a")
    pdf_door._maker.cache_clear()


# both ways of calling


def test_it_runs_as_a_module_and_a_closed_pipe_is_quiet():
    told = subprocess.run(
        [sys.executable, "-m", "booklet", "--version"], capture_output=True, text=True, timeout=60
    )
    assert told.returncode == 0 and told.stdout.startswith("booklet ")
    asked = f"{sys.executable} -m booklet schema | head -c 1"
    told = subprocess.run(["sh", "-c", asked], capture_output=True, text=True, timeout=60)
    assert (told.stdout, told.stderr) == ("{", "")


# parts of a booklet


def test_a_page_of_one_size_never_takes_the_place_of_the_page_of_all(capsys, folder):
    out = folder / "out"
    assert call(capsys, "build", folder, "--web", "--quiet")[0] == 0
    assert sorted(p.name for p in out.glob("*.*") if p.suffix != ".json") == [
        "quay-stones-handout.html",
        "quay-stones-pattern.html",
    ]
    whole = bytes_of(out)
    assert call(capsys, "build", folder, "--web", "--quiet", "--size", "lap")[0] == 0
    # the handout has size `lap` alone, so that its page is whole; the pattern has `bed` too
    part = out / "quay-stones-pattern--lap.html"
    assert part.exists() and not (out / "quay-stones-handout--lap.html").exists()
    assert {n: d for n, d in bytes_of(out).items() if n in whole and n[0] != "."} == {
        n: d for n, d in whole.items() if n[0] != "."
    }
    text = part.read_text(encoding="utf-8")
    assert "<title>Quay stones: Pattern, Lap</title>" in text


def test_a_build_says_what_changed_since_the_last(capsys, folder):
    asked = ("--size", "lap", "--edition", "handout", "--paper", "a4")
    assert "since the last build" not in call(capsys, "build", folder, *asked)[2]
    assert "since the last build" not in call(capsys, "build", folder, *asked)[2]
    # 2 x 2 blocks of 4 in made 2 x 12: 24 blocks instead of 4
    (folder / "pattern.yaml").write_text(
        SMALL.replace("unit: 2 in, blocks: 2 x 2", "unit: 2 in, blocks: 2 x 12")
    )
    lines = call(capsys, "build", folder, *asked)[2].splitlines()
    told = lines[lines.index("since the last build:") :]
    assert len(told) == 5
    assert told[1].startswith("  to buy: Lap, Dark blue ") and "(was " in told[1]
    assert told[2].startswith("  cutting: ") and told[3].startswith("  pages: 2 of 2 files differ")
    assert told[4].startswith("  there is no `version`: add it")


def test_web_and_pdf_build_only_these(capsys, folder):
    asked = ("--size", "lap", "--edition", "handout", "--quiet", "--out")
    names = {}
    for words in (["--web"], ["--pdf"], ["--web", "--pdf"]):
        out = folder / "".join(words)
        assert call(capsys, "build", folder, *words, *asked, out)[0] == 0
        names[out.name] = {p.suffix for p in out.iterdir() if p.name[0] != "."}
    assert names == {"--web": {".html"}, "--pdf": {".pdf"}, "--web--pdf": {".html", ".pdf"}}
    for option in (["--low-ink"], ["--paper", "a4"], ["--imposed"]):
        status, _, err = call(capsys, "build", folder, "--web", *option)
        assert status == 2 and f"`{option[0]}` is for PDF files, and `--web` makes none" in err


# printing, and files of earlier builds


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (
            ["--imposed", "--creep", "banana"],
            "`--creep`: `banana` is no length; give the thickness",
        ),
        (["--imposed", "--creep", "-1"], "no sheet of paper is `-1` thick"),
        (["--imposed", "--creep", "5", "in"], "no sheet of paper is `5 in` thick"),
        (["--imposed", "--creep"], "`--creep` needs a word after it"),
        (["--creep", "0.1", "mm"], "`--creep` is for sheets that are folded; add `--imposed`"),
        (["--imposed", "--paper", "tabloid"], "there is no paper `tabloid`; choose `letter`"),
        (["--lowink"], "there is no option `--lowink`; did you mean `--low-ink`?"),
    ],
)
def test_a_slip_in_printing_is_a_sentence_and_nothing_is_written(capsys, folder, words, sentence):
    status, out, err = call(capsys, "build", folder, *words)
    assert (status, out) == (2, "") and sentence in err
    assert not (folder / "out").exists()


def test_sheets_to_fold_low_ink_and_crop_marks_have_names_of_their_own(capsys, folder):
    asked = ("--size", "lap", "--edition", "handout", "--booklet-only", "--quiet")
    printing = ("--imposed", "--creep", "0.12", "mm", "--low-ink", "--crop-marks")
    assert call(capsys, "build", *asked, *printing, folder)[0] == 0
    assert sorted(p.name for p in (folder / "out").iterdir() if p.suffix == ".pdf") == [
        f"quay-stones-handout-lap-{paper}-low-ink{kind}.pdf"
        for paper in ("a5", "half-letter")
        for kind in ("-crop-marks", "-imposed-crop-marks")
    ]


def test_files_of_a_removed_size_are_taken_away_and_others_stay(capsys, folder):
    out = folder / "out"
    covers = SMALL.replace("pages: [cover, materials, cutting]", "pages: [cover]")
    (folder / "pattern.yaml").write_text(covers, encoding="utf-8")
    assert call(capsys, "build", folder, "--edition", "pattern", "--quiet")[0] == 0
    before = {p.name for p in out.iterdir()}
    assert {"quay-stones-pattern-bed-a4.pdf", "quay-stones-templates-bed.svg"} <= before
    (out / "quay-stones-pattern-bed-letter.pdf").write_bytes(b"changed by hand")
    (out / "notes.txt").write_bytes(b"mine")
    text = (folder / "pattern.yaml").read_text(encoding="utf-8")
    (folder / "pattern.yaml").write_text(
        text.replace("  bed: {title: Bed, unit: 4 in, blocks: 3 x 3}\n", ""), encoding="utf-8"
    )
    # a build of a part leaves them and says so
    _, _, err = call(capsys, "build", folder, "--edition", "handout", "--booklet-only")
    assert "of an earlier state of the pattern" in err
    assert "  quay-stones-pattern-bed-a4.pdf" in err.splitlines()
    assert before <= {p.name for p in out.iterdir()}
    _, _, err = call(capsys, "build", folder)
    assert "removed, since they were of an earlier state of the pattern:" in err
    left = {p.name for p in out.iterdir()}
    assert "quay-stones-pattern-bed-letter.pdf" in left and "notes.txt" in left
    assert not left & {
        "quay-stones-pattern-bed-a4.pdf",
        "quay-stones-templates-bed.svg",
        "quay-stones-templates-bed.dxf",
    }
