"""Floor 0: frozen records that grow from stage to stage: each has the fields of the one before, and its own."""

from __future__ import annotations

from dataclasses import fields
from typing import Any, TypeVar

T = TypeVar("T")


def grown(kind: type[T], record: Any, **more: object) -> T:
    """A record of a kind that has the fields of `record`, and `more`."""
    kept = {field.name: getattr(record, field.name) for field in fields(record) if field.init}
    return kind(**{**kept, **more})
