"""A surge on a lamp: the generator's waves by the standard's definitions, and the lamp against a second formulation."""

import numpy as np
import pytest
from dropper import Lamp, steady_state
from dropper.solver.surge import Varistor, combination_wave, surge
from scipy.optimize import brentq

STAIR = Lamp.from_toml("notebooks/lamps/stair_marker.toml")


def rising(time, wave, share):
    crest = wave.argmax()
    return np.interp(share * wave.max(), wave[: crest + 1], time[: crest + 1])


def at_half(time, wave):
    crest = wave.argmax()
    return np.interp(-wave.max() / 2, -wave[crest:], time[crest:])


def test_the_open_output_is_a_wave_of_1_2_and_50_microseconds():
    """IEC 61000-4-5, definitions and bounds (30 % of the front, 20 % of the half value); from memory."""
    time, volts = combination_wave(500, 1e6)
    front = (rising(time, volts, 0.9) - rising(time, volts, 0.3)) / 0.6
    start = rising(time, volts, 0.3) - 0.3 * front
    assert volts.max() == pytest.approx(500, rel=0.1)
    assert front == pytest.approx(1.2e-6, rel=0.3)
    assert at_half(time, volts) - start == pytest.approx(50e-6, rel=0.2)


def test_the_shorted_output_is_a_wave_of_8_and_20_microseconds_behind_2_ohms():
    """IEC 61000-4-5, definitions and bounds (20 %), 250 A for 500 V; from memory. 500 V / 250 A: Littelfuse (2015),
    LED Lighting Design Guide, page 9, of lamps up to 25 W between the lines."""
    time, volts = combination_wave(500, 1e-3)
    current = volts / 1e-3
    front = 1.25 * (rising(time, current, 0.9) - rising(time, current, 0.1))
    start = rising(time, current, 0.1) - 0.1 * front
    assert current.max() == pytest.approx(250, rel=0.1)
    assert front == pytest.approx(8e-6, rel=0.2)
    assert at_half(time, current) - start == pytest.approx(20e-6, rel=0.2)


def reference(lamp, voltage, varistor, step=0.1e-6):
    """Backward Euler in equal steps, the output a node without capacitance that is solved for; constants of its own.

    Volts across the lamp, line current and varistor current at their greatest.
    """
    store, across, series, coil, out = 6.038e-6, 25.105, 0.941, 10.37e-6, 19.80
    bus = float(steady_state(lamp).bus_voltage_mean)
    crest, drops = np.sqrt(2) * lamp.mains.voltage, 1.6
    charge, through, dropper = 1.082 * voltage, 0.0, crest - bus - drops
    peaks = np.zeros(3)

    def taken(volts, moved):
        """Backward Euler of the dropper within the step; the bus stays."""
        left = volts - moved
        beyond = max(abs(left) - bus - drops, 0.0)
        line = np.sign(left) * beyond / (lamp.inrush_resistor + step / lamp.dropper)
        surge = 1e-3 * np.sign(volts) * (abs(volts) / 430.0) ** varistor.exponent if varistor else 0.0
        return line, surge

    for _ in range(600):

        def excess(output, charge=charge, through=through, moved=dropper):
            current = output / out + sum(taken(crest + output, moved))
            before = (charge - step * current / store) / (1 + step / (across * store))
            return coil * (current - through) / step - (before - series * current - output)

        output = brentq(excess, -voltage, 1.2 * voltage, xtol=1e-9)
        line, surge = taken(crest + output, dropper)
        through = output / out + line + surge
        charge = (charge - step * through / store) / (1 + step / (across * store))
        dropper += line * step / lamp.dropper
        peaks = np.maximum(peaks, (crest + output, abs(line), surge))
    return peaks


@pytest.mark.parametrize(("voltage", "varistor"), [(500, None), (500, Varistor()), (2000, Varistor())])
def test_it_agrees_with_a_second_formulation(voltage, varistor):
    found = surge(STAIR, voltage, varistor)
    volts, line, through = reference(STAIR, voltage, varistor)
    assert found.volts.max() == pytest.approx(volts, rel=0.01)
    assert np.abs(found.line_current).max() == pytest.approx(line, rel=0.02)
    assert found.varistor_current.max() == pytest.approx(through, rel=0.03, abs=1e-9)


@pytest.mark.parametrize("varistor", [None, Varistor()])
def test_the_energy_that_enters_is_found_in_the_parts(varistor):
    found = surge(STAIR, 1000, varistor)
    line, time = found.line_current, found.time
    entered = np.trapezoid(found.volts * line, time)
    dropper = STAIR.dropper * (found.dropper_voltage[-1] ** 2 - found.dropper_voltage[0] ** 2) / 2
    bridge = 2 * STAIR.diode.forward_voltage * np.trapezoid(np.abs(line), time)
    behind = np.trapezoid(np.abs(line) * found.bus_voltage, time)
    assert found.resistor_energy + dropper + bridge + behind == pytest.approx(entered, rel=2e-3)


def test_the_first_amperes_are_the_volts_over_R1():
    """By hand: 500 V on a dropper and a bus that have not moved yet; 500 V / 220 Ω = 2.27 A."""
    assert np.abs(surge(STAIR).line_current).max() == pytest.approx(500 / 220, rel=0.05)


def test_a_varistor_spares_R1_and_takes_more_the_higher_the_surge():
    taken = []
    for voltage in (500, 1000, 2000):
        bare, saved = surge(STAIR, voltage), surge(STAIR, voltage, Varistor())
        assert saved.volts.max() < bare.volts.max() and saved.resistor_energy < bare.resistor_energy, voltage
        taken.append(saved.varistor_energy)
    assert taken[0] < taken[1] < taken[2] < Varistor().energy


def test_what_cannot_be_computed_is_said():
    with pytest.raises(ValueError, match="smoothing"):
        surge(STAIR.replace(smoothing=0.0))
    with pytest.raises(ValueError, match="from 1 V to 10 kV"):
        surge(STAIR, 0.0)
    with pytest.raises(ValueError, match="above the 430"):
        Varistor(clamping_voltage=400.0)
