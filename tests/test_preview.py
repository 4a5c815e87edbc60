"""The preview without a browser: who may ask, what is sent, where things are written, what follows a save."""

import asyncio
import json
import re
import shutil
import socket
from pathlib import Path

import pytest

from booklet.__main__ import main
from booklet.pages.document import Document
from booklet.preview.bench.bench import Bench, Choice
from booklet.preview.serving.guard import admits
from booklet.preview.serving.messages import told_look
from booklet.preview.serving.page_changes import SentSections
from booklet.preview.serving.server import Preview
from booklet.preview.serving.watching import changes, matters

PATTERNS = Path(__file__).parent / "patterns"
HOST = {"host": "127.0.0.1:4000"}


@pytest.fixture
def folder(tmp_path):
    """A folder of one's own with a small pattern."""
    shutil.copytree(PATTERNS / "four_patch", tmp_path / "four")
    return tmp_path / "four"


def save(folder, old, new):
    source = folder / "pattern.yaml"
    text = source.read_text("utf-8")
    assert old in text
    source.write_text(text.replace(old, new, 1), "utf-8")


# ---- who may ask


@pytest.mark.parametrize(
    ("path", "headers", "may"),
    [
        ("/word/", HOST, True),
        ("/word/events", {"host": "localhost:4000"}, True),
        ("/word/events", HOST | {"origin": "http://127.0.0.1:4000"}, True),
        ("/word/", HOST | {"sec-fetch-site": "none"}, True),  # typed, or opened by us
        ("/", HOST, False),
        ("/wort/", HOST, False),
        ("/word/", {}, False),
        ("/word/", {"host": "127.0.0.1:4001"}, False),
        ("/word/", {"host": "elsewhere.example:4000"}, False),  # a name that leads here
        ("/word/events", HOST | {"origin": "http://elsewhere.example"}, False),
        ("/word/events", HOST | {"origin": "null"}, False),
        ("/word/events", HOST | {"sec-fetch-site": "cross-site"}, False),
    ],
)
def test_only_the_address_with_the_token_is_answered(path, headers, may):
    assert admits("word", 4000, path, headers) is may


def asked(preview, path, method="GET", headers=HOST, body=b""):
    """The status, the headers and the body of an answer."""
    sent = []

    async def receive():
        return {"type": "http.request", "body": body, "more_body": False}

    async def send(message):
        sent.append(message)

    scope = {
        "type": "http",
        "asgi": {"version": "3.0"},
        "http_version": "1.1",
        "method": method,
        "scheme": "http",
        "path": path,
        "raw_path": path.encode(),
        "query_string": b"",
        "root_path": "",
        "headers": [(k.encode(), v.encode()) for k, v in headers.items()],
        "client": ("127.0.0.1", 50000),
        "server": ("127.0.0.1", 4000),
    }
    asyncio.run(preview.app()(scope, receive, send))
    heads = {k.decode(): v.decode() for k, v in sent[0]["headers"]}
    return sent[0]["status"], heads, b"".join(m.get("body", b"") for m in sent[1:])


def test_nothing_but_the_page_is_served(folder):
    preview = Preview(folder, 4000)
    below = f"/{preview.token}"
    status, heads, body = asked(preview, f"{below}/")
    assert status == 200
    assert b'<script src="desk.js"' in body
    assert "script-src 'self'" in heads["content-security-policy"]
    assert heads["referrer-policy"] == "no-referrer"
    status, heads, _ = asked(preview, f"{below}/sheet")
    assert status == 200
    assert "sandbox allow-same-origin" in heads["content-security-policy"]
    assert "script" not in heads["content-security-policy"]
    status, heads, body = asked(preview, f"{below}/help")
    assert status == 200 and b'id="rules-overlap"' in body
    assert "script" not in heads["content-security-policy"]
    for path in (
        "/",
        "/pattern.yaml",
        f"{below}/pattern.yaml",
        f"{below}/desk.html",
        f"{below}/../pattern.yaml",
        f"{below}/page/desk.js",
        f"{below}/printed/1.pdf",
        f"{below}/..%2f..%2fetc%2fpasswd",
    ):
        assert asked(preview, path)[0] == 404, path
    for method in ("POST", "PUT", "DELETE", "OPTIONS"):
        assert asked(preview, f"{below}/", method)[0] == 404
    assert asked(preview, f"{below}/", headers={"host": "elsewhere.example"})[0] == 404


# ---- what is sent


def document(style="s", **parts):
    return Document(
        name="n.html", title="t", html="", paper=None, style=style, parts=tuple(parts.items())
    )


def test_a_tab_is_sent_only_what_it_lacks():
    sent = SentSections()
    first = sent.change(document(opening="a", cutting="b", piecing="c"))
    assert (dict(first.parts), first.style) == (
        {"opening": "a", "cutting": "b", "piecing": "c"},
        "s",
    )
    same = sent.change(document(opening="a", cutting="b", piecing="c"))
    assert (dict(same.parts), dict(same.pieces), same.style) == ({}, {}, None)
    one = sent.change(document(opening="a", cutting="B", piecing="c"))
    assert (dict(one.parts), one.style) == ({"cutting": "B"}, None)
    less = sent.change(document(opening="a", piecing="c"))
    assert less.order == ("opening", "piecing")
    assert less.parts  # a section less has to be told
    style = sent.change(document(style="S", opening="a", piecing="c"))
    assert (dict(style.parts), style.style) == ({}, "S")


def test_a_section_may_come_before_its_page():
    sent = SentSections()
    assert sent.early("opening", "a", {}) is None  # nothing has a place yet
    sent.change(document(opening="a", cutting="b"))
    assert sent.early("piecing", "c", {}) is None
    assert sent.early("opening", "a", {}) is None
    one = sent.early("cutting", "B", {"p": "x"})
    assert one is not None
    assert (dict(one.parts), dict(one.pieces), one.style) == ({"cutting": "B"}, {"p": "x"}, None)
    assert not sent.change(document(opening="a", cutting="B")).parts


def test_sections_come_as_soon_as_they_are_set_and_none_comes_twice(folder):
    bench, sent = Bench(folder), SentSections()
    bench.refresh()
    there = dict(sent.change(bench.shown(Choice()).document).parts)
    save(folder, "unit: 2 in", "unit: 2 1/4 in")
    bench.refresh()
    told = []
    page = bench.shown(Choice(), lambda *part: told.append((*part[:2], dict(part[2])))).document
    early = [one for part in told if (one := sent.early(*part)) is not None]
    ahead = {name: markup for one in early for name, markup in one.parts.items()}
    rest = sent.change(page)
    assert "opening" in early[0].parts
    assert len(early) >= 3  # a section may be as it was, and one of its pieces not
    assert not set(ahead) & set(rest.parts)
    assert not {piece for one in early for piece in one.pieces} & set(rest.pieces)
    assert there | ahead | dict(rest.parts) == {name: str(m) for name, m in page.parts}


def test_a_tab_hears_of_sections_before_it_hears_of_the_page(folder):
    async def heard():
        preview, kinds = Preview(folder, 4000), []
        await preview._refresh()
        news = preview._news_for(Choice())
        while not (event := await anext(news)).startswith("event: page"):
            pass
        save(folder, "unit: 2 in", "unit: 2 1/4 in")
        await preview._refresh()
        while not (event := await anext(news)).startswith("event: page"):
            kinds.append(event.partition("\n")[0])
        await news.aclose()
        return kinds, json.loads(event.partition("data: ")[2])

    kinds, page = asyncio.run(heard())
    assert kinds.count("event: part") >= 3
    assert "event: look" in kinds[: kinds.index("event: part")]
    assert "opening" not in page["parts"]


def test_a_title_changes_no_step_and_what_is_as_it_was_nothing(folder):
    bench, sent = Bench(folder), SentSections()
    bench.refresh()
    every = sent.change(bench.shown(Choice()).document)
    assert {"opening", "cutting", "templates", "piecing"} <= set(every.parts)
    save(folder, "title: Four Patch", "title: Fine Patch")
    assert bench.refresh()
    title = sent.change(bench.shown(Choice()).document)
    assert "opening" in title.parts
    assert not {"cutting", "piecing", "sizes"} & set(title.parts)
    save(folder, "#243b6b", "#243b6c")
    save(folder, "#243b6c", "#243b6b")
    assert not bench.refresh()  # as it was


def test_a_built_booklet_bears_no_marks(folder):
    from booklet.pages.composing import compose
    from booklet.pages.pictures.album import drawn
    from booklet.plan import make_plan

    bench = Bench(folder)
    bench.refresh()
    from booklet.recipe.checking import check

    plan = make_plan(check(folder).value)
    built = compose(plan, plan.pattern.booklet.editions[0], drawn(plan)).html
    assert "data-of" not in built
    shown = bench.shown(Choice()).document
    assert any("data-of" in markup for _, markup in (*shown.parts, *shown.pieces.items()))


# ---- where things are written


@pytest.mark.parametrize("name", ["four_patch", "log_cabin", "sampler_six", "long_borders"])
def test_every_key_leads_to_the_line_that_names_it(name):
    bench = Bench(PATTERNS / name)
    bench.refresh()
    shown = bench.shown(Choice())
    lines = (PATTERNS / name / "pattern.yaml").read_text("utf-8").splitlines()
    for key, span in shown.places.items():
        kind, *names = key.split("/")
        assert 1 <= span.line <= len(lines), key
        if kind in ("fabric", "size"):
            assert re.match(rf"\s*{names[0]}:", lines[span.line - 1]), (key, span)
        if kind == "border":
            near = "\n".join(lines[span.line - 1 : span.line + 1])
            assert "width" in near or "border" in near, (key, span)
    first = {of.split(" ")[0] for of in re.findall(r'data-of="([^"]+)"', shown.document.html)}
    lost = {key for key in first if key not in shown.places and not key.startswith("designer")}
    assert lost == set()


def test_a_piece_leads_to_its_line(folder):
    bench = Bench(folder)
    bench.refresh()
    lines = (folder / "pattern.yaml").read_text("utf-8").splitlines()
    places = bench.shown(Choice()).places
    pieces = {key: span for key, span in places.items() if key.startswith("piece/")}
    assert len(pieces) == 4
    assert all("[" in lines[span.line - 1] for span in pieces.values())


# ---- what follows a save


def test_errors_keep_the_page_and_say_so(folder):
    bench = Bench(folder)
    assert bench.refresh()
    before = bench.shown(Choice())
    save(folder, "sizes:", "sizez:")
    assert bench.refresh()
    assert not bench.look.sound
    assert bench.shown(Choice()) is before
    known = {}
    told = told_look(bench.look, "four", known)
    assert any(fault["code"] == "unknown-key" for fault in told["faults"])
    assert set(told["files"]) == {"pattern.yaml"}
    assert told_look(bench.look, "four", known)["files"] == {}  # the tab has them
    save(folder, "sizez:", "sizes:")
    assert bench.refresh()
    assert bench.look.sound


def test_a_pattern_is_typed_letter_by_letter(tmp_path):
    """Every 23rd state of it (with both ends): each one is a page or a list of faults."""
    text = (PATTERNS / "four_patch" / "pattern.yaml").read_bytes()
    bench = Bench(tmp_path)
    for length in (*range(0, len(text), 23), len(text)):
        (tmp_path / "pattern.yaml").write_bytes(text[:length])
        bench.refresh()
        assert not bench.look.trouble
        assert bench.look.sound or bench.look.diagnostics
        bench.shown(Choice())
    assert bench.look.sound


def test_a_folder_that_is_gone_is_a_fault(folder):
    bench = Bench(folder)
    bench.refresh()
    shown = bench.shown(Choice())
    shutil.rmtree(folder)
    assert bench.refresh()
    assert [d.code for d in bench.look.diagnostics] == ["unreadable-source"]
    assert bench.shown(Choice()) is shown


def test_what_we_cannot_do_is_a_sentence(folder, monkeypatch):
    preview = Preview(folder, 4000)
    monkeypatch.setattr("booklet.recipe.study.check_pattern", lambda read, ask: 1 / 0)
    asyncio.run(preview._refresh())
    assert (
        "the program, not your pattern, is at fault: ZeroDivisionError"
        in preview.bench.look.trouble
    )
    monkeypatch.undo()
    asyncio.run(preview._refresh())
    assert preview.bench.look.sound
    assert not preview.bench.look.trouble


def test_a_save_wakes_and_a_folder_may_go_and_come_back(folder):
    async def watched():
        found = changes(folder)

        async def after(does):
            waiting = asyncio.ensure_future(anext(found))
            await asyncio.sleep(0.3)
            does()
            await asyncio.wait_for(waiting, 20)

        await after(lambda: save(folder, "title:", "title: "))
        await after(lambda: shutil.rmtree(folder))
        await after(lambda: shutil.copytree(PATTERNS / "four_patch", folder))
        await asyncio.sleep(0.1)
        await found.aclose()

    asyncio.run(watched())


@pytest.mark.parametrize(
    ("name", "does"),
    [
        ("pattern.yaml", True),
        ("text/welcome.md", True),
        ("out/x.pdf", False),
        (".git/index", False),
        ("text/.x.swp", False),
    ],
)
def test_what_is_built_or_hidden_is_not_watched(folder, name, does):
    assert matters(folder, 1, str(folder / name)) is does


# ---- the command


def test_a_port_that_is_taken_is_a_sentence(folder, capsys):
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
        assert main(["preview", str(folder), "--port", str(port)]) == 1
    said = capsys.readouterr().err
    assert said == (
        f"booklet: port {port} cannot be had: another program uses it, or it is kept for the system; "
        "take another, or leave --port out\n"
    )
    assert main(["preview", str(folder), "--port", "70000"]) == 2
    assert "there is no port 70000" in capsys.readouterr().err


def test_a_folder_that_is_not_there_is_a_sentence(tmp_path, capsys):
    assert main(["preview", str(tmp_path / "none")]) == 2
    assert "there is no folder" in capsys.readouterr().err
