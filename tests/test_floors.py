"""The house keeps its floors: a module imports only from below, and a library has one door."""

import ast
from functools import cache
from pathlib import Path

import booklet

HOUSE = Path(booklet.__file__).parent
FLOORS = {
    "arithmetic": 0, "bounds": 0, "kit": 0, "later": 0, "measure": 0, "diagnostic": 0, "letters": 0, "solver": 0, "stopping": 0, "words": 0,
    "pattern": 1, "source": 2, "geometry": 3, "sewing": 4, "pressing": 5, "quilt": 6, "cutting": 7,
    "checks": 8, "plan": 9, "facts": 9, "facts_schema": 9, "drawing": 10, "pages": 11, "exports": 11, "checking": 12, "compiler": 12, "output": 12, "inventory": 12, "since": 12, "walls": 12,
    "console": 13, "arguments": 13, "commands": 13, "reference": 13, "__main__": 13, "__init__": 14,
}  # fmt: skip
DOORS = {
    "shapely": "geometry/plane.py",
    "shtab": "commands/completion.py",
    "babel": "words.py",
    "highspy": "solver.py",
    "ruamel": "source/syntax.py",
    "svgwrite": "drawing/svg.py",
    "ezdxf": "exports/dxf_file.py",
    "xlsxwriter": "exports/workbook.py",
    "pypdf": "exports/sheets.py",
    "weasyprint": "pages/pdf.py",
    "nh3": "pages/slots.py",
    "markdown": "pages/texts.py",
    "jinja2": "pages/templating.py",
    "xml.parsers": "source/drawing_file.py",
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
                beside = floor_of(parts[1]) == floor_of(room) and room not in ("checks",)
                assert below or beside, f"{path} climbs to {name}"


def test_each_outside_library_has_one_door():
    for library, door in DOORS.items():
        users = {
            str(path.relative_to(HOUSE).as_posix())
            for path in modules()
            if any(f"{name}.".startswith(f"{library}.") for name in imports(path))
        }
        assert users <= {door}, f"{library} enters through {sorted(users)}"


def test_every_module_says_which_step_it_is():
    for path in modules():
        text = ast.get_docstring(ast.parse(path.read_text(encoding="utf-8")))
        assert text, f"{path} has no docstring"
