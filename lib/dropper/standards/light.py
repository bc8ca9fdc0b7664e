"""Light: how deep that of LEDs may waver at a frequency, IEEE 1789-2015.

Recommended practice on modulating the current of high-brightness LEDs, clause 8.1. Its modulation is percent
flicker. It recommends, it does not oblige; figures to 1250 Hz and 3000 Hz as restated, what lies above: value from
memory.
"""

from ..circuit.values import show
from .verdict import Verdict, number

STANDARD = "IEEE 1789-2015"
# Hz up to which a slope holds, and the slope in per cent a hertz.
_LOW_RISK = ((90.0, 0.025), (1250.0, 0.08))
_NO_EFFECT = ((90.0, 0.01), (3000.0, 0.0333))
_FULL = 100.0  # %: percent flicker cannot be more, so this restricts nothing


def low_risk_modulation(frequency: float) -> float:
    """Greatest percent flicker of the low-risk range.

    0.025·f per cent below 90 Hz, 0.08·f from 90 to 1250 Hz, no restriction above.

    Parameters
    ----------
    frequency
        Hz, of the light (a bridge: twice that of the mains), above 0.

    Returns
    -------
    float
        Per cent; 100 where nothing is restricted.

    Raises
    ------
    ValueError
        For a frequency that is not a number above 0.

    Source: IEEE 1789-2015, 8.1.1; above 1250 Hz value from memory.

    Examples
    --------
    >>> low_risk_modulation(100), low_risk_modulation(40), low_risk_modulation(2000)
    (8.0, 1.0, 100.0)
    """
    return _limit(_LOW_RISK, frequency)


def no_effect_modulation(frequency: float) -> float:
    """Greatest percent flicker for which no effect on people was found to be observable.

    0.01·f per cent below 90 Hz, 0.0333·f from 90 to 3000 Hz, no restriction above.

    Parameters
    ----------
    frequency
        Hz, of the light (a bridge: twice that of the mains), above 0.

    Returns
    -------
    float
        Per cent; 100 where nothing is restricted.

    Raises
    ------
    ValueError
        For a frequency that is not a number above 0.

    Source: IEEE 1789-2015, 8.1.1; range and what lies above 3000 Hz value from memory.

    Examples
    --------
    >>> round(no_effect_modulation(100), 2), no_effect_modulation(40), no_effect_modulation(4000)
    (3.33, 0.4, 100.0)
    """
    return _limit(_NO_EFFECT, frequency)


def modulation_verdict(percent_flicker: float, frequency: float) -> Verdict:
    """What the recommendation says of a light.

    Parameters
    ----------
    percent_flicker
        Per cent, 0 to 100.
    frequency
        Hz, of the light's main swing, above 0.

    Returns
    -------
    Verdict
        "no effect", "low risk" or "over".

    Raises
    ------
    ValueError
        For values out of these ranges.

    Examples
    --------
    >>> modulation_verdict(6, 100).word
    'low risk'
    """
    depth = number("percent_flicker", percent_flicker, "%", 0, 100)
    low, none = low_risk_modulation(frequency), no_effect_modulation(frequency)
    place = f"{show(frequency, 'Hz')} the light wavers by {depth:.3g} %"
    if depth <= none:
        word, rest = "no effect", f"no more than the {none:.3g} % without observable effect"
    elif depth <= low:
        word, rest = "low risk", f"over the {none:.3g} % without observable effect, within the {low:.3g} % of low risk"
    else:
        word, rest = "over", f"{depth / low:.3g} times the {low:.3g} % of low risk"
    return Verdict(word, f"At {place}, {rest} ({STANDARD}).", STANDARD)


def _limit(pieces, frequency):
    frequency = number("frequency", frequency, "Hz", 0, above=True)
    (border, slow), (last, fast) = pieces
    if frequency > last:
        return _FULL
    return (slow if frequency < border else fast) * frequency
