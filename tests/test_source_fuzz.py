"""Floor 2: whatever is written, reading gives an outcome; it never raises."""

from __future__ import annotations

from hypothesis import given, settings, strategies as st
from sampling import examples
from source_helpers import read

from booklet.kit.diagnostic import Outcome

WORDS = st.sampled_from(
    ["title", "sizes", "unit", "blocks", "fabrics", "grid", "pieces", "sew", "quilt", "1 in", "2 x 2",
     "[", "]", "{", "}", ":", ": ", ", ", "\n", "\n  ", "\n    - ", "- ", "#", " # ", "&a ", "*a", "!!x ", "'", '"',
     "|", ">", "?", "~", "null", "yes", "0", "-1", "1/0", "√2", "a/b", "a\\b", "\t", "%", "@", "`", "<<", "...", "---",
     "..", "/", "nan", "9" * 30, "é", "\u2028", "\x85", "\ufeff", "𝄞", "a turn 90", "a#+1"]
)  # fmt: skip


def sound(outcome: object) -> None:
    assert isinstance(outcome, Outcome)
    assert outcome.value is not None or any(d.is_error for d in outcome.diagnostics)
    for d in outcome.diagnostics:
        assert d.message and "\n" not in d.message and len(d.message) < 300
        assert d.span.line >= 1 and d.span.column >= 1 and d.span.end >= d.span.column


@settings(max_examples=examples(80), deadline=None)
@given(st.text(max_size=80))
def test_any_text(text):
    sound(read(text))


@settings(max_examples=examples(40), deadline=None)
@given(st.binary(max_size=60))
def test_any_bytes(data):
    sound(read(data))


@settings(max_examples=examples(100), deadline=None)
@given(st.lists(WORDS, max_size=30).map("".join))
def test_what_looks_like_yaml(text):
    sound(read("title: x\n" + text))
