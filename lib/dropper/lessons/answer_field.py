"""Answer field: where the answer to a task is typed or chosen; Enter judges it."""

from __future__ import annotations

from collections.abc import Callable

import ipywidgets as widgets

from .kit.deferred import Deferred
from .tasks.instance import Instance
from .tasks.question import Choice
from .tasks.reply import EXAMPLES

ARRIVES = 0.1  # s: after Enter, until what was typed last is here


def answer_field(instance: Instance, judge: Callable[[], None], deferred: Deferred) -> widgets.ValueWidget:
    """A field for a number with its unit, or buttons to choose one answer of a few.

    Parameters
    ----------
    instance
        The task with its values.
    judge
        Called a moment after Enter was pressed in the field.
    deferred
        What waits for that moment.
    """
    if isinstance(instance.question, Choice):
        return widgets.RadioButtons(
            options=[(text, key) for key, text in instance.options.items()],
            value=None,
            description="I choose:",
            style={"description_width": "auto"},
            layout=widgets.Layout(width="auto"),
        )
    unit = instance.question.unit
    field = widgets.Text(
        description=f"Answer, in {unit}:" if unit else "Answer:",
        placeholder=f"such as {EXAMPLES[unit]}",
        continuous_update=False,
        style={"description_width": "auto"},
        layout=widgets.Layout(width="340px", max_width="100%"),
    )

    def on_message(_, content, __):
        """Enter was pressed; what was typed last arrives a moment later."""
        if content.get("event") == "submit":
            deferred.call_later("judge", ARRIVES, judge)

    field.on_msg(on_message)
    return field
