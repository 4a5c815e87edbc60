"""Floor 9: the plan. Everything the booklet will say, for every size, as numbers and words."""

from booklet.plan.making import make_plan
from booklet.plan.records import BlockPlan, FabricSummary, Plan, SizePlan, StepCard

__all__ = ["BlockPlan", "FabricSummary", "Plan", "SizePlan", "StepCard", "make_plan"]
