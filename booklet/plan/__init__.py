"""Floor 9: the plan. Everything the booklet will say, for every size, as numbers and words."""

from booklet.plan.cards.methods import (
    BlockMethod as BlockMethod,
    in_ranges as in_ranges,
    methods as methods,
    other_orders as other_orders,
)
from booklet.plan.making import make_plan as make_plan
from booklet.plan.records import (
    BlockPlan as BlockPlan,
    Plan as Plan,
    Portion as Portion,
    Sitting as Sitting,
    SizePlan as SizePlan,
    StepCard as StepCard,
)
