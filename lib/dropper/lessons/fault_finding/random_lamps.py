"""Random lamps: sound ones and ones with a shorted diode, drawn within their limits and counted by what they show."""

import numpy as np

from ... import theory
from ...circuit.lamp import Lamp
from ...solver.transient import Fault, settle, with_fault

_MAINS, _DROPPER, _LEDS = 0.10, 0.10, 0.05  # limits of what differs from lamp to lamp, as shares
_METER = (0.01, 0.02, 0.01)  # of the meter's volts, amperes and watts, as shares
_PHASE, _DIGIT = 0.5, 0.1  # of the meter: degrees, W
_SOUND, _SHORTED = 240_000, 100_000  # lamps of each kind, as often as they are met


def share_with_short(lamp: Lamp, watts: tuple[float, ...], seed: int = 13) -> list[float]:
    """Of lamps drawn at random that show some watts, the share that has one diode short.

    Each lamp's watts are those of the solver, moved by the ideal formulas of bridge and half-wave pump; each meter errs
    within its limits (common practice, no source) and shows a digit of 0.1 W.

    Parameters
    ----------
    watts
        What is shown, W.
    seed
        Which lamps are drawn.

    Returns
    -------
    list of float
        A share for each of `watts`.
    """
    random = np.random.default_rng(seed)
    sound, shorted = settle(lamp), settle(with_fault(lamp, Fault("short", "D1")))

    def bridge(peak, dropper, volts):
        return volts * theory.mean_string_current(
            frequency=lamp.mains.frequency, dropper=dropper, peak_voltage=peak, clamped_voltage=volts
        )

    def pump(peak, dropper, volts):
        return volts * theory.half_wave_current(
            frequency=lamp.mains.frequency, dropper=dropper, peak_voltage=peak, output_voltage=volts, diode_voltage=0
        )

    good = _shown(random, lamp, sound, bridge, _SOUND)
    bad = _shown(random, lamp, shorted, pump, _SHORTED)
    counts = [[np.count_nonzero(np.isclose(each, read)) for each in (good, bad)] for read in watts]
    return [float(short / (whole + short)) for whole, short in counts]


def _shown(random, lamp, now, power, count):
    """What meters show of so many lamps like one, W."""

    def within(limit):
        return 1 + random.uniform(-limit, limit, count)

    peak, volts = lamp.mains.peak, now.bus_voltage_mean
    mains, farads, leds = within(_MAINS), within(_DROPPER), within(_LEDS)
    true = now.real_power * power(peak * mains, lamp.dropper * farads, volts * leds) / power(peak, lamp.dropper, volts)
    nonactive = np.sqrt((lamp.mains.voltage * now.line_current_rms) ** 2 - now.real_power**2)
    errors = np.prod([within(share) for share in _METER], axis=0)
    read = true * errors + np.radians(_PHASE) * (within(1) - 1) * nonactive + _DIGIT * (within(1) - 1)
    return read.round(1)
