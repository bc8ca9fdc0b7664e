"""Repeating cycle: the steady state of a lamp, healthy or faulty, by the network solver."""

import functools

import numpy as np

from ...circuit.lamp import Lamp
from .. import flicker, power
from ..kernel import network, transient
from ..state import DARK, UNLIT, SteadyState
from .circuit import LINE_RESISTANCE, Circuit, check_line_resistance, check_number
from .faults import Faulty, circuit_of
from .run import Run

_MOST_CYCLES = 120
# How well a cycle repeats: mean current into a capacitor over what the dropper turns over.
_NEAR = 2e-6


def settle(lamp: Lamp | Faulty, line_resistance: float = LINE_RESISTANCE, smoothing_series: float = 0.0) -> SteadyState:
    """The cycle that repeats, of a lamp with or without a fault.

    Parameters
    ----------
    line_resistance
        Ohms of the mains itself, 0 to 10 kΩ.
    smoothing_series
        Ohms in series with the smoothing capacitor, its own, 0 to 10 kΩ; a fault's come on top.

    Raises
    ------
    ValueError
        If nothing is left to limit the inrush.
    ArithmeticError
        If the equations could not be solved.

    Examples
    --------
    >>> from dropper import Lamp, Led, LedString, Mains
    >>> lamp = Lamp(Mains(230, 50), LedString(Led(3.1, 0.02), 22), "330 nF", "10 µF", "1 MΩ", inrush_resistor=220)
    >>> from dropper.solver.transient import Fault, with_fault
    >>> settle(with_fault(lamp, Fault("open", "string"))).word
    'dark'
    """
    line = check_line_resistance(circuit_of(lamp), line_resistance)
    return _cycle(lamp, line, check_number("smoothing_series", smoothing_series, "Ω", 0, 1e4))


@functools.lru_cache(maxsize=512)  # all causes of a lamp, each part once a little larger, some 20 kB each
def _cycle(lamp, line, smoothing_series=0.0):
    circuit = circuit_of(lamp)
    circuit = circuit.replace(smoothing_series=circuit.smoothing_series + smoothing_series)
    run = Run(circuit, line, bus=first_guess(circuit))
    repeats = find_cycle(run)
    healthy = (
        _cycle(lamp.lamp, check_line_resistance(circuit_of(lamp.lamp), line), smoothing_series)
        if isinstance(lamp, Faulty)
        else None
    )
    return _readings(lamp, run, line, repeats, healthy)


def first_guess(circuit: Circuit) -> float:
    """Bus voltage to start from, V: the string's at its stated current, as far as the mains reaches."""
    row, current = circuit.row(0.0), circuit.in_parallel * circuit.led.at_current
    string = circuit.groups * circuit.led.voltage_at(circuit.led.at_current) + circuit.series_resistor * current
    if not circuit.smoothing or circuit.string_open:
        return 0.0
    return min(string, 0.8 * row[network.PEAK])


def find_cycle(run: Run) -> bool:
    """Bring a run to the cycle that repeats, by Newton's method on the map from cycle to cycle.

    A state that nothing charges or discharges (a dropper with no way out for its charge) has no
    answer of its own and is left where it is.

    Returns
    -------
    bool
        Whether a cycle was found.
    """
    row = run.row
    peak = max(row[network.PEAK], run.circuit.mains.peak)
    turnover = max(row[network.C], 1e-8) * row[network.PEAK]
    capacitors = np.array([row[network.C] if row[network.DROPPER_SHORT] == 0 else 0.0, row[network.CS]])
    before = np.inf
    for _ in range(_MOST_CYCLES):
        run.clear()
        x = np.array([run.dropper, run.bus])
        slopes = run.advance(run.period, jump=False)
        gap = np.where(capacitors > 0, np.array([run.dropper, run.bus]) - x, 0.0)
        slopes[1] *= capacitors[1] > 0
        if np.abs(capacitors * gap).max() <= _NEAR * turnover:
            return True
        size = np.abs(gap).max()
        step = gap
        if size <= 4 * before:
            newton = np.linalg.lstsq(np.eye(2) - slopes, gap, rcond=1e-10)[0]
            if abs(x[0] + newton[0]) < 2.5 * peak and x[1] + newton[1] < 2.5 * peak:
                step = np.array([newton[0], max(newton[1], min(-x[1], 0.0))])  # no bus is driven below zero
        before = size
        run.set_state(0.0, *(x + step))
    return False


def _readings(lamp, run, line, repeats, healthy):
    circuit, sums, period = run.circuit, run.sums, run.period
    waves = run.waves()
    waves.setflags(write=False)  # the result is kept and handed out again
    heat = {part: float(joules / period) for part, joules in run.heat_energies(line).items()}
    outside = heat.pop("line")
    rms = float(np.sqrt(sums[transient.SQUARE] / period))
    real = float(sums[transient.TAKEN] / period) - outside
    volts = circuit.mains.rms
    mean = float(sums[transient.CHARGE] / period)
    high, low = float(sums[transient.STRING_MAX]), float(sums[transient.STRING_MIN])
    healthy_mean = mean if healthy is None else healthy.string_current_mean
    unlit = healthy_mean < UNLIT * (circuit.led.at_current * circuit.in_parallel)
    return SteadyState(
        lamp=lamp,
        dark=unlit or mean < DARK * healthy_mean,
        relative_current=np.nan if unlit else mean / healthy_mean,
        settled=bool(repeats or sum(heat.values()) < 1e-9),
        line_current_rms=rms,
        line_current_peak=float(sums[transient.LINE_PEAK]),
        real_power=real,
        apparent_power=volts * rms,
        power_factor=float(power.power_factor(real, volts * rms)),
        string_current_mean=mean,
        string_current_max=high,
        string_current_min=low,
        led_current_mean=mean / circuit.fewest_parallel,
        percent_flicker=float(flicker.percent_flicker(high, low)),
        bus_voltage_mean=float(sums[transient.BUS_TIME] / period),
        bus_voltage_peak=float(sums[transient.BUS_MAX]),
        bus_ripple=float(sums[transient.BUS_MAX] - sums[transient.BUS_MIN]),
        dropper_voltage_rms=float(np.sqrt(sums[transient.DROPPER_SQUARE] / period)),
        dropper_voltage_peak=float(sums[transient.DROPPER_PEAK]),
        conduction_fraction=float(sums[transient.CONDUCTING] / period),
        diode_reverse_peak=tuple(float(sums[transient.REVERSE_1 + k]) for k in range(4)),
        heat=heat,
        diode_heat=tuple(float(joules / period) for joules in run.diode_energies()),
        time=waves[transient.TIME],
        mains_voltage=waves[transient.MAINS],
        line_current=waves[transient.LINE],
        dropper_voltage=waves[transient.DROPPER],
        bus_voltage=waves[transient.BUS],
        string_current=waves[transient.STRING_WAVE],
        start=(float(run.dropper), float(run.bus)),
    )
