"""The form `regular polygon` by itself: how it stands, how it is known, how it is cut."""

from __future__ import annotations

import pytest
from crafts_helpers import corners, seen

from booklet.crafts.forms.regular_polygon import FORM


def test_it_stands_on_a_side():
    for sides in (3, 5, 8, 12):
        points = corners("regular polygon", sides=sides, side=2)
        low = max(y for _, y in points)
        assert sum(y == pytest.approx(low) for _, y in points) == 2


@pytest.mark.parametrize(
    ("sides", "name"), [(5, "pentagon"), (7, "seven-sided patch"), (11, "regular 11-sided patch")]
)
def test_it_has_names(sides, name):
    points = corners("regular polygon", sides=sides, side=2)
    assert seen(points) == ("regular polygon", name, 0)


def test_those_with_a_form_of_their_own_are_that():
    words = {n: seen(corners("regular polygon", sides=n, side=2))[0] for n in (3, 4, 6, 8)}
    assert words == {3: "equilateral triangle", 4: "square", 6: "hexagon", 8: "octagon"}


def test_it_is_cut_by_template():
    assert FORM.cut is None
