"""Floor 2: `cover` and `imprint` of `booklet`: what stands on the first page and on the last, and who publishes it."""

from __future__ import annotations

import re

from booklet.kit.article_numbers import check_digit, check_sign_of_ten, digits_of, thirteen_of_ten
from booklet.pattern import Contact, CoverWish, Difficulty, Imprint, Isbn
from booklet.source.tree.node import Map, Node, shortened
from booklet.source.values.fields import Fields, Key, Table
from booklet.source.values.groups import list_of, one_or_list
from booklet.source.values.kinds import (
    ANY_TEXT,
    Kind,
    Reading,
    from_text,
    one_of,
    text,
    yes_no,
)
from booklet.source.values.own_pictures import COVER_BOX, PICTURE_TEXT, own_picture
from booklet.source.values.wordings import wording

_MAIL = re.compile(r"(?:mailto:)?([^\s@:/?]+@[^\s@:/?]+\.[A-Za-z0-9-]+)", re.IGNORECASE)
_WEB = re.compile(r"https://[^\s/?#]+[^\s]*", re.IGNORECASE)
_ISBN_WORDS = "an ISBN of 13 digits"
_LINK_WORDS = "an address that begins with `https://`, or one of mail"


def _isbn(said: str, node: Node, what: str, reading: Reading) -> Isbn | None:
    """An ISBN of 13 digits whose check digit is right; else a fault that says what is wrong with it."""
    number = digits_of(said)
    if re.fullmatch(r"97[89][0-9]{10}", number) and check_digit(number[:12]) == number[12]:
        return Isbn(" ".join(said.split()), number)
    if re.fullmatch(r"97[89][0-9]{10}", number):
        message = f"{what} ends in {number[12]}, but the check digit of its first twelve digits is {check_digit(number[:12])}"
        hint = "compare it digit by digit with the list you have it from; do not just change the last one"
    elif re.fullmatch(r"[0-9]{9}[0-9X]", number):
        sound = check_sign_of_ten(number[:9]) == number[9]
        message = f"{what} is an ISBN of 10 signs, which is no longer used" + (
            "" if sound else f", and its check sign would be {check_sign_of_ten(number[:9])}"
        )
        hint = (
            f"write it with 13 digits: {thirteen_of_ten(number)}"
            if sound
            else "compare it with the list you have it from"
        )
    else:
        message = (
            f"{what} is `{shortened(said)}`, which is not 13 digits that begin with 978 or 979"
        )
        hint = "write all 13 digits, with or without hyphens"
    reading.faults.add("wrong-isbn", message, node.span, hint)
    return None


def _link(node: Node, what: str, reading: Reading) -> Contact | None:
    """An address that a reader can follow and type."""
    said = text(_LINK_WORDS, longest=200).read(node, what, reading)
    if said is None:
        return None
    said = said.strip()
    if found := _MAIL.fullmatch(said):
        return Contact(f"mailto:{found[1]}", found[1])
    if _WEB.fullmatch(said):
        return Contact(said, said)
    message = f"{what} leads to `{shortened(said)}`; booklets lead to `https://` and to mail only"
    hint = "write the address with `https://`, or a mail address such as `hello@example.org`"
    if said.lower().startswith("http://"):
        hint = f"open `https://{shortened(said[7:])}` in a browser, and write that if it is the same page"
    reading.faults.add("unsafe-link", message, node.span, hint)
    return None


PICTURE = Key(
    "picture",
    text("the name of a picture", longest=200),
    "A photograph (PNG or JPEG) or a drawing (SVG) in the folder, on the cover in place of the quilt as it is drawn.",
)
DIFFICULTY = Key("difficulty", one_of(Difficulty), "For whom the pattern is.")
SKILLS = Key(
    "skills",
    list_of(wording("a skill", longest=80), "a list such as `[a scant quarter inch]`", most=12),
    "What one must know before, such as `sewing a scant quarter inch`.",
)
TIME = Key(
    "time",
    yes_no(),
    "Whether the cover says how long the sewing takes; estimated, at the pace of the sewing rules.",
    default="no",
)
COVER = Table(
    "cover", "What stands on the cover.", (PICTURE, PICTURE_TEXT, DIFFICULTY, SKILLS, TIME)
)
COPYRIGHT = Key(
    "copyright",
    wording("a line of text", longest=200),
    "Whose it is, such as `© 2026 Example Studio`.",
)
LICENCE = Key(
    "licence",
    wording("a text", longest=1000),
    "What readers may do with it, such as copying it for a class or selling what they sew.",
)
ISBN = Key(
    "isbn",
    from_text(_ISBN_WORDS, ANY_TEXT, _isbn),
    "The ISBN, 13 digits; its check digit is verified, and the page `back-cover` has its bar code.",
)
PRICE = Key("price", wording("a price", longest=40), "The price, as it is printed.")
CONTACT = Key(
    "contact",
    one_or_list(Kind(_LINK_WORDS, _link, ANY_TEXT), "an address, or a list of addresses"),
    "Where readers find or ask you: addresses that begin with `https://`, or of mail; links on screens, in full on paper.",
)
IMPRINT = Table(
    "imprint",
    "Who publishes the booklet; the pages `imprint` and `back-cover` show it.",
    (COPYRIGHT, LICENCE, ISBN, PRICE, CONTACT),
)


def read_cover(node: Map | None, reading: Reading) -> CoverWish:
    """The cover; the booklet's own where nothing is written."""
    if node is None:
        return CoverWish()
    fields = Fields(node, COVER, "`cover` of `booklet`", node.span, reading)
    return CoverWish(
        picture=own_picture(fields, PICTURE, COVER_BOX),
        difficulty=fields.get(DIFFICULTY),
        skills=fields.get(SKILLS) or (),
        time=fields.get(TIME) or False,
    )


def read_imprint(node: Map | None, reading: Reading) -> Imprint:
    """The imprint; an empty one where nothing is written."""
    if node is None:
        return Imprint()
    fields = Fields(node, IMPRINT, "`imprint` of `booklet`", node.span, reading)
    return Imprint(
        copyright=fields.get(COPYRIGHT) or "",
        licence=fields.get(LICENCE) or "",
        isbn=fields.get(ISBN),
        price=fields.get(PRICE) or "",
        contact=fields.get(CONTACT) or (),
    )
