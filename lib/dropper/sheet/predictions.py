"""Predictions: what the meters should show, and what is met at plugging in and pulling out: rows for a printed page."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from ..bench import residual
from ..bench.checklist.proved_dead import METER_OHMS, unplugged, volts_text
from ..bench.residual import Residual
from ..circuit.lamp import Lamp
from ..circuit.values import show, show_reading
from ..solver.steady import SteadyState, steady_state
from ..solver.transient import worst_unplug
from ..solver.transient.trace import Trace
from ..standards.cautions import low_voltage

if TYPE_CHECKING:
    from ..bench.meter.plug_in import PlugInMeter
    from ..design.tolerance.corners import Corners
    from ..design.tolerance.spread import Spread

METERED = (
    ("current", "line current"),
    ("power", "power"),
    ("apparent_power", "apparent power"),
    ("power_factor", "power factor"),
)
LIVE = " ⚠"  # what is read on live parts; behind a transformer of low volts nothing is so marked
# What other meters show: the result's field, its name and its unit.
INSIDE = (
    ("bus_voltage_mean", f"dc on the string's side{LIVE}", "V"),
    ("string_current_mean", f"string current, mean{LIVE}", "A"),
    ("percent_flicker", "percent flicker", "%"),
)
# Of `standards.TOUCH_RULES`: those that a lamp may come under.
LAMP_RULES = ("household", "portable luminaire", "luminaire with plug", "fixed luminaire")
KEYS = ("line_current_rms", "real_power", "power_factor", *(source for source, _, _ in INSIDE))  # in the corners
_LONG = 600.0  # s that a capacitor's discharge is followed


def meter_rows(lamp: Lamp, result: SteadyState, meter: PlugInMeter, found: Corners) -> list[tuple[str, ...]]:
    """What each meter should show: name, shown, what its last digit allows, least to greatest, as read.

    Parameters
    ----------
    found
        With `KEYS`.
    """
    rows, shown, low = [], meter.readings(result), low_voltage(lamp)
    for name, words in METERED:
        _, digit, source = meter.digits()[name]
        text, read = meter.reading_text(name, shown[name]), getattr(lamp.readings, name)
        ends = _ends(found, source, lambda value, name=name: meter.reading_text(name, value))
        rows.append(
            (words, text, _band(text, shown[name], digit), ends, "" if read is None else meter.reading_text(name, read))
        )
    for source, name, unit in INSIDE:
        words = name.removesuffix(LIVE) if low else name
        value = math.nan if result.dark and source != "bus_voltage_mean" else getattr(result, source)
        ends = _ends(found, source, lambda value, unit=unit: show_reading(value, unit))
        read = lamp.readings.bus_voltage if source == "bus_voltage_mean" else None
        rows.append((words, show_reading(value, unit), "", ends, "" if read is None else show_reading(read, unit)))
    return rows


def _band(text, value, digit):
    """What may lie behind a reading: half a digit less to half a digit more, one decimal further than it shows."""
    number, _, unit = text.partition(" ")
    places = len(number.partition(".")[2]) + 1
    scale = 1e3 if unit.startswith("m") else 1.0
    low, high = (scale * (value + side * digit / 2) for side in (-1, 1))
    return f"{max(low, 0):.{places}f} to {high:.{places}f}"


def _ends(found, source, write):
    """Least and greatest in the corners as "19 to 26 mA"; "" where there are none."""
    if source not in found.extremes:
        return ""
    extreme = found.of(source)
    if math.isnan(extreme.least):
        return ""
    low, high = (write(max(end, 0.0)) for end in (extreme.least, extreme.greatest))
    (first, unit), (_, same) = (text.partition(" ")[::2] for text in (low, high))
    return f"{first} to {high}" if unit == same else f"{low} to {high}"


def rush_rows(first: Trace, again: Trace) -> list[tuple[str, ...]]:
    """The rush at plugging in at the worst moment: name and figure.

    Parameters
    ----------
    first, again
        Plugged in with all empty, and again at once, the mains at its upper limit.
    """
    volts = show(float(abs(first.mains_voltage).max()) / math.sqrt(2), "V")
    rows = [
        (f"Rush at {volts}, mains of {_impedance(first)}, all empty", show(first.line_current_peak, "A")),
        ("… plugged in again at once", show(again.line_current_peak, "A")),
    ]
    if first.inrush_resistor:
        joules = f"{show(first.inrush_energy, 'J')}, {show(again.inrush_energy, 'J')}"
        rows.append(("Energy into R1, no fault, first and again", joules))
    else:
        peaks = f"{show(first.dropper_voltage_peak, 'V')}, {show(again.dropper_voltage_peak, 'V')}"
        rows.append(("No inrush resistor: C1 goes up to, first and again", peaks))
    return rows


def _impedance(trace):
    return f"{show(trace.line_resistance, 'Ω')} and {show(trace.line_inductance, 'H', 1)}"


def left_rows(high: Lamp, judged: Residual | None, emptied: dict[str, Lamp]) -> list[tuple[str, ...]]:
    """What is left after pulling out: name and figure.

    A meter on the pins shows less than the dropper holds: the bridge and the bus stand against it.

    Parameters
    ----------
    high
        With the mains at its upper limit.
    emptied
        Whose smoothing capacitor is emptied, by the words for it.
    """
    shown = volts_text(unplugged(high, 1.0, metered=True).pins_voltage[-1])
    rows = [(f"Pins after 1 s, meter of {show(METER_OHMS, 'Ω')}", shown)]
    crest = show(_crest(high), "V")
    if judged is None:
        rows += [("The dropper holds at once", crest), ("… later", "beyond what is judged here")]
    else:
        left = {check.rule.seconds: check.voltage_left for check in judged.checks}
        wait = {check.limit: check.time_needed for check in judged.checks if check.limit in (34.0, 60.0)}
        rows.append(("The dropper holds at once, after 1 s", f"{crest}, {_left(left[1.0])}"))
        rows.append(("… until 60 V, 34 V are left", f"{_wait(wait[60.0])}, {_wait(wait[34.0])}"))
    for words, lamp in emptied.items():
        trace = worst_unplug(lamp, seconds=_LONG)
        volts = float(trace.bus_voltage[trace.time >= 0][0])
        rows.append((f"{words}: at once, until 60 V", f"{show(volts, 'V')}, {_wait(trace.time_below(60.0, 'bus'))}"))
    return rows


def _crest(lamp):
    """The highest that the mains stands at, its harmonics too."""
    return max(lamp.mains.peak, float(abs(steady_state(lamp).mains_voltage).max()))


def _left(volts):
    return "under 1 V" if volts < 1 else show(volts, "V")


def _wait(seconds):
    """A time to wait; more than is followed, or for ever, in words."""
    if math.isinf(seconds):
        return "never"
    if math.isnan(seconds):
        return f"over {_LONG:.0f} s"
    return "at once" if seconds < 0.01 else f"{seconds:.2g} s" if seconds < 100 else f"{seconds:.0f} s"


def rules(residual_check: Residual | None) -> list[tuple[str, str]]:
    """What the rules for lamps say of the voltage left: sign and word of each verdict, and the rules it is of."""
    verdicts = []
    if residual_check is None:
        return verdicts
    for word in ("over", "within", "no limit"):
        by_limit = {}
        for check in residual_check.of(word):
            if check.rule.key in LAMP_RULES:
                head = f"{show(check.limit, 'V')} after {show(check.rule.seconds, 's')}"
                memory = "*" if "memory" in check.rule.provenance else ""
                by_limit.setdefault(head, []).append(f"{check.rule.key}, {check.rule.standard}{memory}")
        if by_limit:
            text = "; ".join(f"{head} ({'; '.join(names)})" for head, names in by_limit.items())
            verdicts.append((f"{residual_check.of(word)[0].sign} {word}", text))
    return verdicts


def judged_left(high: Lamp, spread: Spread) -> Residual | None:
    """Every rule on the voltage left, the greatest capacitor and bleeder put in; None beyond what they judge.

    Parameters
    ----------
    high
        With the mains at its upper limit.
    spread
        Its tolerances of the dropper and of the resistors are added.
    """
    try:
        return residual.judge(high.dropper, high.bleeder, _crest(high), spread.dropper, spread.resistors)
    except ValueError:
        return None
