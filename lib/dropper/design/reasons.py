"""Why each value was chosen, and what the next one would do: sentences, each with a derivation to look it up."""

import dataclasses
import math
from dataclasses import dataclass

from .. import theory
from ..circuit.fields import about, documented
from ..circuit.lamp import replace_at
from ..circuit.parts import BY_KEY
from ..circuit.series import preferred
from ..circuit.values import show, show_reading
from ..components.kinds import Chain
from ..components.kinds.rating import Use
from ..results.explain import reading, values_for
from ..results.reading import Reading
from ..solver.steady import steady_state
from ..standards import touch_rule
from . import dropper_choice, inrush
from .corners import POINTS, greatest_flicker
from .rating_pass import greatest, next_value, short_of, words_of
from .ratings import QUANTITIES, PartRating
from .ratings.placement import name_of
from .ratings.stress import StressFound
from .sizing import Draft, value_text


@documented
@dataclass(frozen=True)
class ChosenPart:
    """A part of a design."""

    part: str = about('Its key, as in `parts.BY_KEY`, or "clamp".')
    name: str
    symbol: str
    value: float | None = about("SI units; None for diodes and LEDs.")
    value_text: str = about('"330 nF", "2 × 470 kΩ".')
    series: int | None = about("The E series it was taken from; None where it was given.")
    kind_text: str = about('What it is to be: "carbon film 1/4 W", "1N4006".')
    rating: PartRating | None = about("Its needed ratings, worst stress and margin.")
    reading: Reading = about("The value, or what decides it, ready to explain itself.")
    why: str = about("Why this one; what fails with the next that asks less of the purse.")
    not_less: str = about("Why this one; what fails with the next that asks less of the purse.")

    @property
    def sentence(self) -> str:
        """All of it in words."""
        what = ", ".join(text for text in (self.value_text, self.kind_text) if text)
        return f"{self.symbol}, {self.name}: {what}. {self.why} {self.not_less}".strip()


def chosen(draft: Draft, rating: PartRating, rows: tuple[StressFound, ...], use: Use) -> ChosenPart:
    """A part with the reasons for it.

    Parameters
    ----------
    rows
        Of this part.
    """
    part, brief = rating.part, draft.brief
    value = None if part in ("diodes", "leds") else getattr(draft.lamp, part)
    shown, why, not_less = _REASONS[part](draft)
    series = {"dropper": brief.dropper_series, "smoothing": brief.smoothing_series}.get(part, brief.resistor_series)
    if value is None or part in brief.fixed:
        series = None
    if part == "diodes" and rating.tightest.worst.value > 1.01 * shown.value:
        worst = rating.tightest.worst
        shown = dataclasses.replace(
            shown, note=f"More than that decides: {worst.text} {worst.circumstance.words}, by the solver."
        )
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
        value_text(draft, part),
        series,
        kind,
        rating,
        shown,
        f"{why} {_stress(rating, rows)}".strip(),
        f"{not_less} {_kind_below(draft, rating, rows, use)}".strip(),
    )


def _stress(rating, rows):
    """What decides the kind."""
    check = rating.tightest
    if rating.verdict == "ask the data sheet":
        volts = rating.check("pulse_voltage").worst.text
        return (
            f"In the rush it takes {check.worst.text} {check.worst.circumstance.words}, and {volts} stand across it at"
            " first: whether it stands that, the pulse curve of its data sheet says."
        )
    worst, least = greatest(rating, rows), show_reading(check.needed, check.worst.unit)
    needed = "" if check.needed <= 1.001 * worst else f"; with the margin of what lasts {least} is needed"
    when = next(row for row in rows if row.quantity == check.quantity and row.value == worst).circumstance.words
    told = show_reading(worst, check.worst.unit)
    return f"Its {QUANTITIES[check.quantity][0]} comes to {told} {when}{needed}; it stands {check.limit_text}."


def _kind_below(draft, rating, rows, use):
    found = short_of(draft, rating.part, rating.kind, rows, use) if rating.part != "leds" else None
    if found is None:
        return ""
    kind, check = found
    return f"{name_of(kind)} would not do: {words_of(check)}."


def _dropper(draft):
    lamp, brief = draft.lamp, draft.brief
    clamped = values_for(theory.mean_string_current, lamp, draft.result)["clamped_voltage"]
    shown = Reading(
        "dropper",
        "dropper for the wished current",
        lamp.dropper,
        "F",
        "dropper_for_current",
        {
            "frequency": lamp.mains.frequency,
            "peak_voltage": lamp.mains.peak,
            "clamped_voltage": clamped,
            "string_current_mean": brief.current,
        },
        chosen=True,
        note="The nearest value of its series is taken that keeps the LEDs within their limit.",
    )
    why = (
        f"It gives {show_reading(draft.current, 'A')} on average, {100 * draft.miss:+.2g} % of the wish, and between"
        f" {show_reading(draft.least, 'A')} and {show_reading(draft.greatest, 'A')} over mains, tolerance and LEDs."
    ).replace("-", "−")
    told = []
    near = preferred(brief.dropper_series, lamp.dropper / 4, lamp.dropper * 4)
    at = min(range(len(near)), key=lambda index: abs(near[index] - lamp.dropper))
    for value in near[max(at - 1, 0) : at] + near[at + 1 : at + 2]:
        other = replace_at(lamp, "dropper", value)
        mean = float(steady_state(other, POINTS).string_current_mean)
        text = f"{show(value, 'F')} would give {show_reading(mean, 'A')}"
        now, limit, when = dropper_choice.tightest(dropper_choice.led_currents(brief, other))
        if now > limit:
            text += f", and up to {show_reading(now, 'A')} in one LED {when},"
            text += f" which is allowed {show_reading(limit, 'A')}"
        told.append(text)
    return shown, why, "; ".join(told) + "."


def _bleeder(draft, part="bleeder"):
    brief, emptying = draft.brief, draft.emptying(part)
    rule = touch_rule(brief.rule if part == "bleeder" else brief.bus_rule)
    count, each = draft.pieces[part]
    worst = 1 + brief.resistor_tolerance
    shown = Reading(
        part,
        f"largest {BY_KEY[part].name}",
        count * each,
        "Ω",
        "largest_bleeder",
        emptying.values if emptying.needed else {},
        chosen=True,
        note="Its own tolerance comes off, then the next lower value of its series is taken.",
        names={}
        if part == "bleeder"
        else {"dropper": "smoothing capacitor, its tolerance added", "": "Bleeder across the smoothing capacitor"},
    )
    if not emptying.needed:
        return shown, "Nothing has to be emptied here.", ""
    more = next_value(brief.resistor_series, each)
    asked = f"{show(emptying.limit, 'V')} after {show(rule.seconds, 's')}"
    basis = (
        f"{rule.standard} asks for {asked}"
        if part == "bleeder"
        else (f"no rule that is kept here asks for it inside a closed case; {asked}, as for {rule.whom}, is kept")
    )
    why = (
        f"{show(emptying.left(worst * count * each), 'V')} are left at worst; {basis}. It starts from"
        f" {show(emptying.start, 'V')}."
    )
    left = show(emptying.left(worst * count * more), "V")
    series = f" {count} in series share the volts." if count > 1 else ""
    return shown, why + series, f"{f'{count} × ' if count > 1 else ''}{show(more, 'Ω')} would leave {left}."


def _inrush(draft):
    brief, lamp = draft.brief, draft.lamp
    peak = math.sqrt(2) * brief.supply.high
    shown = Reading(
        "inrush_resistor",
        "resistor for the inrush limit",
        lamp.inrush_resistor,
        "Ω",
        "surge_resistor",
        {"peak_voltage": theory.replug_step(peak_voltage=peak), "greatest_current": brief.inrush},
        chosen=True,
        note="The formula takes the step of twice the peak whole and knows no tolerance. The solver takes the resistor"
        f" {100 * brief.resistor_tolerance:.3g} % low, and counts the string's share and the mains' own ohms.",
        names={"peak_voltage": "step at plugging in again, twice the mains' peak at its upper end"},
    )
    now = inrush.rush(brief, lamp, lamp.inrush_resistor)
    why = (
        f"Plugged in again at once the rush is {show_reading(now, 'A')}; {show_reading(brief.inrush, 'A')} is the wish."
    )
    less = [
        value
        for value in preferred(brief.resistor_series, lamp.inrush_resistor / 4, lamp.inrush_resistor)
        if value < lamp.inrush_resistor * (1 - 1e-9)
    ]
    smaller = inrush.rush(brief, lamp, less[-1])
    told = f"With {show(less[-1], 'Ω')} it would be {show_reading(smaller, 'A')}"
    if smaller <= brief.inrush:
        fault = inrush.rush_with_fault(brief, lamp, less[-1])
        told += f", and {show_reading(fault, 'A')} with two diodes short, more than a rectifier of 1 A stands"
    return shown, why, f"{told}."


def _smoothing(draft):
    brief, lamp, limit = draft.brief, draft.lamp, draft.brief.flicker_limit
    values = values_for(theory.current_modulation, lamp, draft.result)
    values.pop("smoothing")
    values["current_modulation"] = limit / 100
    steep = theory.charging_harmonic(clamped_fraction=values["clamped_fraction"])
    shown = Reading(
        "smoothing",
        "smoothing for the wished flicker",
        lamp.smoothing,
        "F",
        "smoothing_for_modulation" if limit / 100 < steep else "",
        values if limit / 100 < steep else {},
        chosen=True,
        note="The formula counts the swing at twice the mains frequency only, at nominal values; the choice is made in"
        " the worst corner, with the capacitor at the low end of its tolerance.",
    )
    why = f"In the worst corner the light wavers by {draft.flicker:.3g} %; {limit:.3g} % is the wish."
    near = preferred(brief.smoothing_series, lamp.smoothing / 11, lamp.smoothing)
    less = next(value for value in reversed(near) if value < lamp.smoothing * (1 - 1e-9))
    depth = greatest_flicker(brief, replace_at(lamp, "smoothing", less))
    told = f"{show(less, 'F')} would leave {depth:.3g} %."
    return shown, why, told if depth > limit else f"{show(less, 'F')} would do for the light, but not for the ripple."


def _series(draft):
    shown = Reading(
        "series_resistor", "series resistor", draft.lamp.series_resistor, "Ω", "", note="It was given with the brief."
    )
    return shown, "", ""


def _diodes(draft):
    peak, drop = math.sqrt(2) * draft.brief.supply.high, draft.lamp.diode.voltage_at(1e-4)
    shown = Reading(
        "diodes",
        "reverse voltage with the string open",
        peak - drop,
        "V",
        "diode_reverse_voltage_open",
        {"peak_voltage": peak, "diode_voltage": drop},
        True,
    )
    return shown, "", ""


def _leds(draft):
    return reading("string_current_mean", draft.lamp, draft.result), "As the brief has them.", ""


_REASONS = {
    "dropper": _dropper,
    "bleeder": _bleeder,
    "smoothing_bleeder": lambda draft: _bleeder(draft, "smoothing_bleeder"),
    "inrush_resistor": _inrush,
    "smoothing": _smoothing,
    "series_resistor": _series,
    "diodes": _diodes,
    "leds": _leds,
}
