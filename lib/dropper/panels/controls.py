"""The workbook's sliders and buttons, all alike."""

import ipywidgets as widgets

from ..values import preferred, show

_LABEL = {"description_width": "150px"}
WIDTH = "390px"


def stepped(name, value, unit, low, high, series=12, zero=False):
    """A slider over preferred values; the lamp's own value is always among them.

    Parameters
    ----------
    name : str
    value : float
        SI units; may lie off the series and outside the bounds.
    unit : str
    low, high : float
    series : int
        E series.
    zero : bool
        Whether 0 (the part left out) comes first.
    """
    values = set(preferred(series, low, high)) | {value}
    if zero:
        values.add(0.0)
    options = [(("none" if step == 0 else show(step, unit)), step) for step in sorted(values)]
    return widgets.SelectionSlider(
        options=options, value=value, description=name, style=_LABEL, layout=widgets.Layout(width=WIDTH)
    )


def linear(name, value, unit, low, high, step, form=None):
    """A slider with even steps that always reaches the lamp's own value; `form` is how its number is written."""
    kind = widgets.IntSlider if isinstance(value, int) else widgets.FloatSlider
    return kind(
        value=value, min=min(low, value), max=max(high, value), step=step,
        description=f"{name}, {unit}" if unit else name,
        readout_format=form or ("d" if isinstance(value, int) else ".0f" if value == int(value) else ".1f"),
        style=_LABEL, layout=widgets.Layout(width=WIDTH),
    )  # fmt: skip


def button(words, tip, act):
    """A push button; `act` is called with no argument."""
    made = widgets.Button(description=words, tooltip=tip, layout=widgets.Layout(width="auto"))
    made.on_click(lambda _: act())
    return made


def words(text="", css="dropper-words"):
    """A piece of the page, as HTML."""
    return widgets.HTML(f'<div class="{css}">{text}</div>' if text else "")
