"""Hunt view: what was measured, what it cost, and the odds where they were asked for."""

import random
from collections.abc import Sequence
from dataclasses import dataclass

from ...bench.diagnosis import MEASUREMENTS, Hunt
from ...bench.diagnosis.share_code import SEEDS
from ...bench.diagnosis.wording import percent
from ...circuit.fields import about, documented
from ...circuit.lamp import Lamp
from ...solver.transient import Fault

CAUTION = (
    "This lamp is made of numbers. At a real one, dark is not dead: every part is live until the plug is out and"
    " the capacitors are proved empty by measuring. Live measurements are for licensed practice, as local codes ask."
)
# The classes of danger once more, where they are listed; in full before a measurement is taken.
_SHORT = ("unplugged, proved empty", "case closed", "unplugged, not yet proved empty", "live parts under the probes")
# Short names for the bars, in the order in which they stand.
NAMES = {
    None: "nothing wrong",
    ("lost", "dropper"): "dropper has lost",
    ("open", "dropper"): "dropper open",
    ("short", "dropper"): "dropper short",
    ("open", "bleeder"): "dropper's bleeder open",
    ("short", "bleeder"): "dropper's bleeder short",
    ("open", "inrush_resistor"): "inrush resistor open",
    ("short", "inrush_resistor"): "inrush resistor short",
    ("drifted", "inrush_resistor"): "inrush resistor drifted",
    ("open", "D1"): "one diode open",
    ("short", "D1"): "one diode short",
    ("short", "D1 and D2"): "two diodes short, mains",
    ("short", "D1 and D3"): "two diodes short, bus",
    ("open", "smoothing"): "smoothing open",
    ("dried out", "smoothing"): "smoothing dried out",
    ("leaky", "smoothing"): "smoothing leaky",
    ("short", "smoothing"): "smoothing short",
    ("open", "smoothing_bleeder"): "smoothing bleeder open",
    ("open", "string"): "string open",
    ("open", "LED"): "one LED of a group open",
    ("short", "group"): "one group short",
    ("short", "groups"): "several groups short",
}


@dataclass(frozen=True)
class Bar:
    """The odds of one cause: its name, before the last measurement and now."""

    kind: tuple
    name: str
    before: float
    now: float


@documented
@dataclass(frozen=True, eq=False)
class View:
    """What is seen of a hunt."""

    rows: tuple = about("Of each measurement taken: what was done, what was read, its class of danger in short.")
    bars: tuple = about("Empty unless the odds were asked for.")
    verdict: str = about('What the readings say; "" unless the odds were asked for, and once it is over.')
    cost: float
    danger: float


def new_hunt(lamp: Lamp, seed: int | None = None, fault: Fault | None = None, code: str | None = None) -> Hunt:
    """A hunt by a teacher's code, by its number, or by lot.

    Parameters
    ----------
    lamp
        As it should be.
    fault
        Fixes the fault.

    Raises
    ------
    ValueError
        As `Hunt` does, and for a code that stands for none of this lamp's hunts.
    """
    if code:
        return Hunt.from_code(lamp, code)
    return Hunt(lamp, random.randrange(SEEDS) if seed is None else seed, fault)


def view_of(hunt: Hunt, odds: bool = False) -> View:
    """What is seen of a hunt.

    Parameters
    ----------
    odds
        Show what the readings so far make of every cause. That is help, and costs points.
    """
    diagnosis = hunt.diagnosis() if hunt.over else hunt.odds() if odds else None
    rows = tuple(
        (*step.words.removesuffix(".").split(": ", 1), _SHORT[MEASUREMENTS[step.key].hazard]) for step in hunt.steps
    )
    return View(
        rows=rows,
        bars=_bars(hunt, diagnosis) if diagnosis else (),
        verdict=diagnosis.verdict if diagnosis and not hunt.over else "",
        cost=hunt.cost,
        danger=hunt.danger,
    )


def leading(bars: Sequence[Bar], least: float = 0.02) -> list[str]:
    """Bars from the longest on, down to a probability, as "one diode short 93 %"."""
    likely = sorted((bar for bar in bars if bar.now >= least), key=lambda bar: -bar.now)
    return [f"{bar.name} {percent(bar.now)}" for bar in likely]


def _bars(hunt, diagnosis):
    now = diagnosis.posterior.causes()
    before = hunt.previous_diagnosis().posterior.causes()
    kinds = [kind for kind in NAMES if kind in now and kind is not None]
    return tuple(Bar(kind, NAMES[kind], before[kind], now[kind]) for kind in kinds)
