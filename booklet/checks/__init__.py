"""Floor 8: checks. The rules with their pages, and the only door to a CheckedPattern."""

from typing import TYPE_CHECKING

from booklet.later import later

if TYPE_CHECKING:
    from booklet.checks.bounds import within_bounds
    from booklet.checks.checked import CHECKS, CheckedPattern, admit, examine, tidy
    from booklet.checks.early import before_sewing
    from booklet.checks.rulebook import Rule, rules

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

__getattr__ = later(
    __name__,
    {
        "bounds": "within_bounds",
        "checked": "CHECKS CheckedPattern admit examine tidy",
        "early": "before_sewing",
        "rulebook": "Rule rules",
    },
)
