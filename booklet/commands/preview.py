"""Floor 13: `booklet preview`: the booklet in a browser on this machine, following every save."""

from __future__ import annotations

import argparse
import asyncio
import os
import sys
from contextlib import suppress
from typing import TYPE_CHECKING

from booklet.commands.line.arguments import WRONG_CALL
from booklet.commands.line.asking import unknown_language, wrong_folder
from booklet.commands.line.saying import SOUND, complain
from booklet.kit.running.stopping import Stopped
from booklet.source.files.folder import SOURCE

if TYPE_CHECKING:
    import socket

    from booklet.preview.serving.server import Preview


def command(options: argparse.Namespace) -> int:
    """Serve until Ctrl-C; the exit status."""
    if wrong := wrong_folder(options):
        return complain(wrong, WRONG_CALL)
    if not 0 <= options.port <= 65535:
        return complain(
            f"there is no port {options.port}: take one from 1024 to 65535, or leave --port out",
            WRONG_CALL,
        )
    if wrong := _unknown_language(options):
        return complain(wrong, WRONG_CALL)
    from booklet.preview.serving.server import opened

    try:
        listening = opened(options.port)
    except OSError:
        return complain(
            f"port {options.port} cannot be had: another program uses it, or it is kept for the system; "
            "take another, or leave --port out"
        )
    from booklet.preview.serving.server import Preview

    port = listening.getsockname()[1]
    preview = Preview(options.folder, port, options.trust_pages, options.language)
    with listening, suppress(Stopped):
        asyncio.run(_served(options, preview, listening))
    print(f"the preview has ended; {_written(preview.touching.writer.written)}", file=sys.stderr)
    return SOUND


def _unknown_language(options: argparse.Namespace) -> str | None:
    """A sentence where no edition has the language asked for; a pattern that cannot be read yet may still get it."""
    if options.language is None:
        return None
    from booklet.source.reader import read_folder

    pattern = read_folder(options.folder, options.trust_pages).value
    return unknown_language(pattern, [options.language]) if pattern is not None else None


def _written(times: int) -> str:
    """What was written meanwhile."""
    if not times:
        return "nothing was written"
    return f"{SOURCE} was written {'once' if times == 1 else f'{times} times'}, as was asked for"


async def _served(options: argparse.Namespace, preview: Preview, listening: socket.socket) -> None:
    """Say where the page is, show it, and serve it."""
    from booklet.preview.serving.server import serve

    print(f"the preview of {options.folder} is at", file=sys.stderr)
    print(preview.address, flush=True)
    print("It follows every save. Ctrl-C ends it.", file=sys.stderr)
    if not options.no_open and _has_screen():
        import webbrowser

        webbrowser.open(preview.address)
    await serve(preview, listening)


def _has_screen() -> bool:
    """Whether a browser with windows can be opened here."""
    if sys.platform in ("win32", "darwin"):
        return True
    return bool(os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY"))
