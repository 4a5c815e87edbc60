"""Whatever `check` accepts, `build` builds: sound patterns drawn at random, all pages of all sizes.

The strategy makes only what can be cut and sewn, so `check` may refuse it for a few reasons alone.
`PATTERNS_DRAWN=500 pytest tests/test_random_patterns.py` tries more of them than a run in passing does.
"""

import os
import tempfile
from pathlib import Path

from corpus import documents
from hypothesis import HealthCheck, event, given, settings
from random_patterns import patterns
from sampling import examples
from test_patterns_build import LEAKS, words_of

from booklet.exports.files import exported
from booklet.pages.pictures.album import drawn
from booklet.recipe import compiler

REFUSED = {"wider-than-cloth", "cloth-too-narrow", "not-yet", "motif-without-repeat", "too-large"}
"""Why a pattern of the strategy may be refused: a patch that no cloth of it can give, above all."""


@settings(
    deadline=None,
    max_examples=int(os.environ.get("PATTERNS_DRAWN", examples(15))),
    derandomize=True,
    suppress_health_check=list(HealthCheck),
)
@given(patterns())
def test_a_pattern_that_check_accepts_is_built(text):
    with tempfile.TemporaryDirectory() as home:
        (Path(home) / "pattern.yaml").write_text(text, encoding="utf-8")
        found = compiler.check(Path(home))
        event("refused" if found.value is None else "accepted")
        if found.value is None:
            refused = {d.code for d in found.diagnostics if d.is_error}
            assert refused <= REFUSED, f"{refused}\n{text}"
            return
        plan = compiler.plan(found.value)
        figures = drawn(plan)
        for edition in plan.pattern.booklet.editions:
            for document in documents(
                plan, edition, (plan.pattern.booklet.paper,), figures=figures
            ):
                assert LEAKS.search(words_of(document.html)) is None, text
        assert list(exported(plan, ()))
