"""Rating: what a part must withstand, what its rating allows, and the comparison of the two in words."""

import dataclasses
from dataclasses import dataclass

from ...circuit.excerpt import excerpt
from ...circuit.fields import about, check, check_text, documented, quantity, spec_of
from ...circuit.values import show

PROVENANCES = (
    "read in makers' data sheets",
    "restated by others",
    "value from memory",
    "typical practice, no source",
    "the learner's own data sheet",
    "measured on the learner's own bench",
)
MAKERS_SHEET, SECOND_HAND, MEMORY, PRACTICE, OWN_DATA_SHEET, OWN_BENCH = PROVENANCES


@documented
@dataclass(frozen=True)
class Stress:
    """What a part must withstand; what is left out is not asked.

    Raises
    ------
    ValueError
        For a value out of range, or if nothing at all is asked.
    """

    voltage: float | None = quantity("V", 0, 1e5, None, none=True, meaning="greatest voltage, dc or peak")
    ac_voltage: float | None = quantity("V", 0, 1e5, None, none=True, meaning="rms voltage of the mains")
    power: float | None = quantity("W", 0, 1e4, None, none=True, meaning="mean power")
    current: float | None = quantity("A", 0, 1e3, None, none=True, meaning="mean current")
    surge: float | None = quantity("A", 0, 1e5, None, none=True, meaning="surge of half a sine, 8.3 ms")

    def __post_init__(self):
        check(self)
        if not self.demands:
            raise ValueError(f"Stress: nothing is asked; give at least one of {', '.join(MEANINGS)}")

    @property
    def demands(self) -> dict[str, float]:
        """What is asked, by name: {"voltage": 325.0, …}."""
        values = {field.name: getattr(self, field.name) for field in dataclasses.fields(self)}
        return {name: value for name, value in values.items() if value is not None}


_SPECS = {field.name: spec_of(field) for field in dataclasses.fields(Stress)}
MEANINGS = {name: spec.meaning for name, spec in _SPECS.items()}


@documented
@dataclass(frozen=True)
class Use:
    """How much of each rating is used, as a share of it.

    Raises
    ------
    ValueError
        For a share out of this range.
    """

    voltage: float = quantity("", 1e-3, 1, 1.0, meaning="share of the rated voltage that is used")
    power: float = quantity("", 1e-3, 1, 1.0, meaning="share of the rated power that is used")
    current: float = quantity("", 1e-3, 1, 1.0, meaning="share of the rated current that is used")

    def __post_init__(self):
        check(self)

    def of(self, rating: str) -> float:
        """The share of one rating, by its name in `Stress`."""
        shares = {"voltage": self.voltage, "ac_voltage": self.voltage, "power": self.power, "current": self.current}
        return shares.get(rating, 1.0)


AS_RATED = Use()
# Half of the power, four fifths of the voltage: common derating practice, value from memory.
COMMON_USE = Use(voltage=0.8, power=0.5)


@documented
@dataclass(frozen=True)
class Kind:
    """A kind of part with ratings; each class of parts derives from it."""

    name: str
    source: str = about("Where its figures come from.")
    provenance: str = about("How its figures are known, one of `PROVENANCES`.")

    def __post_init__(self):
        check(self)
        check_text(self, "name", 60)
        if self.provenance not in PROVENANCES:
            raise ValueError(
                f"{type(self).__name__}.provenance: {excerpt(self.provenance)} is none of {'; '.join(PROVENANCES)}"
            )

    @property
    def ratings(self) -> dict[str, float]:
        """What it withstands by itself, by the names of `Stress`, SI units."""
        raise NotImplementedError

    def shortfalls(self, stress: Stress, use: Use = AS_RATED) -> tuple[str, ...]:
        """What of a stress this kind does not withstand, one sentence each; empty if it withstands it all.

        Raises
        ------
        ValueError
            If something is asked that this kind has no rating for.
        """
        ratings, sentences = self.ratings, []
        for name, demand in stress.demands.items():
            if name not in ratings:
                raise ValueError(
                    f"Stress.{name}: no such rating is kept for {self.name}; there is {', '.join(ratings)}"
                )
            unit, share = _SPECS[name].unit, use.of(name)
            allowed = share * ratings[name]
            if demand > allowed:
                part = "" if share == 1 else f", {100 * share:.3g} % of the {show(ratings[name], unit)} rated"
                words = f"{self.name} is allowed {show(allowed, unit)}{part}"
                sentences.append(f"{MEANINGS[name].capitalize()}: {show(demand, unit)} is asked, {words}.")
        return tuple(sentences)

    def withstands(self, stress: Stress, use: Use = AS_RATED) -> bool:
        """Whether the ratings, or the shares of them in use, cover a stress."""
        return not self.shortfalls(stress, use)
