"""How honest the fault finder's probabilities are, and how fast it is: run it by hand.

    .venv/bin/python tests/benchmarks/diagnosis.py [lamps]

Faulty lamps are drawn at random by `tests/diagnosis/lamps_with_faults.py`, which shares nothing with the fault finder:
parts within tolerance, amounts anywhere, meters with errors. For each set of measurements: how often the true cause is
among the first three, how often nothing is claimed, how often what was called found was right; and of all
probabilities stated between two bounds the mean, beside the share that came true.
"""

import itertools
import sys
import time
from pathlib import Path

import numpy as np
from dropper import Lamp
from dropper.bench.diagnosis import Evidence, diagnose
from dropper.bench.diagnosis.cause_table import bus_residuals, pins_residuals, table_of
from dropper.bench.diagnosis.diagnose import is_conclusive
from dropper.bench.diagnosis.posterior import posterior_of

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "bench" / "diagnosis"))

from lamps_with_faults import SHARES, one_case

LAMPS = Path(__file__).resolve().parents[2] / "notebooks" / "lamps"
PLUG_IN = ("voltage", "current", "power", "power_factor")
SETS = {
    "plug-in meter": PLUG_IN,
    "plug-in meter and eye": (*PLUG_IN, "light", "leds_dark"),
    "these and dc volts": (*PLUG_IN, "light", "leds_dark", "bus_voltage"),
    "these, ripple, residual volts": (
        *PLUG_IN,
        "light",
        "leds_dark",
        "bus_voltage",
        "bus_ripple",
        "pins_residual",
        "bus_residual",
    ),
    "unplugged parts only": (
        "dropper_capacitance",
        "inrush_resistance",
        "bleeder_resistance",
        "smoothing_capacitance",
        "smoothing_resistance",
        "smoothing_bleeder_resistance",
        "bridge",
        "string",
    ),
}
BOUNDS = (0, 0.02, 0.05, 0.1, 0.2, 0.35, 0.5, 0.65, 0.8, 0.9, 0.95, 0.98, 1.0001)


def main(count=2000, seed=1):
    """Print the tables.

    Parameters
    ----------
    count, seed : int
        Lamps drawn in all, and where the drawing starts.
    """
    lamps = [Lamp.from_toml(path) for path in sorted(LAMPS.glob("*.toml")) if path.stem != "classroom_twin"]
    rng = np.random.default_rng(seed)
    for lamp in lamps:
        speed(lamp)
    cases = [one_case(rng, lamps[number % len(lamps)]) for number in range(count)]
    for name, fields in SETS.items():
        judge(name, fields, cases)
    # faults as often as one another, which the fault finder is not told
    even = [one_case(rng, lamps[number % len(lamps)], dict.fromkeys(SHARES, 1)) for number in range(count // 2)]
    for name, fields in list(SETS.items())[:4]:
        judge(f"{name}, every fault as often, untold", fields, even)


def speed(lamp):
    """Print how long a table and a diagnosis take."""
    table_of.cache_clear()
    bus_residuals.cache_clear()
    pins_residuals.cache_clear()
    start = time.perf_counter()
    table_of(lamp)
    built = time.perf_counter() - start
    start = time.perf_counter()
    pins_residuals(lamp, 1.0, 10e6)
    pulled = time.perf_counter() - start
    read = Evidence(voltage=230.0, current=0.023, power=0.8, power_factor=0.16)
    diagnose(lamp, read)
    times = []
    for _ in range(7):
        start = time.perf_counter()
        diagnose(lamp, read)
        times.append(time.perf_counter() - start)
    print(
        f"{lamp.name}: table {built:.2f} s, volts on the pins {pulled:.2f} s more, a diagnosis with its next"
        f" measurement {1e3 * min(times):.0f} ms"
    )


def judge(name, fields, cases):
    """Print the calibration of one set of measurements."""
    stated, true, first, three, told, right, found, sure = [], [], 0, 0, 0, 0, 0, 0
    for case in cases:
        posterior = posterior_of(case.lamp, Evidence(**{field: case.readings[field] for field in fields}))
        causes = posterior.causes()
        stated += causes.values()
        true += [kind == case.kind for kind in causes]
        ranked = list(causes)
        first += ranked[0] == case.kind
        three += case.kind in ranked[:3]
        claimed = is_conclusive(list(causes.values()), posterior.unknown)
        told += claimed
        right += claimed and case.kind in ranked[:3]
        if causes[ranked[0]] >= 0.95:
            found += 1
            sure += ranked[0] == case.kind
    whole = len(cases)
    print(f"\n{name}: {whole} lamps")
    print(f"  true cause first {100 * first / whole:.1f} %, among three {100 * three / whole:.1f} %")
    print(
        f"  claimed {100 * told / whole:.1f} %; of these among three {100 * right / max(told, 1):.1f} %;"
        f" among three or nothing claimed {100 * (whole - told + right) / whole:.1f} %"
    )
    print(f"  called found {100 * found / whole:.1f} %, rightly {100 * sure / max(found, 1):.1f} % of these")
    stated, true = np.array(stated), np.array(true)
    print("  stated between     mean     came true     of")
    for low, high in itertools.pairwise(BOUNDS):
        inside = (stated >= low) & (stated < high)
        if inside.sum():
            row = f"{stated[inside].mean():7.3f}   {true[inside].mean():7.3f}   {inside.sum():8d}"
            print(f"  {low:5.2f} to {min(high, 1):4.2f}   {row}")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 2000)
