"""A witness for the rush at plug-in: its own equations, the bridge as switches with exponential drops, by SciPy.

It shares no code with the solver, nor with the node equations of `transient_reference`. While current flows one way or
the other, s = +1 or -1, two diodes and the bus stand against it:

line      L·di/dt = v(t) - u - R·i - s·(V + 2·drop(|i|))
dropper   C·du/dt = i - u/R_bleeder
bus       Cs·dV/dt = |i| - i_string(V) - V/R_b; with no smoothing V is what the string has at |i|
drop(i) = nVt·ln(1 + i/Is) + Rs·i, and N of them for the string

Where the current comes to nothing the other pair of diodes takes over if the loop drives it, |v - u| above V; else all
block until it does. Each stretch is a smooth system that DOP853 follows at a tight tolerance.
"""

from dataclasses import dataclass

import numpy as np
from scipy.integrate import solve_ivp

VT = 0.025852  # thermal voltage at 300 K, V
TINY = 1e-7  # A, at which a diode's drop is taken where conduction begins


def law_of(part, count=1, wide=1):
    """Voltage of a junction law at a current: parts in series, `wide` side by side."""
    a = part.ideality * VT
    saturation = part.at_current / np.expm1((part.forward_voltage - part.series_resistance * part.at_current) / a)
    return lambda i: count * (a * np.log1p(i / wide / saturation) + part.series_resistance * i / wide)


@dataclass
class Rush:
    """Peaks of the rush, and the joules in the inrush resistor up to its end."""

    current: float
    dropper: float
    bus: float
    string: float
    energy: float


def follow_rush(lamp, line, inductance, angle, precharge, seconds):
    """The rush of a lamp plugged in at an angle of the mains, followed for some seconds."""
    drop, led = law_of(lamp.diode), lamp.string.led
    string = law_of(led, lamp.string.in_series, lamp.string.in_parallel)
    start = angle / 360 / lamp.mains.frequency
    resistance = lamp.inrush_resistor + line

    def mains(t):
        total = np.sin(2 * np.pi * lamp.mains.frequency * (start + t))
        for order, (share, phase) in lamp.mains.harmonics.items():
            total += share * np.sin(2 * np.pi * lamp.mains.frequency * order * (start + t) + np.radians(phase))
        return lamp.mains.peak * total

    grid = np.concatenate([[0.0], np.geomspace(1e-12, 1e3, 3000)])
    volts_of_grid = string(grid) + lamp.series_resistor * grid

    def through_string(volts):
        return np.interp(volts, volts_of_grid, grid)

    def bus_at(state, flow):
        return state[2] if lamp.smoothing else string(flow) + lamp.series_resistor * flow

    def rates(t, state, sign):
        i, u, v, _ = state
        flow = max(sign * i, 0.0)
        bus = bus_at(state, flow)
        di = (mains(t) - u - resistance * i - sign * (bus + 2 * drop(flow))) / inductance if sign else 0.0
        du = (i - (u / lamp.bleeder if lamp.bleeder else 0.0)) / lamp.dropper
        dv = 0.0
        if lamp.smoothing:
            leak = v / lamp.smoothing_bleeder if lamp.smoothing_bleeder else 0.0
            dv = (flow - through_string(v) - leak) / lamp.smoothing
        return [di, du, dv, lamp.inrush_resistor * i * i]

    def driven(t, state):
        """Which way the loop drives a current: +1, -1, or 0 where the bridge blocks."""
        left = mains(t) - state[1]
        return int(np.sign(left)) if abs(left) > bus_at(state, TINY) + 2 * drop(TINY) else 0

    def stretch(t, state):
        """The time during which the same diodes conduct, or all block."""
        sign = driven(t, state)

        def ends(t, state, sign):
            if sign:
                return sign * state[0]
            return bus_at(state, TINY) + 2 * drop(TINY) + 1e-9 - abs(mains(t) - state[1])

        ends.terminal, ends.direction = True, -1
        longest = 2 * np.pi * np.sqrt(inductance * lamp.dropper) / 60
        return solve_ivp(
            rates, (t, seconds), state, "DOP853", args=(sign,), events=ends, rtol=1e-8, atol=1e-10, max_step=longest
        )

    t, state, stretches = 0.0, np.array([0.0, precharge, 0.0, 0.0]), []
    while t < seconds:
        run = stretch(t, state)
        stretches.append(run)
        t, state = float(run.t[-1]), run.y[:, -1].copy()
        state[0] = 0.0
    waves = np.concatenate([run.y for run in stretches], axis=1)
    flow = np.abs(waves[0])
    bus = waves[2] if lamp.smoothing else string(flow) + lamp.series_resistor * flow
    through = through_string(bus) if lamp.smoothing else flow
    energy = float(waves[3][-1])
    return Rush(float(flow.max()), float(np.abs(waves[1]).max()), float(bus.max()), float(through.max()), energy)
