"""Monte Carlo: thousands of lamps with parts drawn at random, solved in pieces, so that one can stop at any time."""

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from ...circuit.fields import Spec, about, check_value, documented
from ...circuit.lamp import Lamp
from ...circuit.values import show_reading
from ...solver.steady import spread as batch
from ...solver.steady import steady_states
from . import quantities
from .limits import Limits, Yield, yield_of
from .spread import Spread, check_both

_COUNT = Spec("", 1, 10_000_000, whole=True, meaning="lamps")
_PATIENCE = 2.0  # s
_SEED = Spec("", 0, 2**63 - 1, whole=True, meaning="where the draw starts")


@documented
@dataclass(frozen=True, eq=False)
class Sample:
    """Lamps drawn at random, and what was read off each."""

    lamp: Lamp
    spread: Spread
    seed: int = about("where the draw started")
    wanted: int = about("how many lamps were asked for")
    factors: dict = about("what was drawn, over the nominal value, by the key of the axis", shape="lamps")
    readings: dict = about("by `KEYS`; nan where a dark lamp has none", "SI units", shape="lamps")
    dark: np.ndarray = about("whether the string stays dark", shape="lamps")

    def __repr__(self) -> str:
        low, high = (show_reading(value, "A") for value in self.quantiles("string_current_mean", (0.05, 0.95)))
        return f"<Sample of {self.count} lamps, seed {self.seed}: nine in ten between {low} and {high}>"

    @property
    def count(self) -> int:
        """How many lamps were solved."""
        return len(self.dark)

    @property
    def complete(self) -> bool:
        """Whether those are all that were asked for."""
        return self.count == self.wanted

    def quantiles(self, key: str, shares: Sequence[float] = (0.05, 0.5, 0.95)) -> np.ndarray:
        """Below which value each share of the lamps lies; dark lamps left out where they have no such reading.

        Parameters
        ----------
        key
            One of `KEYS`.
        shares
            From 0 to 1.

        Returns
        -------
        array
            nan if there is no lamp.
        """
        values = self.readings[quantities.known(key)]
        values = values[~np.isnan(values)]
        shares = np.asarray(shares, float)
        return np.quantile(values, shares) if values.size else np.full(shares.shape, np.nan)

    def yield_against(self, limits: Limits) -> Yield:
        """How many keep limits.

        Raises
        ------
        ValueError
            If not one lamp was solved.
        """
        return yield_of(self.readings, self.dark, limits)

    def words(self, key: str = "string_current_mean") -> str:
        """One reading of the sample in a sentence."""
        low, middle, high = (show_reading(value, quantities.UNITS[key]) for value in self.quantiles(key))
        stopped = "" if self.complete else f" Stopped after {self.count} of {self.wanted}; these are kept."
        name = quantities.name(key)
        return (
            f"{name[0].upper()}{name[1:]}: of {self.count} lamps half lie below {middle}, nine in ten between {low} and"
            f" {high}.{stopped}"
        )


class Counting:
    """A count under way: each `step` solves some more lamps, `sample` is what there is so far.

    What a seed draws does not depend on how the count is cut into steps, or on where it is stopped.

    Parameters
    ----------
    count
        Lamps, to ten million.
    points
        As for `steady_states`.

    Raises
    ------
    ValueError
        For a count or a seed out of range, or an end that is more than a lamp may have.
    """

    def __init__(self, lamp: Lamp, spread: Spread, count: int = 20_000, seed: int = 1, points: int = 128):
        self.lamp, self.spread = lamp, spread
        check_both(lamp, spread)
        self.wanted = check_value("count", count, _COUNT)
        self.seed, self._points = check_value("seed", seed, _SEED), points
        self._centre, self._axes = spread.centre(lamp), spread.axes(lamp)
        self._pieces = []

    @property
    def done(self) -> int:
        """How many lamps are solved."""
        return sum(count for count, _, _ in self._pieces)

    @property
    def finished(self) -> bool:
        """Whether all lamps are solved."""
        return self.done == self.wanted

    def step(self, lamps: int = 1024) -> None:
        """Solve some more.

        Parameters
        ----------
        lamps
            At most so many.
        """
        here = min(lamps, self.wanted - self.done)
        drawn, changes = {}, {}
        for axis in self._axes:
            drawn[axis.key] = axis.draw(self._chance(axis), here)
            changes |= axis.changes(drawn[axis.key])
        solved = steady_states(batch(self._centre, changes), self._points)
        read = quantities.read(solved) | {"dark": solved.dark}
        self._pieces.append((here, drawn, read))  # an interrupt before this line loses this piece, one behind it none

    def _chance(self, axis):
        """Where the draws of an axis go on: one number is taken for each lamp before.

        A source of chance for each axis: a part that is not fitted leaves the others' draws as they were.
        """
        source = np.random.PCG64([self.seed, *axis.key.encode()])
        return np.random.Generator(source.advance(self.done))

    def sample(self) -> Sample:
        """The lamps solved so far."""
        pieces = list(self._pieces)

        def joined(which, key):
            return np.concatenate([np.empty(0), *(piece[which][key] for piece in pieces)])

        return Sample(
            self.lamp,
            self.spread,
            self.seed,
            self.wanted,
            {axis.key: joined(1, axis.key) for axis in self._axes},
            {key: joined(2, key) for key in quantities.KEYS},
            joined(2, "dark").astype(bool),
        )


def monte_carlo(
    lamp: Lamp, spread: Spread, count: int = 20_000, seed: int = 1, progress: Callable | None = None, points: int = 128
) -> Sample:
    """Draw parts within their tolerances and solve that many lamps.

    Parts of which only the bounds are promised (capacitors, resistors) are drawn flat between them. What is aimed at a
    value (mains, frequency, LEDs by their typical volts) is drawn from a triangle: its tip there, nothing at the ends
    and nothing beyond, although EN 50160 lets a supply leave its band for a twentieth of the time. All draws are
    independent of each other.

    Parameters
    ----------
    count
        Lamps, to ten million.
    seed
        The same seed draws the same lamps, and stopping early keeps the first of them.
    progress
        Called as `progress(done, count)` after each thousand or so. Without it a count that takes longer than two
        seconds prints how far it is.
    points
        As for `steady_states`.

    Returns
    -------
    Sample
        An interrupt from the keyboard or the notebook's stop button ends the count early: then `complete` is False
        and everything solved so far is there.

    Raises
    ------
    ValueError
        For a count or a seed out of range, or an end that is more than a lamp may have.
    """
    counting = Counting(lamp, spread, count, seed, points)
    progress = progress or _report_when_long()
    try:
        while not counting.finished:
            counting.step()
            progress(counting.done, counting.wanted)
    except KeyboardInterrupt:
        pass
    return counting.sample()


def _report_when_long():
    """A progress that prints one line, over and over, once a count takes longer than one waits without asking."""
    begun = time.monotonic()

    def progress(done, wanted):
        if time.monotonic() - begun > _PATIENCE:
            print(f"\r{done} of {wanted} lamps", end="\n" if done == wanted else "", flush=True)

    return progress
