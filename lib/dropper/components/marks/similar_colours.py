"""Similar colours: all the resistors that bands could be whose colours may have been taken for one another."""

import heapq
import itertools
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from ...circuit.fields import about, documented
from ...circuit.series import E_SERIES
from ...circuit.values import show
from .bands import as_colours, from_end, worth
from .colour_pairs import PAIRS, SIGHTS
from .colours import COLOURS, UNMARKED
from .meaning import Meaning, is_made
from .preferred_series import of_tolerance

MOST = 8  # readings that are listed
ANY = 0.1  # an ohmmeter that is not within 10 % is broken

# A resistor's three digits -> the coarsest series that holds them.
_COARSEST = {}
for _series, _steps in reversed(E_SERIES.items()):
    _COARSEST |= {10 * step if step < 100 else step: _series for step in _steps}


@documented
@dataclass(frozen=True)
class Candidate:
    """One resistor that doubtful bands could be."""

    bands: tuple = about("Names of colours from left to right.")
    meaning: Meaning
    misread_bands: tuple = about("The bands that would have been taken for another colour, counted from 1 at the left.")

    def __repr__(self) -> str:
        return f"<{self.words}>"

    @property
    def words(self) -> str:
        """The candidate in a line."""
        misread = ", ".join(f"band {place} {self.bands[place - 1]}" for place in self.misread_bands) or "as picked"
        return f"{self.meaning.text} ({misread}{', from the right' if self.meaning.end == 'right' else ''})"


def partners(name: str, sights: Sequence[str] = tuple(SIGHTS)) -> tuple[str, ...]:
    """The colours that one is taken for.

    Parameters
    ----------
    sights
        Keys of `SIGHTS`.

    Returns
    -------
    tuple of str
        In the order of the code.

    Examples
    --------
    >>> partners("brown", ["protan"]), partners("orange", ["deutan"])
    (('red',), ('yellow', 'green', 'gold'))
    """
    return tuple(other for other in COLOURS if any(frozenset((name, other)) in PAIRS[sight] for sight in sights))


def candidates(
    colours: Sequence[str],
    doubtful: list[int] | tuple[int, ...] = (),
    sights: Sequence[str] = tuple(SIGHTS),
    most: int = MOST,
    keep: Callable | None = None,
) -> tuple[tuple[tuple[Candidate, ...], int], ...]:
    """The resistors of preferred values that a row of bands could be, from either end.

    Values of the series that goes with the tolerance count; only where there is none, those of a finer series do.

    Parameters
    ----------
    colours
        As picked, from left to right.
    doubtful
        The bands that are not sure, counted from 1; each may be any of its partners.
    sights
        Keys of `SIGHTS`: for whom colours are alike.
    most
        How many to give at most.
    keep
        Takes the least and the most that a candidate may have, Ω, and says whether it counts, as what was measured
        may; None keeps all.

    Returns
    -------
    tuple of (tuple of Candidate, int)
        The likeliest first (two digits for 5 % and wider, three for less; few bands changed), and how many in all.

    Raises
    ------
    MarkError
        For a colour or a number of bands that the code does not have.

    Examples
    --------
    >>> listed, count = candidates(["yellow", "violet", "red", "gold"], doubtful=[3], sights=["protan"])
    >>> [each.words for each in listed], count
    (['4.7 kΩ ±5 % (as picked)', '470 Ω ±5 % (band 3 brown)'], 2)
    """
    row = as_colours(colours)
    if len(row) == 1:
        return (), 0
    choices = [
        (each.name, *(partners(each.name, sights) if place in doubtful else ()))
        for place, each in enumerate(row, start=1)
    ]
    best = {}
    for end in ("left", "right"):
        for names, usual, value, rest in _preferred(choices if end == "left" else choices[::-1]):
            names = names if end == "left" else names[::-1]
            misread_bands = sum(name != each.name for name, each in zip(names, row, strict=True))
            # The standard has two digits for 5 % and wider, three for less; below 0.5 % resistors are rare on a board.
            odd = ((len(row) < 5) != (rest[0] >= 5.0)) + (rest[0] < 0.5)
            rank = (usual, odd, misread_bands, value, rest[0], names, end)
            if (value, *rest) not in best or rank < best[value, *rest]:
                best[value, *rest] = rank
    least = min((rank[0] for rank in best.values()), default=0)
    closest = [rank for rank in best.values() if rank[0] == least]
    if keep is not None:
        closest = [rank for rank in closest if keep(rank[3] * (1 - rank[4] / 100), rank[3] * (1 + rank[4] / 100))]
    return tuple(_candidate(names, end, row) for *_, names, end in heapq.nsmallest(most, closest)), len(closest)


def decide(listed: Sequence[Candidate]) -> str:
    """What to measure to tell candidates apart, in a sentence or two."""
    if len(listed) < 2:
        return ""
    parts = sorted((each.meaning for each in listed), key=lambda meaning: meaning.value)
    groups = [parts[0]]
    accuracy, nearest, mixed = 1.0, None, None
    for meaning in parts[1:]:
        before = groups[-1]
        if meaning.low <= before.high:
            mixed = mixed or (before, meaning)
        elif (needed := (meaning.low - before.high) / (meaning.low + before.high)) < accuracy:
            accuracy, nearest = needed, (before, meaning)
        groups.append(meaning)
    words = f"Measure to decide, one lead lifted: between {show(parts[0].low, 'Ω')} and {show(parts[-1].high, 'Ω')}."
    if nearest and accuracy > ANY:
        words += " They are so far apart that any ohmmeter tells them."
    elif nearest:
        one, other = (show(meaning.value, "Ω") for meaning in nearest)
        words += f" The nearest two, {one} and {other}, ask for an ohmmeter better than ±{_rounded_down(accuracy)} %."
    if mixed:
        one, other = (meaning.text for meaning in mixed)
        words += f" {one} and {other} overlap within their tolerances: no measuring tells these for certain."
    return words


def _rounded_down(accuracy):
    percent = 100 * accuracy
    return f"{int(percent)}" if percent >= 1 else f"{int(100 * percent) / 100:g}"


def _preferred(choices):
    """Every choice of colours, the first digit first, whose digits stand in an E series.

    Yields names, how usual it is (as `Meaning.usual`), value, and tolerance and coefficient.
    """
    count = len(choices) - {3: 1, 4: 2, 5: 2, 6: 3}[len(choices)]
    every = [[COLOURS[name] for name in names] for names in choices]
    ends = [
        [each for each in options if getattr(each, field) is not None]
        for options, field in zip(every[count + 1 :], ("tolerance", "coefficient"), strict=False)
    ]
    firsts = [each for each in every[0] if each.digit]
    others = [[each for each in options if each.digit is not None] for options in every[1:count]]
    for digits in itertools.product(firsts, *others):
        number = int("".join(str(each.digit) for each in digits))
        series = _COARSEST.get(number * 10 if count == 2 else number)
        if series is None:
            continue
        for multiplier in every[count]:
            value = worth((number,), multiplier.power)
            for tail in itertools.product(*ends):
                tolerance = tail[0].tolerance if tail else UNMARKED
                usual = 0 if series <= max(of_tolerance(tolerance), 24) and is_made(value) else 1
                rest = (tolerance, tail[1].coefficient if len(tail) > 1 else None)
                yield tuple(each.name for each in (*digits, multiplier, *tail)), usual, value, rest


def _candidate(names, end, row):
    """A candidate with its reading."""
    misread_bands = tuple(
        place for place, (name, each) in enumerate(zip(names, row, strict=True), 1) if name != each.name
    )
    return Candidate(names, from_end(tuple(COLOURS[name] for name in names), end), misread_bands)
