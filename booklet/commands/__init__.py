"""Floor 13: the commands, each a module with a function `command`, loaded when it is called for."""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence
from importlib import import_module
from pathlib import Path

from booklet.commands.line.arguments import WRONG_CALL, command_parser, joined
from booklet.commands.line.saying import FAULTS, complain
from booklet.recipe.output import OutputError

OUR_FAULT = 3


def run(arguments: Sequence[str] | None = None) -> int:
    """Run one command; the exit status. A request to end passes through."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(encoding="utf-8", errors="replace")
    words = joined(sys.argv[1:] if arguments is None else arguments)
    parser, commands = command_parser()
    if not words:
        parser.print_help(sys.stderr)
        return WRONG_CALL
    if words[0].startswith("-") and words[0] not in ("-h", "--help", "--version"):
        parser.refuse(words[:1])  # the library would ask for the command instead
    options, unknown = parser.parse_known_args(words)
    if unknown:
        commands[options.command].refuse(unknown)
    try:
        return int(import_module(f"booklet.commands.{options.command}").command(options))
    except OutputError as fault:
        return complain(str(fault))
    except BrokenPipeError:  # whoever reads our output has seen enough
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return FAULTS
    except MemoryError:
        return complain("this pattern needs more memory than there is; make it smaller")
    except Exception as fault:
        if os.environ.get("BOOKLET_TRACEBACK"):
            raise
        return complain(_ours(fault), OUR_FAULT)


def _ours(fault: Exception) -> str:
    """What is said when the program itself is at fault."""
    from traceback import extract_tb

    place = extract_tb(fault.__traceback__)[-1]
    what = " ".join(f"{type(fault).__name__}: {fault}".split())[:200]
    return (
        f"the program, not your pattern, is at fault: {what} ({Path(place.filename).name}, "
        f"line {place.lineno}); what was built before is still there. "
        "Please tell its makers, with this line and your pattern"
    )
