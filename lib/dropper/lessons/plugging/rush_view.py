"""Rush view: the first moments after plugging in, and the peak of the current for every moment of it."""

from dataclasses import dataclass

import numpy as np

from ... import theory
from ...circuit.fields import about, check, check_part, documented, quantity
from ...circuit.lamp import Lamp, replace_at
from ...circuit.values import show
from ...results.reading import Reading
from ...solver.transient import LINE_INDUCTANCE, LINE_RESISTANCE, Trace, plug_in, settle

_ANGLES = np.arange(0.0, 361.0, 5.0)
_TIMES_OHMS = 10.0  # the larger resistor that the question is about
_SAME = 0.2  # share of the heat up to which it counts as the same
_IMPEDANCE = (
    "The mains is taken to have the reference impedance, 0.4 Ω and 0.8 mH. One with less inductance lets more through,"
    " up to the step over the resistance."
)
_NO_STEP = "The mains stands just where the dropper does: no step, and no rush. What flows is the lamp's own current."


@documented
@dataclass(frozen=True)
class PluggingIn:
    """A lamp, when it is plugged in and with what on its dropper."""

    lamp: Lamp
    angle: float = quantity("°", 0, 360, 90.0, meaning="angle of the mains at which it is plugged in")
    precharge: float = quantity("V", -1500, 1500, 0.0, meaning="volts left on the dropper from before")

    def __post_init__(self):
        check(self)
        check_part(self, "lamp", Lamp)


@documented
@dataclass(frozen=True, eq=False)
class View:
    """The first moments, and the peak at every angle."""

    setting: PluggingIn
    rush: Trace
    window: float = about("the part of the rush that is worth showing", "s")
    angles: np.ndarray
    peaks: np.ndarray = about("peak of the rush by the closed form, at each angle", "A")
    peak: float = about("peak of the rush by the solver", "A")
    heat_in_use: float = about("of the inrush resistor, in use", "W")
    readings: tuple


def view_of(setting: PluggingIn) -> View:
    """What a setting shows.

    Raises
    ------
    ValueError
        If nothing is left to limit the inrush, or the precharge is out of reach.
    """
    lamp = setting.lamp
    limiting = {
        "inrush_resistor": lamp.inrush_resistor + LINE_RESISTANCE,
        "dropper": lamp.dropper,
        "line_inductance": LINE_INDUCTANCE,
    }
    turn = 2 * np.pi * np.sqrt(LINE_INDUCTANCE * lamp.dropper)
    rush = plug_in(lamp, setting.angle, setting.precharge, periods=0.5)
    steps = np.abs(lamp.mains.peak * np.sin(np.radians(_ANGLES)) - setting.precharge)
    steady = settle(lamp)
    return View(
        setting=setting,
        rush=rush,
        window=min(max(8 * limiting["inrush_resistor"] * lamp.dropper, 3 * turn), 0.01),
        angles=_ANGLES,
        peaks=steps * theory.ALL[theory.rush_law(**limiting)](step_voltage=1.0, **limiting),
        peak=rush.line_current_peak,
        heat_in_use=steady.heat.get("inrush_resistor", 0.0),
        readings=_readings(setting, rush, limiting, steady),
    )


def _readings(setting, rush, limiting, steady):
    lamp = setting.lamp
    law = theory.rush_law(**limiting)
    worst = limiting | {"step_voltage": theory.replug_step(peak_voltage=lamp.mains.peak)}
    in_use = "heat_in_use", "heat of R1 in use", steady.heat.get("inrush_resistor", 0.0), "W"
    values = {"line_current_rms": steady.line_current_rms, "inrush_resistor": lamp.inrush_resistor}
    holds = lamp.inrush_resistor > 0 and steady.line_current_rms > 0
    return (
        *_rush_readings(setting, rush, limiting),
        Reading("replug", "worst re-plug, peak", theory.ALL[law](**worst), "A", law, worst, True, note=_IMPEDANCE),
        Reading(*in_use, "inrush_resistor_heat", values, from_readings=True)
        if holds
        else Reading(*in_use, "", note="No inrush resistor is fitted, so none gets warm."),
    )


def _rush_readings(setting, rush, limiting):
    lamp = setting.lamp
    step = abs(lamp.mains.peak * np.sin(np.radians(setting.angle)) - setting.precharge)
    peak = "inrush_peak", "peak of the rush", rush.line_current_peak, "A"
    heat = "inrush_energy", "heat of the rush in R1", rush.inrush_energy, "J"
    if step <= 1e-6 * lamp.mains.peak:
        return tuple(Reading(*which, "", note=_NO_STEP) for which in (peak, heat))
    driven = limiting | {"step_voltage": float(step)}
    in_time = Reading(*peak, theory.rush_law(**limiting), driven, note=_IMPEDANCE)
    if not lamp.inrush_resistor:
        return in_time, Reading(*heat, "", note="No inrush resistor is fitted, so none gets warm.")
    energy = {name: driven[name] for name in ("inrush_resistor", "dropper", "step_voltage")}
    return in_time, Reading(*heat, "inrush_energy", energy)


def heat_verdict(lamp: Lamp) -> tuple[str, str]:
    """What ten times the resistor makes of its heat in one rush: "less", "same" or "more", and a sentence."""
    larger = replace_at(lamp, "inrush_resistor", _TIMES_OHMS * lamp.inrush_resistor)
    first, second = (plug_in(one, 90.0, periods=0.5) for one in (lamp, larger))
    if not first.inrush_energy:
        return "", "This lamp has no inrush resistor."
    change = second.inrush_energy / first.inrush_energy - 1
    right = "same" if abs(change) < _SAME else "more" if change > 0 else "less"
    used = settle(lamp).heat["inrush_resistor"]
    return right, (
        f"With {show(lamp.inrush_resistor, 'Ω')} the rush puts {show(first.inrush_energy, 'J')} into R1; with"
        f" {show(larger.inrush_resistor, 'Ω')} it puts {show(second.inrush_energy, 'J')}. The peak falls from"
        f" {show(first.line_current_peak, 'A')} to {show(second.line_current_peak, 'A')}, and the rush takes longer. In"
        f" use the first takes {show(used, 'W')}: for the rush that says nothing."
    )
