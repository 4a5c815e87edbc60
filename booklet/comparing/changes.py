"""Floor 12, comparing: what changed, size by size, in the words of whoever owns the earlier booklet.

A change is *grave* if a reader who goes by the earlier booklet would cut, buy or sew what the later one calls
wrong: another figure to cut, another outline, cloth that runs short. A cloth of which less is enough now, another
order of sewing or another way to press is only nicer: the earlier booklet still leads to the same quilt.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from enum import Enum
from typing import Any

from booklet.comparing.side import PatternState
from booklet.kit.measure import Length, Printed, UnitSystem, printed
from booklet.kit.outlines.near import SAME_LENGTH
from booklet.kit.records import Record
from booklet.kit.words import (
    Digits,
    Phrase,
    Text,
    by,
    in_units,
    listing,
    phrase,
    plural_phrase,
    with_unit,
)

LONGER = 0.05  # of the time: less is not worth telling
NONE = phrase("none", context="nothing of it")
Json = Mapping[str, Any]


class About(Enum):
    """What a change is about, in the order in which a reader meets it."""

    LANGUAGES = "languages"
    SIZE = "size"
    QUILT = "quilt"
    CLOTH = "cloth"
    CUTTING = "cutting"
    BLOCK = "block"
    SEWING = "sewing"
    PRESSING = "pressing"
    FINISHING = "finishing"
    TIME = "time"
    CLASS = "class"
    PARTS = "parts"


class Change(Record, kw_only=True):
    """One change: in which size ("" for all), about what, the earlier words and the present ones; `pictures` are the names
    of the earlier and the present picture of it, or empty."""

    size: str
    about: About
    grave: bool
    what: Text
    was: Text
    now: Text
    pictures: tuple[str, str] = ("", "")


def changes(old: PatternState, new: PatternState) -> tuple[Change, ...]:
    """Every change for readers, size by size, grave ones first. Raises KeyError, TypeError, ValueError or
    AttributeError where a side holds no facts of a pattern."""
    sizes = {**old.facts["sizes"], **new.facts["sizes"]}
    found = [change for size in sizes for change in _OfSize(old, new, size).changes()]
    found += _languages(old.facts, new.facts)
    found += _lesson(old.facts.get("class") or {}, new.facts.get("class") or {})
    place = {size: n for n, size in enumerate(("", *sizes))}
    order = list(About)
    return tuple(sorted(found, key=lambda c: (not c.grave, place[c.size], order.index(c.about))))


def _languages(was: Json, now: Json) -> Iterator[Change]:
    """The languages of each edition, where they are not the same. Facts of an earlier make do not tell them."""
    if "editions" not in was or "editions" not in now:
        return
    told = [_spoken(was), _spoken(now)]
    for edition in dict.fromkeys((*told[0], *told[1])):
        before, after = (dict.fromkeys(side.get(edition, ())) for side in told)
        if before.keys() != after.keys():
            yield Change(
                size="",
                about=About.LANGUAGES,
                grave=False,
                what=phrase("languages of the edition {edition}", edition=edition),
                was=_said(iter(before)),
                now=_said(iter(after)),
            )


def _lesson(was: Json, now: Json) -> Iterator[Change]:
    """How many come to the class, and its times: what holds for all sizes. Facts of an earlier make tell no sessions."""
    students = [side.get("students", 0) for side in (was, now)]
    if students[0] != students[1]:
        yield _of_class(phrase("who gets a kit"), [_counted(n) for n in students])
    kits = [
        n + side.get("spare_kits", 0) if n else 0
        for n, side in zip(students, (was, now), strict=True)
    ]
    if kits[0] != kits[1]:
        said = [plural_phrase("{n} kit", "{n} kits", n) if n else _NOTHING for n in kits]
        yield _of_class(phrase("kits to cut"), said)
    times = [_times(side) for side in (was, now)]
    if times[0] != times[1] and not (was and "sessions" not in was and "start" not in was):
        said = [listing(each, "semicolons") if each else _NOTHING for each in times]
        yield _of_class(phrase("the times of the class"), said, grave=True)
    yield from _tasks(was, now)


def _tasks(was: Json, now: Json) -> Iterator[Change]:
    """The homework before the class and before each of its sessions, and what is done in them, where they are not the same.
    Homework is grave where a student comes without it who goes by the earlier booklet. Facts of an earlier make tell no tasks."""
    told = [_homework(side) for side in (was, now)]
    if not any(side and "homework" not in side for side in (was, now)):
        done: tuple[set[str], set[str]] = set(), set()
        for before, what in ((None, phrase("homework before the class")), *_before_sessions(*told)):
            tasks = [side.get(before, ()) for side in told]
            for so_far, some in zip(done, tasks, strict=True):
                so_far.update(some)
            if tasks[0] != tasks[1]:
                late = not done[1] <= done[0]
                yield _of_class(what, [_listed(some) for some in tasks], grave=late)
        in_class = [_by_session(side, "do") for side in (was, now)]
        for session in {**in_class[0], **in_class[1]}:
            sides = [side.get(session, ()) for side in in_class]
            if sides[0] != sides[1]:
                what = phrase("what is done in {session}", session=session[0])
                yield _of_class(what, [_listed(some) for some in sides])


SessionName = tuple[str, int]  # its title, and how many sessions of that title there are before it
Tasks = Sequence[str]


def _homework(lesson: Json) -> dict[SessionName | None, Tasks]:
    """What is done at home before the class, under None, and before each of its sessions."""
    found: dict[SessionName | None, Tasks] = {None: lesson.get("homework", ())}
    found.update(_by_session(lesson, "homework").items())
    return found


def _before_sessions(
    was: Mapping[SessionName | None, Tasks], now: Mapping[SessionName | None, Tasks]
) -> Iterator[tuple[SessionName, Phrase]]:
    """Each session of either side, in the order of the later one, and what its homework is called."""
    for session in {**now, **was}:
        if session is not None:
            yield session, phrase("homework before {session}", session=session[0])


def _by_session(lesson: Json, kind: str) -> dict[SessionName, Tasks]:
    """The tasks of one kind of each session of a class."""
    found: dict[SessionName, Tasks] = {}
    alike: Counter[str] = Counter()
    for session in lesson.get("sessions", ()):
        title = session["title"]
        found[title, alike[title]] = session.get(kind, ())
        alike[title] += 1
    return found


def _listed(tasks: Tasks) -> Text:
    """Tasks in a row, each without the full stop it may end with."""
    bare = [task.removesuffix(".") for task in tasks]
    return listing(bare, "semicolons") if bare else _NOTHING


def _counted(students: int) -> Text:
    return plural_phrase("{n} student", "{n} students", students) if students else _NOTHING


def _of_class(what: Text, said: Sequence[Text], grave: bool = False) -> Change:
    """A change of the class as a whole; grave where whoever goes by the earlier one comes at the wrong time."""
    was, now = said
    return Change(size="", about=About.CLASS, grave=grave, what=what, was=was, now=now)


def _times(lesson: Json) -> list[Text]:
    """When the class begins, and its sessions with their minutes, breaks too."""
    start = [phrase("from {time}", time=lesson["start"])] if "start" in lesson else []
    return [
        *start,
        *(_session(session) for session in lesson.get("sessions", ())),
    ]


def _session(session: Json) -> Text:
    """A session with its minutes, and with its own beginning where it has one."""
    title, minutes = session["title"], session["minutes"]
    if "start" not in session:
        return phrase("{session}, {n} min", session=title, n=minutes)
    return phrase(
        "{session}, from {time}, {n} min", session=title, time=session["start"], n=minutes
    )


def _spoken(facts: Json) -> dict[str, list[str]]:
    """The languages of the editions, by their names."""
    found: dict[str, list[str]] = {}
    for edition in facts["editions"]:
        found.setdefault(edition["name"], []).append(edition["language"])
    return found


class _OfSize:
    """The changes of one size."""

    def __init__(self, old: PatternState, new: PatternState, size: str) -> None:
        self.old, self.new, self.size = old, new, size
        self.was: Json = old.facts["sizes"].get(size) or {}
        self.now: Json = new.facts["sizes"].get(size) or {}
        self.units: UnitSystem = new.units or old.units or "inch"

    def changes(self) -> Iterator[Change]:
        """All of them."""
        if not self.was or not self.now:
            side = self.new if self.now else self.old
            title = phrase("the size {size}", size=side.size(self.size))
            new = phrase("there", context="a size"), phrase("not there", context="a size")
            was, now = new if self.was else reversed(new)
            yield self._change(About.SIZE, False, title, (was, now))
            return
        yield from self._quilt()
        yield from self._cloths()
        yield from self._cutting(self.was, self.now)
        yield from self._blocks()
        yield from self._finishing()
        yield from self._time()
        for kind in ("colourways", "layouts", "combined"):
            yield from self._alternatives(kind)
        yield from self._class()
        yield from self._in_parts()

    def _class(self) -> Iterator[Change]:
        """What each student of the class makes of the size, and what is bought for one and for all kits."""
        student, kits = (
            [
                ((side.facts.get("class") or {}).get(key) or {}).get(self.size)
                for side in (self.old, self.new)
            ]
            for key in ("student", "kits")
        )
        if student != [None, None]:
            made = [self._made(side) if side else phrase("the whole size") for side in student]
            if made[0] != made[1]:
                yield self._change(About.CLASS, True, phrase("what each student makes"), made)
        for says, sides in ((_for_one, student), (_for_all, kits)):
            was, now = ((side or {}).get("cutting", {}) for side in sides)
            for fabric in {**was, **now} if None not in sides else ():
                what = says(self._fabric(fabric))
                if bought := self._bought(what, was.get(fabric), now.get(fabric)):
                    yield bought

    def _in_parts(self) -> Iterator[Change]:
        """What is made of the size in each part, and which cloths are bought in it."""
        told = [side.facts.get("parts") or () for side in (self.old, self.new)]
        for n in range(max(map(len, told))):
            sides = [(of[n]["sizes"].get(self.size) or {}) if n < len(of) else {} for of in told]
            made = [self._made(side) for side in sides]
            if made[0] != made[1]:
                what = phrase("what is made in part {n}", n=n + 1)
                yield self._change(About.PARTS, True, what, made)
            bought = [_said(iter(map(self._fabric, side.get("buys", ())))) for side in sides]
            if bought[0] != bought[1]:
                what = phrase("the cloths bought in part {n}", n=n + 1)
                yield self._change(About.PARTS, True, what, bought)

    def _made(self, side: Json | None) -> Text:
        """The blocks that are made, with how many of each, and the quilt where it is joined."""
        blocks = [
            phrase("{n} {block}", n=n, block=self._block(id))
            for id, n in (side or {}).get("makes", {}).items()
        ]
        joined = [phrase("the quilt joined")] if (side or {}).get("joins_quilt") else []
        return _said(iter([*blocks, *joined]))

    def _change(
        self,
        about: About,
        grave: bool,
        what: Text,
        said: Iterable[Text],
        pictures: Iterable[str] = ("", ""),
    ) -> Change:
        """A change with the earlier words and the present ones, and the names of their pictures."""
        (was, now), (before, after) = said, pictures
        return Change(
            size=self.size,
            about=about,
            grave=grave,
            what=what,
            was=was,
            now=now,
            pictures=(before, after),
        )

    def _quilt(self) -> Iterator[Change]:
        """How large it is, of which blocks and parts, and where they lie."""
        was, now = self.was["quilt"], self.now["quilt"]
        both = ("quilt", "quilt")
        if _differ(was.get("finished_in"), now.get("finished_in")):
            sizes = (self._pair(side.get("finished_in")) for side in (was, now))
            yield self._change(About.QUILT, True, phrase("the finished quilt"), sizes, both)
        yield from self._counts(was, now)
        if _places(was) != _places(now) and was["blocks"] == now["blocks"]:
            places = _places(was) - _places(now)
            yield self._change(
                About.QUILT,
                True,
                phrase("where the blocks lie"),
                (
                    plural_phrase("{n} lies elsewhere", "{n} lie elsewhere", places.total()),
                    phrase("as the plan shows"),
                ),
                both,
            )
        parts = _keyed(was.get("parts", ()), "name"), _keyed(now.get("parts", ()), "name")
        for name in {**parts[0], **parts[1]}:
            sides = tuple(self._parts(side.get(name, ())) for side in parts)
            if sides[0] != sides[1]:
                yield self._change(About.QUILT, True, self._part(name), sides, both)

    def _counts(self, was: Json, now: Json, title: str = "") -> Iterator[Change]:
        """How many are made of each block, in a colourway or layout of a title or in the pattern itself."""
        for block in {**was["blocks"], **now["blocks"]}:
            counts = was["blocks"].get(block, 0), now["blocks"].get(block, 0)
            if counts[0] != counts[1]:
                what = _in(phrase("blocks to make of {block}", block=self._block(block)), title)
                pictures = ("", "") if title else ("quilt", "quilt")
                yield self._change(About.QUILT, True, what, map(_count, counts), pictures)

    def _parts(self, rows: Sequence[Json]) -> Text:
        """The parts of one name: how many, how large, of which cloth."""
        return _said(
            phrase(
                "{n} of {size}, {cloth}",
                n=row["count"],
                size=self._pair(row["finished_in"]),
                cloth=self._fabric(row["fabric"]),
            )
            for row in rows
        )

    def _cloths(self) -> Iterator[Change]:
        """What is bought of every cloth."""
        was, now = self.was["cutting"], self.now["cutting"]
        for fabric in {**was, **now}:
            sides = was.get(fabric), now.get(fabric)
            what = phrase("cloth to buy: {fabric}", fabric=self._fabric(fabric))
            if bought := self._bought(what, *sides):
                yield bought
            elif (
                None not in sides
                and _layout(sides[0]) != _layout(sides[1])
                and self._as_cut(fabric)
            ):
                what = phrase("how {fabric} is cut", fabric=self._fabric(fabric))
                before, after = (_strips(side) for side in sides)
                if before == after:
                    after = phrase("{strips}, laid otherwise", strips=after)
                name = f"cloth {fabric}"
                yield self._change(About.CUTTING, False, what, (before, after), (name, name))

    def _bought(self, what: Text, was: Json | None, now: Json | None) -> Change | None:
        """That another amount of a cloth is bought; None where it is the same."""
        said = tuple(_NOTHING if side is None else self._buy(side["buy"]) for side in (was, now))
        if said[0] == said[1]:
            return None
        less = now is None or (was is not None and self._amount(now) <= self._amount(was))
        return self._change(About.CLOTH, not less, what, said)

    def _alternatives(self, kind: str) -> Iterator[Change]:
        """Colourways, layouts, or some combined, that came or went, and what is bought in those that stayed."""
        sides = tuple(self._others(side, kind) for side in (self.old, self.new))
        for name in {**sides[0], **sides[1]}:
            was, now = (side.get(name) for side in sides)
            title = (now or was or {}).get("title", name)
            if was is None or now is None:
                what = _ALTERNATIVES[kind](title)
                new = phrase("there", context="a size"), phrase("not there", context="a size")
                yield self._change(About.SIZE, False, what, new if was else reversed(new))
                continue
            yield from self._in_another(title, *(side["sizes"][self.size] for side in (was, now)))

    def _in_another(self, title: str, was: Json, now: Json) -> Iterator[Change]:
        """What another colourway or layout has of its own: its measure, blocks, cloth and cuts. Where both figures
        are those of the pattern itself they are told there (finishing, too); facts of an earlier make tell only what is bought."""
        own = self.was["quilt"], self.now["quilt"]
        sizes = [side.get("finished_in") for side in (was, now)]
        if None not in sizes and _differ(*sizes) and sizes != [s.get("finished_in") for s in own]:
            what = _in(phrase("the finished quilt"), title)
            yield self._change(About.QUILT, True, what, map(self._pair, sizes))
        blocks = [side.get("blocks") for side in (was, now)]
        if None not in blocks and blocks != [side["blocks"] for side in own]:
            yield from self._counts(was, now, title)
        for fabric in {**was["cutting"], **now["cutting"]}:
            what = _in(phrase("cloth to buy: {fabric}", fabric=self._fabric(fabric)), title)
            if bought := self._bought(what, *(s["cutting"].get(fabric) for s in (was, now))):
                yield bought
        if "rotary" in was and "rotary" in now:
            yield from self._cutting(was, now, title)

    def _others(self, side: PatternState, kind: str) -> dict[str, Json]:
        """The colourways, or layouts, of a side by name, but for the pattern as it is; those that have this size."""
        return {
            one["name"]: one
            for one in side.facts.get(kind, ())
            if not one["own"] and self.size in one["sizes"]
        }

    def _buy(self, buy: Json) -> Text:
        """What is bought, as the list of materials says it."""
        if "pieces" in buy:
            return plural_phrase("{n} piece", "{n} pieces", buy["pieces"])
        if self.units == "inch":
            return phrase("{figure} yd", figure=Digits(buy["yards"]))
        return phrase("{figure} m", figure=Digits(f"{buy['metres']:g}"))

    def _amount(self, cloth: Json) -> float:
        """How much of a cloth is bought, in the units in which it is said: 0.3 m and 0.4 m are both 3/8 yd."""
        length = "yards_decimal" if self.units == "inch" else "metres"
        return float(cloth["buy"].get("pieces", cloth["buy"][length]))

    def _as_cut(self, fabric: str) -> bool:
        """Whether just the same is cut of a cloth."""
        rows = (
            Counter(_figures(row) for row in side["rotary"] if row["fabric"] == fabric)
            for side in (self.was, self.now)
        )
        return next(rows) == next(rows)

    def _cutting(self, was: Json, now: Json, title: str = "") -> Iterator[Change]:
        """What is cut, patch by patch and cloth by cloth: in the pattern itself, or in a colourway or layout of a
        title, but for what is cut there as in the pattern itself on both sides."""
        sides, own = (_by_patch(*of, bool(title)) for of in ((was, now), (self.was, self.now)))
        for name, fabric in {**sides[0], **sides[1]}:
            rows, told = ([side.get((name, fabric), []) for side in of] for of in (sides, own))
            figures = [Counter(map(_figures, side)) for side in rows]
            if figures[0] == figures[1]:
                continue
            if title and figures == [Counter(map(_figures, side)) for side in told]:
                continue
            what = phrase("{part} of {fabric}", part=self._part(name), fabric=self._fabric(fabric))
            alike = {f[:1] for f in figures[0]} == {f[:1] for f in figures[1]}
            fewer = alike and sum(r["cuts"] for r in rows[1]) <= sum(r["cuts"] for r in rows[0])
            pictures = (f"cloth {fabric}" if side and not title else "" for side in rows)
            said = (self._cuts(side) for side in rows)
            yield self._change(About.CUTTING, not fewer, _in(what, title), said, pictures)

    def _cuts(self, rows: Sequence[Json]) -> Text:
        """What is cut for a patch: how many, and how large."""
        return _said(
            plural_phrase(
                "{n} cut of {size}",
                "{n} cuts of {size}",
                row["cuts"],
                size=self._pair(row["cut_in"], Printed.CUT),
            )
            for row in rows
        )

    def _blocks(self) -> Iterator[Change]:
        """Blocks that both have: their outlines, cloths, steps and pressing."""
        for id in self.was["blocks"].keys() & self.now["blocks"].keys():
            was, now = self.was["blocks"][id], self.now["blocks"][id]
            block = self._block(id)
            name = f"block {id}"
            if _differ(was["finished_in"], now["finished_in"]):
                what = phrase("{block}, finished", block=block)
                sizes = (self._pair(side["finished_in"]) for side in (was, now))
                yield self._change(About.BLOCK, True, what, sizes, (name, name))
            elif moved := _moved(was, now):
                what = phrase("the patches of {block}", block=block)
                count = plural_phrase("{n} has another outline", "{n} have another outline", moved)
                yield self._change(
                    About.BLOCK, True, what, (count, phrase("as drawn")), (name, name)
                )
            yield from self._cloths_of(id, was, now)
            yield from self._steps(id, was, now)
            yield from self._laid(id, was, now)
            turned = _pressed(was) - _pressed(now)
            if turned and _seams(was) == _seams(now):
                what = phrase("the pressing of {block}", block=block)
                count = plural_phrase(
                    "{n} seam the other way", "{n} seams another way", turned.total()
                )
                press = f"press {id}"
                yield self._change(About.PRESSING, False, what, (count, phrase("as drawn")), (press, press))  # fmt: skip

    def _cloths_of(self, id: str, was: Json, now: Json) -> Iterator[Change]:
        """Pieces of a block that are of another cloth."""
        cloths = {p["id"]: p["fabric"] for p in _laid(was)}
        other = Counter(
            (cloths[p["id"]], p["fabric"])
            for p in _laid(now)
            if cloths.get(p["id"], p["fabric"]) != p["fabric"]
        )
        name = f"block {id}"
        for (before, after), count in other.items():
            what = plural_phrase(
                "{n} piece of {block}", "{n} pieces of {block}", count, block=self._block(id)
            )
            cloth = self.old.fabric(self.size, before), self.new.fabric(self.size, after)
            yield self._change(About.BLOCK, True, what, cloth, (name, name))

    def _steps(self, id: str, was: Json, now: Json) -> Iterator[Change]:
        """The order in which a block is sewn."""
        if [_step(s) for s in was["steps"]] == [_step(s) for s in now["steps"]]:
            return
        what = phrase("the order in which {block} is sewn", block=self._block(id))
        sums = (
            phrase(
                "{steps}, {turns}, {threads}",
                steps=plural_phrase("{n} step", "{n} steps", len(side["steps"])),
                turns=plural_phrase("{n} turn", "{n} turns", side["totals"]["turns"]),
                threads=plural_phrase(
                    "{n} thread by hand",
                    "{n} threads by hand",
                    side["totals"]["thread_starts"],
                ),
            )
            for side in (was, now)
        )
        at = next((n for n, (a, b) in enumerate(zip(was["steps"], now["steps"], strict=False)) if _step(a) != _step(b)), 0)  # fmt: skip
        cards = (_card(side, self.size, id, at) for side in (self.old, self.new))
        yield self._change(About.SEWING, False, what, sums, cards)

    def _laid(self, id: str, was: Json, now: Json) -> Iterator[Change]:
        """How the shapes laid on a block are sewn down, where the same are sewn otherwise."""
        sides = tuple({s["id"]: s["by"] for s in side.get("applied", ())} for side in (was, now))
        both = [shape for shape in sides[0] if shape in sides[1]]
        if all(sides[0][shape] == sides[1][shape] for shape in both):
            return
        what = phrase("how the shapes on {block} are sewn down", block=self._block(id))
        said = (_by([side[shape] for shape in both]) for side in sides)
        yield self._change(About.SEWING, False, what, said)

    def _finishing(self) -> Iterator[Change]:
        """Binding, back and batting; borders are parts of the quilt."""
        was, now = self.was["finishing"], self.now["finishing"]
        titles = {
            "binding": phrase("the binding"),
            "backing": phrase("the back"),
            "batting": phrase("the batting"),
        }
        for name, title in titles.items():
            rows = was.get(name), now.get(name)
            said = tuple(_NOTHING if row is None else self._edge(name, row) for row in rows)
            if said[0] == said[1]:
                continue
            less = rows[1] is None or (rows[0] is not None and _enough(name, *rows))
            yield self._change(About.FINISHING, not less, title, said)

    def _edge(self, name: str, row: Json) -> Text:
        """Binding, back or batting in figures."""
        if name == "binding":
            return plural_phrase(
                "{n} strip {width} wide, {fabric}",
                "{n} strips {width} wide, {fabric}",
                row["strips"],
                width=self._length(row["strip_in"], Printed.CUT),
                fabric=self._fabric(row["fabric"]),
            )
        size = self._pair(row["size_in"])
        if name == "batting":
            return size
        return phrase("{size}, {fabric}", size=size, fabric=self._fabric(row["fabric"]))

    def _time(self) -> Iterator[Change]:
        """About how long it all takes."""
        hours = tuple(
            sum(s["minutes"] * (s["last"] - s["first"] + 1) for s in side.get("sittings", ())) / 60
            for side in (self.was, self.now)
        )
        whole = tuple(map(round, hours))
        if abs(hours[1] - hours[0]) > LONGER * max(hours) and whole[0] != whole[1]:
            said = (phrase("about {hours} h", hours=each) for each in whole)
            yield self._change(About.TIME, False, phrase("the sewing takes"), said)

    def _length(self, inches: float, kind: Printed = Printed.FINISHED) -> Text:
        return with_unit(inches, self.units, kind)

    def _pair(self, sides: Sequence[float] | None, kind: Printed = Printed.FINISHED) -> Text:
        if not sides:
            return _NOTHING
        width, height = (printed(Length.of(x), self.units, kind) for x in sides)
        return by(Digits(width), in_units(height, self.units))

    def _fabric(self, id: str) -> str:
        return self.new.fabric(self.size, id) if id in self.now["cutting"] else self.old.fabric(self.size, id)  # fmt: skip

    def _part(self, name: str) -> Text:
        given = self.new.part(self.size, name)
        return given if given != name else self.old.part(self.size, name)

    def _block(self, id: str) -> str:
        return self.new.block(id) if id in self.now["blocks"] else self.old.block(id)


_NOTHING: Text = NONE
_ALTERNATIVES: dict[str, Callable[[str], Phrase]] = {
    "colourways": lambda title: phrase("the colorway {name}", name=title),
    "layouts": lambda title: phrase("the layout {name}", name=title),
    "combined": lambda title: phrase("the colorway and layout {name}", name=title),
}


def _for_one(fabric: Text) -> Phrase:
    return phrase("cloth for one student: {fabric}", fabric=fabric)


def _for_all(fabric: Text) -> Phrase:
    return phrase("cloth for all kits: {fabric}", fabric=fabric)


def _in(what: Text, title: str) -> Text:
    """What changed, and in which colourway or layout, where it is not the pattern itself."""
    return phrase("{what}, in {title}", what=what, title=title) if title else what


def _by_patch(was: Json, now: Json, edges: bool) -> tuple[dict[Any, list[Json]], ...]:
    """Rows of cutting of both sides by patch and cloth, with those of the binding and the back or without."""
    return tuple(
        _keyed([row for row in side["rotary"] if edges or not _is_edge(row)], "for", "fabric")
        for side in (was, now)
    )


def _by(ways: Sequence[str]) -> Text:
    """How many are sewn by machine and how many by hand."""
    machine, hand = ways.count("machine"), ways.count("hand")
    told = (
        *((phrase("{n} by machine", n=machine),) if machine else ()),
        *((phrase("{n} by hand", n=hand),) if hand else ()),
    )
    return listing(told)


def _count(n: int) -> Text:
    return plural_phrase("{n} block", "{n} blocks", n) if n else _NOTHING


def _said(words: Iterator[Text]) -> Text:
    listed = list(words)
    return listing(listed) if listed else _NOTHING


def _differ(was: Any, now: Any) -> bool:
    """Whether figures, or lists of figures, are not the same."""
    if isinstance(was, list) and isinstance(now, list):
        return len(was) != len(now) or any(map(_differ, was, now))
    if isinstance(was, int | float) and isinstance(now, int | float):
        return abs(was - now) > SAME_LENGTH
    return bool(was != now)


def _keyed(rows: Sequence[Json], *keys: str) -> dict[Any, list[Json]]:
    """Rows by one of their keys, or by several."""
    found: dict[Any, list[Json]] = {}
    for row in rows:
        found.setdefault(row[keys[0]] if len(keys) == 1 else tuple(row[k] for k in keys), []).append(row)  # fmt: skip
    return found


def _places(quilt: Json) -> Counter[tuple[Any, ...]]:
    """Which block lies where and how turned: in rows and columns, or in inches where there are none."""
    return Counter(
        (p["block"], p.get("turn", 0), *(p.get(k) for k in ("column", "row")))
        if "column" in p
        else (p["block"], p.get("turn", 0), *(round(x, 3) for x in p["at_in"]))
        for p in quilt.get("placed", ())
    )


def _is_edge(row: Json) -> bool:
    """Whether a row of cutting is of the binding or the back, which are told with the finishing."""
    return str(row["for"]).startswith(("binding", "backing"))


def _figures(row: Json) -> tuple[Any, ...]:
    """What is cut by a row: how large, and of which outline; how many."""
    outline = tuple(round(x, 3) for point in row.get("outline_in", ()) for x in point)
    return (tuple(round(x, 4) for x in row["cut_in"]), outline), row["cuts"]


def _layout(cloth: Json) -> list[Any]:
    return [
        (strip["cut_in"], strip["count"], [(u["for"], u["pieces"]) for u in strip["use"]])
        for strip in cloth["strips"]
    ]


def _strips(cloth: Json | None) -> Text:
    count = sum(strip["count"] for strip in (cloth or {"strips": ()})["strips"])
    return plural_phrase("{n} strip", "{n} strips", count)


def _enough(name: str, was: Json, now: Json) -> bool:
    """Whether what the earlier booklet says of an edge is enough for the later one."""
    if name == "binding":
        same = was["strip_in"] == now["strip_in"] and was["fabric"] == now["fabric"]
        return bool(same and was["strips"] >= now["strips"])
    same = was.get("fabric") == now.get("fabric")
    return bool(same and all(a >= b - SAME_LENGTH for a, b in zip(was["size_in"], now["size_in"], strict=True)))  # fmt: skip


def _moved(was: Json, now: Json) -> int:
    """How many pieces have another outline, or are new or gone."""
    before, after = ({p["id"]: _drawn(p) for p in _laid(side)} for side in (was, now))
    ids = before.keys() | after.keys()
    return sum(_differ(before.get(id), after.get(id)) for id in ids)


def _laid(block: Json) -> list[Json]:
    """The pieces of a block, and the shapes laid on them."""
    return [*block["pieces"], *block.get("applied", ())]


def _drawn(piece: Json) -> Any:
    return piece.get("corners_in") or piece["outline_in"]


def _step(step: Json) -> tuple[Any, ...]:
    return step["make"], frozenset(step["join"]), step["by"], step["turns"]


def _seams(block: Json) -> Counter[frozenset[str]]:
    return Counter(frozenset(seam["between"]) for seam in block["seams"])


def _pressed(block: Json) -> Counter[tuple[frozenset[str], str]]:
    return Counter((frozenset(seam["between"]), seam["press"]) for seam in block["seams"])


def _card(side: PatternState, size: str, block: str, at: int) -> str:
    """The name of the picture of the card on which a step stands, counted from 0."""
    for planned in side.plan.sizes if side.plan else ():
        for made in planned.blocks if planned.size.id == size else ():
            for card in made.cards if made.block.id == block else ():
                if any(step.n == at + 1 for step in card.steps):
                    return f"step {block} {card.n}"
    return ""
