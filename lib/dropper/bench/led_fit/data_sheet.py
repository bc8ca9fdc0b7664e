"""Data sheet: an LED as the learner's own data sheet states it."""

from ...circuit.excerpt import excerpt
from ...circuit.fields import check_value, spec_of
from ...circuit.lamp import THERMAL_VOLTAGE, Led
from ...circuit.values import show
from ...components.kinds import LedKind
from ...components.kinds.led import REVERSE_LIMIT
from ...components.kinds.rating import OWN_DATA_SHEET

IDEALITY = 2.0  # of each junction; typical practice, no source
COEFFICIENT = -2e-3  # V/K of each junction; typical practice, no source
DROPPED = 0.2  # V that the series resistance drops at the current limit, each junction; typical practice, no source
_AMPS = spec_of(Led.__dataclass_fields__["at_current"])
_VOLTS = spec_of(Led.__dataclass_fields__["forward_voltage"])


def from_sheet(
    name: str,
    typical: float,
    at_current: float,
    *,
    current_limit: float,
    least: float | None = None,
    greatest: float | None = None,
    coefficient: float | None = None,
    second: tuple[float, float] | None = None,
    junctions: int = 1,
    reverse_limit: float | None = None,
) -> LedKind:
    """A kind of LED from the learner's own data sheet.

    Parameters
    ----------
    typical
        V, typical forward voltage at `at_current` and 25 °C.
    at_current
        A.
    current_limit
        A, greatest steady current.
    least, greatest
        V, least and greatest forward voltage; the typical one where the data sheet has none.
    coefficient
        V/K for each junction, below zero. Left out: −2 mV/K, typical practice.
    second
        V and A of a second point of the typical curve, far from the first, as the data sheet's graph has it: it tells
        the series resistance. Left out: the resistance drops 0.2 V at the current limit, typical practice.
    junctions
        In series inside the package.
    reverse_limit
        V. Left out: 5 V, as makers' data sheets have it.

    Returns
    -------
    LedKind
        `provenance_of` tells of each figure whether the data sheet stated it.

    Raises
    ------
    ValueError
        Names the figure that is out of range or does not go with the others.

    Examples
    --------
    >>> kind = from_sheet("shop white", 3.1, 0.020, current_limit=0.030, least=2.8, greatest=3.4, second=(2.84, 0.005))
    >>> round(kind.series_resistance, 1), kind.provenance_of("greatest"), kind.provenance_of("coefficient")
    (12.6, "the learner's own data sheet", 'typical practice, no source')
    """
    given = {
        "typical": typical,
        "at_current": at_current,
        "current_limit": current_limit,
        "least": least,
        "greatest": greatest,
        "coefficient": coefficient,
        "reverse_limit": reverse_limit,
        "junctions": None if junctions == 1 else junctions,
    }
    ideality, source_figures = IDEALITY, [figure for figure, value in given.items() if value is not None]
    if second is None:
        ohms = DROPPED * junctions / check_value("current_limit", current_limit, _AMPS)
    else:
        ohms, ideality = _from_points(typical, at_current, second, junctions)
        source_figures += ["series_resistance", "ideality"] if ideality != IDEALITY else ["series_resistance"]
    return LedKind(
        name,
        typical,
        typical if least is None else least,
        typical if greatest is None else greatest,
        at_current,
        current_limit,
        junctions,
        COEFFICIENT if coefficient is None else coefficient,
        ohms,
        "the learner's own data sheet; what it does not state is typical practice",
        OWN_DATA_SHEET,
        REVERSE_LIMIT if reverse_limit is None else reverse_limit,
        tuple(source_figures),
        ideality,
    )


def _from_points(typical, at_current, second, junctions):
    """Series resistance, and ideality of each junction, from two points of the curve."""
    from ... import theory

    try:
        volts, amps = second
    except (TypeError, ValueError):
        raise ValueError(f"second: {excerpt(second)} is not (volts, amperes) of a second point of the curve") from None
    volts, amps = check_value("second, volts", volts, _VOLTS), check_value("second, amperes", amps, _AMPS)
    typical = check_value("typical", typical, _VOLTS)
    at_current = check_value("at_current", at_current, _AMPS)
    points = f"{show(typical, 'V')} at {show(at_current, 'A')} and {show(volts, 'V')} at {show(amps, 'A')}"
    if max(amps, at_current) < 1.5 * min(amps, at_current):
        raise ValueError(f"second: {points} lie too near each other; read one at half the current or less")
    if (volts - typical) * (amps - at_current) <= 0:
        raise ValueError(f"second: {points}: more current has to go with more volts")
    known = {
        "junction_voltage": volts,
        "junction_current": amps,
        "forward_voltage": typical,
        "at_current": at_current,
        "thermal_voltage": THERMAL_VOLTAGE,
    }
    ohms = theory.series_resistance_of_points(**known, ideality=IDEALITY * junctions)
    if ohms >= 0:
        return ohms, IDEALITY
    # The curve is flatter than that: no resistance is left, and the logarithm takes it all.
    ideality = theory.ideality_of_points(**known, series_resistance=0.0) / junctions
    if ideality < 1:
        raise ValueError(
            f"second: {points} lie so flat that no junction does it (ideality {ideality:.2g}, the least is 1); was one"
            " of them read off another curve?"
        )
    return 0.0, ideality
