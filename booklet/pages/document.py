"""Floor 11, composing: what a document is, whole or in parts, and copies of it by name."""

from __future__ import annotations

from collections.abc import Mapping

from markupsafe import escape

from booklet.kit.records import Record, field, replace
from booklet.pages.prepress.copies import READER
from booklet.pattern import Edition, Paper
from booklet.source.values.names import file_part


class Document(Record, kw_only=True):
    """One document: its file name, its title, its HTML, the paper it is for (None: the web), and the edition
    and sizes that it shows."""

    name: str
    title: str
    html: str
    paper: Paper | None
    style: str
    parts: tuple[tuple[str, str], ...]  # the opening, the contents and the sections, by name
    pieces: Mapping[str, str] = field(default_factory=dict)
    """Parts of these that are kept by themselves."""
    frame: Mapping[str, object] = field(default_factory=dict)
    """What stands about them in `base.html`."""
    edition: str = ""
    sizes: tuple[str, ...] = ()
    whole: str = ""  # of a named copy: the file that holds the copies of the whole class
    base: str = ""  # of a named copy: its HTML before the name is put in, the same for all copies
    reader: str = ""

    @property
    def called(self) -> str:
        """Its file name with the edition and the sizes that it shows, for a sentence."""
        sizes = ", ".join(f"`{size}`" for size in self.sizes)
        return f"`{self.name}` (edition `{self.edition}`, size {sizes})"


def copies_of(document: Document, edition: Edition) -> tuple[Document, ...]:
    """A document that was composed for the name READER, once for each name of its edition."""
    return tuple(
        replace(
            document,
            name=document.name.removesuffix(".pdf") + f"-{'-'.join(_numbered(n, name))}.pdf",
            title=document.title.replace(READER, name),
            html=document.html.replace(READER, str(escape(name))),
            base=document.html,
            reader=name,
            whole=document.name.removesuffix(".pdf") + "-whole-class.pdf",
        )
        for n, name in enumerate(edition.names, 1)
    )


def _numbered(number: int, name: str) -> tuple[str, ...]:
    """The parts of a copy's file name: numbered, since names may be alike, or have no letter that a file name
    takes."""
    return tuple(filter(None, (f"{number:02d}", file_part(name))))
