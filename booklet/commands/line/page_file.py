"""Floor 13: a page that a command writes into a file of the user's choice, never over one that is there unasked."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from booklet.commands.line.arguments import WRONG_CALL
from booklet.commands.line.saying import SOUND, complain
from booklet.recipe.output import keep_aside


def write_page(path: Path, replace: bool, page: Callable[[], str]) -> int:
    """Make a page and write it; the exit status. Raises OutputError."""
    if path.suffix.lower() != ".html":
        return complain(f"`{path}`: give the page a name that ends in `.html`", WRONG_CALL)
    if path.exists() and not replace:
        return complain(f"`{path}` is there already; choose another name, or add `--replace`")
    made = page().encode("utf-8")
    with keep_aside(path.parent) as aside:
        aside.write(path.name, made)
        aside.replace()
    return SOUND
