"""Letters and numerals on parts: tolerance letters, voltage codes, EIA-96.

Tolerance letters: IEC 60062 (values from memory, and in makers' tables for ceramic capacitors, which give B, C and D in
picofarads). EIA-96: the place of a value in E96 and a letter for the multiplier (a board maker's reference page on
resistor marking; it gives two letters for some). Voltage codes: a numeral for the power of ten and a letter for a step
of the R10 series of ISO 3 (restated in several public tables; V and W are between the steps).
"""

from ...circuit.series import E_SERIES

TOLERANCES = {
    "B": (0.1, 0.1),
    "C": (0.25, 0.25),
    "D": (0.5, 0.5),
    "F": (1.0, 1.0),
    "G": (2.0, 2.0),
    "J": (5.0, 5.0),
    "K": (10.0, 10.0),
    "M": (20.0, 20.0),
    "Z": (20.0, 80.0),
}
# Of a capacitor below 10 pF, in pF to either side.
SMALL = {"B": 0.1, "C": 0.25, "D": 0.5}
SMALLEST = 10e-12

MULTIPLIERS = {"Z": -3, "Y": -2, "R": -2, "X": -1, "S": -1, "A": 0, "B": 1, "H": 1, "C": 2, "D": 3, "E": 4, "F": 5}

VOLTS = {
    "A": 1.0,
    "B": 1.25,
    "C": 1.6,
    "D": 2.0,
    "E": 2.5,
    "F": 3.15,
    "G": 4.0,
    "H": 5.0,
    "J": 6.3,
    "K": 8.0,
    "V": 3.5,
    "W": 4.5,
}
DECADES = (0, 1, 2, 3)


def tolerance_of(
    letter: str, farads: float | None = None
) -> tuple[tuple[float | None, float | None, float | None], ...]:
    """What a letter says of a tolerance: minus and plus in per cent, and to either side in farads.

    Parameters
    ----------
    letter
        One of `TOLERANCES`.
    farads
        The capacitance, F; None for a resistor.

    Returns
    -------
    tuple of (float or None, float or None, float or None)
        Either per cent or farads are None.

    Examples
    --------
    >>> tolerance_of("K"), tolerance_of("C", 4.7e-12)
    ((10.0, 10.0, None), (None, None, 2.5e-13))
    """
    if farads is not None and farads < SMALLEST and letter in SMALL:
        return None, None, float(f"{SMALL[letter]}e-12")
    return (*TOLERANCES[letter], None)


def eia_96(place: int, letter: str) -> float:
    """The ohms of a code of EIA-96.

    Parameters
    ----------
    place
        1 to 96: which value of E96.
    letter
        One of `MULTIPLIERS`.

    Examples
    --------
    >>> eia_96(1, "C"), eia_96(68, "X")
    (10000.0, 49.9)
    """
    return float(f"{E_SERIES[96][place - 1]}e{MULTIPLIERS[letter]}")


def rated_volts(decade: int, letter: str) -> float:
    """The volts of a voltage code.

    Parameters
    ----------
    letter
        One of `VOLTS`.

    Examples
    --------
    >>> rated_volts(2, "A"), rated_volts(2, "J"), rated_volts(1, "H")
    (100.0, 630.0, 50.0)
    """
    return float(f"{VOLTS[letter]}e{decade}")


def power_of(numeral: str) -> int:
    """The power of ten that the last numeral of a capacitor's code stands for: 9 is ×0.1 and 8 ×0.01 (from memory)."""
    return {"9": -1, "8": -2}.get(numeral, int(numeral))
