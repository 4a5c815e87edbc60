"""Floor 11, the script of the web page: its modules (`templates/table/*.js`) in one text, and the words it says.

The modules are written as ECMAScript modules of plain functions, so that the types in their comments can be checked. A page
that is one file can import nothing, so their functions stand here one after the other in one block, without comments. This is the
door to rjsmin.
"""

from __future__ import annotations

import json
import re
from functools import cache

from markupsafe import Markup

from booklet.kit.words import Phrase, phrase as phrase
from booklet.pages.texts.templating import template_text
from booklet.pages.texts.words import Words

MODULES = ("page", "keep", "choose", "ticks", "walk", "step", "enlarge", "find", "start")
"""In the order in which they stand: a module imports only from those before it."""
_IMPORT = re.compile(r"^import .*?;\n", re.MULTILINE)
_EXPORT = re.compile(r"^export (?=(?:async )?function|const|let)", re.MULTILINE)


@cache
def script(modules: tuple[str, ...] = MODULES) -> str:
    """The text of the script as it stands in a page; a site has a module more."""
    texts = [template_text(f"table/{name}.js") or "" for name in modules]
    bare = "\n".join(_EXPORT.sub("", _IMPORT.sub("", text)) for text in texts)
    return minified(f'"use strict";{{\n{bare}\n}}')


def minified(text: str) -> str:
    """A script without its comments."""
    from rjsmin import jsmin  # only a page with choices needs it

    return str(jsmin(text))


SAYINGS: dict[str, Phrase] = {
    "back": phrase("Back"),
    "block": phrase("{what}: {made}", what="", made=""),
    "clear": phrase("Clear all ticks and counts of this booklet on this device?"),
    "clearNow": phrase("Clear them"),
    "close": phrase("Close"),
    "counting": phrase("Your pace shows after three blocks."),
    "cut": phrase("Cuts: {n} of {m}", n="", m=""),
    "done": phrase("done: {what}", what=""),
    "enlarge": phrase("Enlarge: {what}", what=""),
    "good": phrase("Good"),
    "keep": phrase("Keep them"),
    "left": phrase("About {n} h {m} min left at your pace.", n="", m=""),
    "made": phrase("{n} of {m} made", n="", m=""),
    "notOurs": phrase("That file does not hold ticks of this booklet."),
    "nothing": phrase("Nothing found."),
    "oneLess": phrase("One block less"),
    "oneMore": phrase("One block more"),
    "pause": phrase("Pause"),
    "piece": phrase("Patch {what}", what=""),
    "pieces": phrase("Where it is told of:"),
    "play": phrase("Play"),
    "sitting": phrase("Sittings: {n} of {m}", n="", m=""),
    "step": phrase("Steps: {n} of {m}", n="", m=""),
    "slide": phrase("{n} of {m}", context="which one of how many", n="", m=""),
    "task": phrase("Tasks: {n} of {m}", n="", m=""),
    "toCutting": phrase("Cutting: {what}", what=""),
    "toStep": phrase("Step {what}", what=""),
    "toTemplate": phrase("Template"),
}
"""What the script says, by the names it has there; `{n}` and `{m}` are filled in by the script."""


def sayings(words: Words, key: str, **more: object) -> Markup:
    """The words of the script, the key of the pattern, and what `more` it knows, as JSON in which no element can begin or
    end."""
    said = {name: words.speaker.wording(said) for name, said in SAYINGS.items()}
    known = {"key": key, "say": said, **more}
    text = json.dumps(known, ensure_ascii=False, sort_keys=True)
    safe = text.replace("&", "\\u0026").replace("<", "\\u003c").replace(">", "\\u003e")
    return Markup(safe)
