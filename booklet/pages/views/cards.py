"""Floor 11, cards: the steps of a block in rows, and the markup of one card."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import Any, Literal

from markupsafe import Markup

from booklet.drawing.scene import Figure
from booklet.kit.outlines.plane import Point, box_of
from booklet.kit.records import Record
from booklet.kit.words import Phrase, phrase
from booklet.pages.pictures.figures import Figures, Room
from booklet.pages.pictures.typesetting import Typesetter, heading
from booklet.pages.texts.front import own_picture
from booklet.pages.texts.templating import names_of
from booklet.pages.texts.words import Words
from booklet.pattern import Pattern
from booklet.plan import BlockPlan, StepCard
from booklet.plan.records import Card, LayerCard


class CardValues(Record, kw_only=True):
    """What one step card names: its `lines`, each with its class, of which some begin a column where its words stand in two;
    `card_heading` is its heading, `tick` what is said of its box."""

    card: Card
    lines: tuple[tuple[str, Markup], ...]
    begins: frozenset[int]
    block: str
    on_blocks: int
    id: str
    card_heading: Markup
    tick: str
    thumb: Markup
    photo: Markup
    picture_html: Markup


CardRowKind = Literal["stacked", "pair", "beside", "full"]


class CardRow(Record):
    """Cards that stand side by side: a pair of narrow ones, or one with its words beside its picture
    (`beside`) or under it (`full`; `stacked` where the page has one column)."""

    kind: CardRowKind
    cards: tuple[Card, ...]


def card_rows(block: BlockPlan, album: Figures, room: Room) -> tuple[CardRow, ...]:
    """The cards of a block in rows, by the width their pictures are drawn in."""
    rows: list[CardRow] = []
    for card in block.all_cards:
        kind = _kind(album.figure(f"step {block.block.id} {card.n}"), room)
        if kind == "pair" and rows and rows[-1].kind == "pair" and len(rows[-1].cards) == 1:
            rows[-1] = CardRow("pair", (*rows[-1].cards, card))
        else:
            rows.append(CardRow(kind, (card,)))
    return tuple(
        CardRow("beside", row.cards) if row.kind == "pair" and len(row.cards) == 1 else row
        for row in rows
    )


def _kind(figure: Figure | None, room: Room) -> CardRowKind:
    """How a picture stands on its card."""
    if room.column_mm == room.width_mm:
        return "stacked"
    if figure is None or figure.width_mm <= room.column_mm + 0.5:
        return "pair"
    return "beside" if figure.width_mm <= room.beside_mm + 0.5 else "full"


def as_before(block: BlockPlan, card: StepCard) -> Phrase | None:
    """That a step is sewn as an earlier one of its block was, where it is told in the same words and its patches lie
    as there, or turned by a quarter, a half or three quarters; None for any other."""
    lies = _lying(block, card)
    for other in block.cards:
        if other is card:
            return None
        if other.sentences == card.sentences and len(card.sentences) > 1:
            ways = [sorted(_turned(_lying(block, other), n)) for n in range(4)]
            if sorted(lies) == ways[0]:
                return phrase("Sew as in step {n}.", n=other.n)
            if sorted(lies) in ways:
                return phrase("As step {n}, turned: the picture shows how it lies.", n=other.n)
    return None


def _lying(block: BlockPlan, card: StepCard) -> list[Point]:
    """The corners of the patches of a step about the middle of its box, in thousandths of an inch."""
    pieces = (p for p in block.tiling.pieces if p.id in card.step.pieces)
    points = [point for piece in pieces for point in piece.outline.points]
    left, top, right, bottom = box_of(points)
    return [
        (round((2 * x - left - right) * 500), round((2 * y - top - bottom) * 500))
        for x, y in points
    ]


def _turned(points: list[Point], quarters: int) -> list[Point]:
    """Points turned by so many quarters about the origin."""
    for _ in range(quarters):
        points = [(-y, x) for x, y in points]
    return points


def card_lines(
    card: Card, words: Words, like: Phrase | None = None
) -> Iterator[tuple[str, Markup]]:
    """What is said on the card of a step, line by line, each with its class; a step that is `like` another says only so."""
    if card.together and card.together_whole:
        yield (
            "take",
            words.phrase(
                "Made together: take the unit {name} from the cutting page.", name=card.together
            ),
        )
    elif card.together:
        yield (
            "take",
            words.phrase(
                "Part of {name}, which is made together: see the cutting page.", name=card.together
            ),
        )
    else:
        if card.takes:
            yield "take", words.phrase("Take {parts}.", parts=words.text(card.takes))
        yield from (("", words.markup(line)) for line in ((like,) if like else card.sentences))
    yield from (("press", words.markup(line)) for line in card.press)
    yield from (("look", words.markup(line)) for line in card.warnings)
    if card.measure and card.trim:
        yield "measure", words.phrase("Trim it to {measure}.", measure=card.measure)
    elif card.measure:
        yield "measure", words.phrase("It measures {measure}.", measure=card.measure)


def card_html(
    size: str,
    block: BlockPlan,
    card: Card,
    level: int,
    album: Figures,
    setter: Typesetter,
    words: Words,
    pattern: Pattern,
    begins: Callable[[str, Sequence[Any]], frozenset[int]],
) -> Markup:
    """One step card; its heading is of HTML level `level`."""
    thumb = album.figure(f"thumb {block.block.id} {card.n}")
    if card in block.cards[-1:]:  # it makes the whole block: no need to say where it lies
        thumb = None
    like = as_before(block, card) if isinstance(card, StepCard) else None
    lines = tuple(card_lines(card, words, like))
    return setter.filled(
        "pages/card.html",
        **words.functions(),
        **names_of(
            CardValues(
                card=card,
                lines=lines,
                begins=begins("card", lines),
                block=block.block.id,
                on_blocks=card.total if isinstance(card, LayerCard) else 0,
                id=f"{size}-{block.block.id}-{card.n}",
                card_heading=heading(level, 3, words.markup(card.title)),
                tick=words.text(phrase("Step {n} done", n=card.n)),
                thumb=setter.place(thumb, "thumb", numbered=False)
                if thumb is not None
                else Markup(),
                photo=own_picture(pattern, card.picture, "card-photo"),
                picture_html=setter.picture(album, f"step {block.block.id} {card.n}"),
            )
        ),
    )
