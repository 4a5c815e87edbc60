"""Floor 13, the server: answers the author's browser; the only door to Starlette and uvicorn.

A tab asks for its page once and then listens (server-sent events): first to what the folder says, then to what
it lacks of the page it shows.
"""

from __future__ import annotations

import asyncio
import json
import socket
from collections.abc import AsyncIterator, Callable
from contextlib import suppress
from importlib import resources
from pathlib import Path
from typing import Any

import uvicorn
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import (
    HTMLResponse,
    JSONResponse,
    PlainTextResponse,
    Response,
    StreamingResponse,
)
from starlette.routing import Route
from starlette.types import ASGIApp, Receive, Scope, Send

from booklet.kit.records import field_names
from booklet.pages.pictures.page_parts import PartListener
from booklet.pages.style.fonts import font_rules
from booklet.pattern import Paper
from booklet.preview.bench.bench import Bench, Choice, ShownPage
from booklet.preview.serving.guard import (
    HEADERS,
    HELP,
    PRINTED,
    SHEET,
    admits,
    admits_change,
    new_token,
)
from booklet.preview.serving.hand import ArrivingParts, Hand
from booklet.preview.serving.messages import told_look, told_page, told_part
from booklet.preview.serving.page_changes import SentSections
from booklet.preview.serving.proof import Printer
from booklet.preview.serving.touching import Touching
from booklet.preview.serving.watching import changes
from booklet.preview.touch.asked import MOST_BODY

BEAT = 1.0  # s between looks whether the preview ends; a tab is sent a sign of life now and then
SHEET_PAGE = "<!DOCTYPE html><html><head><title>-</title></head><body></body></html>"
_KINDS = {
    "desk.css": "text/css",
    "desk.js": "text/javascript",
    "touch.css": "text/css",
    "touch.js": "text/javascript",
}


class Preview:
    """One folder, served on one port of this machine."""

    def __init__(
        self, folder: Path, port: int, trust_pages: bool = False, language: str | None = None
    ) -> None:
        self.folder, self.port, self.token = folder, port, new_token()
        self.bench, self.hand, self.printer = (
            Bench(folder, trust_pages, language),
            Hand(),
            Printer(),
        )
        self.touching = Touching(folder, self.bench)
        self.busy = False
        self._told_help: str | None = None
        self._news = asyncio.Condition()
        self.ending: Callable[[], bool] = lambda: False

    @property
    def address(self) -> str:
        """The address of the page."""
        return f"http://127.0.0.1:{self.port}/{self.token}/"

    def app(self) -> ASGIApp:
        """What answers requests."""
        below = f"/{self.token}"
        routes = [
            Route(f"{below}/", self._desk),
            Route(f"{below}/sheet", self._sheet),
            Route(f"{below}/help", self._help),
            Route(f"{below}/events", self._events),
            Route(f"{below}/printing", self._printing),
            Route(f"{below}/printed/{{number:int}}.pdf", self._printed),
            Route(f"{below}/touch", self._touch, methods=["POST"]),
            Route(f"{below}/write", self._write, methods=["POST"]),
            Route(f"{below}/{{name}}", self._file),
        ]
        return Guarded(Starlette(routes=routes), self.token, self.port)

    async def follow(self) -> None:
        """Look at the folder after every save, as long as the preview lasts."""
        await self._refresh()
        async for _ in changes(self.folder):
            await self._refresh()

    async def _refresh(self) -> None:
        self.busy, self.bench.doing = True, ""
        await self._wake()
        try:
            await self.hand.do(self.bench.refresh)
        except Exception as fault:
            self.bench.fail(fault)
        finally:
            self.busy = False
            await self._wake()

    async def _wake(self) -> None:
        async with self._news:
            self._news.notify_all()

    async def _desk(self, request: Request) -> Response:
        text = (resources.files("booklet.preview") / "page" / "desk.html").read_text("utf-8")
        return HTMLResponse(text)

    async def _sheet(self, request: Request) -> Response:
        return HTMLResponse(SHEET_PAGE, headers=SHEET)

    async def _help(self, request: Request) -> Response:
        """How a pattern is written, with pictures: drawn when it is first asked for."""
        if self._told_help is None:
            from booklet.reference.page import page  # few look at it

            self._told_help = await self.hand.do(page)
        return HTMLResponse(self._told_help, headers=HELP)

    async def _file(self, request: Request) -> Response:
        name = request.path_params["name"]
        if name not in _KINDS:
            return _nothing()
        text = (resources.files("booklet.preview") / "page" / name).read_text("utf-8")
        if name == "desk.css":
            text = font_rules("") + text
        return Response(text, media_type=_KINDS[name])

    async def _events(self, request: Request) -> Response:
        choice = _choice(request)
        return _stream(self._news_for(choice))

    async def _news_for(self, choice: Choice) -> AsyncIterator[str]:
        """The events of one tab."""
        sent, known, seen, quiet = SentSections(), dict[str, bytes](), -1, 0
        while not self.ending():
            look = self.bench.look
            if self.busy:
                yield _event("busy", {"words": self.bench.doing})
            if look.number and look.number != seen:
                seen, quiet = look.number, 0
                yield _event("look", told_look(look, str(self.folder), known))
                parts = ArrivingParts()
                making = asyncio.create_task(self._shown(choice, parts.tell))
                making.add_done_callback(parts.end)
                async for name, markup, pieces in parts:
                    early = sent.early(name, markup, pieces)
                    if early is not None:
                        yield _event("part", told_part(early))
                if (shown := await making) is not None:
                    change = sent.change(shown.document)
                    yield _event("page", told_page(look.number, shown, change))
                continue
            if not self.busy:
                yield _event("idle", {})
            async with self._news:
                with suppress(TimeoutError):
                    await asyncio.wait_for(self._news.wait(), BEAT)
            quiet += 1
            if quiet % 15 == 0:
                yield ": here\n\n"

    async def _shown(self, choice: Choice, told: PartListener) -> ShownPage | None:
        """The page of a choice; None where there is none."""
        try:
            return await self.hand.do(self.bench.shown, choice, told)
        except Exception as fault:
            self.bench.fail(fault)
            return None

    async def _printing(self, request: Request) -> Response:
        choice = _choice(request)
        known = {paper.value: paper for paper in Paper}
        paper = known.get(request.query_params.get("paper", ""))
        if paper is None:
            return _nothing()
        return _stream(self._laid_out(choice, paper))

    async def _laid_out(self, choice: Choice, paper: Paper) -> AsyncIterator[str]:
        """The events of a booklet that is laid out for a paper."""
        yield _event("drawing", {"words": "drawing the pictures"})
        document = await self.hand.do(self.bench.print_page, choice, paper)
        if document is None:
            yield _event("stop", {"words": "there is no sound pattern to lay out yet"})
            return
        async for kind, told in self.printer.laid_out(document):
            yield _event(kind, told)

    async def _printed(self, request: Request) -> Response:
        data = self.printer.found(request.path_params["number"])
        if data is None:
            return _nothing()
        return Response(data, media_type="application/pdf", headers=PRINTED)

    async def _touch(self, request: Request) -> Response:
        return await self._told(request, self.touching.touched)

    async def _write(self, request: Request) -> Response:
        return await self._told(request, self.touching.written)

    async def _told(self, request: Request, does: Callable[[bytes], dict[str, Any]]) -> Response:
        """What is said to what was sent; nothing larger than it can be is taken in."""
        body = bytearray()
        async for part in request.stream():
            body += part
            if len(body) > MOST_BODY:
                said = f"What was sent is larger than {MOST_BODY} bytes; nothing was done."
                return JSONResponse({"stop": said}, status_code=413)
        try:
            return JSONResponse(await self.hand.do(does, bytes(body)))
        except Exception as fault:
            words = " ".join(f"{type(fault).__name__}: {fault}".split())[:200]
            said = f"The program, not your pattern, is at fault: {words}"
            return JSONResponse({"stop": said}, status_code=500)


class Guarded:
    """Answers only those who may ask; all others hear that nothing is there."""

    def __init__(self, app: ASGIApp, token: str, port: int) -> None:
        self._app, self._token, self._port = app, token, port

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        if scope["type"] != "http":
            return
        headers = {
            name.decode("latin-1"): value.decode("latin-1") for name, value in scope["headers"]
        }
        asked = {"GET": admits, "HEAD": admits, "POST": admits_change}.get(scope["method"])
        if asked is None or not asked(self._token, self._port, scope["path"], headers):
            await _nothing()(scope, receive, send)
            return

        async def sent(message: Any) -> None:
            if message["type"] == "http.response.start":
                given = {name.lower() for name, _ in message["headers"]}
                message["headers"] += [
                    (name.lower().encode(), value.encode())
                    for name, value in HEADERS.items()
                    if name.lower().encode() not in given
                ]
            await send(message)

        await self._app(scope, receive, sent)


def _nothing() -> Response:
    return PlainTextResponse("Nothing is here.\n", status_code=404, headers=HEADERS)


def _event(kind: str, told: dict[str, Any]) -> str:
    """One server-sent event."""
    return f"event: {kind}\ndata: {json.dumps(told)}\n\n"


def _stream(events: AsyncIterator[str]) -> Response:
    return StreamingResponse(events, media_type="text/event-stream")


def opened(port: int) -> socket.socket:
    """A socket on this machine's own address. Raises OSError where the port is taken; port 0 is any free one."""
    return socket.create_server(("127.0.0.1", port))


async def serve(preview: Preview, listening: socket.socket) -> None:
    """Serve until somebody asks us to end."""
    config = uvicorn.Config(
        preview.app(),
        log_level="critical",
        lifespan="off",
        ws="none",
        server_header=False,
        timeout_graceful_shutdown=2,
    )
    server = uvicorn.Server(config)
    preview.ending = lambda: server.should_exit
    following = asyncio.create_task(preview.follow())
    try:
        await server.serve(sockets=[listening])
    finally:
        following.cancel()
        preview.printer.close()
        with suppress(asyncio.CancelledError):
            await following


def _choice(request: Request) -> Choice:
    """What a tab asks to be shown."""
    return Choice(**{name: request.query_params.get(name, "") for name in field_names(Choice)})
