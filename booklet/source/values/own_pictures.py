"""Floor 2: a picture of the author's that is shown as it is, and how large it is printed at most."""

from __future__ import annotations

from booklet.kit.remembered.content import OwnWords
from booklet.kit.words import Worded
from booklet.pattern import OwnPicture
from booklet.source.values.fields import Fields, Key
from booklet.source.values.kinds import Inches
from booklet.source.values.wordings import wording

COVER_BOX: Inches = (8.5, 11.7)  # to the edges of the larger papers
TEXT_BOX: Inches = (7.0, 7.0)  # as wide as a page, with room to enlarge it on a screen
STEP_BOX: Inches = (4.0, 4.0)
PICTURE_TEXT = Key(
    "picture text",
    wording("a sentence that describes it", longest=500),
    "What the picture shows, for readers who do not see it.",
)


def own_picture(fields: Fields, picture: Key[str], box: Inches) -> OwnPicture | None:
    """A picture of the author's with what it shows; one without words is a fault."""
    if not fields.has(picture):
        if fields.has(PICTURE_TEXT):
            fields.missing(picture, "but says what one shows")
        return None
    file = fields.get(picture)
    said = fields.need(PICTURE_TEXT, "so that who cannot see the picture is told nothing")
    if file is None or said is None:
        return None
    fields.reading.show(file, fields.span(picture), box)
    return OwnPicture(file, said if isinstance(said, Worded) else OwnWords(said))
