"""The same pattern gives the same bytes, whatever the machine says of language, place, time and chance."""

import os
import subprocess
import sys

import pytest

SOURCE = """\
title: Quay stones
date: 2026-03-01
sizes: {lap: {title: Lap, unit: 2 in, blocks: 2 x 2}}
fabrics: {ink: {name: Dark blue, colour: "#243b6b"}, sand: {name: Sänd, colour: "#e9dcc3"}}
blocks:
  stone:
    outline: [[0, 0], [2, 0], [2, 2], [0, 2]]
    pieces:
      - {id: a, fabric: ink, corners: [[0, 0], [2, 0], [0.5, 2], [0, 2]]}
      - {id: b, fabric: sand, corners: [[2, 0], [2, 2], [0.5, 2]]}
    sew: auto
quilt: {set: straight, arrange: [[stone]]}
booklet: {editions: {pattern: {pages: [cover, materials, templates]}}}
"""
# another day for whoever asks the clock (the system's own cannot be set)
PROGRAM = """
import datetime, os, sys, time
ahead, os_mask = float(sys.argv[1]), int(sys.argv[2], 8)
os.umask(os_mask)
now, local, greenwich = time.time, time.localtime, time.gmtime
time.time = lambda: now() + ahead
time.localtime = lambda at=None: local(time.time() if at is None else at)
time.gmtime = lambda at=None: greenwich(time.time() if at is None else at)
class Day(datetime.datetime):
    @classmethod
    def now(cls, zone=None):
        return cls.fromtimestamp(time.time(), zone)
    @classmethod
    def utcnow(cls):
        return cls.now()
    @classmethod
    def today(cls):
        return cls.now()
datetime.datetime = Day
from booklet.__main__ import main
sys.exit(main(["build", *sys.argv[3:], "--imposed", "--paper", "letter", "--crop-marks", "--quiet"]))
"""
YEAR = 365 * 86400
ENVIRONMENTS = {
    # name of the folder: language, zone, hash seed, seconds ahead, mask of rights, further variables
    "one": ("C", "UTC", "0", 0, "022", {"SOURCE_DATE_EPOCH": "1"}),
    "grün with/a space": ("de_DE.UTF-8", "Pacific/Kiritimati", "123", 40 * YEAR, "077", {"LANGUAGE": "de", "COLUMNS": "20"}),
    "deep/er": ("tr_TR.UTF-8", "America/St_Johns", "4294967295", -YEAR, "000", {"PYTHONUTF8": "1", "HOME": "/nowhere"}),
}  # fmt: skip


def built(place, environment):
    """The files of a build in one environment."""
    language, zone, seed, ahead, mask, further = environment
    folder = place / "pattern"
    folder.mkdir(parents=True)
    (folder / "pattern.yaml").write_text(SOURCE, encoding="utf-8")
    kept = {k: v for k, v in os.environ.items() if k in ("PATH", "SYSTEMROOT", "PYTHONPATH")}
    told = subprocess.run(
        [sys.executable, "-c", PROGRAM, str(ahead), mask, str(folder)],
        env=kept | {"LC_ALL": language, "LANG": language, "TZ": zone, "PYTHONHASHSEED": seed, **further},
        capture_output=True, timeout=300, check=False,
    )  # fmt: skip
    assert told.returncode == 0, told.stderr
    assert b"\n" not in told.stderr, told.stderr
    return {p.name: p.read_bytes() for p in (folder / "out").iterdir()}


@pytest.mark.skipif(sys.platform == "win32", reason="zones and rights are set otherwise there")
def test_three_environments_give_the_same_bytes(tmp_path):
    made = [built(tmp_path / name, how) for name, how in ENVIRONMENTS.items()]
    kinds = {name.rpartition(".")[2] for name in made[0]}
    assert kinds == {"html", "pdf", "svg", "dxf", "csv", "xlsx", "json"}
    for other in made[1:]:
        assert other.keys() == made[0].keys()
        assert [name for name in other if other[name] != made[0][name]] == []
