"""Floor 2: page templates and a style sheet of the author's own, beside the pattern.

`pages/card.html` takes the place of the booklet's page template of that name, `style.css` follows the
booklet's own style sheet. Here they are only read; what may stand in them is looked at by the pages floor.
"""

from __future__ import annotations

from booklet.diagnostic import Span
from booklet.source.faults import near
from booklet.source.folder import Folder

STYLE = "style.css"
OWN_TEMPLATES = tuple(
    f"pages/{name}.html"
    for name in (
        "amounts", "before", "card", "chains", "class", "colouring", "contents", "cover", "cutting", "finishing",
        "glossary", "materials", "materials_table", "methods", "notes", "piecing", "practice", "pressing",
        "quilt", "sittings", "sizes", "sizes_table", "supplies", "templates", "title",
    )
)  # fmt: skip


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
