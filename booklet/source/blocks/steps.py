"""Floor 2: `sew`: the steps of a block, with `times` and `#` written out."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator
from itertools import chain

from booklet.kit.bounds import MOST_JOINED, MOST_STEPS
from booklet.kit.diagnostic import Span
from booklet.kit.records import Mutable, field, replace
from booklet.kit.remembered.content import OwnWords
from booklet.kit.words import Worded
from booklet.pattern import By, DeclaredStep, Ends, PressKind, PressWish, StepBy
from booklet.source.faults import near
from booklet.source.tree.node import List, Node, Text, shortened
from booklet.source.values.fields import Fields, Key, Table, open_fields
from booklet.source.values.groups import list_of
from booklet.source.values.kinds import Kind, Reading, one_of, text, wrong_kind
from booklet.source.values.names import is_name
from booklet.source.values.own_pictures import PICTURE_TEXT, STEP_BOX, own_picture
from booklet.source.values.quantities import count
from booklet.source.values.wordings import wording, wordings

_NUMBER = re.compile(r"#([+-][0-9]{1,4})?")
_PRESS = re.compile(r"(toward|away from)\s+(\S.*)|(open|fan)")
_PRESS_WORDS = "`toward` or `away from` and a part of the step, or `open`, or `fan`"


def _press(node: Node, what: str, reading: Reading) -> str | None:
    written = " ".join(node.value.split()) if isinstance(node, Text) else ""
    if _PRESS.fullmatch(written):
        return written
    wrong_kind(node, what, _PRESS_WORDS, reading)
    return None


_NAME = text("the name of a piece or unit", longest=80)
_NAMES = list_of(_NAME, "a list of pieces and units such as `[a, b]`", least=2, most=MOST_JOINED)
_PAIR = list_of(_NAME, "the two pieces whose seam is closed, as in `[a, b]`", least=2, most=2)
MAKE = Key(
    "make",
    text("a name for what is made", longest=80),
    "The name of the unit made; `#` counts its copies. Left out, the first part keeps its name.",
)
JOIN = Key("join", _NAMES, "The pieces and units to join, in order.")
BY = Key(
    "by",
    one_of(StepBy),
    "Sewn by machine or by hand; left out, the sewing rules decide. `foundation`: patches joined in this order on "
    "printed paper, as one section.",
)
TIMES = Key(
    "times",
    count(1, MOST_STEPS, "how often the step is done"),
    "How often the step is done; `#` counts 1, 2, 3 and so on.",
    default="1",
)
ENDS = Key("ends", one_of(Ends), "Where the seams end: at matching points or at raw edges.")
PRESS = Key(
    "press",
    Kind(_PRESS_WORDS, _press, {"type": "string"}),
    "Which way to press: toward X, away from X, open or fan.",
)
LEAVE = Key("leave", _NAME, "A partial seam: stop short where this piece will come.")
FINISH = Key("finish", _PAIR, "Close the partial seam between these two.")
NOTE = Key("note", wording("a sentence", longest=1000), "A sentence for the reader.")
PICTURE = Key(
    "picture",
    text("the name of a picture", longest=200),
    "A photograph (PNG or JPEG) or a drawing (SVG) in the folder, shown with the step.",
)
TITLE = Key(
    "title",
    wordings("{en: wing, de: Flügel}", longest=60),
    "What the unit made is called in the booklet, in one language or several; left out, a usual word where the "
    "name is one, else its step.",
)
STEP = Table(
    "step",
    "One step of sewing.",
    (MAKE, TITLE, JOIN, BY, TIMES, ENDS, PRESS, LEAVE, FINISH, NOTE, PICTURE, PICTURE_TEXT),
)


class StepNames(Mutable, kw_only=True):
    """The names that steps may use: all pieces, and the units made so far."""

    pieces: Collection[str]
    block: str
    where: str  # the steps these names are of
    units: dict[str, int] = field(default_factory=dict)  # unit -> line on which it is made
    lost: dict[str, str] = field(default_factory=dict)  # unit not made for a fault -> that cause
    faulty: bool = False

    def __contains__(self, name: str) -> bool:
        return name in self.pieces or name in self.units

    def all(self) -> Iterator[str]:
        """All of them, the latest units first: what is meant most often."""
        return chain(reversed(self.units), self.pieces)


def read_steps(
    node: Node, block: str, pieces: Collection[str], reading: Reading
) -> tuple[DeclaredStep, ...] | None:
    """The steps of a block written out; None if the tool is to find the order, or if a step is faulty."""
    if isinstance(node, Text) and node.value.strip() == "auto":
        return None
    if isinstance(node, List) and not node.items and len(pieces) == 1:
        return None  # a block of one piece has no steps
    if isinstance(node, List) and not node.items:
        hint = "write `sew: auto`, or a step such as `- {make: pair, join: [a, b]}`"
        reading.faults.add("wrong-kind", "`sew` has no steps in it", node.span, hint)
        return None
    if not isinstance(node, List):
        wrong_kind(node, "`sew`", "a list of steps, or the word `auto`", reading)
        return None
    names = StepNames(pieces=pieces, block=block, where=f"the steps from line {node.span.line}")
    found: list[DeclaredStep] = []
    for entry, item in enumerate(node.items):
        fields = open_fields(item, STEP, f"step {entry + 1}", item.span, reading)
        if fields is None:
            names.faulty = True
            continue
        found.extend(_entry(fields, entry, names, reading))
        if len(found) > MOST_STEPS:
            message = f"the block has more than {MOST_STEPS} steps"
            reading.faults.add("too-large", message, item.span, "make it several blocks")
            return None
    _check_block_name(block, found, names, reading)
    return None if names.faulty else tuple(found)


def _check_block_name(
    block: str, steps: list[DeclaredStep], names: StepNames, reading: Reading
) -> None:
    """Note a unit that has the name of its block, though other steps join it to the rest."""
    joins = [step for step in steps if not step.finish]
    for step in joins[:-1]:
        if step.make == block and block in names.units:
            message = (
                f"`{shortened(block)}` is the name of the block, so only the last step may make it"
            )
            hint = "give what this step makes a name of its own"
            reading.faults.add("duplicate-name", message, step.span, hint, _block_name(names))
            names.faulty = True
            return


def _block_name(names: StepNames) -> str:
    """The cause of faults of steps that are called like their block."""
    return f"the name of block {names.block} in {names.where}"


def _entry(fields: Fields, entry: int, names: StepNames, reading: Reading) -> list[DeclaredStep]:
    """All instances of one entry."""
    before = reading.faults.noted
    finish = fields.has(FINISH)
    parts_key = FINISH if finish else JOIN
    if finish and fields.has(JOIN):
        message = f"{fields.what} has both `join` and `finish`"
        reading.faults.add(
            "conflicting-keys", message, fields.key_span(FINISH), "make it two steps"
        )
    elif finish and fields.has(MAKE):
        message = f"{fields.what} has both `make` and `finish`"
        hint = "take `make` away: closing a seam makes no new unit"
        reading.faults.add("conflicting-keys", message, fields.key_span(MAKE), hint)
    parts = fields.need(parts_key, "so it joins nothing")
    times = fields.get(TIMES) or 1
    make = fields.get(MAKE)
    picture = own_picture(fields, PICTURE, STEP_BOX)
    made = (
        [
            replace(_instance(fields, parts, make, k, times, entry, finish), picture=picture)
            for k in range(1, times + 1)
        ]
        if parts
        else []
    )
    if not _counts_well(fields, make, parts or (), names, reading):
        made = made[:1]  # one of them stands for all: the others would repeat its faults
    for step in made:
        _check_names(step, parts or (), fields, names, reading)
    if make and len(made) < times:  # so that later steps may use what this one would have made
        for k in range(1, times + 1):
            names.units.setdefault(written_out(make, k, times), fields.where.line)
    names.faulty = names.faulty or reading.faults.noted > before
    return made


def written_out(name: str, k: int, times: int) -> str:
    """A name with `#` replaced by k, `#+1` by the next number, after `times` again 1."""
    return _NUMBER.sub(lambda m: str((k - 1 + int(m[1] or 0)) % times + 1), name)


def _instance(
    fields: Fields,
    parts: tuple[str, ...],
    make: str | None,
    k: int,
    times: int,
    entry: int,
    finish: bool,
) -> DeclaredStep:
    """The k-th time of an entry."""
    parts_key = FINISH if finish else JOIN
    node = fields.node(parts_key)
    spans = tuple(item.span for item in node.items) if isinstance(node, List) else ()
    join = tuple(written_out(part, k, times) for part in parts)
    own = "" if finish else written_out(make, k, times) if make else join[0]
    leave = fields.get(LEAVE)
    return DeclaredStep(
        make=own,
        join=join,
        span=fields.span(MAKE) if fields.has(MAKE) else fields.span(parts_key),
        join_spans=spans,
        entry=entry,
        times=times,
        by=_sewn_by(fields.get(BY)),
        ends=fields.get(ENDS),
        press=_wish(fields, k, times),
        leave=written_out(leave, k, times) if leave else None,
        finish=finish,
        note=_own(fields.get(NOTE)),
        foundation=fields.get(BY) is StepBy.FOUNDATION,
        titles=tuple((language, OwnWords(said)) for language, said in fields.get(TITLE) or ()),
    )


def _own(note: str | None) -> str | None:
    """A note as words that are only handed through, unless they differ by language."""
    return note if note is None or isinstance(note, Worded) else OwnWords(note)


def _sewn_by(said: StepBy | None) -> By | None:
    """By machine or hand as written; on printed paper by machine."""
    return None if said is None else By.HAND if said is StepBy.HAND else By.MACHINE


def _wish(fields: Fields, k: int, times: int) -> PressWish | None:
    """How the author wants the seam pressed."""
    written = fields.get(PRESS)
    match = _PRESS.fullmatch(written) if written else None
    if match is None:
        return None
    of = written_out(match[2], k, times) if match[2] else None
    return PressWish(PressKind(match[1] or match[3]), of, fields.span(PRESS))


def _counts_well(
    fields: Fields, make: str | None, parts: tuple[str, ...], names: StepNames, reading: Reading
) -> bool:
    """Whether `#` and `times` fit each other; notes a `#` without `times`, and `times` without the `#`
    that tells the parts and the units of each time apart."""
    times = fields.get(TIMES) or 1
    cause = f"count of {fields.what} on line {fields.where.line}"

    def note(code: str, message: str, span: Span, hint: str) -> None:
        reading.faults.add(code, message, span, hint, cause)

    before = reading.faults.noted
    same = bool(parts) and times > 1 and not any("#" in part for part in parts)
    one_name = make is not None and "#" not in make and times > 1
    if not fields.has(TIMES) and "#" in "".join((make or "", *parts)):
        message = f"{fields.what} counts with `#`, but has no `times`"
        note("missing-key", message, fields.where, "add `times:` with a number")
    if one_name:
        names.lost.update({f"{make}{k}": cause for k in range(1, times + 1)})
    if same:
        message = f"{fields.what} is done {times} times, but joins the same parts each time"
        hint = f"put a `#` where the numbers count, as in `{_counted(make, parts, fields)}`"
        key = FINISH if fields.has(FINISH) else JOIN
        note("used-twice", message, fields.span(key), hint)
    elif make and one_name:
        message = f"{fields.what} makes several units, all named `{shortened(make)}`"
        hint = f"write `{shortened(make)}#`, so that they are numbered"
        note("duplicate-name", message, fields.span(MAKE), hint)
    return reading.faults.noted == before


def _counted(make: str | None, parts: tuple[str, ...], fields: Fields) -> str:
    """The step as it would count: `make: pair#, join: [d#, e#]` for parts d1 and e1."""

    def numbered(name: str) -> str:
        return name if "#" in name else shortened(name).rstrip("0123456789") + "#"

    key = FINISH if fields.has(FINISH) else JOIN
    joined = f"{key.name}: [{', '.join(map(numbered, parts))}]"
    return f"make: {numbered(make)}, {joined}" if make else joined


def _check_names(
    step: DeclaredStep, written: tuple[str, ...], fields: Fields, names: StepNames, reading: Reading
) -> None:
    """Note names in a step that stand for nothing at that point, and names used again. `written` are its
    parts with their `#`."""
    for part, span, as_written in zip(step.join, step.join_spans, written, strict=True):
        if part not in names:
            message = f"there is no piece or unit `{shortened(part)}` when {fields.what} begins"
            _unknown(part, as_written, message, span, names, reading)
    if step.leave and step.leave not in names:
        message = f"there is no piece `{shortened(step.leave)}` to leave room for"
        written_leave = fields.get(LEAVE) or step.leave
        _unknown(step.leave, written_leave, message, fields.span(LEAVE), names, reading)
    told = step.join  # a part that stands for nothing is noted above
    if step.press and step.press.of and step.press.of not in told and step.press.of not in names:
        message = f"there is no piece or unit `{shortened(step.press.of)}` to press to"
        cause = names.lost.get(step.press.of, f"press of {fields.what}, line {fields.where.line}")
        reading.faults.add(
            "unknown-name",
            message,
            step.press.span,
            near(step.press.of, step.join),
            cause,
            follows=step.press.of in names.lost,
        )
    if step.make and fields.has(MAKE):
        _add_unit(step, fields, names, reading)


def _unknown(
    name: str, as_written: str, message: str, span: Span, names: StepNames, reading: Reading
) -> None:
    """Note a name that stands for nothing: of a unit lost for an earlier fault as following from that;
    the same name written elsewhere, and all numbers of a `#`, as one."""
    follows = name in names.lost
    cause = names.lost.get(name, f"no `{as_written}` in {names.where}")
    hint = _fewer_times(name, as_written, names) or near(name, names.all())
    reading.faults.add("unknown-name", message, span, hint, cause, follows)


def _fewer_times(name: str, as_written: str, names: StepNames) -> str | None:
    """The hint where a step is done more often than there are parts for it: `i#` seven times, and `i6` is the last."""
    before, found, after = as_written.partition("#")
    number = name.removeprefix(before).removesuffix(after)
    if not found or not number.isdecimal():
        return None
    last = f"{before}{int(number) - 1}{after}"
    return (
        f"write `times: {int(number) - 1}`: `{last}` is the last there is"
        if last in names
        else None
    )


def _add_unit(step: DeclaredStep, fields: Fields, names: StepNames, reading: Reading) -> None:
    """Remember what a step makes; note a name that is taken."""
    span = fields.span(MAKE)
    if step.make in names.units or step.make in names.pieces:
        line = names.units.get(step.make)
        taken = f"made on line {line}" if line else "a piece"
        message = f"`{shortened(step.make)}` is already {taken}"
        hint = "give what this step makes another name"
        if step.join and step.join[0] == step.make:
            hint = f"leave `make` out: what is made then keeps the name `{shortened(step.make)}`"
        if step.make == names.block and line:  # then the earlier one is told to be called otherwise
            reading.faults.add("duplicate-name", message, span, hint, _block_name(names), True)
        else:
            reading.faults.add("duplicate-name", message, span, hint)
    elif is_name(step.make, span, "unit", reading):
        names.units[step.make] = span.line
