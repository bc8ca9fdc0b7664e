"""Markings view: a resistor's bands as picked, what they say from either end, and what doubtful ones could be."""

import re
from dataclasses import dataclass, replace

from ...circuit.excerpt import excerpt
from ...circuit.fields import about, documented
from ...circuit.parsing import parse
from ...circuit.values import show
from ...components.marks import MarkError, colour_pairs, similar_colours
from ...components.marks.bands import ROLES, as_colours, from_end, write
from ...components.marks.colours import UNMARKED, colour
from ...components.marks.meaning import Meaning, by_likelihood
from ...components.marks.preferred_series import above, below, of_tolerance
from ...components.marks.tolerance_check import MOST_OHMS, last_digit, true_interval
from ..kit.table_reading import table_reading

PLACES = ("first", "second", "third", "fourth", "fifth", "sixth")
COUNTS = (3, 4, 5, 6)
_LIGHT = "bench"  # lamp light and soot deceive every eye
_EYES = {
    key: f"lamp light; {words.replace(' or missing', '')}"
    for key, words in colour_pairs.SIGHTS.items()
    if key != _LIGHT
}
SIGHTS = {"all": "any of these", _LIGHT: colour_pairs.SIGHTS[_LIGHT]} | _EYES
OHMMETER = (1.0, 2.0)  # per cent and steps of the last digit; typical of cheap ones, typical practice, no source
_WANTED = re.compile(r"(.*?)(?:[\s±]*(\d+(?:[.,]\d+)?)\s*%)?(?:\s*(\d+)\s*ppm(?:/K)?)?")
_STANDARD = "The series is that of IEC 60063:2015 that goes with the tolerance."


@documented
@dataclass(frozen=True)
class Bands:
    """A resistor as it lies on the bench: its bands from left to right, and which of them are not sure.

    Raises
    ------
    ValueError
        For a colour, a count or a reading that cannot be.
    """

    count: int = about("how many bands there are; of the colours beyond it nothing is taken", default=4)
    first: str = about("names of colours", default="red")
    second: str = about("names of colours", default="violet")
    third: str = about("names of colours", default="brown")
    fourth: str = about("names of colours", default="gold")
    fifth: str = about("names of colours", default="brown")
    sixth: str = about("names of colours", default="brown")
    unsure1: bool = False
    unsure2: bool = False
    unsure3: bool = False
    unsure4: bool = False
    unsure5: bool = False
    unsure6: bool = False
    sight: str = about("key of `SIGHTS`: for whom colours are alike", default="all")
    measured: str | None = about("what an ohmmeter read, as typed", default=None)
    wanted: str | None = about("the value whose bands these are, as typed; see `with_bands_for`", default=None)

    def __post_init__(self):
        if self.count not in COUNTS:
            raise ValueError(f"count: {excerpt(self.count)} bands; a resistor has 3, 4, 5 or 6")
        for name in PLACES:
            colour(getattr(self, name), name)
        if self.sight not in SIGHTS:
            raise ValueError(f"sight: {excerpt(self.sight)}; choose from {', '.join(SIGHTS)}")
        if self.measured is not None and not 0 < (ohms := parse(self.measured, "Ω", "measured")) <= MOST_OHMS:
            why = "more than any ohmmeter reads" if ohms > 0 else "not above 0"
            raise ValueError(f"measured: {excerpt(self.measured)} is {why}; write it like 268 Ω or 4.68k")

    @property
    def names(self) -> tuple[str, ...]:
        """The colours that count, from left to right."""
        return tuple(getattr(self, name) for name in PLACES[: self.count])

    @property
    def doubtful(self) -> tuple:
        """The bands that are not sure, counted from 1."""
        return tuple(place for place in range(1, self.count + 1) if getattr(self, f"unsure{place}"))

    @property
    def sights(self) -> tuple[str, ...]:
        """The keys of `colour_pairs.SIGHTS` that count: whatever the eyes, the light as well."""
        return tuple(colour_pairs.SIGHTS) if self.sight == "all" else tuple(dict.fromkeys((_LIGHT, self.sight)))


@documented
@dataclass(frozen=True, eq=False)
class View:
    """What the bands say."""

    setting: Bands
    row: tuple = about("the bands, each a `Colour`")
    left: Meaning | None
    right: Meaning | None
    refusals: tuple = about("why an end cannot be read")
    candidates: tuple = about("each a `similar_colours.Candidate`: those that fit what was measured, where some do")
    count: int
    fit_count: int | None = about("how many fit what was measured; None without a measurement")
    readings: tuple

    @property
    def best(self) -> Meaning:
        """The likelier reading of the bands as picked, or None."""
        return next(iter(by_likelihood([meaning for meaning in (self.left, self.right) if meaning])), None)

    @property
    def roles(self) -> tuple[str, ...]:
        """What each band is, read from the left."""
        return ROLES[self.setting.count]


def view_of(setting: Bands) -> View:
    """What a setting shows."""
    row = as_colours(setting.names)
    ends, refusals = {}, []
    for end in ("left", "right"):
        try:
            ends[end] = from_end(row, end)
        except MarkError as error:
            refusals.append(str(error))
    left, right = ends.get("left"), ends.get("right")
    question = setting.names, setting.doubtful, setting.sights
    candidates, count = similar_colours.candidates(*question)
    fit_count = None
    if setting.measured:
        least, most = true_interval(parse(setting.measured, "Ω"), *OHMMETER, last_digit(setting.measured, "Ω"))
        fits, fit_count = similar_colours.candidates(*question, keep=lambda low, high: least <= high and low <= most)
        candidates = fits or candidates
    return View(setting, row, left, right, tuple(refusals), candidates, count, fit_count, _readings(left, right))


def with_bands_for(setting: Bands, text: str) -> Bands:
    """The setting with the bands of a value.

    Parameters
    ----------
    text
        "4.7 kΩ", "499R 1 %", "10k 0.1 % 25 ppm". Without a tolerance it is 5 %, or 1 % where two digits are not enough.

    Returns
    -------
    Bands
        All bands sure, nothing measured.

    Raises
    ------
    ValueError
        For what cannot be read, or has no bands.
    """
    read = _WANTED.fullmatch(" ".join(text.split())[:80])  # a value is refused that is half as long
    value = parse(read[1], "Ω", "bands for")
    percent = float(read[2].replace(",", ".")) if read[2] else None
    coefficient = float(read[3]) if read[3] else None
    if coefficient is not None:
        ways = ((6, 1.0),)
    elif percent is None:
        ways = ((4, 5.0), (5, 1.0))
    else:
        counts = (3,) if percent == UNMARKED else (4, 5) if percent >= 5 else (5,)
        ways = tuple((count, percent) for count in counts)
    for count, usual in ways:
        try:
            names = write(value, usual if percent is None else percent, count, coefficient)
            break
        except MarkError as error:
            last = error
    else:
        raise MarkError(f"bands for: {str(last).removeprefix('value: ').removeprefix('tolerance: ')}")
    if len(names) == 1:
        raise MarkError("bands for: 0 Ω is a link with one black band; it has no digits to pick")
    sure = {f"unsure{place}": False for place in range(1, 7)}
    return replace(setting, count=count, **dict(zip(PLACES, names, strict=False)), **sure, measured=None, wanted=text)


def advice(view: View) -> str:
    """What to measure, or what was measured says, in a sentence or two."""
    if view.fit_count is None:
        few = view.count == len(view.candidates) and not any(candidate.meaning.usual for candidate in view.candidates)
        return similar_colours.decide(view.candidates) if few else ""
    percent, counts = OHMMETER
    read = show(parse(view.setting.measured, "Ω"), "Ω", 4)
    if not view.fit_count:
        outcome = "that does not fit." if view.count == 1 else f"none of the {view.count} fits."
        outcome += " Look at the bands again; or it has drifted, or was not measured alone."
    elif view.fit_count == 1:
        outcome = f"that fits {view.candidates[0].words}" + (" alone." if view.count > 1 else ".")
    else:
        outcome = (
            f"that fits {view.fit_count} of the {view.count}. What differs in its tolerance alone, no meter tells."
        )
    return f"An ohmmeter (±{percent:g} % and {counts:g} digits, typical practice, no source) reads {read}: {outcome}"


def verdict() -> str:
    """What the prediction's two readings are worth, in a sentence."""
    candidates, _ = similar_colours.candidates(("orange", "violet", "brown", "gold"), (1,), ("bench",))
    likeliest = candidates[0].meaning
    steps = show(below(24, 370.0), "Ω"), show(above(24, 370.0), "Ω")
    return (
        f"Red, {likeliest.text}: 27 is a step of E{likeliest.series}. 37 is none of E24, which goes from {steps[0]} to"
        f" {steps[1]}: a resistor of 370 Ω ±5 % is hardly made. An ohmmeter proves it."
    )


def _readings(left, right):
    both = by_likelihood([meaning for meaning in (left, right) if meaning])
    if not both:
        return ()
    best = both[0]
    series = of_tolerance(best.minus)
    ohms, less, more = show(best.value, "Ω"), 1 - best.minus / 100, 1 + best.plus / 100
    rows = [
        table_reading("value", f"value, from the {best.end}", best.value, "Ω", best.how),
        table_reading("tolerance", "tolerance, to either side", best.minus, "%", " ".join((best.how, *best.notes))),
        table_reading(
            "low",
            "least within tolerance",
            best.low,
            "Ω",
            f"{ohms} less {best.minus:g} %: × {less:g} = {show(best.low, 'Ω', 4)}.",
        ),
        table_reading(
            "high",
            "most within tolerance",
            best.high,
            "Ω",
            f"{ohms} and {best.plus:g} % more: × {more:g} = {show(best.high, 'Ω', 4)}.",
        ),
    ]
    if best.coefficient is not None:
        how = f"{best.how} So many millionths of its ohms a kelvin, up or down (table from memory)."
        rows.append(table_reading("coefficient", "temperature coefficient", best.coefficient, "ppm/K", how))
    series_words = f"The coarsest series that holds {ohms} is E{best.series}."
    if best.series is None:
        series_words = f"No E series holds {ohms}: look at the bands again."
    for key, name, step in (("below", "next below", below), ("above", "next above", above)):
        rows.append(
            table_reading(key, f"{name} in E{series}", step(series, best.value), "Ω", f"{series_words} {_STANDARD}")
        )
    if len(both) == 2:
        rows.append(table_reading("other", f"value, from the {both[1].end}", both[1].value, "Ω", both[1].how))
    return tuple(rows)
