"""Every pattern of the tests and the example, in all sizes: cut, sewn, laid and measured from its facts."""

import pytest

from sewn_through import cloth, counting, order, sewing, top
from sewn_through.known import KNOWN
from sewn_through.source import PATTERNS, facts_of

CHECKS = {"counting": counting, "cloth": cloth, "order": order, "sewing": sewing, "top": top}


def cases():
    """Every pattern with every check; those with a known fault are expected to fail."""
    for folder in PATTERNS:
        for check in CHECKS:
            known = KNOWN.get((folder.name, check))
            marks = [pytest.mark.xfail(reason=known, strict=True)] if known else []
            yield pytest.param(folder, check, marks=marks, id=f"{folder.name}-{check}")


@pytest.mark.parametrize(("folder", "check"), list(cases()))
def test_it_comes_out_as_stated(folder, check):
    found = CHECKS[check].complaints(facts_of(folder))
    assert not found, "\n".join(found)


def test_what_is_left_of_the_cloth_of_a_pin_cushion():
    # 1/8 yd is 4 1/2 in: 1/2 to straighten, a strip of 2 1/2, and 1 1/2 right across 40 in are left; of
    # the strip the binding takes 4 x 2 + 10 = 18, with no join, and two squares 1 1/2 each: 40 - 18 - 3 = 19
    folder = next(folder for folder in PATTERNS if folder.name == "three_sizes")
    ink = facts_of(folder)["sizes"]["pin"]["cutting"]["ink"]
    assert ink["left_over"] == [
        {"size_in": [40.0, 1.5], "count": 1},
        {"size_in": [19.0, 2.5], "count": 1},
    ]
    assert ink["length_in"] == ink["lower_bound_in"] == 3 and ink["gap_percent"] == 0


def test_no_known_fault_is_left_over_from_a_pattern_that_is_gone():
    names = {folder.name for folder in PATTERNS}
    assert {name for name, _ in KNOWN} <= names
    assert {check for _, check in KNOWN} <= CHECKS.keys()
