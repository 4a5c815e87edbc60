"""Floor 13: `booklet facts`: every number of the booklet as JSON."""

from __future__ import annotations

import argparse

from booklet.commands.line.arguments import WRONG_CALL
from booklet.commands.line.asking import (
    said_in,
    unknown_alternative,
    unknown_language,
    unknown_size,
    wrong_folder,
)
from booklet.commands.line.saying import FAULTS, SOUND, complain, tell
from booklet.facts import facts_text
from booklet.pattern import BETWEEN
from booklet.recipe import compiler


def command(options: argparse.Namespace) -> int:
    """Print the facts to standard output; the exit status."""
    if wrong := wrong_folder(options):
        return complain(wrong, WRONG_CALL)
    taken = BETWEEN.join(filter(None, (options.colourway, options.layout)))
    outcome = compiler.check(options.folder, options.trust_pages, together=[taken])
    tell(outcome.diagnostics, options.folder)
    if outcome.value is None:
        return FAULTS
    pattern = compiler.pattern_of(outcome.value)
    asked = [options.language] if options.language else None
    if wrong := unknown_size(pattern, options.size) or unknown_language(pattern, asked):
        return complain(wrong, WRONG_CALL)
    named = [[name] if name else None for name in (options.colourway, options.layout)]
    if wrong := unknown_alternative(pattern, *named):
        return complain(wrong, WRONG_CALL)
    plan = compiler.plan(said_in(outcome.value, options.language), options.size)
    print(facts_text(plan.taken_as(taken)), end="")
    return SOUND
