"""Names as parts of file names."""

import pytest

from booklet.source.values.names import file_part


@pytest.mark.parametrize(
    ("name", "part"),
    [("Été à Århus", "ete-a-arhus"), ("Ærø", "aero"), ("Łódź", "lodz"), ("Straße", "strasse"), ("☂", "booklet"), ("雪 2", "雪-2")],
)  # fmt: skip
def test_letters_with_marks_and_strokes_lose_them_alike(name, part):
    assert file_part(name) == part
