"""Planning edge-to-edge cuts: from the pieces wanted and the sheets that are there to cut steps."""

from booklet.cutting.planner.metrics import concerns_of, measure_steps
from booklet.cutting.planner.plan import plan_cuts
from booklet.cutting.planner.wanted import (
    Concerns,
    Metrics,
    NoPlan,
    Plan,
    PlannedStep,
    Settings,
    SheetPlan,
    SheetStock,
    Wanted,
    Wish,
)

__all__ = [
    "Concerns",
    "Metrics",
    "NoPlan",
    "Plan",
    "PlannedStep",
    "Settings",
    "SheetPlan",
    "SheetStock",
    "Wanted",
    "Wish",
    "concerns_of",
    "measure_steps",
    "plan_cuts",
]
