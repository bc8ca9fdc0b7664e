"""A stand whose numbers stand in tables: they explain themselves in words, by the table and the arithmetic."""

from __future__ import annotations

from html import escape

import ipywidgets as widgets

from . import sliders
from .panel import Panel

_LABEL = {"description_width": "110px"}


class TablePanel(Panel):
    """A panel on marks; see `Panel`. What is read is in tables of standards, and no derivation gives it."""

    lesson = None
    called = ()  # pairs: what a complaint calls a field, and what stands before that field on the panel

    def put(self, own) -> None:
        self._refused, self._moving = {}, None
        super().put(own)

    def reset(self) -> None:
        self._refused.clear()
        super().reset()

    def complain(self, text: str) -> None:
        """Say what was wrong, and go on saying it until that field is mended."""
        self._refused.pop(self._moving, None)
        if text:
            head, colon, rest = text.partition(":")
            self._refused[self._moving] = f"{dict(self.called).get(head, head)}{colon}{rest}"
        super().complain(" ".join(self._refused.values()))

    def _move(self, path, value):
        self._moving = path
        super()._move(path, value)
        self._moving = None

    def view_of(self, setting):
        return self.lesson.view_of(setting)

    def readings(self, view) -> tuple[TablePanel, ...]:
        return view.readings

    def _explain(self):
        chosen = [reading for reading in self.readings(self.view) if reading.key == self._why.value]
        told = [f"<b>{escape(each.name)}: {escape(each.text)}.</b> {escape(each.note)}" for each in chosen]
        self._explained.value = f'<div class="dropper-words">{told[0]}</div>' if told else ""


def field(name: str, value: str, example: str):
    """A line to type into; what is typed counts on Enter or on leaving it."""
    return widgets.Text(
        description=name,
        value=value,
        placeholder=f"such as {example}",
        continuous_update=False,
        style=_LABEL,
        layout=widgets.Layout(width=sliders.WIDTH),
    )


def choice(name: str, options: list | tuple[tuple[str, ...], ...], value: object, width: str = sliders.WIDTH):
    """A list to choose from."""
    return widgets.Dropdown(
        description=name, options=options, value=value, style=_LABEL, layout=widgets.Layout(width=width)
    )
