"""A text that is read entry by entry is the tree that it is when it is read whole, at every moment of its typing."""

import random

import pytest
import sampling
from mutations import corpus

from booklet.source.faults import Faults
from booklet.source.tree.rereading import read_by_parts
from booklet.source.tree.syntax import _sound, _tree

TEXTS = {name: text for name, text, _ in corpus()}
TWISTED = {
    "a quotation mark left open": 'title: "one\nunits: inch\nsummary: two"\n',
    "a text block with what looks like keys": "summary: |\n  units: cm\n  more: 1\nunits: inch\n",
    "a text block that keeps its blank lines": "summary: |+\n  one\n\n\nunits: inch\n",
    "a bracket over several entries": "a: {b: 1,\nc: 2}\nd: 3\n",
    "a list as far out as its key": "a:\n- 1\n- b: 2\nc: 3\n",
    "an indent that changes": "a:\n    b: 1\n  c: 2\n",
    "a key twice": "a: 1\nb: 2\na: 3\n",
    "a value on the next line": "a:\n  one\n  two\nb: 1\n",
    "nothing below a key": "a:\n\nb:\n  # only a note\nc: 1\n",
    "a document mark": "a: 1\n---\nb: 2\n",
    "marks of YAML": "a: &x 1\nb: *x\n",
    "a note with a colon": "a: 1 # b: 2\n# c: 3\nd:   # e\n  f: 1\n",
}


def agree(text):
    """Whether both ways of reading agree; a text that has to be read whole does."""
    by_parts, faults = read_by_parts(text, "pattern.yaml", _sound), Faults()
    whole = _tree(text, "pattern.yaml", faults)
    return by_parts is None or (by_parts == whole and not faults.all())


@pytest.mark.parametrize("text", TWISTED.values(), ids=TWISTED)
def test_twisted_texts(text):
    assert agree(text)


def test_every_pattern_is_read_by_parts_or_has_a_reason():
    for name, text in TEXTS.items():
        assert agree(text), name
    apart = [name for name, text in TEXTS.items() if read_by_parts(text, "p", _sound) is not None]
    assert len(apart) > 0.9 * len(TEXTS)


def test_half_typed_texts():
    random.seed(7)
    text = TEXTS["example_pattern"]
    ends = sampling.some(range(0, len(text), 67))
    for end in ends:
        assert agree(text[:end]) and agree(text[:end] + "\n"), text[:end][-60:]
    for _ in range(60):
        at, more = random.randrange(len(text)), random.choice("\"'[]{}:#|>-&*!%\n \t,@`?")
        assert agree(text[:at] + more + text[at:]), (at, more)
        end = at + random.randrange(40)
        assert agree(text[:at] + text[end:]), (at, end)
    long = [end for end in ends if read_by_parts(text[:end] + "\n", "p", _sound)]
    assert len(long) > 8
