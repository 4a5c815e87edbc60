"""Floor 2: the JSON Schema of `pattern.yaml`, made from the tables of keys that the reader uses."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from typing import Any

from booklet.crafts.form import Form
from booklet.crafts.forms import FORMS
from booklet.source import pattern_keys
from booklet.source.blocks import applied, block_keys as blocks, pieces, shape_keys, steps
from booklet.source.editions import (
    alternatives,
    edition_keys as editions,
    front,
    lessons,
    look,
    parts,
)
from booklet.source.examples import EXAMPLES
from booklet.source.faults import Faults
from booklet.source.sizes import cutting_rules, fabrics, quilts, sewing_rules, size_keys as sizes
from booklet.source.tree.node import List, Map, Node, Text
from booklet.source.tree.syntax import read_tree
from booklet.source.values.fields import Key, Table

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
    applied.APPLIED,
    steps.STEP,
    quilts.QUILT,
    quilts.LATTICE,
    quilts.SASHING,
    quilts.BORDER,
    quilts.BINDING,
    quilts.BACKING,
    quilts.BATTING,
    quilts.SLEEVE,
    quilts.ENVELOPE,
    cutting_rules.CUTTING,
    sewing_rules.SEWING,
    sewing_rules.COSTS_TABLE,
    editions.BOOKLET,
    editions.EDITION,
    front.COVER,
    front.IMPRINT,
    parts.PART,
    lessons.CLASS,
    lessons.SESSION,
    look.LOOK,
    alternatives.COLOURWAY,
    alternatives.LAYOUT,
    alternatives.OF_SIZE,
)


def pattern_schema() -> Json:
    """The schema (draft 2020-12), with titles, defaults, examples and a sentence for every key, which an
    editor can show."""
    root = _of_table(pattern_keys.PATTERN)
    definitions = {table.name: _of_table(table) for table in TABLES}
    definitions["patch"] |= {"allOf": [_of_shape(form) for form in FORMS.values()]}
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        **root,
        "$defs": definitions,
    }


def _of_table(table: Table) -> Json:
    """A group of keys; a key that is not in the table is refused."""
    example = example_of(table)
    return {
        "title": "A patchwork pattern" if table is pattern_keys.PATTERN else table.name,
        "description": table.doc,
        "examples": [example],
        "type": "object",
        "properties": {key.name: _of_key(table, key, example) for key in table.keys},
        "required": [key.name for key in table.keys if key.required],
        "additionalProperties": False,
    }


def _of_key(table: Table, key: Key[Any], example: Mapping[str, object]) -> Json:
    """A key: what it takes and means, what leaving it out says, and an example."""
    made: Json = {"title": f"{key.name} ({table.name})", **key.kind.schema, "description": key.doc}
    if key.default is not None:
        made["default"] = _number_or_text(key.default)
    if key.name in example:
        made["examples"] = [example[key.name]]
    return made


def example_of(table: Table) -> dict[str, object]:
    """The example of a group as JSON has it."""
    tree = read_tree(EXAMPLES[table.name], "example", Faults())
    found = _json_value(tree) if tree is not None else None
    if not isinstance(found, dict):
        raise TypeError(f"the example of {table.name} is no group of keys")
    return found


def _json_value(node: Node) -> object:
    """A node as JSON has it: plain numbers are numbers."""
    match node:
        case Text(quoted=False):
            return _number_or_text(node.value)
        case Text():
            return node.value
        case List(items=items):
            return [_json_value(item) for item in items]
        case Map(entries=entries):
            return {key.value: _json_value(value) for key, value in entries}


def _number_or_text(written: str) -> object:
    """A value as JSON has it."""
    if re.fullmatch(r"-?[0-9]{1,9}", written):
        return int(written)
    return float(written) if re.fullmatch(r"-?[0-9]{1,9}\.[0-9]{1,9}", written) else written


def _of_shape(form: Form) -> Json:
    """What a patch of one shape must have, and which keys of other shapes it may not have."""
    table = shape_keys.table_of(form)
    foreign = [name for name in shape_keys.PATCH.names() if name not in table.names()]
    return {
        "if": {"properties": {"shape": {"const": form.word}}, "required": ["shape"]},
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
