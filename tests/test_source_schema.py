"""Floor 2: the schema says what the reader says; the new pattern builds on both."""

from __future__ import annotations

import re

import pytest
from jsonschema import Draft202012Validator
from ruamel.yaml import YAML
from source_helpers import GOOD, PATTERNS

from booklet.source.examples import EXAMPLES
from booklet.source.pattern_keys import PATTERN
from booklet.source.reader import read_folder
from booklet.source.schema import TABLES, pattern_schema
from booklet.source.starter import starter_files

VALIDATOR = Draft202012Validator(pattern_schema())


def loaded(text):
    data = YAML(typ="safe", pure=True).load(text)
    return data | {"date": str(data["date"])} if "date" in data else data


def test_the_schema_is_one():
    Draft202012Validator.check_schema(pattern_schema())
    named = set(re.findall(r"#/\$defs/([a-z]+)", repr(pattern_schema())))
    assert named == {table.name for table in TABLES} == set(pattern_schema()["$defs"])


@pytest.mark.parametrize("folder", sorted(PATTERNS.iterdir()), ids=lambda path: path.name)
def test_patterns_are_valid(folder):
    errors = VALIDATOR.iter_errors(loaded((folder / "pattern.yaml").read_text("utf-8")))
    assert [error.message for error in errors] == []


@pytest.mark.parametrize(
    "part", ["", "sizes.lap", "fabrics.ink", "blocks.stone", "quilt", "sewing", "booklet"]
)
def test_unknown_keys_are_refused(part):
    data = loaded(GOOD + "quilt: {set: straight}\nsewing: {thread: 18 in}\nbooklet: {paper: a4}\n")
    VALIDATOR.validate(data)
    group = data
    for name in part.split(".") if part else []:
        group = group[name]
    group["colr"] = 1
    assert not VALIDATOR.is_valid(data)


def test_a_shape_must_have_its_keys_and_no_others():
    for patch, good in (
        ({"shape": "square", "side": 1}, True),
        ({"shape": "square"}, False),
        ({"shape": "square", "side": 1, "angle": 60}, False),
        ({"shape": "diamond", "side": 1, "angle": 60}, True),
    ):
        assert VALIDATOR.is_valid(loaded(GOOD) | {"patches": {"p": patch}}) is good


def test_every_key_has_a_sentence():
    for table in TABLES:
        for key in table.keys:
            assert key.doc[0].isupper() and key.doc.endswith("."), (table.name, key.name)


def test_a_new_pattern_is_read_without_a_fault(tmp_path):
    for name, text in starter_files().items():
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_text(text, encoding="utf-8")
    outcome = read_folder(tmp_path)
    assert outcome.diagnostics == () and outcome.value is not None
    assert list(outcome.value.texts) == ["text/welcome.md"]
    VALIDATOR.validate(loaded(starter_files()["pattern.yaml"]))


@pytest.mark.parametrize("table", (PATTERN, *TABLES), ids=lambda table: table.name)
def test_every_group_has_an_example_that_the_schema_takes(table):
    schema = pattern_schema()
    here = schema if table is PATTERN else schema["$defs"][table.name]
    (example,) = here["examples"]
    known = {"$defs": schema["$defs"], **here}
    assert [fault.message for fault in Draft202012Validator(known).iter_errors(example)] == []
    assert set(EXAMPLES) == {PATTERN.name, *(one.name for one in TABLES)}


def test_keys_have_titles_defaults_and_examples():
    border = pattern_schema()["$defs"]["border"]["properties"]
    assert border["corners"] == {
        "title": "corners (border)",
        "enum": ["butted", "mitred", "squares"],
        "description": "How the corners are made; butted if left out.",
        "default": "butted",
        "examples": ["squares"],
    }
    assert border["width"]["examples"] == ["4 in"] and "default" not in border["width"]
    layers = pattern_schema()["$defs"]["sewing"]["properties"]["layers"]
    assert (layers["default"], layers["examples"]) == (8, [8])


# Each group's place in a pattern that has every group once; `{}` takes one more key.
WHOLE = """\
title: Quay stones
{pattern}
sizes:
  lap: {{unit: 2 in, blocks: 2 x 2}}
fabrics:
  ink: {{name: Dark blue, colour: navy, {fabric}}}
  sand: {{name: Sand, colour: "#e9dcc3"}}
patches:
  stone: {{shape: square, side: 1, {patch}}}
blocks:
  path:
    pieces:
      - {{id: a, patch: stone, fabric: ink, at: [0.5, 0.5], {piece}}}
      - {{id: b, patch: stone, fabric: sand, at: [1.5, 0.5]}}
    sew:
      - {{make: block, join: [a, b], by: machine, {step}}}
quilt:
  {quilt}
  arrange: [[path]]
  sashing: {{width: 1 in, fabric: sand, {sashing}}}
  borders: [{{width: 1 in, fabric: ink, {border}}}]
  binding: {{fabric: ink, {binding}}}
cutting: {{{cutting}}}
sewing: {{thread: 18 in, costs: {{{costs}}}, {sewing}}}
booklet:
  editions:
    pattern: {{pages: [cover], {edition}}}
  look: {{{look}}}
"""
DEFAULTS = [(table.name, key) for table in (PATTERN, *TABLES) for key in table.keys if key.default]


@pytest.mark.parametrize(("group", "key"), DEFAULTS, ids=lambda one: getattr(one, "name", one))
def test_a_default_says_the_same_as_leaving_the_key_out(tmp_path, group, key):
    def read(written):
        filled = {table.name: "" for table in (PATTERN, *TABLES)} | {group: written}
        (tmp_path / "pattern.yaml").write_text(WHOLE.format(**filled), encoding="utf-8")
        return read_folder(tmp_path)

    said, silent = read(f"{key.name}: {key.default}"), read("")
    assert not any(d.is_error for d in said.diagnostics) and not any(
        d.is_error for d in silent.diagnostics
    )
    assert without_places(said.value) == without_places(silent.value)


def without_places(pattern):
    """The record without spans, which move with what is written."""
    return re.sub(r"Span\(file='[^']*', line=\d+, column=\d+, end=\d+\)", "Span", repr(pattern))
