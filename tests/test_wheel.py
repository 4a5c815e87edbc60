"""The wheel carries all that a build needs beside the code."""

import re
import subprocess
import sys
import tomllib
import zipfile
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

ROOT = Path(__file__).parent.parent


@pytest.fixture(scope="module")
def wheel(tmp_path_factory):
    folder = tmp_path_factory.mktemp("wheel")
    source = folder / "source"
    source.mkdir()
    # only what git keeps, so that the project's folder stays as it is
    for name in ("pyproject.toml", "README.md", "LICENSE", "booklet", "templates"):
        _copy(ROOT / name, source / name)
    order = [sys.executable, "-m", "pip", "wheel", "--quiet", "--no-deps", "--no-build-isolation"]
    subprocess.run(
        [*order, "--no-index", "--wheel-dir", str(folder), str(source)],
        check=True,
        capture_output=True,
        timeout=60,
    )
    (made,) = folder.glob("*.whl")
    with zipfile.ZipFile(made) as opened:
        yield opened


def _copy(here: Path, there: Path) -> None:
    if here.is_file():
        there.write_bytes(here.read_bytes())
    elif here.name != "__pycache__":
        there.mkdir()
        for entry in here.iterdir():
            _copy(entry, there / entry.name)


def files(folder: Path, pattern: str) -> set[str]:
    return {p.relative_to(folder.parent).as_posix() for p in folder.rglob(pattern) if p.is_file()}


def test_every_module_is_in_it(wheel):
    assert files(ROOT / "booklet", "*.py") <= set(wheel.namelist())


def test_every_rule_page_is_in_it(wheel):
    pages = files(ROOT / "booklet", "*.md")
    assert len(pages) > 30 and pages <= set(wheel.namelist())


def test_templates_styles_and_words_are_in_it(wheel):
    wanted = {
        f"booklet/{name}"
        for ending in ("*.html", "*.css", "*.toml")
        for name in files(ROOT / "templates", ending)
    }
    assert len(wanted) > 10 and wanted <= set(wheel.namelist())


def test_it_gives_the_command_and_names_its_fonts(wheel):
    texts = {
        n.rsplit("/", 1)[-1]: wheel.read(n).decode() for n in wheel.namelist() if ".dist-info/" in n
    }
    assert "booklet = booklet.__main__:main" in texts["entry_points.txt"]
    assert "Requires-Dist: font-source-serif-pro" in texts["METADATA"]
    assert "LICENSE" in texts


def test_nothing_else_is_in_it(wheel):
    assert {name.split("/")[0] for name in wheel.namelist() if ".dist-info/" not in name} == {
        "booklet"
    }
    assert not [name for name in wheel.namelist() if name.endswith((".pyc", ".pdf"))]


def test_every_library_is_asked_for_between_versions_that_were_tried():
    asked = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]["dependencies"]
    locked = dict(
        re.findall(r"^([\w.-]+)==(\S+)", (ROOT / "requirements.lock").read_text("utf-8"), re.M)
    )
    for line in asked:
        wanted = Requirement(line)
        kinds = {specifier.operator for specifier in wanted.specifier}
        assert kinds in ({">=", "<"}, {"=="}), line
        assert wanted.specifier.contains(locked[canonicalize_name(wanted.name)]), line
