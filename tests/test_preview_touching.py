"""The table without a browser: what is said to a touch, what is written, and what is refused."""

import json
import os
import stat

import pytest
from test_preview import HOST, asked
from touching_helpers import Toucher, copied, same_as_checked, touched_at_random

from booklet.preview.serving.server import Preview
from booklet.preview.touch.asked import DEEDS, MOST_BODY, Wrong, asked_of
from booklet.recipe.checking import check

SMALL = ("three_diamonds", "order_in_brackets", "cloths_in_ring", "wheel", "four_patch", "titled_steps",
         "hexagon_rosette", "star_8", "log_cabin")  # fmt: skip


def source(folder):
    return (folder / "pattern.yaml").read_text("utf-8")


# ---- any order that is touched can be sewn, and is sewn as was said


@pytest.mark.parametrize("name", SMALL)
@pytest.mark.parametrize("seed", range(4))
def test_what_was_said_at_a_touch_is_what_check_finds(tmp_path, name, seed):
    folder = copied(name, tmp_path)
    toucher, before = Toucher(folder), source(folder)
    said = touched_at_random(toucher, f"{name} {seed}")
    written = toucher.write()
    if "says so already" not in written.get("stop", ""):
        assert written["done"].startswith("Written into pattern.yaml: the order of sewing")
    same_as_checked(toucher, said)
    if written["undo"]:
        assert "Undone" in toucher.write("undo")["done"]
    assert source(folder) == before


@pytest.mark.parametrize("seed", range(3))
def test_on_the_example_too_and_the_tool_goes_on_from_anywhere(tmp_path, seed):
    folder = copied("example", tmp_path)
    toucher = Toucher(folder, size="throw")
    unit = toucher.told["units"][seed * 5]["pieces"]
    hand = [unit[0], toucher.ask("look", hand=unit[:1])["near"][seed]]
    toucher.ask("alike", hand=hand)
    first = toucher.steps
    told = toucher.ask("on")
    assert told["steps"][: len(first)] == first  # what was touched stays
    assert told["whole"]
    assert "done" in toucher.write()
    same_as_checked(toucher, [(s["turns"], s["by"], [], []) for s in told["made"]])


def test_three_diamonds_by_hand_of_the_sums(tmp_path):
    """Of three seams about a point each lies 120 degrees from the next. The first two diamonds have one seam, which stops
    at the point, since the two seams to come turn there; the third is set in with one turn. Sides of 1/2 in are
    sewn by hand (`machine from: 1 in`): one seam is a thread, and the second run goes on with a thread or takes its own."""
    toucher = Toucher(copied("three_diamonds", tmp_path))
    one = toucher.ask("look", hand=["d1"])
    assert one["near"] == ["d2", "d3"]
    assert one["said"] == ["`d1` in hand. It touches `d2`, `d3`."]
    two = toucher.ask("look", hand=["d1", "d2"])
    assert (two["can"], two["turns"], two["by"], two["kind"]) == (True, 0, "hand", "straight")
    assert len(two["corners"]) == 1
    assert two["threads"] == (0, 1)
    assert two["alike"] == 0  # the third diamond is left alone
    assert "In Table mat it is sewn by machine." in two["said"]
    toucher.ask("join", hand=["d1", "d2"])
    three = toucher.ask("look", hand=["d2", "d3"])
    assert (three["turns"], three["kind"], three["corners"]) == (1, "set-in", [])
    assert toucher.ask("join", hand=["d3", "d1"])["whole"]
    table = Toucher(toucher.folder, size="table").ask("look", hand=["d1", "d2"])
    assert (table["by"], len(table["corners"]), table["threads"]) == ("machine", 1, (0, 0))


def test_what_does_not_touch_is_said_at_once(tmp_path):
    toucher = Toucher(copied("order_in_brackets", tmp_path))
    told = toucher.ask("look", hand=["r1c1", "r1c3"])
    assert told["can"] is False
    assert told["said"][0].startswith(
        "They cannot be joined: `r1c3` and `r1c1` of block `fence` share no seam"
    )
    assert "touches `r1c2` and `r1c4`" in told["said"][1]
    assert "stop" in toucher.ask("join", hand=["r1c1", "r1c3"])
    assert toucher.steps == []


def test_alike_ones_are_the_turned_copies(tmp_path):
    """The first two of five strips, pine and chalk, turned half round are the last two."""
    toucher = Toucher(copied("order_in_brackets", tmp_path))
    assert toucher.ask("look", hand=["r1c1", "r1c2"])["alike"] == 1
    told = toucher.ask("alike", hand=["r1c1", "r1c2"])
    assert [step["join"] for step in told["steps"]] == [("r1c1", "r1c2"), ("r1c5", "r1c4")]
    assert {(step["card"], step["times"]) for step in told["made"]} == {(1, 2)}


def test_a_partial_seam_is_left_open_and_closed(tmp_path):
    """A hub with four blades: the first is left open for the last, then every seam is straight."""
    toucher = Toucher(copied("cloths_in_ring", tmp_path))
    told = toucher.ask("look", hand=["hub", "b1"])
    assert sorted(told["leaves"]) == ["b2", "b4"]
    toucher.ask("join", hand=["hub", "b1"], leave="b4")
    for blade in ("b2", "b3", "b4"):
        assert not toucher.told["open"][0]["ready"]
        told = toucher.ask("look", hand=["hub", blade])
        assert (told["turns"], told["by"]) == (0, "machine")
        toucher.ask("join", hand=["hub", blade])
    assert not toucher.told["whole"]
    toucher.close()
    assert toucher.told["whole"]
    assert toucher.told["sums"]["turns"] == toucher.told["sums"]["threads"] == 0


def test_the_order_as_it_is_written_may_be_taken_up(tmp_path):
    folder = copied("order_in_brackets", tmp_path)
    toucher, before = Toucher(folder), source(folder)
    told = toucher.ask("written")
    assert told["whole"]
    assert [step["make"] for step in told["made"]] == ["left", "right", "fence"]
    assert "says so already" in toucher.write()["stop"]
    toucher.steps = told["steps"][:2]
    toucher.ask("join", hand=["r1c1", "r1c3"])
    toucher.ask("join", hand=["r1c5", "r1c1"])
    assert "done" in toucher.write()
    after = source(folder).splitlines()
    gone = [line.strip() for line in before.splitlines() if line not in after]
    assert gone == [  # the note belonged to the step that is no more
        '{make: fence, join: [left, r1c3, right], note: "Press to the pine."}',
    ]
    come = [line.strip() for line in after if line not in before.splitlines()]
    assert come == [
        "{make: three, join: [left, r1c3]},",
        "{make: fence, join: [right, three]}",
    ]


def test_only_blocks_of_the_source_are_touched(tmp_path):
    toucher = Toucher(copied("filled_rim_3_by_3", tmp_path))
    assert toucher.ask("look", picture=True)["drawn"]["blocks"] == [["cube", "Cube"]]
    assert toucher.ask("look", block="cube-rim-1")["block"] == "cube"


# ---- one change that can be undone


def sewn(folder):
    toucher = Toucher(folder)
    toucher.ask("on")
    return toucher


def test_a_change_is_undone_byte_for_byte_and_only_once(tmp_path):
    folder = copied("three_diamonds", tmp_path)
    file = folder / "pattern.yaml"
    text = "\ufeff" + source(folder).replace("\n", "\r\n")
    file.write_bytes(text.encode("utf-8"))
    os.chmod(file, 0o640)
    toucher = sewn(folder)
    assert toucher.write()["undo"] == "the order of sewing of block `box`"
    after = file.read_bytes().decode("utf-8")
    assert after.startswith("\ufeff# Three diamonds")
    assert after.count("\n") == after.count("\r\n") > text.count("\n")
    assert stat.S_IMODE(file.stat().st_mode) == 0o640
    assert [path.name for path in folder.iterdir()] == ["pattern.yaml"]
    assert toucher.write("undo")["undo"] == ""
    assert file.read_bytes().decode("utf-8") == text
    assert toucher.write("undo")["stop"] == "There is no change to undo."


def test_what_another_editor_has_saved_is_never_overwritten(tmp_path):
    folder = copied("three_diamonds", tmp_path)
    file, toucher = folder / "pattern.yaml", sewn(folder)
    file.write_text(source(folder) + "# mine\n", "utf-8")
    assert "was saved since this page showed it; nothing was written" in toucher.write()["stop"]
    toucher.bench.refresh()
    assert "shows an earlier state" in toucher.write()["stop"]
    assert source(folder).endswith("# mine\n")
    toucher.ask("look")
    assert "done" in toucher.write()
    file.write_text(source(folder) + "# mine again\n", "utf-8")
    assert toucher.ask("look")["undo"] == ""
    assert (
        "was saved by another editor since; nothing was put back" in toucher.write("undo")["stop"]
    )
    assert source(folder).endswith("# mine again\n")


def test_a_file_that_is_gone_a_link_and_a_folder_that_refuses_are_a_sentence_each(
    tmp_path, monkeypatch
):
    folder = copied("three_diamonds", tmp_path)
    file, toucher, before = folder / "pattern.yaml", sewn(folder), source(folder)

    def refuses(*_, **__):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr("tempfile.mkdtemp", refuses)
    said = toucher.write()["stop"]
    assert "permission denied; nothing that was there has been replaced. Ask who may write" in said
    assert "--out" not in said
    monkeypatch.undo()
    monkeypatch.setattr(os, "replace", refuses)
    assert "permission denied" in toucher.write()["stop"]
    monkeypatch.undo()
    assert source(folder) == before
    assert [path.name for path in folder.iterdir()] == ["pattern.yaml"]
    elsewhere = tmp_path / "elsewhere.yaml"
    file.rename(elsewhere)
    assert "is no longer in" in toucher.write()["stop"]
    file.symlink_to(elsewhere)
    assert "is a link, or no file; nothing was written" in toucher.write()["stop"]
    assert elsewhere.read_text("utf-8") == before
    file.unlink()
    folder.rmdir()
    assert "is no longer in" in toucher.write()["stop"]
    assert not folder.exists()


def test_an_order_that_does_not_sew_the_block_is_not_written(tmp_path):
    toucher = Toucher(copied("four_patch", tmp_path))
    toucher.ask("join", hand=["a", "b"])
    assert "is not sewn to its end yet; nothing was written" in toucher.write()["stop"]
    assert "is not sewn to its end" in toucher.write(steps=[])["stop"]


def test_while_the_source_has_faults_the_order_can_still_be_mended(tmp_path):
    folder = copied("four_patch", tmp_path)
    file = folder / "pattern.yaml"
    file.write_text(source(folder).replace("join: [c, d]", "join: [b, c]"), "utf-8")
    assert check(folder).value is None
    toucher = Toucher(folder)
    assert "cannot be sewn as it is written" in toucher.ask("written")["stop"]
    toucher.ask("alike", hand=["a", "b"])
    toucher.ask("join", hand=["a", "c"])
    assert "done" in toucher.write()
    assert check(folder).value is not None
    file.write_text("title: [", "utf-8")
    toucher.bench.refresh()
    assert "cannot be read yet: mend the faults first" in toucher.ask("look")["stop"]


# ---- the fabric of a piece


def test_the_scopes_of_a_piece_and_what_is_written(tmp_path):
    """Four blades in a ring, two sails and two rusts in turn, of one patch (the hub has another)."""
    folder = copied("cloths_in_ring", tmp_path)
    toucher, before = Toucher(folder), source(folder)
    told = toucher.ask("cloth", pieces=["b1"])
    assert told["said"] == [
        "b1 is a rectangle (B) of Sailcloth. 3 more pieces have its patch: b2, b3, b4."
    ]
    assert [(s["words"], s["pieces"]) for s in told["scopes"]] == [
        ("b1 alone", ("b1",)),
        ("all 4 of the ring b", ("b1", "b2", "b3", "b4")),
        ("all 2 of patch B in Sailcloth", ("b1", "b3")),
    ]
    for pieces, fabric, written in (
        (["b1"], "slate", "fabric: [slate, rust, sail, rust]"),
        (["b1", "b3"], "slate", "fabric: [slate, rust]"),
        (["b1", "b2", "b3", "b4"], "rust", "fabric: rust"),
        (["hub"], "rust", "fabric: rust   # the axle"),
    ):
        told = toucher.write("cloth", pieces=pieces, fabric=fabric)
        assert told["done"].startswith("Written into pattern.yaml")
        assert written in source(folder)
        assert "# two and two" in source(folder)
        assert check(folder).value is not None
        toucher.write("undo")
        assert source(folder) == before
    assert "no fabric `silk`" in toucher.write("cloth", pieces=["b1"], fabric="silk")["stop"]
    assert "no such piece" in toucher.write("cloth", pieces=["x"], fabric="rust")["stop"]
    assert "no such piece" in toucher.write("cloth", pieces=[], fabric="rust")["stop"]


def test_a_mix_is_never_dealt_anew_by_the_way(tmp_path):
    """Of a block dealt from a mix one piece alone cannot have another cloth: all that follow would be dealt otherwise."""
    folder = copied("scraps", tmp_path)
    toucher, before = Toucher(folder), source(folder)
    said = toucher.write("cloth", pieces=["r1c1"], fabric="rose")["stop"]
    assert "would change too, since they are dealt from a mix; nothing was written" in said
    assert source(folder) == before
    every = toucher.ask("cloth", pieces=["r1c1"])["scopes"][-1]["pieces"]
    assert "done" in toucher.write("cloth", pieces=every, fabric="rose")


def test_where_the_format_cannot_tell_it_a_sentence_says_so(tmp_path):
    toucher = Toucher(copied("drawn_star", tmp_path))
    piece = toucher.told["units"][0]["pieces"][0]
    told = toucher.ask("cloth", pieces=[piece])
    assert "is the fill of its shape in" in told["said"][0]
    assert told["scopes"] == []


# ---- who may send, and what


def sent(preview, body, path="touch", **heads):
    """The status and what was told."""
    origin = {"origin": "http://127.0.0.1:4000", "content-type": "application/json"}
    heads = {k.replace("_", "-"): v for k, v in heads.items()}
    given = {k: v for k, v in (HOST | origin | heads).items() if v}
    status, _, got = asked(preview, f"/{preview.token}/{path}", "POST", given, body)
    return status, got


def look(**more):
    return json.dumps({"do": "look", **more}).encode()


@pytest.fixture
def preview(tmp_path):
    made = Preview(copied("four_patch", tmp_path), 4000)
    made.bench.refresh()
    return made


def test_only_our_own_page_may_send(preview):
    status, got = sent(preview, look())
    assert status == 200
    assert json.loads(got)["block"] == "four"
    for path in ("touch", "write"):
        for wrong in (
            {"origin": ""},
            {"origin": "null"},
            {"origin": "http://elsewhere.example"},
            {"origin": "http://127.0.0.1:4001"},
            {"host": "elsewhere.example:4000"},
            {"sec_fetch_site": "cross-site"},
            {"sec_fetch_site": "same-site"},
            {"content_type": "text/plain"},
            {"content_type": "application/x-www-form-urlencoded"},
            {"content_type": ""},
        ):
            assert sent(preview, look(), path, **wrong)[0] == 404, wrong
    right = HOST | {"origin": "http://127.0.0.1:4000", "content-type": "application/json"}
    for path in ("/wrong/touch", "/touch", f"/{preview.token}/", f"/{preview.token}/sheet",
                 f"/{preview.token}/pattern.yaml", f"/{preview.token}/write/x"):  # fmt: skip
        assert asked(preview, path, "POST", right, look())[0] == 404
    for path in ("touch", "write"):
        assert asked(preview, f"/{preview.token}/{path}")[0] == 404  # asked for, not sent
        for method in ("PUT", "DELETE", "PATCH", "OPTIONS"):
            assert asked(preview, f"/{preview.token}/{path}", method, right, look())[0] == 404


def test_the_policy_of_the_page_is_as_it_was(preview):
    _, heads, body = asked(preview, f"/{preview.token}/")
    assert "script-src 'self'; style-src 'self'" in heads["content-security-policy"]
    assert "unsafe" not in heads["content-security-policy"]
    assert b"onclick" not in body
    assert b" style=" not in body


@pytest.mark.parametrize(
    ("body", "said"),
    [
        (b"", "not JSON"),
        (b"\xff\xfe", "not JSON"),
        (b"[" * 100_000, "not JSON"),
        (b'{"do": ' * 30_000, "not JSON"),
        (b"[]", "no group of keys"),
        (b'{"do": "rm"}', "nothing to ask by that name"),
        (b'{"do": "look", "steps": 3}', "`steps` is no list"),
        (b'{"do": "look", "steps": [3]}', "step is no group"),
        (b'{"do": "look", "steps": [{"join": ["a"]}]}', "two pieces or more"),
        (b'{"do": "look", "steps": [{"join": ["a", 7]}]}', "`join` is no name"),
        (look(hand=["x" * 200]), "`hand` is no name"),
        (look(hand=["x"] * 1001), "`hand` is no list of at most 1000"),
        (look(steps=[{"join": ["a", "b"]}] * 1001), "at most 1000 steps"),
        (look(steps=[{"join": ["a", "b"] * 20}] * 500), "more than 8000 pieces"),
    ],
)
def test_what_cannot_be_read_is_a_sentence(preview, body, said):
    with pytest.raises(Wrong):
        asked_of(body, DEEDS)
    status, got = sent(preview, body)
    assert status == 200
    assert said in json.loads(got)["stop"]


def test_a_huge_body_is_not_taken_in(preview):
    for path in ("touch", "write"):
        status, got = sent(preview, b" " * (MOST_BODY + 1), path)
        assert status == 413
        assert "nothing was done" in json.loads(got)["stop"]


@pytest.mark.parametrize(
    "name",
    [
        "<script>alert(1)</script>",
        "../../etc/passwd",
        "a\nsew: x",
        "\u202ea",
        "{{ a }}",
        "__class__",
    ],
)
def test_names_with_markup_are_only_names(preview, name):
    """They are no pieces; what is said of them is JSON, and the page puts it in as text."""
    before = source(preview.folder)
    for body in (
        look(steps=[{"join": [name, "a"]}]),
        look(steps=[{"join": ["a", "b"], "leave": name}]),
    ):
        status, got = sent(preview, body)
        assert status == 200
        assert "has no piece" in json.loads(got)["stop"]
    assert json.loads(sent(preview, look(hand=[name], block=name, size=name))[1])["hand"] == []
    seen = json.loads(sent(preview, look())[1])["seen"]
    asks = {
        "block": name,
        "source": seen,
        "steps": [{"join": [name, "a"]}],
        "pieces": [name],
        "fabric": name,
    }
    for do in ("order", "cloth", "undo"):
        assert "stop" in json.loads(
            sent(preview, json.dumps({"do": do, **asks}).encode(), "write")[1]
        )
    assert source(preview.folder) == before


def test_a_fault_of_ours_is_a_sentence(preview, monkeypatch):
    monkeypatch.setattr("booklet.preview.serving.touching.answer", lambda *_: 1 / 0)
    status, got = sent(preview, look())
    assert status == 500
    assert "the program, not your pattern, is at fault: ZeroDivisionError" in json.loads(got)[
        "stop"
    ].replace("The", "the")
