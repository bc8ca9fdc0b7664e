"""How fast the transients, the faults and the ratings are, side by side in one run: run it by hand.

.venv/bin/python tests/benchmarks/transients.py
"""

import sys
import time
from pathlib import Path

from dropper import Lamp
from dropper.design.ratings import ratings
from dropper.solver.transient import (
    LINE_RESISTANCE,
    brownout,
    faults_of,
    plug_in,
    repeating_cycle,
    settle,
    unplug,
    with_fault,
    worst_plug_in,
)

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "solver" / "transient"))

from transient_reference import Circuit, follow, parts_of, state_of

LAMPS = Path(__file__).resolve().parents[2] / "notebooks" / "lamps"
REPEATS = 7


def best(act):
    """Least time of several, ms; what is kept between calls is forgotten before each."""
    times = []
    for _ in range(REPEATS):
        repeating_cycle._cycle.cache_clear()
        start = time.perf_counter()
        act()
        times.append(1e3 * (time.perf_counter() - start))
    return min(times)


def main():
    """Print a line for each lamp and each kind of question."""
    for path in sorted(LAMPS.glob("*.toml")):
        lamp = Lamp.from_toml(path)
        plug_in(lamp)  # compiled and read from its cache before anything is timed
        questions = {
            "plugged in at a crest": lambda lamp=lamp: plug_in(lamp, 90),
            "worst moment to plug in, found": lambda lamp=lamp: worst_plug_in(lamp),
            "pulled out, 10 s": lambda lamp=lamp: unplug(lamp, 90),
            "mains dips for 0.1 s": lambda lamp=lamp: brownout(lamp, 0.5, 0.1),
            "every fault settled": lambda lamp=lamp: [settle(with_fault(lamp, f)) for f in faults_of(lamp)],
            "ratings of all parts, all faults": lambda lamp=lamp: ratings(lamp),
        }
        print(f"{lamp.name}:")
        for name, act in questions.items():
            print(f"  {name:34} {best(act):8.1f} ms")
    lamp = Lamp.from_toml(LAMPS / "stair_marker.toml")
    trace = plug_in(lamp, 90, line_inductance=0.0)  # the witness knows none
    circuit = Circuit(parts_of(lamp), LINE_RESISTANCE)
    start = time.perf_counter()
    waves = follow(circuit, 0.25 / lamp.mains.frequency, float(trace.time[-1]), state_of(0.0, 0.0))
    took = 1e3 * (time.perf_counter() - start)
    print(f"The same plug-in of the {lamp.name} by SciPy's LSODA, tight: {took:.0f} ms,")
    print(f"  peaks {trace.line_current_peak:.4f} A here and {abs(waves.line).max():.4f} A there")


if __name__ == "__main__":
    main()
