"""Makes the catalogues of words anew from the code and the page templates.

    python tests/catalogues.py            writes templates/words/booklet.pot, and brings every .po up to it
    python tests/catalogues.py --check    says what a run would change, and changes nothing

A message is the literal of a call: `phrase`, `plural_phrase` in Python, `t`, `tn` in templates. A
message that is gone leaves the catalogues; a new one stands there without words until it is translated.
"""

from __future__ import annotations

import ast
import io
import re
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from babel.messages.catalog import Catalog, Message
from babel.messages.pofile import read_po, write_po
from jinja2 import Environment, nodes

HERE = Path(__file__).resolve().parent.parent
WORDS = HERE / "templates" / "words"
LOCALES = ("de", "fr", "en_GB")
FAMILIAR = {
    "de": re.compile(r"(?<=[^.:] )Sie\b|(?<!\. )\b(Ihr|Ihre[nmrs]?|Ihnen)\b"),  # at a beginning Sie is they
    "fr": re.compile(r"\b(vous|votre|vos)\b", re.IGNORECASE),
}  # fmt: skip
"""By what a sentence is known that addresses the reader; it has a familiar variant (du, tu) in `de_familiar.po`."""
BRITISH = {
    "batting": "wadding", "Batting": "Wadding", "center": "centre", "Center": "Centre", "checkerboard": "chequerboard",
    "color": "colour", "colors": "colours", "colorway": "colourway", "Colorway": "Colourway", "Colorways": "Colourways", "colorways": "colourways", "Coloring": "Colouring", "counterclockwise": "anticlockwise",
    "gray": "grey", "meters": "metres", "centimeters": "centimetres", "mitered": "mitred", "miters": "mitres", "Practice on": "Practise on",
    "practice on": "practise on", "toward": "towards", "millimeters": "millimetres",
}  # fmt: skip
"""British words where they differ; what needs more than a word is written in en_GB.po by hand."""
_DIFFERENT = re.compile(rf"\b({'|'.join(sorted(BRITISH, key=len, reverse=True))})\b")
PYTHON, JINJA = {"phrase": 1, "plural_phrase": 2}, {"t": 1, "tn": 2}


@dataclass(frozen=True)
class Found:
    """One message in the code: one form or two, its context, and the file."""

    forms: tuple[str, ...]
    context: str | None
    file: str

    @property
    def id(self):
        return self.forms[0] if len(self.forms) == 1 else self.forms


def in_python(source: str, file: str) -> Iterator[Found]:
    """The messages of a module. AssertionError where one is no literal."""
    for node in ast.walk(ast.parse(source)):
        count = _forms_of(node.func) if isinstance(node, ast.Call) else 0
        if not isinstance(node, ast.Call) or not count:
            continue
        forms = tuple(_text(arg, file) for arg in node.args[:count])
        context = next((_text(k.value, file) for k in node.keywords if k.arg == "context"), None)
        if all(form is not None for form in forms):
            yield Found(forms, context, file)


def _forms_of(called: ast.expr) -> int:
    """How many forms a call names: `phrase(…)` one, `words.plural(…)` two, anything else none."""
    if isinstance(called, ast.Name):
        return PYTHON.get(called.id, 0)
    if not isinstance(called, ast.Attribute) or not ast.unparse(called.value).endswith("words"):
        return 0
    return {"phrase": 1, "plural": 2}.get(called.attr, 0)


def _text(node: ast.expr, file: str) -> str | None:
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        return node.value
    inside = file in (
        "booklet/kit/words.py",
        "booklet/pages/texts/words.py",
    )  # they hand messages on
    assert inside, f"{file}:{node.lineno}: a message must be a literal"
    return None


def in_template(source: str, file: str) -> Iterator[Found]:
    """The messages of a page template."""
    for call in Environment().parse(source).find_all(nodes.Call):
        if isinstance(call.node, nodes.Name) and call.node.name in JINJA:
            count = JINJA[call.node.name]
            forms = tuple(arg.as_const() for arg in call.args[:count])
            named = {pair.key: pair.value for pair in call.kwargs}
            context = named["context"].as_const() if "context" in named else None
            yield Found(forms, context, file)


@cache
def messages() -> list[Found]:
    """Every message of the project, in the order of the files."""
    found: list[Found] = []
    for path in sorted((HERE / "booklet").rglob("*.py")):
        found += in_python(path.read_text("utf-8"), path.relative_to(HERE).as_posix())
    for path in sorted((HERE / "templates").rglob("*.html")):
        found += in_template(path.read_text("utf-8"), path.relative_to(HERE).as_posix())
    return found


def template() -> Catalog:
    """The catalogue without words."""
    catalog = Catalog(project="booklet", charset="utf-8", fuzzy=False, header_comment="")
    for found in messages():
        same = catalog.get(found.forms[0], found.context)
        assert same is None or same.id == found.id, f"{found}: one form here, two elsewhere"
        catalog.add(found.id, locations=[(found.file, None)], context=found.context)
    return catalog


def read(locale: str) -> Catalog:
    """The catalogue of a language as it stands."""
    spoken = locale.removesuffix("_familiar")
    return read_po(io.BytesIO((WORDS / f"{locale}.po").read_bytes()), locale=spoken)


def updated(locale: str, pot: Catalog) -> Catalog:
    """The catalogue of a language with just the messages of the code."""
    catalog = read(locale)
    comment = catalog.header_comment
    catalog.update(pot, no_fuzzy_matching=True, update_creation_date=False)
    catalog.header_comment = comment
    catalog.obsolete.clear()
    if locale == "en_GB":
        for message in catalog:
            forms = message.id if isinstance(message.id, tuple) else (message.id,)
            if any(map(_DIFFERENT.search, forms)) and not any(_forms(message)):
                said = tuple(map(british, forms))
                message.string = said if isinstance(message.id, tuple) else said[0]
    return catalog


def familiar(language: str) -> Catalog:
    """The catalogue of the sentences that address the reader, as they are said to a friend; those that are new have
    no words."""
    formal, friendly = read(language), read(f"{language}_familiar")
    made = Catalog(locale=language, header_comment=friendly.header_comment, fuzzy=False)
    for message in formal:
        if message.id and any(map(FAMILIAR[language].search, _forms(message))):
            known = friendly.get(_first(message), message.context)
            said = known.string if known else ("" if isinstance(message.id, str) else ("", ""))
            made.add(message.id, said, context=message.context)
    return made


def _first(message: Message) -> str:
    return message.id if isinstance(message.id, str) else message.id[0]


def british(text: str) -> str:
    """A message in British words."""
    return _DIFFERENT.sub(lambda word: BRITISH[word[0]], text)


def written(catalog: Catalog, locale: str) -> bytes:
    """The bytes of a catalogue: no dates, no line numbers. British English keeps what differs."""
    kept = Catalog(locale=catalog.locale, header_comment=catalog.header_comment, fuzzy=False)
    for message in catalog:
        if message.id and not (locale == "en_GB" and not any(_forms(message))):
            said = message.string
            if locale.startswith("fr"):  # one apostrophe, that of print
                forms = tuple(form.replace("'", "’") for form in _forms(message))
                said = forms if isinstance(said, tuple) else forms[0]
            kept.add(
                message.id, said, sorted(set(message.locations)),
                context=message.context, user_comments=message.user_comments,
            )  # fmt: skip
    into = io.BytesIO()
    write_po(into, kept, width=100, omit_header=True, include_lineno=False, sort_output=False)
    head = "".join(f"{line}\n" for line in (catalog.header_comment or "").splitlines())
    plural = catalog.plural_forms if catalog.locale else "nplurals=2; plural=(n != 1);"
    fields = (
        f'msgid ""\nmsgstr ""\n"Language: {locale}\\n"\n"Content-Type: text/plain; charset=utf-8\\n"\n'
        f'"Content-Transfer-Encoding: 8bit\\n"\n"Plural-Forms: {plural}\\n"\n\n'
    )
    return (head + fields).encode() + into.getvalue()


def _forms(message: Message) -> tuple[str, ...]:
    return message.string if isinstance(message.string, tuple) else (message.string,)


def main(check: bool) -> int:
    """Write the catalogues, or say what is not up to date."""
    pot = template()
    stale = []
    for locale in LOCALES:
        now = (WORDS / f"{locale}.po").read_bytes()
        new = written(updated(locale, pot), locale)
        if now != new:
            stale.append(locale)
            if not check:
                (WORDS / f"{locale}.po").write_bytes(new)
    for language in FAMILIAR:
        locale = f"{language}_familiar"
        now = (WORDS / f"{locale}.po").read_bytes()
        new = written(familiar(language), locale)
        if now != new:
            stale.append(locale)
            if not check:
                (WORDS / f"{locale}.po").write_bytes(new)
    print("changed:" if not check else "not up to date:", ", ".join(stale) or "nothing")
    return 1 if check and stale else 0


if __name__ == "__main__":
    sys.exit(main("--check" in sys.argv))
