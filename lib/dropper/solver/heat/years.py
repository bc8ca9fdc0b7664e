"""Years of use: life of the smoothing electrolytic by its temperature, current of the lamp as the dropper fades."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ... import theory
from ...circuit.excerpt import excerpt
from ...circuit.fields import Spec, about, check_value, documented
from ...circuit.lamp import Lamp
from ...circuit.values import show, show_reading
from ...components.kinds import Life
from ...standards import X2_DAMP_HEAT, X2_ENDURANCE, ChangeTest
from ..steady import SteadyStateBatch, spread, steady_states

NO_SOURCE = "scenario, no source"
_TRUSTED_YEARS = 15.0  # beyond, seals dry out whatever the rule of thumb says: typical practice, no source
_A_YEAR = 8766.0  # h
_LOSS = Spec("", 0, 0.5, meaning="part of the capacitance that each year takes")
_USE = Spec("h", 1, 8784, meaning="time in use in a year")


@documented
@dataclass(frozen=True, repr=False)
class LifeSpan:
    """How long an electrolytic lasts by the rule of thumb."""

    hours: float = about("in use", "h")
    temperature: float = about("of a mix of temperatures the steady one that wears as fast", "°C")
    grade: Life = about("what the maker states")

    def __repr__(self) -> str:
        return f"<LifeSpan of {self.grade.name}: {self.hours:.0f} h at {self.temperature:.3g} °C>"

    def years(self, hours_a_year: float = _A_YEAR) -> float:
        """The same in years.

        Parameters
        ----------
        hours_a_year
            h in use, 1 to 8784.
        """
        return self.hours / check_value("hours_a_year", hours_a_year, _USE)

    @property
    def words(self) -> str:
        """The life in a sentence."""
        text = f"At {self.temperature:.3g} °C a can of {self.grade.name} lasts {show_reading(self.hours, 'h')}"
        if self.years() > _TRUSTED_YEARS:
            return f"{text} by the rule of thumb, which nobody trusts beyond some {_TRUSTED_YEARS:g} years."
        return f"{text}, or {self.years():.2g} years without a pause."


def smoothing_life(grade: Life, temperature: float | Sequence[float], hours: Sequence[float] | None = None) -> LifeSpan:
    """Life of the smoothing electrolytic.

    Parameters
    ----------
    grade
        What the maker states.
    temperature
        °C of the capacitor; several for a day of changes.
    hours
        Time spent at each of several, in any one unit; without it they are spent alike.

    Raises
    ------
    ValueError
        For values out of range, or lists that are not as long as each other.

    Source: `theory.electrolytic_life` and `theory.mixed_temperature`.

    Examples
    --------
    >>> from dropper.components import kinds
    >>> smoothing_life(kinds.LIVES[2], 65.0).hours
    16000.0
    """
    if not isinstance(grade, Life):
        raise ValueError(f"grade: {excerpt(grade)} is no life that a maker states; take one of kinds.LIVES")
    if np.ndim(temperature):
        temperatures = [float(degrees) for degrees in temperature]
        times = [1.0] * len(temperatures) if hours is None else list(hours)
        temperature = theory.mixed_temperature(temperatures=temperatures, hours=times)
    elif hours is not None:
        raise ValueError("hours: belong to several temperatures; there is one")
    life = theory.electrolytic_life(
        rated_life=grade.hours, rated_temperature=grade.temperature, temperature=temperature
    )
    return LifeSpan(life, float(temperature), grade)


@documented
@dataclass(frozen=True, repr=False)
class Scenario:
    """How fast a film capacitor is taken to lose capacitance."""

    name: str = about("in words")
    loss_each_year: float = about("part of the capacitance that each year takes, 0 to 0.5")
    source: str = about("where the figure comes from, or that there is none")

    def __post_init__(self):
        check_value("Scenario.loss_each_year", self.loss_each_year, _LOSS)

    def __repr__(self) -> str:
        return f"<Scenario {self.name!r}: {100 * self.loss_each_year:.3g} % lost a year>"


def scenario_of_test(test: ChangeTest | int, years: float) -> Scenario:
    """The scenario in which what a test of class X2 allows is lost in so many years.

    The test gives the loss; the years are the learner's, for no standard says what a lamp's years are worth.

    Parameters
    ----------
    years
        Above 0, to 1000.

    Raises
    ------
    ValueError
        For no such test, or years out of range.

    Examples
    --------
    >>> scenario_of_test(X2_ENDURANCE, 10.0)
    <Scenario 'the endurance limit of 10 % in 10 years': 1.05 % lost a year>
    """
    if not isinstance(test, ChangeTest):
        raise ValueError(f"test: {excerpt(test)} will not do; take standards.X2_ENDURANCE or standards.X2_DAMP_HEAT")
    rate = theory.loss_each_year(kept_fraction=1 - test.limit / 100, years=years)
    name = f"the {test.name} limit of {test.limit:g} % in {years:g} years"
    return Scenario(name, rate, f"IEC 60384-14 for the {test.limit:g} %; the years are a {NO_SOURCE}")


def scenarios() -> tuple[Scenario, ...]:
    """Scenarios to compare: nothing lost, two rates without a source, what tests of class X2 allow lost in ten years.

    Returns
    -------
    tuple of Scenario
        From the slowest to the fastest.

    Examples
    --------
    >>> [scenario.name for scenario in scenarios()][:2]
    ['keeps all', 'the damp heat limit of 5 % in 10 years']
    """
    rates = (
        Scenario("keeps all", 0.0, NO_SOURCE),
        Scenario("3 % a year", 0.03, NO_SOURCE),
        Scenario("10 % a year", 0.10, NO_SOURCE),
        scenario_of_test(X2_DAMP_HEAT, 10.0),
        scenario_of_test(X2_ENDURANCE, 10.0),
    )
    return tuple(sorted(rates, key=lambda scenario: scenario.loss_each_year))


@documented
@dataclass(frozen=True, eq=False, repr=False)
class FilmYears:
    """A lamp over the years, its dropper fading."""

    scenario: Scenario = about("how fast the dropper fades")
    years: np.ndarray = about("since the lamp was new", "a", shape="shape (n,)")
    capacitance: np.ndarray = about("of the dropper in each year", "F", shape="shape (n,)")
    result: SteadyStateBatch = about("of the lamp in each year")

    def __repr__(self) -> str:
        first, last = (show(self.string_current[place], "A") for place in (0, -1))
        return (
            f"<FilmYears, {self.scenario.name}: string {first} in year {self.years[0]:g}, {last} in year"
            f" {self.years[-1]:g}>"
        )

    @property
    def string_current(self) -> np.ndarray:
        """Mean current of the string in each year, A, shape (n,)."""
        return self.result.string_current_mean

    @property
    def words(self) -> str:
        """From the first year to the last, in a sentence."""
        first, last = self.string_current[0], self.string_current[-1]
        lost = 100 * (1 - self.capacitance[-1] / self.capacitance[0])
        span = f"from year {self.years[0]:g} to year {self.years[-1]:g}"
        return (
            f"{self.scenario.name}: {span} the dropper loses {lost:.3g} %, "
            f"and the string's mean current goes from {show(first, 'A')} to {show(last, 'A')}."
        )


def film_years(lamp: Lamp, years: Sequence[float], scenario: Scenario, points: int = 128) -> FilmYears:
    """What the lamp does as its dropper loses capacitance.

    Parameters
    ----------
    lamp
        Its dropper as new.
    years
        At least one, from 0 to 1000.
    points
        As for `steady_states`.

    Raises
    ------
    ValueError
        For years out of range, or a dropper that would fall below what a lamp may have.

    Source: `theory.remaining_capacitance`; no standard gives a loss for each year.

    Examples
    --------
    >>> from dropper import Lamp, Led, LedString, Mains, steady_state
    >>> lamp = Lamp(Mains(230, 50), LedString(Led(3.1, 0.02), 22), "330 nF", "10 µF")
    >>> film_years(lamp, range(11), scenarios()[2])
    <FilmYears, the endurance limit of 10 % in 10 years: string 16.9 mA in year 0, 15.3 mA in year 10>
    """
    when = np.asarray(list(years), float)
    if not when.size:
        raise ValueError("years: there are none; give at least one, for instance range(11)")
    left = theory.remaining_capacitance(dropper=lamp.dropper, loss_each_year=scenario.loss_each_year, years=when)
    return FilmYears(scenario, when, left, steady_states(spread(lamp, {"dropper": left}), points))
