"""How fast many lamps are counted here: beside single steady states in a loop, and beside SciPy's LSODA.

    .venv/bin/python tests/benchmarks/tolerance.py

Prints figures and ratios; asserts nothing. Seconds of the processor are counted, of all cores together, and by the
clock, which a busy machine stretches. LSODA follows the smooth laws of the witness
(tests/solver/reference.py) over as many periods as the lamp needs to settle to a part in a thousand.
"""

import sys
import time
from pathlib import Path
from types import SimpleNamespace

import numpy as np
from scipy.integrate import solve_ivp

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent / "solver"))

from dropper import Lamp, replace_at, steady_state
from dropper.design import tolerance
from reference import starting_state
from reference_laws import Circuit

LAMP = Lamp.from_toml(HERE.parents[1] / "notebooks" / "lamps" / "stair_marker.toml")
COUNT, LOOPED, FOLLOWED = 20_000, 500, 3
CURRENT = "string_current_mean"


def timed(act):
    """Seconds of the processor, seconds by the clock, and what `act` gave."""
    clock, processor = time.perf_counter(), time.process_time()
    given = act()
    return time.process_time() - processor, time.perf_counter() - clock, given


def drawn(sample, number):
    """One lamp of a sample, built as a lamp."""
    lamp = sample.spread.centre(sample.lamp)
    for axis in sample.spread.axes(sample.lamp):
        for path, nominal in axis.paths:
            lamp = replace_at(lamp, path, nominal * float(sample.factors[axis.key][number]))
    return lamp


def followed(lamp):
    """Mean string current by LSODA, period after period until two follow each other to a part in a thousand."""
    plain = SimpleNamespace(**{name: getattr(lamp, name) for name in lamp.__dataclass_fields__})
    circuit = Circuit(plain)
    state, start, before = starting_state(circuit, circuit.period / 4), circuit.period / 4, 0.0
    for _ in range(200):
        times = np.linspace(start, start + circuit.period, 1025)
        run = solve_ivp(
            circuit.rates, times[[0, -1]], state, "LSODA", times, rtol=1e-4, atol=1e-6, max_step=circuit.period / 50
        )
        current = circuit.string(-(run.y[0] + run.y[1]) / 2)[0]
        mean = float(np.mean((current[1:] + current[:-1]) / 2))
        if abs(mean - before) < 1e-3 * mean:
            break
        before, state, start = mean, run.y[:, -1], times[-1]
    return mean


def main():
    """Measure and print."""
    spread = tolerance.Spread.of(LAMP)
    tolerance.monte_carlo(LAMP, spread, 100), tolerance.corners(LAMP, spread)
    many, many_clock, sample = min(
        (timed(lambda: tolerance.monte_carlo(LAMP, spread, COUNT)) for _ in range(3)), key=lambda row: row[0]
    )
    small = min(timed(lambda: tolerance.monte_carlo(LAMP, spread, 400))[0] for _ in range(20))
    ends = min(timed(lambda: tolerance.corners(LAMP, spread))[0] for _ in range(20))
    lamps = [drawn(sample, number) for number in range(LOOPED)]
    loop, _, singles = timed(lambda: [steady_state(lamp, 128).string_current_mean for lamp in lamps])
    fine, _, means = timed(lambda: [steady_state(lamp).string_current_mean for lamp in lamps])
    ode, _, witness = timed(lambda: [followed(lamp) for lamp in lamps[:FOLLOWED]])
    looped, each, integrated = loop / LOOPED, many / COUNT, ode / FOLLOWED

    batch = sample.readings[CURRENT]
    off = np.abs(batch[:LOOPED] / means - 1).max()
    print(f"{COUNT} lamps drawn, solved and read   {many:6.2f} s of the processor ({many_clock:.2f} s by the clock)")
    print(f"one of them                          {1e6 * each:8.1f} µs")
    print(f"400 lamps, as behind a slider        {1e3 * small:8.1f} ms")
    print(f"corners, all readings                {1e3 * ends:8.1f} ms")
    print(
        f"single steady state, 128 points      {1e6 * looped:8.1f} µs, {looped / each:,.1f} times a lamp of the batch"
    )
    print(f"single steady state, 1024 points     {1e6 * fine / LOOPED:8.1f} µs")
    print(f"SciPy LSODA, rtol 1e-4               {1e3 * integrated:8.1f} ms, {integrated / each:,.0f} times")
    print(
        f"batch against the loop: the same to {np.abs(batch[:LOOPED] / singles - 1).max():.1e}; 128 points against"
        f" 1024: {100 * off:.3f} % at most"
    )
    print(f"batch against LSODA: {100 * np.abs(batch[:FOLLOWED] / witness - 1).max():.2f} % at most")


if __name__ == "__main__":
    main()
