"""Touch: what may be left on pins after unplugging, and what may flow through a protective impedance.

Each rule is for other equipment: which one a lamp must keep, the standard's own scope and local codes say. To be within
a limit is no leave to touch anything: a capacitor counts as live until it has been proved dead by measuring.
"""

import math
from dataclasses import dataclass

import numpy as np

from ..circuit.excerpt import excerpt
from ..circuit.fields import about, documented
from ..circuit.values import show
from .verdict import number

FIRST_HAND, SECOND_HAND, MEMORY = "read", "restated", "value from memory"
_LOW_MAINS = 150.0 * math.sqrt(2)  # V peak: rated voltages up to 150 V rms
# nF, and V peak of energy classes ES1 and ES2; between the lines by interpolation
_CLASSES = (
    (4, 1000, 2000),
    (8, 500, 1000),
    (12, 350, 700),
    (18, 250, 500),
    (28, 200, 400),
    (41, 150, 300),
    (61, 125, 250),
    (91, 100, 200),
    (170, 75, 150),
    (300, 60, 120),
)
LARGEST_CAPACITANCE = 1e-4  # F, the most that is judged here
_ROUNDING = 1 + 1e-9  # 0.1 µF may be written in many ways


@documented
@dataclass(frozen=True)
class TouchRule:
    """One rule on what may be left after unplugging."""

    key: str
    standard: str = about("With its clause.")
    whom: str = about("What it is for.")
    seconds: float = about("time after unplugging at which it is judged", "s")
    limit: float | None = about("None where it depends on the capacitance or on the voltage at the start", "V")
    provenance: str = about('How the figures are known: "read", "restated" or "value from memory".')
    share: float | None = about("Of the voltage at the start, where that is the limit.", default=None)
    exempt_capacitance: float | None = about("rated capacitance up to which nothing is asked", "F", default=None)
    exempt_on_low_mains: float | None = about("the same on a mains of up to 150 V", "F", default=None)
    exempt_charge: float | None = about("charge up to which nothing is asked", "C", default=None)

    def limit_for(self, capacitance: float, peak_voltage: float) -> float:
        """The limit in volts.

        Parameters
        ----------
        capacitance
            F, its tolerance added.
        peak_voltage
            V, at the moment of unplugging.
        """
        if self.limit is not None:
            return self.limit
        return energy_limits(capacitance)[0] if self.share is None else self.share * peak_voltage

    def exemption(self, rated_capacitance: float, charge: float, peak_voltage: float) -> str:
        """Why nothing is asked, in words; "" if something is.

        Parameters
        ----------
        rated_capacitance
            F.
        charge
            C, held at the moment of unplugging.
        peak_voltage
            V, at that moment.
        """
        most = self.exempt_capacitance
        if self.exempt_on_low_mains is not None and peak_voltage <= _LOW_MAINS:
            most = self.exempt_on_low_mains
        if most is not None and rated_capacitance <= most * _ROUNDING:
            return f"{show(rated_capacitance, 'F')} is no more than {show(most, 'F')}"
        if self.exempt_charge is not None and charge <= self.exempt_charge * _ROUNDING:
            return f"{show(charge, 'C')} is no more than {show(self.exempt_charge, 'C')}"
        return ""


_LUMINAIRE = {"exempt_capacitance": 0.1e-6, "exempt_on_low_mains": 0.25e-6}
TOUCH_RULES = (
    TouchRule(
        "household",
        "IEC 60335-1, 22.5",
        "household appliances with a plug",
        1.0,
        34.0,
        SECOND_HAND,
        exempt_capacitance=0.1e-6,
    ),
    TouchRule(
        "portable luminaire", "IEC 60598-1, 8.2.7", "portable luminaires with a plug", 1.0, 34.0, MEMORY, **_LUMINAIRE
    ),
    TouchRule(
        "luminaire with plug", "IEC 60598-1, 8.2.7", "other luminaires with a plug", 5.0, 60.0, MEMORY, **_LUMINAIRE
    ),
    TouchRule(
        "fixed luminaire", "IEC 60598-1, 8.2.7", "fixed luminaires", 60.0, 50.0, MEMORY, exempt_capacitance=0.5e-6
    ),
    TouchRule(
        "machine", "IEC 60204-1, 6.2.4", "electrical equipment of machines", 5.0, 60.0, SECOND_HAND, exempt_charge=60e-6
    ),
    TouchRule(
        "machine, bare pins",
        "IEC 60204-1, 6.2.4",
        "machines whose plug bares its pins",
        1.0,
        60.0,
        SECOND_HAND,
        exempt_charge=60e-6,
    ),
    TouchRule(
        "audio, video, office",
        "IEC 62368-1:2018, 5.5.2.2 and Table 5",
        "audio, video and office equipment",
        2.0,
        None,
        SECOND_HAND,
    ),
    TouchRule(
        "office, superseded",
        "IEC 60950-1 (superseded)",
        "office equipment of earlier years",
        1.0,
        None,
        FIRST_HAND,
        share=0.37,
        exempt_capacitance=0.1e-6,
    ),
)


def touch_rule(key: str) -> TouchRule:
    """A rule by its key in `TOUCH_RULES`.

    Raises
    ------
    ValueError
        If there is none; the error lists those that there are.

    Examples
    --------
    >>> touch_rule("household").limit
    34.0
    """
    for rule in TOUCH_RULES:
        if rule.key == key:
            return rule
    raise ValueError(
        f"key: {excerpt(key)} is no rule kept here; there are {'; '.join(rule.key for rule in TOUCH_RULES)}"
    )


def energy_limits(capacitance: float) -> tuple[float, ...]:
    """Peak volts up to which a charged capacitor is of energy class ES1, and of ES2.

    Between the lines of the table by straight interpolation; above 300 nF as at 300 nF, below 4 nF as at 4 nF.

    Parameters
    ----------
    capacitance
        F, its tolerance added; above 0, to 100 µF.

    Returns
    -------
    tuple of float
        V peak, ES1 and ES2.

    Raises
    ------
    ValueError
        For a capacitance out of range.

    Source: IEC 62368-1:2018, Table 5 (read).

    Examples
    --------
    >>> energy_limits(470e-9), energy_limits(91e-9)
    ((60.0, 120.0), (100.0, 200.0))
    """
    farads = number("capacitance", capacitance, "F", 0, LARGEST_CAPACITANCE, above=True)
    size, first, second = np.array(_CLASSES).T
    return float(np.interp(farads * 1e9, size, first)), float(np.interp(farads * 1e9, size, second))


def energy_class(capacitance: float, voltage: float) -> str:
    """Energy class of a charged capacitor: "ES1", "ES2" or "ES3".

    Parameters
    ----------
    capacitance
        F, its tolerance added; above 0, to 100 µF.
    voltage
        V peak, 0 or more.

    Returns
    -------
    str
        The class of the standard. ES1 is no leave to touch a part of the mains.

    Raises
    ------
    ValueError
        For values out of range.

    Source: IEC 62368-1:2018, Table 5 (read).

    Examples
    --------
    >>> energy_class(470e-9, 34), energy_class(470e-9, 325)
    ('ES1', 'ES3')
    """
    volts = number("voltage", voltage, "V", 0)
    first, second = energy_limits(capacitance)
    return "ES1" if volts <= first else "ES2" if volts <= second else "ES3"
