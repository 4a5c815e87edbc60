"""What strangers might send: checked, built and opened, and nothing happens that the booklet does not say.

A folder ends in a sentence or in a booklet. What is built is opened in a browser while a listener waits on
the loopback addresses: no request, no dialog, no navigation, nothing that could run, and no byte of a
secret that lies beside the folder.
"""

import base64
import io
import os
import re
import shutil
import socket
import sys
import threading
import unicodedata
from contextlib import contextmanager
from pathlib import Path

import hostile
import pypdf
import pypdfium2
import pytest
from browser import started
from corpus import documents
from picture_bytes import png

from booklet.commands.line import console
from booklet.exports.files import exported
from booklet.pages.prepress.pdf import make_pdf
from booklet.pages.screen.script import script
from booklet.pages.style.fonts import boxed
from booklet.pages.texts.templating import OwnPageError
from booklet.pattern import Paper
from booklet.recipe import compiler
from booklet.source.files.folder import source_text

GROUPS = hostile.groups()
LONG = {
    "text: a line that never ends"
}  # a browser lays it out for seconds: opened where all is asked for
SECRET_PICTURE = png(5, 7)


class Listener:
    """Counts who connects on the loopback addresses."""

    def __init__(self):
        self.heard = []
        self.server = socket.create_server(("127.0.0.1", 0))
        self.address = f"127.0.0.1:{self.server.getsockname()[1]}"
        threading.Thread(target=self.listen, daemon=True).start()

    def listen(self):
        while True:
            try:
                connection, _ = self.server.accept()
            except OSError:
                return
            self.heard.append(connection.recv(200))
            connection.close()


@pytest.fixture(scope="module")
def listener():
    made = Listener()
    yield made
    made.server.close()


class Window:
    """A window of the browser, and all that happens in it beside what it was told."""

    def __init__(self, browser):
        self.context = browser.new_context()
        self.page = self.context.new_page()
        self.page.set_default_timeout(180_000)  # a line that never ends takes long to lay out
        self.seen = []
        self.stopped = []  # by the page's policy, before anything left the browser
        self.context.on("request", lambda request: self.note("request", request.url))
        self.context.on("requestfailed", self.failed)
        self.page.on("dialog", self.dismiss)
        self.page.on("popup", lambda page: self.note("window", page.url))
        self.page.on("download", lambda download: self.note("download", download.url))
        self.page.on("framenavigated", lambda frame: self.note("navigation", frame.url))

    def note(self, what, address):
        if not address.startswith("data:"):
            self.seen.append((what, address))

    def failed(self, request):
        if "csp" in (request.failure or "").lower():
            self.stopped.append(("request", request.url))

    def dismiss(self, dialog):
        self.note("dialog", dialog.message)
        dialog.dismiss()

    def read(self, path: Path):
        """What in a file could run or lead away: it is read, not shown."""
        return self.page.evaluate(FOUND, path.read_text("utf-8").replace(OURS, ""))

    def opened(self, path: Path, has_script: bool = True):
        """What happens when a file is opened, and what in it could run or lead away."""
        self.seen.clear()
        self.stopped.clear()
        self.page.goto(path.as_uri())
        if has_script:
            self.page.wait_for_selector(
                "#bar:not([hidden])"
            )  # our script has run, and nothing else
            scripts = self.page.evaluate("[...document.scripts].map(each => each.outerHTML)")
            assert [each for each in scripts if not each.startswith("<script type=")] == [OURS]
        sheets = self.page.evaluate("document.styleSheets.length")
        found = [] if sheets == 1 else [f"styles {sheets}"]
        here = {(what, path.as_uri()) for what in ("request", "navigation")}
        return [each for each in self.seen if each not in here] + found + self.read(path)


OURS = f"<script>{script()}</script>"

# elements and attributes that run, fetch or send; addresses that are neither a place, nor https, mail or data
# of the page as it was written, without our script, which the browser has read but not shown
FOUND = """html => {
  const shown = new DOMParser().parseFromString(html, 'text/html');
  return (document => {
  const bad = [...document.querySelectorAll('script,iframe,frame,object,embed,applet,base,form,input,button,link,' +
    'audio,video,source,template,noscript,foreignObject,animate,set,use,math,marquee,dialog,meta[http-equiv=refresh]')]
    .filter(e => !e.matches('body > script[type]:is(#said, #pack), use[href^="#_"]'))
    .filter(e => !e.closest('body > #bar, body > dialog') || e.matches('script, iframe, base, a, img'));
  const found = bad.map(e => 'element ' + e.tagName);
  for (const e of document.querySelectorAll('*')) for (const a of e.attributes) {
    if (/^on/i.test(a.name)) found.push('runs ' + a.name);
    if (/^(href|xlink:href)$/i.test(a.name) && !/^(#|https:|mailto:)/.test(a.value)) found.push('leads ' + a.value);
    if (/^(src|srcset|poster|data|action|ping)$/i.test(a.name) && !/^data:image\\/(png|jpeg|svg)/.test(a.value)) found.push('fetches ' + a.value);
    if (a.name == 'style' && /url\\((?!"?data:image)/.test(a.value)) found.push('fetches ' + a.value);
  }
  if (document.querySelectorAll('main').length != 1) found.push('pages');
  return found;
  })(shown);
}"""


@pytest.fixture(scope="module")
def window():
    with started() as browser:
        yield Window(browser)


@contextmanager
def laid(case, home: Path, listener):
    """The folder of a case on the disk, beside a folder with secrets."""
    outside, folder = home / "outside", home / "pattern"
    (outside / "pages").mkdir(parents=True)
    for name in ("secret.md", "secret.html", "secret.css", "secret.yaml", "pages/notes.html"):
        (outside / name).write_text(f"{hostile.SECRET} {{{{ title }}}}", encoding="utf-8")
        (home / Path(name).name).write_text(hostile.SECRET, encoding="utf-8")
    (outside / "secret.png").write_bytes(SECRET_PICTURE)
    (home / "secret.png").write_bytes(SECRET_PICTURE)
    for name, data in {**hostile.SOUND, **case.files}.items():
        path = folder / name
        if any(parent.is_symlink() or parent.is_file() for parent in path.parents):
            continue  # what was put in its way
        if path.is_dir():
            shutil.rmtree(path)
        path.parent.mkdir(parents=True, exist_ok=True)
        path.unlink(missing_ok=True)
        match data:
            case hostile.Link():
                path.symlink_to(data.to.replace("@OUT", str(outside)))
            case hostile.Odd(size=None):
                os.mkfifo(path)
            case hostile.Odd():
                path.touch()
                os.truncate(path, data.size)
            case _:
                raw = data if isinstance(data, bytes) else data.encode("utf-8", "surrogatepass")
                if path.suffix != ".ttf":  # by chance those signs stand in a whole font
                    raw = raw.replace(b"@L", listener.address.encode())
                    raw = raw.replace(b"@OUT", str(outside).encode())
                path.write_bytes(raw)
    yield folder
    shutil.rmtree(home)


def built(folder: Path, trusted: bool, in_print: bool):
    """What a folder becomes: what is said of it, and its files by name (none if there is a fault)."""
    outcome = compiler.check(folder, trusted)
    said = console.as_text(outcome.diagnostics, lambda file: source_text(folder, file))
    said += console.as_json(outcome.diagnostics)
    files: dict[str, bytes] = {}
    if outcome.value is None:
        assert any(d.is_error for d in outcome.diagnostics)
        return said, files
    plan = compiler.plan(outcome.value)
    papers = (Paper.A5,) if in_print else ()
    try:
        for edition in plan.pattern.booklet.editions:
            for document in documents(plan, edition, papers):
                html = document.html
                files[document.name] = (
                    make_pdf(boxed(html)).data if document.paper else html.encode("utf-8")
                )
    except OwnPageError as fault:
        return said + console.as_text((fault.fault,), lambda file: None), {}
    return said, files


def leaked(data: bytes) -> bool:
    """Whether a secret is in a file."""
    return hostile.SECRET.encode() in data or base64.b64encode(SECRET_PICTURE) in data


ACTIONS = {"/JS", "/JavaScript", "/Launch", "/SubmitForm", "/GoToR", "/GoToE", "/ImportData", "/EmbeddedFile", "/AA", "/RichMedia"}  # fmt: skip


def pdf_faults(data: bytes):
    """What in a PDF runs, opens another file, leads elsewhere than to https or mail, or is a secret."""
    reader = pypdf.PdfReader(io.BytesIO(data))
    numbers = {number for table in (reader.xref[0], reader.xref_objStm) for number in table}
    for number in sorted(numbers):
        found = pypdf.generic.IndirectObject(number, 0, reader).get_object()
        is_stream = isinstance(found, pypdf.generic.StreamObject)
        if is_stream and hostile.SECRET.encode() in found.get_data():
            yield "secret"
        if isinstance(found, pypdf.generic.DictionaryObject):
            yield from ACTIONS & {*found, found.get("/S"), found.get("/Type")}
            action = found.get("/A")
            address = str(action.get_object().get("/URI", "")) if action else ""
            if address and not address.startswith(("https:", "mailto:")):
                yield address
    sheets = pypdfium2.PdfDocument(data)
    if hostile.SECRET in "".join(sheet.get_textpage().get_text_bounded() for sheet in sheets):
        yield "secret"


def steers(said: str):
    """The signs of a message that could steer a terminal."""
    return [
        c
        for c in said
        if unicodedata.category(c) in ("Cc", "Cs", "Cf") and c not in "\n\u200d\u200c"
    ]


@pytest.mark.skipif(sys.platform == "win32", reason="names and links of another kind")
@pytest.mark.parametrize("kind", sorted(GROUPS))
def test_nothing_happens_that_the_booklet_does_not_say(
    kind, tmp_path, window, listener, pytestconfig
):
    """Every page is read for what could run; every third is opened too, unless everything is asked for."""
    opened, step = 0, 1 if pytestconfig.getoption("--everything") else 3
    for number, case in enumerate(GROUPS[kind]):
        # where nobody trusts them pages are not read at all: a few are enough to see it
        for trusted in (False, True) if case.has_pages and number % 12 == 0 else (case.has_pages,):
            with laid(case, tmp_path / f"{number}-{trusted}", listener) as folder:
                said, files = built(folder, trusted, case.in_print)
                assert hostile.SECRET not in said, case.name
                assert not (folder.parent / "outside" / "pwned").exists(), case.name
                assert not steers(said), (case.name, steers(said))
                for name, data in files.items():
                    assert not leaked(data), case.name
                    if name.endswith(".pdf"):
                        assert list(pdf_faults(data)) == [], case.name
                        continue
                    path = folder / "out.html"
                    path.write_bytes(data)
                    is_read = number % step or (step > 1 and case.name in LONG)
                    seen = window.read(path) if is_read else window.opened(path)
                    # a style sheet of one's own may ask, and the policy stops it; a stranger's is not there
                    assert [
                        each for each in seen if not trusted or each not in window.stopped
                    ] == [], case.name
                    opened += 1
    assert listener.heard == []
    assert opened > 0 or kind in ("names", "signs")  # where each is refused


def test_there_are_folders_enough():
    names = [case.name for cases in GROUPS.values() for case in cases]
    assert len(names) == len(set(names)) >= 150
    assert set(names) >= LONG


def test_the_watchers_see_what_they_watch_for(tmp_path, window, listener):
    """A page without a policy that asks, opens a dialog and leads away is caught at each."""
    heard = len(listener.heard)
    page = tmp_path / "x.html"
    page.write_text(
        f"<img src=http://{listener.address}/x><script>alert(1)</script><a href='javascript:1'>x</a>"
        f"<meta http-equiv=refresh content='5;url=http://{listener.address}/y'>",
        encoding="utf-8",
    )
    seen = window.opened(page, has_script=False)
    assert {each[0] for each in seen if isinstance(each, tuple)} == {"request", "dialog"}
    assert {"element SCRIPT", "element META", "leads javascript:1"} <= set(seen[2:])
    assert len(listener.heard) > heard
    listener.heard.clear()


def test_no_cell_is_a_formula(tmp_path, listener):
    for number, case in enumerate(GROUPS["cells"]):
        with laid(case, tmp_path / str(number), listener) as folder:
            checked = compiler.check(folder).value
            for name, data in exported(compiler.plan(checked)):
                if name.endswith(".csv"):
                    for cell in re.split(rb"[,;\r\n|]", data.decode("utf-8-sig").encode()):
                        plain = cell.decode().strip("\"' \u00a0") if cell[:1] != b"'" else ""
                        assert plain[:1] not in tuple("=+@-%") or not plain, (case.name, cell)
