"""Floor 11, alone: a page that belongs to no edition, self-contained and in the look of the web booklet."""

from __future__ import annotations

from collections.abc import Mapping

from markupsafe import Markup

from booklet.pages.style.fonts import font_rules
from booklet.pages.texts.templating import filled, template_text
from booklet.pages.texts.words import Words


def compose_alone(template: str, title: str, words: Words, values: Mapping[str, object]) -> str:
    """The HTML of one template with its values, under a title."""
    body = filled(template, **words.functions(), **values)
    frame = {
        "language": words.speaker.language,
        "medium": "screen",
        "paper_class": "web",
        "document_title": title,
        "designer": "",
        "summary": "",
        "date": "",
        "script": "",
        "links": (),
        "opening": Markup(),
        "contents": Markup(),
        "sections": [body],
        **words.functions(),
    }
    bare = str(filled("base.html", **frame, style=""))
    sheets = (font_rules(bare), template_text("style.css"), template_text("screen.css"))
    style = Markup("\n".join(sheet for sheet in sheets if sheet))
    return str(filled("base.html", **frame, style=style))
