"""The way a cloth is cut, against a search of its own that plans every way to the end."""

from __future__ import annotations

import tempfile
from pathlib import Path

import pytest
from cutting_helpers import cut_text
from hypothesis import given, settings, strategies as st
from sampling import examples
from source_helpers import PATTERNS

from booklet.cutting import stage, ways
from booklet.cutting.cloth.one_cloth import plan_cloth
from booklet.kit.remembered.memory import plainly
from booklet.recipe import compiler

PER_SEAM = {True: 50 / 2.54, False: 18}  # half a metre, half a yard: what a seam of a back is worth


def bought(job, plan):
    """Inches of cloth."""
    if plan.buy.count is not None:
        return float(plan.length)
    return float(plan.buy.metres * 5000 / 127 if job.fabric.sold.metric else plan.buy.yards * 36)


def every_way(tries, ruler):
    """Of all ways: what the cheapest costs, and the least of their bounds."""
    costs, bounds = [], []
    for tried in tries:
        plan = plan_cloth(tried.job, ruler.units, ruler.planned)
        costs.append(bought(tried.job, plan) + tried.joins * PER_SEAM[tried.job.fabric.sold.metric])
        bounds.append(plan.lower_bound)
    return min(costs), min(bounds)


@pytest.fixture(scope="module")
def held(request):
    """Every cloth that is cut is held to the search; how many ways each had."""
    counts = []

    def best_of(tries, ruler, ask):
        tries = list(tries)
        found = ways.best_of(tries, ruler, ask)
        cost, bound = every_way(tries, ruler)
        job = found.tried.job
        seams = found.tried.joins * PER_SEAM[job.fabric.sold.metric]
        assert bought(job, found.plan) + seams == pytest.approx(cost)
        assert found.plan.lower_bound == bound
        again = ways.best_of(reversed(tries), ruler, plainly)
        assert again.plan == found.plan  # whatever the order in which they are told
        counts.append(len(tries))
        return found

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(stage, "best_of", best_of)
        yield counts


TEXT = """\
title: Every way
units: {units}
sizes: {{lap: {{title: Lap, unit: {unit}, blocks: {blocks}, kits: {kits}}}}}
fabrics:
  w: {{colour: grey, width: {width}, direction: {direction}}}
  x: {{colour: red, width: {width}}}
patches:
  sail: {{shape: polygon, corners: [[0, 0], [3, 0], [2, 4], [0, 4]]}}
  fin: {{shape: polygon, corners: [[3, 0], [4, 4], [2, 4]]}}
blocks:
  sails:
    pieces:
      - {{id: left, patch: sail, fabric: {sail}, at: [0, 0]}}
      - {{id: right, patch: sail, fabric: {sail}, flip: yes, at: [6, 0]}}
      - {{id: mid, patch: fin, fabric: x, at: [0, 0]}}
quilt:
  set: straight
  sashing: {{width: {sash}, fabric: {sashes}}}
  borders: [{{width: {border}, fabric: w, corners: {corners}}}]
  backing: {{extra: {extra}, fabric: w}}
  binding: {{width: {strip}, fabric: {binding}}}
  sleeve: {{fabric: {sleeve}}}
"""
CLOTH = st.sampled_from(["w", "w", "x"])


def quilts(units, cloths, unit, sash, border, extra, strip):
    return st.fixed_dictionaries(
        {
            "units": st.just(units),
            "unit": st.sampled_from(unit),
            "blocks": st.tuples(st.integers(1, 6), st.integers(1, 8)).map(lambda n: "{} x {}".format(*n)),
            "kits": st.sampled_from([1, 1, 3]),
            "width": st.sampled_from(cloths),
            "direction": st.sampled_from(["any", "any", "stripe", "one-way"]),
            "sail": CLOTH,
            "sashes": CLOTH,
            "sash": st.sampled_from(sash),
            "border": st.sampled_from(border),
            "corners": st.sampled_from(["butted", "mitred"]),
            "extra": st.sampled_from(extra),
            "binding": CLOTH,
            "strip": st.sampled_from(strip),
            "sleeve": CLOTH,
        }
    )  # fmt: skip


INCHES = quilts(
    "inch",
    ["24 in", "40 in", "44 in", "60 in", "108 in"],
    ["1 in", "2 in", "2 1/2 in"],
    ["1 in", "2 1/2 in"],
    ["2 in", "5 in"],
    ["2 in", "4 in"],
    ["2 1/4 in", "2 1/2 in"],
)
CENTIMETRES = quilts(
    "cm",
    ["60 cm", "106 cm", "112 cm", "150 cm", "270 cm"],
    ["3 cm", "5 cm"],
    ["2 cm", "6 cm"],
    ["5 cm", "12 cm"],
    ["5 cm", "10 cm"],
    ["6 cm", "6.5 cm"],
)


@settings(max_examples=examples(24), deadline=None)
@given(INCHES | CENTIMETRES)
def test_no_way_buys_less(held, words):
    before = len(held)
    with tempfile.TemporaryDirectory() as folder:
        outcome = cut_text(Path(folder), TEXT.format(**words))
    assert outcome.value is not None and len(held) > before, outcome.diagnostics


@pytest.mark.parametrize("name", ["borders_of_two_widths", "wide_backs", "small_plain_back", "fat_quarters"])  # fmt: skip
def test_no_way_of_a_pattern_buys_less(held, name):
    before = len(held)
    assert compiler.check(PATTERNS / name).value is not None
    assert max(held[before:]) > 1
