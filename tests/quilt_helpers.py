"""Hand-built records for the tests of the quilt floor: square blocks, fabrics, sizes, patterns."""

from __future__ import annotations

from fractions import Fraction
from types import MappingProxyType

from booklet.geometry.tiling import Outline, Side, Tiling
from booklet.kit.diagnostic import Span
from booklet.kit.measure import Length
from booklet.kit.outlines.plane import Point
from booklet.pattern import (
    Backing,
    Batting,
    Binding,
    Block,
    Booklet,
    Border,
    By,
    Corners,
    Ends,
    Fabric,
    Paper,
    Pattern,
    PressHabit,
    Quilt,
    Sashing,
    SetKind,
    Setting,
    Sewing,
    Size,
    Sold,
)
from booklet.pressing.pressing import PressedPattern

AT = Span("pattern.yaml", 1, 1, 2)
INK = "ink"


def inches(text: str | float | int | Fraction) -> Length:
    return Length.of(text)


def line(number: int) -> Span:
    return Span("pattern.yaml", number, 1, 2)


def fabric(name: str = INK, width: str = "40") -> Fabric:
    return Fabric(
        id=name,
        name=name,
        colour="#243b6b",
        width=inches(width),
        sold=Sold(inches("4 1/2"), False),
        span=AT,
    )


def outline(points: tuple[Point, ...]) -> Outline:
    ends = (*points[1:], points[0])
    return Outline(tuple(Side(a, b) for a, b in zip(points, ends, strict=True)))


def shape_tiling(block: str, points: tuple[Point, ...], area: float, size: str = "lap") -> Tiling:
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    width, height = max(xs) - min(xs), max(ys) - min(ys)
    return Tiling(
        block=block,
        size=size,
        outline=outline(points),
        pieces=(),
        patches=(),
        seams=(),
        junctions=(),
        width=width,
        height=height,
        area=area,
    )


def tiling(
    block: str, width: float, height: float, at: Point = (0, 0), size: str = "lap"
) -> Tiling:
    x, y = at
    points = ((x, y), (x + width, y), (x + width, y + height), (x, y + height))
    return shape_tiling(block, points, width * height, size)


def block(name: str) -> Block:
    return Block(
        id=name,
        title=name,
        pieces=(),
        outline=None,
        steps=None,
        span=AT,
        outline_span=AT,
        sew_span=AT,
    )


def setting(name: str, turn: int = 0, at: int = 1) -> Setting:
    return Setting(name, turn, line(at))


def quilt(*rows: tuple[Setting, ...], set: SetKind = SetKind.STRAIGHT, **more: object) -> Quilt:
    return Quilt(set=set, arrange=rows, span=AT, **more)  # type: ignore[arg-type]


def size(across: int, down: int, of: Quilt | None, name: str = "lap", width: str = "40") -> Size:
    rules = Sewing(
        machine_from=inches(1),
        set_in_by=By.HAND,
        ends=Ends.AUTO,
        thread=inches(18),
        press=PressHabit.AUTO,
        span=AT,
    )
    cloths = MappingProxyType({name: fabric(name, width) for name in (INK, "sand", "back")})
    count = across * down
    return Size(
        id=name,
        title=name,
        unit=inches(1),
        across=across,
        down=down,
        count=count,
        fabrics=cloths,
        sewing=rules,
        quilt=of,
        span=AT,
        blocks_span=AT,
    )


def pressed(tilings: tuple[Tiling, ...], *sizes: Size, units: str = "inch") -> PressedPattern:
    names = sorted({t.block for t in tilings})
    pattern = Pattern(
        title="Quay",
        designer="",
        version="1",
        date=None,
        language="en",
        units=units,  # type: ignore[arg-type]
        allowance=inches("1/4"),
        summary="",
        sizes=sizes,
        shapes=(),
        blocks=tuple(block(name) for name in names),
        booklet=Booklet(paper=Paper.LETTER, editions=(), span=AT),
        span=AT,
    )
    return PressedPattern(pattern, {(t.size, t.block): t for t in tilings}, {}, {})


def border(
    width: str,
    corners: Corners = Corners.BUTTED,
    square: str | None = None,
    ends: str | None = None,
) -> Border:
    """A border `width` wide on all sides, or at its sides only where `ends` says how wide top and bottom are."""
    return Border(
        sides=inches(width),
        ends=inches(width if ends is None else ends),
        fabric=INK,
        corners=corners,
        square_fabric=square,
        span=AT,
    )


def sashing(width: str, stones: str | None = None, outside: bool = False) -> Sashing:
    return Sashing(
        width=inches(width), fabric="sand", cornerstones=stones, outside=outside, span=AT
    )


def binding(width: str = "2 1/2", bias: bool = False) -> Binding:
    return Binding(width=inches(width), fabric=INK, bias=bias, span=AT)


def backing(extra: str = "4") -> Backing:
    return Backing(inches(extra), "back", line(2))


def batting(extra: str = "4") -> Batting:
    return Batting(inches(extra), AT)
