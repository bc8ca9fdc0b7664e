"""Plugging view: the first rush of current, and what is left on the pins."""

from dataclasses import dataclass

import numpy as np

from ... import theory
from ...bench import residual
from ...circuit.fields import about, check, check_part, documented, quantity
from ...circuit.lamp import Lamp
from ...results.reading import Reading
from ...solver.transient import LINE_RESISTANCE, Trace, plug_in, unplug

_ANGLES = np.arange(0.0, 361.0, 5.0)
SECONDS = 6.0  # how long the lamp is followed after unplugging


@documented
@dataclass(frozen=True)
class Plugging:
    """A lamp, when it is plugged in and with what on its dropper, and when it is pulled out."""

    lamp: Lamp
    angle: float = quantity("°", 0, 360, 90.0, meaning="angle of the mains at which it is plugged in")
    precharge: float = quantity("V", -1500, 1500, 0.0, meaning="volts left on the dropper from before")
    pulled: float = quantity("°", 0, 360, 90.0, meaning="angle of the mains at which it is pulled out")

    def __post_init__(self):
        check(self)
        check_part(self, "lamp", Lamp)


@documented
@dataclass(frozen=True, eq=False)
class View:
    """The first moments, the peak at every angle, and the time after unplugging."""

    setting: Plugging
    rush: Trace
    window: float = about("the part of the rush that is worth showing", "s")
    angles: np.ndarray
    peaks: np.ndarray = about("peak of the rush by the closed form, at each angle", "A")
    peak: float = about("peak of the rush by the solver", "A")
    fade: Trace
    residual: residual.Residual
    readings: tuple


def view_of(setting: Plugging) -> View:
    """What a setting shows.

    Raises
    ------
    ValueError
        If nothing is left to limit the inrush, or the precharge is out of reach.
    """
    lamp = setting.lamp
    limiting = lamp.inrush_resistor + LINE_RESISTANCE
    rush = plug_in(lamp, setting.angle, setting.precharge, periods=0.5)
    fade = unplug(lamp, setting.pulled, SECONDS)
    steps = np.abs(lamp.mains.peak * np.sin(np.radians(_ANGLES)) - setting.precharge)
    left = abs(float(fade.dropper_voltage[fade.time >= 0][0]))
    return View(
        setting=setting,
        rush=rush,
        window=min(max(8 * limiting * lamp.dropper, 5e-5), 0.01),
        angles=_ANGLES,
        peaks=steps / limiting,
        peak=rush.line_current_peak,
        fade=fade,
        residual=residual.judge(lamp.dropper, lamp.bleeder, max(lamp.mains.peak, 1.0)),
        readings=_readings(setting, rush, fade, limiting, left),
    )


def _readings(setting, rush, fade, limiting, left):
    lamp = setting.lamp
    step = abs(lamp.mains.peak * np.sin(np.radians(setting.angle)) - setting.precharge)
    rows = []
    if step > 1e-6 * lamp.mains.peak:
        driven = {"step_voltage": float(step), "inrush_resistor": limiting}
        rows += [
            Reading("inrush_peak", "peak of the rush", rush.line_current_peak, "A", "inrush_peak", driven),
            Reading(
                "inrush_energy",
                "heat of the rush in R1",
                rush.inrush_energy,
                "J",
                "inrush_energy",
                driven | {"dropper": lamp.dropper},
            ),
        ]
    worst = {"inrush_resistor": limiting, "step_voltage": theory.replug_step(peak_voltage=lamp.mains.peak)}
    rows += [
        Reading("replug", "worst re-plug, peak", theory.inrush_peak(**worst), "A", "inrush_peak", worst, True),
        Reading(
            "charge",
            "charge on the dropper when pulled",
            fade.residual_charge(),
            "C",
            "stored_charge",
            {"dropper": lamp.dropper, "initial_voltage": max(left, 1e-9)},
        ),
    ]
    if lamp.bleeder is not None and left > 1e-3:
        decay = {"bleeder": lamp.bleeder, "dropper": lamp.dropper, "initial_voltage": left}
        since = fade.time >= 0
        after = float(np.interp(1.0, fade.time[since], np.abs(fade.pins_voltage[since])))
        rows.append(Reading("left", "on the pins after 1 s", after, "V", "residual_voltage", decay | {"time": 1.0}))
        if left > 34.0:
            rows.append(
                Reading(
                    "to_limit",
                    "until 34 V on the pins",
                    fade.time_below(34.0),
                    "s",
                    "discharge_time",
                    decay | {"limit_voltage": 34.0},
                )
            )
    rule_values = {"time": 1.0, "dropper": lamp.dropper, "initial_voltage": lamp.mains.peak, "limit_voltage": 34.0}
    if lamp.mains.peak > 34.0:
        rows.append(
            Reading(
                "bleeder",
                "largest bleeder for 34 V in 1 s",
                theory.largest_bleeder(**rule_values),
                "Ω",
                "largest_bleeder",
                rule_values,
                True,
            )
        )
    return tuple(rows)


def pins_voltage(lamp: Lamp, angle: float) -> float:
    """Volts between the pins just after unplugging at an angle of the mains, in degrees."""
    fade = unplug(lamp, angle, 0.01)
    return abs(float(fade.dropper_voltage[fade.time >= 0][0]))
