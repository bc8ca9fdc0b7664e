"""Hunt view: what was measured, what it cost, and the odds where they were asked for."""

import random
from collections.abc import Sequence
from dataclasses import dataclass

from ...bench.diagnosis import MEASUREMENTS, Hunt, Score
from ...bench.diagnosis.measurements import LIVE
from ...bench.diagnosis.share_code import SEEDS
from ...bench.diagnosis.wording import percent
from ...circuit.fields import about, documented
from ...circuit.lamp import Lamp
from ...circuit.values import show
from ...solver.steady import SteadyState
from ...solver.transient import Fault, settle, with_fault
from .cases_view import look_alikes, shown_at_the_plug

CAUTION = (
    "This lamp is made of numbers. At a real one, dark is not dead: every part is live until the plug is out and"
    " the capacitors are proved empty by measuring. Live measurements are for licensed practice, as local codes ask."
)
DRAWN, _LEAST = 5, 0.005  # bars; and from which probability on one is said
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
    keys: tuple = about("Of the measurements taken.")
    live: bool = about("Whether one of them was on live parts.")
    score: Score | None = about("What naming the part came to; None before the hunt is over.")
    fault: Fault | None = about("What was hidden; None before the hunt is over.")
    cause: str = about('The same in words; "" before.')
    now: SteadyState | None = about("The lamp with that fault; None before.")
    shown: str = about('What a plug-in meter shows of it; "" before.')
    shown_sound: str = about('What it shows of the sound lamp; "" before.')
    volts: str = about("On which mains both are.")

    @property
    def dark(self) -> bool:
        """Whether the lamp with the fault is dark; no, before the hunt is over."""
        return self.now is not None and self.now.dark


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
    fault = hunt.fault() if hunt.over else None
    now = settle(with_fault(hunt.lamp, fault)) if fault else None
    keys = tuple(step.key for step in hunt.steps)
    return View(
        rows=rows,
        bars=_bars(hunt, diagnosis) if diagnosis else (),
        verdict=diagnosis.verdict if diagnosis and not hunt.over else "",
        cost=hunt.cost,
        danger=hunt.danger,
        keys=keys,
        live=any(MEASUREMENTS[key].hazard >= LIVE for key in keys),
        score=hunt.score,
        fault=fault,
        cause=hunt.answer() if hunt.over else "",
        now=now,
        shown=shown_at_the_plug(now) if now else "",
        shown_sound=shown_at_the_plug(settle(hunt.lamp)) if now else "",
        volts=show(hunt.lamp.mains.voltage, "V"),
    )


def question_of(lamp: Lamp) -> tuple[str, dict[str, str]] | None:
    """Which of two faults that look alike at the plug a lamp has, and the answers by key; None where it lacks one."""
    pair = look_alikes(lamp)
    if pair is None:
        return None
    what = "LEDs" if lamp.string.in_parallel == 1 else "groups"
    return (
        f"The plug-in meter at the {lamp.name} shows {pair.diode_shown}. What is broken?",
        {
            "diode": "A diode of the bridge is short.",
            "groups": f"{pair.groups} of the {lamp.string.in_series} {what} are short.",
            "again": "Read the same meter again, with more care. Then it will say.",
            "neither": "These readings cannot tell one of them from the other.",
        },
    )


def verdict_of(lamp: Lamp) -> tuple[str, str]:
    """The key of the answer that holds, "" for none, and what the meter shows with each of the two faults."""
    pair = look_alikes(lamp)
    if pair is None:
        return "", "This lamp does not have two such faults."
    what = "LEDs" if lamp.string.in_parallel == 1 else "groups"
    return "neither" if pair.alike else "", (
        f"With one diode short the meter shows {pair.diode_shown}. With {pair.groups} of {lamp.string.in_series}"
        f" {what} short it shows {pair.groups_shown}{': digit for digit the same' if pair.alike else ''}."
    )


def longest(bars: Sequence[Bar]) -> tuple[Bar, ...]:
    """The bars that are drawn: the longest, from the longest on."""
    return tuple(sorted(bars, key=lambda bar: -bar.now)[:DRAWN])


def leading(bars: Sequence[Bar]) -> list[str]:
    """The longest bars as "one diode short 93 %"."""
    return [f"{bar.name} {percent(bar.now)}" for bar in longest(bars) if bar.now >= _LEAST]


def _bars(hunt, diagnosis):
    now = diagnosis.posterior.causes()
    before = hunt.previous_diagnosis().posterior.causes()
    kinds = [kind for kind in NAMES if kind in now and kind is not None]
    return tuple(Bar(kind, NAMES[kind], before[kind], now[kind]) for kind in kinds)
