"""Touch verdicts: what rules say of volts that are left, and of a current through a protective impedance."""

from ..circuit.excerpt import excerpt
from ..circuit.values import show
from .touch import LARGEST_CAPACITANCE, MEMORY, TouchRule
from .verdict import Verdict, number

# A of protective impedance: IEC 60335-1, 8.1.4; and of energy class ES1: IEC 62368-1, Table 4. Both read.
_CURRENTS = (
    ("IEC 60335-1, 8.1.4", {"ac": 0.7e-3, "dc": 2e-3}),
    ("IEC 62368-1, Table 4, class ES1", {"ac": 0.707e-3, "dc": 2e-3}),
)


def residual_verdict(
    rule: TouchRule, left: float, rated_capacitance: float, capacitance: float, charge: float, peak_voltage: float
) -> Verdict:
    """What one rule says of the voltage that is left at its moment.

    Parameters
    ----------
    left
        V, left `rule.seconds` after unplugging.
    rated_capacitance, capacitance
        F, as marked, and with its tolerance added.
    charge
        C, held at the moment of unplugging.
    peak_voltage
        V, at that moment.

    Returns
    -------
    Verdict
        "within", "over", or "no limit" where the rule exempts it.

    Raises
    ------
    ValueError
        For values out of range.

    Examples
    --------
    >>> from dropper.standards import touch_rule
    >>> residual_verdict(touch_rule("household"), 100, 470e-9, 517e-9, 168e-6, 325).word
    'over'
    """
    left, peak = number("left", left, "V", 0), number("peak_voltage", peak_voltage, "V", 0, above=True)
    rated = number("rated_capacitance", rated_capacitance, "F", 0, LARGEST_CAPACITANCE, above=True)
    exemption = rule.exemption(rated, number("charge", charge, "C", 0), peak)
    head = f"{rule.standard}, for {rule.whom}"
    memory = " (value from memory)" if rule.provenance == MEMORY else ""
    if exemption:
        return Verdict("no limit", f"{head}: nothing is asked, {exemption}{memory}.", rule.standard)
    limit = rule.limit_for(number("capacitance", capacitance, "F", 0, LARGEST_CAPACITANCE, above=True), peak)
    word = "within" if left <= limit else "over"
    words = f"{head}: {show(left, 'V')} left after {show(rule.seconds, 's')} is {word} the limit of {show(limit, 'V')}"
    return Verdict(word, f"{words}{memory}.", rule.standard)


def touch_current_verdicts(current: float, kind: str) -> tuple[Verdict, ...]:
    """What two standards say of a current through a protective impedance to a part that can be reached.

    Parameters
    ----------
    current
        A: the peak for ac, the mean for dc; 0 or more.
    kind
        "ac" or "dc".

    Returns
    -------
    tuple of Verdict
        "within" or "over"; IEC 60335-1, 8.1.4 first, then IEC 62368-1, Table 4, class ES1.

    Raises
    ------
    ValueError
        For a current below 0 or another kind.

    Source: IEC 60335-1, 8.1.4: 0.7 mA peak ac, 2 mA dc; IEC 62368-1, Table 4: 0.707 mA peak, 2 mA dc (all read). A
    dropper is no protective impedance: its bridge ties everything behind it to the mains.

    Examples
    --------
    >>> [verdict.word for verdict in touch_current_verdicts(0.703e-3, "ac")]
    ['over', 'within']
    """
    if kind not in ("ac", "dc"):
        raise ValueError(f"kind: {excerpt(kind)} will not do; choose ac (then the current is the peak) or dc")
    amperes = number("current", current, "A", 0)
    verdicts = []
    for standard, limits in _CURRENTS:
        word = "within" if amperes <= limits[kind] else "over"
        what = f"{show(amperes, 'A')} {'peak ac' if kind == 'ac' else 'dc'}"
        words = f"{standard}: {what} is {word} the limit of {show(limits[kind], 'A')}."
        verdicts.append(Verdict(word, words, standard))
    return tuple(verdicts)
