"""Harmonics: IEC 61000-3-2:2018 (edition 5) on the currents that lighting equipment may draw.

Nothing is limited below 5 W, nor on a mains of less than 220 V nominal. From 5 W to 25 W any one of three ways will do:
(a) milliamperes for each watt, (b) a third and fifth harmonic and the shape of the current, (c) a distortion and some
harmonics. Above 25 W a table holds. The figures of (c) are values from memory, and so is the rule that leaves small
currents out. Above 25 W the third harmonic is limited to 30 % times the power factor,
as older printings have it (read in a test report); the amended one of 2020 has 27 % (value from memory). No lamp of the
kind that is dealt with here gets so far.
"""

import math
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from ..circuit.fields import about, documented
from ..circuit.values import show
from .shape import current_shape
from .verdict import Verdict, number

STANDARD = "IEC 61000-3-2:2018"
LEAST_POWER, BORDER = 5.0, 25.0  # W
LEAST_VOLTAGE = 220.0  # V nominal, line to neutral
HIGHEST_ORDER = 39  # the highest that is limited; the distortion counts 40 too
_HIGH = range(13, HIGHEST_ORDER + 1, 2)
_PER_WATT = {3: 3.4e-3, 5: 1.9e-3, 7: 1.0e-3, 9: 0.5e-3, 11: 0.35e-3} | {n: 3.85e-3 / n for n in _HIGH}  # A/W
_WAY_B = {3: 86.0, 5: 61.0}
_WAY_C = {2: 5.0, 3: 35.0, 5: 25.0, 7: 30.0, 9: 20.0, 11: 20.0}
_TABLE = {2: 2.0, 5: 10.0, 7: 7.0, 9: 5.0, 11: 3.0} | dict.fromkeys(_HIGH, 3.0)
_THIRD = 30.0  # % times the power factor
_DISTORTION = 70.0
_SMALL, _SMALL_SHARE = 5e-3, 0.006  # A, and of the line current: no more than the greater of the two is left out


@documented
@dataclass(frozen=True)
class LimitSet:
    """Limits that hold together."""

    name: str = about('"a", "b" or "c", of which one will do; "table" above 25 W.')
    unit: str = about('"A", or "%" of the fundamental current.')
    limits: dict = about("By order, in that unit.")
    distortion: float | None = about("Greatest total harmonic distortion, %.", default=None)
    shape: bool = about("The current's shape is asked for too.", default=False)


@documented
@dataclass(frozen=True, repr=False)
class Check(Verdict):
    """Verdict on one set of limits."""

    name: str = about("Of the set: see `LimitSet`.")
    ratio: float = about("The greatest value over its limit.")
    over: tuple = about("The orders above their limits.", default=())

    def __repr__(self) -> str:
        return f"<{self.name}: {self.word}, {self.ratio:.3g} times its limit at most>"


@documented
@dataclass(frozen=True, repr=False)
class HarmonicVerdict(Verdict):
    """Verdict on a current."""

    checks: tuple = about("One `Check` for each set of limits.", default=())


def harmonic_limits(power: float, nominal_voltage: float, power_factor: float | None = None) -> tuple[LimitSet, ...]:
    """The limits for a lamp: one set, or three of which one will do, or none.

    Parameters
    ----------
    power
        W, real, 0 or more.
    nominal_voltage
        V rms, of the mains, line to neutral.
    power_factor
        0 to 1, of the lamp's circuit; asked for above 25 W.

    Returns
    -------
    tuple of LimitSet
        Empty where nothing is limited.

    Raises
    ------
    ValueError
        For values out of these ranges.

    Source: IEC 61000-3-2:2018, 7.4; (c) and the shape in (b) value from memory.

    Examples
    --------
    >>> [limits.name for limits in harmonic_limits(12, 230)]
    ['a', 'b', 'c']
    >>> harmonic_limits(12, 120), harmonic_limits(4.9, 230)
    ((), ())
    """
    power = number("power", power, "W", 0)
    if number("nominal_voltage", nominal_voltage, "V", 0, above=True) < LEAST_VOLTAGE or power < LEAST_POWER:
        return ()
    if power <= BORDER:
        return (
            LimitSet("a", "A", {order: per_watt * power for order, per_watt in _PER_WATT.items()}),
            LimitSet("b", "%", dict(_WAY_B), shape=True),
            LimitSet("c", "%", dict(_WAY_C), distortion=_DISTORTION),
        )
    if power_factor is None:
        raise ValueError(f"power_factor: is missing; above {BORDER:g} W the third harmonic's limit depends on it")
    third = _THIRD * number("power_factor", power_factor, "", 0, 1, above=True)
    return (LimitSet("table", "%", dict(sorted((_TABLE | {3: third}).items()))),)


def harmonic_verdict(
    harmonic_currents: np.ndarray,
    power: float,
    nominal_voltage: float,
    power_factor: float | None = None,
    waveform: np.ndarray | None = None,
) -> HarmonicVerdict:
    """Whether a lamp's harmonic currents are within the limits, and what is over by how much.

    Harmonics of less than 5 mA, or 0.6 % of the line current if that is more, are left out (value
    from memory); the distortion counts all of them.

    Parameters
    ----------
    harmonic_currents
        A rms (or complex), index is the order; 39 or 40 orders.
    power
        W, real, 0 or more.
    nominal_voltage
        V rms, of the mains, line to neutral.
    power_factor
        0 to 1; asked for above 25 W.
    waveform
        Line current as `current_shape` takes it; without it way (b) may be left unjudged.

    Returns
    -------
    HarmonicVerdict
        "within", "over", "no limit", or "not judged" where it hangs on a shape that was not given.

    Raises
    ------
    ValueError
        For values out of these ranges.

    Examples
    --------
    >>> currents = np.zeros(41)
    >>> currents[[1, 3]] = 0.1, 0.06
    >>> verdict = harmonic_verdict(currents, 12, 230)
    >>> [(check.name, check.word) for check in verdict.checks]
    [('a', 'over'), ('b', 'not judged'), ('c', 'over')]
    """
    sets = harmonic_limits(power, nominal_voltage, power_factor)
    if not sets:
        why = (
            f"below {LEAST_POWER:g} W lighting equipment has no limits of harmonic current"
            if nominal_voltage >= LEAST_VOLTAGE
            else f"no limits are set for a mains below {LEAST_VOLTAGE:g} V nominal"
        )
        words = f"At {show(float(power), 'W')} on {show(float(nominal_voltage), 'V')}: {why} ({STANDARD})."
        return HarmonicVerdict("no limit", words, STANDARD)
    currents = np.abs(np.asarray(harmonic_currents))
    if currents.ndim != 1 or len(currents) <= HIGHEST_ORDER or not np.isfinite(currents).all():
        raise ValueError(
            f"harmonic_currents: shape {currents.shape}; needs finite values of the orders 0 to {HIGHEST_ORDER} or more"
        )
    if currents[1] == 0:
        raise ValueError(f"harmonic_currents: no fundamental flows, yet the power is {show(float(power), 'W')}")
    checks = tuple(_check(limits, currents, waveform) for limits in sets)
    outcomes = {check.word for check in checks}
    word = next(outcome for outcome in ("within", "not judged", "over") if outcome in outcomes)
    if len(checks) == 1:
        head = f"Above {BORDER:g} W the table holds ({STANDARD})."
    else:
        met = next((f"({check.name}) is met" for check in checks if check.word == "within"), "none is seen to be met")
        head = f"From {LEAST_POWER:g} to {BORDER:g} W one of three ways will do ({STANDARD}): {met}."
    return HarmonicVerdict(word, " ".join([head, *(check.words for check in checks)]), STANDARD, checks)


class _Term(NamedTuple):
    """One value against its limit; the order is None for the distortion."""

    ratio: float
    name: str
    value: float
    limit: float
    order: int | None


def _terms(limits, currents, small):
    scale = 1.0 if limits.unit == "A" else 100 / currents[1]
    for order, limit in limits.limits.items():
        if currents[order] >= small:
            value = float(scale * currents[order])
            yield _Term(value / limit, f"{_ordinal(order)} harmonic", value, limit, order)
    if limits.distortion:
        value = float(100 * np.sqrt((currents[2:41] ** 2).sum()) / currents[1])
        yield _Term(value / limits.distortion, "distortion", value, limits.distortion, None)


def _check(limits, currents, waveform):
    title = "The table" if limits.name == "table" else f"({limits.name})"
    small = max(_SMALL, _SMALL_SHARE * math.sqrt(float((currents**2).sum())))
    terms = sorted(_terms(limits, currents, small), key=lambda term: -term.ratio)
    over = [term for term in terms if term.ratio > 1]
    ratio = terms[0].ratio if terms else 0.0

    def check(word, words):
        orders = tuple(sorted(term.order for term in over if term.order))
        return Check(word, f"{title} {words}.", STANDARD, limits.name, ratio, orders)

    if over:
        worst, *others = over
        value, limit = (_text(amount, limits.unit) for amount in (worst.value, worst.limit))
        too = f"; over too: {', '.join(term.name for term in others)}" if others else ""
        times = f"{worst.ratio:.3g} times the {limit} allowed"
        return check("over", f"is not met: the {worst.name} is {value}, {times}{too}")
    nearest = f"every harmonic is below {show(small, 'A')}, too small to count"
    if terms:
        value, limit = (_text(amount, limits.unit) for amount in (terms[0].value, terms[0].limit))
        nearest = f"the {terms[0].name} comes nearest, {value} of {limit} allowed"
    if not limits.shape:
        return check("within", f"is met: {nearest}")
    if waveform is None:
        return check("not judged", f"is not judged: {nearest}, but the shape of the current was not given")
    shape = current_shape(waveform)
    if not shape.met:
        return check("over", f"is not met: {shape.words}")
    return check("within", f"is met: {nearest}; {shape.words}")


def _text(value, unit):
    return f"{value:.3g} %" if unit == "%" else show(value, unit)


def _ordinal(order):
    teens = 11 <= order % 100 <= 13
    return f"{order}{'th' if teens else {1: 'st', 2: 'nd', 3: 'rd'}.get(order % 10, 'th')}"
