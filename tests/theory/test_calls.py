"""Calls: what goes in is checked and named, and what comes out keeps the shape of what went in."""

import inspect
import math

import numpy as np
import pytest
from draws import examples
from dropper import theory
from dropper.theory.engine.derivation import Derivation
from dropper.theory.engine.quantities import quantity_text
from for_every import for_every
from hypothesis import given, settings
from hypothesis import strategies as st

# Values that every derivation can be called with: one mains, one lamp.
LAMP = {
    "frequency": 50.0,
    "angular_frequency": 314.16,
    "time": 1e-3,
    "voltage": 230.0,
    "peak_voltage": 325.0,
    "dropper": 470e-9,
    "bleeder": 1e6,
    "inrush_resistor": 220.0,
    "line_inductance": 8e-4,
    "smoothing": 10e-6,
    "clamped_voltage": 120.0,
    "top_voltage": 325.0,
    "dwell": 0.5,
    "cut_angle": 1.2,
    "clamped_fraction": 0.37,
    "string_voltage": 118.0,
    "diode_voltage": 0.8,
    "output_voltage": 24.0,
    "bus_voltage": 118.0,
    "dropper_voltage": 250.0,
    "lost_voltage": 3.1,
    "crest_current": 0.048,
    "string_current_mean": 0.015,
    "smoothing_bleeder_current": 0.0,  # its default
    "conduction_angle": 1.8,
    "initial_voltage": 325.0,
    "limit_voltage": 34.0,
    "step_voltage": 325.0,
    "greatest_current": 2.5,
    "string_resistance": 180.0,
    "absolute_temperature": 300.0,
    "ideality": 2.0,
    "saturation_current": 1e-20,
    "series_resistance": 9.0,
    "forward_voltage": 3.1,
    "at_current": 0.02,
    "junction_current": 0.015,
    "junction_voltage": 3.0,
    "in_series": 22,
    "in_parallel": 1,
    "forward_voltage_difference": 0.05,
    "dynamic_resistance": 12.0,
    "rated_life": 2000.0,
    "temperature": 65.0,
    "rated_temperature": 105.0,
    "first_temperature": 45.0,
    "second_temperature": 65.0,
    "first_share": 0.5,
    "boltzmann_constant": 1.380649e-23,
    "elementary_charge": 1.602176634e-19,
    "thermal_voltage": 0.025852,
    "doubling_interval": 10.0,
    "load_resistance": 3300.0,
    "body_resistance": 1000.0,
    "reactance": 6773.0,
    "load_voltage": 90.0,
    "phase": 0.7,
    "line_current_rms": 0.021,
    "dropping_resistor": 8200.0,
    "string_current_rms": 0.0155,
    "series_resistor": 22.0,
    "smoothing_bleeder": 330e3,
    "dropper_voltage_rms": 190.0,
    "dissipation_factor": 1e-3,
    "string_current_max": 0.019,
    "string_current_min": 0.011,
    "current_modulation": 0.27,
    "real_power": 1.8,
    "reactive_power": 4.6,
    "current_distortion_power": 1.3,
    "hours_a_year": 2920.0,
    "price_of_energy": 0.31,
    "visible_modulation": 0.75,
    "displacement_factor": 0.3,
    "phase_error": 0.017,
    "rectified_mean": 0.9,
    "unloaded_voltage": 67.0,
    "source_resistance": 1e5,
    "input_resistance": 10e6,
    "resistance": 1e6,
    "rated_power": 0.25,
    "limiting_voltage": 250.0,
    "full_power_temperature": 50.0,
    "no_power_temperature": 155.0,
    "surge_current": 30.0,
    "surge_time": 8.3e-3,
    "heat_flow": 0.1,
    "thermal_resistance": 170.0,
    "square_metres": 0.0288,
    "inner_film": 0.125,
    "wall_film": 0.01,
    "outer_film": 0.1,
    "room_temperature": 25.0,
    "enclosure_heat": 1.6,
    "enclosure_resistance": 6.0,
    "junctions": 1,
    "voltage_coefficient": -3e-3,
    "junction_temperature": 60.0,
    "reference_temperature": 25.0,
    "years": 5.0,
    "loss_each_year": 0.02,
    "kept_fraction": 0.9,
    "voltage_tolerance": 0.1,
    "dropper_tolerance": 0.1,
    "frequency_tolerance": 0.01,
    "clamped_tolerance": 0.12,
    "tolerance": 0.1,
    "share_below": 0.06,
    "share_above": 0.1,
    "filament_voltage": 230.0,
    "filament_rating": 40.0,
    "hot_temperature": 2700.0,
    "cold_temperature": 298.0,
    "filament_temperature": 1200.0,
    "filament_exponent": 1.2,
    "conducted_share": 0.15,
    "opened": 0,
    "branch_resistor": 47.0,
    "branch_resistance": 60.0,
    "imbalance": 0.1,
    "forward_voltage_deviation": 0.05,
    "second_in_series": 6,
    "second_forward_voltage": 2.0,
    "times_leds": 1.5,
}
NAMES = list(theory.ALL)
# Where the lamp's own values are out of a formula's range: with its resistor nothing rings.
OTHERS = {name: {"inrush_resistor": 10.0} for name in ("ringing_inrush_peak", "dropper_overshoot")}


def values_for(name):
    return {keyword: LAMP[keyword] for keyword in theory.ALL[name].keywords} | OTHERS.get(name, {})


def every_value():
    return [(name, line.keyword) for name in NAMES for line in theory.ALL[name].inputs]


def every_wrong_value():
    return [(*case, wrong) for case in every_value() for wrong in (math.nan, math.inf, -math.inf, 1e30)]


@for_every(NAMES)
def test_numbers_give_a_float(name):
    found = theory.ALL[name](**values_for(name))
    assert type(found) is float and math.isfinite(found)


@for_every(every_value)
def test_arrays_keep_their_shape(name, keyword):
    """Also where the result does not depend on that value, or on any."""
    values = values_for(name)
    grid = np.full((3, 2), values[keyword])
    found = theory.ALL[name](**values | {keyword: grid})
    assert found.shape == (3, 2) and found.flags.writeable
    np.testing.assert_allclose(found, theory.ALL[name](**values), rtol=1e-12)


def test_arrays_are_broadcast():
    peaks, clamped = np.array([[300.0], [325.0], [350.0]]), np.array([50.0, 100.0])
    found = theory.mean_string_current(frequency=50, dropper=1e-6, peak_voltage=peaks, clamped_voltage=clamped)
    np.testing.assert_allclose(found, 4 * 50 * 1e-6 * (peaks - clamped), rtol=1e-12)


def test_lists_and_integers_will_do_and_nothing_is_changed():
    clamped = np.array([50, 100])
    found = theory.power_factor(clamped_fraction=[0.1, 0.5])
    assert found.shape == (2,)
    theory.dropper_voltage_peak(peak_voltage=325, clamped_voltage=clamped)
    np.testing.assert_array_equal(clamped, [50, 100])


@for_every(every_value)
def test_a_missing_value_is_named(name, keyword):
    derivation, values = theory.ALL[name], values_for(name)
    del values[keyword]
    if next(line for line in derivation.inputs if line.keyword == keyword).default is None:
        with pytest.raises(TypeError, match=rf"{name}\(\) expects .*missing: {keyword}"):
            derivation(**values)
    else:
        assert derivation(**values) == pytest.approx(derivation(**values_for(name)))


@for_every(NAMES)
def test_an_unknown_keyword_is_named_with_what_is_expected(name):
    derivation = theory.ALL[name]
    with pytest.raises(TypeError) as caught:
        derivation(**values_for(name), frequenzy=50.0)
    assert "unknown: frequenzy" in str(caught.value)
    assert all(keyword in str(caught.value) for keyword in derivation.keywords)


def test_the_signature_has_the_values_by_name_for_completion_and_help():
    values = inspect.signature(theory.saturation_current).parameters
    assert list(values) == ["ideality", "thermal_voltage", "series_resistance", "forward_voltage", "at_current"]
    assert {value.kind for value in values.values()} == {inspect.Parameter.KEYWORD_ONLY}
    assert {value.annotation for value in values.values()} == {float | np.ndarray}
    assert values["thermal_voltage"].default == 0.025852
    assert values["ideality"].default is inspect.Parameter.empty
    for name in NAMES:
        assert tuple(inspect.signature(theory.ALL[name]).parameters) == theory.ALL[name].keywords, name
        assert set(theory.ALL[name].keywords) <= set(inspect.signature(theory.ALL[name].working).parameters), name
    assert list(inspect.signature(Derivation).parameters)[:2] == ["name", "title"], "the class keeps its own"


def test_a_wrong_call_says_in_words_what_is_wanted():
    reactance = theory.dropper_reactance
    wanted = r"takes its values by name: write dropper_reactance\(frequency=…, dropper=…\)"
    for call in (reactance, reactance.working):
        with pytest.raises(TypeError, match=wanted):
            call(50.0, 330e-9)
        with pytest.raises(
            TypeError, match=r"missing: dropper \(capacitance of the dropper; above 0 F, up to 100 mF\)"
        ):
            call(frequency=50.0)
        with pytest.raises(TypeError, match=r"unknown: frequenzy \(is frequency meant\?\)"):
            call(frequenzy=50.0, dropper=330e-9)
    with pytest.raises(TypeError, match=r"form_factor_of_sine\(\) takes no values: write form_factor_of_sine\(\)"):
        theory.form_factor_of_sine(1.0)


@for_every(every_wrong_value)
def test_what_is_no_value_is_refused_with_field_value_and_range(name, keyword, wrong):
    derivation, values = theory.ALL[name], values_for(name)
    line = next(line for line in derivation.inputs if line.keyword == keyword)
    for value in (wrong, np.array([values[keyword], wrong])):
        with pytest.raises(ValueError) as caught:
            derivation(**values | {keyword: value})
        message = str(caught.value)
        assert message.startswith(f"{keyword} = {quantity_text(wrong, line.unit)} is not allowed")
        assert line.allowed in message and line.meaning in message


@pytest.mark.parametrize("wrong", ["5", "fifty", None, True, 1j, [1, "2"], object()])
def test_what_is_no_number_is_refused(wrong):
    with pytest.raises(TypeError, match="voltage must be a number or an array of numbers in V"):
        theory.peak_voltage(voltage=wrong)


def test_whole_numbers():
    with pytest.raises(ValueError, match="in_series = 2.5 is not allowed: .*a whole number, from 1, up to 1000"):
        theory.string_voltage(**values_for("string_voltage") | {"in_series": 2.5})


def test_shapes_that_do_not_go_together():
    with pytest.raises(ValueError, match=r"these shapes do not go together: frequency \(2,\), dropper \(3,\)"):
        theory.dropper_reactance(frequency=[50.0, 60.0], dropper=[1e-6, 2e-6, 3e-6])


voltages = st.floats(0.0, 1500.0, allow_subnormal=False)


@st.deferred
def with_clamp():
    return st.sampled_from(
        [name for name in NAMES if {"peak_voltage", "clamped_voltage"} <= set(theory.ALL[name].keywords)]
    )


@settings(max_examples=examples(200))
@given(name=with_clamp, peak=st.floats(0.01, 1500.0), clamped=voltages)
def test_a_mains_that_never_reaches_the_clamp_is_explained(name, peak, clamped):
    values = values_for(name) | {"peak_voltage": peak, "clamped_voltage": clamped, "lost_voltage": clamped / 2}
    values = {keyword: values[keyword] for keyword in theory.ALL[name].keywords}
    if clamped >= peak:
        with pytest.raises(ValueError, match="clamped_voltage is below peak_voltage.*the mains never reaches"):
            theory.ALL[name](**values)
    elif 1e-6 < clamped < 0.999 * peak and len(theory.ALL[name].conditions) == 1:  # some ask for more than that
        assert math.isfinite(theory.ALL[name](**values))


@settings(max_examples=examples(100))
@given(frequency=st.floats(allow_nan=True, allow_infinity=True), dropper=st.floats(allow_nan=True, allow_infinity=True))
def test_any_float_gives_a_number_or_a_named_error(frequency, dropper):
    try:
        found = theory.dropper_reactance(frequency=frequency, dropper=dropper)
    except ValueError as error:
        assert "frequency = " in str(error) or "dropper = " in str(error)
    else:
        assert math.isfinite(found) and found > 0


@pytest.mark.parametrize(
    ("name", "changed", "reason"),
    [
        ("half_wave_current", {"output_voltage": 700.0}, "the swing of the mains never reaches the output"),
        ("load_line", {"string_current_mean": 1.0}, "more than into a short circuit cannot be had"),
        ("discharge_time", {"limit_voltage": 325.0}, "there is nothing to wait for"),
        ("string_voltage", {"string_current_mean": 0.0}, "the logarithm has no value without current"),
        ("saturation_current", {"series_resistance": 1e3}, "the series resistance alone would drop more"),
        ("bus_voltage_open", {"peak_voltage": 1.0}, "the mains never reaches the drops of two diodes"),
        ("current_rise_on_short", {"lost_voltage": 120.0}, "cannot have dropped all of the clamped voltage or more"),
        ("mean_string_current_from_crest", {"clamped_voltage": 900.0}, "the mains never reaches the clamped voltage"),
    ],
)
def test_every_relation_says_why(name, changed, reason):
    with pytest.raises(ValueError, match=reason):
        theory.ALL[name](**values_for(name) | changed)


def test_a_relation_names_the_first_offender_of_an_array():
    with pytest.raises(ValueError, match="340 V is not below 325 V"):
        theory.dropper_voltage_peak(peak_voltage=325.0, clamped_voltage=[100.0, 340.0, 360.0])


def test_short_circuit_end_of_the_load_line():
    current = 4 * 50 * 1e-6 * 325.0
    found = theory.load_line(frequency=50, dropper=1e-6, peak_voltage=325.0, string_current_mean=current)
    assert found == pytest.approx(0, abs=1e-9)


def test_beyond_floating_point_is_an_error_and_no_nan():
    with pytest.raises(ValueError, match="cannot be computed"):
        theory.saturation_current(forward_voltage=100.0, at_current=1e-3, series_resistance=0.0, ideality=1.0)
