"""A witness for the periodic steady state of one lamp.

It shares no code with the solver that it is there to check: the smooth laws
(reference_laws) are handed to a general-purpose stiff integrator (scipy, Radau
IIA, order 5), and the periodic state is found by shooting.

Integrals are taken on the integrator's own collocation points with their weights,
which is what extra quadrature states would give. The period map is differentiated
step by step, exactly for the steps taken, so that Newton's method settles even
where the smoothing capacitor needs many periods. Extremes, and the area above the
mean for the flicker index, are read from fine samples of each step.
"""

import warnings
from dataclasses import dataclass

import numpy as np
from reference_laws import Circuit
from scipy.integrate import Radau, solve_ivp
from scipy.linalg import lapack
from scipy.optimize import brentq

FINE = 16  # samples of each step for extremes
_S6 = 6.0**0.5
_NODES = np.array([(4 - _S6) / 10, (4 + _S6) / 10, 1.0])  # Radau IIA points of a step
_A = np.array(
    [
        [(88 - 7 * _S6) / 360, (296 - 169 * _S6) / 1800, (-2 + 3 * _S6) / 225],
        [(296 + 169 * _S6) / 1800, (88 + 7 * _S6) / 360, (-2 - 3 * _S6) / 225],
        [(16 - _S6) / 36, (16 + _S6) / 36, 1 / 9],
    ]
)


class Quick(Radau):
    """Radau that calls LAPACK without the checks that scipy puts around it: they take longer than two equations do."""

    def __init__(self, *given, **named):
        super().__init__(*given, **named)
        self.lu, self.solve_lu = self._factors, self._solution

    def _factors(self, matrix):
        self.nlu += 1
        factors = lapack.zgetrf if np.iscomplexobj(matrix) else lapack.dgetrf
        return factors(matrix)[:2]

    @staticmethod
    def _solution(factors, right):
        solution = lapack.zgetrs if np.iscomplexobj(factors[0]) else lapack.dgetrs
        return solution(*factors, right)[0]


class Waveforms:
    """Voltages and currents at given times, from the two states."""

    def __init__(self, circuit, time, states):
        self.time = time
        self.mains = circuit.mains(time)[0]
        w, self.bus = (states[0] - states[1]) / 2, -(states[0] + states[1]) / 2
        self.dropper = self.mains - w
        self.i1, self.i2, _ = circuit.bridge(w, self.bus)
        self.line = self.i1 - self.i2
        self.bridge = w - circuit.resistor * self.line
        self.string = circuit.string(self.bus)[0]


@dataclass
class Orbit:
    """One periodic cycle (or half of it, if the other half mirrors it)."""

    circuit: Circuit
    points: Waveforms  # at the quadrature points
    weight: np.ndarray  # of each quadrature point, a fraction of the span; they add up to 1
    fine: Waveforms  # FINE samples a step, ends included
    mismatch: float  # size of the last shooting correction, V
    converged: bool


def starting_state(circuit, t):
    """States near the top of the mains: bus where 4 f C (Vp - vb - 2 Vd) meets the load."""
    lamp = circuit.lamp
    wave = circuit.mains(t + np.linspace(0, circuit.period, 512))[0]
    peak, drop = np.ptp(wave) / 2, 2 * lamp.diode.forward_voltage

    def excess(vb):
        supply = 4 * lamp.mains.frequency * lamp.dropper * (peak - vb - drop)
        return circuit.string(vb)[0] + vb * circuit.bus_leak - max(supply, 0.0)

    vb = brentq(excess, 0.0, peak) if excess(0.0) < 0 <= excess(peak) else 0.0
    return settled(circuit, np.array([0.0, -2 * vb]))


def settled(circuit, y):
    """The same states; with no smoothing capacitor, the bus moved to where its constraint is met."""
    if circuit.lamp.smoothing > 0:
        return y
    w = (y[0] - y[1]) / 2

    def spare(vb):
        i1, i2, _ = circuit.bridge(w, vb)
        return float(i1 + i2 - circuit.string(vb)[0] - vb * circuit.bus_leak)

    low, high = -1e-9, abs(w) + 1e-9
    if not spare(low) > 0 > spare(high):  # a bus with next to no load: leave it to the restoring term
        return y
    vb = brentq(spare, low, high, xtol=1e-14, rtol=1e-14)
    return np.array([w - vb, -w - vb])


class Runs:
    """Runs one after the other as one."""

    def __init__(self, runs):
        self._runs = runs
        self._ends = np.array([run.t[-1] for run in runs])
        self.t = np.concatenate([runs[0].t, *(run.t[1:] for run in runs[1:])])
        self.y = np.concatenate([runs[0].y, *(run.y[:, 1:] for run in runs[1:])], axis=1)

    def sol(self, times):
        """States at times."""
        which = np.minimum(np.searchsorted(self._ends, times), len(self._runs) - 1)
        states = np.empty((2, len(times)))
        for number, run in enumerate(self._runs):
            if (which == number).any():
                states[:, which == number] = run.sol(times[which == number])
        return states


def _run(circuit, first, last, y0, rtol, longest):
    with np.errstate(all="ignore"):  # a trial step may overflow; the integrator then takes a shorter one
        run = solve_ivp(
            circuit.rates,
            (first, last),
            y0,
            method=Quick,
            rtol=rtol,
            atol=1e-3 * rtol + 1e-12,
            jac=circuit.jacobian,
            max_step=longest,
            dense_output=True,
        )
    if not run.success:
        raise ArithmeticError(run.message)
    return run


def follow(circuit, start, y0, span, rtol):
    """Integrate once: the run, times and states at the Radau points of every step, weights, dy_end/dy0."""
    runs = []
    for first, last in circuit.stretches(start, start + span):  # a corner of the mains ends a step
        runs.append(_run(circuit, first, last, y0, rtol, span / 25))
        y0 = runs[-1].y[:, -1]
    run = runs[0] if len(runs) == 1 else Runs(runs)
    h = np.diff(run.t)
    times = (run.t[:-1, None] + h[:, None] * _NODES).ravel()
    states = run.sol(times)
    states[:, 2::3] = run.y[:, 1:]
    # the discrete map differentiated: y_end = y + h sum b_j K_j, K_i = J_i (dy + h sum a_ij K_j)
    jac = np.moveaxis(circuit.jacobian(times, states), -1, 0).reshape(-1, 3, 2, 2)
    big = np.eye(6) - (h[:, None, None, None, None] * np.einsum("ij,nipq->nipjq", _A, jac)).reshape(-1, 6, 6)
    slopes = np.linalg.solve(big, jac.reshape(-1, 6, 2)).reshape(-1, 3, 2, 2)
    steps = np.eye(2) + h[:, None, None] * np.einsum("j,njpq->npq", _A[2], slopes)
    total = np.eye(2)
    for step in steps:
        total = step @ total
    return run, times, states, np.outer(h / span, _A[2]).ravel(), total


def periodic_orbit(lamp, rtol=1e-8, symmetry=True, tolerance=1e-8, circuit=Circuit):
    """Shooting by Newton on y -> y(one period later), first coarse, then at `rtol`.

    With odd harmonics only, half a period suffices: the second half mirrors the
    first, that is p and q change places (`symmetry=False` takes the whole period).
    A lamp that does not settle (a dark one) comes back with converged=False.
    """
    circuit = circuit(lamp)
    start = circuit.period / 4
    mirror = symmetry and circuit.half_wave_symmetry
    span = circuit.period / 2 if mirror else circuit.period
    swap = np.eye(2)[::-1] if mirror else np.eye(2)
    reach = np.sum(np.abs(circuit.amplitudes))
    y, best = starting_state(circuit, start), None
    for level, turns, good in ((1e-4, 8, 1e-3), (1e-6, 5, 1e-5), (rtol, 8, tolerance)):
        for _ in range(turns):
            try:
                cycle = follow(circuit, start, y, span, max(level, rtol))
                off = settled(circuit, swap @ cycle[2][:, -1]) - y
                change = np.linalg.lstsq(np.eye(2) - swap @ cycle[4], off, rcond=1e-13)[0]
            except (ArithmeticError, ValueError, np.linalg.LinAlgError):
                break
            size = np.max(np.abs(change) / (np.abs(y) + 0.1))
            best = (cycle, float(np.max(np.abs(change))), bool(size < good and level <= rtol))
            if size < good:
                break
            y = settled(circuit, y + change * min(1.0, reach / np.max(np.abs(change))))
    if best is None:  # nothing could be integrated: hand back the start, unconverged
        still = Waveforms(circuit, np.array([start]), y[:, None])
        return Orbit(circuit, still, np.ones(1), still, np.inf, False)
    (run, times, states, weight, _), mismatch, converged = best
    fine = np.append((run.t[:-1, None] + np.outer(np.diff(run.t), np.arange(FINE) / FINE)).ravel(), run.t[-1])
    return Orbit(
        circuit, Waveforms(circuit, times, states), weight, Waveforms(circuit, fine, run.sol(fine)), mismatch, converged
    )


def area_above(time, wave, level):
    """Integral over time of the part of a wave above a level: trapezoids, crossings placed by a line."""
    over, h = wave - level, np.diff(time)
    a, b = over[:-1], over[1:]
    top = np.maximum(a, b)
    apart = np.where(a * b < 0, np.abs(b - a), 1.0)
    return float(np.sum(h * np.where(a * b < 0, top**2 / (2 * apart), np.maximum(a + b, 0.0) / 2)))


def readings(orbit):
    """The readings of an orbit, a plain dict in SI units."""
    circuit, lamp, at, fine = orbit.circuit, orbit.circuit.lamp, orbit.points, orbit.fine
    line, string, bus = at.line, at.string, at.bus

    def mean(x):
        return float(orbit.weight @ x)

    angle = 2 * np.pi * at.time / circuit.period
    in_phase, quadrature = 2**0.5 * mean(line * np.sin(angle)), 2**0.5 * mean(line * np.cos(angle))
    turn = complex(mean(at.mains * np.sin(angle)), mean(at.mains * np.cos(angle)))  # the mains' own fundamental
    fundamental, rms = float(np.hypot(in_phase, quadrature)), mean(line**2) ** 0.5
    apparent = mean(at.mains**2) ** 0.5 * rms if circuit.shaped else circuit.rms * rms
    power, average = mean(at.mains * line), mean(string)
    low, high = float(fine.string.min()), float(fine.string.max())
    span = float(np.ptp(fine.time))

    def ratio(a, b):
        return a / b if b else 0.0

    return {
        "line_current_rms": rms,
        "line_current_peak": float(np.abs(fine.line).max()),
        "real_power": power,
        "apparent_power": apparent,
        "power_factor": ratio(power, apparent),
        "displacement_factor": ratio(in_phase * turn.real + quadrature * turn.imag, fundamental * abs(turn)),
        "current_thd": ratio(max(rms**2 - fundamental**2, 0.0) ** 0.5, fundamental),
        "string_current_mean": average,
        "string_current_max": high,
        "string_current_min": low,
        "percent_flicker": 100 * ratio(high - low, high + low),
        "flicker_index": ratio(area_above(fine.time, fine.string, average), span * average),
        "bus_voltage_mean": mean(bus),
        "bus_ripple": float(np.ptp(fine.bus)),
        "dropper_voltage_rms": mean(at.dropper**2) ** 0.5,
        "dropper_voltage_peak": float(np.abs(fine.dropper).max()),
        "heat": {
            "inrush_resistor": circuit.resistor * mean(line**2),
            "bleeder": circuit.leak * mean(at.dropper**2),
            "diodes": mean(at.i1 * (at.bridge - bus) - at.i2 * (at.bridge + bus)),
            "smoothing_bleeder": circuit.bus_leak * mean(bus**2),
            "series_resistor": lamp.series_resistor * mean(string**2),
            "leds": mean(string * (bus - lamp.series_resistor * string)),
        },
    }


def reference(lamp, **options):
    """Readings of `lamp` in its periodic steady state; options as for `periodic_orbit`.

    A state that did not settle is handed back all the same, with a warning.
    """
    orbit = periodic_orbit(lamp, **options)
    if not orbit.converged:
        warnings.warn(f"{getattr(lamp, 'name', 'lamp')}: not periodic to within {orbit.mismatch:.1e} V", stacklevel=2)
    return readings(orbit)
