"""Floor 13, the guard: who may ask. Only this machine, only by the address with the token, and no other page.

A page of the network could make the author's browser ask for ours; it can read nothing without the token, and
what it asks for is refused by its `Origin`. A name that leads here (`Host`) is refused too.
"""

from __future__ import annotations

import secrets
from collections.abc import Mapping

HEADERS = {
    "Cache-Control": "no-store",
    "Content-Security-Policy": "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; "
    "font-src data:; connect-src 'self'; frame-src 'self'; frame-ancestors 'none'; base-uri 'none'; form-action 'none'",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Referrer-Policy": "no-referrer",
    "X-Content-Type-Options": "nosniff",
}
SHEET = {
    **HEADERS,
    "Content-Security-Policy": "default-src 'none'; img-src data:; font-src data:; style-src 'unsafe-inline'; "
    "frame-ancestors 'self'; base-uri 'none'; form-action 'none'; sandbox allow-same-origin",
}
"""Of the frame that the booklet stands in: nothing of it can run, be sent or be fetched."""
HELP = {
    **HEADERS,
    "Content-Security-Policy": "default-src 'none'; img-src data:; font-src data:; style-src 'unsafe-inline'; "
    "frame-ancestors 'none'; base-uri 'none'; form-action 'none'",
}
"""Of the page that tells how a pattern is written: it shows what is in it."""
PRINTED = {**HEADERS, "Content-Security-Policy": "default-src 'none'; frame-ancestors 'self'"}


def new_token() -> str:
    """A word that nobody guesses."""
    return secrets.token_urlsafe(24)


CHANGED = ("touch", "write")
"""What may be sent to us (POST), below the token; all else is only asked for."""


def admits_change(token: str, port: int, path: str, headers: Mapping[str, str]) -> bool:
    """Whether a request that sends something may be answered: as any other, from our own page by its `Origin`, to one of the
    two places that take something, and as JSON, which no form of another page can send."""
    sent = headers.get("content-type", "").partition(";")[0].strip().lower()
    return (
        admits(token, port, path, headers)
        and "origin" in headers
        and path in {f"/{token}/{name}" for name in CHANGED}
        and sent == "application/json"
    )


def admits(token: str, port: int, path: str, headers: Mapping[str, str]) -> bool:
    """Whether a request may be answered: the token in its path, a name of this machine, no other page's."""
    hosts = (f"127.0.0.1:{port}", f"localhost:{port}")
    given = path.removeprefix("/").partition("/")[0]
    if not secrets.compare_digest(given.encode(), token.encode()):
        return False
    if headers.get("host", "") not in hosts:
        return False
    origin = headers.get("origin")
    if origin is not None and origin not in {f"http://{host}" for host in hosts}:
        return False
    return headers.get("sec-fetch-site", "none") in ("none", "same-origin")
