"""How long the heaviest single pieces of work take, all caches but the formulas' empty: run it by hand.

    .venv/bin/python tests/benchmarks/heavy_work.py [rounds]

Designs from briefs; the fault finder's table of all causes, and the volts on the pins a second after the pull that it
needs for its next proposal; sheets of a lamp on a mains with heavy even harmonics. The best of some rounds, by the
clock and by the processor's time of all threads: the clock alone says little on a machine that others use too.
"""

import sys
import time
from pathlib import Path

import dropper
from dropper import Lamp, sheet
from dropper.bench.diagnosis.cause_table import pins_residuals, table_of
from dropper.circuit.lamp import replace_at
from dropper.design import Brief, design

LAMPS = Path(__file__).resolve().parents[2] / "notebooks" / "lamps"
MAINS = {
    "2nd 8 %": {2: (0.08, 40.0)},
    "2nd 30 %, 4th 15 %": {2: (0.3, 40.0), 4: (0.15, 10.0)},
    "2nd 20 %, 40th 5 %": {2: (0.2, 40.0), 40: (0.05, 10.0)},
    "all even ones to the 40th": {order: (0.2 / order, 7.0 * order) for order in range(2, 41, 2)},
}
_ROOMS = ("dropper.solver", "dropper.bench", "dropper.design", "dropper.sheet")


def main(rounds=3):
    """Print the table.

    Parameters
    ----------
    rounds : int
        How often each is done.
    """
    print(f"dropper {dropper.__version__}\n{'work':58} {'clock':>8} {'processor':>10}")
    for name, work in works():
        work()  # formulas and compiled code are there afterwards
        clock, processor = zip(*(timed(work) for _ in range(rounds)), strict=True)
        print(f"{name:58} {min(clock):6.3f} s {min(processor):8.3f} s")


def works():
    """Each piece of work: its name, and what does it."""
    for path in sorted((LAMPS / "briefs").glob("*.toml")):
        brief = Brief.from_toml(path)
        yield f"design, {brief.name}", lambda brief=brief: design(brief)
    lamps = [Lamp.from_toml(path) for path in sorted(LAMPS.glob("*.toml")) if path.stem != "classroom_twin"]
    for lamp in lamps:
        yield f"table of causes, {lamp.name}", lambda lamp=lamp: table_of(lamp)
        yield f"… with volts on the pins, {lamp.name}", lambda lamp=lamp: (table_of(lamp), pins_residuals(lamp, 1, 1e7))
    for words, harmonics in MAINS.items():
        distorted = replace_at(lamps[-1], "mains.harmonics", harmonics)
        yield f"sheet, {words}", lambda lamp=distorted: sheet.lamp_sheet(lamp)


def timed(work):
    """Seconds by the clock and by the processor, the project's caches of results empty."""
    for name, module in list(sys.modules.items()):
        if name.startswith(_ROOMS):
            for thing in list(vars(module).values()):
                if hasattr(thing, "cache_clear"):
                    thing.cache_clear()
    clock, processor = time.perf_counter(), time.process_time()
    work()
    return time.perf_counter() - clock, time.process_time() - processor


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 3)
