"""The keys of `sewing` that say what turns cost and how fast is sewn, right and wrong."""

import tempfile
from pathlib import Path

import pytest

from booklet.kit.measure import Length
from booklet.pattern import Pace, TurnCosts
from booklet.source.reader import read_folder

HEAD = """\
title: Quay stones
units: UNITS
sizes: {lap: {unit: 1, blocks: 1 x 1}}
fabrics: {ink: {colour: "#243b6b"}}
blocks: {stone: {grid: [[ink, ink]]}}
sewing:
"""


def read(line, units="inch"):
    with tempfile.TemporaryDirectory() as name:
        text = HEAD.replace("UNITS", units) + f"  {line}\n"
        (Path(name) / "pattern.yaml").write_text(text, encoding="utf-8")
        return read_folder(Path(name))


def sewing(line, units="inch"):
    found = read(line, units)
    assert not any(d.is_error for d in found.diagnostics), found.diagnostics
    return found.value.sizes[0].sewing


@pytest.mark.parametrize(
    ("line", "key", "value"),
    [
        ("machine speed: 12 in a minute", "machine", Length.of(12)),
        ("machine speed: 12 in per minute", "machine", Length.of(12)),
        ("machine speed: 12 in/min", "machine", Length.of(12)),
        ("machine speed: 12", "machine", Length.of(12)),  # a bare number is in the pattern's units
        ("hand speed: 1 1/2 in a minute", "hand", Length.of(1.5)),
        ("handling: 2 minutes", "handling", 2.0),
        ("handling: 0", "handling", 0.0),
        ("handling: 1 minute", "handling", 1.0),
        ("sitting: 45 min", "sitting", 45.0),
        ("sitting: 1440", "sitting", 1440.0),
    ],
)
def test_pace(line, key, value):
    pace = sewing(line).pace
    assert getattr(pace, key) == value
    others = {"machine", "hand", "handling", "sitting"} - {key}
    assert all(getattr(pace, other) == getattr(Pace(), other) for other in others)


def test_pace_in_centimetres():
    assert float(sewing("machine speed: 25.4 cm a minute", "cm").pace.machine) == 10.0
    assert float(sewing("machine speed: 25.4", "cm").pace.machine) == 10.0  # 25.4 cm = 10 in


def test_the_usual_pace_in_centimetres_is_round_there():
    # 7.5 cm of seam by hand are 3 min at the 2.5 cm that are printed; 1 in would be 2.54 cm and was printed as 3
    pace = sewing("ends: auto", "cm").pace
    assert (round(pace.machine.mm, 9), round(pace.hand.mm, 9)) == (250, 25)


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        ("costs: {partial: 0.5}", TurnCosts(1.0, 1.0, 0.5)),
        ("costs: {set in by machine: 2}", TurnCosts(2.0, 1.0, 1.0)),
        ("costs: {set in by hand: 3}", TurnCosts(1.0, 3.0, 1.0)),
        ("costs: {partial: 0, set in by machine: 1000}", TurnCosts(1000.0, 1.0, 0.0)),
        ("ends: auto", TurnCosts()),
    ],
)
def test_costs(line, expected):
    assert sewing(line).costs == expected


@pytest.mark.parametrize(
    "line",
    [
        "machine speed: 0 in a minute",
        "machine speed: -3 in a minute",
        "machine speed: fast",
        "machine speed: [10]",
        "hand speed: 5 minutes",
        "handling: -1",
        "handling: 601 minutes",
        "handling: an hour",
        "sitting: 4",
        "sitting: 1441",
        "sitting: {minutes: 90}",
        "costs: 3",
        "costs: {partial: -1}",
        "costs: {partial: 1001}",
        "costs: {partial: much}",
        "costs: {partial: .nan}",
        "costs: {set in by machine: [1]}",
        "costs: {set in by foot: 1}",
        "machine sped: 10 in a minute",
    ],
)
def test_bad_input_is_told_where_it_stands(line):
    found = read(line)
    assert any(d.is_error for d in found.diagnostics)
    for fault in found.diagnostics:
        assert fault.message and fault.hint and fault.span.line == 7  # the line after `sewing:`
