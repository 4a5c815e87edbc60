"""Every rule has a page and a case; every case finds exactly the faults it names."""

import re
from pathlib import Path

import pytest

from booklet.checks.rulebook import rules
from booklet.commands.line import console
from booklet.recipe import compiler

CASES = Path(__file__).parent / "cases"
FENCE = re.compile(r"^```(\w+)?[ ]?(.*?)\n(.*?)^```$", re.MULTILINE | re.DOTALL)


def cases():
    for path in sorted(CASES.glob("*.md")):
        sections = re.split(r"^## ", path.read_text(encoding="utf-8"), flags=re.MULTILINE)[1:]
        for section in sections:
            yield pytest.param(path.stem, section, id=f"{path.stem}: {section.splitlines()[0]}")


@pytest.mark.parametrize(("code", "section"), list(cases()))
def test_case(code: str, section: str, tmp_path: Path):
    expected, trusted = None, False
    for kind, name, body in FENCE.findall(section):
        if kind == "yaml":
            trusted = "--trust-pages" in name
            (tmp_path / "pattern.yaml").write_text(body, encoding="utf-8")
        elif kind == "file":
            path = tmp_path / name.strip()
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(body, encoding="utf-8")
        elif kind == "text":
            expected = body
    assert expected is not None, "the case says nothing of what is expected"
    found = console.as_lines(compiler.check(tmp_path, trusted).diagnostics)
    assert found == expected


def test_every_rule_has_a_case_that_breaks_it():
    broken = {
        path.stem for path in CASES.glob("*.md") if f"[{path.stem}]" in path.read_text("utf-8")
    }
    assert set(rules()) == broken


def test_every_page_has_its_parts():
    for rule in rules().values():
        for part in ("## Why it matters", "## Example", "## Repair"):
            assert part in rule.page, f"{rule.code} lacks {part}"


NEAR_ALIKE = """title: Two
sizes: {{wall: {{unit: {unit}, blocks: 1}}}}
fabrics:
  ink: {{name: Ink, colour: navy}}
  sand: {{name: Sand, colour: "#e9dcc3"}}
blocks:
  pair:
    pieces:
      - {{id: a, corners: [[3, 3], [2.12, 1.79], [3, 0.57], [3.88, 1.79]], fabric: ink}}
      - {{id: b, corners: [[3, 3], [3.88, 1.79], [5.31, 2.25], [4.43, 3.46]], fabric: sand}}
"""


@pytest.mark.parametrize(("unit", "decimals"), [("1 in", 3), ("2 in", 3), ("5 in", 4)])
def test_as_many_decimals_are_asked_for_as_make_sides_alike(unit, decimals, tmp_path):
    """Four ends, each half of the last decimal off across and down: 2 √2 × 2/1000 in is 0.0057 in, less than 0.006; of a unit of
    5 in that would be 0.014 in, and 0.0014 in with four."""
    (tmp_path / "pattern.yaml").write_text(NEAR_ALIKE.format(unit=unit), encoding="utf-8")
    found = compiler.check(tmp_path).diagnostics
    (hint,) = [d.hint for d in found if d.code == "near-alike"]
    assert hint.endswith(f"with {decimals} decimals or more")
