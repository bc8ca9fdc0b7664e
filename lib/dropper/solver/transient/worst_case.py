"""Worst cases of switching: the worst moment to plug in, and the worst to unplug."""

import numpy as np

from ...circuit.lamp import Lamp
from ..kernel.rush import rush_peak
from .circuit import LINE_INDUCTANCE, LINE_RESISTANCE, check_line_inductance, check_line_resistance
from .faults import Faulty, circuit_of
from .repeating_cycle import settle
from .run import Run
from .switching import plug_in, unplug
from .trace import Trace

_COARSE, _COARSE_DISTORTED, _FINE = 30.0, 15.0, 0.25  # degrees between the angles that are tried
_CRESTS, _BEST = 6, 3  # of a mains with harmonics: crests that are tried too, and from how many angles it is gone on


def worst_plug_in(
    lamp: Lamp | Faulty,
    replug: bool = False,
    periods: float | None = None,
    line_resistance: float = LINE_RESISTANCE,
    line_inductance: float = LINE_INDUCTANCE,
) -> Trace:
    """A lamp plugged in at the angle that makes the line current rise highest.

    Parameters
    ----------
    replug
        Plugged in again while the dropper still holds the most that unplugging can leave, the
        wrong way round, with the smoothing capacitor empty: the step is then nearly twice the
        mains' peak. False: both start empty.
    periods, line_resistance, line_inductance
        As in `plug_in`.

    Returns
    -------
    Trace
        Its `angle` is the one that was found, within a quarter of a degree.

    Raises
    ------
    ValueError
        As in `plug_in`.

    Examples
    --------
    >>> from dropper import Lamp, Led, LedString, Mains
    >>> lamp = Lamp(Mains(230, 50), LedString(Led(3.1, 0.02), 22), "330 nF", "10 µF", "1 MΩ", inrush_resistor=220)
    >>> round(worst_plug_in(lamp, periods=0.25).angle)
    90
    """
    circuit = circuit_of(lamp)
    line, inductance = check_line_resistance(circuit, line_resistance), check_line_inductance(line_inductance)
    steady = settle(lamp, line)
    precharge = _extreme(steady.dropper_voltage) if replug else 0.0
    run = Run(circuit, line, inductance=inductance)

    def peak(angle):
        return rush_peak(run.row, run.orders, angle / 360 * run.period, precharge, run.period / 4, run.longest)

    distorted = not circuit.mains.is_sine
    step = _COARSE_DISTORTED if distorted else _COARSE
    tried = np.concatenate(
        [np.arange(0.0, 360.0, step), _crests(circuit.mains.cycle, precharge / (np.sqrt(2) * circuit.mains.voltage))]
    )
    worst = _highest(peak, tried, step, _BEST if distorted else 1)
    return plug_in(lamp, worst, precharge, 0.0, periods, line, inductance)


def worst_unplug(
    lamp: Lamp | Faulty, seconds: float = 10.0, across: float | None = None, line_resistance: float = LINE_RESISTANCE
) -> Trace:
    """A settled lamp unplugged when its dropper holds the most.

    Parameters
    ----------
    seconds
        As in `unplug`.
    across
        As in `unplug`.
    line_resistance
        Ohms of the mains itself, 0 to 10 kΩ.

    Raises
    ------
    ValueError
        As in `unplug`.

    Examples
    --------
    >>> from dropper import Lamp, Led, LedString, Mains
    >>> lamp = Lamp(Mains(230, 50), LedString(Led(3.1, 0.02), 22), "330 nF", "10 µF", "1 MΩ", inrush_resistor=220)
    >>> round(worst_unplug(lamp, seconds=1.0).residual_charge() * 1e6)
    85
    """
    circuit = circuit_of(lamp)
    steady = settle(lamp, check_line_resistance(circuit, line_resistance))
    when = steady.time[np.abs(steady.dropper_voltage).argmax()]
    return unplug(lamp, 360 * when * circuit.mains.frequency % 360, seconds, across, line_resistance)


def _extreme(wave):
    return float(wave[np.abs(wave).argmax()])


def _crests(cycle, precharge):
    """Degrees at which the mains stands farthest from what the dropper holds, over √2 times its voltage."""
    angles = np.arange(0.0, 360.0)
    step = np.abs(cycle.at(angles / 360) - precharge)
    tops = angles[(step >= np.roll(step, 1)) & (step > np.roll(step, -1))]
    return tops[np.argsort(-step[tops.astype(int)])[:_CRESTS]]


def _highest(function, tried, step, starts):
    """The argument of the highest value, of those that are tried and then ever finer around the best of them."""
    values = np.nan_to_num([function(at) for at in tried])
    best, high = 0.0, -1.0
    for place in np.argsort(-values)[:starts]:
        at, value = _climb(function, float(tried[place]), float(values[place]), step)
        if value > high:
            best, high = at, value
    return best


def _climb(function, best, high, step):
    """The highest value near an angle, and where it is."""
    while step > _FINE:
        step /= 2
        for at in ((best - step) % 360, (best + step) % 360):
            value = function(at)
            if value > high:
                best, high = at, value
                break
    return best, high
