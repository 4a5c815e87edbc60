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


def test_no_known_fault_is_left_over_from_a_pattern_that_is_gone():
    names = {folder.name for folder in PATTERNS}
    assert {name for name, _ in KNOWN} <= names
    assert {check for _, check in KNOWN} <= CHECKS.keys()
