"""Floor 2: page templates and a style sheet of the author's own, beside the pattern.

`pages/card.html` takes the place of the booklet's page template of that name, `style.css` follows the
booklet's own style sheet. They are code, so they are read only for an author who asks for it.
"""

from __future__ import annotations

from booklet.kit.diagnostic import Diagnostic, Span, warning
from booklet.source.faults import near
from booklet.source.files.folder import Folder
from booklet.source.files.page_names import OWN_TEMPLATES, STYLE


def own_pages(files: Folder) -> tuple[dict[str, str], str]:
    """The author's page templates by their path, and the style sheet ("" if there is none).

    A file that would take the place of nothing is a fault, since nobody would see it.
    """
    found: dict[str, str] = {}
    for name in files.names("pages", ".html"):
        span = Span.whole(name)
        if name not in OWN_TEMPLATES:
            message = f"there is no page template `{name}` to take the place of"
            files.refuse("unknown-name", message, span, near(name, OWN_TEMPLATES))
        elif (text := files.text(name, span)) is not None:
            found[name] = text
    style = files.text(STYLE, Span.whole(STYLE)) if files.exists(STYLE) else None
    return found, style or ""


def left_out(files: Folder) -> tuple[Diagnostic, ...]:
    """A warning for what a folder has of them and its reader did not ask for."""
    there = (*files.names("pages", ".html")[:1], *((STYLE,) if files.exists(STYLE) else ()))
    return tuple(
        warning(
            "left-out-page",
            f"`{'pages/' if name != STYLE else STYLE}` is left out: what stands there is code, and may be a stranger's",
            Span.whole(name),
            "most looks need none (`booklet: look:`); `--trust-pages` takes it in: only for a folder that you wrote",
        )
        for name in there
    )
