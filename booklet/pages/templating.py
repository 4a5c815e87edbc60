"""Floor 11, the door to Jinja2: our page templates, sandboxed, every value escaped."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from importlib import resources
from typing import Any

from jinja2 import (
    FunctionLoader,
    StrictUndefined,
    TemplateNotFound,
    TemplateSyntaxError,
    Undefined,
    nodes,
)
from jinja2.compiler import CodeGenerator
from jinja2.sandbox import ImmutableSandboxedEnvironment
from markupsafe import Markup


def template_text(name: str) -> str | None:
    """The text of a file among the templates, or None."""
    file = resources.files("booklet.templates").joinpath(*name.split("/"))
    return file.read_text("utf-8") if file.is_file() else None


@cache
def environment() -> ImmutableSandboxedEnvironment:
    """The environment of all pages; a name that a template misspells is an error, not a blank."""
    return ImmutableSandboxedEnvironment(
        loader=FunctionLoader(template_text),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )


def filled(template: str, **values: object) -> Markup:
    """The markup of a template with these values."""
    return Markup(environment().get_template(template).render(**values))


class SandboxedEnvironment(ImmutableSandboxedEnvironment):
    """A sandbox set up as ours is, for templates of another's."""

    def __init__(self, loader: Callable[[str], str | None], finalize: Callable[[Any], Any]) -> None:
        super().__init__(
            loader=FunctionLoader(loader),
            finalize=finalize,
            autoescape=True,
            undefined=StrictUndefined,
            trim_blocks=True,
            lstrip_blocks=True,
        )


def undeclared(tree: Any) -> tuple[tuple[str, int], ...]:
    """The names a template uses and does not make itself, each with the line of its first use."""
    finder = _Names(tree.environment)
    finder.visit(tree)
    lines = {n.name: n.lineno for n in reversed(list(tree.find_all(nodes.Name)))}
    return tuple(sorted((name, lines.get(name, 1)) for name in finder.found))


class _Names(CodeGenerator):
    """The template engine's own walk through a template, which notes the names it must look up."""

    def __init__(self, environment: Any) -> None:
        super().__init__(environment, "", "")
        self.found: set[str] = set()

    def write(self, x: str) -> None:
        """Write nothing."""

    def enter_frame(self, frame: Any) -> None:
        """Note what a stretch of the template takes from outside."""
        super().enter_frame(frame)
        for action, name in frame.symbols.loads.values():
            if action == "resolve" and name not in self.environment.globals:
                self.found.add(name)


__all__ = [
    "SandboxedEnvironment", "TemplateNotFound", "TemplateSyntaxError", "Undefined", "environment", "filled", "nodes",
    "template_text", "undeclared",
]  # fmt: skip
