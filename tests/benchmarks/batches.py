"""How many lamps a second a batch solves, on one core and on all of them, this checkout beside another in one run.

    .venv/bin/python tests/benchmarks/batches.py
    .venv/bin/python tests/benchmarks/batches.py --beside OTHER_CHECKOUT

Prints figures; asserts nothing. Checkouts take turns, each in a fresh process, and the best of the rounds counts.
Seconds by the clock tell what one waits for, where the machine has nothing else to do; seconds of the processor hold
on a busy one too: lamps a second of one core, times the cores, is what all of them could do.
"""

import argparse
import json
import os
import subprocess
import sys
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
ROUNDS, TIMES = 3, 3
SPREAD, ALL_OVER = 20_000, 3000


def measure(root, one_core):
    """Lamps a second by the clock and by the processor, in this process, of the library of a checkout."""
    if one_core:
        os.sched_setaffinity(0, {min(os.sched_getaffinity(0))})
    sys.path[:0] = [str(root / "lib"), str(ROOT / "tests" / "solver"), str(ROOT / "tests")]
    import numpy as np
    from dropper import Lamp, spread, steady_states
    from dropper.design.tolerance import Spread, monte_carlo
    from lamps_at_random import random_lamps
    from test_steady import real

    lamp = Lamp.from_toml(ROOT / "notebooks" / "lamps" / "stair_marker.toml")
    chance = np.random.default_rng(1)
    near = spread(
        lamp,
        {
            "dropper": lamp.dropper * chance.normal(1, 0.05, SPREAD),
            "mains.voltage": chance.normal(230, 5, SPREAD),
            "string.led.forward_voltage": chance.normal(3.1, 0.05, SPREAD),
        },
    )
    drawn = [real(one) for one in random_lamps(ALL_OVER, seed=5)]
    acts = {
        "a spread of one lamp": (SPREAD, lambda: steady_states(near)),
        "lamps from all over": (ALL_OVER, lambda: steady_states(drawn)),
        "drawn, solved and read": (
            SPREAD,
            lambda: monte_carlo(lamp, Spread.of(lamp), SPREAD, progress=lambda *_: None),
        ),
    }
    figures = {}
    for name, (count, act) in acts.items():
        act()
        clocks, processors = [], []
        for _ in range(TIMES):
            clock, processor = time.perf_counter(), time.process_time()
            act()
            clocks.append(time.perf_counter() - clock)
            processors.append(time.process_time() - processor)
        figures[name] = count / min(clocks), count / min(processors)
    return figures


def main():
    """Let the checkouts take turns and print the best of each."""
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("--beside", type=Path, help="another checkout of this repository")
    parser.add_argument("--child", nargs=2, help=argparse.SUPPRESS)
    options = parser.parse_args()
    if options.child:
        print(json.dumps(measure(Path(options.child[0]), options.child[1] == "1")))
        return
    roots = [root.resolve() for root in (options.beside, ROOT) if root]
    best = {}
    for _ in range(ROUNDS):
        for root in roots:
            for one_core in ("1", "0"):
                call = [sys.executable, __file__, "--child", str(root), one_core]
                figures = json.loads(subprocess.run(call, check=True, capture_output=True, text=True).stdout)
                for name, pair in figures.items():
                    key = name, root, one_core
                    best[key] = [max(now, before) for now, before in zip(pair, best.get(key, (0, 0)), strict=True)]
    cores = len(os.sched_getaffinity(0))
    print(f"lamps a second; {cores} cores; the best of {ROUNDS * TIMES}")
    for name in dict.fromkeys(key[0] for key in best):
        for root in roots:
            (one_clock, one), (all_clock, each) = best[name, root, "1"], best[name, root, "0"]
            print(
                f"{name:24} {'here' if root == ROOT else 'beside':7} one core {one:9,.0f} ({one_clock:9,.0f} by the"
                f" clock)   all cores {all_clock:9,.0f} by the clock, {cores * each:9,.0f} by the processor"
            )


if __name__ == "__main__":
    main()
