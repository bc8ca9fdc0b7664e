"""Every fault, settled: against the reference, against the steady state, and what a person would see."""

import math

import numpy as np
import pytest
from dropper import Lamp, Led, LedString, Mains, replace_at, steady_state
from dropper.solver.transient import Fault, faults_of, settle, with_fault
from dropper.theory import half_wave_current
from transient_reference import Circuit, readings, settled
from transient_scenes import BARE, LINE, SHELF, STAIR, broken

CASES = [(lamp, fault) for lamp in (STAIR, SHELF) for fault in faults_of(lamp)]
CASES += [(BARE, Fault("short", "D1")), (BARE, Fault("short", "D1 and D3")), (BARE, Fault("lost", "dropper"))]
CASES += [(STAIR, Fault("dried out", "smoothing", 0.3)), (SHELF, Fault("leaky", "smoothing", 2e4))]


def named(case):
    return f"{case[0].name}: {case[1].words()}"


@pytest.mark.slow
@pytest.mark.parametrize("case", CASES, ids=named)
def test_each_fault_agrees_with_the_reference(case):
    """Within 2 % of each reading, or where next to nothing is left of it, 0.02 % of the healthy lamp's."""
    lamp, fault = case
    result, healthy = settle(with_fault(lamp, fault), LINE), settle(lamp, LINE)
    assert result.settled
    circuit = Circuit(broken(lamp, fault), LINE)
    # started well off the answer, the reference finds its own
    start = 0.8 * result.start[0] + 5, 0.97 * result.start[1]
    witness = readings(settled(circuit, *start), circuit)
    witness["real_power"] -= LINE * witness["line_current_rms"] ** 2
    for name, value in witness.items():
        scale = np.abs(getattr(healthy, name))
        assert getattr(result, name) == pytest.approx(value, rel=0.02, abs=2e-4 * float(np.max(scale))), name


@pytest.mark.parametrize("lamp", [STAIR, SHELF, BARE], ids=lambda lamp: lamp.name)
def test_a_healthy_lamp_settles_where_the_steady_state_is(lamp):
    result, steady = settle(lamp, 0.001), steady_state(lamp)
    for name in (
        "line_current_rms",
        "line_current_peak",
        "real_power",
        "power_factor",
        "string_current_mean",
        "string_current_max",
        "bus_voltage_mean",
        "dropper_voltage_peak",
        "dropper_voltage_rms",
    ):
        assert getattr(result, name) == pytest.approx(getattr(steady, name), rel=0.01), name
    assert result.heat["diodes"] == pytest.approx(steady.heat["diodes"], rel=0.01)
    assert sum(result.diode_heat) == pytest.approx(result.heat["diodes"], rel=1e-12)
    assert result.word == "same"


@pytest.mark.parametrize("case", CASES, ids=named)
def test_heat_adds_up_to_the_power_drawn(case):
    """To 0.1 % of it, or 0.01 % of the volt-amperes where the power itself is next to nothing."""
    result = settle(with_fault(*case), LINE)
    assert sum(result.heat.values()) == pytest.approx(
        result.real_power, rel=1e-3, abs=1e-4 * result.apparent_power + 1e-6
    )


@pytest.mark.parametrize(
    ("fault", "word"),
    [
        (Fault("open", "dropper"), "dark"),
        (Fault("short", "dropper"), "over"),
        (Fault("lost", "dropper"), "dim"),
        (Fault("open", "bleeder"), "same"),
        (Fault("open", "smoothing_bleeder"), "same"),
        (Fault("open", "inrush_resistor"), "dark"),
        (Fault("drifted", "inrush_resistor"), "same"),
        (Fault("open", "D1"), "dark"),
        (Fault("open", "D4"), "dark"),
        (Fault("short", "D2"), "dim"),
        (Fault("short", "D1 and D2"), "dark"),
        (Fault("short", "D1 and D3"), "dark"),
        (Fault("open", "smoothing"), "same"),
        (Fault("dried out", "smoothing"), "same"),
        (Fault("leaky", "smoothing"), "dim"),
        (Fault("short", "smoothing"), "dark"),
        (Fault("open", "string"), "dark"),
        (Fault("short", "group"), "same"),
        (Fault("short", "groups"), "brighter"),
    ],
    ids=lambda value: value if isinstance(value, str) else value.words(),
)
def test_what_a_person_would_see(fault, word):
    assert settle(with_fault(STAIR, fault)).word == word


def test_one_open_diode_charges_the_dropper_and_stops():
    """Misconception: half brightness. A capacitor passes no dc: without a bleeder nothing at all flows on."""
    lamp = replace_at(STAIR, "bleeder", None)
    result = settle(with_fault(lamp, Fault("open", "D1")))
    assert result.word == "dark" and result.settled
    assert result.string_current_mean < 1e-5 * settle(lamp).string_current_mean
    drop = lamp.mains.peak - np.abs(result.dropper_voltage)
    assert np.all(drop < result.bus_voltage_peak + 2 * lamp.diode.forward_voltage), "it holds all but the clamp"
    assert np.ptp(result.dropper_voltage) < 0.1


def test_one_shorted_diode_pumps_once_a_cycle():
    """f·C·(2·Vp - D): closed form of a half-wave pump, D the voltage of string and one diode."""
    lamp = Lamp(mains=Mains(230.0, 50.0), string=LedString(Led(3.0, 0.020, 0.0, 1.0), 20), dropper=1e-6, smoothing=1e-3)
    result = settle(with_fault(lamp, Fault("short", "D1")), 0.01)
    healthy = settle(lamp, 0.01)
    output = result.bus_voltage_mean
    drop = result.bus_voltage_peak
    diode = lamp.diode.voltage_at(result.line_current_peak)
    expected = lamp.mains.frequency * lamp.dropper * (2 * lamp.mains.peak - output - 2 * diode)
    assert result.string_current_mean == pytest.approx(expected, rel=2e-3)
    by_theory = half_wave_current(
        frequency=50.0, dropper=1e-6, peak_voltage=lamp.mains.peak, output_voltage=output, diode_voltage=diode
    )
    assert result.string_current_mean == pytest.approx(by_theory, rel=2e-3)
    assert result.line_current_rms > healthy.line_current_rms, "dimmer, while the line current rises"
    assert result.string_current_mean < 0.65 * healthy.string_current_mean
    assert drop < healthy.bus_voltage_peak


def test_string_open_takes_the_bus_to_the_mains_peak_less_two_diodes():
    lamp = replace_at(STAIR, "smoothing_bleeder", None)
    result = settle(with_fault(lamp, Fault("open", "string")))
    # the last nanoamperes flow at a fraction of the diodes' stated forward voltage
    assert lamp.mains.peak - 2 * lamp.diode.forward_voltage <= result.bus_voltage_peak <= lamp.mains.peak
    assert max(result.diode_reverse_peak) == pytest.approx(result.bus_voltage_peak, rel=0.005)
    assert settle(lamp).bus_voltage_peak < 0.25 * result.bus_voltage_peak


def test_a_short_across_the_bus_is_the_coolest_state():
    """Misconception: a short at the output overloads the lamp. The line current is ωCV, the heat least."""
    result, healthy = settle(with_fault(STAIR, Fault("short", "smoothing"))), settle(STAIR)
    assert result.real_power < 0.2 * healthy.real_power
    assert result.line_current_rms == pytest.approx(2 * math.pi * 50 * 330e-9 * 230, rel=0.005)


def test_leds_beside_an_open_one_share_its_current():
    result, healthy = settle(with_fault(SHELF, Fault("open", "LED"))), settle(SHELF)
    assert result.led_current_mean == pytest.approx(1.5 * healthy.led_current_mean, rel=0.01)
    assert result.word == "same", "only the eye can tell"


@pytest.mark.parametrize("diode", ["D2", "D3", "D4"])
@pytest.mark.parametrize("kind", ["open", "short"])
def test_the_bridge_is_symmetric(kind, diode):
    one, other = settle(with_fault(STAIR, Fault(kind, "D1"))), settle(with_fault(STAIR, Fault(kind, diode)))
    assert other.string_current_mean == pytest.approx(one.string_current_mean, rel=1e-3)
    assert other.real_power == pytest.approx(one.real_power, rel=1e-3)
