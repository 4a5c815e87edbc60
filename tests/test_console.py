"""Diagnostics as text, as lines and as JSON; the pages of rules."""

import json
import unicodedata

from hypothesis import given, strategies as st

from booklet.commands.line import console
from booklet.kit.diagnostic import Diagnostic, Span, warning


def shown(line: str, column: int, end: int, hint: str | None = "mend it") -> list[str]:
    fault = Diagnostic(
        code="overlap", message="they overlap", span=Span("pattern.yaml", 2, column, end), hint=hint
    )
    return console.as_text([fault], lambda file: f"# one\n{line}\n").splitlines()


def test_a_fault_is_shown_with_its_line_carets_and_hint():
    # `sand` begins in column 6 and ends before column 10: four carets after five spaces
    assert shown("cut: sand now", 6, 10) == [
        "pattern.yaml:2:6: error: they overlap [overlap]",
        "      cut: sand now",
        "           ^^^^",
        "  Try: mend it",
    ]


def test_carets_stand_under_wide_and_accented_signs():
    assert shown("灯笼: sand", 5, 9)[2] == "            ^^^^"  # two signs of two places, then `: `
    assert shown("sand 灯笼", 6, 8)[2] == "           ^^^^"
    assert (
        shown("e\u0301te\u0301: sand", 8, 12)[2] == "           ^^^^"
    )  # 2 of 7 signs take no place
    assert shown("a\tb", 3, 4)[1:3] == ["      a b", "        ^"]


def test_a_place_beyond_the_end_gets_one_caret():
    assert shown("cut:", 5, 9)[2] == "          ^"
    assert shown("cut:", 7, 8)[2] == "            ^"


def test_long_and_empty_lines_are_not_shown():
    assert len(shown("x" * 201, 1, 2)) == len(shown("", 1, 2)) == 2
    assert len(shown("x", 1, 2, hint=None)) == 3


def test_signs_that_steer_a_terminal_are_not_printed():
    told = "\n".join(shown("a\x1b[31m \u202eb\u202c \x00", 1, 2))
    assert "\x1b" not in told and "\u202e" not in told and "\x00" not in told
    fault = Diagnostic(code="overlap", message="named `\x1b[2J`\n", span=Span("a\nb.md", 1, 1, 2))
    assert (
        console.as_lines([fault]) == "a\ufffdb.md:1:1: error: named `\ufffd[2J`\ufffd [overlap]\n"
    )


def test_a_line_for_each_fault():
    faults = [
        Diagnostic(code="gap", message="a gap", span=Span("pattern.yaml", 3, 4, 9)),
        warning("unused-name", "not used", Span("pattern.yaml", 5, 1, 2)),
    ]
    assert console.as_lines(faults) == (
        "pattern.yaml:3:4: error: a gap [gap]\npattern.yaml:5:1: warning: not used [unused-name]\n"
    )
    assert console.tally(faults) == "1 error and 1 warning"
    assert console.tally(faults[:1] * 2) == "2 errors"
    assert console.tally([]) == "no faults found"


def test_json_holds_every_part():
    fault = Diagnostic(
        code="gap", message="a gap: ü", span=Span("pattern.yaml", 3, 4, 9), hint="fill it"
    )
    assert json.loads(console.as_json([fault], "lanterns")) == [
        {
            "severity": "error",
            "code": "gap",
            "message": "a gap: ü",
            "file": "pattern.yaml",
            "path": "lanterns/pattern.yaml",
            "line": 3,
            "column": 4,
            "end": 9,
            "hint": "fill it",
            "follows": None,
        }
    ]
    assert json.loads(console.as_json([])) == []


def slips() -> list[Diagnostic]:
    """Two faults of one slip, the consequence first in the source, and one fault of its own between."""
    place = [Span("pattern.yaml", n, 1, 2) for n in (1, 2, 3)]
    return [
        Diagnostic(
            code="gap", message="a gap", span=place[0], hint="fill it", cause="slip", follows=True
        ),
        Diagnostic(code="too-large", message="too large", span=place[1]),
        Diagnostic(
            code="overlap", message="they overlap", span=place[2], hint="turn it", cause="slip"
        ),
    ]


def test_the_cause_is_told_and_its_consequences_are_counted():
    told = console.as_text(slips(), lambda file: "")
    assert "a gap" not in told and told.index("too large") < told.index("they overlap")
    assert told.rstrip().endswith("  Try: turn it\n  1 more follows from it.")
    more = [
        *slips(),
        Diagnostic(code="gap", message="another", span=slips()[0].span, cause="slip", follows=True),
    ]
    assert "  2 more follow from it." in console.as_text(more, lambda file: "")
    assert console.tally(more) == "2 errors (2 more follow)"  # 4 faults, 2 of them causes
    assert console.more_about(slips()) == "`booklet help too-large` tells more about it"


def test_lines_and_json_keep_what_follows_behind_its_cause():
    assert console.as_lines(slips()).splitlines()[1:] == [
        "pattern.yaml:3:1: error: they overlap [overlap]",
        "pattern.yaml:1:1: error: a gap (follows from line 3) [gap]",
    ]
    rows = json.loads(console.as_json(slips()))
    assert [row["code"] for row in rows] == ["too-large", "overlap", "gap"]
    assert [row["follows"] for row in rows] == [
        None,
        None,
        {"code": "overlap", "file": "pattern.yaml", "line": 3, "column": 1},
    ]


def test_more_is_told_about_errors_before_warnings():
    place = Span("pattern.yaml", 1, 1, 2)
    faults = [warning("unused-name", "x", place), Diagnostic(code="gap", message="x", span=place)]
    assert console.more_about(faults) == "`booklet help gap` tells more about it"
    assert console.more_about([]) == ""


def test_a_place_begins_with_the_folder_as_it_was_named():
    fault = Diagnostic(code="gap", message="a gap", span=Span("text/a.md", 3, 4, 9))
    for folder, path in (
        ("", "text/a.md"),
        (".", "text/a.md"),
        ("../my quilts", "../my quilts/text/a.md"),
        ("/", "/text/a.md"),
    ):
        assert console.as_lines([fault], folder) == f"{path}:3:4: error: a gap [gap]\n"
        assert console.as_text([fault], lambda file: None, folder).startswith(f"{path}:3:4: error")


def test_a_question_and_a_list_of_names_need_no_word_before_them():
    assert shown("x", 1, 2, hint="did you mean `ink`?")[3] == "  Did you mean `ink`?"
    assert shown("x", 1, 2, hint="known here: `ink`")[3] == "  Known here: `ink`"


@given(st.text(max_size=60), st.integers(1, 80), st.integers(1, 80))
def test_any_line_can_be_shown(line, column, end):
    told = shown(line.replace("\n", " "), column, end)
    signs = set("".join(told)) - {"\u200c", "\u200d"}  # joiners belong to words of some languages
    assert not [c for c in signs if unicodedata.category(c) in ("Cc", "Cf", "Cs", "Zl", "Zp")]
