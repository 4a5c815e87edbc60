"""The house keeps its floors: a module imports only from below, and a library has one door."""

import ast
from functools import cache
from pathlib import Path

import booklet

HOUSE = Path(booklet.__file__).parent
FLOORS = {
    "kit": 0, "walls": 0, "crafts": 1, "pattern": 1, "source": 2, "geometry": 3, "sewing": 4, "pressing": 5, "quilt": 6, "cutting": 7,
    "checks": 8, "plan": 9, "facts": 9, "drawing": 10, "pages": 11, "exports": 11, "comparing": 12, "layouts": 12, "recipe": 12,
    "preview": 13, "commands": 13, "reference": 13, "__main__": 13, "__init__": 14,
}  # fmt: skip
DOORS = {
    "shapely": "geometry/overlay.py",
    "starlette": "preview/serving/server.py",
    "uvicorn": "preview/serving/server.py",
    "watchfiles": "preview/serving/watching.py",
    "shtab": "commands/completion.py",
    "babel": "kit/words.py",
    "highspy": "kit/solver.py",
    "ruamel": "source/tree/syntax.py",
    "svgwrite": "drawing/ink/svg.py",
    "ezdxf": "exports/machines/dxf_file.py",
    "xlsxwriter": "exports/spreadsheets/workbook.py",
    "pypdf": "exports/press/sheets.py",
    "weasyprint": "pages/prepress/pdf.py",
    "tinyhtml5": "exports/chapters/epub_page.py",
    "tinycss2": "pages/style/own_sheet.py",
    "landlockpy": "walls/limits.py",
    "rjsmin": "pages/screen/script.py",
    "PIL": "source/files/picture_file.py pages/prepress/inks.py",  # pictures; colours of a press
    "nh3": "pages/texts/slots.py",
    "markdown": "pages/texts/texts.py",
    "jinja2": "pages/texts/templating.py",
    "xml.parsers": "source/drawings/drawing_file.py",
}


def modules():
    return sorted(HOUSE.rglob("*.py"))


@cache
def imports(path: Path):
    return tuple(named(path))


def named(path: Path):
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: relative import"
            yield node.module or ""
            yield from (f"{node.module}.{alias.name}" for alias in node.names)


def floor_of(part: str) -> int:
    return FLOORS[part]


def test_a_module_imports_only_from_its_own_floor_or_below():
    for path in modules():
        room = path.relative_to(HOUSE).parts[0].removesuffix(".py")
        for name in imports(path):
            parts = name.split(".")
            if parts[0] == "booklet" and len(parts) > 1 and parts[1] in FLOORS:
                below = floor_of(parts[1]) < floor_of(room) or parts[1] == room
                beside = floor_of(parts[1]) == floor_of(room) and room not in ("checks", "crafts")
                assert below or beside, f"{path} climbs to {name}"


def test_each_outside_library_has_one_door():
    for library, door in DOORS.items():
        users = {
            str(path.relative_to(HOUSE).as_posix())
            for path in modules()
            if any(f"{name}.".startswith(f"{library}.") for name in imports(path))
        }
        assert users <= set(door.split()), f"{library} enters through {sorted(users)}"


def test_every_module_says_which_step_it_is():
    for path in modules():
        text = ast.get_docstring(ast.parse(path.read_text(encoding="utf-8")))
        assert text, f"{path} has no docstring"


WALLED = (
    "kit",
    "crafts",
    "source",
    "sewing",
    "pressing",
    "cutting",
    "drawing",
    "geometry",
    "pages",
    "plan",
    "quilt",
    "exports",
    "preview",
    "recipe",
    "commands",
)
MANY = 13
"""Modules in a room, its `__init__` counted, beyond which one can no longer see the whole of it."""


def room_of(floor: str, name: str) -> str | None:
    """The room of a floor that a dotted name leads into, or None for what stands on the floor's landing."""
    parts = name.split(".")
    inside = (
        parts[:2] == ["booklet", floor] and len(parts) > 2 and (HOUSE / floor / parts[2]).is_dir()
    )
    return parts[2] if inside else None


def test_a_floor_has_few_rooms_and_no_room_is_crowded():
    for floor in WALLED:
        rooms = [HOUSE / floor, *(path.parent for path in (HOUSE / floor).glob("*/__init__.py"))]
        assert len(rooms) <= 8, f"{floor} has {len(rooms)} rooms"
        for room in rooms:
            if room.name in ("forms", "units"):  # one file each, all alike
                continue
            many = len(list(room.glob("*.py")))
            assert many <= MANY, f"{room} holds {many} modules"


def test_no_two_rooms_of_a_floor_lean_on_each_other_by_whatever_way_round():
    for floor in WALLED:
        leans = {
            (path.relative_to(HOUSE / floor).parts[0], room_of(floor, name))
            for path in (HOUSE / floor).glob("*/*.py")
            for name in imports(path)
        }
        arrows = {(a, b) for a, b in leans if b is not None and a != b}
        while further := {(a, d) for a, b in arrows for c, d in arrows if b == c} - arrows:
            arrows |= further
        assert not {a for a, b in arrows if a == b}, f"{floor}: {sorted(arrows)}"


def test_a_class_name_means_one_thing():
    homes: dict[str, list[str]] = {}
    for path in modules():
        for node in ast.parse(path.read_text(encoding="utf-8")).body:
            if isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
                homes.setdefault(node.name, []).append(str(path.relative_to(HOUSE)))
    assert [places for places in homes.values() if len(places) > 1] == []


def test_records_are_of_one_kind():
    """No dataclasses beside the records of the kit."""
    assert [path for path in modules() if "dataclass(" in path.read_text(encoding="utf-8")] == []


def test_records_of_more_than_four_fields_take_keywords_only():
    """But for two that are made thousands of times or in tables of rows, where the places say enough."""
    free = {"Key", "Element"}
    for path in modules():
        text = path.read_text(encoding="utf-8")
        for node in ast.parse(text).body:
            if not isinstance(node, ast.ClassDef) or node.name in free:
                continue
            bases, told = map(ast.unparse, node.bases), map(ast.unparse, node.keywords)
            fields = [each for each in node.body if isinstance(each, ast.AnnAssign)]
            if len(fields) > 4 and {"Record", "Mutable", "ByWord"} & set(bases):
                assert "kw_only=True" in told, f"{path}: {node.name}"
