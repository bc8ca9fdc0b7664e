"""Energy and cost of a year, in the units of a bill."""

import pytest
from dropper import theory


def test_a_lamp_through_every_night():
    """1.5 W for eight hours a night of 365: 1.5 × 2920 / 1000 by hand."""
    use = {"real_power": 1.5, "hours_a_year": 8 * 365}
    assert theory.energy_of_a_year(**use) == pytest.approx(4.38, rel=1e-12)
    assert theory.cost_of_a_year(**use, price_of_energy=0.25) == pytest.approx(1.095, rel=1e-12)


def test_kilowatt_hours_are_3_6_megajoules():
    """IEC 80000 and the SI brochure (from memory): 1 kWh is 3.6 MJ, which the library of units knows too."""
    from sympy.physics.units import convert_to, hour, joule, watt

    joules = float(convert_to(1.5 * watt * 2920 * hour, joule) / joule)
    assert theory.energy_of_a_year(real_power=1.5, hours_a_year=2920) * 3.6e6 == pytest.approx(joules, rel=1e-12)


def test_the_working_reads_as_a_bill():
    working = theory.energy_of_a_year.working(real_power=0.004, hours_a_year=8760)
    assert working.value_text == "0.03504 kWh"
    assert working.plain().endswith("= P t_a / 1000 = 4 mW × 8760 h / 1000 = 0.03504 kWh")
    cost = theory.cost_of_a_year.working(real_power=12.0, hours_a_year=8760, price_of_energy=0.3)
    assert "0.3 /kWh" in cost.plain() and cost.value_text == "31.54"
    assert r"0.3\,\mathrm{/kWh}" in cost._repr_markdown_()


def test_a_year_has_no_more_hours_than_a_leap_year():
    with pytest.raises(ValueError, match="hours_a_year = 9000 h is not allowed: .*up to 8784 h"):
        theory.energy_of_a_year(real_power=1.0, hours_a_year=9000)
