"""Floor 13: `booklet help`: what there is to know of a key, a shape, a rule or a command."""

from __future__ import annotations

import argparse
import re
from collections.abc import Sequence
from difflib import get_close_matches

from booklet.checks.rulebook import rules
from booklet.commands.line import console
from booklet.commands.line.arguments import WRONG_CALL, command_parser
from booklet.commands.line.saying import SOUND, complain
from booklet.crafts.forms import FORMS
from booklet.reference import keys, topics
from booklet.source.files.page_names import PAGES

_IN_TEXTS = ("size", "fabric", "block", "figure", "table")  # beginnings of names that texts use
_LONGEST = 60  # signs of a word that are shown, and compared


def command(options: argparse.Namespace) -> int:
    """Print what is known of a word to standard output; the exit status."""
    asked = " ".join(" ".join(options.words).split())
    found = told(asked) if asked else "\n".join(topics.overview()) + "\n"
    if not found:
        return complain(_unknown(asked[:_LONGEST]), WRONG_CALL)
    print(found, end="")
    return SOUND


def told(asked: str) -> str:
    """The page about a word, which may come as a message shows it (`[overlap]`); "" if there is none.

    One word may be the name of a key and of a shape (`path`) or a command: then all are told.
    """
    word = _meant(_plain(asked))
    parts = [
        _lines(word),
        rules()[word].page if word in rules() else "",
        _usage(word),
    ]
    return f"\n{'-' * 8}\n\n".join(part for part in parts if part)


def _plain(asked: str) -> str:
    """The word that is meant by what was typed."""
    return asked.lower().rpartition("[")[2].strip("]:`'\" ")


def _meant(word: str) -> str:
    """The known word of the same letters, if there is one: `half square triangle` is one with a hyphen. A
    name that a text may use is told with all of them."""
    if word.strip("{} ").partition(".")[0] in _IN_TEXTS and "." in word:
        return "texts"
    letters = _letters(word)
    return next((one for one in known() if _letters(one) == letters), word)


def _letters(word: str) -> str:
    return re.sub(r"[-_\s]", "", word)


def _lines(word: str) -> str:
    """What is told of a topic, of a shape and of keys, one after the other."""
    lines: list[str] = []
    if word in ("shapes", *FORMS):
        from booklet.reference import shapes  # reckons outlines, which takes a library

        lines = shapes.told(FORMS[word]) if word in FORMS else shapes.shape_list()
    for more in (topics.TOPICS.get(word, list)(), keys.told(word), topics.page(word)):
        lines += ["", *more] if lines and more else more
    return "\n".join(lines) + "\n" if lines else ""


def _usage(word: str) -> str:
    """The help of a command."""
    _, commands = command_parser()
    return commands[word].format_help() if word in commands else ""


def known() -> list[str]:
    """All words that something is told of."""
    _, commands = command_parser()
    return sorted({*keys.words(), *FORMS, "shapes", *topics.TOPICS, *PAGES, *rules(), *commands})


def _unknown(asked: str) -> str:
    """A sentence about a word that nothing is told of, with the nearest ones."""
    near: Sequence[str] = get_close_matches(_plain(asked), known(), n=3, cutoff=0.6)
    if not near:
        near = [word for word in known() if _plain(asked) and _plain(asked) in word][:3]
    hint = " or ".join(f"`{word}`" for word in near)
    shown = console.printable(asked)
    if hint:
        return f"there is no help on `{shown}`; did you mean {hint}?"
    return f"there is no help on `{shown}`; `booklet help` lists what there is"
