"""Part-check view: a print as typed, all that it can mean, and whether a measured value is within its tolerance."""

import re
from dataclasses import dataclass

from ...circuit.excerpt import excerpt
from ...circuit.fields import about, documented
from ...circuit.parsing import ValueTextError, parse, plainly
from ...circuit.values import show
from ...components.marks import any_mark
from ...components.marks.meaning import Meaning
from ...components.marks.preferred_series import above, below, nearest, of_tolerance
from ...components.marks.tolerance_check import FAR, MOST_OHMS, ToleranceCheck, check_tolerance, last_digit
from ..kit.table_reading import table_reading

# Per cent and steps of the last digit of cheap meters, by what they measure: typical practice, no source.
METERS = {"F": (4.0, 5.0), "Ω": (1.0, 2.0), "V": (0.8, 2.0)}
_FAR_OFF = 1000.0  # times the mark: a prefix left out, rather than a part that has gone
_MOST = {"F": 0.1, "Ω": MOST_OHMS, "V": 1e4}  # beyond it no meter of a bench reads
_PREFIXES = {"F": "pnµm", "Ω": ("", "k", "M"), "V": ""}


@documented
@dataclass(frozen=True)
class Print:
    """A part's print and what a meter read of it.

    Raises
    ------
    ValueError
        For a number out of range.
    """

    text: str = about("See `marks.any_mark.read`.", default="474K 275V~ X2")
    meaning: str = about('Which of the meanings is meant: the `name_of` it, "" for the likeliest.', default="")
    measured: str | None = about("As typed; without a unit it is in the unit itself.", default="430 nF")
    percent: float | None = about(
        "The meter's accuracy in per cent of the reading and in steps of its last digit; None for what is typical.",
        default=None,
    )
    counts: float | None = about(
        "The meter's accuracy in per cent of the reading and in steps of its last digit; None for what is typical.",
        default=None,
    )

    def __post_init__(self):
        for name, most in (("percent", 50), ("counts", 100)):
            value = getattr(self, name)
            if value is not None and not 0 <= value <= most:
                raise ValueError(f"{name}: {value} is outside of 0 to {most}")


@documented
@dataclass(frozen=True, eq=False)
class View:
    """What a print can mean, the meaning that is taken, and the verdict on what was measured."""

    setting: Print
    meanings: tuple
    meaning: Meaning
    judgement: ToleranceCheck | None
    reason: str = about("why there is no verdict")
    readings: tuple


def name_of(meaning: Meaning) -> str:
    """A meaning as it stands in a list, short enough for one."""
    return f"{meaning.text.partition(', ')[0]}: {meaning.part.replace(' capacitor', '')}"


def view_of(setting: Print) -> View:
    """What a setting shows.

    Raises
    ------
    ValueError
        For a print or a reading that cannot be read.
    """
    meanings = any_mark.read(setting.text or "")
    meaning = next((one for one in meanings if name_of(one) == setting.meaning), meanings[0])
    judgement, reason = _judgement(setting, meaning, meanings)
    return View(setting, meanings, meaning, judgement, reason, _readings(meaning, judgement, setting))


def meter_for(setting: Print, unit: str) -> tuple[float, ...]:
    """The meter's per cent and steps of the last digit that count."""
    percent, counts = METERS[unit]
    return (
        percent if setting.percent is None else setting.percent,
        counts if setting.counts is None else setting.counts,
    )


def _judgement(setting, meaning, meanings):
    if meaning.part == "varistor":
        return None, "No ordinary meter tells these volts: do not try with a high voltage."
    if not setting.measured:
        return None, "Nothing measured yet."
    if meaning.part == "rectifier diode" or meaning.value == 0:
        return None, f"A {meaning.part} has no tolerance to hold a reading against."
    try:
        measured = parse(setting.measured, meaning.unit, "measured")
    except ValueTextError:
        other = next((unit for unit in METERS if unit != meaning.unit and _is_in(setting.measured, unit)), None)
        if other is None:
            raise
        return None, _in_another(setting, other, meaning, meanings)
    if measured < 0:
        raise ValueError(f"measured: {excerpt(setting.measured)} is below 0")
    _refuse_far_off(setting.measured, measured, meaning)
    if meaning.minus is None and meaning.absolute is None:
        return None, (
            f"The mark says no tolerance. {show(measured, meaning.unit)} is"
            f" {100 * (measured / meaning.value - 1):+.1f} % from it.".replace("-", "−")
        )
    minus, plus = (100 * meaning.absolute / meaning.value,) * 2 if meaning.absolute else (meaning.minus, meaning.plus)
    percent, counts = meter_for(setting, meaning.unit)
    digit = last_digit(setting.measured, meaning.unit)
    judgement = check_tolerance(
        measured, meaning.value, minus, plus, unit=meaning.unit, percent=percent, counts=counts, digit=digit
    )
    return judgement, ""


def _in_another(setting, unit, meaning, meanings):
    """What to do about a reading in a unit that the meaning taken has not."""
    words = f"The reading, {setting.measured}, is in {unit}; a {meaning.part} is measured in {meaning.unit}."
    others = [name_of(other) for other in meanings if other.unit == unit]
    return words + (f" If it is another part, choose “{others[0]}” at “take it as”." if others else "")


def _refuse_far_off(text, measured, meaning):
    """Complain of a reading that no such part gives: its prefix was left out, or is another one."""
    bare, named = re.fullmatch(r"[\d.,\s]+", text), re.search(r"(F|\u2126|Ω|ohms?)\s*$", text, re.I)
    above = measured > _FAR_OFF * meaning.value and not named
    below = bare and measured < meaning.value / _FAR_OFF and (measured or meaning.unit == "F")
    if not (above or below or measured > _MOST[meaning.unit]):
        return
    digits = re.search(r"[\d.,]+", plainly(text))[0]
    near = [f"{digits} {prefix}{meaning.unit}" for prefix in _PREFIXES[meaning.unit]]
    near = [
        other for other in near if _is_in(other, meaning.unit) and 0.1 < parse(other, meaning.unit) / meaning.value < 10
    ]
    meant = f"; did you mean {near[0]}?" if near else "."
    raise ValueError(
        f"measured: {excerpt(text)} would be {show(measured, meaning.unit)}, and the mark says"
        f" {show(meaning.value, meaning.unit)}. Write the unit that the meter shows{meant}"
    )


def _is_in(text, unit):
    try:
        parse(text, unit)
    except ValueTextError:
        return False
    return True


def _readings(meaning, judgement, setting):
    unit = meaning.unit
    rows = [table_reading("value", "marked", meaning.value, unit, meaning.how)]
    if meaning.low == meaning.low:
        rows += [
            table_reading(
                "low",
                "least that the mark allows",
                meaning.low,
                unit,
                f"{meaning.how} {show(meaning.value, unit)} less the tolerance: {show(meaning.low, unit, 4)}.",
            ),
            table_reading(
                "high",
                "most that the mark allows",
                meaning.high,
                unit,
                f"{meaning.how} {show(meaning.value, unit)} and the tolerance: {show(meaning.high, unit, 4)}.",
            ),
        ]
    if meaning.voltage is not None:
        how = " ".join((meaning.how, *meaning.notes))
        rows.append(table_reading("voltage", f"rated, {meaning.supply}", meaning.voltage, "V", how))
    if judgement:
        percent, counts = meter_for(setting, unit)
        step = last_digit(setting.measured, unit)
        meter = (
            f"{percent:g} % of the reading and {counts:g} steps of its last digit, {show(step, unit)}: ±"
            f"{show((judgement.most - judgement.least) / 2, unit)}."
        )
        rows += [
            table_reading("least", "measured, at least", judgement.least, unit, meter),
            table_reading("most", "measured, at most", judgement.most, unit, meter),
            table_reading(
                "deviation",
                "reading against the mark",
                judgement.deviation if judgement.deviation < FAR else float("nan"),
                "%",
                judgement.sentence,
            ),
        ]
    if unit != "V" and meaning.value:
        series = of_tolerance(20.0 if meaning.minus is None else max(meaning.minus, meaning.plus))
        series_words = f"E{meaning.series} holds it" if meaning.series else "no E series holds it: is it this part?"
        note = f"{show(meaning.value, unit)}: {series_words}. IEC 60063:2015."
        steps = (("below", "next below", below), ("nearest", "nearest", nearest), ("above", "next above", above))
        for key, name, step in steps:
            rows.append(table_reading(key, f"{name} in E{series}", step(series, meaning.value), unit, note))
    return tuple(rows)
