"""An allowance of 0.75 cm is printed as it was written, on every page and in every language."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from corpus import documents

from booklet.recipe import compiler

FOLDER = Path(__file__).parent / "patterns" / "three_quarter_cm"


@pytest.mark.parametrize(
    ("language", "printed", "rounded"),
    [("en", "0.75", "0.8"), ("en-GB", "0.75", "0.8"), ("de", "0,75", "0,8"), ("fr", "0,75", "0,8")],
)
def test_an_allowance_of_three_quarters_of_a_centimetre(tmp_path, language, printed, rounded):
    text = (FOLDER / "pattern.yaml").read_text("utf-8")
    (tmp_path / "pattern.yaml").write_text(f"language: {language}\n{text}", "utf-8")
    outcome = compiler.check(tmp_path)
    assert outcome.diagnostics == ()
    plan = compiler.plan(outcome.value)
    (web,) = documents(plan, plan.pattern.booklet.editions[0], ())
    said = re.sub(r"<[^>]+>|\s+", " ", re.sub(r"(?s)<(style|script).*?</\1>", "", web.html))
    # the test of the allowance, the half squares, the bias strips and the note on all cut sizes
    assert len(re.findall(rf"\b{printed}[\s ]cm", said)) >= 5
    assert not re.search(rf"\b{rounded}[\s ]cm", said)
    assert f"61{printed[1]}5" in said  # the sides of the border: 60 + 2 x 0.75
