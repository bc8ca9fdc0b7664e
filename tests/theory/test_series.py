"""Load and dropper in series against complex phasors and against waveforms stepped in time."""

import cmath
import math

import numpy as np
import pytest
from dropper import theory
from scipy.integrate import quad, solve_ivp

CIRCUITS = [(230.0, 50.0, 1e-6, 3300.0), (230.0, 50.0, 10e-6, 180.0), (120.0, 60.0, 4.7e-6, 47.0)]
ANGLES = np.linspace(0, 2 * np.pi, 241)


@pytest.mark.parametrize(("voltage", "frequency", "dropper", "load"), CIRCUITS)
def test_against_phasors(voltage, frequency, dropper, load):
    """The witness is one division of complex numbers."""
    impedance = load + 1 / (2j * math.pi * frequency * dropper)
    current = voltage / impedance
    reactance = theory.dropper_reactance(frequency=frequency, dropper=dropper)
    both = {"load_resistance": load, "reactance": reactance}
    assert theory.series_impedance(**both) == pytest.approx(abs(impedance), rel=1e-12)
    found = theory.series_current(voltage=voltage, frequency=frequency, dropper=dropper, load_resistance=load)
    assert found == pytest.approx(abs(current), rel=1e-12)
    assert theory.phase_lead(**both) == pytest.approx(cmath.phase(current), rel=1e-12)
    power = (voltage * current.conjugate()).real
    assert theory.series_power(voltage=voltage, **both) == pytest.approx(power, rel=1e-12)
    assert theory.series_power_factor(**both) == pytest.approx(power / (voltage * abs(current)), rel=1e-12)
    assert theory.series_power_factor(**both) == pytest.approx(math.cos(theory.phase_lead(**both)), rel=1e-12)
    on_load, on_dropper = abs(load * current), abs(current / (2j * math.pi * frequency * dropper))
    beside = {"voltage": voltage, "load_voltage": on_load}
    assert theory.voltage_beside_load(**beside) == pytest.approx(on_dropper, rel=1e-9)
    assert theory.dropper_for_load(**beside, frequency=frequency, line_current_rms=abs(current)) == pytest.approx(
        dropper, rel=1e-9
    )


@pytest.mark.parametrize(("voltage", "frequency", "dropper", "load"), CIRCUITS)
def test_against_its_differential_equation(voltage, frequency, dropper, load):
    """The current of the settled waveform, and the power of each part at instants of it; no phasors."""
    omega, peak = 2 * math.pi * frequency, math.sqrt(2) * voltage
    reactance = theory.dropper_reactance(frequency=frequency, dropper=dropper)
    lead = theory.phase_lead(load_resistance=load, reactance=reactance)
    rms = theory.series_current(voltage=voltage, frequency=frequency, dropper=dropper, load_resistance=load)
    cycles = 3 + math.ceil(12 * load * dropper * frequency)  # what was there at the start has died away
    times = (cycles + (ANGLES - lead) / (2 * math.pi)) / frequency
    kept = solve_ivp(
        lambda t, u: (peak * np.sin(omega * t) - u) / (load * dropper),
        (0, times[-1]),
        [0.0],
        t_eval=times,
        rtol=1e-9,
        atol=1e-9,
        method="LSODA",
    ).y[0]
    current = (peak * np.sin(omega * times) - kept) / load
    scale = voltage * rms
    capacitor = theory.capacitor_power_at(line_current_rms=rms, reactance=reactance, phase=ANGLES)
    np.testing.assert_allclose(capacitor, kept * current, atol=1e-4 * scale)
    resistor = theory.resistor_power_at(line_current_rms=rms, load_resistance=load, phase=ANGLES)
    np.testing.assert_allclose(resistor, load * current**2, atol=1e-4 * scale)


def test_mean_of_the_instants():
    """Over a period the capacitor's power has no mean; the resistor's has the load's."""

    def mean(at):
        return quad(at, 0, 2 * math.pi)[0] / (2 * math.pi)

    capacitor = mean(lambda x: theory.capacitor_power_at(line_current_rms=0.02, reactance=9.6e3, phase=x))
    resistor = mean(lambda x: theory.resistor_power_at(line_current_rms=0.02, load_resistance=3e3, phase=x))
    assert capacitor == pytest.approx(0, abs=1e-12)
    assert resistor == pytest.approx(0.02**2 * 3e3, rel=1e-9)


def test_a_resistor_in_place_of_the_dropper_burns_what_the_load_does_not_take():
    beside = {"voltage": 230.0, "load_voltage": 48.0, "line_current_rms": 0.25}
    resistor = theory.resistor_for_load(**beside)
    assert 230.0 / (resistor + 48.0 / 0.25) == pytest.approx(0.25, rel=1e-12)
    heat = theory.resistor_heat_beside_load(**beside)
    assert heat + 48.0 * 0.25 == pytest.approx(230.0 * 0.25, rel=1e-12)
    assert theory.voltage_beside_load(voltage=230.0, load_voltage=48.0) > 230.0 - 48.0


@pytest.mark.parametrize("name", ["voltage_beside_load", "dropper_for_load", "resistor_for_load"])
def test_a_load_that_wants_all_of_the_mains_is_explained(name):
    values = {"voltage": 120.0, "load_voltage": 120.0, "line_current_rms": 0.1, "frequency": 60.0}
    derivation = theory.ALL[name]
    with pytest.raises(ValueError, match="load_voltage is below voltage.*nothing would be left to drop"):
        derivation(**{keyword: values[keyword] for keyword in derivation.keywords})
