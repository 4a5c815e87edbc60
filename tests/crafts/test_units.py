"""The registry of units made together: each is one file with all its parts and its tests beside it."""

from __future__ import annotations

import pickle
from pathlib import Path

import pytest
from crafts_helpers import asked, kind

from booklet.crafts import units
from booklet.crafts.pictures import ClothPiece
from booklet.crafts.units import UNITS
from booklet.kit.words import Phrase

HERE = Path(__file__).parent
FILES = sorted(p.stem for p in Path(units.__file__).parent.glob("*.py") if p.stem != "__init__")
WAYS = [(key, way) for key, unit in UNITS.items() for way in unit.ways]
SIZES = {"half squares": (3.0,), "flying geese": (4.0, 2.0), "square in a square": (4.0,), "strip sets": (2.0, 1.0, 3.0)}  # fmt: skip


def test_every_file_is_a_unit_with_its_tests():
    assert len(FILES) == len(UNITS) == len({unit.rank for unit in UNITS.values()})
    assert [name for name in FILES if not (HERE / f"test_{name}.py").exists()] == []
    assert len({way.word for _, way in WAYS}) == len(WAYS)


@pytest.mark.parametrize(("key", "way"), WAYS, ids=lambda of: getattr(of, "word", of))
def test_every_way_has_words_for_each_of_its_pictures(key, way):
    made = way.figures(kind(SIZES[key], ("ink", "sky"), 16), asked())
    steps, pictures = way.steps(made, "1/4 in", "2 1/2 in"), way.picture(made)
    assert len(pictures) in (len(steps), len(steps) + 1)  # the last sentence is what one has
    for phrase in (way.title, way.told, way.trim("3 in"), *steps):
        assert isinstance(phrase, Phrase)
    used = {mark.cut for _, marks in pictures for mark in marks if isinstance(mark, ClothPiece)}
    assert used - {None} == set(range(len(made.cuts)))  # every cloth is seen
    for wide, marks in pictures:
        assert all(-2 <= x <= wide + 2 for mark in marks for x, _ in mark.points)


@pytest.mark.parametrize(("key", "way"), WAYS, ids=lambda of: getattr(of, "word", of))
def test_what_is_asked_for_is_found_and_can_be_stored(key, way):
    assert UNITS[key].way(way.choice) is way
    assert pickle.loads(pickle.dumps(way)) == way
