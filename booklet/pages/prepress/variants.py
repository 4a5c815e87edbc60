"""Floor 11, variants: what a PDF is for, and what is set right in it for that before it is written.

A PDF for a press (PDF/X-4, ISO 15930-7) has no tags and no links, for annotations may not lie on the page, and says by
an output intent for which inks its colours are. One for an archive (PDF/A-3a, ISO 19005-3) carries its source and its facts, and
stays PDF/UA-1. WeasyPrint writes most of either; what it takes from the clock or from chance comes from the page here.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any
from uuid import UUID

from booklet.kit.records import Record

UNDATED = "1980-01-01"
"""Stands for the date in a PDF that must have one, where the pattern has none: the clock would change its bytes."""


class Attached(Record):
    """A file in an archived PDF: its name, its bytes, and what it is to the booklet (`Source` or `Data`)."""

    name: str
    data: bytes
    relation: str


class PdfKind(Record):
    """A kind of PDF: its name and version, the profile of a press, and the files it carries."""

    name: str = "pdf/ua-1"
    version: str = "1.7"
    profile: bytes = b""
    attached: tuple[Attached, ...] = ()

    @property
    def is_tagged(self) -> bool:
        """Whether it can be read aloud."""
        return not self.profile


SCREEN = PdfKind()


def for_press(profile: bytes) -> PdfKind:
    """PDF/X-4 for the inks of a profile."""
    return PdfKind("pdf/x-4", "1.6", profile)


def for_archive(attached: Sequence[Attached]) -> PdfKind:
    """PDF/A-3a that carries files."""
    return PdfKind("pdf/a-3a", "1.7", attached=tuple(attached))


def strip_links(pdf: Any) -> None:
    """Take the links off the pages (ISO 15930-7: annotations lie outside the bleed)."""
    for each in pdf.objects:
        if isinstance(each, dict) and each.get("Type") == "/Page":
            each.pop("Annots", None)
        elif isinstance(each, dict) and each.get("Subtype") == "/Link":
            each.clear()


def set_identifier(pdf: Any, identifier: bytes) -> None:
    """Let the name of a document in its metadata come from its page, where WeasyPrint takes one by chance."""
    own = f"xmp.did:{UUID(identifier.decode('ascii')[:32])}".encode("ascii")
    _exchange(pdf, b"xmp.did:", len(own), own)


def also_read_aloud(pdf: Any) -> None:
    """Say in the metadata of an archived PDF that it is PDF/UA-1 as well, and what that entry means, as PDF/A asks of
    each entry that it does not know itself."""
    _exchange(pdf, b"</rdf:RDF>", len(b"</rdf:RDF>"), _ALOUD + b"</rdf:RDF>")


def _exchange(pdf: Any, mark: bytes, length: int, new: bytes) -> None:
    """Put `new` in the place of the so many bytes that begin with a mark in the metadata."""
    for each in pdf.objects:
        if getattr(each, "extra", {}).get("Type") != "/Metadata":
            continue
        (told,) = each.stream
        at = told.index(mark)
        each.stream = [told[:at] + new + told[at + length :]]


_ALOUD = b"""<rdf:Description rdf:about="" xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/" pdfuaid:part="1"/>
<rdf:Description rdf:about="" xmlns:pdfaExtension="http://www.aiim.org/pdfa/ns/extension/"
 xmlns:pdfaSchema="http://www.aiim.org/pdfa/ns/schema#" xmlns:pdfaProperty="http://www.aiim.org/pdfa/ns/property#">
<pdfaExtension:schemas><rdf:Bag><rdf:li rdf:parseType="Resource">
<pdfaSchema:schema>PDF/UA identification schema</pdfaSchema:schema>
<pdfaSchema:namespaceURI>http://www.aiim.org/pdfua/ns/id/</pdfaSchema:namespaceURI>
<pdfaSchema:prefix>pdfuaid</pdfaSchema:prefix>
<pdfaSchema:property><rdf:Seq><rdf:li rdf:parseType="Resource">
<pdfaProperty:name>part</pdfaProperty:name><pdfaProperty:valueType>Integer</pdfaProperty:valueType>
<pdfaProperty:category>internal</pdfaProperty:category>
<pdfaProperty:description>Part of ISO 14289 to which the document conforms</pdfaProperty:description>
</rdf:li></rdf:Seq></pdfaSchema:property>
</rdf:li></rdf:Bag></pdfaExtension:schemas></rdf:Description>
"""
