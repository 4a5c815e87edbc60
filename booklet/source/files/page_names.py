"""Floor 2: the names of the pages, and of the templates that a page of one's own can take the place of."""

from __future__ import annotations

PAGES = (
    "cover", "materials", "colourways", "layouts", "supplies", "before", "cutting", "amounts", "templates", "piecing",
    "pressing", "quilt", "finishing", "colouring", "practice", "sizes", "chains", "glossary", "notes",
    "class", "marking", "marking-quilt", "route-sheet", "pocket-card", "step-cards", "patch-labels",
    "kits", "kit-list", "kit-labels", "day", "samples", "imprint", "back-cover", "parts",
)  # fmt: skip
STYLE = "style.css"
OWN_TEMPLATES = tuple(
    f"pages/{name}.html"
    for name in sorted(
        (
            *PAGES,
            "card",
            "cloth_widths",
            "contents",
            "cutting_block",
            "cutting_cloth",
            "kit_contents",
            "materials_table",
            "methods",
            "piecing_block",
            "pressing_block",
            "side_by_side",
            "sittings",
            "sizes_table",
            "title",
        )
    )
)
