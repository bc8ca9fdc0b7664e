"""Batches of lamps and of their steady states: like lists, and like tables."""

import numpy as np
import pytest
from dropper import Lamp, replace_at, spread, steady_state, steady_states
from lamps_at_random import random_lamps
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
