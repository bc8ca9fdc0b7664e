"""What lesson 03 states in figures and in words, held to the library."""

from pathlib import Path

import numpy as np
import pytest
from dropper import Lamp, replace_at, steady_state, theory
from dropper.lessons.conduction.open_diode import open_diode_case
from dropper.lessons.conduction.view import Moment, view_of
from dropper.results import explain
from dropper.solver.transient import Fault, with_fault

LAMPS = Path(__file__).resolve().parents[2] / "notebooks" / "lamps"
STAIR = Lamp.from_toml(LAMPS / "stair_marker.toml")
PEAK = STAIR.mains.peak


def held(lamp=STAIR):
    """The mains' peak and the clamped voltage."""
    return {"peak_voltage": PEAK, "clamped_voltage": explain.clamped_voltage(lamp, steady_state(lamp))}


def at(phase, lamp=STAIR):
    return view_of(Moment(lamp, phase))


def test_at_the_crest_the_line_current_is_about_to_stop():
    result = steady_state(STAIR)
    angles = 360 * STAIR.mains.frequency * result.time
    assert np.interp(90, angles, result.line_current, period=360) < 0.06 * result.line_current_peak


def test_start_and_length_on_the_solver_s_curve_lie_near_what_is_derived():
    view = at(40.0)
    assert view.start == pytest.approx(np.degrees(theory.conduction_start(**held())), abs=3)
    assert view.end - view.start == pytest.approx(np.degrees(theory.conduction_angle(**held())), abs=6)
    assert view.start < 0, "with a short string it begins before the rise through zero"


def test_without_line_resistance_and_ripple_the_gap_shrinks():
    gaps = []
    for lamp in (STAIR, replace_at(replace_at(STAIR, "inrush_resistor", 0.0), "smoothing", 1e-3)):
        view = at(40.0, lamp)
        gaps.append(view.end - view.start - np.degrees(theory.conduction_angle(**held(lamp))))
    assert abs(gaps[1]) < 2 < abs(gaps[0])


def test_the_current_added_up_gives_the_charge():
    edges = np.linspace(theory.conduction_start(**held()), np.pi / 2, 20_001)
    middle = (edges[1:] + edges[:-1]) / 2
    current = theory.line_current_at(frequency=50, dropper=STAIR.dropper, peak_voltage=PEAK, phase=middle)
    charge = np.sum(current * np.diff(edges)) / (2 * np.pi * 50)
    assert charge == pytest.approx(theory.charge_per_half_cycle(dropper=STAIR.dropper, **held()), rel=1e-6)


def test_a_third_of_the_169_microcoulombs_is_through_at_0_nearly_all_at_84_and_all_at_96_degrees():
    view = at(0.0)
    assert 0.3 < view.charge / view.charge_whole < 0.4 and round(1e6 * view.charge_whole) == 169
    assert at(84.0).charge > 0.98 * view.charge_whole
    assert at(96.0).charge == pytest.approx(view.charge_whole, rel=1e-3)


def test_the_start_lies_at_0_with_54_leds_which_hold_half_of_the_peak():
    longer = replace_at(STAIR, "string.in_series", 54)
    assert abs(at(0.0, longer).start) < 1.5
    assert held(longer)["clamped_voltage"] / PEAK == pytest.approx(0.5, abs=0.01)


def test_a_larger_dropper_moves_the_charge_and_hardly_the_start():
    larger = at(0.0, replace_at(STAIR, "dropper", 1e-6))
    assert abs(larger.start - at(0.0).start) < 4 and larger.charge_whole > 2.5 * at(0.0).charge_whole


def test_between_two_stretches_the_dropper_holds_256_V():
    assert round(PEAK - held()["clamped_voltage"]) == 256
    assert at(110.0).conducting == "" and at(110.0).dropper_voltage == pytest.approx(256, abs=4)
    assert steady_state(STAIR).dropper_voltage_peak > 200


def test_without_smoothing_the_leds_go_dark_between_two_stretches():
    assert not at(120.0, replace_at(STAIR, "smoothing", 0.0)).lit and at(120.0).lit


def test_with_half_of_the_peak_the_ideal_bridge_conducts_for_90_degrees():
    half = theory.conduction_angle_from_fraction(clamped_fraction=0.5)
    assert round(float(np.degrees(half)), 6) == 90


# One diode open


@pytest.mark.parametrize("name", ["stair_marker", "shelf_strip", "display_case", "classroom_twin"])
def test_one_open_diode_makes_the_lamp_dark_and_leaves_the_dropper_charged(name):
    lamp = Lamp.from_toml(LAMPS / f"{name}.toml")
    outcome, right = open_diode_case(lamp)
    assert right == "dark" and "in place of" in outcome
    result = steady_state(with_fault(lamp, Fault("open", "D1")))
    assert result.dark and abs(result.dropper_voltage).min() > 0.7 * lamp.mains.peak


def test_without_its_bleeder_the_dropper_charges_to_the_peak_and_nothing_flows():
    """A capacitor passes no direct current: the mean of the line current is zero, so with one way left it is nought."""
    bare = replace_at(STAIR, "bleeder", None)
    result = steady_state(with_fault(bare, Fault("open", "D1")))
    assert abs(result.dropper_voltage).min() == pytest.approx(PEAK, rel=0.01)
    assert result.line_current_rms < 1e-6
