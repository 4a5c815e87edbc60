"""Floor 13: `booklet new`: a small pattern that builds."""

from __future__ import annotations

import argparse
from pathlib import Path

from booklet.commands.line.saying import SOUND, complain, quoted
from booklet.recipe.output import write_files
from booklet.source.files.folder import SOURCE
from booklet.source.starter import starter_files


def command(options: argparse.Namespace) -> int:
    """Write the files of a new pattern; the exit status."""
    folder: Path = options.folder
    try:
        taken = folder.exists() and (not folder.is_dir() or any(folder.iterdir()))
    except OSError as fault:
        return complain(f"cannot look into `{folder}`: {(fault.strerror or str(fault)).lower()}")
    if taken:
        return complain(f"`{folder}` is there already and not empty; choose another name")
    write_files(folder, starter_files())
    print(f"started a pattern in {folder}")
    print(f"  {folder / SOURCE} is the pattern: open it in any text editor and read its notes")
    print(f"now try: booklet build {quoted(folder)}")
    return SOUND
