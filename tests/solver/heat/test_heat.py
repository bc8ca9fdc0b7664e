"""How warm a lamp gets: energy balance, a witness that solves the network as a matrix, and the feedback of the LEDs."""

import dataclasses
import math
from pathlib import Path

import numpy as np
import pytest
from draws import examples
from dropper import Lamp, steady_state, steady_states, theory
from dropper.circuit.lamp import replace_at
from dropper.components import kinds
from dropper.solver import heat
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import optimize

LAMPS = Path(__file__).resolve().parents[3] / "notebooks" / "lamps"
NAMES = ("stair_marker", "shelf_strip", "display_case")
MADE = {name: Lamp.from_toml(LAMPS / f"{name}.toml") for name in NAMES}
STEADY = {name: steady_state(lamp, 256) for name, lamp in MADE.items()}

ohmic = st.floats(0.5, 600)
surroundings = st.builds(
    heat.Surroundings,
    st.floats(-20, 50),
    st.floats(0, 30),
    st.fixed_dictionaries(
        dict.fromkeys(("inrush_resistor", "bleeder", "smoothing_bleeder", "series_resistor", "diodes", "leds"), ohmic)
    ),
    st.floats(0, 0.5),
)


@given(name=st.sampled_from(NAMES), around=surroundings)
def test_all_heat_that_goes_in_comes_out(name, around):
    """Energy balance: the flows, each worked out from temperatures alone, add up to the lamp's power."""
    result = STEADY[name]
    found = heat.temperatures(MADE[name], result, around)
    flows = [
        found.pieces[key] * (found.parts[key] - found.air) / around.to_air[key]
        for key in found.parts
        if key in around.to_air
    ]
    assert sum(flows) + found.light == pytest.approx(result.real_power, rel=1e-6)
    to_room = (
        (found.air - found.room) / around.enclosure_resistance if around.enclosure_resistance > 1e-3 else sum(flows)
    )
    assert to_room == pytest.approx(sum(flows), rel=1e-6)
    assert found.light == pytest.approx(around.light_share * result.heat["leds"])


@pytest.mark.parametrize("name", NAMES)
def test_temperatures_against_the_network_as_a_matrix(name):
    """A node for every piece, every single LED and diode, solved at once by numpy."""
    lamp, result, around = MADE[name], STEADY[name], heat.Surroundings.typical("vented", light_share=0.2)
    found = heat.temperatures(lamp, result, around)
    leds = lamp.string.in_series * lamp.string.in_parallel
    nodes = [("leds", 0.8 * result.heat["leds"] / leds)] * leds + [("diodes", result.heat["diodes"] / 4)] * 4
    nodes += [(key, result.heat[key]) for key in found.parts if key in around.to_air and key not in ("leds", "diodes")]
    conductance = np.array([1 / around.to_air[key] for key, _ in nodes])
    matrix = np.diag([*conductance, conductance.sum() + 1 / around.enclosure_resistance])
    matrix[-1, :-1] = matrix[:-1, -1] = -conductance
    solved = np.linalg.solve(matrix, [*(watts for _, watts in nodes), 25.0 / around.enclosure_resistance])
    assert found.air == pytest.approx(solved[-1], rel=1e-9)
    for (key, _), degrees in zip(nodes, solved, strict=False):
        assert found.parts[key] == pytest.approx(degrees, rel=1e-9)


@given(name=st.sampled_from(NAMES), around=surroundings, more=st.floats(1, 30))
def test_a_warmer_room_or_a_tighter_enclosure_warms_every_part(name, around, more):
    def warmth(where):
        return heat.temperatures(MADE[name], STEADY[name], where).parts

    plain = warmth(around)
    room = warmth(dataclasses.replace(around, room_temperature=around.room_temperature + more))
    tight = warmth(dataclasses.replace(around, enclosure_resistance=around.enclosure_resistance + more))
    for key, degrees in plain.items():
        assert room[key] == pytest.approx(degrees + more, abs=1e-9)
        assert tight[key] > degrees
    assert plain["dropper"] == plain["smoothing"] <= min(plain.values()) + 1e-9, "no part is cooler than the air"


def test_a_part_that_is_not_fitted_has_no_temperature():
    lamp = dataclasses.replace(MADE["stair_marker"], bleeder=None, inrush_resistor=0.0, smoothing_bleeder=None)
    found = heat.temperatures(lamp, steady_state(lamp, 128), heat.Surroundings.typical("open"))
    assert set(found.parts) == {"dropper", "diodes", "smoothing", "series_resistor", "leds"}
    assert found.air == 25.0, "an open board has no air of its own"


def test_resistors_by_their_derating_line():
    """Full power at 70 °C, none at 155 °C (makers' data sheets): half a watt is 170 K/W, and in air of 70 °C just 155 °C."""
    half = kinds.part("film 1/2 W")
    assert heat.resistor_to_air(half) == pytest.approx(170, rel=1e-12)
    assert heat.Surroundings.typical("open").to_air["bleeder"] == pytest.approx(170, rel=1e-12)
    warm = heat.warm_use(half, 112.5, kinds.COMMON_USE)
    assert warm.power == pytest.approx(0.25) and warm.voltage == 0.8
    with pytest.raises(ValueError, match="at 155 °C film 1/2 W is allowed no power any more"):
        heat.warm_use(half, 155.0)


def test_words_name_the_warmest_part():
    found = heat.temperatures(MADE["stair_marker"], STEADY["stair_marker"], heat.Surroundings.typical("open"))
    warmest = max(found.parts.values())
    assert f"The inrush resistor is the warmest, at {warmest:.3g} °C" in found.words
    cold = replace_at(MADE["stair_marker"], "mains.voltage", 10.0)
    cold = dataclasses.replace(cold, bleeder=None, smoothing_bleeder=None)
    dark = heat.temperatures(cold, steady_state(cold, 128), heat.Surroundings.typical("open"))
    assert dark.words == "Nothing gets warm: everything is at the 25 °C of the room."


# --- feedback ---------------------------------------------------------------------------------------------------


@settings(max_examples=examples(40))
@given(
    name=st.sampled_from(NAMES),
    around=surroundings,
    coefficient=st.floats(-5e-3, 0),
    reference=st.sampled_from([20.0, 25.0]),
)
def test_the_feedback_settles_on_a_temperature_that_makes_itself(name, around, coefficient, reference):
    """The LEDs' temperature gives their voltage, and that voltage the same temperature; the coefficient is the slope."""
    found = heat.warm_up(MADE[name], around, coefficient, reference_temperature=reference, points=128)
    assert len(found.rounds) <= 12
    stated, warm = MADE[name].string.led.forward_voltage, found.lamp.string.led.forward_voltage
    degrees = found.temperatures.parts["leds"]
    assert warm - stated == pytest.approx(coefficient * (degrees - reference), abs=5e-3 * 2e-4 + 1e-12)
    again = heat.temperatures(found.lamp, steady_state(found.lamp, 128), around)
    assert again.parts["leds"] == pytest.approx(degrees, abs=1e-9)


@pytest.mark.parametrize("coefficient", [-2e-3, -4e-3, -20e-3, 10e-3])
def test_the_feedback_against_a_bracketing_search(coefficient):
    """Brent's method on the same question, in a lamp with poor cooling; the steep coefficients try the search."""
    lamp, around = MADE["stair_marker"], heat.Surroundings.typical("enclosed", leds=600.0)

    def excess(degrees):
        volts = 3.1 + coefficient * (degrees - 25.0)
        warm = replace_at(lamp, "string.led.forward_voltage", volts)
        return heat.temperatures(warm, steady_state(warm, 128), around).parts["leds"] - degrees

    expected = optimize.brentq(excess, 25.0, 140.0, xtol=1e-6)
    found = heat.warm_up(lamp, around, coefficient, points=128)
    assert found.temperatures.parts["leds"] == pytest.approx(expected, abs=1e-3)


@pytest.mark.parametrize("name", NAMES)
def test_warmth_lowers_the_string_and_lets_more_current_through(name):
    lamp = MADE[name]
    runs = [heat.warm_up(lamp, heat.Surroundings.typical(where), -3e-3, points=128) for where in heat.ENCLOSURES]
    cold = steady_state(lamp, 128)
    volts = [cold.bus_voltage_mean, *(run.result.bus_voltage_mean for run in runs)]
    currents = [cold.string_current_mean, *(run.result.string_current_mean for run in runs)]
    assert volts == sorted(volts, reverse=True) and volts[0] > volts[-1]
    assert currents == sorted(currents) and currents[0] < currents[-1]
    # volts lost come back as current: 4fC for each by the load line, and what the smoothing bleeder no longer draws;
    # 4 %, for the two diodes, the inrush resistor and the ripple that the load line leaves out
    slope = 1 / theory.source_resistance(frequency=lamp.mains.frequency, dropper=lamp.dropper)
    slope += 1 / lamp.smoothing_bleeder
    assert currents[-1] - currents[0] == pytest.approx(slope * (volts[0] - volts[-1]), rel=0.04)


def test_without_a_coefficient_nothing_changes():
    found = heat.warm_up(MADE["stair_marker"], heat.Surroundings.typical("vented"), 0.0, points=256)
    assert found.lamp == MADE["stair_marker"] and len(found.rounds) == 2
    assert found.result.real_power == STEADY["stair_marker"].real_power


def test_junctions_of_a_package_add_their_coefficients():
    around = heat.Surroundings.typical("vented")
    one = heat.warm_up(MADE["display_case"], around, -6e-3, points=128)
    three = heat.warm_up(MADE["display_case"], around, -2e-3, junctions=3, points=128)
    assert three.result.string_current_mean == pytest.approx(one.result.string_current_mean, rel=1e-12)
    drop = MADE["display_case"].string.led.forward_voltage - one.lamp.string.led.forward_voltage
    assert f"drops {1e3 * drop:.3g} mV less than on its data sheet" in one.words


# --- complaints -------------------------------------------------------------------------------------------------

TYPICAL = heat.Surroundings.typical("open")


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (
            lambda: heat.Surroundings.typical("sealed"),
            "enclosure: 'sealed' is not kept here; choose from open, vented, enclosed",
        ),
        (lambda: heat.Surroundings.typical("open", fan=1), "fan: no field of surroundings and no part that warms"),
        (lambda: heat.Surroundings(), "Surroundings.to_air: needs K/W for each of inrush_resistor"),
        (lambda: heat.Surroundings.typical("open", leds=-1), "Surroundings.to_air['leds']: -1 K/W is out of range"),
        (
            lambda: heat.Surroundings.typical("open", room_temperature=400),
            "Surroundings.room_temperature: 400 °C is out of",
        ),
        (
            lambda: heat.Surroundings.typical("open", light_share=0.9),
            "light_share: 0.9 is out of range; allowed is 0 to 0.6",
        ),
        (
            lambda: heat.temperatures(MADE["stair_marker"], STEADY["stair_marker"], 25.0),
            "surroundings: 25.0 will not do",
        ),
        (
            lambda: heat.temperatures(MADE["stair_marker"], steady_states([MADE["stair_marker"]]), TYPICAL),
            "one at a time",
        ),
        (lambda: heat.warm_up(MADE["stair_marker"], TYPICAL, 2.0), "coefficient: 2 V/K is out of range"),
        (lambda: heat.warm_up(MADE["stair_marker"], TYPICAL, -3e-3, junctions=0), "junctions = 0 is not allowed"),
        (
            lambda: heat.warm_up(MADE["stair_marker"], TYPICAL, -3e-3, reference_temperature=math.inf),
            "not a finite number in °C",
        ),
        (
            lambda: heat.warm_up(MADE["stair_marker"], heat.Surroundings.typical("open", leds=10000.0), -1e-4),
            "junction_temperature = ",
        ),
    ],
)
def test_errors_speak_to_a_person(call, words):
    with pytest.raises(ValueError) as caught:
        call()
    assert words in str(caught.value)
