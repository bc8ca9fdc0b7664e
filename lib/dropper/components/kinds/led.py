"""LED: one kind of it, with forward voltage, its spread, current limit, and what warmth does to the voltage."""

import dataclasses
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Self

from ...circuit.excerpt import excerpt
from ...circuit.fields import about, check, check_text, documented, quantity, spec_of
from ...circuit.lamp import Led
from ...circuit.values import show
from .rating import MAKERS_SHEET, PRACTICE, PROVENANCES

_KEYS = {"provenance": "had", "source_figures": "stated"}  # field -> its key in files
REVERSE_LIMIT = 5.0  # V, makers' data sheets: a bridge keeps an LED from more, a bare string on ac does not


@documented
@dataclass(frozen=True)
class LedKind:
    """A kind of LED.

    Raises
    ------
    ValueError
        For a value out of range, or least, typical and greatest out of order.
    """

    name: str
    typical: float = quantity("V", 0.5, 100, meaning="typical forward voltage")
    least: float = quantity("V", 0.5, 100, meaning="least forward voltage")
    greatest: float = quantity("V", 0.5, 100, meaning="greatest forward voltage")
    at_current: float = quantity("A", 1e-5, 10, meaning="the current it is stated at")
    current_limit: float = quantity("A", 1e-5, 10, meaning="greatest steady current")
    junctions: int = quantity("", 1, 40, meaning="junctions in series in one package", whole=True)
    coefficient: float = quantity("V/K", -0.1, 0, meaning="change of a junction's voltage with temperature")
    series_resistance: float = quantity("Ω", 0, 1000, meaning="resistance in series with the junctions")
    source: str = about("Where the figures in `source_figures` come from.")
    provenance: str = about("How the figures in `source_figures` are known, one of `PROVENANCES`.")
    reverse_limit: float = quantity("V", 0.1, 100, REVERSE_LIMIT, meaning="greatest reverse voltage")
    source_figures: tuple = about(
        "The figures, by the names of these fields, that the source states; the others are typical practice.",
        default=(),
    )
    ideality: float = quantity("", 1, 20, 2.0, meaning="ideality of each junction")

    def __post_init__(self):
        check(self)
        check_text(self, "name", 60)
        if not self.least <= self.typical <= self.greatest:
            voltages = ", ".join(show(volts, "V") for volts in (self.least, self.typical, self.greatest))
            raise ValueError(f"LedKind: {voltages} are not least, typical and greatest forward voltage in this order")
        if not self.at_current <= self.current_limit:
            currents = f"{show(self.at_current, 'A')} and {show(self.current_limit, 'A')}"
            raise ValueError(f"LedKind: {currents} are not a stated current and a limit no less than that")
        if self.provenance not in PROVENANCES:
            raise ValueError(f"LedKind.provenance: {excerpt(self.provenance)} is none of {'; '.join(PROVENANCES)}")
        if not isinstance(self.source_figures, tuple | list):
            raise ValueError(
                f"LedKind.source_figures: {excerpt(self.source_figures)} is no list of figures,"
                " such as ('typical', 'least')"
            )
        for figure in self.source_figures:
            if figure not in FIGURES:
                raise ValueError(
                    f"LedKind.source_figures: {excerpt(figure)} is no figure of an LED; there are {', '.join(FIGURES)}"
                )

    def provenance_of(self, figure: str) -> str:
        """How one figure is known.

        Parameters
        ----------
        figure
            One of `FIGURES`: "typical", "current_limit", …

        Returns
        -------
        str
            One of `PROVENANCES`.

        Raises
        ------
        ValueError
            For a name that is no figure of an LED.

        Examples
        --------
        >>> from dropper.components.kinds import led_kind
        >>> led_kind("blue, 5 mm").provenance_of("typical"), led_kind("blue, 5 mm").provenance_of("least")
        ("read in makers' data sheets", 'typical practice, no source')
        """
        if figure not in FIGURES:
            raise ValueError(f"figure: {excerpt(figure)} is no figure of an LED; there are {', '.join(FIGURES)}")
        if figure in self.source_figures:
            return self.provenance
        return MAKERS_SHEET if figure == "reverse_limit" and self.reverse_limit == REVERSE_LIMIT else PRACTICE

    def to_record(self) -> dict[str, object]:
        """Its fields under the keys that files have for them."""
        fields = dataclasses.asdict(self)
        return {_KEYS.get(name, name): value for name, value in fields.items()}

    @classmethod
    def from_record(cls, record: Mapping[str, object]) -> Self:
        """A kind from such a record.

        Raises
        ------
        TypeError
            For a key that is missing or unknown.
        ValueError
            For a value out of range.
        """
        names = {key: name for name, key in _KEYS.items()}
        if unknown := [key for key in record if key in _KEYS]:
            raise TypeError(f"unknown: {', '.join(unknown)}")
        fields = {names.get(key, key): value for key, value in record.items()}
        return cls(**fields | {"source_figures": tuple(fields.get("source_figures", ()))})

    @classmethod
    def keys(cls) -> tuple[str, ...]:
        """The keys of such a record."""
        return tuple(_KEYS.get(field.name, field.name) for field in dataclasses.fields(cls))

    def led(self, which: str = "typical") -> Led:
        """One of these LEDs as a lamp takes it.

        Parameters
        ----------
        which
            "typical", "least" or "greatest" forward voltage.

        Raises
        ------
        ValueError
            For any other word.
        """
        if which not in ("typical", "least", "greatest"):
            raise ValueError(f"which: {excerpt(which)} will not do; choose typical, least or greatest")
        return Led(getattr(self, which), self.at_current, self.series_resistance, self.ideality * self.junctions)


FIGURES = tuple(field.name for field in dataclasses.fields(LedKind) if spec_of(field))
