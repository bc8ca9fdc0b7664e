"""Result of a fit: the LED, how far it can be trusted, and where it ends."""

import functools
import math
from dataclasses import dataclass

import numpy as np

from ...circuit.fields import about, documented
from ...circuit.lamp import Led
from ...circuit.values import show
from ...components.kinds import LedKind
from ...components.kinds.rating import OWN_BENCH

HARDLY = 5.0  # greatest current over the least: below it resistance and ideality are hard to tell apart
COARSE = 3.0  # % rms: no meter is so coarse
STRONG = 1.0  # A: more than that is rare enough to ask about the unit


@documented
@dataclass(frozen=True)
class Point:
    """A measured point beside the fitted curve."""

    row: int = about("Where it stands in the learner's table.")
    volts: float = about("as measured", "V")
    amps: float = about("as measured", "A")
    residual: float = about("measured less fitted", "V")
    used: bool = about("False where it stands so far off the others that it was left out.")


@documented
@dataclass(frozen=True)
class LedFit:
    """An LED fitted to measured points; `print` it for what it says in words.

    The LED goes into a lamp as any other::

        lamp = dataclasses.replace(lamp, string=dataclasses.replace(lamp.string, led=fit.led))
        lamp.to_toml("my_lamp.toml")
    """

    led: Led
    junctions: int = about("In series inside it, as was said.")
    points: tuple = about("In the order in which they were given.")
    skipped_rows: tuple = about("Rows that held no point, and why.")
    distant_rows: tuple = about("Rows far off the curve: left out, or used where they are more than a third.")
    covariance: tuple = about("Of forward voltage (V), ideality and series resistance (Ω), three rows of three.")
    row_word: str = about('What the numbers of rows count: "row" or "line".', default="row")

    @functools.cached_property
    def used_points(self) -> tuple[Point, ...]:
        """The points that the curve was fitted to."""
        return tuple(point for point in self.points if point.used)

    @functools.cached_property
    def outliers(self) -> tuple[Point, ...]:
        """The points that were left out because they stand far off."""
        return tuple(point for point in self.points if not point.used)

    @functools.cached_property
    def residuals(self) -> np.ndarray:
        """Measured less fitted, V, of every point."""
        return np.array([point.residual for point in self.points])

    @functools.cached_property
    def rms(self) -> float:
        """Root of the mean square of the used points' residuals, V."""
        return math.sqrt(math.fsum(point.residual**2 for point in self.used_points) / len(self.used_points))

    @functools.cached_property
    def rms_percent(self) -> float:
        """The same of each residual over its volts, %."""
        shares = [(point.residual / point.volts) ** 2 for point in self.used_points if point.volts]
        return 100 * math.sqrt(math.fsum(shares) / len(shares))

    @functools.cached_property
    def worst_point(self) -> Point:
        """The used point that lies farthest from the curve."""
        return max(self.used_points, key=lambda point: abs(point.residual))

    @functools.cached_property
    def current_range(self) -> tuple[float, ...]:
        """Least and greatest current of the used points, A: between them the curve stands."""
        amps = [point.amps for point in self.used_points]
        return min(amps), max(amps)

    @functools.cached_property
    def uncertainty(self) -> dict[str, float]:
        """Standard uncertainty of each fitted number: forward_voltage (V), ideality, series_resistance (Ω)."""
        names = ("forward_voltage", "ideality", "series_resistance")
        return {name: math.sqrt(max(self.covariance[k][k], 0.0)) for k, name in enumerate(names)}

    def uncertainty_at(self, current: float) -> float:
        """Standard uncertainty of the fitted voltage.

        Parameters
        ----------
        current
            A.

        Returns
        -------
        float
            V, from the scatter of the points; an error that the meter makes everywhere is not in it.
        """
        led = self.led
        slope = np.array(
            [1.0, led.slope_voltage / led.ideality * math.log(current / led.at_current), current - led.at_current]
        )
        return math.sqrt(max(float(slope @ np.array(self.covariance) @ slope), 0.0))

    def kind(self, name: str, current_limit: float, coefficient: float = -2e-3) -> LedKind:
        """This LED as a kind, to choose and to compare with.

        Parameters
        ----------
        current_limit
            A, steady: a measurement does not tell it, a data sheet does.
        coefficient
            V/K for each junction; typical practice unless it was measured.

        Returns
        -------
        LedKind
            Least, typical and greatest forward voltage are the one that was measured.
        """
        led, volts = self.led, self.led.forward_voltage
        return LedKind(
            name,
            volts,
            volts,
            volts,
            led.at_current,
            current_limit,
            self.junctions,
            coefficient,
            led.series_resistance,
            f"{len(self.used_points)} measured points; the rest typical practice",
            OWN_BENCH,
            source_figures=("typical", "least", "greatest", "at_current", "series_resistance", "ideality"),
            ideality=led.ideality / self.junctions,
        )

    @functools.cached_property
    def parameter_words(self) -> str:
        """The fitted numbers with their uncertainties, in words."""
        led, sure = self.led, self.uncertainty
        return (
            f"{show(led.forward_voltage, 'V', 4)} ± {show(sure['forward_voltage'], 'V', 2)} at"
            f" {show(led.at_current, 'A')}, ideality {led.ideality:.3g} ± {sure['ideality']:.2g}, series resistance"
            f" {show(led.series_resistance, 'Ω')} ± {show(sure['series_resistance'], 'Ω', 2)}"
        )

    @functools.cached_property
    def sentence(self) -> str:
        """How well the model meets the points, and where it ends."""
        worst, (low, high) = self.worst_point, self.current_range
        words = [
            f"The model meets your {len(self.used_points)} points within {show(self.rms, 'V', 2)} rms,"
            f" {self.rms_percent:.2g} % of their volts; the worst is {self.row_word} {worst.row}, {_beside(worst)}."
        ]
        words += [
            f"{self.row_word.capitalize()} {point.row} stands {_beside(point)} and was left out."
            for point in self.outliers
        ]
        if self.distant_rows and not self.outliers:
            rows = ", ".join(map(str, self.distant_rows))
            words.append(f"{self.row_word.capitalize()}s {rows} stand far off, too many to leave out; look again.")
        words += [f"{self.row_word.capitalize()} {row} holds no point: {why}." for row, why in self.skipped_rows]
        words.append(f"The points reach from {show(low, 'A')} to {show(high, 'A')}; beyond that it is a guess.")
        return " ".join([*words, *self.doubts])

    @functools.cached_property
    def doubts(self) -> tuple[str, ...]:
        """What is to be taken with a grain of salt, a sentence each; empty if nothing is."""
        low, high = self.current_range
        led, sentences = self.led, []
        if self.rms_percent > COARSE:
            sentences.append(
                "That is more than a meter scatters: the points may be of more than one LED, or of one that grew warm."
            )
        if high < HARDLY * low:
            sentences.append(
                f"The greatest current is only {high / low:.2g} times the least: ideality and series resistance can"
                " hardly be told apart, and only their curve between the points stands."
            )
        if led.series_resistance == 0:
            sentences.append("The series resistance came out at nothing, the least there is.")
        if led.ideality <= self.junctions * (1 + 1e-9):
            sentences.append(f"The ideality came out at {led.ideality:.3g}, the least for {self.junctions} in series.")
        if high > STRONG:
            sentences.append(f"{show(high, 'A')} is much for an LED: is the current given in A, or in mA?")
        return tuple(sentences)

    def __repr__(self) -> str:
        led = self.led
        return (
            f"<LedFit of {len(self.used_points)} points: {show(led.forward_voltage, 'V', 4)} at"
            f" {show(led.at_current, 'A')}, ideality {led.ideality:.3g}, {show(led.series_resistance, 'Ω')} in series,"
            f" {show(self.rms, 'V', 2)} rms>"
        )

    def __str__(self) -> str:
        return f"{self.parameter_words[0].upper()}{self.parameter_words[1:]}. {self.sentence}"


def _beside(point):
    """Where a point lies: "31 mV above the curve"."""
    side = "above" if point.residual > 0 else "below"
    return f"{show(abs(point.residual), 'V', 2)} {side} the curve"
