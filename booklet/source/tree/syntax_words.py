"""Floor 2: what a fault of punctuation is called, so that a person who sews can mend it."""

from __future__ import annotations

import re

# (words in the parser's complaint, what to say, the next thing to do, whether to point where it began)
_WORDS: tuple[tuple[str, str, str, bool], ...] = (
    ("'\\t'", "a tab stands here where only spaces may",
     "replace the tab by spaces", False),
    ("mapping values are not allowed", "a colon stands here where no key can begin",
     "put quotes round a text with a colon in it, or begin a new line for a new key", False),
    ("expected ',' or ']'", "the list opened here is not closed, or a comma is missing in it",
     "close the list with `]`, and put a comma between its entries", True),
    ("expected ',' or '}'", "the group opened here is not closed, or a comma is missing in it",
     "close the group with `}`, and put a comma between its entries", True),
    ("while scanning a quoted scalar", "the quotation mark opened here is never closed",
     "add the closing quotation mark", True),
    ("unexpected end of stream", "the quotation mark opened here is never closed",
     "add the closing quotation mark", True),
    ("document separator", "the quotation mark opened here is not closed before `---`",
     "add the closing quotation mark", True),
    ("unknown escape character", "a backslash stands between double quotation marks here",
     "write the text without quotes or in single ones, as in `red\\white`", False),
    ("expected escape sequence", "a backslash stands between double quotation marks here",
     "write the text without quotes or in single ones, as in `red\\white`", False),
    ("cannot start any token", "a value cannot begin with this character",
     "put the value in quotes", False),
    ("could not find expected ':'", "this line has no colon, so it is neither a key nor a list entry",
     "write `key: value`, or `- value` for an entry of a list", True),
    ("expected '<document start>'", "the line above this one has no colon, so it gives no key a value",
     "write `key: value` there, with a colon and a space", False),
    ("expected <block end>", "this line is indented like nothing above it",
     "indent it as far as its neighbours; lines that belong together begin in the same column", False),
    ("sequence entries are not allowed", "a list entry stands here where none can begin",
     "put the dash on a line of its own under the key", False),
    ("mapping keys are not allowed", "a key stands here where none can begin",
     "begin a new line for it", False),
    ("undefined alias", "a `*` in front of a value repeats another value, which patterns do not use",
     "write the value out", False),
    ("did not find expected", "the text breaks off here", "look for a missing bracket above", False),
)  # fmt: skip


SlipWords = tuple[str, str, bool]
_KEY = re.compile(r"[^\s#'\"\[{,][^#'\"\[{,]*:(\s|$)")
_NO_COLON = re.compile(
    r"\s*(?:- )?[A-Za-z]\w*\s[^:{}\[\]#]*"
)  # a key and its value, but for the sign between


def explain(problem: str, lines: list[str], line: int | None, began: int | None) -> SlipWords:
    """The sentence, the next thing to do, and whether to point where the trouble began.

    `problem` is the parser's complaint, `line` (from 0) where it stopped, `began` where the part
    began that it was reading.
    """
    if line is not None and 0 <= line < len(lines):
        indent = lines[line][: len(lines[line]) - len(lines[line].lstrip())]
        if "\t" in indent:
            problem = "'\\t'"
        if told := _slip(problem, lines, line, began):
            return told
    for words, message, hint, at_opening in _WORDS:
        if words in problem:
            return message, hint, at_opening
    return (
        "the text cannot be understood from here on",
        "look for a missing quotation mark, bracket, comma or colon on this line or the one above",
        False,
    )


def _slip(problem: str, lines: list[str], line: int, began: int | None) -> SlipWords | None:
    """What usual slip of the pen lies behind a complaint about another thing; None if none does."""
    opened = lines[began] if began is not None and 0 <= began < len(lines) else ""
    if "'<document start>'" in problem and line > 0 and re.match(r"\s*[\w ]+:\S", lines[line - 1]):
        return (
            "the colon on the line above has no space after it",
            "write `key: value` there",
            False,
        )
    if "'<document start>'" in problem and _indent(lines[line]) < _indent(_first(lines)):
        words = "this line begins further left than the first line of the pattern"
        return words, "let `title`, `sizes` and the like all begin in the first column", False
    if "expected ',' or" in problem:
        if opened.count('"') % 2:
            words = "a quotation mark on this line is never closed"
            return words, "write one before and one after the text", True
        note = opened.find(" #")
        if note >= 0 and re.search(r"[:,\[]\s*$", opened[:note]):
            words = "what follows ` #` on this line is read as a note, so the brackets stay open"
            return words, 'put a value that begins with `#` in quotes, as in `"#243b6b"`', True
    if "could not find expected ':'" in problem and re.match(r"\s*(- )?[\w ]+:\S", opened):
        return "the colon on this line has no space after it", "write `key: value`", True
    if "mapping values are not allowed" in problem and line > 0:
        above = next((x for x in reversed(lines[:line]) if x.strip() and x.lstrip()[0] != "#"), "")
        if _KEY.match(lines[line].lstrip()) and _indent(lines[line]) > _indent(above):
            words = (
                "this line is indented further than the line above it, which has its value already"
            )
            return words, "let lines that belong together begin in the same column", False
        if _NO_COLON.fullmatch(above) and _indent(lines[line]) <= _indent(above):
            key = above.split()[0].lstrip("- ")
            return "the line above this one has no colon", f"write `{key}: …` there", False
    return None


def _first(lines: list[str]) -> str:
    """The first line that is more than a note."""
    return next((x for x in lines if x.strip() and x.lstrip()[0] != "#"), "")


def _indent(line: str) -> int:
    """In which column a line's text begins, behind the dash of a list entry."""
    return len(line) - len(re.sub(r"^\s*(- )*\s*", "", line))
