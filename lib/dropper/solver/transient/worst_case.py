"""Worst cases of switching: the worst moment to plug in, and the worst to unplug."""

import numpy as np

from ...circuit.lamp import Lamp
from ..kernel import transient
from .circuit import LINE_INDUCTANCE, LINE_RESISTANCE, check_line_inductance, check_line_resistance
from .faults import Faulty, circuit_of
from .repeating_cycle import settle
from .run import Run
from .switching import plug_in, unplug
from .trace import Trace

_COARSE, _FINE = 10.0, 0.25  # degrees between the angles that are tried


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
        run.set_state(angle / 360 * run.period, precharge, 0.0)
        run.clear()
        run.advance(run.period / 4)
        return run.sums[transient.LINE_PEAK]

    worst = _highest(peak, np.arange(0.0, 360.0, _COARSE), _COARSE)
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


def _highest(function, grid, step):
    """The argument of the highest value, looked for on a grid and then ever finer around the best."""
    values = [function(at) for at in grid]
    best, high = float(grid[int(np.argmax(values))]), max(values)
    while step > _FINE:
        step /= 2
        for at in (best - step, best + step):
            value = function(at % 360)
            if value > high:
                best, high = at % 360, value
    return best
