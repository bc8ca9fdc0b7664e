"""Units: every spelling is read as its unit and no other, and the dimensions are those of a library of units."""

import math

import pytest
from dropper.circuit.parsing import ValueTextError, parse
from dropper.circuit.units import MICRO, PREFIXES, UNITS, factor
from dropper.circuit.values import show_exactly
from hypothesis import given
from hypothesis import strategies as st
from sympy.physics import units as sympy_units
from sympy.physics.units.systems.si import SI

# SI's brochure, 9th edition, table 7.
SI_PREFIXES = {"p": -12, "n": -9, "µ": -6, "m": -3, "": 0, "k": 3, "M": 6, "G": 9}
NAMES_IN_SYMPY = {
    "V": "volt",
    "A": "ampere",
    "W": "watt",
    "F": "farad",
    "Ω": "ohm",
    "Hz": "hertz",
    "C": "coulomb",
    "J": "joule",
    "s": "second",
    "h": "hour",
    "K": "kelvin",
}


def dimension_of(unit):
    """What the table says, as sympy's dimension."""
    top, _, bottom = UNITS[unit].dimension.partition("/")
    above, below = (getattr(sympy_units, name) if name else sympy_units.Dimension(1) for name in (top, bottom))
    return above / below


@pytest.mark.parametrize("unit", NAMES_IN_SYMPY)
def test_dimensions_are_those_of_sympys_units(unit):
    theirs = getattr(sympy_units, NAMES_IN_SYMPY[unit]).dimension
    system = SI.get_dimension_system()
    assert system.equivalent_dims(dimension_of(unit), theirs), unit


@pytest.mark.parametrize(
    ("unit", "same_as"), [("VA", "W"), ("var", "W"), ("kWh", "J"), ("Wh", "J"), ("years", "s"), ("°C", "K")]
)
def test_units_of_one_quantity_have_one_dimension(unit, same_as):
    assert UNITS[unit].dimension == UNITS[same_as].dimension


def test_prefixes_are_those_of_the_si_brochure():
    assert {sign: round(math.log10(size)) for sign, size in PREFIXES.items()} == SI_PREFIXES
    assert all(factor(f"{sign}A", "A") == 1e-6 for sign in MICRO)


@pytest.mark.parametrize("unit", [unit for unit in UNITS if unit])
def test_every_spelling_is_read_and_no_other_units(unit):
    for spelling in UNITS[unit].read_as:
        assert parse(f"12.5 {spelling}", unit) == 12.5, spelling
        assert parse(f"12.5{spelling.replace(' ', '')}", unit) == 12.5, spelling
    for other in ("V", "A", "W", "F", "Hz", "lm"):
        if other != unit:
            with pytest.raises(ValueTextError):
                parse(f"12.5 {other}", unit)


@pytest.mark.parametrize("text", ["300 K", "300K", "0.3 kK", "300 kelvins"])
def test_a_kelvin_is_no_kilo(text):
    assert parse(text, "K") == pytest.approx(300)


@given(st.floats(1e-6, 1e9), st.sampled_from(sorted(UNITS)))
def test_a_value_in_any_unit_reads_back_to_the_same_number(value, unit):
    assert parse(show_exactly(value, unit), unit) == value


@pytest.mark.parametrize(
    ("text", "unit", "times"),
    [("mA", "A", 1e-3), ("kΩ", "Ω", 1e3), ("Volts", "V", 1), ("SEC", "s", 1), ("mV", "A", None), ("Mohm", "Ω", 1e6)],
)
def test_a_heading_says_what_its_numbers_are_times(text, unit, times):
    assert factor(text, unit) == times
