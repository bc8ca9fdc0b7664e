"""Columns: where the widgets of a panel stand: sliders and readings at the left, picture and words at the right."""

from __future__ import annotations

from typing import TYPE_CHECKING

import ipywidgets as widgets

from .css import STYLE
from .markup import Html

if TYPE_CHECKING:
    from .readings_panel import ReadingsPanel


def rows_of(panel: ReadingsPanel, slider_box: widgets.Box, buttons: widgets.Box) -> list[widgets.Widget]:
    """The rows of a panel from the top down; the style sheet puts narrow columns below each other."""
    glow = [panel.glow_box] if panel.glow_box else []
    actions = widgets.HBox([*glow, buttons])
    by_hand = widgets.VBox([slider_box, actions])
    seen = panel.picture_column()
    place = seen.index(panel.picture_box)
    goals = [panel.goal_list] if panel.goals else []
    before = widgets.VBox(seen[:place])
    after = widgets.VBox([*seen[place + 1 :], panel.explanation, *goals, panel.save_box])
    left, right = widgets.VBox([by_hand, panel.table]), widgets.VBox([before, panel.picture_box, after])
    columns = widgets.Box([left, right])
    named = {"columns": columns, "left": left, "right": right, "by-hand": by_hand, "read": panel.table}
    for name, box in (named | {"before": before, "after": after, "actions": actions}).items():
        box.add_class(f"dropper-{name}")
    rows = [Html(STYLE), *panel.header(), panel.complaint, panel.progress]
    rows += [panel.prediction] if panel.prediction else []
    return [*rows, *panel.asides(), columns, panel.why_field, panel.spoken]
