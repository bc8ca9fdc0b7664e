"""Tolerances view: what weighs most in a lamp of real parts, how far the current strays, how many lamps will do."""

import functools
from dataclasses import dataclass, replace

from ... import theory
from ...circuit.excerpt import excerpt
from ...circuit.fields import about, check, check_part, check_text, documented, quantity
from ...circuit.lamp import Lamp
from ...design.tolerance import (
    WEIGHTS,
    ByFormula,
    Counting,
    Extreme,
    Limits,
    Sample,
    Spread,
    Yield,
    by_formula,
    corners,
    monte_carlo,
)
from ...results.reading import Reading
from ...solver.steady import SteadyState, steady_state
from ...standards import SUPPLIES, supply

LAMP_MAINS = "the lamp's own"
PLACES = (LAMP_MAINS, *(country.place for country in SUPPLIES))
FEW, MANY = 400, 20_000
QUESTION_LIMIT = 10.0  # %: what the question of the panel is about
CURRENT = "string_current_mean"
NAMES = {"mains": "mains", "dropper": "dropper", "led": "LEDs' volts", "frequency": "frequency"}
_WHOLE = {"mains": "mains voltage", "dropper": "dropper", "led": "clamped voltage", "frequency": "frequency"}
_SEED = 10
_DEVIATIONS = (
    "The fractions put in are standard deviations: of a part that keeps bounds its tolerance over √3, of mains,"
    " frequency and LEDs, which are aimed at a value, over √6."
)
_DARK = "The nominal lamp is dark: the mains does not reach the string's voltage."


@documented
@dataclass(frozen=True)
class Tolerances:
    """A lamp, whose mains it hangs on, how far its parts may be off, and what is asked of it."""

    lamp: Lamp
    place: str = LAMP_MAINS
    dropper: float = quantity("%", 0, 30, 10.0, zero=True, meaning="tolerance of the dropper")
    led: float = quantity("%", 0, 30, 10.0, zero=True, meaning="how far an LED's forward voltage may be off")
    years: float = quantity("", 0, 20, 0.0, zero=True, meaning="years in use")
    limit: float = quantity("%", 1, 60, 20.0, meaning="how far the current may be off")

    def __post_init__(self):
        check(self)
        check_part(self, "lamp", Lamp)
        check_text(self, "place", 80)
        if self.place not in PLACES:
            raise ValueError(f"Tolerances.place: {excerpt(self.place)} is not kept here; there are {'; '.join(PLACES)}")

    @property
    def spread(self) -> Spread:
        """The spread of its parts."""
        where = None if self.place == LAMP_MAINS else supply(self.place)
        setting_for = Spread.of(self.lamp, where, dropper=self.dropper / 100, years=self.years)
        return replace(setting_for, led_below=self.led / 100, led_above=self.led / 100)


@documented
@dataclass(frozen=True, eq=False)
class View:
    """Weights, corners, a sample of lamps, and how many of them keep the limit."""

    setting: Tolerances
    spread: Spread
    design_current: float = about("mean string current of the new lamp on its nominal mains", "A")
    now: SteadyState = about("the nominal lamp, its dropper as old as asked for")
    formula: ByFormula | None = about("weights by the closed form; None for a dark lamp")
    ends: Extreme
    sample: Sample
    limits: Limits | None = about("ends of the current to keep to; None for a lamp that is dark as designed")
    within_limit: Yield | None
    readings: tuple


def setting_for(lamp: Lamp) -> Tolerances:
    """The setting in which a lamp is looked at first: LEDs off by what their kind's sheet allows."""
    return Tolerances(lamp, led=float(round(100 * Spread.of(lamp).led_above)))


def view_of(setting: Tolerances, sample: Sample | None = None) -> View:
    """What a setting shows.

    Parameters
    ----------
    sample
        Of `counting` this setting; a small one is drawn without it.

    Raises
    ------
    ValueError
        If an end is more than a lamp may have.
    """
    spread = setting.spread
    design_current, now, formula, ends, small = _solved(setting.lamp, spread)
    current_sample = small if sample is None or not sample.count else sample
    lit = design_current > 1e-6
    limits = Limits.around(design_current, setting.limit / 100) if lit else None
    view = View(
        setting=setting,
        spread=spread,
        design_current=design_current,
        now=now,
        formula=formula,
        ends=ends,
        sample=current_sample,
        limits=limits,
        within_limit=current_sample.yield_against(limits) if lit else None,
        readings=(),
    )
    return replace(view, readings=_readings(view))


def counting(setting: Tolerances) -> Counting:
    """A count of `MANY` lamps of a setting, to be taken step by step; its first lamps are those of the small sample."""
    return Counting(setting.lamp, setting.spread, MANY, _SEED)


def share_within(setting: Tolerances, limit: float) -> float:
    """How many of a hundred lamps keep the designed current, so many per cent either way; nan for a dark design.

    Parameters
    ----------
    limit
        %.
    """
    view = view_of(replace(setting, limit=limit))
    return 100 * view.within_limit.share if view.within_limit else float("nan")


@functools.lru_cache(maxsize=4)
def _solved(lamp, spread):
    """What does not hang on the limit: designed current, nominal lamp, formulas, corners, small sample."""
    centre = spread.centre(lamp)
    now = steady_state(centre, 256)
    new = now if not spread.years else steady_state(replace(spread, years=0.0).centre(lamp), 256)
    ends = corners(lamp, spread, [CURRENT]).of(CURRENT)
    small = monte_carlo(lamp, spread, FEW, _SEED)
    return new.string_current_mean, now, by_formula(lamp, spread, now), ends, small


def _readings(view):
    formula, ends, within_limit, sample = view.formula, view.ends, view.within_limit, view.sample
    nan = float("nan")
    values = sample.readings[CURRENT]
    rows = [
        Reading(
            "kept",
            "lamps within the limit",
            100 * within_limit.share if within_limit else nan,
            "%",
            "",
            note=f"Counted, by no formula. {within_limit.words if within_limit else _DARK}",
        ),
        _by(
            formula,
            "nominal",
            "string current, all parts nominal",
            ends.nominal,
            "A",
            "mean_string_current",
            lambda: formula.lamp,
        ),
    ]
    rise, fall = (100 * abs(end / ends.nominal - 1) if formula else nan for end in (ends.greatest, ends.least))
    reached = formula if formula and formula.always_lit else None
    rows += [
        _by(
            formula,
            "rise",
            "more in the brightest corner",
            rise,
            "%",
            "greatest_current_rise",
            lambda: formula.rise_values,
            scale=100.0,
        ),
        _by(
            reached,
            "fall",
            "less in the dimmest corner",
            fall,
            "%",
            "greatest_current_fall",
            lambda: formula.fall_values,
            scale=100.0,
        ),
        _by(
            formula,
            "chance",
            "standard deviation by chance",
            100 * float(values.std() / ends.nominal) if formula else nan,
            "%",
            "root_sum_square_spread",
            lambda: formula.chance_values,
            scale=100.0,
            note=_DEVIATIONS,
        ),
    ]
    for key, derivation in WEIGHTS.items():
        weight = formula.weights[key] if formula else nan
        rows.append(
            _by(
                formula,
                f"weight_{key}",
                f"weight of the {_WHOLE[key]}",
                weight,
                "",
                derivation,
                lambda: formula.lamp,
                exact=True,
            )
        )
    spread = view.spread
    loss_values = {"dropper": view.setting.lamp.dropper, "loss_each_year": spread.loss_each_year, "years": spread.years}
    left = theory.remaining_capacitance(**loss_values)
    rows.append(
        Reading("left", "dropper after the years, nominal", left, "F", "remaining_capacitance", loss_values, True)
    )
    return tuple(rows)


def _by(formula, key, name, value, unit, derivation, values, **more):
    """A reading explained by a derivation, or by a note where the formulas do not hold."""
    if formula is None:
        dark = "No formula holds: at that end the mains does not reach the string." if value == value else _DARK
        return Reading(key, name, value, unit, "", note=dark)
    return Reading(key, name, value, unit, derivation, values(), **more)
