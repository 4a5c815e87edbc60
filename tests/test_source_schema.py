"""Floor 2: the schema says what the reader says; the new pattern builds on both."""

from __future__ import annotations

import re

import pytest
from jsonschema import Draft202012Validator
from ruamel.yaml import YAML
from source_helpers import GOOD, PATTERNS

from booklet.source import read_folder
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
