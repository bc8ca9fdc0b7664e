"""Prior: how often each fault is met, how large it is, what parts may be off, before anything is read."""

import math

import numpy as np

from ...circuit.excerpt import excerpt
from ...circuit.lamp import Lamp
from ...solver.transient import FAULTS, Fault

# Weights, one against another; None is the healthy lamp. Typical practice, no source: a film capacitor in this duty
# ages, electrolytics dry out, resistors and LEDs open; a short of two parts at once is rare.
WEIGHTS = {
    None: 12,
    ("lost", "dropper"): 30,
    ("open", "dropper"): 4,
    ("short", "dropper"): 1,
    ("open", "bleeder"): 3,
    ("short", "bleeder"): 0.5,
    ("open", "smoothing_bleeder"): 2,
    ("open", "inrush_resistor"): 8,
    ("short", "inrush_resistor"): 0.5,
    ("drifted", "inrush_resistor"): 4,
    ("open", "D1"): 2,
    ("short", "D1"): 5,
    ("short", "D1 and D2"): 1,
    ("short", "D1 and D3"): 1,
    ("open", "smoothing"): 2,
    ("dried out", "smoothing"): 8,
    ("leaky", "smoothing"): 3,
    ("short", "smoothing"): 2,
    ("open", "string"): 8,
    ("open", "LED"): 3,
    ("short", "group"): 5,
    ("short", "groups"): 3,
}
# In a hunt there is a fault, and the rarer ones come up more often than at a bench.
HUNT_WEIGHTS = {kind: 0.0 if kind is None else round(math.sqrt(weight), 3) for kind, weight in WEIGHTS.items()}
# Limits within which parts are good, a part of their value, and the mains as supplied. Half widths; taken as equally
# likely all over (JCGM 100:2008, 4.3.7; from memory). Mains: EN 50160 (from memory); parts: usual tolerances.
LIMITS = {"mains": 0.10, "dropper": 0.10, "forward": 0.05, "smoothing": 0.20}
RESISTOR_LIMIT = 0.05
SPREADS = {name: limit / math.sqrt(3) for name, limit in LIMITS.items()}
_ONE_LED = ("short", "LED")  # shorts its whole group: the same circuit as ("short", "group")


def kind_of(fault: Fault | None) -> tuple[str, ...]:
    """A fault's name in `WEIGHTS`; faults that make the same circuit have one name.

    Examples
    --------
    >>> kind_of(Fault("short", "D4"))
    ('short', 'D1')
    """
    if fault is None:
        return None
    kind = fault.kind, fault.part
    if kind == _ONE_LED or (kind == ("short", "groups") and fault.amount == 1):
        return "short", "group"
    twins = {"D2": "D1", "D3": "D1", "D4": "D1", "D3 and D4": "D1 and D2", "D2 and D4": "D1 and D3"}
    return fault.kind, twins.get(fault.part, fault.part)


def causes_of(lamp: Lamp) -> tuple:
    """The names of all causes that a lamp can have: None, and its faults once each.

    Examples
    --------
    >>> from dropper import Lamp, Led, LedString, Mains
    >>> lamp = Lamp(Mains(230, 50), LedString(Led(3.1, 0.02, 9.0), 22), 330e-9, 10e-6, 1e6, 220.0)
    >>> causes_of(lamp)[:3]
    (None, ('open', 'dropper'), ('short', 'dropper'))
    """
    kinds = [kind_of(fault) for fault in FAULTS if not fault.why_not(lamp) and (fault.kind, fault.part) != _ONE_LED]
    few = lamp.string.in_series < 3  # one short group is a cause of its own, and one must be left
    return (None, *(kind for kind in kinds if not (few and kind == ("short", "groups"))))


def weights_for(lamp: Lamp, changed: dict | None = None) -> dict:
    """Prior probability of each cause of a lamp.

    Parameters
    ----------
    changed
        Other weights for some causes, keyed as `WEIGHTS`, each 0 to 1e6.

    Returns
    -------
    dict
        Adds up to 1.

    Raises
    ------
    ValueError
        For an unknown cause, a weight out of range, or nothing left.
    """
    given = dict(WEIGHTS)
    for kind, weight in (changed or {}).items():
        if kind not in given:
            raise ValueError(f"priors: {excerpt(kind)} is no cause; causes are {', '.join(map(repr, given))}")
        if isinstance(weight, bool) or not isinstance(weight, int | float) or not 0 <= weight <= 1e6:
            raise ValueError(f"priors: the weight of {excerpt(kind)} is {excerpt(weight)}; allowed is 0 to 1e6")
        given[kind] = weight
    left = {kind: given[kind] for kind in causes_of(lamp)}
    whole = sum(left.values())
    if whole <= 0:
        raise ValueError("priors: no cause that this lamp can have is left with a weight above 0")
    return {kind: weight / whole for kind, weight in left.items()}


def amounts_for(lamp: Lamp, kind: tuple | None) -> tuple[np.ndarray, ...] | None:
    """How large a fault may be: amounts to compute, a finer row to weigh, and the weights.

    Parameters
    ----------
    kind
        A name in `WEIGHTS`.

    Returns
    -------
    (array, array, array) or None
        None for a fault without an amount. A share lost is as likely anywhere from 5 % (30 % of a smoothing
        capacitor) up, ohms by their logarithm, groups the rarer the more of them.
    """
    if kind == ("lost", "dropper"):
        return _even(0.05, 0.90, 9, 51)
    if kind == ("dried out", "smoothing"):
        return _even(0.30, 0.97, 7, 24)
    if kind == ("drifted", "inrush_resistor"):
        return _by_logarithm(1.3, 30.0, 7, 31)
    if kind == ("leaky", "smoothing"):
        usual = Fault("leaky", "smoothing").amount_in(lamp)
        return _by_logarithm(0.1 * usual, 10 * usual, 11, 61)
    if kind == ("short", "groups"):
        most = lamp.string.in_series - 1
        fine = np.unique(np.linspace(2, most, min(most - 1, 48)).round())
        return np.unique(np.linspace(2, most, min(most - 1, 9)).round()), fine, (1 / fine) / (1 / fine).sum()
    return None


def fault_of(kind: tuple | None, amount: float | None = None) -> Fault | None:
    """The fault of a cause; None for the healthy lamp."""
    if kind is None:
        return None
    whole = kind == ("short", "groups") and amount is not None
    return Fault(*kind, round(amount) if whole else amount)


def _even(low, high, coarse, fine):
    return np.linspace(low, high, coarse), np.linspace(low, high, fine), np.full(fine, 1 / fine)


def _by_logarithm(low, high, coarse, fine):
    return np.geomspace(low, high, coarse), np.geomspace(low, high, fine), np.full(fine, 1 / fine)
