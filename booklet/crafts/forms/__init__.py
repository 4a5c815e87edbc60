"""Floor 1, crafts: the registry of patch forms: every module beside this one makes one `FORM`."""

from __future__ import annotations

import copyreg
from collections.abc import Mapping
from importlib import import_module
from pkgutil import iter_modules

from booklet.crafts.figure import FlatOutline
from booklet.crafts.form import Form, Seen


def _made() -> dict[str, Form]:
    """The forms by their word, in the order of their rank."""
    modules = (import_module(f"{__name__}.{found.name}") for found in iter_modules(__path__))
    forms: list[Form] = [module.FORM for module in modules]
    return {form.word: form for form in sorted(forms, key=lambda form: form.rank)}


FORMS: Mapping[str, Form] = _made()


def form_named(word: str) -> Form:
    """The form of that word."""
    return FORMS[word]


copyreg.pickle(Form, lambda form: (form_named, (form.word,)))  # another process has its own


def recognised(figure: FlatOutline, grain: float | None) -> tuple[Form, Seen]:
    """What an outline is: the first form that knows it. A free one knows whatever is left."""
    for form in FORMS.values():
        seen = form.recognise(figure, grain)
        if seen is not None:
            return form, seen
    raise LookupError("no form takes what is left")
