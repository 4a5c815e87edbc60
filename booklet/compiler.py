"""Floor 12: the recipe. A folder goes in; a plan comes out, or every fault that was found."""

from __future__ import annotations

from pathlib import Path

from booklet.checks import CheckedPattern, admit, examine
from booklet.cutting import cut
from booklet.diagnostic import Outcome
from booklet.geometry import lay_out
from booklet.pattern import Pattern
from booklet.plan import Plan, make_plan
from booklet.pressing import press
from booklet.quilt import set_quilts
from booklet.sewing import assemble
from booklet.source import read_folder


def check(folder: Path) -> Outcome[CheckedPattern]:
    """The checked pattern of a folder, with everything computed and every diagnostic found."""
    return check_pattern(read_folder(folder))


def check_pattern(read: Outcome[Pattern]) -> Outcome[CheckedPattern]:
    """The checked pattern of what was read."""
    return admit(
        read.then(lay_out).then(assemble).then(press).then(set_quilts).then(cut).then(examine)
    )


def plan(checked: CheckedPattern, sizes: list[str] | None = None) -> Plan:
    """The plan of the sizes asked for, or of all."""
    return make_plan(checked, sizes)
