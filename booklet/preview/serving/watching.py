"""Floor 13, watching: when something in the folder changes; the only door to watchfiles."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator
from pathlib import Path

from watchfiles import Change, awatch

STEP = 8  # ms of quiet after which a save is taken for whole
LONGEST = 250  # ms that a row of saves is waited for
AGAIN = 0.5  # s between looks for a folder that is gone
IDLE = 2000  # ms after which a watch asks whether its folder is still there


async def changes(folder: Path) -> AsyncIterator[None]:
    """Something, each time that files of the folder may have changed. It goes on when the folder vanishes,
    and when it comes back."""
    while True:
        try:
            async for found in awatch(
                folder,
                watch_filter=lambda change, path: matters(folder, change, path),
                step=STEP,
                debounce=LONGEST,
                rust_timeout=IDLE,
                yield_on_timeout=True,
                ignore_permission_denied=True,
            ):
                if found:
                    yield
                if not folder.is_dir():
                    break
        except (OSError, RuntimeError):  # watchfiles raises either where there is nothing to watch
            pass
        yield
        while not folder.is_dir():
            await asyncio.sleep(AGAIN)
        yield


def matters(folder: Path, change: Change, path: str) -> bool:
    """Whether a change may be one of the pattern: what is hidden, or built in `out`, is not."""
    try:
        parts = Path(path).relative_to(folder.resolve()).parts
    except ValueError:
        return True
    return not parts or not (parts[0] == "out" or any(part.startswith(".") for part in parts))
