"""Capacitors across the mains, IEC 60384-14: what pulses their classes are for, and what their tests may cost.

The classes are made for capacitors between line and neutral. In series with a lamp a capacitor is in another use: no
test of the class limits what it loses there, and makers ask for types whose data sheet names series use.
"""

import math
from dataclasses import dataclass

from ..circuit.excerpt import excerpt
from ..circuit.fields import about, documented
from .verdict import Verdict, number

STANDARD = "IEC 60384-14"
# V of pulses in service, above which and up to which; V of the pulse test up to 1 µF
_PULSES = {"X1": (2500.0, 4000.0, 4000.0), "X2": (0.0, 2500.0, 2500.0)}
_FULL_TEST = 1e-6  # F


@documented
@dataclass(frozen=True)
class ChangeTest:
    """A test of class X2 after which the capacitance may have changed by so much."""

    name: str
    hours: float = about("how long it lasts", "h")
    voltage_factor: float = about("voltage across it meanwhile, as a multiple of the rated ac voltage; 0: none")
    pulse: float = about("for 0.1 s of each hour; 0: none", "V")
    conditions: str = about("Heat and damp meanwhile.")
    limit: float = about("of the capacitance before, up or down", "%")

    def voltage(self, rated_ac_voltage: float) -> float:
        """V rms across a capacitor of a rated ac voltage during the test.

        Parameters
        ----------
        rated_ac_voltage
            V rms, above 0.
        """
        return self.voltage_factor * number("rated_ac_voltage", rated_ac_voltage, "V", 0, above=True)


# As a maker's data sheet of X2 film capacitors restates them.
X2_ENDURANCE = ChangeTest("endurance", 1000.0, 1.25, 1000.0, "at the upper category temperature", 10.0)
X2_DAMP_HEAT = ChangeTest("damp heat", 56 * 24.0, 0.0, 0.0, "at 40 °C and 93 % relative humidity", 5.0)


def class_for_pulses(pulse: float) -> str | None:
    """The class made for the pulses that a mains brings.

    Parameters
    ----------
    pulse
        V, the greatest peak in service, 0 or more.

    Returns
    -------
    str or None
        "X2" up to 2.5 kV, "X1" above that up to 4 kV, None above.

    Raises
    ------
    ValueError
        For a pulse that is not a number from 0 up.

    Source: IEC 60384-14 (restated).

    Examples
    --------
    >>> class_for_pulses(2500), class_for_pulses(2501), class_for_pulses(4001)
    ('X2', 'X1', None)
    """
    volts = number("pulse", pulse, "V", 0)
    return next((name for name in ("X2", "X1") if volts <= _PULSES[name][1]), None)


def pulse_test_voltage(mains_class: str, capacitance: float) -> float:
    """Peak voltage of the pulse test.

    4 kV for X1, 2.5 kV for X2; above 1 µF divided by √(C/µF).

    Parameters
    ----------
    mains_class
        "X1" or "X2".
    capacitance
        F, above 0.

    Returns
    -------
    float
        V.

    Raises
    ------
    ValueError
        For another class, or a capacitance that is not above 0.

    Source: IEC 60384-14 (restated; that X1 is lowered above 1 µF too: value from memory).

    Examples
    --------
    >>> pulse_test_voltage("X2", 470e-9), pulse_test_voltage("X2", 4e-6)
    (2500.0, 1250.0)
    """
    if mains_class not in _PULSES:
        raise ValueError(f"mains_class: {excerpt(mains_class)} is not kept here; choose {' or '.join(_PULSES)}")
    farads = number("capacitance", capacitance, "F", 0, above=True)
    return _PULSES[mains_class][2] / math.sqrt(max(farads / _FULL_TEST, 1.0))


def change_verdict(change: float, test: ChangeTest) -> Verdict:
    """What a test of class X2 says of a change of capacitance.

    Parameters
    ----------
    change
        %, of the capacitance before; below 0 for a loss.
    test
        `X2_ENDURANCE` or `X2_DAMP_HEAT`.

    Returns
    -------
    Verdict
        "within" or "over". It is a verdict on the figure: no lamp on a shelf has been through the test.

    Raises
    ------
    ValueError
        For a change that is not a number from -100 % up.

    Source: IEC 60384-14, as a maker's data sheet of X2 capacitors restates it.

    Examples
    --------
    >>> change_verdict(-12, X2_ENDURANCE)
    <over, IEC 60384-14>
    """
    change = number("change", change, "%", -100)
    word = "within" if abs(change) <= test.limit else "over"
    way = "less" if change < 0 else "more"
    words = (
        f"{abs(change):.3g} % {way} is {word} the {test.limit:g} % that the {test.name} test of class X2 allows: "
        f"{test.hours:g} h {test.conditions} ({STANDARD})."
    )
    return Verdict(word, words, STANDARD)
