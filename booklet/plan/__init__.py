"""Floor 9: the plan. Everything the booklet will say, for every size, as numbers and words."""

from booklet.plan.cards.methods import BlockMethod, in_ranges, methods, other_orders
from booklet.plan.making import make_plan
from booklet.plan.records import (
    BlockPlan,
    Plan,
    Portion,
    Sitting,
    SizePlan,
    StepCard,
)

__all__ = [
    "BlockMethod",
    "BlockPlan",
    "Plan",
    "Portion",
    "Sitting",
    "SizePlan",
    "StepCard",
    "in_ranges",
    "make_plan",
    "methods",
    "other_orders",
]
