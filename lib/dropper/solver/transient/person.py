"""Person: the current through somebody in contact with a lamp on the mains, once its cycle repeats.

A lesson on what would flow, and no leave to touch: a body is no resistor of known value, and all of a lamp is mains.
"""

from __future__ import annotations

import functools
from dataclasses import dataclass

import numpy as np

from ...circuit.fields import about, documented
from ...circuit.lamp import Lamp
from ...circuit.values import show
from ..kernel import transient
from .body import Body
from .circuit import LINE_RESISTANCE, check_line_resistance
from .faults import Faulty, circuit_of
from .repeating_cycle import find_cycle, first_guess
from .run import Run


@documented
@dataclass(frozen=True, eq=False, repr=False, kw_only=True)
class Touch:
    """One mains period of a lamp with a person in its circuit. Waves have a sample a step, unevenly spaced."""

    lamp: Lamp | Faulty
    body: Body
    current_rms: float = about("through the body", "A")
    current_peak: float = about("greatest current through the body, either way", "A")
    current_mean: float = about("its direct part; above zero out of the lamp, or from plus to minus", "A")
    earth_current_rms: float = about("that leaves the lamp's two wires: all that a residual-current device sees", "A")
    hand_voltage_peak: float = about("greatest voltage across the body, either way", "V")
    minus_voltage_peak: float = about("farthest that the bus's minus stands from earth, either way", "V")
    bus_voltage_mean: float = about("across the string and its series resistor", "V")
    string_current_mean: float = about("mean current of the string meanwhile", "A")
    settled: bool = about("False: no repeating cycle was found, the readings are the last cycle's")
    time: np.ndarray = about("of each sample", "s", shape="shape (samples,)")
    live_voltage: np.ndarray = about("of live against earth", "V", shape="shape (samples,)")
    minus_voltage: np.ndarray = about("of the bus's minus against earth", "V", shape="shape (samples,)")
    hand_voltage: np.ndarray = about("across the body", "V", shape="shape (samples,)")
    current: np.ndarray = about("through the body", "A", shape="shape (samples,)")

    def __repr__(self) -> str:
        rms, peak, mean = (show(amperes, "A") for amperes in (self.current_rms, self.current_peak, self.current_mean))
        return f"<Touch: {rms} rms, {peak} peak, {mean} dc>"


def touch(lamp: Lamp | Faulty, body: Body, line_resistance: float = LINE_RESISTANCE) -> Touch:
    """What flows through a person in contact with a lamp.

    The neutral is taken as earthed. The mains' own resistance is in the line to the dropper, whichever of the two
    wires that is; beside a body it counts for nothing.

    Parameters
    ----------
    body
        The person's resistance, where the hand is, and which side of the lamp is live.
    line_resistance
        Ohms of the mains itself, 0 to 10 kΩ.

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
    >>> touch(lamp, Body(1500.0, "minus", "dropper"))
    <Touch: 15.9 mA rms, 33.1 mA peak, -9.27 mA dc>
    >>> touch(lamp, Body(1500.0, "minus", "bridge"))
    <Touch: 130 mA rms, 216 mA peak, -25.7 mA dc>
    """
    return _touch(lamp, body, check_line_resistance(circuit_of(lamp), line_resistance))


@functools.lru_cache(maxsize=256)
def _touch(lamp, body, line):
    circuit = circuit_of(lamp).replace(body=body)
    run = Run(circuit, line, bus=first_guess(circuit))
    settled = find_cycle(run)
    waves, period = run.waves(), run.period
    time, bus, mains = waves[transient.TIME], waves[transient.BUS], waves[transient.MAINS]
    turned = body.live == "bridge"
    earth = mains if turned else np.zeros_like(mains)
    minus = waves[transient.MINUS] - earth
    across = body.voltage(waves[transient.BRIDGE], waves[transient.MINUS], bus, earth * body.to_earth)
    current = across / body.resistance
    rms = float(np.sqrt(np.trapezoid(current**2, time) / period))
    for wave in (time, mains, minus, across, current):
        wave.setflags(write=False)  # the result is kept and handed out again
    return Touch(
        lamp=lamp,
        body=body,
        current_rms=rms,
        current_peak=float(np.abs(current).max()),
        current_mean=float(np.trapezoid(current, time) / period),
        earth_current_rms=rms if body.to_earth else 0.0,
        hand_voltage_peak=float(np.abs(across).max()),
        minus_voltage_peak=float(np.abs(minus).max()),
        bus_voltage_mean=float(run.sums[transient.BUS_TIME] / period),
        string_current_mean=float(run.sums[transient.CHARGE] / period),
        settled=bool(settled),
        time=time,
        live_voltage=-mains if turned else mains,
        minus_voltage=minus,
        hand_voltage=across,
        current=current,
    )
