"""Ratings and rules against published figures, and closed forms against quadrature or plain arithmetic."""

import math

import numpy as np
import pytest
from dropper import theory
from scipy.integrate import quad

RESISTOR = {"rated_power": 0.25, "limiting_voltage": 250.0}
DERATING = {"full_power_temperature": 70.0, "no_power_temperature": 155.0}


@pytest.mark.parametrize(
    ("resistance", "volts"),
    [
        # makers' data sheets of carbon film resistors: 1/4 W, 250 V, working voltage the lesser of √(P·R) and the limit
        (100.0, 5.0),
        (10e3, 50.0),
        (250e3, 250.0),
        (1e6, 250.0),
        (10e6, 250.0),
    ],
)
def test_working_voltage_of_a_quarter_watt_resistor(resistance, volts):
    assert theory.resistor_working_voltage(**RESISTOR, resistance=resistance) == pytest.approx(volts, rel=1e-12)


def test_working_voltage_spoils_neither_rating():
    ohms = np.geomspace(1, 1e8, 60)
    volts = theory.resistor_working_voltage(**RESISTOR, resistance=ohms)
    assert (volts <= 250.0).all() and (volts**2 / ohms <= 0.25 * (1 + 1e-12)).all()
    at_a_limit = np.isclose(volts, 250.0) | np.isclose(volts**2 / ohms, 0.25)
    assert at_a_limit.all(), "more could be allowed"


# makers' data sheets of film resistors: full power to 70 °C, none at 155 °C, a straight line between
@pytest.mark.parametrize(("degrees", "share"), [(-20, 1), (70, 1), (112.5, 0.5), (138, 0.2), (155, 0), (200, 0)])
def test_derating_line(degrees, share):
    assert theory.derated_share(**DERATING, temperature=degrees) == pytest.approx(share, abs=1e-12)


def test_derating_line_needs_a_span():
    with pytest.raises(ValueError, match="70 °C is not below 70 °C: the power has to fall over some span"):
        theory.derated_share(temperature=80, full_power_temperature=70, no_power_temperature=70)


def test_fusing_integral_of_the_published_surge():
    """Rectron 1N4007 data sheet, 2017-04: half sine of 30 A and 8.3 ms, I²t printed 3.74 A²s (3.735 before rounding)."""
    surge = {"surge_current": 30.0, "surge_time": 8.3e-3}
    found = theory.surge_fusing_integral(**surge)
    assert found == pytest.approx(3.735, abs=5e-4)
    assert found == pytest.approx(3.74, abs=0.0051)  # the last printed digit, rounded up from the half
    by_sum, _ = quad(lambda t: (30.0 * math.sin(math.pi * t / 8.3e-3)) ** 2, 0, 8.3e-3)
    assert found == pytest.approx(by_sum, rel=1e-9)


def test_joules_of_an_inrush_over_its_ohms_are_in_the_same_unit():
    """What passes a diode in a rush of current: the resistor's joules for each of its ohms."""
    rush = {"step_voltage": 325.0, "inrush_resistor": 100.0, "dropper": 470e-9}
    by_sum, _ = quad(lambda t: theory.inrush_current(time=t, **rush) ** 2, 0, 40 * 100.0 * 470e-9)
    assert theory.inrush_energy(**rush) / 100.0 == pytest.approx(by_sum, rel=1e-7)
    assert by_sum < theory.surge_fusing_integral(surge_current=30.0, surge_time=8.3e-3)


# worked out for this project, kept with the limits of IEC 60335-1 (34 V, 1 s), IEC 62368-1 (60 V, 2 s) and
# IEC 60204-1 (60 V, 5 s); 357.8 V is the peak of 253 V, 325.3 V that of 230 V
@pytest.mark.parametrize(
    ("peak", "limit", "seconds", "product"),
    [(357.8, 34, 1, 0.425), (325.3, 34, 1, 0.443), (325.3, 60, 2, 1.183), (325.3, 60, 5, 2.958)],
)
def test_largest_time_constants(peak, limit, seconds, product):
    found = theory.largest_time_constant(initial_voltage=peak, limit_voltage=limit, time=seconds)
    assert found == pytest.approx(product, abs=5e-4)
    left = theory.residual_voltage(time=seconds, initial_voltage=peak, dropper=1e-6, bleeder=found / 1e-6)
    assert left == pytest.approx(limit, rel=1e-12)


def test_charge_of_a_dropper():
    """60 µC, the charge that IEC 60204-1, 6.2.4 exempts, is 184 nF at the peak of 230 V: by hand, 60/325.27."""
    assert theory.stored_charge(dropper=184.46e-9, initial_voltage=325.27) == pytest.approx(60e-6, rel=1e-4)


def test_the_lesser_of_two_is_read_aloud():
    assert "V_w = the lesser of (V_le; square root of (R P_r))" in theory.resistor_working_voltage.plain()
    assert (
        "**3.735 A²s**" in theory.surge_fusing_integral.working(surge_current=30, surge_time=8.3e-3)._repr_markdown_()
    )
