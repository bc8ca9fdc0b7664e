"""Ecodesign: Regulation (EU) 2019/2020, Annex II, Table 4: displacement factor, flicker, stroboscopic effect.

With amendment (EU) 2021/341. Scope: white light of 60 lm to 82 000 lm. The day of the month is a value from memory,
and so are the exceptions for the stroboscopic effect: outdoor and industrial light, and places where colours may be
rendered less well.
"""

import datetime
import math

from ..circuit.excerpt import excerpt
from ..circuit.values import show
from .verdict import Verdict, number

STANDARD = "Regulation (EU) 2019/2020"
# W up to which, the border included, and the least displacement factor there.
_DISPLACEMENT = ((5.0, None), (10.0, 0.5), (25.0, 0.7), (math.inf, 0.9))
_APPLIES = datetime.date(2021, 9, 1)
_VISIBILITY = ((datetime.date(2024, 9, 1), 0.4), (_APPLIES, 0.9))  # latest first
_SHORT_TERM = ((_APPLIES, 1.0),)


def least_displacement_factor(power: float) -> float | None:
    """Least displacement factor cos φ1 of a light source on the mains.

    None up to 5 W; 0.5 above 5 W to 10 W; 0.7 above 10 W to 25 W; 0.9 above 25 W.

    Parameters
    ----------
    power
        W, real, at full load; 0 or more.

    Returns
    -------
    float or None
        None where nothing is asked. Leading or lagging makes no difference.

    Raises
    ------
    ValueError
        For a power that is not a number from 0 up.

    Source: Regulation (EU) 2019/2020, Annex II, Table 4.

    Examples
    --------
    >>> least_displacement_factor(5), least_displacement_factor(5.1), least_displacement_factor(25.1)
    (None, 0.5, 0.9)
    """
    power = number("power", power, "W", 0)
    return next(least for border, least in _DISPLACEMENT if power <= border)


def displacement_verdict(power: float, displacement_factor: float) -> Verdict:
    """What the regulation says of a lamp's displacement factor.

    Parameters
    ----------
    power
        W, real, 0 or more.
    displacement_factor
        cos φ1 of the current's fundamental, -1 to 1; nan when no current flows.

    Returns
    -------
    Verdict
        "within", "below", "no limit", or "not judged" when no current flows.

    Raises
    ------
    ValueError
        For values out of these ranges.

    Examples
    --------
    >>> displacement_verdict(12, 0.3).words
    'At 12 W 0.3 is 0.4 short of the 0.7 asked for (Regulation (EU) 2019/2020).'
    """
    least = least_displacement_factor(power)
    at = f"At {show(float(power), 'W')}"
    if least is None:
        words = f"{at} no displacement factor is asked for: that begins above 5 W"
        return Verdict("no limit", f"{words} ({STANDARD}).", STANDARD)
    if displacement_factor != displacement_factor:
        return Verdict("not judged", f"{at} no current is known, so no displacement factor either.", STANDARD)
    factor = number("displacement_factor", displacement_factor, "", -1, 1)
    if factor >= least:
        return Verdict("within", f"{at} {factor:.3g} is no less than the {least:g} asked for ({STANDARD}).", STANDARD)
    words = f"{at} {factor:.3g} is {least - factor:.2g} short of the {least:g} asked for ({STANDARD})."
    return Verdict("below", words, STANDARD)


def largest_stroboscopic_visibility(day: datetime.date) -> float | None:
    """Greatest stroboscopic visibility measure of LED light put on the market on a day.

    0.9 from September 2021, 0.4 from September 2024.

    Parameters
    ----------
    day
        When the light is put on the market.

    Returns
    -------
    float or None
        None before the regulation applied.

    Raises
    ------
    TypeError
        If it is not a date.

    Source: Regulation (EU) 2019/2020 with (EU) 2021/341, Annex II, Table 4.

    Examples
    --------
    >>> largest_stroboscopic_visibility(datetime.date(2024, 8, 31))
    0.9
    >>> largest_stroboscopic_visibility(datetime.date(2024, 9, 1))
    0.4
    """
    return _since(_VISIBILITY, day)


def largest_short_term_flicker(day: datetime.date) -> float | None:
    """Greatest PstLM of LED light put on the market on a day: 1.0 from September 2021.

    PstLM is about changes slower than some 80 Hz. A bridge on a steady mains makes none, so the
    workbook does not compute it.

    Parameters
    ----------
    day
        When the light is put on the market.

    Returns
    -------
    float or None
        None before the regulation applied.

    Raises
    ------
    TypeError
        If it is not a date.

    Source: Regulation (EU) 2019/2020, Annex II, Table 4.

    Examples
    --------
    >>> largest_short_term_flicker(datetime.date(2024, 9, 1))
    1.0
    """
    return _since(_SHORT_TERM, day)


def stroboscopic_verdict(visibility: float, day: datetime.date) -> Verdict:
    """What the regulation says of a light's stroboscopic visibility.

    Parameters
    ----------
    visibility
        The measure, 0 or more; nan when there is no light.
    day
        When the lamp is put on the market.

    Returns
    -------
    Verdict
        "within", "over", "no limit", or "not judged" when there is no light.

    Raises
    ------
    ValueError, TypeError
        For a value below 0, or no date.

    Examples
    --------
    >>> stroboscopic_verdict(0.6, datetime.date(2025, 1, 1)).word
    'over'
    """
    most = largest_stroboscopic_visibility(day)
    if most is None:
        words = f"On {day.isoformat()} no limit applied yet: it began in September 2021 ({STANDARD})."
        return Verdict("no limit", words, STANDARD)
    if visibility != visibility:
        return Verdict("not judged", "There is no light whose stroboscopic visibility could be judged.", STANDARD)
    visibility = number("visibility", visibility, "", 0)
    head = f"The stroboscopic visibility is {visibility:.3g}"
    if visibility <= most:
        return Verdict("within", f"{head}, no more than the {most:g} allowed ({STANDARD}).", STANDARD)
    return Verdict("over", f"{head}, {visibility / most:.3g} times the {most:g} allowed ({STANDARD}).", STANDARD)


def _since(steps, day):
    if isinstance(day, datetime.datetime) or not isinstance(day, datetime.date):
        raise TypeError(f"day: {excerpt(day)} is not a date; write datetime.date(2024, 9, 1)")
    return next((limit for first, limit in steps if day >= first), None)
