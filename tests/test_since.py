"""What changed since the last build: told from small tables, each difference reckoned by hand."""

from booklet.recipe.inventory import Inventory, WrittenFile
from booklet.recipe.output import digest
from booklet.recipe.since import earlier, told

HEADS = "Size,Material,Used for,To buy\n"
OLD = HEADS + "Lap,Blue,border,1/4 yd\nLap,Sand,blocks,1 yd\nLap,Red,binding,1/2 yd\n"
NEW = HEADS + "Lap,Blue,border,3/8 yd\nLap,Sand,blocks,1 yd\nLap,Grey,binding,1/2 yd\n"
CUT_HEADS = "Size,Fabric,Piece\n"


def tables(buy: str, cut: str = "") -> dict[str, bytes]:
    named = {"q-materials.csv": buy, "q-cutting.csv": CUT_HEADS + cut}
    return {name: b"\xef\xbb\xbf" + text.encode() for name, text in named.items()}


def listing(files: dict[str, bytes]) -> Inventory:
    return Inventory({name: WrittenFile(digest(data), "state") for name, data in files.items()})


def test_cloth_that_is_more_new_or_gone_is_named():
    lines = told(tables(OLD), Inventory(), tables(NEW), {}, "0.1")
    assert lines[:2] == [
        "since the last build:",
        "  to buy: Lap, Blue 3/8 yd (was 1/4 yd); Lap, Grey 1/2 yd (new); Lap, Red no more",
    ]
    assert len(lines) == 3 and lines[2].startswith("  `version` is `0.1`: change it")


def test_rows_of_cutting_are_counted():
    # two of three rows are others, one more is gone: three changed at most
    before = tables(OLD, "Lap,Blue,A\nLap,Blue,B\nBed,Blue,C\nBed,Blue,D\n")
    now = tables(OLD, "Lap,Blue,A\nLap,Blue,E\nBed,Blue,F\n")
    lines = told(before, Inventory(), now, {}, "")
    assert lines[1] == "  cutting: 3 of 3 rows of what is cut (Lap; Bed)"
    assert lines[2].startswith("  there is no `version`: ")


def test_pages_are_compared_by_their_bytes():
    old = {"q.html": b"one", "q-a4.pdf": b"two", "gone.pdf": b"x"}
    made = {"q.html": digest(b"one"), "q-a4.pdf": digest(b"other"), "new.pdf": digest(b"y")}
    lines = told({}, listing(old), {}, made, "1")
    assert lines[1] == "  pages: 1 of 2 files differ, q-a4.pdf"


def test_nothing_is_said_where_nothing_changed_or_heads_are_others():
    same = tables(OLD)
    assert told(same, listing(same), same, {}, "1") == []
    assert told({}, Inventory(), same, {"q.html": "digest"}, "1") == []
    german = tables(NEW.replace("Size", "Größe"))
    assert told(same, Inventory(), german, {}, "1") == []


def test_only_tables_that_are_as_they_were_written_are_read(tmp_path):
    files = tables(OLD)
    for name, data in files.items():
        (tmp_path / name).write_bytes(data)
    listed = listing({**files, "q-strips.csv": b"taken away", "q.html": b"page"})
    assert earlier(tmp_path, listed) == files
    (tmp_path / "q-cutting.csv").write_bytes(b"changed by hand")
    assert list(earlier(tmp_path, listed)) == ["q-materials.csv"]
