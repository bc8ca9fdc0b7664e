"""A witness for transients and faults: the same circuit as node equations, integrated by SciPy.

It shares no code with the solver. Every node has a capacitance, because a real diode has one
(CJ below), so that all voltages are states of one stiff system of ordinary differential
equations; LSODA follows it at a tight tolerance. The laws, in volts, amperes, farads, ohms:

junction   drop(i) = n Vt ln(1 + i/Is) + Rs i, Is from the data sheet's point; inverted with
           Wright's omega function, or by Newton where groups of the string differ
line       i = (v - u - w)/R,  C du/dt = i - u/R_bleeder;  w across the bridge's ac terminals
bridge     minus stands at m and plus at m + V against neutral; D1 (w to plus), D2 (neutral to
           plus), D3 (minus to w), D4 (minus to neutral), each an exponential law, open, or SHORT ohms
bus        Cs dV/dt = i_dc - i_string(V) - V/R_b, or Cs dq/dt = (V - q)/ESR where it has dried out

A circuit is a plain dict, written out by the tests from what a fault means in words.
"""

from dataclasses import dataclass

import numpy as np
from scipy.integrate import solve_ivp
from scipy.special import wrightomega

VT = 0.025852  # thermal voltage at 300 K, V
CJ = 1e-12  # F across each diode: what it draws is below 1e-4 of the lamp's current
SHORT = 0.01  # ohms of a diode that is short
# rows: the four diodes' voltages from w, m, V
TO_DIODES = np.array([[1.0, -1, -1], [0, -1, -1], [-1, 1, 0], [0, 1, 0]])


def parts_of(lamp):
    """The healthy circuit of a lamp as a dict; a fault is an entry changed."""
    led, diode = lamp.string.led, lamp.diode
    return {
        "amplitudes": [(1, 2**0.5 * lamp.mains.voltage, 0.0)]
        + [(n, 2**0.5 * lamp.mains.voltage * f, np.radians(p)) for n, (f, p) in lamp.mains.harmonics.items()],
        "frequency": lamp.mains.frequency,
        "resistance": lamp.inrush_resistor,
        "dropper": lamp.dropper,  # 0: open; None: short
        "bleeder": lamp.bleeder,
        "bridge": ["healthy"] * 4,
        "diode": (
            diode.ideality * VT,
            diode.at_current
            / np.expm1((diode.forward_voltage - diode.series_resistance * diode.at_current) / (diode.ideality * VT)),
            diode.series_resistance,
        ),
        "smoothing": lamp.smoothing,
        "esr": 0.0,
        "bus_load": [r for r in (lamp.smoothing_bleeder,) if r],  # ohms across the bus
        # (groups, LEDs in parallel); None: the string is open
        "string": [(lamp.string.in_series, lamp.string.in_parallel)],
        "led": (
            led.ideality * VT,
            led.at_current
            / np.expm1((led.forward_voltage - led.series_resistance * led.at_current) / (led.ideality * VT)),
            led.series_resistance,
        ),
        "series_resistor": lamp.series_resistor,
    }


class Exponential:
    """Current through a ln(1 + i/Is) + r i at a voltage."""

    def __init__(self, a, saturation, r):
        self.a, self.saturation, self.r = a, saturation, r
        self.shift = r * saturation / a + np.log(r * saturation / a) if r > 0 else 0.0

    def __call__(self, v):
        x = v / self.a
        if self.r > 0:
            return self.a / self.r * wrightomega(x + self.shift) - self.saturation
        return self.saturation * np.expm1(np.minimum(x, 600.0))


class UnlikeGroups:
    """Current through groups with different numbers of LEDs in parallel, by Newton in its logarithm."""

    def __init__(self, terms, r):
        self.terms, self.r, self.last = terms, r, -20.0

    def __call__(self, v):
        if v <= 1e-9:
            return 0.0
        s = self.last
        for _ in range(200):
            i = np.exp(s)
            off = sum(a * np.log1p(i / b) for a, b in self.terms) + self.r * i - v
            slope = sum(a * i / (b + i) for a, b in self.terms) + self.r * i
            step = np.clip(-off / slope, -5.0, 2.0)
            s += step
            if abs(step) < 1e-12 or s < -80:
                break
        self.last = max(s, -60.0)
        return np.exp(s)


class Circuit:
    """The equations. States: u, w, m, V, q (behind the ESR), and the integrals of i² and of string current."""

    def __init__(self, parts, in_line=0.0):
        self.parts, self.period = parts, 1 / parts["frequency"]
        self.factor = 1.0
        self.connect(in_line)
        self.law = Exponential(*parts["diode"])
        a, saturation, r = parts["led"]
        groups = [g for g in parts["string"] or () if g[0] > 0]
        whole = sum(n * r / m for n, m in groups) + parts["series_resistor"]
        if not groups:
            self.string = lambda v: 0.0
        elif len(groups) == 1:
            self.string = Exponential(groups[0][0] * a, groups[0][1] * saturation, whole)
        else:
            self.string = UnlikeGroups([(n * a, m * saturation) for n, m in groups], whole)
        self.leak = sum(1 / r for r in parts["bus_load"])
        mass = CJ * TO_DIODES.T @ TO_DIODES
        if parts["smoothing"] and not parts["esr"]:
            mass[2, 2] += parts["smoothing"]
        self.inverse = np.linalg.inv(mass)

    def connect(self, in_line):
        """Ohms in the line outside the lamp; None: nothing joins the pins."""
        resistance = self.parts["resistance"]
        if self.parts["dropper"] == 0 and resistance is not None:  # its bleeder is all that is left
            resistance = resistance + self.parts["bleeder"] if self.parts["bleeder"] else None
        self.line = 0.0 if in_line is None or resistance is None else 1 / (resistance + in_line)

    def mains(self, t):
        """Volts at a time or at times."""
        angle = 2 * np.pi * self.parts["frequency"] * t
        return self.factor * sum(peak * np.sin(n * angle + phase) for n, peak, phase in self.parts["amplitudes"])

    def diodes(self, volts):
        """Currents of the four diodes."""
        currents = np.zeros(4)
        for k, state in enumerate(self.parts["bridge"]):
            if state == "short":
                currents[k] = volts[k] / SHORT
            elif state == "healthy":
                currents[k] = self.law(volts[k])
        return currents

    def rates(self, t, y):
        """d(states)/dt."""
        u, w, _, v, q, _, _ = y
        parts = self.parts
        moving = parts["dropper"] or 0.0
        i = (self.mains(t) - (u if moving else 0.0) - w) * self.line
        currents = self.diodes(TO_DIODES @ y[1:4])
        load = self.string(v)
        into = np.array([i, 0.0, -load - self.leak * v]) - TO_DIODES.T @ currents
        dq = 0.0
        if parts["esr"]:
            store = (v - q) / parts["esr"]
            into[2] -= store
            dq = store / parts["smoothing"]
        du = (i - (u / parts["bleeder"] if parts["bleeder"] else 0.0)) / moving if moving else 0.0
        return np.concatenate([[du], self.inverse @ into, [dq, i * i, load]])


@dataclass
class Waves:
    """What was followed, time counted from its start."""

    time: np.ndarray
    mains: np.ndarray
    line: np.ndarray
    dropper: np.ndarray
    bus: np.ndarray
    string: np.ndarray
    pins: np.ndarray
    reverse: np.ndarray  # the four diodes' voltages, reversed
    squared: np.ndarray
    charge: np.ndarray
    end: np.ndarray


def follow(circuit, start, seconds, state, rtol=1e-7, longest=None, resistance=0.0):
    """Follow a circuit from a state; `resistance`: the ohms in the line within the lamp."""
    longest = longest or circuit.period / 60
    # volts, and charges; 1e-5 V is far below a junction's own n Vt, and tighter only meets rounding
    atol = np.array([1e-6, 1e-5, 1e-5, 1e-5, 1e-5, 1e-12, 1e-12])
    run = solve_ivp(
        circuit.rates,
        (start, start + seconds),
        state,
        method="LSODA",
        rtol=rtol,
        atol=atol,
        max_step=longest,
        first_step=1e-11,
    )
    assert run.success, run.message
    t, y = run.t, run.y
    moving = 1.0 if circuit.parts["dropper"] else 0.0
    volts = circuit.mains(t) + 0 * t
    line = (volts - moving * y[0] - y[1]) * circuit.line
    dropper = moving * y[0]
    if circuit.parts["dropper"] == 0 and circuit.parts["bleeder"]:
        dropper = line * circuit.parts["bleeder"]
    string = np.array([float(circuit.string(v)) for v in y[3]])
    return Waves(
        t - start,
        volts,
        line,
        dropper,
        y[3],
        string,
        dropper + y[1] + resistance * line,
        -(TO_DIODES @ y[1:4]),
        y[5],
        y[6],
        y[:, -1],
    )


def state_of(dropper, bus):
    """States from the two capacitors' voltages, the bridge at rest between them."""
    return np.array([dropper, 0.0, -bus / 2, bus, bus, 0.0, 0.0])


def settled(circuit, dropper, bus, turns=3):
    """The repeating cycle by Newton's method on the reference's own map, from a guess of its two states."""

    def cycle(state):
        return follow(circuit, 0.0, circuit.period, state)

    store = 4 if circuit.parts["esr"] else 3
    state = cycle(cycle(state_of(dropper, bus)).end * [1, 1, 1, 1, 1, 0, 0]).end * [1, 1, 1, 1, 1, 0, 0]
    for _ in range(turns):
        base = cycle(state)
        off = (base.end - state)[[0, store]]
        matrix = np.eye(2)
        for column, which in enumerate((0, store)):
            other = state.copy()
            other[which] += 0.05
            if store == 4 and which == 4:
                other[3] += 0.05
            matrix[:, column] -= (cycle(other).end - base.end)[[0, store]] / 0.05
        if not circuit.parts["dropper"]:
            matrix[:, 0], off[0] = [1, 0], 0
        if not circuit.parts["smoothing"]:
            matrix[:, 1], off[1] = [0, 1], 0
        step = np.linalg.lstsq(matrix, off, rcond=1e-4)[0]
        if np.abs(step).max() > 100:
            step = off
        state = base.end * [1, 1, 1, 1, 1, 0, 0]
        state[[0, store]] += step - off
        if np.abs(step).max() < 2e-3:
            break
    return cycle(state)


def readings(waves, circuit):
    """Readings of one cycle, by the trapezoid rule on LSODA's own dense steps."""
    period, t = circuit.period, waves.time

    def mean(x):
        return float(np.trapezoid(x, t) / period)

    return {
        "line_current_rms": float((waves.squared[-1] - waves.squared[0]) / period) ** 0.5,
        "line_current_peak": float(np.abs(waves.line).max()),
        "real_power": mean(waves.mains * waves.line),
        "string_current_mean": float((waves.charge[-1] - waves.charge[0]) / period),
        "string_current_max": float(waves.string.max()),
        "bus_voltage_mean": mean(waves.bus),
        "bus_voltage_peak": float(waves.bus.max()),
        "dropper_voltage_rms": mean(waves.dropper**2) ** 0.5,
        "dropper_voltage_peak": float(np.abs(waves.dropper).max()),
        "diode_reverse_peak": tuple(float(x) for x in waves.reverse.max(axis=1)),
    }
