"""What a lamp, healthy or faulty, does once it has settled: the cycle that repeats, and its readings."""

import functools
from dataclasses import dataclass, field

import numpy as np

from ...circuit.lamp import Lamp
from .. import flicker, power
from ..kernel import network, transient
from .circuit import LINE_RESISTANCE, line_of
from .faults import Faulty, circuit_of
from .run import Run

# Mean string current over the healthy lamp's: below DARK no light, below DIM less than before,
# up to BRIGHTER the same to the eye, above OVER more than the string is meant for.
DARK, DIM, BRIGHTER, OVER = 0.01, 0.95, 1.05, 1.5
WORDS = ("dark", "dim", "same", "brighter", "over")
_MOST_CYCLES = 120
# How well a cycle repeats: mean current into a capacitor over what the dropper turns over.
_NEAR = 2e-6


@dataclass(frozen=True, eq=False)
class Settled:
    """A lamp's repeating cycle. SI units; waves have a sample a stride, unevenly spaced in time.

    `word` compares the mean string current with the healthy lamp's: "dark" below 1 %, "dim"
    below 95 %, "same" up to 105 %, "brighter" up to 150 %, "over" above. It speaks of the
    current of the string, not of the LEDs that are still in it.
    `heat` has watts by part, the diodes each on its own, and adds up to `real_power` within
    0.1 %; what the mains' own resistance takes is in neither.
    """

    word: str
    settled: bool  # False: no repeating cycle was found; the readings are the last cycle's
    line_current_rms: float
    line_current_peak: float
    real_power: float
    apparent_power: float
    power_factor: float  # nan when no current flows
    string_current_mean: float
    string_current_max: float
    string_current_min: float
    led_current_mean: float  # of an LED in the group that has fewest in parallel
    percent_flicker: float  # nan when no current flows
    bus_voltage_mean: float
    bus_voltage_peak: float
    bus_ripple: float  # V peak to peak
    dropper_voltage_rms: float
    dropper_voltage_peak: float
    conduction_fraction: float  # share of the period in which any diode conducts
    diode_reverse_peak: tuple  # V, D1 to D4; negative where a diode never blocks
    heat: dict
    time: np.ndarray = field(repr=False)  # s, from where the mains passes zero upwards
    mains_voltage: np.ndarray = field(repr=False)
    line_current: np.ndarray = field(repr=False)
    dropper_voltage: np.ndarray = field(repr=False)
    bus_voltage: np.ndarray = field(repr=False)
    string_current: np.ndarray = field(repr=False)
    start: tuple = field(repr=False)  # dropper's and smoothing capacitor's voltage at time 0


def settle(lamp: Lamp | Faulty, line_resistance: float = LINE_RESISTANCE) -> Settled:
    """The cycle that repeats, of a lamp with or without a fault.

    Parameters
    ----------
    line_resistance
        Ohms of the mains itself, 0 to 10 kΩ.

    Raises
    ------
    ValueError
        If nothing is left to limit the inrush.
    ArithmeticError
        If the equations could not be solved.
    """
    return _cycle(lamp, line_of(circuit_of(lamp), line_resistance))


@functools.lru_cache(maxsize=128)
def _cycle(lamp, line):
    circuit = circuit_of(lamp)
    run = Run(circuit, line, bus=_first_guess(circuit))
    repeats = _find(run)
    healthy = _cycle(lamp.lamp, line_of(circuit_of(lamp.lamp), line)) if isinstance(lamp, Faulty) else None
    return _readings(run, line, repeats, healthy)


def _first_guess(circuit):
    """Bus voltage to start from, V: the string's at its stated current, as far as the mains reaches."""
    row, current = circuit.row(0.0), circuit.in_parallel * circuit.led.at_current
    string = circuit.groups * circuit.led.voltage_at(circuit.led.at_current) + circuit.series_resistor * current
    if not circuit.smoothing or circuit.string_open:
        return 0.0
    return min(string, 0.8 * row[network.PEAK])


def _find(run):
    """Bring a run to the cycle that repeats, by Newton's method on the map from cycle to cycle.

    A state that nothing charges or discharges (a dropper with no way out for its charge) has no
    answer of its own and is left where it is.
    """
    row = run.row
    peak, turned = row[network.PEAK], max(row[network.C], 1e-8) * row[network.PEAK]
    capacitors = np.array([row[network.C] if row[network.DROPPER_SHORT] == 0 else 0.0, row[network.CS]])
    before = np.inf
    for _ in range(_MOST_CYCLES):
        run.clear()
        x = np.array([run.dropper, run.bus])
        slopes = run.follow(run.period, jump=False)
        off = np.where(capacitors > 0, np.array([run.dropper, run.bus]) - x, 0.0)
        slopes[1] *= capacitors[1] > 0
        if np.abs(capacitors * off).max() <= _NEAR * turned:
            return True
        size = np.abs(off).max()
        step = off
        if size <= 4 * before:
            newton = np.linalg.lstsq(np.eye(2) - slopes, off, rcond=1e-10)[0]
            if abs(x[0] + newton[0]) < 2.5 * peak and x[1] + newton[1] < 2.5 * peak:
                step = np.array([newton[0], max(newton[1], min(-x[1], 0.0))])  # no bus is driven below zero
        before = size
        run.place(0.0, *(x + step))
    return False


def _readings(run, line, repeats, healthy):
    circuit, sums, period = run.circuit, run.sums, run.period
    waves = run.waves()
    waves.setflags(write=False)  # the result is kept and handed out again
    heat = {part: joules / period for part, joules in run.energies(line).items()}
    outside = heat.pop("line")
    rms = float(np.sqrt(sums[transient.SQUARE] / period))
    real = float(sums[transient.TAKEN] / period) - outside
    volts = circuit.mains.voltage * float(np.sqrt(np.sum(run.orders[:, 1] ** 2)))
    mean = float(sums[transient.CHARGE] / period)
    high, low = float(sums[transient.STRING_MAX]), float(sums[transient.STRING_MIN])
    healthy_mean = mean if healthy is None else healthy.string_current_mean
    return Settled(
        word=_word(mean, healthy_mean, circuit.led.at_current * circuit.in_parallel),
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
        time=waves[transient.TIME],
        mains_voltage=waves[transient.MAINS],
        line_current=waves[transient.LINE],
        dropper_voltage=waves[transient.DROPPER],
        bus_voltage=waves[transient.BUS],
        string_current=waves[transient.STRING_WAVE],
        start=(float(run.dropper), float(run.bus)),
    )


def _word(mean, healthy, stated):
    if healthy < 1e-4 * stated or mean < DARK * healthy:
        return "dark"
    share = mean / healthy
    return WORDS[1 + sum(share > bound for bound in (DIM, BRIGHTER, OVER))]
