"""Floor 13, reference: all that `booklet help` tells as one web page, with pictures, made from the same tables."""

from __future__ import annotations

from markupsafe import Markup

from booklet.checks.rulebook import rules
from booklet.crafts.form import Form
from booklet.crafts.forms import FORMS
from booklet.drawing.quilts.shape import shape_figure
from booklet.drawing.scene import Figure
from booklet.geometry.placing.shapes import shape_outline
from booklet.kit.measure import Length
from booklet.kit.records import Record
from booklet.pages.pictures.figures import inline_svg
from booklet.pages.style.alone import compose_alone
from booklet.pages.texts.texts import our_text
from booklet.pages.texts.words import Words
from booklet.reference import keys, shapes, topics
from booklet.reference.demonstrations import pictures_of


class ToldEntry(Record, kw_only=True):
    """One thing that is told: its name, the words, and its pictures."""

    name: str
    body: Markup
    pictures: tuple[Markup, ...] = ()


class Chapter(Record, kw_only=True):
    """Entries of one kind."""

    id: str
    title: str
    entries: tuple[ToldEntry, ...]
    lead: str = ""


def page() -> str:
    """The page, self-contained, in English, as the messages are."""
    chapters = (
        Chapter(
            id="shapes",
            title="Shapes",
            entries=tuple(map(_shape, FORMS.values())),
            lead="Each as it stands before it is turned: corners by their numbers, sides by theirs in brackets. "
            "Side N runs from corner N to the next, clockwise; measures are finished, in design units.",
        ),
        Chapter(id="keys", title="Keys", entries=_groups()),
        Chapter(id="more", title="Lengths, texts, pages", entries=_topics()),
        Chapter(id="rules", title="Rules", entries=_rules()),
    )
    values = {"title": "How a pattern is written", "chapters": chapters}
    return compose_alone("pages/reference.html", "How a pattern is written", Words.of("en"), values)


def _shape(form: Form) -> ToldEntry:
    """A shape with its keys, and a picture of how it stands."""
    drawing: tuple[Markup, ...] = ()
    if not form.is_free:
        outline = shape_outline(shapes.sample(form), Length.of(1))
        drawing = (_inline(shape_figure(form.word, outline)),)
    return ToldEntry(name=form.word, body=our_text(shapes.markdown(form)), pictures=drawing)


def _groups() -> tuple[ToldEntry, ...]:
    """The groups of keys with their pictures."""
    return tuple(
        ToldEntry(
            name=table.name,
            body=our_text(keys.markdown(table)),
            pictures=tuple(map(_inline, pictures_of(table.name))),
        )
        for table in keys.GROUPS
    )


def _topics() -> tuple[ToldEntry, ...]:
    told = ((name, topic()) for name, topic in topics.TOPICS.items() if name != "rules")
    pre = Markup("<pre>{}</pre>")
    return tuple(
        ToldEntry(name=name, body=pre.format("\n".join(lines[2:]))) for name, lines in told
    )


def _rules() -> tuple[ToldEntry, ...]:
    return tuple(
        ToldEntry(name=rule.code, body=our_text(_lower(rule.page))) for rule in rules().values()
    )


def _lower(text: str) -> str:
    """A rule's page without its name, its headings below that."""
    _, _, rest = text.partition("\n")
    return rest.replace("\n## ", "\n##### ").replace("severity:", "\nseverity:", 1)


def _inline(figure: Figure) -> Markup:
    alt = Words.of("en").text(figure.alt)
    return Markup('<figure style="--w:{}mm">{}</figure>').format(
        f"{figure.width_mm:g}", inline_svg(figure, alt)
    )
