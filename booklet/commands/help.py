"""Floor 13: `booklet help`: what there is to know of a rule, a key or a shape."""

from __future__ import annotations

import argparse
import sys

from booklet import console
from booklet.arguments import WRONG_CALL
from booklet.checks.rulebook import rules
from booklet.commands.saying import SOUND, complain
from booklet.diagnostic import did_you_mean


def command(options: argparse.Namespace) -> int:
    """Print the page asked for to standard output; the exit status."""
    word = " ".join(options.words)
    if not word:
        print(rule_list(), end="")
        return SOUND
    code = word.strip().lower().rpartition("[")[2].rstrip("]:").replace("_", "-").replace(" ", "-")
    if code not in rules():
        shown = console.printable(word if len(word) <= 60 else word[:59] + "…")
        return complain(
            f"there is no help on `{shown}`; {did_you_mean(code[:60], rules())}", WRONG_CALL
        )
    print(rules()[code].page, end="", file=sys.stdout)
    return SOUND


def rule_list() -> str:
    """All rules, one line each: code, severity, summary."""
    width = max(map(len, rules()), default=0)
    return "".join(
        f"{r.code:<{width}}  {r.severity.value:<7}  {r.summary}\n" for r in rules().values()
    )
