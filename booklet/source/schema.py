"""Floor 2: the JSON Schema of `pattern.yaml`, made from the tables of keys that the reader uses."""

from __future__ import annotations

import json

from booklet.pattern import ShapeKind
from booklet.source import (
    blocks,
    cutting_rules,
    editions,
    fabrics,
    lessons,
    look,
    pattern_keys,
    pieces,
    quilts,
    sewing_rules,
    shape_keys,
    sizes,
    steps,
)
from booklet.source.fields import Table

Json = dict[str, object]

TABLES: tuple[Table, ...] = (
    sizes.SIZE,
    sizes.BED_TABLE,
    fabrics.FABRIC,
    fabrics.REPEAT,
    shape_keys.PATCH,
    blocks.BLOCK,
    pieces.PIECE,
    pieces.RING,
    pieces.BESIDE,
    steps.STEP,
    quilts.QUILT,
    quilts.LATTICE,
    quilts.SASHING,
    quilts.BORDER,
    quilts.BINDING,
    quilts.BACKING,
    quilts.BATTING,
    quilts.SLEEVE,
    cutting_rules.CUTTING,
    sewing_rules.SEWING,
    sewing_rules.COSTS_TABLE,
    editions.BOOKLET,
    editions.EDITION,
    lessons.CLASS,
    lessons.SESSION,
    look.LOOK,
)


def pattern_schema() -> Json:
    """The schema (draft 2020-12), with a sentence for every key that an editor can show."""
    root = _of_table(pattern_keys.PATTERN)
    definitions = {table.name: _of_table(table) for table in TABLES}
    definitions["patch"] |= {"allOf": [_of_shape(kind) for kind in ShapeKind]}
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "A patchwork pattern",
        **root,
        "$defs": definitions,
    }


def _of_table(table: Table) -> Json:
    """A group of keys; a key that is not in the table is refused."""
    return {
        "description": table.doc,
        "type": "object",
        "properties": {key.name: {**key.kind.schema, "description": key.doc} for key in table.keys},
        "required": [key.name for key in table.keys if key.required],
        "additionalProperties": False,
    }


def _of_shape(kind: ShapeKind) -> Json:
    """What a patch of one shape must have, and which keys of other shapes it may not have."""
    table = shape_keys.table_of(kind)
    foreign = [name for name in shape_keys.PATCH.names() if name not in table.names()]
    return {
        "if": {"properties": {"shape": {"const": kind.value}}, "required": ["shape"]},
        "then": {
            "required": [key.name for key in table.keys if key.required],
            "properties": dict.fromkeys(foreign, False),
        },
    }


def schema_text(schema: Json | None = None) -> str:
    """A schema, or that of the pattern, as it is written to a file."""
    return (
        json.dumps(pattern_schema() if schema is None else schema, indent=1, ensure_ascii=False)
        + "\n"
    )
