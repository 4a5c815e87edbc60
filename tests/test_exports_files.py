"""Templates for machines that cut, and tables for spreadsheets: read back by other libraries."""

import csv
import io
import math
from itertools import pairwise
from pathlib import Path
from types import MappingProxyType

import corpus
import ezdxf
import openpyxl
import pyogrio.raw
import pytest
import shapely
import svgelements
from hypothesis import example, given, strategies as st
from shapely import affinity
from shapely.geometry import Polygon

from booklet.exports.files import exported
from booklet.exports.machines import smooth
from booklet.exports.machines.dxf_file import dxf_of
from booklet.exports.machines.flat import LAYERS, flat_sheet, foundation_sheet
from booklet.exports.machines.smooth import smooth_seam
from booklet.exports.machines.svg_file import svg_of
from booklet.exports.spreadsheets.csv_file import csv_of
from booklet.exports.spreadsheets.tables import ExportTable, tables
from booklet.exports.spreadsheets.workbook import workbook_of
from booklet.facts import facts
from booklet.geometry.placing.paths import path_outline
from booklet.geometry.tiling import Outline, Side
from booklet.kit.outlines.path_data import commands
from booklet.kit.outlines.plane import circle_through
from booklet.kit.records import replace
from booklet.recipe import compiler

MM = 25.4
PATTERNS = Path(__file__).parent / "patterns"


@pytest.fixture(scope="module", params=["throw", "quarter_round"])
def size(request, example_plan):
    if request.param == "throw":
        return next(s for s in example_plan.sizes if s.size.id == "throw")
    return corpus.plan_of(PATTERNS / "quarter_round").sizes[0]


@pytest.fixture(scope="module")
def meant(size):
    """{letter: (cutting line, seam line)} of the cutting plan, mm; of a curved patch the cutting line
    is where shapely moves the seam line by 1/4 in. Its chords are a thousand times finer there, for at the end of
    a curve shapely goes on along the last chord, and not along the curve."""
    found = {}
    for patch in size.cutting.patches:
        if patch.outline is not None:
            seam = polygon(smooth_seam(patch.outline.seam).points)
            cut = polygon(patch.outline.cut)
            if patch.outline.seam.is_curved:
                with pytest.MonkeyPatch.context() as finer:
                    finer.setattr(smooth, "STRAY", smooth.STRAY / 1000)
                    fine = polygon(smooth_seam(patch.outline.seam).points)
                cut = fine.buffer(6.35, join_style="mitre", mitre_limit=20)
            found[patch.name] = (cut, seam)
    return found


def polygon(points_in):
    return Polygon([(x * MM, y * MM) for x, y in points_in])


def strays(one, other) -> float:
    """How far two outlines are apart at most, moved onto each other, as they are or a quarter turned."""

    def put(shape):
        left, low, _, _ = shape.bounds
        return affinity.translate(shape, -left, -low)

    found = []
    for angle in (0, 90, 180, 270):
        turned = put(affinity.rotate(one, angle, origin=(0, 0)))
        found.append(shapely.hausdorff_distance(turned.exterior, put(other).exterior))
    return min(found)


def test_the_svg_holds_every_outline_in_millimetres(size, meant, tmp_path):
    data = svg_of(flat_sheet(size))
    (tmp_path / "t.svg").write_bytes(data)
    drawing = svgelements.SVG.parse(tmp_path / "t.svg", ppi=MM)  # one unit of it is then 1 mm
    assert drawing.viewbox.width == pytest.approx(svgelements.Length(drawing.values["width"]).value(ppi=MM))  # fmt: skip
    groups = {g.id: g for g in drawing.select(lambda e: isinstance(e, svgelements.Group))}
    assert set(LAYERS) <= set(groups)
    for letter, outlines in meant.items():
        for layer, outline in zip(("cut", "seam"), outlines, strict=True):
            (path,) = groups[f"{layer}-{letter}"].select(lambda e: isinstance(e, svgelements.Path))
            drawn = Polygon([(p.x, p.y) for p in path.as_points()])
            assert strays(drawn, outline) < 0.01
    texts = [t.text for t in drawing.select(lambda e: isinstance(e, svgelements.Text))]
    versioned = bool(size.pattern.version)  # quarter_round bears none
    assert any(size.size.title in text and ("version" in text) == versioned for text in texts)


def test_the_dxf_is_sound_and_holds_the_same_outlines_as_the_svg(size, tmp_path):
    sheet = flat_sheet(size)
    place = tmp_path / "t.dxf"
    place.write_bytes(dxf_of(sheet))
    drawing = ezdxf.readfile(place)
    assert drawing.units == 4  # millimetres
    auditor = drawing.audit()
    assert not auditor.errors and not auditor.fixes
    assert {e.dxf.layer for e in drawing.modelspace()} == set(LAYERS)
    # GDAL has a reader of its own
    _, _, shapes, fields = pyogrio.raw.read(place, columns=["Layer"])
    found = list(zip(fields[0], shapely.from_wkb(shapes), strict=True))
    for layer in ("cut", "seam"):
        drawn = [Polygon(shape.coords) for name, shape in found if name == layer]
        wanted = [
            Polygon([(x, sheet.height - y) for x, y in getattr(t, layer)]) for t in sheet.templates
        ]
        assert len(drawn) == len(wanted)
        for one, other in zip(drawn, wanted, strict=True):
            assert shapely.hausdorff_distance(one.exterior, other.exterior) < 0.01
    points = sum(len(t.points) for t in sheet.templates)
    assert len(drawing.modelspace().query('CIRCLE[layer=="marks"]')) == points


def test_templates_lie_apart_on_their_sheet(size):
    sheet = flat_sheet(size)
    shapes = [Polygon(t.cut) for t in sheet.templates]
    for i, one in enumerate(shapes):
        left, top, right, low = one.bounds
        assert (
            min(left, top) >= 5 - 1e-6 and right <= sheet.width - 5 + 1e-6 and low <= sheet.height
        )
        assert all(one.distance(other) > 5.9 for other in shapes[:i])


def test_the_middle_of_a_motif_and_the_grain_are_marked(example_plan):
    sheet = flat_sheet(next(s for s in example_plan.sizes if s.size.id == "throw"))
    heart = next(t for t in sheet.templates if t.letter == "C")
    middle = Polygon(heart.seam).centroid
    crossed = [
        (a, b)
        for a, b in heart.lines
        if math.isclose((a[0] + b[0]) / 2, middle.x) and math.isclose((a[1] + b[1]) / 2, middle.y)
    ]
    assert len(crossed) == 2
    assert all(len(t.lines) >= 3 for t in sheet.templates)  # an arrow with two heads at least


def test_the_same_plan_gives_the_same_bytes(example_plan):
    one, two = dict(exported(example_plan)), dict(exported(example_plan))
    assert one == two
    assert not [name for name, data in one.items() if b"20261125" in data and name.endswith("dxf")]


def test_only_the_sizes_asked_for_have_templates(example_plan):
    names = [name for name, _ in exported(example_plan, ("throw",))]
    assert [name for name in names if "templates" in name] == [
        "glasshouse-evening-templates-throw.svg",
        "glasshouse-evening-templates-throw.dxf",
    ]


# curves


@given(st.floats(0.3, 12), st.floats(0, 360), st.floats(20, 340))
@example(3.4848066064786263, 0.0, 180.0)
def test_points_put_into_an_arc_lie_on_its_circle(radius, start, sweep):
    a, b = (math.radians(x) for x in (start, start + sweep))
    data = (
        f"M {radius * math.cos(a)!r} {radius * math.sin(a)!r} A {radius} {radius} 0 "
        f"{int(sweep > 180)} 1 {radius * math.cos(b)!r} {radius * math.sin(b)!r} Z"
    )
    side = smooth_seam(path_outline(commands(data), 1.0)).sides[0]
    assert circle_through(side.points) is not None
    for p, q in pairwise(side.points):
        half = math.hypot((p[0] + q[0]) / 2, (p[1] + q[1]) / 2)  # the middle of a chord
        assert (radius - half) * MM < 0.0025
        assert abs(math.hypot(*p) - radius) * MM < 0.001


def bezier(controls, t):
    while len(controls) > 1:
        controls = [
            tuple(a * (1 - t) + b * t for a, b in zip(p, q, strict=True))
            for p, q in pairwise(controls)
        ]
    return controls[0]


def test_points_put_into_a_bezier_curve_lie_on_it():
    controls = [(0.0, 0.0), (1.0, 3.0), (4.0, -2.0), (5.0, 1.0)]
    side = smooth_seam(path_outline(commands("M 0 0 C 1 3 4 -2 5 1 L 5 5 Z"), 1.0)).sides[0]
    line = shapely.LineString(side.points)
    far = max(line.distance(shapely.Point(bezier(controls, k / 997))) for k in range(998))
    assert far * MM < 0.0025


def test_points_put_into_an_ellipse_lie_on_it():
    side = smooth_seam(path_outline(commands("M 3 0 A 3 1 0 0 1 -3 0 Z"), 1.0)).sides[0]
    line = shapely.LineString(side.points)
    turns = [math.pi * k / 500 for k in range(501)]
    far = max(line.distance(shapely.Point(3 * math.cos(t), math.sin(t))) for t in turns)
    assert far * MM < 0.01


def arc(degrees, off=0.0, count=5):
    """So many points of a circle of 2 in, one every so many degrees, the second farther out."""
    turns = [math.radians(degrees * k) for k in range(count)]
    far = [2 + off * (k == 1) for k in range(count)]
    return tuple((r * math.cos(t), r * math.sin(t)) for r, t in zip(far, turns, strict=True))


def test_a_chord_is_split_no_more_than_two_thousandths_of_a_millimetre_ask_for():
    # every 10 degrees: a chord is 50.8 mm * (1 - cos 5°) = 0.1933 mm off, n parts 1/n² of it:
    # 9 parts 0.00239 mm, 10 parts 0.00193 mm. Four chords of 10 parts have 41 points
    first, *between, last = arc(10)
    side = Side(first, last, tuple(between))
    drawn = smooth_seam(Outline((side, Side(last, first)))).sides[0]
    assert len(drawn.points) == 4 * 10 + 1
    # every 1 degree: 0.00193 mm off, which is left as it is
    first, *between, last = arc(1)
    side = Side(first, last, tuple(between))
    assert smooth_seam(Outline((side, Side(last, first)))).sides[0] == side


def test_points_a_millionth_of_an_inch_off_are_no_circle():
    assert circle_through(arc(30)) == (pytest.approx((0, 0)), pytest.approx(2))
    assert circle_through(arc(30, 0.7e-6)) is not None
    assert circle_through(arc(30, 1.5e-6)) is None


def test_straight_sides_stay_as_they_are():
    square = Outline((Side((0, 0), (1, 0)), Side((1, 0), (1, 1)), Side((1, 1), (0, 0))))
    assert smooth_seam(square) == square
    assert circle_through([(0, 0), (1, 0), (2, 0), (3, 0)]) is None


# tables


def rows_of(data: bytes):
    return list(csv.DictReader(io.StringIO(data.decode("utf-8-sig"), newline="")))


def test_the_tables_hold_the_numbers_of_the_facts(example_plan):
    known = facts(example_plan)["sizes"]
    made = {table.name: rows_of(csv_of(table)) for table in tables(example_plan)}
    titles = {s.size.title: s.size.id for s in example_plan.sizes}
    for title, id in titles.items():
        cloth = known[id]["cutting"]
        lines = [r for r in made["materials"] if r["Size"] == title and r["To buy (yd)"]]
        assert sum(float(r["To buy (yd)"]) for r in lines) == pytest.approx(
            sum(c["buy"]["yards_decimal"] for c in cloth.values())
        )
        assert sum(float(r["To buy (m)"]) for r in lines) == pytest.approx(
            sum(c["buy"]["metres"] for c in cloth.values())
        )
        for row in lines:  # rounded up to 1/1000 in and 1/10 mm
            cm, inches = (float(row[f"Length needed ({u})"]) for u in ("cm", "in"))
            assert abs(cm - 2.54 * inches) < 0.0101
        cut = [r for r in made["cutting"] if r["Size"] == title]
        assert sum(int(r["Pieces"]) for r in cut) == sum(r["pieces"] for r in known[id]["rotary"])
        assert sum(int(r["Cuts"]) for r in cut) == sum(r["cuts"] for r in known[id]["rotary"])
        strips = [r for r in made["strips"] if r["Size"] == title]
        assert sum(int(r["Strips"] or 0) for r in strips) == sum(
            s["count"] for c in cloth.values() for s in c["strips"]
        )


def test_a_workbook_holds_the_same_rows_and_numbers_are_numbers(example_plan):
    made = tables(example_plan)
    data = workbook_of(made, "Title", "Designer", None)
    book = openpyxl.load_workbook(io.BytesIO(data))
    assert len(book.sheetnames) == len(made)
    for table, sheet in zip(made, book, strict=True):
        head, *rows = sheet.iter_rows(values_only=True)
        assert head == table.heads
        for row, wanted in zip(rows, table.rows, strict=True):
            assert [v or None for v in row] == [v or None for v in wanted]
            assert all(type(v) is not str or isinstance(w, str) for v, w in zip(row, wanted, strict=True))  # fmt: skip
    assert data == workbook_of(made, "Title", "Designer", None)


EVIL = ["=1+1", "+1", "-1+cmd|'/C calc'!A0", "@SUM(A1)", "  =1", "＝1", "|x", "%x"]
# some spreadsheets part a cell at a tab, so what follows it is a beginning too
MADE_SAFE = {text: f"'{text}" for text in EVIL} | {"\t=1": "'\t'=1"}


@pytest.mark.parametrize(("text", "safe"), MADE_SAFE.items())
def test_no_text_of_the_pattern_becomes_a_formula(example_plan, text, safe):
    size = example_plan.sizes[0]
    cloths = {id: replace(f, name=text) for id, f in size.size.fabrics.items()}
    renamed = replace(size, size=replace(size.size, title=text, fabrics=MappingProxyType(cloths)))
    plan = replace(example_plan, sizes=(renamed,))
    made = tables(plan)
    for table in made:
        for row in csv.reader(io.StringIO(csv_of(table).decode("utf-8-sig"), newline="")):
            assert not [cell for cell in row if cell.lstrip(" ").startswith(tuple("=+-@\t\r|%＝"))]
        assert rows_of(csv_of(table))[0]["Size"] == safe
    book = openpyxl.load_workbook(io.BytesIO(workbook_of(made, text, text, None)))
    assert {cell.data_type for sheet in book for row in sheet for cell in row} <= {"s", "n"}
    assert book.worksheets[0]["A2"].value == text


@pytest.mark.parametrize("sign", [";", ",", "\t", "|", "\n"])
@pytest.mark.parametrize("formula", ["=1+1", " =1+1", '"=1+1"', "-1", "@SUM(A1)"])
def test_no_formula_where_a_spreadsheet_parts_cells_at_another_sign(sign, formula):
    # semicolons in much of Europe: the sign is looked for before the quotation marks are read
    data = csv_of(ExportTable("t", "T", ("Name", "n"), ((f"x{sign}{formula}{sign}y", 1),)))
    for line in data.decode("utf-8-sig").splitlines():
        for cell in line.split(sign):
            assert not cell.strip(' "').startswith(("=", "-", "@", "+"))
    assert "'" + formula in rows_of(data)[0]["Name"]


def test_a_csv_is_utf_8_with_its_mark_and_dos_line_ends():
    data = csv_of(
        ExportTable("t", "T", ("Größe", "n"), (("a, b", 1.5), ('say "hm"', None), ("ü", 2)))
    )
    assert data == '\ufeffGröße,n\r\n"a, b",1.5\r\n"say ""hm""",\r\nü,2\r\n'.encode()


@given(st.text(), st.integers(-(10**6), 10**6), st.floats(0, 1e6))
def test_any_text_comes_back(text, whole, part):
    table = ExportTable("t", "T", ("text", "whole", "part"), ((text, whole, part),))
    text_again, whole_again, part_again = next(
        iter(list(csv.reader(io.StringIO(csv_of(table).decode("utf-8-sig"), newline="")))[1:])
    )
    # nothing but apostrophes is added, before what could be a formula at any place
    assert text_again.replace("'", "") == text.replace("'", "")
    assert text_again.count("'") >= text.count("'")
    assert (int(whole_again), float(part_again)) == (whole, pytest.approx(part, rel=1e-9))


def test_a_foundation_is_printed_as_it_is_sewn():
    """One quarter of the cabin is 5 x 5 in: its paper is 5 1/2 in = 139.7 mm wide, mirrored, with five seams in it."""
    plan = corpus.plan_of(PATTERNS / "cabin_on_paper")
    sheet = foundation_sheet(plan.sizes[0])
    (paper,) = sheet.templates
    assert paper.letter == "cabin-A"
    assert Polygon(paper.cut).bounds[2] - Polygon(paper.cut).bounds[0] == pytest.approx(139.7)
    assert Polygon(paper.seam).area == pytest.approx(127.0**2)
    tiling = plan.sizes[0].blocks[0].tiling
    pieces = set(plan.sizes[0].blocks[0].assembly.papers[0].pieces)
    seams = [seam for seam in tiling.seams if set(seam.between) <= pieces]
    lengths = sorted(round(math.dist(a, b), 3) for a, b in paper.inner)
    assert lengths == sorted(round(seam.length * MM, 3) for seam in seams) and len(lengths) >= 5
    numbers = {word.text for word in paper.words}
    assert {f"A{n}" for n in range(1, 7)} <= numbers
    names = [name for name, _ in exported(plan)]
    assert "four-chimneys-foundations-pad.svg" in names
    assert "four-chimneys-foundations-pad.dxf" in names
    drawing = ezdxf.read(io.StringIO(dxf_of(sheet).decode("utf-8")))
    assert len(drawing.modelspace().query('LINE[layer=="seam"]')) == len(lengths)
    assert svg_of(sheet).count(b"<line") >= len(lengths)


def test_tables_are_there_in_each_language_of_the_editions():
    found = compiler.check(PATTERNS / "two_languages").value
    made: dict[str, bytes] = {}
    compiler.build(
        found,
        compiler.BuildOptions(web=False, pdf=False),
        lambda name, data: made.update({name: data}),
    )
    own, other = (made[f"harbor-windmill-materials{end}.csv"].decode() for end in ("", "-de"))
    assert own.splitlines()[0].startswith("\ufeffSize,Material")
    assert other.splitlines()[0].startswith("\ufeffGröße,Material,Verwendung")
    assert "Dunkelblau" in other and "Dunkelblau" not in own
    assert "harbor-windmill-tables-de.xlsx" in made
    assert "harbor-windmill-templates-mat-de.svg" not in made  # the lines are the same
