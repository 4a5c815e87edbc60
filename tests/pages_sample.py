"""A small plan made by hand for the tests of the pages: two squares joined by one seam."""

from collections.abc import Mapping
from datetime import date
from fractions import Fraction
from types import MappingProxyType

from builders import METHODS
from held_figures import Album

from booklet.crafts.forms import FORMS
from booklet.crafts.rotary.sums import SumLine
from booklet.cutting.cutting_plan import (
    Buy,
    CutPatch,
    CuttingPlan,
    FabricPlan,
    Placed,
    Strip,
    StripUse,
)
from booklet.drawing.scene import Figure
from booklet.geometry.tiling import Outline, Patch, PlacedPiece, Seam, Side, Tiling
from booklet.kit.diagnostic import Span
from booklet.kit.measure import Extent, Length
from booklet.kit.outlines.plane import rectangle
from booklet.kit.records import replace
from booklet.pages.pictures.figures import Room
from booklet.pattern import (
    Backing,
    Batting,
    Binding,
    Block,
    Booklet,
    Border,
    By,
    Corners,
    Edition,
    Ends,
    Fabric,
    Page,
    Paper,
    Pattern,
    Piece,
    PressHabit,
    Quilt,
    SetKind,
    Setting,
    Sewing,
    Shape,
    Size,
    Sold,
)
from booklet.plan import BlockPlan, Plan, SizePlan, StepCard
from booklet.plan.records import FabricSummary
from booklet.pressing.pressing import Pressed, Pressing, Reason
from booklet.quilt.sized import BackingPlan, BindingPlan, BorderPlan, PlacedBlock, SizedQuilt
from booklet.sewing.assembly import Assembly, Batch, End as SeamEnd, Run, SewnSeam, Step, StepKind

S = Span("pattern.yaml", 1, 1, 2)
DEFAULT_PAGES = (
    "cover", "text/welcome.md", "materials", "cutting", "templates", "piecing", "pressing", "quilt",
    "finishing", "colouring",
)  # fmt: skip
HANDOUT_PAGES = ("supplies", "cutting", "practice", "piecing", "pressing")
WELCOME = """# Before the tide

A quilt of {{ size.blocks }} blocks, **{{ size.finished }}** when done.

{{ figure.quilt }}
"""


def length(text: str) -> Length:
    return Length.of(text)


def edition(id: str, pages: tuple[str, ...], sizes: tuple[str, ...] = ()) -> Edition:
    return Edition(id=id, pages=tuple(Page(name, S) for name in pages), sizes=sizes, span=S)


PATTERN_EDITION = edition("pattern", DEFAULT_PAGES)
HANDOUT = edition("handout", HANDOUT_PAGES, ("lap",))


def fabric(id: str, name: str, colour: str) -> Fabric:
    return Fabric(
        id=id,
        name=name,
        colour=colour,
        width=length("40 in"),
        sold=Sold(length("4 1/2 in"), metric=False),
        span=S,
    )


FABRICS: Mapping[str, Fabric] = MappingProxyType(
    {"ink": fabric("ink", "Dark blue", "#243b6b"), "sand": fabric("sand", "Sand", "#e9dcc3")}
)
SEWING = Sewing(
    machine_from=length("1 in"),
    set_in_by=By.HAND,
    ends=Ends.AUTO,
    thread=length("18 in"),
    press=PressHabit.AUTO,
    span=S,
)


def quilt() -> Quilt:
    return Quilt(
        set=SetKind.STRAIGHT,
        arrange=((Setting("pair", 0, S), Setting("pair", 90, S)),),
        span=S,
        borders=(
            Border(
                sides=length("3 in"),
                ends=length("3 in"),
                fabric="ink",
                corners=Corners.BUTTED,
                square_fabric=None,
                span=S,
            ),
        ),
        binding=Binding(width=length("2 1/2 in"), fabric="ink", bias=False, span=S),
        backing=Backing(length("4 in"), "sand", S),
        batting=Batting(length("4 in"), S),
    )


def size(id: str, title: str, across: int, down: int) -> Size:
    return Size(
        id=id,
        title=title,
        unit=length("1 in"),
        across=across,
        down=down,
        count=across * down,
        fabrics=FABRICS,
        sewing=SEWING,
        quilt=quilt(),
        span=S,
        blocks_span=S,
    )


def pattern(
    texts: Mapping[str, str] | None = None, pictures: Mapping[str, bytes] | None = None
) -> Pattern:
    shape = Shape(
        id="square",
        form=FORMS["square"],
        span=S,
        extents=MappingProxyType({"side": Extent(Fraction(2), True)}),
    )
    pieces = tuple(
        Piece(id=id, fabrics=("ink",), shape=shape, placed=None, span=S, id_span=S)
        for id in ("a", "b")
    )
    block = Block(
        id="pair",
        title="Harbour pair",
        pieces=pieces,
        outline=None,
        steps=None,
        span=S,
        outline_span=S,
        sew_span=S,
    )
    return Pattern(
        title="Harbour Lanterns",
        designer="Example Studio",
        version="1.0",
        date=date(2026, 11, 25),
        language="en",
        units="inch",
        allowance=length("1/4 in"),
        summary="Lamps along a quay, two squares at a time.",
        sizes=(size("cushion", "Cushion", 2, 2), size("lap", "Lap quilt", 4, 6)),
        shapes=(shape,),
        blocks=(block,),
        booklet=Booklet(paper=Paper.LETTER, editions=(PATTERN_EDITION, HANDOUT), span=S),
        span=S,
        texts=MappingProxyType(dict({"text/welcome.md": WELCOME} if texts is None else texts)),
        pictures=MappingProxyType(dict(pictures or {})),
    )


def square(x: float) -> Outline:
    corners = [(x, 0.0), (x + 2, 0.0), (x + 2, 2.0), (x, 2.0)]
    return Outline(
        tuple(Side(a, b) for a, b in zip(corners, corners[1:] + corners[:1], strict=True))
    )


def tiling(size_id: str) -> Tiling:
    patch = Patch(
        letter="A",
        form=FORMS["square"],
        outline=square(0.0),
        area=4.0,
        grain=0.0,
        motif=False,
        name="square",
        pieces=("a", "b"),
        reversed_too=False,
    )
    pieces = tuple(
        PlacedPiece(
            id=id,
            fabric=cloth,
            patch="A",
            reversed=False,
            turn=0.0,
            outline=square(x),
            grain=0.0,
            motif=False,
            span=S,
        )
        for id, cloth, x in (("a", "ink", 0.0), ("b", "sand", 2.0))
    )
    seam = Seam(id="s1", between=("a", "b"), path=((2.0, 2.0), (2.0, 0.0)), length=2.0)
    rim = (Side((0.0, 0.0), (4.0, 0.0)), Side((4.0, 0.0), (4.0, 2.0)), Side((4.0, 2.0), (0.0, 2.0)))
    outline = Outline((*rim, Side((0.0, 2.0), (0.0, 0.0))))
    return Tiling(
        block="pair",
        size=size_id,
        outline=outline,
        pieces=pieces,
        patches=(patch,),
        seams=(seam,),
        junctions=(),
        width=4.0,
        height=2.0,
        area=8.0,
    )


def block_plan(pattern: Pattern, size_id: str, count: int) -> BlockPlan:
    laid = tiling(size_id)
    run = Run(
        seams=("s1",),
        points=((2.0, 2.0), (2.0, 0.0)),
        turns=(),
        by=By.MACHINE,
        sides=(("a",), ("b",)),
    )
    step = Step(
        n=1, make="pair", join=("a", "b"), by=By.MACHINE, kind=StepKind.STRAIGHT, turns=0, runs=(run,), pieces=("a", "b"), times=1, batch=1, level=1, card=1,
        rectangle=(4.0, 2.0), press=None, note=None, leave=None, finish=False, span=S,
    )  # fmt: skip
    sewn = {"s1": SewnSeam("s1", 1, By.MACHINE, (SeamEnd.EDGE, SeamEnd.EDGE))}
    assembly = Assembly(
        tiling=laid, steps=(step,), sewn=MappingProxyType(sewn), threads=(), batches=(Batch(1, (1,), 2.5),),
        units=MappingProxyType({"pair": ("a", "b"), "a": ("a",), "b": ("b",)}),
    )  # fmt: skip
    pressing = Pressing(
        assembly=assembly,
        pressed=MappingProxyType({"s1": Pressed("s1", "a", Reason.DARK)}),
        junctions=(),
        after=MappingProxyType({"s1": 1}),
        at_end=False,
    )
    card = StepCard(
        n=1, step=step, steps=(step,), title="Sew A to A", sentences=("By machine: sew from edge to edge.",), make=1,
        measure="2 1/2 in × 4 1/2 in", press=("Press toward A (dark blue).",), warnings=(), takes=("A", "A"), total=count, setting="2.5 mm",
    )  # fmt: skip
    return BlockPlan(
        block=pattern.blocks[0],
        tiling=laid,
        assembly=assembly,
        pressing=pressing,
        cards=(card, replace(card, n=2)),
        count=count,
        press_words=("Press toward dark.",),
        thread_words=(),
    )


def size_plan(pattern: Pattern, index: int) -> SizePlan:
    of = pattern.sizes[index]
    count = of.count
    width, height = length(f"{4 * of.across + 6} in"), length(f"{2 * of.down + 6} in")
    placed = tuple(
        PlacedBlock(
            block="pair",
            column=c,
            row=r,
            turn=0 if (c + r) % 2 == 0 else 180,
            origin=(4.0 * c, 2.0 * r),
        )
        for r in range(of.down)
        for c in range(of.across)
    )
    border = BorderPlan(
        number=1,
        sides=length("3 in"),
        ends=length("3 in"),
        fabric="ink",
        corners=Corners.BUTTED,
        lengths=(width, width, height, height),
        outside=(width, height),
    )
    sized = SizedQuilt(
        size=of, blocks=MappingProxyType({"pair": count}), finished=(width, height), placed=placed, parts=(), borders=(border,),
        binding=BindingPlan(strip=length("2 1/2 in"), length=length("250 in"), strips=7, fabric="ink", bias=False),
        backing=BackingPlan(size=(width, height), widths=2, seam="lengthwise", length=length("112 in"), fabric="sand"),
        batting=(width, height), joins_nest=True, seam_clashes=0,
    )  # fmt: skip
    return SizePlan(
        pattern=pattern, size=of, blocks=(block_plan(pattern, of.id, count),), quilt=sized, cutting=cutting(of.id, count),
        materials=(
            FabricSummary(FABRICS["ink"], (f"A square × {count}", "border 1 × 4"), "1 3/8 yd", "1.3 m"),
            FabricSummary(FABRICS["sand"], (f"A square × {count}", "backing"), "3 1/4 yd", "3 m"),
        ),
        letters=("A",),
    )  # fmt: skip


def cutting(size_id: str, count: int) -> CuttingPlan:
    side = length("2 1/2 in")
    patches, plans = [], []
    for id in ("ink", "sand"):
        patches.append(
            CutPatch(
                name="A",
                title="A square",
                fabric=id,
                method=METHODS["square"],
                cut=(side, side),
                exact=(2.5, 2.5),
                pieces=count,
                reversed=0,
                cuts=count,
                sum="2 + 1/4 + 1/4 = 2 1/2 in",
                angle=None,
                outline=None,
                grain=0.0,
                per_block=(("pair", 1),),
            )
        )
        starts = (0.0, 2.5, 5.0)
        layouts = tuple(
            tuple(
                Placed(
                    name="A",
                    outline=rectangle(2.5 * (n // 3), y, 2.5, 2.5),
                    method=METHODS["square"],
                )
                for n in range(k, count, 3)
            )
            for k, y in enumerate(starts)
        )
        strip = Strip(
            width=side, count=3, uses=(StripUse("A", count, count),), layouts=layouts, starts=starts
        )
        buy = Buy(yards=Fraction(11, 8), metres=Fraction(13, 10), yards_text="1 3/8")
        plans.append(
            FabricPlan(
                fabric=id,
                width=length("40 in"),
                strips=(strip,),
                length=length("48 in"),
                lower_bound=length("46 in"),
                area_used=100.0,
                buy=buy,
                sum=(
                    SumLine("3 strips of 2 1/2 in", " = ", "7 1/2 in"),
                    SumLine("straightening", " ", "1 in"),
                    SumLine("48 in", " = ", "1 3/8 yd", "sold"),
                ),
            )
        )
    return CuttingPlan(patches=tuple(patches), fabrics=tuple(plans))


def plan(
    texts: Mapping[str, str] | None = None, pictures: Mapping[str, bytes] | None = None
) -> Plan:
    made = pattern(texts, pictures)
    return Plan(pattern=made, sizes=tuple(size_plan(made, i) for i in range(len(made.sizes))))


def fake(name: str, width: float, height: float, true_size: bool = False) -> Figure:
    svg = (
        f'<svg id="{name}" width="{width}mm" height="{height}mm" viewBox="0 0 {width} {height}" '
        f'xmlns="http://www.w3.org/2000/svg" role="img" aria-labelledby="{name}-t"><title id="{name}-t">x</title>'
        f'<defs><pattern id="{name}-h1" width="2" height="2" patternUnits="userSpaceOnUse">'
        f'<path d="M0 1L2 1" stroke="#1d2a38" stroke-width="0.2"/></pattern></defs>'
        f'<path d="M1 1H{width - 1}V{height - 1}H1Z" fill="url(#{name}-h1)" stroke="#1d2a38" stroke-width="0.5"/></svg>'
    )
    return Figure(
        name=name,
        svg=svg,
        width_mm=width,
        height_mm=height,
        caption=f"The {name}, 2 1/2 in wide.",
        alt=f"Drawing of {name}.",
        true_size=true_size,
    )


def figures(plan: SizePlan, room: Room) -> Album:
    id = plan.size.id
    found = {
        "cover": fake(f"{id}-cover", 120, 140),
        "block pair": fake(f"{id}-block", 50, 25),
        "step pair 1": fake(f"{id}-step1", 80, 45),
        "press pair": fake(f"{id}-press", 90, 60),
        "cloth ink": fake(f"{id}-ink", 150, 40),
        "quilt": fake(f"{id}-quilt", 130, 150),
        "templates letter 1": fake(f"{id}-templates1", 190, 240, true_size=True),
        "colouring": fake(f"{id}-colouring", 150, 180),
    }
    return Album(MappingProxyType(found))
