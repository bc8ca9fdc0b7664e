"""Sliders: the workbook's sliders and buttons, all alike."""

from collections.abc import Callable
from typing import Any

import ipywidgets as widgets

from ...circuit.html import tag
from ...circuit.lamp import Lamp, value_at
from ...circuit.series import preferred
from ...circuit.values import show, show_steps
from .markup import Html

_LABEL = {"description_width": "150px"}


def stepped(
    name: str, value: float, unit: str, low: float, high: float, series: int = 12, zero: bool = False
) -> widgets.SelectionSlider:
    """A slider over preferred values; the lamp's own value is always among them.

    Parameters
    ----------
    value
        SI units; may lie off the series and outside the bounds.
    series
        E series.
    zero
        Whether 0 (the part left out) comes first.
    """
    values = set(preferred(series, low, high)) | {value}
    if zero:
        values.add(0.0)
    options = [(("none" if step == 0 else show(step, unit)), step) for step in sorted(values)]
    return widgets.SelectionSlider(options=options, value=value, description=name, style=_LABEL)


def linear(
    name: str, value: float, unit: str, low: float, high: float, step: float, digits: int = 0
) -> widgets.SelectionSlider:
    """A slider with even steps; the lamp's own value is always among them, however odd.

    Parameters
    ----------
    value
        A whole number stays one.
    unit
        Stands behind the number.
    digits
        How many decimals the steps are written with.
    """
    count = round((high - low) / step)
    values = {round(low + step * place, 9) for place in range(count + 1)} | {value}
    values = sorted({type(value)(number) for number in values})
    options = [(show_steps(number, unit, digits), number) for number in values]
    return widgets.SelectionSlider(options=options, value=value, description=name, style=_LABEL)


# The lamp's sliders, by the path of what each moves: name, unit and reach are the same on every panel.
_OF_A_LAMP = {
    "mains.voltage": lambda v: linear("mains voltage", v, "V", 90.0, 264.0, 1.0),
    "mains.frequency": lambda v: linear("mains frequency", v, "Hz", 45.0, 65.0, 1.0),
    "dropper": lambda v: stepped("dropper C1", v, "F", 68e-9, 4.7e-6),
    "inrush_resistor": lambda v: stepped("inrush resistor R1", v, "Ω", 10, 2200, 6, zero=True),
    "bleeder": lambda v: stepped("bleeder R2", v, "Ω", 1e5, 1e7, 6, zero=True),
    "smoothing_bleeder": lambda v: stepped("bleeder R3", v, "Ω", 1e4, 1e7, 6, zero=True),
    "smoothing": lambda v: stepped("smoothing C2", v, "F", 1e-6, 1e-3, 6, zero=True),
    "series_resistor": lambda v: stepped("series resistor R4", v, "Ω", 10, 1000, 6, zero=True),
    "string.in_series": lambda v: linear("LEDs in series", v, "", 1, 100, 1),
    "string.in_parallel": lambda v: linear("LEDs in parallel", v, "", 1, 10, 1),
    "string.led.forward_voltage": lambda v: linear("LED forward voltage", v, "V", 1.6, 3.6, 0.1, 1),
    "string.led.series_resistance": lambda v: linear("an LED's resistance", v, "Ω", 0.0, 60.0, 1.0),
}


def of_lamp(lamp: Lamp, *paths: str, within: str = "") -> dict[str, widgets.Widget]:
    """Sliders for fields of a lamp, standing where the lamp has them, by path.

    Parameters
    ----------
    paths
        In the order in which they are to stand.
    within
        What stands before each path where the lamp is a part of the setting: "lamp.".
    """
    return {within + path: _OF_A_LAMP[path](on_slider(path, value_at(lamp, path))) for path in paths}


def admit(slider: widgets.SelectionSlider, path: str, value: Any) -> Any:
    """Have a value of the lamp among those that a slider stops at, where it lies between them or beyond.

    Returns
    -------
    object
        The value as it stands on the slider.
    """
    value = on_slider(path, value)
    if value not in (step for _, step in slider.options):
        fresh = _OF_A_LAMP[path](value)
        label = next(words for words, step in fresh.options if step == value)
        slider.options = sorted((*slider.options, (label, value)), key=lambda option: option[1])
    return value


def on_slider(path: str, value: Any) -> Any:
    """A field's value as it stands on a slider or a list: a bleeder that is left out at 0, no fault as ""."""
    if value is not None:
        return value
    return 0.0 if path.endswith("bleeder") else ""


def in_lamp(path: str, value: Any) -> Any:
    """A slider's or list's value as it stands in the lamp."""
    left_out = (isinstance(value, str) and value == "") or (path.endswith("bleeder") and value == 0)
    return None if left_out else value


def button(words: str, tip: str, action: Callable[[], Any]) -> widgets.Button:
    """A push button; `action` is called with no argument."""
    push_button = widgets.Button(description=words, tooltip=tip, layout=widgets.Layout(width="auto"))
    push_button.on_click(lambda _: action())
    return push_button


def words(text: str = "", css: str = "dropper-words") -> Html:
    """A piece of the page: text, or markup."""
    return Html(tag("div", text, css=css) if text else "")
