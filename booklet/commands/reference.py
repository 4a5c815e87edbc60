"""Floor 13: `booklet reference`: all of `booklet help` as one web page, with pictures."""

from __future__ import annotations

import argparse

from booklet.commands.line.page_file import write_page
from booklet.commands.line.saying import SOUND


def command(options: argparse.Namespace) -> int:
    """Write the page; the exit status. Raises OutputError."""
    status = write_page(options.file, options.replace, _page)
    if status == SOUND:
        print(f"wrote {options.file}")
    return status


def _page() -> str:
    from booklet.reference.page import page  # draws, which takes libraries

    return page()
