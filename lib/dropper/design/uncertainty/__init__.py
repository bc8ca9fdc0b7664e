"""Uncertainty: the ± of each of a lamp's readings: its parts, its mains, what the model leaves out, the meter.

    from dropper.design.uncertainty import error_budget, judge

    budget = error_budget(lamp)
    budget.bars["string_current_mean"].text         # "16.7 ± 2.0 mA"
    budget.bars["line_current_rms"].words           # and which share of it is the largest
    judge(budget.bars["line_current_rms"], 0.023).words

Every figure comes from the solver, for the lamp at hand: each source of error is a lamp that is one thing apart. A
figure inside its ± is no sign that a part is sound, and none that a live one may be approached.
"""

from .budget import COVERAGE, ErrorBar, ErrorBudget, Share, combined, error_budget
from .judgement import Judgement, judge
from .sources import Source, sources_of
from .table import budget_table

__all__ = [
    "COVERAGE",
    "ErrorBar",
    "ErrorBudget",
    "Judgement",
    "Share",
    "Source",
    "budget_table",
    "combined",
    "error_budget",
    "judge",
    "sources_of",
]
