"""Floor 8: checks. The rules with their pages, and the only door to a CheckedPattern."""

from booklet.checks.bounds import within_bounds
from booklet.checks.checked import CHECKS, CheckedPattern, admit, examine, tidy
from booklet.checks.early import before_sewing
from booklet.checks.rules import Rule, rules

__all__ = [
    "CHECKS",
    "CheckedPattern",
    "Rule",
    "admit",
    "before_sewing",
    "examine",
    "rules",
    "tidy",
    "within_bounds",
]
