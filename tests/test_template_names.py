"""Every name in a page template, and every field behind a dot, is one of the records that the pages hand over.

Jinja's StrictUndefined sees a wrong name only where a page happens to come by it; this reads all branches of all templates
against the types of `page_values.py`.
"""

from __future__ import annotations

import types
import typing
from collections.abc import Callable, Mapping
from functools import cache

import pytest
from jinja2 import nodes
from jinja2.meta import find_undeclared_variables

from booklet.kit.records import field_names, is_record
from booklet.pages.tables.view import ClothView
from booklet.pages.texts.templating import OWN_TEMPLATES, environment, template_text
from booklet.pages.texts.words import Words
from booklet.pages.views.page_values import OWN_VALUES, DocumentValues, SizeCalls, SizeValues
from booklet.pages.views.side_by_side import SideBySide
from booklet.plan import BlockPlan

PAGES = sorted(OWN_TEMPLATES)
RECORDS = (SizeValues, SizeCalls, DocumentValues)
SAID = {"t", "tn", "q"}  # what every template may call (`Words.functions`)
OTHERWISE = {
    "pages/cutting_cloth.html": {"cloth"},
    "pages/cutting_block.html": {"block"},
    "pages/piecing_block.html": {"block"},
    "pages/pressing_block.html": {"block"},
    "pages/methods.html": {"several"},  # set there
    "pages/side_by_side.html": {"side_by_side"},
}
"""Parts of pages, and what each tells of; `of`, which marks what a part shows, and `kept`, by which it is ticked, go with every page."""
UNKNOWN = typing.Any


@cache
def hints(kind):
    return typing.get_type_hints(kind)


def handed_over(template=""):
    """The types of all names that a page of a pattern, or a part of it, may use; of a `template` with values of its own,
    those too."""
    parts = {"block": BlockPlan, "cloth": ClothView, "side_by_side": SideBySide}
    own = OWN_VALUES.get(template, ())
    return parts | {
        name: hints(kind)[name] for kind in (*RECORDS, *own) for name in field_names(kind)
    }


class Reader:
    """Follows the types of a template's expressions; `faults` are fields that are not there."""

    def __init__(self, template):
        self.template, self.faults, self.followed = template, [], 0

    def read(self, node, known):
        """Read a statement or a list of them; names that it sets are known to those that follow."""
        for child in node if isinstance(node, list) else [node]:
            if isinstance(child, nodes.For):
                inner = known | self.bound(child.target, element(self.type_of(child.iter, known)))
                inner["loop"] = UNKNOWN
                if child.test is not None:
                    self.type_of(child.test, inner)
                self.read(child.body, inner)
                self.read(child.else_, known)
            elif isinstance(child, nodes.Assign):
                known |= self.bound(child.target, self.type_of(child.node, known))
            elif isinstance(child, (nodes.Macro, nodes.CallBlock)):
                self.read(child.body, known | {arg.name: UNKNOWN for arg in child.args})
            elif isinstance(child, nodes.Expr):
                self.type_of(child, known)
            else:
                for part in child.iter_child_nodes():
                    self.read([part], known)

    def bound(self, target, kind):
        """The names of a target, each with its type."""
        if isinstance(target, nodes.Name):
            return {target.name: kind}
        if isinstance(target, nodes.Tuple):
            parts = typing.get_args(kind) if typing.get_origin(kind) is tuple else ()
            many = parts if len(parts) == len(target.items) else [UNKNOWN] * len(target.items)
            return {
                k: v
                for t, p in zip(target.items, many, strict=True)
                for k, v in self.bound(t, p).items()
            }
        return {}

    def type_of(self, node, known):
        """The type of an expression, all its parts read on the way."""
        if isinstance(node, nodes.Name):
            return known.get(node.name, UNKNOWN)
        if isinstance(node, nodes.Getattr):
            return self.field(node, self.type_of(node.node, known))
        if isinstance(node, nodes.Call):
            called = self.type_of(node.node, known)
            for part in (*node.args, *(keyword.value for keyword in node.kwargs)):
                self.type_of(part, known)
            return typing.get_args(called)[1] if typing.get_origin(called) is Callable_ else UNKNOWN
        if isinstance(node, nodes.Getitem):
            self.type_of(node.arg, known)
            return element(self.type_of(node.node, known))
        for part in node.iter_child_nodes():
            self.type_of(part, known)
        return UNKNOWN

    def field(self, node, kind):
        """The type of a field behind a dot; a fault where no record of the type has it."""
        options = [one for one in alternatives(kind) if is_record(one)]
        if not options:
            return UNKNOWN
        self.followed += 1
        found = [member(one, node.attr) for one in options]
        if all(one is None for one in found):
            names = " or ".join(one.__name__ for one in options)
            self.faults.append(f"{self.template}:{node.lineno}: {names} has no `{node.attr}`")
        return next((one for one in found if one is not None), UNKNOWN)


Callable_ = typing.get_origin(Callable[[], int])


def alternatives(kind):
    """The types of a union, without None."""
    if typing.get_origin(kind) in (typing.Union, types.UnionType):
        return [one for one in typing.get_args(kind) if one is not types.NoneType]
    return [kind]


def element(kind):
    """The type of what is in a list; of a mapping that of its values."""
    for one in alternatives(kind):
        origin, parts = typing.get_origin(one), typing.get_args(one)
        if origin is tuple and len(parts) == 2 and parts[1] is ...:
            return parts[0]
        if origin is not None and isinstance(origin, type) and issubclass(origin, Mapping):
            return parts[1]
        if origin not in (None, tuple, Callable_) and len(parts) == 1:
            return parts[0]
    return UNKNOWN


def member(record, name):
    """The type of a field, property or method of a record; None if it has none of that name."""
    if name in hints(record):
        return hints(record)[name]
    found = getattr(record, name, None)
    if isinstance(found, property):
        return typing.get_type_hints(found.fget).get("return", UNKNOWN)
    return None if found is None else UNKNOWN


def read(template, known):
    reader = Reader(template)
    reader.read(environment().parse(template_text(template)).body, dict(known))
    return reader


@pytest.mark.parametrize("template", PAGES)
def test_every_field_that_a_template_names_is_there(template):
    assert read(template, handed_over(template)).faults == []


def test_every_name_is_handed_over():
    known = (
        {name for kind in RECORDS for name in field_names(kind)}
        | SAID
        | {"of", "kept", "version_of"}
        | set(environment().globals)
    )
    pages = [name for name in PAGES if name.startswith("pages/")]
    used = {n: find_undeclared_variables(environment().parse(template_text(n))) for n in pages}
    own = {n: {name for kind in OWN_VALUES.get(n, ()) for name in field_names(kind)} for n in pages}
    left = {name: names - known - own[name] for name, names in used.items()}
    assert {name: names for name, names in left.items() if names} == OTHERWISE


def test_no_value_is_handed_over_for_nothing():
    used = {
        n
        for name in PAGES
        for n in find_undeclared_variables(environment().parse(template_text(name)))
    }
    assert sorted(set(handed_over()) - used) == []
    both = {
        kind: {n for n, kinds in OWN_VALUES.items() if kind in kinds}
        for kinds in OWN_VALUES.values()
        for kind in kinds
    }
    for kind, names in both.items():
        used = {
            u
            for n in names
            for u in find_undeclared_variables(environment().parse(template_text(n)))
        }
        assert sorted({*field_names(kind)} - used) == [], kind


def test_the_reader_follows_what_it_reads_and_finds_what_is_not_there(monkeypatch):
    followed = sum(read(template, handed_over()).followed for template in PAGES)
    assert followed > 100
    reader = Reader("t")
    made = environment().parse(
        "{% for b in blocks %}{{ b.tiling.widht }}{{ b.cards[0].titel }}{% endfor %}{{ quilt.backing.widths }}"
    )
    reader.read(made.body, handed_over())
    assert reader.faults == ["t:1: Tiling has no `widht`", "t:1: StepCard has no `titel`"]
    assert set(Words.of("en").functions()) == SAID
