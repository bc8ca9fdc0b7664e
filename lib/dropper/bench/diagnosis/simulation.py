"""Simulation: one lamp with one cause, what meters and the eye would see of it, and what its parts measure."""

import numpy as np

from ...circuit.lamp import Lamp, replace_at
from ...solver.transient import settle, unplug, with_fault
from ...solver.transient.faults import Faulty
from ...solver.transient.pull import volts_left
from ..meter.expectation import reactive_power, rms_volts
from ..meter.multimeter import ac_value
from .prior import fault_of

QUANTITIES = ("voltage", "current", "power", "reactive", "power_factor", "bus", "ripple", "averaged_ripple")
# Moments at which the plug is pulled, degrees of the mains. Nobody chooses, so each counts alike. An odd number all
# round: in a lamp whose two half cycles are alike they fall on as many different moments of one half cycle.
PULL_ANGLES = (36.0, 108.0, 180.0, 252.0, 324.0)
_FAR_BELOW = 0.6  # of the bus voltage: a dropper that holds less shows nothing, whatever mains and tolerances do
DARK = 0.01  # of the healthy lamp's string current: less is no light
_OPEN = 1e12  # Ω


def check_lit(lamp: Lamp) -> None:
    """Refuse a lamp that stays dark though nothing is wrong with it.

    Raises
    ------
    ValueError
        If it does.
    """
    if settle(lamp).word == "dark":
        raise ValueError(f"lamp: the {lamp.name} stays dark with every part good, so no fault can be told by its light")


def lamp_with(lamp: Lamp, kind: tuple | None, amount: float | None) -> Lamp | Faulty:
    """A lamp with one cause."""
    fault = fault_of(kind, amount)
    return lamp if fault is None else with_fault(lamp, fault)


def quantities_of(lamp: Lamp | Faulty) -> dict[str, float]:
    """What meters and the eye would see of one lamp: each of `QUANTITIES`, and string current and flicker.

    Returns
    -------
    dict of str to float
        SI units, flicker in per cent.
    """
    state = settle(lamp)
    volts, flows = rms_volts(state), state.line_current_rms > 1e-7
    lit = state.word != "dark"
    half = state.time <= state.time[-1] / 2
    first, second = (np.trapezoid(state.string_current[part], state.time[part]) for part in (half, ~half))
    lopsided = lit and abs(first - second) > 0.1 * (first + second)
    return {
        "voltage": volts,
        "current": state.line_current_rms,
        "power": state.real_power,
        "reactive": reactive_power(state),
        "power_factor": state.power_factor if flows else 0.0,
        "bus": state.bus_voltage_mean,
        "ripple": ac_value(state.bus_voltage, state.time),
        "averaged_ripple": ac_value(state.bus_voltage, state.time, true_rms=False),
        "string": state.string_current_mean,
        # light that comes in one half of the period only is seen by everybody
        "flicker": state.percent_flicker + 30 * lopsided if lit else 0.0,
    }


def part_values(lamp: Lamp, kind: tuple | None, amount: float | None) -> dict[str, float]:
    """What parts measure out of circuit, and how many LEDs a cause itself puts out.

    Returns
    -------
    dict of str to float
        SI units; 1 TΩ stands for open.
    """
    string = lamp.string
    dark = {("short", "group"): string.in_parallel, ("open", "LED"): 1}.get(kind, 0)
    if kind == ("short", "groups"):
        dark = round(amount) * string.in_parallel
    parts = {
        "dropper": lamp.dropper,
        "smoothing": lamp.smoothing,
        "bleeder": lamp.bleeder or _OPEN,
        "inrush_resistor": lamp.inrush_resistor,
        "smoothing_bleeder": lamp.smoothing_bleeder or _OPEN,
        "leak": _OPEN,
    }
    fault, part = kind or (None, None)
    if fault == "open" and part in parts:
        parts[part] = 0.0 if part in ("dropper", "smoothing") else _OPEN
    elif fault == "short" and part in parts:
        parts[part] = 0.0
        if part == "smoothing":
            parts["leak"] = 0.0
    elif fault in ("lost", "dried out"):
        parts[part] *= 1 - amount
    elif fault == "drifted":
        parts[part] *= amount
    elif fault == "leaky":
        parts["leak"] = amount
    return parts | {"leds_dark": dark}


def bus_residual_of(
    lamp: Lamp, kind: tuple | None, amount: float | None, seconds: float, meter_resistance: float
) -> float:
    """Volts across the smoothing capacitor so long after unplugging, a meter on it from then on.

    Parameters
    ----------
    seconds, meter_resistance
        s and Ω.
    """
    bleeder = lamp.smoothing_bleeder or _OPEN
    if kind == ("open", "smoothing_bleeder"):  # the meter takes the bleeder's place
        bleeder, kind = _OPEN, None
    metered = replace_at(lamp, "smoothing_bleeder", 1 / (1 / bleeder + 1 / meter_resistance))
    return float(unplug(lamp_with(metered, kind, amount), 90, seconds=seconds).bus_voltage[-1])


def pins_residuals_of(lamp: Lamp | Faulty, seconds: float, meter_resistance: float) -> tuple[np.ndarray, bool]:
    """Volts between the pins so long after the pull, a meter there all the while, for each of `PULL_ANGLES`.

    The bus stands against the dropper, so this is less than what the dropper holds, and often nothing.

    Parameters
    ----------
    seconds, meter_resistance
        s and Ω.

    Returns
    -------
    (array, bool)
        The volts, either way round; and whether the dropper stands so far below the bus that none could ever show.
    """
    volts, held, bus = np.abs(volts_left(lamp, PULL_ANGLES, seconds, meter_resistance)).T
    return volts, bool(((volts < 0.05) & (held <= _FAR_BELOW * bus)).all())
