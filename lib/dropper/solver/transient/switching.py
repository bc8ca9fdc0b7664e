"""Switching: plugging in, unplugging, and a dip of the mains."""

import math

import numpy as np

from ...circuit.lamp import Lamp
from ..kernel import network, transient
from .circuit import LINE_INDUCTANCE, LINE_RESISTANCE, check_line_inductance, check_line_resistance, check_number
from .faults import Faulty, circuit_of
from .repeating_cycle import settle
from .run import Run
from .trace import Trace

_MOST_PERIODS = 5000
_FEWEST_USUAL, _LONGEST_USUAL = 6, 150  # periods that a plug-in is followed unless told
_FINE = 80  # a trace with the plug out has at least so many points


def plug_in(
    lamp: Lamp | Faulty,
    angle: float = 90.0,
    precharge: float = 0.0,
    bus_precharge: float = 0.0,
    periods: float | None = None,
    line_resistance: float = LINE_RESISTANCE,
    line_inductance: float = LINE_INDUCTANCE,
) -> Trace:
    """A lamp plugged in at an angle of the mains.

    The contact is taken as made once and for good; real ones bounce.

    Parameters
    ----------
    angle
        Of the mains at that moment, degrees, -360 to 360; 90 is the positive crest.
    precharge
        V left on the dropper from before, positive towards the mains' line side; up to three
        times the mains' peak either way.
    bus_precharge
        V left on the smoothing capacitor, 0 to three times the mains' peak.
    periods
        How many mains periods are followed, up to 5000. None: about until the light is steady,
        at most 150.
    line_resistance
        Ohms of the mains itself, 0 to 10 kΩ.
    line_inductance
        H of the mains itself, up to 1 H; 0 leaves it out. Unless told, both are those of the reference impedance, 0.4 Ω
        and j0.25 Ω at 50 Hz: 0.8 mH (IEC TR 60725). Without an inrush resistor they alone limit the inrush, and most
        sockets have less of both: state yours where it matters.

    Raises
    ------
    ValueError
        If a value is out of its range, or nothing is left to limit the inrush.

    Examples
    --------
    >>> from dropper import Lamp, Led, LedString, Mains
    >>> lamp = Lamp(Mains(230, 50), LedString(Led(3.1, 0.02), 22), "330 nF", "10 µF", "1 MΩ", inrush_resistor=220)
    >>> plug_in(lamp, angle=90, periods=1)
    <Trace of plug-in at 90°, 20 ms: line current up to 1.3 A, bus up to 48.9 V>
    """
    circuit = circuit_of(lamp)
    line, inductance = check_line_resistance(circuit, line_resistance), check_line_inductance(line_inductance)
    bound = 3 * circuit.mains.peak
    angle = check_number("angle", angle, "degrees", -360, 360)
    precharge = check_number("precharge", precharge, "V", -bound, bound)
    bus_precharge = check_number("bus_precharge", bus_precharge, "V", 0, bound)
    if circuit.dropper_short:
        precharge = 0.0  # a short holds no charge
    steady = settle(lamp, line)
    if periods is None:
        periods = _usual_periods(circuit, steady)
    periods = check_number("periods", periods, "mains periods", 0.001, _MOST_PERIODS)
    run = Run(circuit, line, _time_at(circuit, angle), precharge, bus_precharge, inductance)
    event_time = run.time
    before = run.stored_energy()
    run.advance(periods * run.period)
    return _trace("plug-in", angle, run, steady, line, event_time, before, (precharge, bus_precharge))


def unplug(
    lamp: Lamp | Faulty,
    angle: float = 90.0,
    seconds: float = 10.0,
    across: float | None = None,
    line_resistance: float = LINE_RESISTANCE,
) -> Trace:
    """A settled lamp unplugged at an angle of the mains.

    With nothing across the pins, their voltage is what the dropper holds: the four diodes block
    and share the bus voltage evenly. For an instant up to the bus voltage more can stand there.
    A meter across them (`across`) shows less, often nothing: the charged bus stands against the dropper.

    The current ends at once. What the mains' inductance holds of it, a microjoule or less (½·L·i²), is taken to go into
    the spark at the contacts; nothing of it reaches the lamp.

    Parameters
    ----------
    angle
        Of the mains at that moment, degrees, -360 to 360.
    seconds
        How long it is followed, 1 ms to 1e6 s.
    across
        Ohms across the pins from then on (a meter has 10 MΩ, say), 1 Ω to 1 TΩ. None: nothing.
    line_resistance
        Ohms of the mains itself before, 0 to 10 kΩ.

    Raises
    ------
    ValueError
        If a value is out of its range, or nothing is left to limit the inrush.

    Examples
    --------
    >>> from dropper import Lamp, Led, LedString, Mains
    >>> lamp = Lamp(Mains(230, 50), LedString(Led(3.1, 0.02), 22), "330 nF", "10 µF", "1 MΩ", inrush_resistor=220)
    >>> round(unplug(lamp, angle=90).time_below(34.0), 2)
    0.67
    """
    circuit = circuit_of(lamp)
    line = check_line_resistance(circuit, line_resistance)
    angle = check_number("angle", angle, "degrees", -360, 360)
    seconds = check_number("seconds", seconds, "s", 1e-3, 1e6)
    outside = math.inf if across is None else check_number("across", across, "Ω", 1, 1e12)
    steady = settle(lamp, line)
    run = _run_at_angle(circuit, line, steady, angle)
    event_time, start, before = run.time, (run.dropper, run.bus), run.stored_energy()
    run.connect(outside)
    run.advance(seconds, factor=0.0, longest=seconds / _FINE)
    return _trace("unplug", angle, run, steady, 0.0 if math.isinf(outside) else outside, event_time, before, start)


def brownout(
    lamp: Lamp | Faulty,
    depth: float,
    seconds: float,
    angle: float = 0.0,
    after: float | None = None,
    line_resistance: float = LINE_RESISTANCE,
    line_inductance: float = LINE_INDUCTANCE,
) -> Trace:
    """A settled lamp whose mains dips for a time; one period before the dip is shown too.

    Parameters
    ----------
    depth
        Share of the mains voltage that is missing meanwhile, 0 to 1.
    seconds
        How long the dip lasts, 0.1 ms to 100 s.
    angle
        Of the mains where the dip begins, degrees, -360 to 360.
    after
        How long the lamp is followed afterwards, s, up to 100. None: about until the light is
        steady.
    line_resistance, line_inductance
        Of the mains itself, as in `plug_in`.

    Raises
    ------
    ValueError
        If a value is out of its range, or nothing is left to limit the inrush.

    Examples
    --------
    >>> from dropper import Lamp, Led, LedString, Mains
    >>> lamp = Lamp(Mains(230, 50), LedString(Led(3.1, 0.02), 22), "330 nF", "10 µF", "1 MΩ", inrush_resistor=220)
    >>> trace = brownout(lamp, depth=1.0, seconds=0.02, after=0.05)
    >>> round(trace.string_current_least / trace.steady.string_current_mean, 2)
    0.17
    """
    circuit = circuit_of(lamp)
    line, inductance = check_line_resistance(circuit, line_resistance), check_line_inductance(line_inductance)
    depth = check_number("depth", depth, "", 0, 1)
    seconds = check_number("seconds", seconds, "s", 1e-4, 100)
    angle = check_number("angle", angle, "degrees", -360, 360)
    steady = settle(lamp, line)
    run = _run_at_angle(circuit, line, steady, angle, inductance)
    if after is None:
        after = _usual_periods(circuit, steady) * run.period
    after = check_number("after", after, "s", 1e-4, 100)
    start, before = (run.dropper, run.bus), run.stored_energy()
    run.advance(run.period, jump=False)
    event_time = run.time
    run.advance(seconds, factor=1 - depth)
    run.advance(after)
    return _trace("brownout", angle, run, steady, line, event_time, before, start)


def _time_at(circuit, angle):
    return (angle % 360) / 360 / circuit.mains.frequency


def _usual_periods(circuit, steady):
    """Periods until the smoothing capacitor is about full: three times its charge over the current at first."""
    if circuit.dropper_short or circuit.line_open:
        return _FEWEST_USUAL
    frequency, peak = circuit.mains.frequency, circuit.mains.peak
    charge = circuit.smoothing * steady.bus_voltage_mean
    current = 4 * frequency * (circuit.dropper or 1e-9) * max(peak - steady.bus_voltage_mean, 0.2 * peak)
    return min(_FEWEST_USUAL + math.ceil(3 * frequency * charge / current), _LONGEST_USUAL)


def _run_at_angle(circuit, line, steady, angle, inductance=0.0):
    """A run of the settled lamp, brought to an angle of the mains; the inductance then carries the line's current."""
    run = Run(circuit, line, 0.0, *steady.start)
    seconds = _time_at(circuit, angle)
    if seconds > 0:
        run.advance(seconds, jump=False)
    run.clear()
    if inductance:
        run.connect(line, inductance)
        run.line_current = float(np.interp(seconds, steady.time, steady.line_current))
    return run


def _trace(what, angle, run, steady, outside, event_time, before, start):
    waves = run.waves()
    bridge, line, dropper = waves[transient.BRIDGE], waves[transient.LINE], waves[transient.DROPPER]
    return Trace(
        what=what,
        angle=angle,
        precharge=float(start[0]),
        bus_precharge=float(start[1]),
        steady=steady,
        heat=run.heat_energies(outside),
        energy_taken=float(run.sums[transient.TAKEN]),
        energy_stored=float(run.stored_energy() - before),
        period=run.period,
        inrush_resistor=run.circuit.inrush_resistor,
        dropper=0.0 if run.circuit.dropper_short else run.circuit.dropper,
        line_resistance=outside,
        line_inductance=float(run.row[network.L]),
        time=waves[transient.TIME] - event_time,
        mains_voltage=waves[transient.MAINS],
        pins_voltage=dropper + bridge + run.circuit.inrush_resistor * line,
        line_current=line,
        dropper_voltage=dropper,
        bus_voltage=waves[transient.BUS],
        string_current=waves[transient.STRING_WAVE],
        current_squared=waves[transient.SQUARED],
        string_charge=waves[transient.CHARGED],
    )
