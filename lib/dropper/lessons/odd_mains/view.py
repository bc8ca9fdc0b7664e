"""Odd-mains view: a lamp on a mains that is no sine, and the same lamp on a sine of the same voltage."""

from dataclasses import dataclass

import numpy as np

from ... import theory
from ...circuit.fields import about, check, check_part, documented, quantity
from ...circuit.lamp import Lamp, Mains
from ...circuit.mains_shapes import FlatTop, PhaseCut, SteppedWave
from ...circuit.values import show
from ...results.excess import marked
from ...results.explain import heat_reading, reading
from ...results.light import Light, light_of
from ...results.reading import Reading
from ...solver.steady import SteadyState, steady_state

POINTS = 1024
KINDS = {
    "sine": "sine",
    "flat": "mains with a flat top",
    "leading": "dimmer, leading edge",
    "trailing": "dimmer, trailing edge",
    "stepped": "inverter with a stepped wave",
}
_OF_THE_SOLVER = "No formula is kept for this: it is the solver's number."


@documented
@dataclass(frozen=True)
class Supply:
    """A lamp, and the mains that it is connected to."""

    lamp: Lamp
    kind: str = "sine"
    angle: float = quantity("°", 10, 160, 90.0, meaning="what a dimmer cuts off each half period")
    edge: float = quantity("s", 1e-5, 1e-3, 5e-5, meaning="time that a step of the voltage takes")

    def __post_init__(self):
        check(self)
        check_part(self, "lamp", Lamp)
        if self.kind not in KINDS:
            raise ValueError(f"Supply.kind: {self.kind!r} is none of {', '.join(KINDS)}")

    @property
    def fed(self) -> Lamp:
        """The lamp on this mains."""
        shape = {
            "sine": lambda: None,
            "stepped": lambda: SteppedWave(edge=self.edge),
            "leading": lambda: PhaseCut(self.angle, "leading", self.edge),
            "trailing": lambda: PhaseCut(self.angle, "trailing", self.edge),
            "flat": lambda: FlatTop(),
        }[self.kind]()
        mains = self.lamp.mains
        return self.lamp.replace(mains=Mains(mains.voltage, mains.frequency, shape=shape))


@documented
@dataclass(frozen=True, eq=False)
class View:
    """A period on the mains, and the same lamp on a sine."""

    supply: Supply
    result: SteadyState
    on_sine: SteadyState
    angle: np.ndarray = about("of each sample", "°")
    sine: np.ndarray = about("the sine, at each of them", "V")
    light: float = about("mean current of the string over that on a sine, nan if dark on it")
    line: float = about("rms line current over that on a sine, nan if dark on it")
    heat: float = about("heat of the inrush resistor over that on a sine, nan where there is none")
    readings: tuple

    @property
    def glow(self) -> Light:
        """The light through a period."""
        return light_of(self.supply.fed, self.result)


def view_of(supply: Supply) -> View:
    """What a lamp does on such a mains."""
    lamp = supply.lamp
    result, on_sine = steady_state(supply.fed, POINTS), steady_state(lamp, POINTS)
    lit = not on_sine.dark
    return View(
        supply=supply,
        result=result,
        on_sine=on_sine,
        angle=360 * lamp.mains.frequency * result.time,
        sine=on_sine.mains_voltage,
        light=result.string_current_mean / on_sine.string_current_mean if lit else np.nan,
        line=result.line_current_rms / on_sine.line_current_rms if lit else np.nan,
        heat=_heat(result) / _heat(on_sine) if lit and lamp.inrush_resistor else np.nan,
        readings=() if result.dark else marked(_readings(supply.fed, result), supply.fed),
    )


def _heat(result):
    return result.heat["inrush_resistor"]


def _averaging(result):
    return float(np.abs(result.line_current).mean()) * theory.form_factor_of_sine()


def _readings(lamp, result):
    heat = (
        heat_reading("inrush_resistor", lamp, result)
        if lamp.inrush_resistor
        else Reading("inrush_resistor", "heat of the inrush resistor", 0.0, "W", "", note="None is fitted.")
    )
    averaging = Reading(
        "averaging",
        "line current on a meter without true rms",
        _averaging(result),
        "A",
        "",
        note="Such a meter takes the mean of the rectified current and shows 1.11 times it, which is right for a sine.",
    )
    return (
        heat,
        reading("string_current_mean", lamp, result),
        reading("line_current_rms", lamp, result),
        averaging,
        Reading("line_current_peak", "line current, peak", result.line_current_peak, "A", "", note=_OF_THE_SOLVER),
        Reading("supply_rms", "voltage of the mains, rms", lamp.mains.rms, "V", "", note=_OF_THE_SOLVER),
        reading("real_power", lamp, result),
        reading("power_factor", lamp, result),
    )


def meter_verdict(lamp: Lamp) -> tuple[str, str]:
    """What a meter without true rms shows of the current on a stepped wave, "less" or "right", and a sentence."""
    result = view_of(Supply(lamp, "stepped")).result
    shown = _averaging(result)
    words = (
        f"It shows {show(shown, 'A')}. A true-rms meter shows {show(result.line_current_rms, 'A')}, if it can follow"
        f" peaks of {result.line_current_peak / result.line_current_rms:.0f} times that."
    )
    return ("less" if shown < 0.95 * result.line_current_rms else "right"), words


def dimmer_verdict(lamp: Lamp, angle: float = 45.0) -> tuple[str, str]:
    """What a lamp does behind a dimmer that cuts the leading edge, "same", "dims" or "brighter", and a sentence."""
    seen = view_of(Supply(lamp, "leading", angle))
    words = (
        f"The light is {100 * seen.light:.0f} % of a sine's, at {show(seen.supply.fed.mains.rms, 'V')} in place of"
        f" {show(lamp.mains.voltage, 'V')}. The line current is {seen.line:.1f} times as large."
    )
    if seen.heat == seen.heat:
        words += f" R1 burns {seen.heat:.1f} times as much."
    return ("same" if abs(seen.light - 1) < 0.1 else "dims" if seen.light < 1 else "brighter"), words
