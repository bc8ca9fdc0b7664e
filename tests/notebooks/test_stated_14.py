"""What lesson 14 states in figures and in words, held to the library."""

import numpy as np
import pytest
from dropper import Lamp, Mains, steady_state, theory
from dropper.circuit.mains_shapes import SteppedWave
from dropper.lessons.ghost_light.view import OffLamp
from dropper.lessons.ghost_light.view import view_of as off
from dropper.lessons.odd_mains.view import Supply, dimmer_verdict, meter_verdict, view_of
from dropper.lessons.surge.view import outcome
from dropper.results.explain import clamped_voltage
from dropper.solver.surge import Varistor, surge

STAIR = Lamp.from_toml("notebooks/lamps/stair_marker.toml")


def test_on_the_inverter_the_light_stays_an_ampere_flows_and_R1_burns():
    """22 to 92 mA and 0.10 to 1.9 W: by this workbook's solver and by its independent reference."""
    view = view_of(Supply(STAIR, "stepped"))
    assert abs(view.light - 1) < 0.03 and view.heat == pytest.approx(view.line**2, rel=0.01)
    assert round(1e3 * view.on_sine.line_current_rms) == 22 and round(1e3 * view.result.line_current_rms) == 92
    assert view.result.heat["inrush_resistor"] == pytest.approx(1.87, abs=0.02)
    assert view.result.line_current_peak == pytest.approx(1.0, abs=0.1)


def test_a_meter_without_true_rms_shows_a_fifth_of_the_line_current():
    view = view_of(Supply(STAIR, "stepped"))
    shown = np.abs(view.result.line_current).mean() * np.pi / (2 * np.sqrt(2))
    assert shown / view.result.line_current_rms == pytest.approx(0.2, abs=0.02)
    assert meter_verdict(STAIR)[0] == "less"


def test_a_dimmer_leaves_the_light_while_the_crest_is_left_and_heats_R1():
    assert dimmer_verdict(STAIR)[0] == "same"
    assert view_of(Supply(STAIR, "leading", 45)).heat > 5
    assert view_of(Supply(STAIR, "leading", 120)).light < 0.8


def test_a_larger_R1_takes_the_same_heat_when_the_edges_are_steep():
    """By hand: 330 nF · 50 Hz · (2·325² - 4·325·69 + 4·69²) V² = 2.32 W."""
    held = clamped_voltage(STAIR, steady_state(STAIR))
    assert held == pytest.approx(69, abs=0.5)
    formula = theory.edge_heat(dropper=STAIR.dropper, frequency=50, top_voltage=325, clamped_voltage=69)
    assert formula == pytest.approx(2.32, abs=0.01)
    shape = Mains(230, 50, shape=SteppedWave(edge=1e-6))
    for ohms in (220.0, 440.0):
        found = steady_state(STAIR.replace(mains=shape, inrush_resistor=ohms)).heat["inrush_resistor"]
        assert found == pytest.approx(formula, rel=0.06), ohms


def test_a_flat_top_costs_a_few_per_cent_of_the_light():
    assert 0.93 < view_of(Supply(STAIR, "flat")).light < 0.97


def test_an_off_lamp_glows_by_its_cable_and_a_bleeder_ends_it():
    bare = OffLamp(STAIR.replace(smoothing_bleeder=None))
    assert off(bare).seen
    assert not off(OffLamp(STAIR.replace(smoothing_bleeder="100 kΩ"))).seen


def test_R1_takes_most_of_a_surge_and_a_kilowatt_for_an_instant():
    assert outcome(STAIR)[0] == "resistor"
    found = surge(STAIR)
    assert np.abs(found.line_current).max() ** 2 * STAIR.inrush_resistor > 1000


def test_a_varistor_passes_next_to_nothing_at_the_crest_and_hundreds_of_amperes_at_a_surge():
    assert abs(Varistor().current(STAIR.mains.peak)) < 1e-4
    bare, saved = surge(STAIR, 2000), surge(STAIR, 2000, Varistor())
    assert saved.varistor_current.max() > 200 and saved.resistor_energy < bare.resistor_energy / 5


def test_a_lost_neutral_burns_the_varistor():
    """400 V, two phases in place of one and the neutral: watts where a disc stands a fraction of one."""
    volts = 400 * np.sqrt(2) * np.sin(2 * np.pi * np.arange(2000) / 2000)
    assert (volts * Varistor().current(volts)).mean() > 5


def test_a_resistor_in_place_of_the_dropper_burns_three_quarters_of_the_watts():
    """The mean of (v - D)/R where v is above D, integrated here; it must be the lamp's string current."""
    held, angle = 69.08, np.linspace(0, np.pi, 20001)
    volts = STAIR.mains.peak * np.sin(angle)
    over = np.maximum(volts - held, 0)
    ohms = np.trapezoid(over, angle) / np.pi / steady_state(STAIR).string_current_mean
    watts, burnt = (np.trapezoid(across * over / ohms, angle) / np.pi for across in (volts, over))
    assert watts == pytest.approx(4.5, abs=0.05) and burnt == pytest.approx(3.4, abs=0.05)
    assert burnt / watts == pytest.approx(0.75, abs=0.01)
    assert watts / (230 * np.sqrt(np.trapezoid(over**2, angle) / np.pi) / ohms) > 0.98, "a power factor near one"
