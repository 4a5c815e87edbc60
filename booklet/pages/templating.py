"""Floor 11, the door to Jinja2: our page templates, sandboxed, every value escaped."""

from __future__ import annotations

from functools import cache
from importlib import resources

from jinja2 import FunctionLoader, StrictUndefined
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
