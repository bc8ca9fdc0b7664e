"""How fast the solver is here: one lamp, many lamps, and SciPy's integrator on the same lamp.

    .venv/bin/python tests/benchmarks/solver.py

Prints figures and ratios; asserts nothing. The integrator is asked for the accuracy that the
solver has (its own error is found against the tight witness and printed beside it).
"""

import subprocess
import sys
import time
from pathlib import Path
from types import SimpleNamespace

import numpy as np

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent / "solver"))

from dropper import Lamp, spread, steady_state, steady_states
from lamps_at_random import random_lamps
from reference import reference
from test_steady import real

LAMP = Lamp.from_toml(HERE.parents[1] / "notebooks" / "lamps" / "stair_marker.toml")
BATCH = 20_000


def best_of(times, act):
    """The least of several timings of `act`, s, and what it gave."""
    took = []
    for _ in range(times):
        start = time.perf_counter()
        given = act()
        took.append(time.perf_counter() - start)
    return min(took), given


def started(code):
    """Time of a fresh Python that runs `code`, less that of one that runs nothing, s."""

    def run(text):
        return best_of(3, lambda: subprocess.run([sys.executable, "-c", text], check=True, cwd=HERE.parents[1]))[0]

    return run(code) - run("pass")


def batch(rng):
    """A Monte Carlo round about the demo lamp."""
    changes = {
        "dropper": LAMP.dropper * rng.normal(1, 0.05, BATCH),
        "mains.voltage": rng.normal(230, 5, BATCH),
        "string.led.forward_voltage": rng.normal(3.1, 0.05, BATCH),
    }
    return spread(LAMP, changes)


def off(result, witness):
    """The worst deviation of the main readings from the witness."""
    names = ("line_current_rms", "real_power", "power_factor", "string_current_mean", "bus_voltage_mean")
    get = result.get if isinstance(result, dict) else lambda name: getattr(result, name)
    return max(abs(get(name) / witness[name] - 1) for name in names)


def main():
    """Measure and print."""
    steady_state(LAMP)
    one, result = best_of(200, lambda: steady_state(LAMP))
    coarse_time, coarse = best_of(200, lambda: steady_state(LAMP, 128))
    rng = np.random.default_rng(1)
    many, _ = best_of(3, lambda: steady_states(batch(rng)))
    drawn = [real(lamp) for lamp in random_lamps(3000, seed=5)]
    mixed, _ = best_of(3, lambda: steady_states(drawn))

    plain = SimpleNamespace(**{name: getattr(LAMP, name) for name in LAMP.__dataclass_fields__})
    _, witness = best_of(1, lambda: reference(plain))
    rows = []
    for rtol in (1e-3, 1e-4, 1e-5):
        took, given = best_of(2, lambda rtol=rtol: reference(plain, rtol=rtol))
        rows.append((took, rtol, off(given, witness)))
    target = off(result, witness)
    ode, rtol, reached = next((row for row in rows if row[2] <= target), rows[-1])

    print(f"one steady state, 1024 points   {1e3 * one:8.2f} ms   off by {100 * target:.3f} %")
    print(f"one steady state,  128 points   {1e3 * coarse_time:8.2f} ms   off by {100 * off(coarse, witness):.3f} %")
    print(f"SciPy Radau, rtol {rtol:g}        {1e3 * ode:8.1f} ms   off by {100 * reached:.3f} %")
    print(f"batch of {BATCH}, one demo lamp spread {BATCH / many:10,.0f} lamps a second")
    print(f"batch of {len(drawn)} drawn from everywhere  {len(drawn) / mixed:10,.0f} lamps a second")
    print(f"one lamp: {ode / one:,.0f} times as fast as the integrator at no worse accuracy")
    print(f"a batch:  {ode / (many / BATCH):,.0f} times as fast, lamp for lamp")
    print(f"import of what a first panel needs {started('from dropper.lessons import Bench'):.2f} s")
    panel = "from dropper.lessons import Bench; Bench('notebooks/lamps/stair_marker.toml').circuit()"
    print(f"import, circuit and first panel    {started(panel):.2f} s")


if __name__ == "__main__":
    main()
