"""Floor 12, comparing: the two sides. Each is a pattern's folder, checked and planned, or a file of facts."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from booklet.facts import facts
from booklet.kit.bounds import MOST_FACTS
from booklet.kit.measure import UnitSystem
from booklet.kit.records import Record
from booklet.kit.words import Text, phrase
from booklet.pattern import Pattern
from booklet.plan import Plan

Json = dict[str, Any]


class PatternState(Record, kw_only=True):
    """One state of a pattern: its facts, and the plan where the folder is there to be read."""

    facts: Json
    plan: Plan | None = None

    @property
    def pattern(self) -> Pattern | None:
        """The pattern, where the folder is there."""
        return None if self.plan is None else self.plan.pattern

    @property
    def units(self) -> UnitSystem | None:
        """The units in which the booklet of this side prints, where they are known."""
        return None if self.plan is None else self.plan.pattern.units

    def fabric(self, size: str, id: str) -> str:
        """The name of a fabric, or its id where nothing more is known."""
        for planned in self.plan.sizes if self.plan else ():
            if planned.size.id == size and id in planned.size.fabrics:
                return planned.fabric(id).name
        return id

    def part(self, size: str, name: str) -> Text:
        """What a patch or a part of the quilt is called: its letter, its title, or the name in the facts."""
        for planned in self.plan.sizes if self.plan else ():
            for patch in planned.cutting.patches if planned.size.id == size else ():
                if patch.name == name:
                    return name if name in planned.letters else patch.title
        return name

    def block(self, id: str) -> str:
        """The title of a block, or its id."""
        for block in self.pattern.blocks if self.pattern else ():
            if block.id == id:
                return block.title
        return id

    def size(self, id: str) -> Text:
        """The title of a size, or its id; of all sizes, where it has none."""
        if not id:
            return phrase("All sizes")
        for size in self.pattern.sizes if self.pattern else ():
            if size.id == id:
                return size.title
        return id


def of_plan(plan: Plan) -> PatternState:
    """The side of a planned pattern."""
    return PatternState(facts=facts(plan), plan=plan)


def of_file(path: Path) -> PatternState | str:
    """The side of a file that `booklet facts` printed, or a sentence that it is none."""
    try:
        with path.open("rb") as file:
            data = file.read(MOST_FACTS + 1)
    except OSError as fault:
        return _none(path, f"cannot be read: {fault.strerror or fault}")
    if len(data) > MOST_FACTS:
        return _none(path, f"is larger than {MOST_FACTS // 1_000_000} MB")
    try:
        read = json.loads(data)
    except (ValueError, RecursionError):
        return _none(path, "is not JSON")
    if not isinstance(read, dict) or not isinstance(read.get("sizes"), dict):
        return _none(path, "holds no sizes of a pattern")
    return PatternState(facts=read)


def _none(path: Path, why: str) -> str:
    return f"`{path}` {why}; name a pattern's folder, or what `booklet facts FOLDER > FILE` printed of one"
