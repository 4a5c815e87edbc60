"""Floor 13: `booklet completion`: what a shell reads to complete commands and options; the door to shtab."""

from __future__ import annotations

import argparse

import shtab

from booklet.arguments import command_parser
from booklet.commands.saying import SOUND


def command(options: argparse.Namespace) -> int:
    """Print the script of a shell, made from the tables of arguments, to standard output; the exit status."""
    parser, _ = command_parser()
    print(shtab.complete(parser, shell=options.shell))
    return SOUND
