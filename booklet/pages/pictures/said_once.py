"""Floor 11, said once: in a picture of a quilt the block is said once, and then only where it lies again.

Pictures are rounded to 1/100 mm, so that the same block lies a hair otherwise from place to place; what is within
`NEAR` of its place is the same. Pictures true to size are not looked at.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Callable, Iterator, Sequence
from functools import lru_cache

from booklet.kit.records import Mutable, Record

NEAR = 2  # 1/100 mm
LEAST = 4  # places for which it pays
_RUN = re.compile(r"(?:<path\b[^>]*/>)+")
_PATH = re.compile(r"<path\b[^>]*/>")
_DATA = re.compile(r"\sd=\"([^\"]*)\"")
_OUTLINE = re.compile(r"M[^MZ]*Z")
_NUMBER = re.compile(r"-?\d+(?:\.\d+)?")

Point = tuple[int, int]  # in 1/100 mm


class RepeatedOutline(Record):
    """One closed outline: its first corner, and the way from it to the others."""

    at: Point
    way: tuple[Point, ...]
    said: str


class Path(Mutable):
    """One path: its text about the outlines, and what of them is not said yet; none of one that is not looked at."""

    before: str
    after: str
    kinds: list[list[RepeatedOutline]]

    def tag(self, outlines: Sequence[RepeatedOutline]) -> str:
        """The path with some of its outlines."""
        return self.before + "".join(outline.said for outline in outlines) + self.after


def repeated(picture: str, kept: Callable[[str], str]) -> str:
    """The picture with its repeats said once; `kept` takes what is said and gives it a name."""
    return _RUN.sub(lambda run: "".join(_said_once(_PATH.findall(run.group()), kept)), picture)


def _said_once(tags: Sequence[str], kept: Callable[[str], str]) -> Iterator[str]:
    """Paths that follow each other: of each first what lies singly, then what repeats, together with that of the
    paths after it as long as nothing lies singly between."""
    paths = [_path(tag) for tag in tags]
    rounds = list(_rounds([path for path in paths if path is not None]))
    group: list[str] = []
    places: tuple[Point, ...] = ()
    for tag, path in zip(tags, paths, strict=True):
        repeats = [] if path is None else [r for r in rounds if id(path) in r.base]
        rest = [] if path is None else [o for kind in path.kinds for o in kind]
        if group and (not repeats or rest or repeats[0].places != places):
            yield _laid("".join(group), places, kept)
            group = []
        if path is None or not repeats:
            yield tag
            continue
        if rest:
            yield path.tag(rest)
        for repeat in repeats:
            if group and repeat.places != places:
                yield _laid("".join(group), places, kept)
                group = []
            places = repeat.places
            group.append(path.tag(repeat.base[id(path)]))
    if group:
        yield _laid("".join(group), places, kept)


class Round(Record):
    """Places at which outlines of several paths lie again, and those outlines by path; the first place is (0, 0)."""

    places: tuple[Point, ...]
    base: dict[int, list[RepeatedOutline]]


def _rounds(paths: Sequence[Path]) -> Iterator[Round]:
    """The repeats that say most, one after the other; what they say is taken out of the paths."""
    for _ in range(_ROUNDS):
        best: tuple[int, Round, list[tuple[Path, list[RepeatedOutline]]]] | None = None
        for places in _candidates(paths):
            saved, base, gone = 0, {}, []
            for path in paths:
                taken = [(kind, _taken(kind, places)) for kind in path.kinds]
                whole = [(kind, found) for kind, found in taken if found]
                base[id(path)] = [outline for _, found in whole for outline in found]
                gone += [(path, kind) for kind, _ in whole]
                saved += sum(len(kind) - len(found) for kind, found in whole) * _OUTLINE_SIGNS
            saved -= len(places) * _USE_SIGNS
            if saved > 0 and (best is None or saved > best[0]):
                best = saved, Round(places, {k: v for k, v in base.items() if v}), gone
        if best is None:
            return
        for path, kind in best[2]:
            path.kinds.remove(kind)
        yield best[1]


_ROUNDS = 4
_OUTLINE_SIGNS, _USE_SIGNS = 22, 34  # about as many as each takes


def _candidates(paths: Sequence[Path]) -> Iterator[tuple[Point, ...]]:
    """Places at which a whole kind of outlines lies: of each number of outlines one kind."""
    seen = set()
    for path in paths:
        for kind in path.kinds:
            if len(kind) < LEAST or len(kind) in seen:
                continue
            seen.add(len(kind))
            first = min(outline.at for outline in kind)
            yield tuple(sorted((o.at[0] - first[0], o.at[1] - first[1]) for o in kind))


def _laid(block: str, places: Sequence[Point], kept: Callable[[str], str]) -> str:
    """A block at all its places."""
    name = kept(block)
    return "".join(
        f'<use href="#{name}"'
        + "".join(f' {key}="{v / 100:g}"' for key, v in zip("xy", place, strict=True) if v)
        + "/>"
        for place in places
    )


def _near(one: Point, other: Point) -> bool:
    return abs(one[0] - other[0]) <= NEAR and abs(one[1] - other[1]) <= NEAR


def _path(tag: str) -> Path | None:
    """A path whose outlines may repeat, or None for any other."""
    data = _DATA.search(tag)
    if data is None or len(data[1]) < 100:
        return None
    said = _OUTLINE.findall(data[1])
    if "".join(said) != data[1] or len(said) < LEAST:
        return None
    start, end = data.span(1)
    return Path(tag[:start], tag[end:], _kinds([_outline(each) for each in said]))


def _outline(said: str) -> RepeatedOutline:
    numbers = [_hundredths(n) for n in _NUMBER.findall(said)]
    points = list(zip(numbers[::2], numbers[1::2], strict=True))
    x, y = points[0]
    return RepeatedOutline((x, y), tuple((a - x, b - y) for a, b in points[1:]), said)


@lru_cache(maxsize=1 << 15)
def _hundredths(number: str) -> int:
    """A number of a path in 1/100 mm; most stand in many outlines."""
    return round(float(number) * 100)


def _kinds(outlines: Sequence[RepeatedOutline]) -> list[list[RepeatedOutline]]:
    """The outlines by their ways, those that are nearly the same together."""
    kinds: list[list[RepeatedOutline]] = []
    known: dict[tuple[Point, ...], list[RepeatedOutline]] = {}
    for outline in outlines:
        kind = known.get(outline.way)
        if kind is None:
            kind = next((k for k in kinds if _alike(k[0].way, outline.way)), None)
            if kind is None:
                kinds.append(kind := [])
            known[outline.way] = kind
        kind.append(outline)
    return kinds


def _alike(one: tuple[Point, ...], other: tuple[Point, ...]) -> bool:
    return len(one) == len(other) and all(map(_near, one, other))


def _taken(
    kind: Sequence[RepeatedOutline], places: Sequence[Point]
) -> list[RepeatedOutline] | None:
    """The outlines of a kind that, laid at all places, give all of the kind; None if none do."""
    if len(kind) % len(places):
        return None
    cells: dict[Point, list[RepeatedOutline]] = defaultdict(list)
    for outline in kind:
        cells[outline.at[0] // 10, outline.at[1] // 10].append(outline)
    gone: set[int] = set()
    base = []
    for outline in sorted(kind, key=lambda o: o.at):
        if id(outline) in gone:
            continue
        for place in places:
            spot = (outline.at[0] + place[0], outline.at[1] + place[1])
            lies = next((o for o in _about(cells, spot) if id(o) not in gone), None)
            if lies is None:
                return None
            gone.add(id(lies))
        base.append(outline)
    return base


def _about(cells: dict[Point, list[RepeatedOutline]], spot: Point) -> Iterator[RepeatedOutline]:
    """The outlines that begin near a spot."""
    x, y = spot[0] // 10, spot[1] // 10
    for across in (x - 1, x, x + 1):
        for down in (y - 1, y, y + 1):
            for outline in cells.get((across, down), ()):
                if abs(outline.at[0] - spot[0]) <= NEAR and abs(outline.at[1] - spot[1]) <= NEAR:
                    yield outline
