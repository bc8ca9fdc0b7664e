"""The heat of each part against the solver's, which adds up every instant's power of the demo lamps as they are."""

import math
from pathlib import Path

import numpy as np
import pytest
from dropper import Lamp, steady_state, theory

LAMPS = Path(__file__).resolve().parents[2] / "notebooks" / "lamps"


@pytest.fixture(scope="module", params=["stair_marker", "shelf_strip", "display_case"])
def case(request):
    lamp = Lamp.from_toml(LAMPS / f"{request.param}.toml")
    return lamp, steady_state(lamp)


def test_resistors_burn_as_their_rms_values_say(case):
    """No approximation here: the solver's sums and the formula differ by rounding only."""
    lamp, result = case
    found = theory.inrush_resistor_heat(line_current_rms=result.line_current_rms, inrush_resistor=lamp.inrush_resistor)
    assert found == pytest.approx(result.heat["inrush_resistor"], rel=1e-9)
    found = theory.bleeder_heat(dropper_voltage_rms=result.dropper_voltage_rms, bleeder=lamp.bleeder)
    assert found == pytest.approx(result.heat["bleeder"], rel=1e-9)
    # the waveform's samples are means over a thousandth of a period each, which smooth it by a trifle
    rms = math.sqrt(np.mean(result.string_current**2))
    found = theory.series_resistor_heat(string_current_rms=rms, series_resistor=lamp.series_resistor)
    assert found == pytest.approx(result.heat["series_resistor"], rel=1e-6)


def test_the_smoothing_bleeder_burns_more_by_the_ripple_alone(case):
    """The mean of a square is above the square of the mean by the variance: at most half the ripple, squared."""
    lamp, result = case
    found = theory.smoothing_bleeder_heat(bus_voltage=result.bus_voltage_mean, smoothing_bleeder=lamp.smoothing_bleeder)
    more = result.heat["smoothing_bleeder"] - found
    assert 0 < more <= (result.bus_ripple / 2) ** 2 / lamp.smoothing_bleeder


def test_leds_take_more_by_the_swing_alone(case):
    """Voltage and current rise together: the mean of the product is above the product of the means, by at most half
    the swing of the one times half the swing of the other."""
    lamp, result = case
    string = result.bus_voltage_mean - lamp.series_resistor * result.string_current_mean
    found = theory.leds_heat(string_voltage=string, string_current_mean=result.string_current_mean)
    swing = (result.string_current_max - result.string_current_min) / 2 * result.bus_ripple / 2
    assert 0 < result.heat["leds"] - found <= swing


def test_diodes(case):
    """3 %: the smoothing capacitor's bleeder draws 1 to 2 % of the current, and a diode's drop is no constant."""
    lamp, result = case
    drop = lamp.diode.voltage_at(result.string_current_mean / result.conduction_fraction)
    found = theory.diodes_heat(diode_voltage=drop, string_current_mean=result.string_current_mean)
    assert found == pytest.approx(result.heat["diodes"], rel=0.03)
    assert found < result.heat["diodes"]


@pytest.mark.parametrize("factor", [1e-4, 1e-3, 1e-2])
def test_loss_of_a_dropper_by_phasors(factor):
    """The same with the resistance in series, as others draw it: both agree but for the factor squared."""
    voltage, frequency, dropper = 230.0, 50.0, 470e-9
    reactance = 1 / (2 * math.pi * frequency * dropper)
    found = theory.dropper_loss(
        frequency=frequency, dropper=dropper, dissipation_factor=factor, dropper_voltage_rms=voltage
    )
    across = voltage * (voltage * (factor / reactance + 1j / reactance)).conjugate()
    assert found == pytest.approx(across.real, rel=1e-12)
    series = factor * reactance
    current = voltage / abs(series - 1j * reactance)
    assert found == pytest.approx(current**2 * series, rel=1.1 * factor**2 + 1e-12)
