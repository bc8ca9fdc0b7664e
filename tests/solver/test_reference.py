"""The reference itself, held against what is known without it: a closed form, phasors, conservation.

Closed form of an ideal bridge and clamp behind a capacitor, no resistance in the
line: Vp = sqrt2 V, D the clamped voltage seen by the bridge. From the trough of
the mains on, the current C dv/dt flows from the angle a to the peak (pi):
    cos a               = 1 - 2 D/Vp
    mean string current = 4 f C (Vp - D)
    line current rms    = w C Vp sqrt((pi - a + sin(2a)/2) / (2 pi))
    power               = D times the mean string current
"""

from types import SimpleNamespace

import draws
import numpy as np
import pytest
from lamps_at_random import one_lamp, random_lamps, waveform_reach
from reference import periodic_orbit, readings, reference

SHARP = dict(series_resistance=0.0, ideality=0.1)  # e times the current in 2.6 mV: nearly an ideal diode

# D/Vp, mean mA, rms mA, W, power factor: the closed form at 230 V 50 Hz 1 uF, as printed to these digits
TABLE = [
    (0.1, 58.55, 70.35, 1.904, 0.118),
    (0.2, 52.04, 66.92, 3.386, 0.220),
    (0.3, 45.54, 62.48, 4.444, 0.309),
    (0.5, 32.53, 51.09, 5.290, 0.450),
    (0.7, 19.52, 36.30, 4.444, 0.532),
    (0.9, 6.51, 16.48, 1.904, 0.502),
]


def sharp_lamp(clamped, current, **changes):
    """230 V 50 Hz 1 uF, sharp diodes and LEDs that take `clamped` volts (two diodes included) at `current`."""
    many = max(1, round(clamped / 1.5))
    led = SimpleNamespace(forward_voltage=(clamped - 0.2) / many, at_current=current, **SHARP)
    parts = dict(
        name="sharp lamp",
        mains=SimpleNamespace(voltage=230.0, frequency=50.0, harmonics={}),
        dropper=1e-6,
        bleeder=None,
        inrush_resistor=0.0,
        diode=SimpleNamespace(forward_voltage=0.1, at_current=current, **SHARP),
        smoothing=0.01,
        smoothing_bleeder=None,
        series_resistor=0.0,
        string=SimpleNamespace(led=led, in_series=many, in_parallel=1),
    )
    return SimpleNamespace(**(parts | changes))


def closed_form(part, f=50.0, c=1e-6, v=230.0):
    """(mean A, rms A, W, power factor) of the ideal lamp at D = part * Vp."""
    peak, a = 2**0.5 * v, np.arccos(1 - 2 * part)
    mean = 4 * f * c * peak * (1 - part)
    rms = 2 * np.pi * f * c * peak * np.sqrt((np.pi - a + np.sin(2 * a) / 2) / (2 * np.pi))
    power = part * peak * mean
    return mean, rms, power, power / (v * rms)


def four(got):
    return tuple(got[k] for k in ("string_current_mean", "line_current_rms", "real_power", "power_factor"))


@pytest.mark.slow
@pytest.mark.parametrize("row", TABLE, ids=lambda row: f"D={row[0]}Vp")
def test_ideal_lamp(row):
    """Within 0.03 % of the closed form: the sharp diodes' millivolts, which near D = Vp count double (0.06 %).

    The smoothing is 10 mF here, beyond any lamp's, so that the bus stands still as in the closed form.
    """
    part, *printed = row
    exact = closed_form(part)
    rel = 6e-4 if part > 0.8 else 3e-4
    got = four(reference(sharp_lamp(part * 230 * 2**0.5, exact[0])))
    assert got == pytest.approx(exact, rel=rel)
    places = (1e3, 0.005), (1e3, 0.005), (1, 0.0005), (1, 0.0005)
    for value, shown, (scale, half_digit) in zip(got, printed, places, strict=True):
        assert abs(value * scale - shown) <= half_digit + rel * shown


@pytest.mark.slow
@pytest.mark.parametrize("part", [0.1, 0.3, 0.5])
def test_ideal_lamp_without_smoothing(part):
    """The clamp alone does the same. 1 %: the string's voltage follows its pulsing current, some millivolts a LED."""
    exact = closed_form(part)
    got = reference(sharp_lamp(part * 230 * 2**0.5, exact[0], smoothing=0.0))
    assert four(got) == pytest.approx(exact, rel=0.01)
    assert got["string_current_max"] == pytest.approx(got["line_current_peak"], rel=1e-5)


@pytest.mark.slow
def test_shorted_load_is_a_phasor_sum():
    """A load of 0.4 V in 325 is nearly a short: every harmonic is then an R-C phasor. 0.3 %: that 0.4 V."""
    harmonics = {2: (0.02, 30.0), 5: (0.05, -100.0), 11: (0.02, 170.0), 15: (0.015, 60.0)}
    resistor, bleeder = 220.0, 470e3
    lamp = sharp_lamp(
        0.4,
        0.08,
        mains=SimpleNamespace(voltage=230.0, frequency=50.0, harmonics=harmonics),
        inrush_resistor=resistor,
        bleeder=bleeder,
    )
    got = reference(lamp)
    order = np.array([1, *harmonics])
    volts = 230 * np.array([1.0, *(f for f, _ in harmonics.values())])
    admittance = 1 / (resistor + 1 / (2j * np.pi * 50 * order * lamp.dropper + 1 / bleeder))
    current = volts * np.abs(admittance)
    rms = np.sqrt(np.sum(current**2))
    assert got["line_current_rms"] == pytest.approx(rms, rel=3e-3)
    assert got["current_thd"] == pytest.approx(np.sqrt(np.sum(current[1:] ** 2)) / current[0], rel=3e-3)
    assert got["apparent_power"] == pytest.approx(rms * np.sqrt(np.sum(volts**2)), rel=3e-3)
    assert got["heat"]["inrush_resistor"] == pytest.approx(resistor * rms**2, rel=6e-3)
    across = current / np.abs(2j * np.pi * 50 * order * lamp.dropper + 1 / bleeder)
    assert got["dropper_voltage_rms"] == pytest.approx(np.sqrt(np.sum(across**2)), rel=3e-3)
    watts = got["heat"]["diodes"] + got["heat"]["leds"]
    shift = np.cos(np.angle(admittance[0])) + watts / (230 * current[0])
    assert got["displacement_factor"] == pytest.approx(shift, rel=0.02)


@pytest.mark.slow
def test_random_lamps_conserve_energy_and_charge():
    for lamp in random_lamps(draws.examples(5), draws.seed(20)):
        orbit = periodic_orbit(lamp)
        got, at, circuit = readings(orbit), orbit.points, orbit.circuit
        assert orbit.converged, lamp.name
        assert sum(got["heat"].values()) == pytest.approx(got["real_power"], rel=1e-6), lamp.name
        into_bus = orbit.weight @ (at.i1 + at.i2)
        out_of_bus = got["string_current_mean"] + got["bus_voltage_mean"] * circuit.bus_leak
        assert into_bus == pytest.approx(out_of_bus, rel=1e-6), lamp.name


@pytest.mark.slow
def test_half_a_period_and_tighter_steps_give_the_same():
    lamp = next(lamp for lamp in random_lamps(20, draws.seed(21)) if not lamp.mains.harmonics and lamp.smoothing > 1e-7)
    usual = reference(lamp)
    usual.pop("heat")
    for options in ({"symmetry": False}, {"rtol": 1e-10}):
        other = reference(lamp, **options)
        other.pop("heat")
        assert other == pytest.approx(usual, rel=3e-5, abs=1e-9)


def test_a_dark_lamp_raises_nothing():
    lamp = one_lamp(np.random.default_rng(draws.seed(22)), "dark")
    lamp.string.in_series = int(1.5 * waveform_reach(lamp.mains) / lamp.string.led.forward_voltage)
    got = readings(periodic_orbit(lamp))
    assert 0 <= got["string_current_mean"] < 1e-3
    assert got["bus_voltage_mean"] <= 1.01 * waveform_reach(lamp.mains)
