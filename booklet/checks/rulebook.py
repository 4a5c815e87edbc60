"""Floor 8: the rules. Each is a page beside this module: what it finds, why, an example, the repair.

A rule's code is what stands in brackets in a message and what `booklet help` takes.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from booklet.kit.diagnostic import Severity
from booklet.kit.records import Record


class Rule(Record):
    """A rule: its code, how bad a breach is, one line of summary, and its whole page (Markdown)."""

    code: str
    severity: Severity
    summary: str
    page: str


@cache
def rules() -> Mapping[str, Rule]:
    """All rules by code, in alphabetical order."""
    from importlib import resources  # not for `booklet --help`

    folder = resources.files("booklet.checks") / "pages"
    pages = sorted(entry.name for entry in folder.iterdir() if entry.name.endswith(".md"))
    found = (_rule(name[:-3], (folder / name).read_text(encoding="utf-8")) for name in pages)
    return MappingProxyType({rule.code: rule for rule in found})


def _rule(code: str, page: str) -> Rule:
    """The rule of one page: line 1 `# code`, line 2 `severity: …`, then the summary's paragraph."""
    lines = page.splitlines()
    severity = Severity(lines[1].removeprefix("severity:").strip())
    paragraph = page.split("\n\n")[1]
    summary = " ".join(paragraph.split()).split(". ")[0].rstrip(".") + "."
    return Rule(code, severity, summary, page)
