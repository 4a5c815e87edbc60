"""Where the facts come from: what `booklet facts` prints, a black box to everything else here."""

import json
from pathlib import Path

import corpus

HERE = Path(__file__).parent
PATTERNS = (corpus.EXAMPLE, *corpus.FOLDERS)


def facts_of(folder: Path):
    """The facts of a pattern, fresh, so that a test may change them."""
    return json.loads(corpus.facts_told(folder))
