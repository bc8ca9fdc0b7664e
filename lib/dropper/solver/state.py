"""Steady state: what a lamp, healthy or faulty, does once its cycle repeats, as readings and waves."""

from __future__ import annotations

import dataclasses
import math
import textwrap
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from ..circuit.fields import about, documented, unit_of
from ..circuit.html import table
from ..circuit.lamp import Lamp
from ..circuit.values import show, show_reading
from . import plot as picture

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from .transient.faults import Faulty

# Mean string current over the healthy lamp's: below DARK no light, below DIM less than before,
# up to BRIGHTER the same to the eye, above OVER more than the string is meant for.
DARK, DIM, BRIGHTER, OVER = 0.01, 0.95, 1.05, 1.5
WORDS = ("dark", "dim", "same", "brighter", "over")
UNLIT = 1e-4  # of the string's stated current: a healthy lamp with less is dark
# A, rms of a dark lamp's line: less than real capacitors and diodes leak, which no model knows beforehand (practice, no
# source). What is a ratio of such currents is not given.
TRACE = 1e-6
_NAN = math.nan
_TITLE_WIDTH = 60  # characters in a line


@documented
@dataclass(frozen=True, eq=False, repr=False, kw_only=True)
class SteadyState:
    """A lamp's cycle that repeats. SI units.

    `steady_state` makes it, of a healthy lamp by the quick solver, of a faulty one by the network solver with four
    separate diodes; `transient.settle` makes it of either by the network solver. What one of them does not know is nan,
    or None where it is no number.

    Waves cover one mains period, from where the mains' fundamental passes zero upwards. Those of the quick solver have
    `points` samples at even intervals, each the mean over its interval, at the interval's middle; those of the network
    solver have a sample a step, unevenly spaced, with both ends of the period.

    >>> from dropper import Lamp, Led, LedString, Mains, steady_state
    >>> lamp = Lamp(Mains(230, 50), LedString(Led(3.1, 0.02), 22), "330 nF", "10 µF")
    >>> steady_state(lamp)
    <SteadyState of 'lamp': string 16.9 mA, line 21.8 mA rms, 1.18 W, power factor 0.236, bus 67.3 V>
    """

    line_current_rms: float = about("true rms current from the mains", "A")
    line_current_peak: float = about("greatest current from the mains, either way", "A")
    real_power: float = about("mean power into the lamp", "W")
    apparent_power: float = about("rms voltage times rms current", "VA")
    power_factor: float = about("real over apparent power; nan where no current flows, or less than 1 µA in the dark")
    displacement_factor: float = about(
        "cosine of the angle between the fundamentals of voltage and current; nan where the power factor is, and from"
        " the network solver",
        default=_NAN,
    )
    current_thd: float = about(
        "total harmonic distortion of the line current over its fundamental; nan from the network solver", default=_NAN
    )
    harmonic_currents: np.ndarray | None = about(
        "rms harmonics of the line current by order, 0 to 40; None from the network solver",
        "A",
        shape="shape (41,)",
        default=None,
    )
    string_current_mean: float = about("mean current of the string", "A")
    string_current_max: float = about("greatest current of the string", "A")
    string_current_min: float = about("least current of the string", "A")
    led_current_mean: float = about("mean current of an LED in the group that has fewest in parallel", "A")
    relative_current: float = about(
        "mean current of the string over the healthy lamp's; 1 of a healthy lamp, nan where even that is dark",
        default=1.0,
    )
    percent_flicker: float = about("(max - min)/(max + min) of the string current; nan where none flows", "%")
    flicker_index: float = about(
        "area of the string current above its mean over the whole area; nan from the network solver", default=_NAN
    )
    bus_voltage_mean: float = about("mean voltage across the smoothing capacitor", "V")
    bus_voltage_peak: float = about("greatest voltage across the smoothing capacitor", "V")
    bus_ripple: float = about("ripple across the smoothing capacitor, peak to peak", "V")
    dropper_voltage_rms: float = about("true rms voltage across the dropper", "V")
    dropper_voltage_peak: float = about("greatest voltage across the dropper, either way", "V")
    conduction_fraction: float = about("share of the period in which the bridge, or any diode of it, conducts")
    heat: dict = about(
        "by part: inrush_resistor, dropper, bleeder, diodes (all four together), smoothing, smoothing_bleeder,"
        " series_resistor, leds; an ideal capacitor's is 0. Adds up to real_power, to 1e-6 from the quick solver and"
        " 1e-3 from the network solver; what the mains' own resistance takes is in neither",
        "W",
    )
    diode_heat: tuple | None = about("of D1 to D4, each; None from the quick solver", "W", default=None)
    diode_reverse_peak: tuple | None = about(
        "greatest reverse voltage of D1 to D4, negative where a diode never blocks; None from the quick solver",
        "V",
        default=None,
    )
    settled: bool = about("False: no repeating cycle was found, the readings are the last cycle's")
    dark: bool = about("True: no light; a faulty lamp's string has less than 1 % of the healthy lamp's mean current")
    time: np.ndarray | None = about("of each sample", "s", shape="shape (samples,)", default=None)
    mains_voltage: np.ndarray | None = about("wave of the mains", "V", shape="shape (samples,)", default=None)
    line_current: np.ndarray | None = about("wave of the line current", "A", shape="shape (samples,)", default=None)
    dropper_voltage: np.ndarray | None = about(
        "wave of the voltage across the dropper", "V", shape="shape (samples,)", default=None
    )
    bus_voltage: np.ndarray | None = about(
        "wave of the voltage across the smoothing capacitor", "V", shape="shape (samples,)", default=None
    )
    string_current: np.ndarray | None = about(
        "wave of the current of the string", "A", shape="shape (samples,)", default=None
    )
    start: tuple | None = about(
        "voltages of dropper and smoothing capacitor at time 0; None from the quick solver", "V", default=None
    )
    lamp: Lamp | Faulty | None = about("whose it is", default=None)

    @property
    def word(self) -> str:
        """The light beside the healthy lamp's, by the string's mean current.

        "dark" below 1 %, "dim" below 95 %, "same" up to 105 %, "brighter" up to 150 %, "over" above. It speaks of the
        current of the string, not of the LEDs that are still in it.
        """
        if self.dark:
            return "dark"
        return WORDS[1 + sum(self.relative_current > bound for bound in (DIM, BRIGHTER, OVER))]

    @property
    def evenly_sampled(self) -> bool:
        """Whether the waves' samples are middles of even intervals, as the quick solver's are."""
        return self.start is None

    def __repr__(self) -> str:
        return f"<SteadyState of {self._name!r}: {self._summary}>"

    def _repr_html_(self) -> str:
        """A table of all readings with their units."""
        rows = [
            (name, _text(value, UNITS[name])) for name, value in vars(self).items() if isinstance(value, float | bool)
        ]
        rows += [(f"heat[{part!r}]", show_reading(watts, "W")) for part, watts in self.heat.items()]
        return table(f"{self._name}, {self.word}", ("reading", "value"), rows)

    def plot(self, axes: Axes | None = None) -> Axes:
        """Line current, string current and bus voltage over one period, drawn with matplotlib.

        Parameters
        ----------
        axes
            matplotlib axes to draw the currents in; new ones without. The voltage gets an axis of its own on the right.

        Raises
        ------
        ValueError
            If the waves were not kept.

        Examples
        --------
        `steady_state(lamp).plot().figure.savefig("lamp.svg")`
        """
        if self.time is None:
            raise ValueError("SteadyState.plot: it keeps no waveforms; ask steady_states for them with waveforms=True")
        title = "\n".join([self._name, *textwrap.wrap(self._summary, _TITLE_WIDTH)])
        return picture.currents_and_bus(
            title, self.time, self.line_current, self.string_current, self.bus_voltage, axes
        )

    @property
    def _name(self):
        return "lamp" if self.lamp is None else self.lamp.name

    @property
    def _summary(self):
        unsettled = "" if self.settled else ", not settled"
        if self.dark and self.line_current_rms < TRACE:
            less = f"{show_reading(self.line_current_rms, 'A')}, {show_reading(self.real_power, 'W')}"
            return f"dark, line {less}: no more than parts leak, bus {show(self.bus_voltage_mean, 'V')}{unsettled}"
        return (
            f"string {show(self.string_current_mean, 'A')}, line {show(self.line_current_rms, 'A')} rms,"
            f" {show(self.real_power, 'W')}, power factor {show(self.power_factor)},"
            f" bus {show(self.bus_voltage_mean, 'V')}{', dark' if self.dark else ''}{unsettled}"
        )


UNITS = {field.name: unit_of(field) for field in dataclasses.fields(SteadyState)}


def _text(value, unit):
    """A reading as people write it."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    return show_reading(value, unit)
