"""Table of a budget of errors: what the model leaves out, and how much, for one lamp."""

from __future__ import annotations

from ...circuit.html import Markup, joined, table, tag
from ...circuit.values import show_percent
from .budget import COVERAGE, ErrorBudget

# What a learner reads off a lamp, or asks of it.
COLUMNS = {
    "string_current_mean": "string current, mean",
    "line_current_rms": "line current, rms",
    "line_current_peak": "line current, peak",
    "real_power": "power",
    "power_factor": "power factor",
    "percent_flicker": "flicker",
}


def budget_table(budget: ErrorBudget) -> Markup:
    """A budget as HTML: a row for each source, a column for each of six readings, and what it comes to.

    Parameters
    ----------
    budget
        Of `error_budget`; a lamp that stays dark gets a sentence.
    """
    bars = budget.bars
    if not bars:
        return tag("p", "This lamp stays dark: there is nothing whose error could be told.", css="dropper-words")
    rows = [
        (
            share.source.name,
            share.source.kind,
            share.source.amount,
            *(show_percent(share.half_widths[key], bars[key].value) for key in COLUMNS),
        )
        for share in budget.shares
    ]
    rows.append(("all together", "", "", *(show_percent(bars[key].half_width, bars[key].value) for key in COLUMNS)))
    rows.append(("so the reading is", "", "", *(bars[key].text for key in COLUMNS)))
    caption = f"What may move the readings of the {budget.lamp.name}, each by itself: ± in per cent of the reading"
    heads = ("source", "of", "taken as", *COLUMNS.values())
    sources = sorted({f"{share.source.name}: {share.source.source}" for share in budget.shares})
    wide = table(caption, heads, rows, css="dropper-table", style="width:auto")
    return joined(
        tag("div", wide, style="overflow-x:auto", role="region", tabindex="0", aria_label="table of errors"),
        tag("p", COVERAGE, css="dropper-words"),
        tag("p", "Where the sizes come from: ", "; ".join(sources), ".", css="dropper-words"),
    )
