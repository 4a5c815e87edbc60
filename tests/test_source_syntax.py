"""Floor 2: the punctuation of YAML, and what is refused of it."""

from __future__ import annotations

import pytest
from source_helpers import GOOD, faults, read

BROKEN = [
    ("a: [1, 2", (1, 4), "list opened here"),
    ("a: {b: 1", (1, 4), "group opened here"),
    ("a: [1, 2}", (1, 4), "list opened here"),
    ("a:\n\tb: 1", (2, 1), "tab"),
    ("a:\n  \tb: 1\n  c: 2", (2, 3), "tab"),
    ("a: b: c", (1, 5), "colon"),
    ("a: 'x", (1, 4), "quotation mark"),
    ('a: "x\nb: 1\n', (1, 4), "quotation mark"),
    ("- a\nb: 1", (2, 1), "indented"),
    ("a:\n  b: 1\n c: 2", (3, 2), "indented"),
    ("a: @x", (1, 4), "begin with this character"),
    ("a: %x", (1, 4), "begin with this character"),
    ('a: "b\\qc"', (1, 7), "backslash"),
    ("a: 1\nb\nc: 2", (2, 1), "no colon"),
    ("title Quay stones\nunits: inch", (2, 6), "the line above this one has no colon"),
    ("a: &x 1", (1, 4), "gives a name to a value"),
    ("a: !!int 1", (1, 4), "marks its type"),
    ("a: 1\n---\nb: 2", (2, 1), "second document"),
    ("", (1, 1), "is empty"),
    ("# only a note\n", (1, 1), "is empty"),
    ("a: \x07", (1, 4), "invisible character"),
    ("{[1, 2]: 3}", (1, 2), "where a key should be"),
]


@pytest.mark.parametrize(("text", "place", "words"), BROKEN, ids=range(len(BROKEN)))
def test_broken_punctuation_gets_a_sentence(text, place, words):
    found = [d for d in read(text).diagnostics if d.code == "unreadable-source"]
    assert len(found) == 1, found
    (d,) = found
    assert (d.span.line, d.span.column) == place
    assert words in d.message and d.hint
    assert "token" not in d.message and "block" not in d.message and "scanning" not in d.message


def test_a_bomb_of_aliases_is_refused_at_once():
    bomb = "a0: &a0 [x, x]\n" + "".join(
        f"a{k}: &a{k} [{', '.join([f'*a{k - 1}'] * 9)}]\n" for k in range(1, 12)
    )
    codes = {code for code, _, _ in faults(bomb)}
    assert "unreadable-source" in codes


def test_depth_is_limited():
    assert ("unreadable-source", 1, 28) in faults("a: " + "[" * 5000 + "]" * 5000)


def test_a_key_twice_names_both_lines():
    (d,) = read("title: x\n" + GOOD).diagnostics
    assert (d.code, d.span.line) == ("duplicate-name", 2) and "line 1" in d.message


def test_no_sexagesimals_no_booleans_no_octals():
    from source_helpers import pattern

    p = pattern(GOOD + "version: 1:30\ndesigner: no\nsummary: 0o17\n")
    assert (p.version, p.designer, p.summary) == ("1:30", "no", "0o17")


def test_a_whole_span_is_pointed_at():
    (d,) = read(GOOD.replace("title: Quay stones", "title: [a, b]")).diagnostics
    assert (d.span.column, d.span.end) == (8, 14)  # [a, b] takes six columns


def test_windows_lines_and_a_byte_order_mark():
    assert read(b"\xef\xbb\xbf" + GOOD.replace("\n", "\r\n").encode()).diagnostics == ()


def test_another_encoding_is_told_with_its_place():
    assert faults(b"title: Hafen\nsummary: M\xf6we\n") == [("unreadable-source", 2, 11)]


@pytest.mark.parametrize("text", ["just words", "- a\n- b", "42"])
def test_a_pattern_is_a_group_of_keys(text):
    assert [code for code, _, _ in faults(text)] == ["wrong-kind"]
