"""Floor 13: `booklet schema`: the JSON Schema of the pattern or of the facts."""

from __future__ import annotations

import argparse

from booklet.commands.line.saying import SOUND
from booklet.source.schema import schema_text


def command(options: argparse.Namespace) -> int:
    """Print the schema to standard output; the exit status."""
    if options.facts:
        from booklet.facts import facts_schema

        print(schema_text(facts_schema()), end="")
    else:
        print(schema_text(), end="")
    return SOUND
