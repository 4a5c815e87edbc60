"""Builds Pattern records by hand for tests of floors above the source.

`pattern_of(pieces=[piece("a", "square", side=1, at=(0.5, 0.5)), …], size=(2, 1))` is one block `b` in one size
`s` with a unit of 1 in. Bare numbers are design units, as in the source; text such as "1/4 in" works too.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from types import MappingProxyType

from booklet.crafts.forms import FORMS
from booklet.crafts.method import SHARED, Method
from booklet.crafts.rotary.laid_on import BIAS, FUSED, TURNED
from booklet.kit.diagnostic import Span
from booklet.kit.measure import Extent, Length, read_extent
from booklet.kit.outlines.path_data import commands
from booklet.kit.words import US, words_of
from booklet.pattern import (
    Anchor,
    At,
    Beside,
    Block,
    Booklet,
    By,
    DeclaredStep,
    Ends,
    Fabric,
    Grain,
    Paper,
    Pattern,
    Piece,
    PressHabit,
    Quilt,
    Ring,
    Sewing,
    Shape,
    ShortSeams,
    Size,
    Sold,
)

METHODS: Mapping[str, Method] = {
    method.word: method
    for method in (*(form.method for form in FORMS.values()), *SHARED, TURNED, FUSED, BIAS)
    if method is not None
}
"""Every way of cutting, by its word in facts."""

ENGLISH = words_of(US)

FILE = "pattern.yaml"
Figure = float | int | str
COLOURS = {"ink": "#243b6b", "sand": "#e9dcc3", "red": "#a33030", "white": "#ffffff"}


def span(line: int = 1, column: int = 1, end: int = 2) -> Span:
    """A place in pattern.yaml."""
    return Span(FILE, line, column, end)


def extent(value: Figure) -> Extent:
    """A number of units, or a length with its unit."""
    if isinstance(value, float):  # not through text: keeps every digit
        return Extent(value, in_units=True)
    return read_extent(value, "u")


def extent_point(point: Sequence[Figure]) -> tuple[Extent, Extent]:
    """A position in units."""
    return (extent(point[0]), extent(point[1]))


def shape(
    kind: str,
    *,
    id: str = "",
    corners: Sequence[Sequence[Figure]] = (),
    outline: str | None = None,
    angle: float | None = None,
    sides: int | None = None,
    grain: Grain | None = None,
    motif: bool = False,
    anchor: Anchor | None = None,
    line: int = 1,
    **extents: Figure,
) -> Shape:
    """A shape: shape("kite", length=2, width=1, cross=0.5)."""
    numbers = {k: v for k, v in (("angle", angle), ("sides", sides)) if v is not None}
    return Shape(
        id=id,
        form=FORMS[kind],
        span=span(line),
        extents=MappingProxyType({name: extent(value) for name, value in extents.items()}),
        numbers=MappingProxyType(numbers),
        corners=tuple(extent_point(corner) for corner in corners),
        outline=None if outline is None else tuple(commands(outline)),
        grain=grain,
        motif=motif,
        anchor=anchor,
    )


_line = [100]


def piece(
    id: str,
    of: str | Shape = "polygon",
    *,
    fabric: str | Sequence[str] = "ink",
    at: Sequence[Figure] | None = None,
    turn: float = 0.0,
    flip: bool = False,
    ring: tuple[Sequence[Figure], int] | None = None,
    beside: tuple[str, int, int] | None = None,
    line: int | None = None,
    **keys: object,
) -> Piece:
    """A piece: `of` is a Shape or the word for one, whose keys follow. beside=(piece, side, own)."""
    if line is None:
        _line[0] = line = _line[0] + 1
    place = span(line, 9, 14)
    made = of if isinstance(of, Shape) else shape(of, line=line, **keys)  # type: ignore[arg-type]
    placed: At | Beside | None = None
    if at is not None:
        placed = At(extent_point(at), place)
    elif beside is not None:
        placed = Beside(beside[0], beside[1], beside[2], place)
    return Piece(
        id=id,
        fabrics=(fabric,) if isinstance(fabric, str) else tuple(fabric),
        shape=made,
        placed=placed,
        span=span(line, 9, 60),
        id_span=place,
        turn=turn,
        flip=flip,
        ring=Ring(extent_point(ring[0]), ring[1], place) if ring else None,
    )


def block_of(
    pieces: Sequence[Piece],
    *,
    id: str = "b",
    size: tuple[Figure, Figure] | None = None,
    outline: Sequence[Sequence[Figure]] | None = None,
    steps: Sequence[DeclaredStep] | None = None,
    line: int = 10,
) -> Block:
    """A block; `size` (width, height) or `outline`, or neither: whatever the pieces cover."""
    if size is not None:
        w, h = size
        outline = [(0, 0), (w, 0), (w, h), (0, h)]
    return Block(
        id=id,
        title=f"Block {id}",
        pieces=tuple(pieces),
        outline=None if outline is None else tuple(extent_point(p) for p in outline),
        steps=None if steps is None else tuple(steps),
        span=span(line, 3, 8),
        outline_span=span(line + 1, 11, 16),
        sew_span=span(line + 2, 5, 8),
    )


def fabrics_of(ids: Sequence[str] = tuple(COLOURS)) -> dict[str, Fabric]:
    """Plain fabrics by id."""
    return {
        id: Fabric(
            id=id,
            name=id.capitalize(),
            colour=COLOURS.get(id, "#888888"),
            width=Length.of(40),
            sold=Sold(Length.of("4 1/2 in"), metric=False),  # 1/8 yd
            span=span(5),
        )
        for id in ids
    }


def sewing_of(
    *,
    machine_from: str = "1 in",
    set_in_by: By = By.HAND,
    press: PressHabit = PressHabit.AUTO,
    short: ShortSeams = ShortSeams.ANY,
) -> Sewing:
    """Sewing rules with the format's defaults, `machine from` as if it were written."""
    return Sewing(
        machine_from=Length.of(machine_from),
        set_in_by=set_in_by,
        ends=Ends.AUTO,
        thread=Length.of("18 in"),
        press=press,
        span=span(6),
        short=short,
    )


def size_of(
    unit: str = "1 in",
    *,
    id: str = "s",
    across: int = 1,
    down: int = 1,
    count: int | None = None,
    quilt: Quilt | None = None,
    fabrics: Mapping[str, Fabric] | None = None,
    sewing: Sewing | None = None,
) -> Size:
    """A size with plain fabrics."""
    return Size(
        id=id,
        title=id.capitalize(),
        unit=Length.of(unit),
        across=across,
        down=down,
        count=across * down if count is None else count,
        fabrics=MappingProxyType(dict(fabrics or fabrics_of())),
        sewing=sewing or sewing_of(),
        quilt=quilt,
        span=span(3),
        blocks_span=span(3, 5, 9),
    )


def pattern_of(
    *,
    pieces: Sequence[Piece] = (),
    size: tuple[Figure, Figure] | None = None,
    outline: Sequence[Sequence[Figure]] | None = None,
    steps: Sequence[DeclaredStep] | None = None,
    unit: str = "1 in",
    blocks: Sequence[Block] | None = None,
    sizes: Sequence[Size] | None = None,
    quilt: Quilt | None = None,
    units: str = "inch",
    allowance: str = "1/4 in",
) -> Pattern:
    """A pattern of one block from `pieces` (or of `blocks`), in one size (or in `sizes`)."""
    if blocks is None:
        blocks = [block_of(pieces, size=size, outline=outline, steps=steps)]
    return Pattern(
        title="Test pattern",
        designer="Example Studio",
        version="1.0",
        date=date(2026, 11, 25),
        language="en",
        units="cm" if units == "cm" else "inch",
        allowance=Length.of(allowance),
        summary="",
        sizes=tuple(sizes or (size_of(unit, quilt=quilt),)),
        shapes=(),
        blocks=tuple(blocks),
        booklet=Booklet(paper=Paper.LETTER, editions=(), span=span(8)),
        span=Span.whole(FILE),
    )
