"""Floor 8: checks. The rules with their pages, and the only door to a CheckedPattern."""

from typing import TYPE_CHECKING

from booklet.kit.running.later import later

if TYPE_CHECKING:
    from booklet.checks.bounds import within_bounds
    from booklet.checks.checked import CheckedPattern, admit, examine, tidy
    from booklet.checks.early import before_sewing

__all__ = [
    "CheckedPattern",
    "admit",
    "before_sewing",
    "examine",
    "tidy",
    "within_bounds",
]

__getattr__ = later(
    __name__,
    {
        "bounds": "within_bounds",
        "checked": "CheckedPattern admit examine tidy",
        "early": "before_sewing",
    },
)
