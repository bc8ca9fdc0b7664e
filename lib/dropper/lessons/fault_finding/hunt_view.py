"""A hunt as it is looked at: what was measured, what it cost, and the odds where they were asked for."""

from collections.abc import Sequence
from dataclasses import dataclass

from ...bench.diagnosis import ACTS
from ...bench.diagnosis.wording import percent
from ...circuit.fields import about, documented

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
    ended: str = about('How the hunt ended, "" while it goes on.')


def view_of(hunt, odds: bool = False) -> View:
    """What is seen of a hunt.

    Parameters
    ----------
    hunt : Hunt
    odds
        Show what the readings so far make of every cause. That is help, and costs points.
    """
    shown = odds or hunt.over
    found = (hunt.belief() if hunt.over else hunt.odds()) if shown else None
    rows = tuple(
        (step.words.split(": ", 1)[0], step.words.split(": ", 1)[1].removesuffix("."), _SHORT[ACTS[step.key].hazard])
        for step in hunt.steps
    )
    return View(
        rows=rows,
        bars=_bars(hunt, found) if found else (),
        verdict=found.verdict if found and not hunt.over else "",
        cost=hunt.cost,
        danger=hunt.danger,
        ended=hunt.score.words if hunt.over else "",
    )


def leading(bars: Sequence[Bar], least: float = 0.02) -> list[str]:
    """Bars from the longest on, down to a probability, as "one diode short 93 %"."""
    known = sorted((bar for bar in bars if bar.now >= least), key=lambda bar: -bar.now)
    return [f"{bar.name} {percent(bar.now)}" for bar in known]


def _bars(hunt, found):
    now = found.belief.causes()
    before = hunt.before().belief.causes()
    kinds = [kind for kind in NAMES if kind in now and kind is not None]
    return tuple(Bar(kind, NAMES[kind], before[kind], now[kind]) for kind in kinds)
