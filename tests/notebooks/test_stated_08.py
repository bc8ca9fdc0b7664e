"""Figures that lesson 08 states, and what its text says of them, by the solver and by the formulas."""

import functools

import pytest
from dropper import Lamp, replace_at, steady_state, theory
from dropper.lessons.ageing.view import Ageing, view_of
from dropper.solver import heat

LAMP = Lamp.from_toml("notebooks/lamps/stair_marker.toml")


@functools.cache
def new():
    return steady_state(LAMP)


@functools.cache
def warm():
    return heat.warm_up(LAMP, heat.Surroundings.typical("enclosed"), coefficient=-3e-3)


def test_a_faded_dropper_leaves_the_power_factor_as_it_is():
    old = steady_state(replace_at(LAMP, "dropper", 0.6 * LAMP.dropper))
    assert abs(old.power_factor / new().power_factor - 1) < 0.06 and abs(old.power_factor - new().power_factor) < 0.02


@pytest.mark.parametrize(("degrees", "printed"), [(45, 64_000), (55, 32_000), (65, 16_000)])
def test_the_makers_example_of_a_life(degrees, printed):
    """Cosel FAQ a0057: 1000 h at 105 °C."""
    hours = theory.electrolytic_life(rated_life=1000, rated_temperature=105, temperature=degrees)
    assert round(hours) == printed


def test_the_makers_mixed_day():
    """The same maker: eight hours at each of 45, 55 and 65 °C wear as much as 57.2 °C all the time."""
    mixed = theory.mixed_temperature(temperatures=[45.0, 55.0, 65.0], hours=[8.0, 8.0, 8.0])
    assert round(mixed, 1) == 57.2


def test_the_warm_lamp_has_a_little_more_current_and_a_power_factor_of_26_hundredths():
    change = warm().result.string_current_mean / new().string_current_mean - 1
    assert 0 < change < 0.02
    assert [round(seen.power_factor, 2) for seen in (new(), warm().result)] == [0.27, 0.26]


def test_the_heat_of_the_smoothing_capacitors_ripple_is_a_few_milliwatts():
    ripple = theory.dropper_loss(  # of any capacitor: here the smoothing capacitor at twice the mains frequency
        frequency=100, dropper=LAMP.smoothing, dropper_voltage_rms=new().bus_voltage.std(), dissipation_factor=0.2
    )
    assert 3e-3 < ripple < 5e-3


def test_what_flows_through_the_case_is_what_comes_from_the_mains():
    found = warm().temperatures
    through = (found.air - found.room) / heat.Surroundings.typical("enclosed").enclosure_resistance
    assert abs(through / warm().result.real_power - 1) < 1e-3
    assert abs(sum(found.heat.values()) - through) < 1e-9


def test_a_tight_case_costs_the_smoothing_capacitor_three_quarters_of_its_life_and_ten_degrees_half():
    open_, tight = view_of(Ageing(LAMP, enclosure=0.0)), view_of(Ageing(LAMP, enclosure=15.0))
    gained = tight.warm_lamp.temperatures.air - open_.warm_lamp.temperatures.air
    assert 18 < gained < 22 and 0.2 < tight.life.hours / open_.life.hours < 0.3
    warmer = view_of(Ageing(LAMP, room=35.0))
    assert abs(warmer.life.hours / tight.life.hours - 0.5) < 0.01


def test_at_ten_per_cent_a_year_half_is_gone_in_the_seventh_year():
    left = [theory.remaining_capacitance(dropper=1e-6, loss_each_year=0.1, years=years) for years in (6, 7)]
    assert left[0] > 0.5e-6 > left[1]


def test_the_inrush_resistor_changes_the_power_factor():
    factors = [steady_state(replace_at(LAMP, "inrush_resistor", ohms)).power_factor for ohms in (0.0, 2200.0)]
    assert [round(factor, 2) for factor in factors] == [0.24, 0.44]
