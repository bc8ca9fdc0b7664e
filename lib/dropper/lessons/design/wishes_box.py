"""Wishes box: what a brief may ask for beyond the sliders, in folded groups of a few fields each."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

import ipywidgets as widgets

from ...circuit.values import show_exactly
from ...design import stock
from ...design.constraints import BEST
from ..kit import sliders

if TYPE_CHECKING:
    from ...design import Brief

LABEL = {"description_width": "150px"}
DRAWER = Path("my_lamps/drawer.toml")  # beside the notebook, with the learner's lamps
_SERIES = [("E6", 6), ("E12", 12), ("E24", 24)]


class WishesBox(widgets.Accordion):
    """Groups of fields, all folded; what is typed goes into the brief when its group's button is pressed.

    Parameters
    ----------
    change
        Called with the fields of `Brief` that change, as they were typed; raises ValueError where one will not do.
    complain
        Called with what was wrong; what was typed stays.

    Attributes
    ----------
    fields : dict of str to widgets.Widget
        By the field of `Brief`.
    drawer : widgets.Textarea
    """

    def __init__(self, change: Callable[[dict], None], complain: Callable[[str], None]):
        self._change, self._complain = change, complain
        self.fields = {
            "voltage": _text("volts", "230 V"),
            "frequency": _text("hertz, 10 to 1000", "50 Hz"),
            "mains_tolerance": _text("tolerance of volts", "10 %"),
            "best": widgets.Checkbox(description="best number of LEDs for these wishes", indent=False),
            "swing": _text("swing with the mains", "none, or 30 %"),
            "led_pulse": _text("pulse limit of one LED", "none, or 100 mA"),
            "enclosure": _text("case", "120 × 60 × 40 mm plastic"),
            "room": _text("air outside, °C", "25"),
            "warmest": _text("air inside, at most, °C", "70"),
            "metal_case": widgets.Checkbox(description="the case is of metal", indent=False),
            "touchable": widgets.Checkbox(description="parts of the circuit are open to touch", indent=False),
            "dropper_series": listed("dropper of series", _SERIES, 6),
            "smoothing_series": listed("smoothing of series", _SERIES, 6),
            "resistor_series": listed("resistors of series", _SERIES, 24),
        }
        self.drawer = widgets.Textarea(
            description="only my drawer",
            placeholder='dropper = ["220 nF", "330 nF"]\nsmoothing = ["10 µF"]',
            rows=4,
            style=LABEL,
        )
        groups = (
            ("Mains of your own", ("voltage", "frequency", "mains_tolerance"), self.use_mains),
            ("Number of LEDs, swing, pulses", ("best", "swing", "led_pulse"), self.use_light),
            ("Case and warmth", ("enclosure", "room", "warmest", "metal_case", "touchable"), self.use_case),
            ("Parts to be had", ("dropper_series", "smoothing_series", "resistor_series"), self.use_parts),
        )
        pages = []
        for title, names, act in groups:
            fields = [self.fields[name] for name in names]
            buttons = [sliders.button("Use these", f"Takes over: {title}", act)]
            if act == self.use_parts:
                fields.append(self.drawer)
                buttons.append(
                    sliders.button("Keep my drawer", f"Writes {DRAWER} beside this notebook", self.keep_drawer)
                )
                buttons.append(sliders.button("Open my drawer", f"Reads {DRAWER}", self.open_drawer))
            pages.append(widgets.VBox([*fields, widgets.HBox(buttons)]))
        super().__init__(pages, titles=[title for title, *_ in groups], selected_index=None)
        self.add_class("dropper-fit")

    def show(self, brief: Brief) -> None:
        """Put a brief's wishes into the fields."""
        ends = brief.supply
        band = brief.mains_tolerance if brief.low is None and not brief.place else ends.high / ends.nominal - 1
        texts = {
            "voltage": show_exactly(ends.nominal, "V"),
            "frequency": show_exactly(ends.frequency, "Hz"),
            "mains_tolerance": f"{100 * band:.3g} %",
            "swing": "none" if brief.swing is None else f"{brief.swing:.4g} %",
            "led_pulse": "none" if brief.led_pulse is None else show_exactly(brief.led_pulse, "A"),
            "enclosure": brief.enclosure,
            "room": f"{brief.room:g}",
            "warmest": f"{brief.warmest:g}",
        }
        kept = ("metal_case", "touchable", "dropper_series", "smoothing_series", "resistor_series")
        values = texts | {"best": brief.in_series == BEST} | {name: getattr(brief, name) for name in kept}
        for name, value in values.items():
            field = self.fields[name]
            if isinstance(field, widgets.Dropdown) and value not in dict(field.options).values():
                field.options = [*field.options, (f"E{value}", value)]
            field.value = value
        self.drawer.value = stock.drawer_text(brief.stock)

    def use_mains(self) -> None:
        """Take over the mains that was typed."""
        self._take(place="", low=None, high=None, **self._read("voltage", "frequency", "mains_tolerance"))

    def use_light(self) -> None:
        """Take over the number of LEDs, the swing and the pulse limit."""
        count = {"in_series": BEST} if self.fields["best"].value else {"in_series": None}
        self._take(**count, **self._read("swing", "led_pulse"))

    def use_case(self) -> None:
        """Take over the case and what is warm."""
        self._take(**self._read("enclosure", "room", "warmest", "metal_case", "touchable"))

    def use_parts(self) -> None:
        """Take over series and drawer."""
        try:
            kept = stock.read_drawer(self.drawer.value)
        except ValueError as error:
            self._complain(str(error))
            return
        self._take(stock=kept, **self._read("dropper_series", "smoothing_series", "resistor_series"))

    def keep_drawer(self) -> None:
        """Write what is in the drawer to the learner's file."""
        try:
            text = stock.drawer_text(stock.read_drawer(self.drawer.value))
            DRAWER.parent.mkdir(parents=True, exist_ok=True)
            DRAWER.write_text(text, encoding="utf-8")
        except OSError as error:
            self._complain(f"{DRAWER} cannot be written ({error.strerror}).")
        except ValueError as error:
            self._complain(str(error))

    def open_drawer(self) -> None:
        """Put the learner's drawer into the field."""
        try:
            self.drawer.value = stock.drawer_text(stock.open_drawer(DRAWER)) or self.drawer.value
        except ValueError as error:
            self._complain(str(error))

    def _read(self, *names: str) -> dict[str, Any]:
        values = {name: self.fields[name].value for name in names}
        values = {name: value.strip() if isinstance(value, str) else value for name, value in values.items()}
        for name in ("swing", "led_pulse"):
            if values.get(name) in ("none", ""):
                values[name] = None
        if isinstance(values.get("mains_tolerance"), str) and values["mains_tolerance"].endswith("%"):
            values["mains_tolerance"] = _share(values["mains_tolerance"])
        for name in ("room", "warmest"):
            if name in values:
                values[name] = values[name].removesuffix("°C").strip()
        return values

    def _take(self, **changes):
        try:
            self._change(changes)
        except ValueError as error:
            self._complain(str(error))


def _share(text):
    """A tolerance in per cent as a fraction; what is no number stays as it is, and is refused by the brief."""
    try:
        return float(text.removeprefix("±").removesuffix("%").strip().replace(",", ".")) / 100
    except ValueError:
        return text


def _text(name, placeholder):
    return widgets.Text(description=name, placeholder=placeholder, style=LABEL)


def listed(name: str, options: list, value: Any) -> widgets.Dropdown:
    """A list to choose from."""
    return widgets.Dropdown(description=name, options=options, value=value, style=LABEL)
