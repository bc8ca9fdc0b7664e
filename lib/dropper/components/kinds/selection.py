"""Selection of the next part up that withstands a stress, and of resistors in series where one will not do."""

import itertools
from dataclasses import dataclass

from ...circuit.excerpt import excerpt
from ...circuit.fields import about, documented
from ...circuit.series import preferred
from ...circuit.values import show
from .capacitors import DC_FILM, ELECTROLYTICS, X1, X2
from .diodes import RECTIFIERS
from .rating import AS_RATED, Kind, Stress, Use
from .resistors import CARBON_FILM, CHIP, FILM, FUSIBLE, Resistor

# Within a family parts go up: by watts, then by volts.
FAMILIES = {
    "carbon film resistor": CARBON_FILM,
    "film resistor": FILM,
    "fusible resistor": FUSIBLE,
    "chip resistor": CHIP,
    "rectifier diode": RECTIFIERS,
    "X1 capacitor": X1,
    "X2 capacitor": X2,
    "dc film capacitor": DC_FILM,
    "electrolytic": ELECTROLYTICS,
}
_MOST = 100  # in series


def next_up(kind: str, stress: Stress, use: Use = AS_RATED) -> Kind:
    """The first part of a family, going up, that withstands a stress.

    Parameters
    ----------
    kind
        A family, one of `FAMILIES`.
    use
        Shares of the ratings that are used; `COMMON_USE` leaves the margins of common practice.

    Returns
    -------
    Kind
        The part; every part before it in the family falls short of something.

    Raises
    ------
    ValueError
        For a family that is not kept here, a stress it has no rating for, or one that none of it withstands.

    Examples
    --------
    >>> next_up("rectifier diode", Stress(voltage=325)).name
    '1N4004'
    >>> next_up("X2 capacitor", Stress(ac_voltage=253)).name
    'X2 film, 275 V ac'
    """
    if kind not in FAMILIES:
        raise ValueError(f"kind: {excerpt(kind)} is not kept here; there are {'; '.join(FAMILIES)}")
    family = FAMILIES[kind]
    for member in family:
        if member.withstands(stress, use):
            return member
    nearest = min(family, key=lambda part: len(part.shortfalls(stress, use)) + family.index(part) * -1e-3)
    words = " ".join(nearest.shortfalls(stress, use))
    several = " Several in series share volts and watts: see chain." if isinstance(nearest, Resistor) else ""
    raise ValueError(f"{kind}: none kept here stands this. {words}{several}")


def part(name: str) -> Kind:
    """A part by its name, from any family.

    Parameters
    ----------
    name
        For instance "1N4007" or "carbon film 1/4 W".

    Raises
    ------
    ValueError
        If none is kept here under that name.

    Examples
    --------
    >>> part("1N4007").reverse_voltage
    1000.0
    """
    parts = list(itertools.chain.from_iterable(FAMILIES.values()))
    for member in parts:
        if member.name == name:
            return member
    raise ValueError(
        f"name: {excerpt(name)} is no part kept here; there are {'; '.join(member.name for member in parts)}"
    )


@documented
@dataclass(frozen=True)
class Chain:
    """Resistors of one kind and one value in series."""

    part: Resistor
    count: int
    resistance_each: float = about("resistance of each, a preferred value of series E24", "Ω")

    def __repr__(self) -> str:
        return f"<{self.count} of {self.part.name}, each {show(self.resistance_each, 'Ω')}>"

    @property
    def resistance(self) -> float:
        """All together, Ω."""
        return self.count * self.resistance_each

    @property
    def words(self) -> str:
        """The chain in a sentence."""
        if self.count == 1:
            return f"One {self.part.name} of {show(self.resistance_each, 'Ω')} does."
        total = show(self.resistance, "Ω")
        return f"{self.count} of {self.part.name}, each {show(self.resistance_each, 'Ω')}, in series: {total} together."


def chain(part: Resistor, resistance: float, stress: Stress, use: Use = AS_RATED) -> Chain:
    """The fewest resistors of one kind that together withstand a stress and are no more than some ohms.

    Each takes its share of volts and watts. The value of each is the preferred one at or below its share of the ohms,
    so that a bleeder made of them empties no slower; the few watts more that this costs are counted.

    Parameters
    ----------
    resistance
        Ω, the most that the chain may be, 1 Ω to 1 GΩ.
    stress
        Voltage and power, or one of them, of a single resistor of these ohms in its place.
    use
        Shares of the ratings that are used.

    Raises
    ------
    ValueError
        For ohms out of range, a stress that is not shared in series, or if a hundred are too few.

    Examples
    --------
    >>> from dropper.components.kinds import CARBON_FILM
    >>> chain(CARBON_FILM[2], 1e6, Stress(voltage=325, power=0.053)).words
    '2 of carbon film 1/4 W, each 470 kΩ, in series: 940 kΩ together.'
    """
    if not isinstance(part, Resistor):
        raise ValueError(
            f"part: {excerpt(getattr(part, 'name', part))} is no resistor; diodes and capacitors in series do not"
            " share evenly by themselves"
        )
    if isinstance(resistance, bool) or not isinstance(resistance, int | float) or not 1 <= resistance <= 1e9:
        raise ValueError(f"resistance: {excerpt(resistance)} Ω will not do; allowed is 1 Ω to 1 GΩ")
    part.shortfalls(stress, use)  # complains of what a resistor has no rating for
    for count in range(1, _MOST + 1):
        share = resistance / count
        value = preferred(24, share / 2, share)[-1]
        watts = None if stress.power is None else stress.power * resistance / (count * value) / count
        volts = None if stress.voltage is None else stress.voltage / count
        if part.withstands(Stress(voltage=volts, power=watts), use):
            return Chain(part, count, value)
    raise ValueError(f"part: {_MOST} of {part.name} in series do not stand this; take a kind for more")
