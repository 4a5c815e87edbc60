"""Diagnostics as text, as lines and as JSON; the pages of rules."""

import json
import unicodedata

from hypothesis import given
from hypothesis import strategies as st

from booklet import console
from booklet.checks import rules
from booklet.diagnostic import Diagnostic, Span, warning


def shown(line: str, column: int, end: int, hint: str | None = "mend it") -> list[str]:
    fault = Diagnostic("overlap", "they overlap", Span("pattern.yaml", 2, column, end), hint)
    return console.as_text([fault], lambda file: f"# one\n{line}\n").splitlines()


def test_a_fault_is_shown_with_its_line_carets_and_hint():
    # `sand` begins in column 6 and ends before column 10: four carets after five spaces
    assert shown("cut: sand now", 6, 10) == [
        "error[overlap]: they overlap",
        " --> pattern.yaml:2:6",
        "  |",
        "2 | cut: sand now",
        "  |      ^^^^",
        "  = try: mend it",
    ]


def test_carets_stand_under_wide_and_accented_signs():
    assert shown("灯笼: sand", 5, 9)[4] == "  |       ^^^^"  # two signs of two places, then `: `
    assert shown("sand 灯笼", 6, 8)[4] == "  |      ^^^^"
    assert shown("e\u0301te\u0301: sand", 8, 12)[4] == "  |      ^^^^"  # 2 of 7 signs take no place
    assert shown("a\tb", 3, 4)[3:5] == ["2 | a b", "  |   ^"]


def test_a_place_beyond_the_end_gets_one_caret():
    assert shown("cut:", 5, 9)[4] == "  |     ^"
    assert shown("cut:", 7, 8)[4] == "  |       ^"


def test_long_and_empty_lines_are_not_shown():
    assert len(shown("x" * 201, 1, 2)) == len(shown("", 1, 2)) == 3
    assert len(shown("x", 1, 2, hint=None)) == 5


def test_signs_that_steer_a_terminal_are_not_printed():
    told = "\n".join(shown("a\x1b[31m \u202eb\u202c \x00", 1, 2))
    assert "\x1b" not in told and "\u202e" not in told and "\x00" not in told
    fault = Diagnostic("overlap", "named `\x1b[2J`\n", Span("a\nb.md", 1, 1, 2))
    assert console.as_lines([fault]) == "error[overlap] a\ufffdb.md:1:1: named `\ufffd[2J`\ufffd\n"


def test_a_line_for_each_fault():
    faults = [
        Diagnostic("gap", "a gap", Span("pattern.yaml", 3, 4, 9)),
        warning("unused-name", "not used", Span("pattern.yaml", 5, 1, 2)),
    ]
    assert console.as_lines(faults) == (
        "error[gap] pattern.yaml:3:4: a gap\nwarning[unused-name] pattern.yaml:5:1: not used\n"
    )
    assert console.tally(faults) == "1 error and 1 warning"
    assert console.tally(faults[:1] * 2) == "2 errors"
    assert console.tally([]) == "no faults found"


def test_json_holds_every_part():
    fault = Diagnostic("gap", "a gap: ü", Span("pattern.yaml", 3, 4, 9), "fill it")
    assert json.loads(console.as_json([fault])) == [
        {
            "severity": "error",
            "code": "gap",
            "message": "a gap: ü",
            "file": "pattern.yaml",
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
        Diagnostic("gap", "a gap", place[0], "fill it", cause="slip", follows=True),
        Diagnostic("too-large", "too large", place[1]),
        Diagnostic("overlap", "they overlap", place[2], "turn it", cause="slip"),
    ]


def test_the_cause_is_told_and_its_consequences_are_counted():
    told = console.as_text(slips(), lambda file: "")
    assert "a gap" not in told and told.index("too large") < told.index("they overlap")
    assert told.rstrip().endswith("= try: turn it\n  = and 1 more that follows from it")
    more = [*slips(), Diagnostic("gap", "another", slips()[0].span, cause="slip", follows=True)]
    assert "= and 2 more that follow from it" in console.as_text(more, lambda file: "")
    assert console.tally(more) == "2 errors (2 more follow)"  # 4 faults, 2 of them causes
    assert console.more_about(slips()) == "`booklet explain too-large` tells more about `too-large`"


def test_lines_and_json_keep_what_follows_behind_its_cause():
    assert console.as_lines(slips()).splitlines()[1:] == [
        "error[overlap] pattern.yaml:3:1: they overlap",
        "error[gap] pattern.yaml:1:1: a gap (follows from line 3)",
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
    faults = [warning("unused-name", "x", place), Diagnostic("gap", "x", place)]
    assert console.more_about(faults) == "`booklet explain gap` tells more about `gap`"
    assert console.more_about([]) == ""


def test_every_rule_is_explained_however_its_code_is_copied():
    for code, rule in rules().items():
        assert console.explain(code) == (rule.page, True)
    page = rules()["blocked-set-in"].page
    for copied in (
        "error[blocked-set-in]",
        "[blocked-set-in]:",
        "Blocked set in",
        "BLOCKED_SET_IN",
    ):
        assert console.explain(copied) == (page, True)


def test_an_unknown_rule_gets_the_nearest_or_the_list():
    assert console.explain("overlpa") == (
        "there is no rule `overlpa`; did you mean `overlap`?\n",
        False,
    )
    told, found = console.explain("zzzz")
    assert not found and all(code in told for code in rules())
    assert len(console.explain("z" * 10_000)[0].splitlines()[0]) < 120


def test_the_list_has_one_line_a_rule():
    lines = console.rule_list().splitlines()
    assert [line.split()[0] for line in lines] == sorted(rules())
    assert all(line.split()[1] in ("error", "warning") for line in lines)


@given(st.text(max_size=60), st.integers(1, 80), st.integers(1, 80))
def test_any_line_can_be_shown(line, column, end):
    told = shown(line.replace("\n", " "), column, end)
    signs = set("".join(told)) - {"\u200c", "\u200d"}  # joiners belong to words of some languages
    assert not [c for c in signs if unicodedata.category(c) in ("Cc", "Cf", "Cs", "Zl", "Zp")]
