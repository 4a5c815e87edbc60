"""Floor 13: `booklet completion`: what a shell reads to complete commands and options; the door to shtab."""

from __future__ import annotations

import argparse
from pathlib import Path

import shtab

from booklet.commands.line.arguments import command_parser
from booklet.commands.line.saying import SOUND


def command(options: argparse.Namespace) -> int:
    """Print the script of a shell, made from the tables of arguments, to standard output; the exit status."""
    parser, commands = command_parser()
    for action in (action for one in commands.values() for action in one._actions):
        if action.type is Path:
            action.complete = shtab.DIRECTORY  # type: ignore[attr-defined]
    print(shtab.complete(parser, shell=options.shell))
    return SOUND
