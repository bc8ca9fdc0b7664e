"""Chosen part: a part of a design with its value, its kind, and the reasons for both in words."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass

from ..circuit.fields import about, documented
from ..circuit.parts import BY_KEY
from ..circuit.values import show, show_reading
from ..components.kinds import Chain
from ..results.reading import Reading
from ..solver.steady import steady_state
from .corner_stresses import clamp_for_string
from .dc_side import CLAMP_TOLERANCE
from .rating_pass import check_words, greatest_stress, kind_below
from .ratings import QUANTITIES, PartRating, RatingsTable
from .ratings.placement import name_of
from .reasons import REASONS
from .sizing import Sizing
from .stock import series_of


@documented
@dataclass(frozen=True)
class ChosenPart:
    """A part of a design."""

    part: str = about('its key, as in `parts.BY_KEY`, or "clamp"')
    name: str
    symbol: str
    value: float | None = about("SI units; None for diodes and LEDs")
    value_text: str = about('"330 nF", "2 × 470 kΩ"')
    series: int | None = about("the E series it was taken from; None where it was given")
    kind_text: str = about('what it is to be: "carbon film 1/4 W", "1N4006"')
    rating: PartRating | None = about("its needed ratings, worst stress and margin; None for a clamp")
    reading: Reading = about("the value, or what decides it, ready to explain itself")
    why: str = about("why this one")
    not_less: str = about("what fails with the next that asks less of the purse")

    def __repr__(self) -> str:
        return f"<ChosenPart {self.symbol}, {self.name}: {self.value_text}, {self.kind_text}>"

    @property
    def sentence(self) -> str:
        """All of it in words."""
        what = ", ".join(text for text in (self.value_text, self.kind_text) if text)
        return f"{self.symbol}, {self.name}: {what}. {self.why} {self.not_less}".strip()


def choose_part(sizing: Sizing, ratings: RatingsTable, rating: PartRating) -> ChosenPart:
    """A part with the reasons for it.

    Parameters
    ----------
    rating
        The part's, of the table.
    """
    part, brief = rating.part, sizing.brief
    value = None if part in ("diodes", "leds") else getattr(sizing.lamp, part)
    reading, why, not_less = REASONS[part](sizing)
    series = series_of(brief, part)
    if value is None or part in brief.fixed or part in brief.stock:
        series = None
    if part == "diodes" and rating.tightest.worst.value > 1.01 * reading.value:
        worst = rating.tightest.worst
        note = f"More than that decides: {worst.text} {worst.circumstance.words}, by the solver."
        reading = dataclasses.replace(reading, note=note)
    if part in brief.fixed:
        why, not_less = f"As the brief has it. {why}", ""
    kind = (rating.kind.part if isinstance(rating.kind, Chain) else rating.kind).name
    if part == "dropper":
        kind += ", with series use in its data sheet"
    return ChosenPart(
        part,
        BY_KEY[part].name,
        BY_KEY[part].symbol,
        value,
        _value_text(sizing, part),
        series,
        kind,
        rating,
        reading,
        f"{why} {_stress(rating, ratings)}".strip(),
        f"{not_less} {_kind_below(sizing, ratings, rating)}".strip(),
    )


def _value_text(sizing, part):
    """A part's value as people write it; pieces in series are counted."""
    if part in ("diodes", "leds"):
        string = sizing.lamp.string
        beside = f" × {string.in_parallel}" if string.in_parallel > 1 else ""
        return "4" if part == "diodes" else f"{string.in_series}{beside}"
    count, each = sizing.pieces.get(part, (1, getattr(sizing.lamp, part)))
    unit = "F" if part in ("dropper", "smoothing") else "Ω"
    return f"{count} × {show(each, 'Ω')}" if count > 1 else show(each, unit)


def _stress(rating, ratings):
    """What decides the kind."""
    check = rating.tightest
    if rating.verdict == "ask the data sheet":
        volts = rating.check("pulse_voltage").worst.text
        return (
            f"In the rush it takes {check.worst.text} {check.worst.circumstance.words}, and {volts} stand across it at"
            " first: whether it stands that, the pulse curve of its data sheet says."
        )
    worst, unit = greatest_stress(rating, ratings.stresses), check.worst.unit
    margin = f"; with the margin of what lasts {show_reading(check.needed, unit)} is needed"
    return (
        f"Its {QUANTITIES[check.quantity][0]} comes to {worst.text} {worst.circumstance.words}"
        f"{margin if check.needed > 1.001 * worst.value else ''}; it stands {check.limit_text}."
    )


def _kind_below(sizing, ratings, rating):
    lower = None if rating.part == "leds" else kind_below(sizing, ratings, rating)
    return f"{name_of(lower[0])} would not do: {check_words(lower[1])}." if lower else ""


def choose_clamp_part(sizing: Sizing) -> ChosenPart:
    """The clamp across the bus with the reasons for it, of a sizing that has one."""
    lamp = clamp_for_string(sizing, sizing.bright)
    result, peak = steady_state(lamp, 256), lamp.mains.peak
    clamped = sizing.open_bus_voltage + 2 * lamp.diode.voltage_at(result.string_current_mean)
    values = {
        "frequency": lamp.mains.frequency,
        "dropper": lamp.dropper,
        "peak_voltage": peak,
        "clamped_voltage": min(clamped, peak),
    }
    heat = Reading("clamp", "heat of the clamp with the string open", result.heat["leds"], "W", "real_power", values)
    return ChosenPart(
        "clamp",
        "clamp",
        "D5",
        sizing.clamp,
        show(sizing.clamp, "V"),
        24,
        f"±{100 * CLAMP_TOLERANCE:g} %",
        None,
        heat,
        f"The bus reaches {show(sizing.greatest_bus_voltage, 'V')} in use, which must not open it; with the string open"
        f" it holds the bus to {show(sizing.open_bus_voltage, 'V')}.",
        "The next lower voltage may conduct in use.",
    )
