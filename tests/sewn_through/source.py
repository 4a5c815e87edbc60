"""Where the facts come from: the command `booklet facts`, a black box to everything else here."""

import contextlib
import functools
import io
import json
from pathlib import Path

from booklet.__main__ import main

HERE = Path(__file__).parent
PATTERNS = (
    HERE.parent.parent / "example_pattern",
    *sorted(f.parent for f in HERE.parent.glob("patterns/*/pattern.yaml")),
)


@functools.cache
def text_of(folder: Path) -> str:
    """What `booklet facts FOLDER` prints."""
    out = io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(io.StringIO()) as err:
        status = main(["facts", str(folder)])
    assert status == 0, err.getvalue()
    return out.getvalue()


def facts_of(folder: Path):
    """The facts of a pattern, fresh, so that a test may change them."""
    return json.loads(text_of(folder))
