"""Comparison of then and now: changes in signed per cent, and what a change of one part does."""

import math

from ..circuit.lamp import Lamp, replace_at
from ..circuit.numerals import last_digit, signed
from ..circuit.values import show
from ..solver.steady import SteadyState, steady_states


def signed_percent(before: float, after: float) -> str:
    """The change as text: "+12.3 %", "−4.0 %", "0.0 %", or "–" where there is none to give."""
    if not (math.isfinite(before) and math.isfinite(after)) or before == 0:
        return "–"
    change = 100 * (after / before - 1)
    if abs(change) >= 999:
        return f"× {after / before:.3g}"
    return f"{signed(change)} %"


def change_beside(before: float, after: float, texts: tuple[str, str], digit: float = 0.0) -> str:
    """The change of a reading as it stands beside the two texts, and does not contradict them.

    Parameters
    ----------
    texts
        Before and after, as they are shown.
    digit
        The last digit that is shown, in the unit of the values; 0 for three significant digits.

    Examples
    --------
    >>> change_beside(0.2656, 0.2649, ("0.27", "0.26"), 0.01), change_beside(1.30, 1.32, ("1.3 W", "1.3 W"), 0.1)
    ('< 1 digit', '0.0 %')
    >>> change_beside(0.0167, 0.0190, ("16.7 mA", "19 mA")), change_beside(2e5, 4e5, ("over 100 000 h",) * 2)
    ('+13.8 %', '+100.0 %')
    """
    if not (math.isfinite(before) and math.isfinite(after)) or before == 0:
        return "–"
    if texts[0] == texts[1] and not texts[0].startswith("over"):
        return "–" if texts[0].startswith("under") else "0.0 %"
    if abs(after - before) < (digit or last_digit(max(abs(before), abs(after)))):
        return "< 1 digit"
    return signed_percent(before, after)


def why_dark(lamp: Lamp, result: SteadyState) -> str:
    """Why a lamp's string stays dark, in a clause that begins with "its string" or "the bleeder".

    Parameters
    ----------
    result
        The lamp's own, with waveforms.
    """
    needed = lamp.string.voltage_at(1e-4 * lamp.string.led.at_current)
    crest = float(abs(result.mains_voltage).max())
    if needed > crest - 2 * lamp.diode.voltage_at(1e-6):
        return (
            f"its string wants about {show(needed, 'V')} before it conducts, and the mains reaches"
            f" {show(crest, 'V')} at its peak"
        )
    return (
        f"the bleeder of the smoothing capacitor takes what the dropper passes, so that the bus stays at"
        f" {show(result.bus_voltage_mean, 'V')}, below the {show(needed, 'V')} at which the string begins"
    )


def what_sets_the_brightness(lamp: Lamp) -> tuple[str, str]:
    """Resistor against capacitor: the string current before and after a change of each.

    The series resistor goes from 10 Ω to 1 kΩ, a hundredfold; the dropper to twice its
    value. Nothing else changes.

    Returns
    -------
    (str, str)
        Which of the two sets it, "resistor" or "capacitor", and a sentence with the figures.
    """
    small = replace_at(lamp, "series_resistor", 10.0)
    doubled = replace_at(small, "dropper", min(2 * lamp.dropper, 1e-4))
    lamps = [small, replace_at(lamp, "series_resistor", 1000.0), doubled]
    current = steady_states(lamps).string_current_mean
    resistor, capacitor = (signed_percent(current[0], after) for after in current[1:])
    sets = "capacitor" if abs(current[2] / current[0] - 1) > abs(current[1] / current[0] - 1) else "resistor"
    return sets, (
        f"In this lamp a hundred times the series resistor (10 Ω to 1 kΩ) changes the mean string current by"
        f" {resistor}; twice the dropper ({show(lamp.dropper, 'F')} to {show(2 * lamp.dropper, 'F')})"
        f" changes it by {capacitor}."
    )
