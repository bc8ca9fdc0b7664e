"""Closed forms outside the line current against their differential equations, solved numerically, or their laws."""

import math

import numpy as np
import pytest
from dropper import Lamp, replace_at, steady_state, theory
from dropper.results.explain import values_for
from scipy import optimize
from scipy.integrate import quad, solve_ivp
from scipy.special import lambertw

TIGHT = {"rtol": 1e-10, "atol": 1e-12}


# --- discharge and inrush ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(("dropper", "bleeder", "start"), [(330e-9, 1e6, 325.0), (1.5e-6, 470e3, 170.0)])
def test_discharge_against_its_differential_equation(dropper, bleeder, start):
    limit = 34.0

    def reached(_, voltage):
        return voltage[0] - limit

    reached.terminal = True
    witness = solve_ivp(lambda _, voltage: -voltage / (bleeder * dropper), (0, 20), [start], events=reached, **TIGHT)
    seconds = witness.t_events[0][0]
    values = {"dropper": dropper, "initial_voltage": start, "limit_voltage": limit}
    assert theory.discharge_time(**values, bleeder=bleeder) == pytest.approx(seconds, rel=1e-6)
    assert theory.largest_bleeder(**values, time=seconds) == pytest.approx(bleeder, rel=1e-6)
    left = theory.residual_voltage(time=seconds, dropper=dropper, bleeder=bleeder, initial_voltage=start)
    assert left == pytest.approx(limit, rel=1e-6)


@pytest.mark.parametrize("resistor", [47.0, 220.0, 1000.0])
def test_inrush_against_its_differential_equation(resistor):
    dropper, step = 470e-9, 325.0
    moment = 1.3 * resistor * dropper
    witness = solve_ivp(lambda _, u: (step - u) / (resistor * dropper), (0, moment), [0.0], **TIGHT)
    expected = (step - witness.y[0, -1]) / resistor
    values = {"dropper": dropper, "inrush_resistor": resistor, "step_voltage": step}
    assert theory.inrush_current(time=moment, **values) == pytest.approx(expected, rel=1e-7)
    energy, _ = quad(lambda t: resistor * theory.inrush_current(time=t, **values) ** 2, 0, 40 * resistor * dropper)
    assert theory.inrush_energy(**values) == pytest.approx(energy, rel=1e-7)
    assert theory.inrush_peak(inrush_resistor=resistor, step_voltage=step) == pytest.approx(
        theory.inrush_current(time=0, **values)
    )


def test_energy_balance_of_inrush():
    """What the mains gives, charge times step, is what the capacitor keeps and what the resistor burns."""
    dropper, step = 1e-6, 325.0
    given, kept = dropper * step * step, dropper * step**2 / 2
    burnt = theory.inrush_energy(dropper=dropper, inrush_resistor=330.0, step_voltage=step)
    assert burnt == pytest.approx(given - kept, rel=1e-12)


@pytest.mark.parametrize("resistor", [0.4, 10.0, 47.0, 75.0, 150.0, 220.0, 1000.0])
def test_a_rush_through_an_inductance_against_its_differential_equation(resistor):
    """Peak, and the dropper's greatest voltage where it rings, by SciPy on L·di/dt + R·i + u = V."""
    dropper, step, inductance = 330e-9, 325.0, 8e-4
    limit = theory.ringing_limit(line_inductance=inductance, dropper=dropper)
    assert limit == pytest.approx(2 * math.sqrt(inductance / dropper), rel=1e-12)

    def rates(_, state):
        current, volts = state
        return (step - resistor * current - volts) / inductance, current / dropper

    turn = math.pi * math.sqrt(inductance * dropper)
    run = solve_ivp(rates, (0, 3 * turn + 3 * resistor * dropper), [0.0, 0.0], max_step=turn / 3000, **TIGHT)
    values = {"line_inductance": inductance, "dropper": dropper, "inrush_resistor": resistor, "step_voltage": step}
    law = theory.ringing_inrush_peak if resistor < limit else theory.damped_inrush_peak
    assert law(**values) == pytest.approx(run.y[0].max(), rel=1e-5)
    assert law(**values) < theory.inrush_peak(inrush_resistor=resistor, step_voltage=step)
    if resistor < limit:
        assert theory.dropper_overshoot(**values) == pytest.approx(run.y[1].max(), rel=1e-5)
    else:
        assert run.y[1].max() < step
        with pytest.raises(ValueError, match="damped_inrush_peak"):
            theory.ringing_inrush_peak(**values)


def test_replugging_costs_four_times_the_energy():
    step = theory.replug_step(peak_voltage=325.0)
    once, again = (theory.inrush_energy(dropper=1e-6, inrush_resistor=330.0, step_voltage=v) for v in (325.0, step))
    assert again == pytest.approx(4 * once, rel=1e-12)


# --- string open ------------------------------------------------------------------------------------------------


def test_string_open_charges_the_bus_to_the_peak():
    """Half cycle after half cycle of charge into a smoothing capacitor that nothing empties."""
    dropper, smoothing, peak, diode = 1e-6, 4.7e-6, 325.0, 0.7
    bus, kept = 0.0, 0.0
    for half_cycle in range(400):
        crest = peak if half_cycle % 2 == 0 else -peak
        push = abs(crest - kept) - 2 * diode - bus
        if push > 0:
            charge = push * dropper * smoothing / (dropper + smoothing)
            bus += charge / smoothing
            kept += np.sign(crest) * charge / dropper
    found = theory.bus_voltage_open(peak_voltage=peak, diode_voltage=diode)
    assert found == pytest.approx(bus, rel=1e-9)
    reverse = theory.diode_reverse_voltage_open(peak_voltage=peak, diode_voltage=diode)
    assert reverse == pytest.approx(theory.diode_reverse_voltage(bus_voltage=bus, diode_voltage=diode), rel=1e-9)


def test_ripple_bound_against_a_capacitor_alone():
    volts, _ = quad(lambda _: 0.02 / 10e-6, 0, 0.5 / 50)
    found = theory.ripple_bound(string_current_mean=0.02, frequency=50, smoothing=10e-6)
    assert found == pytest.approx(volts, rel=1e-12)
    two = theory.ripple_bound(string_current_mean=0.015, smoothing_bleeder_current=0.005, frequency=50, smoothing=10e-6)
    assert two == pytest.approx(volts, rel=1e-12)


@pytest.mark.parametrize("groups", [1, 22, 60, 90, 100, 103])
def test_ripple_bound_is_never_exceeded_by_the_solver(groups):
    """Near the peak the bleeder takes as much as the string, and the bound needs both."""
    lamp = replace_at(Lamp.from_toml("notebooks/lamps/stair_marker.toml"), "string.in_series", groups)
    result = steady_state(lamp)
    assert result.bus_ripple <= theory.ripple_bound(**values_for(theory.ripple_bound, lamp, result))


# --- junctions --------------------------------------------------------------------------------------------------

WHITE = {"forward_voltage": 3.1, "at_current": 0.020, "series_resistance": 9.0, "ideality": 2.0}
RED = {"forward_voltage": 1.9, "at_current": 0.010, "series_resistance": 4.0, "ideality": 1.7}


def law(voltage, led, saturation, thermal=0.025852):
    """Current of an LED at a voltage: Shockley's law with series resistance, solved with Lambert's function."""
    scale, resistance = led["ideality"] * thermal, led["series_resistance"]
    inside = saturation * resistance / scale * np.exp((voltage + saturation * resistance) / scale)
    return scale / resistance * float(lambertw(inside).real) - saturation


@pytest.mark.parametrize("led", [WHITE, RED], ids=["white", "red"])
def test_saturation_current_puts_the_curve_through_the_data_sheet_point(led):
    saturation = theory.saturation_current(**led)
    assert law(led["forward_voltage"], led, saturation) == pytest.approx(led["at_current"], rel=1e-9)
    for current in (1e-4, 5e-3, 5e-2):
        voltage = theory.junction_voltage(
            saturation_current=saturation,
            junction_current=current,
            ideality=led["ideality"],
            series_resistance=led["series_resistance"],
        )
        assert law(voltage, led, saturation) == pytest.approx(current, rel=1e-9)


@pytest.mark.parametrize("led", [WHITE, RED], ids=["white", "red"])
@pytest.mark.parametrize(("in_series", "in_parallel"), [(1, 1), (22, 1), (8, 3)])
def test_string_against_the_full_law(led, in_series, in_parallel):
    """The forward approximation costs nothing that can be seen: saturation is some 1e-20 of the current."""
    saturation, current = theory.saturation_current(**led), 0.013

    def string(amperes):
        each = optimize.brentq(lambda v: law(v, led, saturation) - amperes / in_parallel, 0.1, 6.0, xtol=1e-13)
        return in_series * each

    values = {"in_series": in_series, "in_parallel": in_parallel, "string_current_mean": current}
    assert theory.string_voltage(**led, **values) == pytest.approx(string(current), rel=1e-9)
    slope = (string(current * 1.001) - string(current * 0.999)) / (0.002 * current)
    resistance = theory.string_resistance(
        ideality=led["ideality"], series_resistance=led["series_resistance"], **values
    )
    assert resistance == pytest.approx(slope, rel=1e-5)  # central difference over a thousandth
    one = theory.dynamic_resistance(
        ideality=led["ideality"], series_resistance=led["series_resistance"], junction_current=current / in_parallel
    )
    assert resistance == pytest.approx(in_series * one / in_parallel, rel=1e-12)


def test_current_share_against_the_full_law():
    """Two LEDs without series resistance that differ by 30 mV at the same current, across one voltage."""
    first = {"forward_voltage": 2.97, "at_current": 0.020, "series_resistance": 0.0, "ideality": 2.0}
    second = first | {"forward_voltage": 3.0}
    voltage, thermal = 2.98, 0.025852
    currents = [
        theory.saturation_current(**led) * np.expm1(voltage / (led["ideality"] * thermal)) for led in (first, second)
    ]
    found = theory.current_share(ideality=2.0, forward_voltage_difference=0.03)
    assert found == pytest.approx(currents[0] / sum(currents), rel=1e-9)


def test_current_difference_against_the_full_law():
    first = WHITE | {"forward_voltage": 3.098}
    sat_first, sat_second = theory.saturation_current(**first), theory.saturation_current(**WHITE)
    each = 0.010
    voltage = optimize.brentq(
        lambda v: law(v, first, sat_first) + law(v, WHITE, sat_second) - 2 * each, 2.0, 4.0, xtol=1e-13
    )
    difference = law(voltage, first, sat_first) - law(voltage, WHITE, sat_second)
    resistance = theory.dynamic_resistance(ideality=2.0, series_resistance=9.0, junction_current=each)
    found = theory.current_difference(dynamic_resistance=resistance, forward_voltage_difference=0.002)
    assert found == pytest.approx(difference, rel=1e-3)  # straight lines for curves: 2 mV on some 100 mV of scale


def test_thermal_voltage_default():
    assert theory.thermal_voltage_at(absolute_temperature=300) == pytest.approx(0.025852, abs=5e-7)


# --- sensitivities ----------------------------------------------------------------------------------------------

POINT = {"frequency": 50.0, "dropper": 470e-9, "peak_voltage": 325.0, "clamped_voltage": 140.0}


@pytest.mark.parametrize(
    ("elasticity", "keyword"),
    [
        ("elasticity_to_dropper", "dropper"),
        ("elasticity_to_frequency", "frequency"),
        ("elasticity_to_peak_voltage", "peak_voltage"),
        ("elasticity_to_clamped_voltage", "clamped_voltage"),
    ],
)
def test_elasticities_against_central_differences(elasticity, keyword):
    up, down = (theory.mean_string_current(**POINT | {keyword: POINT[keyword] * k}) for k in (1.0001, 0.9999))
    slope = np.log(up / down) / np.log(1.0001 / 0.9999)
    assert theory.ALL[elasticity](**POINT) == pytest.approx(slope, rel=1e-7)


def test_current_rise_on_short():
    before = theory.mean_string_current(**POINT)
    after = theory.mean_string_current(**POINT | {"clamped_voltage": 140.0 - 3.1})
    found = theory.current_rise_on_short(peak_voltage=325.0, clamped_voltage=140.0, lost_voltage=3.1)
    assert found == pytest.approx(after / before - 1, rel=1e-9)


def test_load_line_and_its_slope():
    values = {"frequency": 50.0, "dropper": 1e-6, "peak_voltage": 325.0}
    current = np.linspace(0, 0.064, 14)
    line = theory.load_line(**values, string_current_mean=current)
    np.testing.assert_allclose(theory.mean_string_current(**values, clamped_voltage=line[1:]), current[1:], rtol=1e-9)
    slope = -np.diff(line) / np.diff(current)
    np.testing.assert_allclose(slope, theory.source_resistance(frequency=50.0, dropper=1e-6), rtol=1e-9)


# --- life -------------------------------------------------------------------------------------------------------


def test_life_halves_step_by_step():
    life = 2000.0
    for degrees in range(105, 165, 10):
        found = theory.electrolytic_life(rated_life=2000, rated_temperature=105, temperature=degrees)
        assert found == pytest.approx(life, rel=1e-12)
        life /= 2


@pytest.mark.parametrize(("temperatures", "hours"), [([40.0], [5.0]), ([60, 40, 60], [1, 2, 3]), ([300, 300], [1, 1])])
def test_mixed_temperature_wears_as_fast(temperatures, hours):
    def wear(degrees, time):
        return time * 2 ** (degrees / 10)

    found = theory.mixed_temperature(temperatures=temperatures, hours=hours)
    assert wear(found, sum(hours)) == pytest.approx(sum(map(wear, temperatures, hours)), rel=1e-9)


@pytest.mark.parametrize(
    ("temperatures", "hours", "message"),
    [
        ([], [], "at least one"),
        ([40], [1, 2], "as many"),
        ([40, 50], [1, 0], "above 0 h"),
        ([40, 50], [1, float("nan")], "above 0 h"),
        ([400, 50], [1, 1], "first_temperature = 400 °C"),
    ],
)
def test_mixed_temperature_refuses_nonsense(temperatures, hours, message):
    with pytest.raises(ValueError, match=message):
        theory.mixed_temperature(temperatures=temperatures, hours=hours)
