"""Temperatures against the network solved as a matrix, forward voltage against a data sheet, loss against counting."""

import numpy as np
import pytest
from dropper import theory


def test_temperatures_against_the_network_as_a_matrix():
    """Nodal equations of three parts, the air inside and a room: conductances times temperatures are the heat."""
    room, outer, inner, heat = 22.0, 7.5, np.array([170.0, 60.0, 300.0]), np.array([0.21, 0.03, 0.055])
    matrix = np.diag([*(1 / inner), (1 / inner).sum() + 1 / outer])
    matrix[:3, 3] = matrix[3, :3] = -1 / inner
    solved = np.linalg.solve(matrix, [*heat, room / outer])
    around = {"room_temperature": room, "enclosure_resistance": outer, "enclosure_heat": heat.sum()}
    assert theory.enclosure_temperature(**around) == pytest.approx(solved[3], rel=1e-12)
    found = theory.part_temperature(**around, thermal_resistance=inner, heat_flow=heat)
    np.testing.assert_allclose(found, solved[:3], rtol=1e-12)
    rises = theory.temperature_rise(heat_flow=heat, thermal_resistance=inner)
    np.testing.assert_allclose(found - solved[3], rises, rtol=1e-9)


def test_a_derating_line_tells_the_thermal_resistance():
    """Half a watt at 70 °C, nothing at 155 °C: 85 K for 0.5 W by hand."""
    line = {"full_power_temperature": 70.0, "no_power_temperature": 155.0}
    found = theory.thermal_resistance_of_derating(rated_power=0.5, **line)
    assert found == pytest.approx(170.0, rel=1e-12)
    # whatever the air, the power that the line allows there makes the resistor just as hot as the line's end
    air = np.array([75.0, 100.0, 150.0])
    allowed = 0.5 * theory.derated_share(temperature=air, **line)
    np.testing.assert_allclose(air + theory.temperature_rise(heat_flow=allowed, thermal_resistance=found), 155.0)


def test_forward_voltage_of_a_warm_yellow_led():
    """A maker's data sheet: 1.85 V at 2 mA and 25 °C, −2 mV/K; so 0.1 V less when 50 K warmer."""
    led = {"forward_voltage": 1.85, "voltage_coefficient": -2e-3, "reference_temperature": 25.0, "junctions": 1}
    assert theory.warm_forward_voltage(**led, junction_temperature=75.0) == pytest.approx(1.75, rel=1e-12)
    assert theory.warm_forward_voltage(**led, junction_temperature=25.0) == 1.85
    three = led | {"forward_voltage": 9.0, "junctions": 3}
    assert theory.warm_forward_voltage(**three, junction_temperature=75.0) == pytest.approx(8.7, rel=1e-12)


def test_an_led_cannot_be_so_warm_that_no_voltage_is_left():
    with pytest.raises(ValueError, match="no LED is so warm that nothing is left of its voltage"):
        theory.warm_forward_voltage(
            forward_voltage=1.85,
            voltage_coefficient=-0.05,
            reference_temperature=25.0,
            junctions=1,
            junction_temperature=80.0,
        )


def test_loss_of_capacitance_by_counting_years():
    left = 470e-9
    for _ in range(7):
        left *= 1 - 0.03
    assert theory.remaining_capacitance(dropper=470e-9, years=7, loss_each_year=0.03) == pytest.approx(left, rel=1e-12)
    assert theory.loss_each_year(kept_fraction=left / 470e-9, years=7) == pytest.approx(0.03, rel=1e-9)
    assert theory.remaining_capacitance(dropper=470e-9, years=0, loss_each_year=0.03) == 470e-9


def test_loss_needs_time():
    with pytest.raises(ValueError, match="nothing is lost in no time"):
        theory.loss_each_year(kept_fraction=0.9, years=0)
