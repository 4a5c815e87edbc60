"""Floor 13, what is asked of the table: a tab's few words, taken apart and bounded before anything is done."""

from __future__ import annotations

import json
from collections.abc import Mapping

from booklet.kit.bounds import LONGEST_NAME, MOST_JOINED, MOST_STEPS
from booklet.kit.records import Record
from booklet.sewing.touched.touches import TouchedStep

MOST_BODY = 256_000  # bytes: as many steps as a block may have, with long names
LONGEST = LONGEST_NAME + 20  # signs of a name; a piece of a ring has a number behind its own
MOST_ASKED = 8 * MOST_STEPS  # pieces named in all steps together

DEEDS = ("look", "join", "alike", "on", "written", "cloth")
CHANGES = ("order", "cloth", "undo")


class Wrong(Exception):
    """What was asked cannot be read; the message is a sentence."""


class Asked(Record, kw_only=True):
    """What a tab asks: the block and the size by name, what is to be done, the steps touched so far, the pieces in hand, what
    the seam in hand is left open for; for cloth, pieces and the fabric chosen; and the source it was shown (its digest)."""

    do: str
    block: str
    size: str
    touches: tuple[TouchedStep, ...]
    hand: tuple[str, ...]
    leave: str | None
    pieces: tuple[str, ...]
    fabric: str
    source: str
    picture: bool


def asked_of(body: bytes, deeds: tuple[str, ...]) -> Asked:
    """What a body of JSON asks. Raises Wrong."""
    try:
        told = json.loads(body)
    except (ValueError, RecursionError):
        raise Wrong("what was asked is not JSON") from None
    if not isinstance(told, dict):
        raise Wrong("what was asked is no group of keys")
    do = _name(told, "do")
    if do not in deeds:
        raise Wrong(f"there is nothing to ask by that name: one of {', '.join(deeds)}")
    touches = told.get("steps", [])
    if not isinstance(touches, list) or len(touches) > MOST_STEPS:
        raise Wrong(f"`steps` is no list of at most {MOST_STEPS} steps")
    made = tuple(map(_touch, touches))
    if sum(len(touch.pieces) for touch in made) > MOST_ASKED:
        raise Wrong(f"the steps name more than {MOST_ASKED} pieces")
    return Asked(
        do=do,
        block=_name(told, "block"),
        size=_name(told, "size"),
        touches=made,
        hand=_names(told, "hand"),
        leave=_name(told, "leave") or None,
        pieces=_names(told, "pieces"),
        fabric=_name(told, "fabric"),
        source=_name(told, "source"),
        picture=told.get("picture") is True,
    )


def _touch(told: object) -> TouchedStep:
    if not isinstance(told, dict):
        raise Wrong("a step is no group of keys")
    pieces = _names(told, "join")
    if len(pieces) < 2:
        raise Wrong("a step joins two pieces or more")
    return TouchedStep(pieces, _name(told, "leave") or None, told.get("finish") is True)


def _names(told: Mapping[str, object], key: str) -> tuple[str, ...]:
    found = told.get(key, [])
    if not isinstance(found, list) or len(found) > MOST_JOINED:
        raise Wrong(f"`{key}` is no list of at most {MOST_JOINED} names")
    return tuple(_name({key: name}, key) for name in found)


def _name(told: Mapping[str, object], key: str) -> str:
    found = told.get(key)
    if found is None:
        return ""
    if not isinstance(found, str) or len(found) > LONGEST:
        raise Wrong(f"`{key}` is no name of at most {LONGEST} signs")
    return found
