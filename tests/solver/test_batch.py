"""Batches of lamps and of their steady states: like lists, and like tables."""

import draws
import numpy as np
import pytest
from dropper import Lamp, replace_at, spread, steady_state, steady_states
from dropper.solver import cycles
from lamps_at_random import lamps_from_anywhere, random_lamps
from test_steady import STAIR, real

DROPPERS, VOLTS = np.array([220e-9, 330e-9, 470e-9]), np.array([2.9, 3.1, 3.3])
LAMPS = spread(STAIR, {"dropper": DROPPERS, "string.led.forward_voltage": VOLTS})
STATES = steady_states(LAMPS, 256, waveforms=True)


def test_a_lamp_of_a_spread_is_the_lamp_built_by_hand():
    by_hand = [
        replace_at(replace_at(STAIR, "dropper", c), "string.led.forward_voltage", v)
        for c, v in zip(DROPPERS, VOLTS, strict=True)
    ]
    assert list(LAMPS) == by_hand and LAMPS[-1] == by_hand[2] and len(LAMPS) == 3
    whole = spread(STAIR, {"string.in_series": [20, 22]})[0].string.in_series
    assert whole == 20 and isinstance(whole, int)


@pytest.mark.parametrize("place", [0, 2, -1])
def test_one_of_a_batch_is_what_the_lamp_alone_gives(place):
    drawn = [real(lamp) for lamp in random_lamps(3, seed=41)]
    one, alone = steady_states(drawn, 256, waveforms=True)[place], steady_state(drawn[place], 256)
    for name, value in vars(alone).items():
        found = getattr(one, name)
        assert type(found) is type(value), name
        if name == "lamp":
            assert found is drawn[place]
        else:
            np.testing.assert_equal(found, value, err_msg=name)


@pytest.mark.parametrize("key", [slice(1, None), slice(None, None, -1), [2, 0], np.array([True, False, True])])
def test_a_part_of_a_batch_holds_its_lamps(key):
    places = np.arange(3)[key]
    part = STATES[key]
    assert type(part) is type(STATES) and len(part) == len(places)
    np.testing.assert_array_equal(part.real_power, STATES.real_power[places])
    np.testing.assert_array_equal(part.line_current, STATES.line_current[places])
    assert [state.lamp for state in part] == [LAMPS[int(place)] for place in places]
    again = steady_states(LAMPS[key], 256)
    np.testing.assert_array_equal(again.real_power, part.real_power)


def test_out_of_range_is_refused_so_that_a_loop_ends():
    for batch in (LAMPS, STATES):
        with pytest.raises(IndexError):
            batch[3]
        with pytest.raises(IndexError):
            batch[-4]
    with pytest.raises(AttributeError, match="has no 'watts'; its columns are line_current_rms"):
        STATES.watts


def test_a_frame_has_a_column_for_every_number_and_its_unit():
    frame = STATES.to_frame()
    assert len(frame) == 3 and set(frame.attrs["units"]) == set(frame.columns)
    np.testing.assert_array_equal(frame["harmonic_currents.3"], STATES.harmonic_currents[:, 3])
    np.testing.assert_array_equal(frame["heat.leds"], STATES.heat["leds"])
    units = frame.attrs["units"]
    assert units["harmonic_currents.3"] == "A" and units["heat.leds"] == "W" and units["power_factor"] == ""
    heat = frame[[name for name in frame if name.startswith("heat.")]].sum(axis=1)
    np.testing.assert_allclose(heat, frame["real_power"], rtol=1e-6)
    assert "line_current" not in frame, "waves are no column"


def test_a_frame_of_lamps_says_what_they_are_made_of():
    frame = LAMPS.to_frame()
    np.testing.assert_array_equal(frame["dropper"], DROPPERS)
    assert frame.attrs["units"]["dropper"] == "F" and frame.attrs["units"]["string.led.at_current"] == "A"
    assert LAMPS.units["diode.slope_voltage"] == "V" and LAMPS.names[0] == "mains.voltage"


def test_batches_print_one_short_line():
    for batch in (LAMPS, STATES, steady_states([])):
        assert "\n" not in repr(batch) and len(repr(batch)) < 120
    assert "220 nF to 470 nF" in repr(LAMPS) and "3 lamps" in repr(STATES)


def test_a_lamp_of_a_list_is_handed_back_itself():
    lamps = [STAIR, replace_at(STAIR, "name", "other")]
    states = steady_states(lamps)
    assert states[1].lamp is lamps[1] and isinstance(states.lamps[0], Lamp)


@pytest.mark.parametrize("threads", [2, 5])
def test_readings_do_not_hang_on_the_number_of_threads(monkeypatch, threads):
    """To the last digit, dark lamps and lopsided mains too."""
    lamps = [*(real(drawn) for drawn in random_lamps(700, seed=42)), *lamps_from_anywhere(100, 43)]
    monkeypatch.setattr(cycles, "cores", lambda: 1)
    alone = steady_states(lamps, waveforms=True)
    monkeypatch.setattr(cycles, "cores", lambda: threads)
    together = steady_states(lamps, waveforms=True)
    for name in alone.names:
        np.testing.assert_array_equal(together.columns[name], alone.columns[name], err_msg=name)


def test_an_error_in_one_thread_is_heard(monkeypatch):
    def broken(part):
        if part.start == 256:
            raise MemoryError("no room for the waves")

    monkeypatch.setattr(cycles, "cores", lambda: 3)
    with pytest.raises(MemoryError, match="no room"):
        cycles.on_all_cores(broken, 2000, 256)


# A batch's 128 points against 4096, in per cent (flicker: points of per cent): 95 of 100 readings are nearer than the
# first figure, all are nearer than the second.
COARSE = {
    "spread of one lamp": {
        "string_current_mean": (0.05, 0.06),
        "string_current_max": (0.10, 0.15),
        "real_power": (0.07, 0.08),
        "line_current_rms": (0.13, 0.16),
        "power_factor": (0.06, 0.09),
        "bus_voltage_mean": (0.005, 0.01),
        "percent_flicker": (0.5, 1.2),
    },
    "lamps from all over": {
        "string_current_mean": (0.5, 5.0),
        "real_power": (0.8, 5.0),
        "line_current_rms": (0.9, 5.0),
        "power_factor": (0.5, 5.0),
        "bus_voltage_mean": (0.4, 1.0),
        "percent_flicker": (0.7, 2.5),
    },
}


@pytest.mark.slow
@pytest.mark.parametrize("kind", COARSE)
def test_a_batch_of_few_points_is_as_near_to_many_points_as_is_said(kind):
    chance, count = np.random.default_rng(draws.seed(44)), draws.examples(200)
    if kind == "lamps from all over":
        lamps = [real(drawn) for drawn in random_lamps(count, draws.seed(45))]
    else:
        names = {"dropper": 330e-9, "mains.voltage": 230.0, "string.led.forward_voltage": 3.1, "smoothing": 10e-6}
        lamps = spread(STAIR, {name: value * chance.uniform(0.9, 1.1, count) for name, value in names.items()})
    few, many = steady_states(lamps), steady_states(lamps, 4096)
    for name, (most, worst) in COARSE[kind].items():
        value, exact = getattr(few, name), getattr(many, name)
        off = np.abs(value - exact) if name == "percent_flicker" else 100 * np.abs(value / exact - 1)
        assert np.quantile(off, 0.95) <= most and off.max() <= worst, (name, np.quantile(off, 0.95), off.max())
