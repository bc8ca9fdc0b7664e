"""All values of a lamp together: each is chosen with the others as they are, until none changes any more."""

import functools
import math
from dataclasses import dataclass

from .. import theory
from ..circuit.fields import about, documented
from ..circuit.lamp import Lamp, replace_at
from ..circuit.parts import BY_KEY
from ..circuit.series import preferred
from ..circuit.values import show
from ..solver.steady import SteadyState, steady_state, steady_states
from . import bleeders, dc_side, dropper_choice, inrush
from .bleeders import Emptying
from .brief import Brief
from .corners import POINTS, bare, bright, dim, greatest_flicker
from .infeasible import Infeasible

_MOST_ROUNDS = 12


@documented
@dataclass(frozen=True, eq=False)
class Draft:
    """A lamp with all its values, before its parts are rated."""

    brief: Brief
    lamp: Lamp = about("Nominal values, on nominal mains.")
    pieces: dict = about('How many resistors in series make a bleeder, and the ohms of each: {"bleeder": (2, 470e3)}.')
    clamp: float | None = about("V, of the clamp across the bus.")
    result: SteadyState = about("Of the lamp.", repr=False)
    least: float = about("A, mean through the string, in the dim and in the bright corner.")
    greatest: float = about("A, mean through the string, in the dim and in the bright corner.")
    flicker: float = about("%, in the worst corner.")

    @property
    def current(self) -> float:
        """Mean current through the string on nominal mains, A."""
        return self.result.string_current_mean

    @property
    def miss(self) -> float:
        """How far the current is from the wish, as a fraction of it."""
        return self.current / self.brief.current - 1

    @property
    def held(self) -> float:
        """V that the bus reaches with the string open."""
        return held(self.brief, self.clamp)

    def emptying(self, part: str) -> Emptying:
        """What a bleeder has to do, by its key: "bleeder" or "smoothing_bleeder"."""
        if part == "bleeder":
            return bleeders.for_dropper(self.brief, self.lamp.dropper)
        bus = dc_side.greatest_bus(self.brief, self.lamp)
        return bleeders.for_smoothing(self.brief, self.lamp.smoothing, bus, self.held)


def held(brief: Brief, clamp: float | None) -> float:
    """V that the bus reaches with the string open: the mains' peak, or the clamp's upper end."""
    peak = math.sqrt(2) * brief.supply.high
    return peak if clamp is None else min(peak, (1 + dc_side.CLAMP_TOLERANCE) * clamp)


@functools.lru_cache(maxsize=128)
def draft(brief: Brief, floors: tuple[tuple[str, float], ...] = ()) -> Draft:
    """All values of a lamp that meets a brief, its parts not rated yet: quick enough for a slider that rests.

    Parameters
    ----------
    floors
        From where on values are looked at: F of the smoothing capacitor, fewest pieces of a bleeder.

    Raises
    ------
    Infeasible
        Which wish fails, why, and the nearest brief.
    """
    dropper_choice.string_fits(brief, bare(brief, {"dropper": 1e-7, "smoothing": 1e-5}))
    lamp, pieces, clamp, least = _start(brief), {}, None, dict(floors)
    seen = []
    for _ in range(_MOST_ROUNDS):
        before = (lamp, dict(pieces), clamp)
        lamp = replace_at(lamp, "dropper", dropper_choice.dropper(brief, lamp))
        lamp = _with_bleeder(brief, lamp, pieces, "bleeder", bleeders.for_dropper(brief, lamp.dropper), least)
        farads = dc_side.smoothing(brief, lamp, least.get("smoothing", 0.0))
        lamp = replace_at(lamp, "smoothing", farads)
        clamp = dc_side.clamp(brief, lamp) if brief.clamp else None
        emptying = bleeders.for_smoothing(brief, lamp.smoothing, dc_side.greatest_bus(brief, lamp), held(brief, clamp))
        lamp = _with_bleeder(brief, lamp, pieces, "smoothing_bleeder", emptying, least)
        if before == (lamp, pieces, clamp):  # the resistor in the line moves the others least, and costs most
            lamp = replace_at(lamp, "inrush_resistor", inrush.inrush_resistor(brief, lamp))
            if lamp == before[0]:
                break
        if lamp in seen:  # two smoothings that call each other up by their bleeders: the larger it is
            least["smoothing"] = max(other.smoothing for other in seen)
        seen.append(lamp)
    ends = steady_states([dim(brief, lamp), bright(brief, lamp)], POINTS).string_current_mean
    return Draft(
        brief,
        lamp,
        pieces,
        clamp,
        steady_state(lamp),
        float(ends[0]),
        float(ends[1]),
        greatest_flicker(brief, lamp) if ends[0] > 0 else math.nan,
    )


def _start(brief):
    """A first guess by the closed forms."""
    supply = brief.supply
    lamp = bare(brief, {"dropper": 1e-7, "smoothing": 1e-5})
    farads = theory.dropper_for_current(
        frequency=supply.frequency,
        peak_voltage=lamp.mains.peak,
        string_current_mean=brief.current,
        clamped_voltage=lamp.clamped_voltage(brief.current),
    )
    if "dropper" not in brief.fixed:
        lamp = replace_at(lamp, "dropper", _within("dropper", farads, brief))
    if "inrush_resistor" not in brief.fixed:
        step = theory.replug_step(peak_voltage=math.sqrt(2) * supply.high)
        ohms = theory.surge_resistor(peak_voltage=step, greatest_current=brief.inrush)
        lamp = replace_at(lamp, "inrush_resistor", preferred(brief.resistor_series, ohms / 2.5, ohms)[-1])
    return lamp


def _within(part, farads, brief):
    """A dropper that a lamp can have; complains of one far off what there is."""
    if 1e-9 <= farads <= 3e-5:
        return farads
    raise Infeasible(
        "current",
        f"{show(brief.current, 'A')} asks for a {part} of {show(farads, 'F')}; kept here are 1 nF to 30 µF.",
        brief.but(current=float(f"{brief.current * min(max(farads, 1.1e-9), 2.7e-5) / farads:.2g}")),
    )


def _with_bleeder(brief, lamp, pieces, part, emptying, least):
    """The lamp with a bleeder, and how it is made up noted in `pieces`."""
    pieces.pop(part, None)
    if part in brief.fixed:
        ohms = getattr(lamp, part)
        if emptying.needed:
            _fixed_empties(brief, part, ohms, emptying)
        if ohms:
            fewest = least.get(part, 1)
            count = next((n for n in range(fewest, 100) if bleeders.stands(n, ohms / n, emptying)), fewest)
            pieces[part] = (count, ohms / count)
        return lamp
    if not emptying.needed:
        return replace_at(lamp, part, None)
    count, each = pieces[part] = bleeders.pieces(brief, emptying, least.get(part, 1))
    return replace_at(lamp, part, count * each)


def _fixed_empties(brief, part, ohms, emptying):
    left = emptying.start if ohms is None else emptying.left((1 + brief.resistor_tolerance) * ohms)
    if left <= emptying.limit * (1 + 1e-9):
        return
    raise Infeasible(
        "fixed",
        f"With a {BY_KEY[part].name} of {show(ohms, 'Ω')} up to {show(left, 'V')} are left after"
        f" {show(emptying.seconds, 's')}; {show(emptying.limit, 'V')} is the limit.",
        brief.freed(part),
    )


def value_text(draft: Draft, part: str) -> str:
    """A part's value as people write it; pieces in series are counted."""
    if part in ("diodes", "leds"):
        string = draft.lamp.string
        beside = f" × {string.in_parallel}" if string.in_parallel > 1 else ""
        return "4" if part == "diodes" else f"{string.in_series}{beside}"
    count, each = draft.pieces.get(part, (1, getattr(draft.lamp, part)))
    unit = "F" if part in ("dropper", "smoothing") else "Ω"
    return f"{count} × {show(each, 'Ω')}" if count > 1 else show(each, unit)
