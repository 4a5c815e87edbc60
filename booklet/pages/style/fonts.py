"""Floor 11, fonts: the faces the pages are set in, taken from packages and embedded.

The machine's fonts do not matter: every face is a `data:` address in the style sheet. The web page
gets only the characters it may use; for print the whole face goes in and the PDF keeps what it needs.
"""

from __future__ import annotations

import base64
import html
import io
import re
from collections.abc import Sequence
from functools import cache, lru_cache
from importlib import resources

from booklet.kit.records import Record, replace

SERIF, SANS = "Source Serif Pro", "Source Sans Pro"
FEATURES = ["kern", "liga", "frac", "numr", "dnom", "lnum", "tnum", "mark", "ccmp", "locl"]
# what every booklet may need, so that all web pages of one build share their fonts
USUAL = frozenset(
    "".join(map(chr, range(32, 127)))
    + "ÄÖÜäöüßÀÂÉÈÊÇàâéèêëîïôùûçœæñ½¼¾⅛⅜⅝⅞⅓⅔⁄⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉×÷±–—‘’‚“”„«»‹›…·•−√°²³§©☐\u00a0\u202f"
)
KEYS = frozenset(map(chr, range(32, 127))) | frozenset(
    "½¼¾⅛⅜⅝⅞⅓⅔⁄⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉×÷±–—−•…·‘’“”°☐\u00a0\u202f"
)
"""What most pages have, a reader may type, or the script of a page may say: so that pages share their fonts."""
LETTERS = {"de": frozenset("ÄÖÜäöüß„‚"), "fr": frozenset("ÀÂÉÈÊÇàâéèêëîïôùûçœæ«»‹›")}  # by language
SIGNS = "½¼¾⅛⅜⅝⅞⁄×÷±–—−‘’“”…·•"  # that sentences of a booklet show
_SLANTED = re.compile(r"<(?:em|blockquote)\b.*?</(?:em|blockquote)>", re.DOTALL)
_MARKUP = re.compile(r"<(?:[^\">]|\"[^\"]*\")*>")


class Face(Record, kw_only=True):
    """One face: family, package and file, and how style sheets name it."""

    family: str
    package: str
    file: str
    weight: int
    italic: bool = False

    def read(self) -> bytes:
        """The bytes of the font file."""
        return (resources.files(self.package) / "files" / self.file).read_bytes()


FACES = (
    Face(
        family=SERIF, package="font_source_serif_pro", file="SourceSerifPro-Regular.ttf", weight=400
    ),
    Face(
        family=SERIF,
        package="font_source_serif_pro",
        file="SourceSerifPro-It.ttf",
        weight=400,
        italic=True,
    ),
    Face(
        family=SERIF,
        package="font_source_serif_pro",
        file="SourceSerifPro-Semibold.ttf",
        weight=600,
    ),
    Face(family=SANS, package="font_source_sans_pro", file="SourceSansPro-Regular.ttf", weight=400),
    Face(
        family=SANS,
        package="font_source_sans_pro",
        file="SourceSansPro-It.ttf",
        weight=400,
        italic=True,
    ),
    Face(
        family=SANS, package="font_source_sans_pro", file="SourceSansPro-Semibold.ttf", weight=600
    ),
)


def tight_rules(texts: Sequence[str]) -> str:
    """The @font-face rules for a page that is sent or carried, of so many texts: the letters of any keyboard and its own, packed
    as small as browsers read them."""
    upright = KEYS.union(*map(_needed, texts))
    upright |= {c for letters in LETTERS.values() if upright & letters for c in letters}
    slanted = frozenset[str]().union(*(_needed("".join(_SLANTED.findall(t))) for t in texts))
    return "\n".join(
        _declared(face, "woff2", packed(face, slanted if face.italic else upright))
        for face in FACES
        if slanted or not face.italic
    )


def _needed(markup: str) -> frozenset[str]:
    """The printable characters between the tags of some markup."""
    return frozenset(c for c in set(html.unescape(_MARKUP.sub("", markup))) if c.isprintable())


@cache
def packed(face: Face, characters: frozenset[str]) -> bytes:
    """The face as WOFF2 with only those characters; the same bytes every time."""
    return _subset(face.read(), characters, "woff2")


@cache
def subset(face: Face, characters: frozenset[str]) -> bytes:
    """The face as WOFF with only those characters; the same bytes every time."""
    return _subset(face.read(), characters, "woff")


def _subset(data: bytes, characters: frozenset[str], flavor: str) -> bytes:
    """A font with only those characters: HarfBuzz chooses, fontTools packs for the web."""
    import uharfbuzz  # heavy, as the next is, and a check needs neither
    from fontTools.ttLib import TTFont

    wanted = uharfbuzz.SubsetInput()
    wanted.flags = uharfbuzz.SubsetFlags.NO_HINTING | uharfbuzz.SubsetFlags.NOTDEF_OUTLINE
    wanted.unicode_set.update(map(ord, characters))
    wanted.layout_feature_tag_set.clear()
    wanted.layout_feature_tag_set.update(map(_tag, FEATURES))
    wanted.drop_table_tag_set.add(_tag("DSIG"))
    less = uharfbuzz.subset(uharfbuzz.Face(data), wanted).blob.data
    font = TTFont(io.BytesIO(less), recalcTimestamp=False, lazy=True)
    font.flavor = flavor
    out = io.BytesIO()
    font.save(out, reorderTables=True)
    return out.getvalue()


def _tag(name: str) -> int:
    """The number of a name of four letters, as font files write it."""
    return int.from_bytes(name.encode("ascii"), "big")


@cache
def _rule(face: Face, characters: frozenset[str] | None) -> str:
    """One @font-face rule."""
    if characters is None:
        return _declared(face, "ttf", face.read())
    return _declared(face, "woff", subset(face, characters))


def _declared(face: Face, kind: str, data: bytes) -> str:
    """The rule that declares a face with its bytes."""
    return (
        f'@font-face{{font-family:"{face.family}";font-weight:{face.weight};'
        f"font-style:{'italic' if face.italic else 'normal'};"
        f"src:url(data:font/{kind};base64,{base64.b64encode(data).decode('ascii')})}}"
    )


def stand_in(family: str, weight: int, italic: bool, characters: frozenset[str]) -> str:
    """The rule by which a face of our serif stands in another family, with only those characters."""
    face = next(f for f in FACES if (f.family, f.weight, f.italic) == (SERIF, weight, italic))
    return _declared(replace(face, family=family), "woff", subset(face, characters))


def font_rules(*texts: str) -> str:
    """The @font-face rules: for all characters, or (for the web) for those of some texts only."""
    if not texts:
        return "\n".join(_rule(face, None) for face in FACES)
    used = [_used(text) for text in texts]
    characters = USUAL.union(*(letters for letters, _ in used))
    slanted = any(slanted for _, slanted in used)
    return "\n".join(_rule(face, characters) for face in FACES if slanted or not face.italic)


@lru_cache(maxsize=128)
def _used(text: str) -> tuple[frozenset[str], bool]:
    """The characters of a text that are not usual, and whether it has slanted words."""
    unusual = set(text) - USUAL
    return frozenset(filter(str.isprintable, unusual)), "<em" in text or "<blockquote" in text


@cache
def _covered(face: Face) -> frozenset[int]:
    """The characters a face has."""
    from fontTools.ttLib import TTFont

    return frozenset(TTFont(io.BytesIO(face.read()), lazy=True).getBestCmap() or {})


@cache
def _advances(face: Face) -> tuple[int, dict[int, int]]:
    """The units of the em, and the width of every character."""
    from fontTools.ttLib import TTFont

    font = TTFont(io.BytesIO(face.read()), lazy=True)
    metrics, names = font["hmtx"].metrics, font.getBestCmap() or {}
    return font["head"].unitsPerEm, {code: metrics[name][0] for code, name in names.items()}


def text_width(face: Face, text: str, size: float) -> float:
    """The width of a text in points at a type size, without kerning; an unknown sign is 0.6 em."""
    em, widths = _advances(face)
    return sum(widths.get(ord(sign), round(0.6 * em)) for sign in text) * size / em


def missing_characters(text: str) -> tuple[str, ...]:
    """The printable characters of `text` that the serif has not, in order of their number."""
    if USUAL.issuperset(text):  # the serif has all of these: no font need be read
        return ()
    has = _covered(FACES[0])
    return tuple(
        sorted(c for c in set(text) if c.isprintable() and not c.isspace() and ord(c) not in has)
    )


def boxed(page: str) -> str:
    """The page with an empty box for every letter the fonts have not: a PDF may name no other."""
    missing = missing_characters(page)
    return page.translate({ord(sign): "☐" for sign in missing}) if missing else page
