"""Parts that only data sheets choose: a lamp's fuse, a design's varistor and clamp; lines of the list."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING

from ..circuit.lamp import Lamp
from ..circuit.values import show
from ..design.ratings import QUANTITIES
from ..design.ratings.table import RatingsTable
from ..design.ratings.wording import FUSIBLE, SERIES
from ..solver.steady import steady_state
from ..solver.transient import Fault
from ..solver.transient.trace import Trace
from ..standards.cautions import LOW_VOLTAGE
from .parts_list import PartLine

if TYPE_CHECKING:
    from ..design.chosen_part import ChosenPart

ASK = "ask the data sheet"
_SHORT = Fault("short", "dropper")
_HALF_WAVE = 8.3e-3  # s, over which the I²t of a rush is taken, as data sheets of diodes do
# What a data sheet is asked where no rating is kept here; of the rest something else that is judged tells as much.
_ASKED = ("pulse_voltage", "pulse_energy", "peak_current", "dc_voltage", "ripple_current")
# Remarks of `ratings` that ask a data sheet, as its question.
REMARK_QUESTIONS = {FUSIBLE: "fusible and flame-proof", SERIES: "named for years in series, not only across the mains"}


def fuse(high: Lamp, rated: RatingsTable, again: Trace) -> PartLine:
    """The fuse: what it carries, lets pass and has to break.

    Parameters
    ----------
    high
        With the mains at its upper limit.
    again
        That lamp plugged in again at the worst moment.
    """
    line = show(steady_state(high, 256).line_current_rms, "A")
    currents = [
        stress.value
        for stress in rated.stresses
        if (stress.part, stress.quantity) == ("dropper", "rms_current") and stress.circumstance.counted
    ]
    powers = [
        stress.value
        for stress in rated.stresses
        if (stress.part, stress.quantity) == ("inrush_resistor", "power") and stress.circumstance.fault == _SHORT
    ]
    full = f"the full short-circuit current of the {'mains' if high.mains.voltage > LOW_VOLTAGE else 'supply'}"
    opens = show(math.sqrt(max(powers) / high.inrush_resistor), "A") if powers else full
    asks = (
        ("stays whole at", f"{show(max(currents), 'A')} rms with one fault"),
        ("and at an I²t of", f"{_plain(again.i2t(_HALF_WAVE))} A²s at every bad plug-in"),
        ("opens at", f"{opens} with C1 short"),
        ("breaks", full),
    )
    return _line("F1", "fuse", "–", "first in the line", "rms current", line, "in use", asks)


def varistor(high: Lamp, rated: RatingsTable) -> PartLine:
    """The varistor: what it lies at for years, and what meets the surge that it lets through.

    Parameters
    ----------
    high
        With the mains at its upper limit.
    """
    limit = rated.of("dropper").kind.ratings["ac_voltage"]
    asks = (("volts let through at a surge,", f"which C1 ({show(limit, 'V')} ac) and R1 have to stand"),)
    return _line(
        "RV1",
        "varistor",
        "–",
        "behind F1, across the line",
        "ac voltage (rms)",
        show(rated.upper, "V", 4),
        "for years",
        asks,
    )


def clamp(part: ChosenPart) -> PartLine:
    """The clamp of a design.

    Parameters
    ----------
    part
        Of `design`.
    """
    asks = (("however long,", "and fails by a short"),)
    return _line(
        part.symbol,
        part.name,
        part.value_text,
        f"{part.kind_text}, across C2",
        "mean power",
        show(part.reading.value, "W"),
        "string open",
        asks,
        part.value_text,
    )


def _line(symbol, name, value, kind, quantity, stress, circumstance, asks, piece="–"):
    questions = "; ".join(f"{words} {figure}" for words, figure in asks)
    words = f"{name.capitalize()}, {kind}: {quantity} {stress} {circumstance}; {questions}. Its data sheet decides."
    return PartLine(
        symbol=symbol,
        name=name,
        value=value,
        short_value=value,
        pieces=1,
        piece_value=piece,
        kind=kind,
        status="by data sheet",
        better_kind="",
        quantity=quantity,
        circumstance=circumstance,
        stress=stress,
        least_rating="–",
        limit="–",
        margin="–",
        sign="?",
        verdict=ASK,
        unjudged=asks,
        remark="",
        words=words,
    )


def _plain(value):
    """Three digits without a prefix: mA²s would be (mA)²s."""
    return f"{float(f'{value:.3g}'):.12f}".rstrip("0").rstrip(".")


def questions(lines: Sequence[PartLine]) -> list[tuple[str, list[str]]]:
    """What data sheets have to answer besides what decides: for each part the questions, each with its figure.

    Returns
    -------
    list of (str, list of str)
        The part's symbol, and its questions.
    """
    names = {QUANTITIES[key][0] for key in _ASKED}
    lists = []
    for line in lines:
        of_list = line.status == "by data sheet"
        first = line.quantity if line.verdict == ASK else ""
        texts = [f"{name} {figure}" for name, figure in line.unjudged if of_list or (name in names and name != first)]
        if line.remark in REMARK_QUESTIONS:
            texts.append(REMARK_QUESTIONS[line.remark])
        if texts:
            lists.append((line.symbol, texts))
    return lists
