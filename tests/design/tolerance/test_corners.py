"""Corners: solved rightly, beyond everything between, named in words."""

from types import SimpleNamespace

import numpy as np
import pytest
from draws import examples
from dropper import Lamp, replace_at, spread, steady_state, steady_states, theory
from dropper.design import tolerance
from dropper.design.tolerance import HUMPED, KEYS, Spread, corners
from hypothesis import given, settings
from hypothesis import strategies as st
from reference import reference

STAIR = Lamp.from_toml("notebooks/lamps/stair_marker.toml")
SHELF = Lamp.from_toml("notebooks/lamps/shelf_strip.toml")
ONE_WAY = tuple(key for key in KEYS if key not in HUMPED)
ROUNDING = 1e-3  # of the reading: what 128 points a period leave


def at(lamp, spread_, factors):
    """Readings of lamps at values over the nominal ones, a row for each."""
    changes = {}
    for column, axis in enumerate(spread_.axes(lamp)):
        changes |= axis.changes(factors[:, column])
    return steady_states(spread(spread_.centre(lamp), changes))


@pytest.mark.parametrize("key", ["string_current_mean", "real_power"])
@pytest.mark.parametrize("end", [0, 1], ids=["least", "greatest"])
def test_a_corner_is_what_a_general_integrator_finds_there(key, end):
    """SciPy's Radau on the smooth laws (tests/solver/reference.py): 1 %, and 2 % on the coarse grid of a batch."""
    found = corners(STAIR, Spread.of(STAIR))
    row = int((np.argmin, np.argmax)[end](found.readings[key]))
    lamp = found.spread.centre(STAIR)
    for axis, factor in zip(found.axes, found.factors[row], strict=True):
        for path, nominal in axis.paths:
            lamp = replace_at(lamp, path, nominal * factor)
    witness = reference(SimpleNamespace(**{name: getattr(lamp, name) for name in lamp.__dataclass_fields__}), rtol=1e-6)
    for name in ("string_current_mean", "real_power", "line_current_rms", "power_factor", "bus_voltage_mean"):
        assert found.readings[name][row] == pytest.approx(witness[name], rel=0.02), name
        assert getattr(steady_state(lamp), name) == pytest.approx(witness[name], rel=0.01), name
    assert found.readings["percent_flicker"][row] == pytest.approx(witness["percent_flicker"], abs=3)
    assert (found.of(key).least, found.of(key).greatest)[end] == found.readings[key][row]


@settings(max_examples=examples(25))
@given(
    groups=st.integers(2, 80),
    dropper=st.floats(100e-9, 2e-6),
    smoothing=st.sampled_from([0.0, 2e-6, 10e-6, 1e-4]),
    tolerance_=st.sampled_from([0.05, 0.10, 0.20]),
    seed=st.integers(0, 2**31),
)
def test_nothing_between_the_ends_is_beyond_the_corners(groups, dropper, smoothing, tolerance_, seed):
    lamp = STAIR
    for path, value in (("string.in_series", groups), ("dropper", dropper), ("smoothing", smoothing)):
        lamp = replace_at(lamp, path, value)
    spread_ = Spread.of(lamp, dropper=tolerance_)
    found = corners(lamp, spread_)
    chance = np.random.default_rng(seed)
    inside = at(lamp, spread_, np.stack([chance.uniform(axis.low, axis.high, 200) for axis in found.axes], 1))
    for key in KEYS:
        values, extreme = getattr(inside, key), found.of(key)
        margin = (ROUNDING if key in ONE_WAY else 5 * ROUNDING) * abs(extreme.greatest)
        margin += 0.5 if key == "percent_flicker" else 0.0  # points: sampled at 128 places of a period
        assert extreme.least - margin <= values.min() and values.max() <= extreme.greatest + margin, key
        assert extreme.least <= extreme.nominal <= extreme.greatest or key in HUMPED


def test_power_and_power_factor_have_their_worst_between_the_ends():
    """Power is greatest at D = Vp/2, power factor near 0.775: with such strings the corners alone would miss it."""
    for groups, key in ((52, "real_power"), (77, "power_factor")):
        lamp = replace_at(STAIR, "string.in_series", groups)
        extreme = corners(lamp, Spread.of(lamp)).of(key)
        assert extreme.inside and "between the ends" in extreme.words
        assert extreme.greatest > corners(lamp, Spread.of(lamp)).readings[key].max()
    assert not any(corners(STAIR, Spread.of(STAIR)).of(key).inside for key in KEYS)


@pytest.mark.parametrize("lamp", [STAIR, SHELF], ids=lambda lamp: lamp.name)
def test_corners_of_the_current_are_those_of_the_closed_form(lamp):
    """4fC(Vp − D) at both ends, nothing left out; a string with its own slope gives way by a few per cent of it."""
    spread_ = Spread.of(lamp)
    formula = tolerance.by_formula(lamp, spread_, steady_state(spread_.centre(lamp)))
    extreme = corners(lamp, spread_, ["string_current_mean"]).of("string_current_mean")
    rise, fall = extreme.greatest / extreme.nominal - 1, 1 - extreme.least / extreme.nominal
    assert rise == pytest.approx(theory.greatest_current_rise(**formula.rise_values), rel=0.04)
    assert fall == pytest.approx(theory.greatest_current_fall(**formula.fall_values), rel=0.04)
    # Products make the bright corner worse than the plain sum, and the dim one better.
    for values, corner, way in ((formula.rise_values, "rise", 1), (formula.fall_values, "fall", -1)):
        exact = theory.ALL[f"greatest_current_{corner}"](**values)
        assert way * exact > way * theory.worst_case_spread(**values)


def test_words_name_what_counts_and_where_it_stands():
    found = corners(STAIR, Spread.of(STAIR))
    current = found.of("string_current_mean")
    assert current.least_at.startswith("mains 207 V, dropper 297 nF") and "49.5 Hz" in current.least_at
    assert "smoothing" not in current.least_at and "resistors" not in current.least_at
    assert found.of("percent_flicker").least_at.startswith("smoothing 12 µF")
    assert "as designed" in found.words and "dark" not in found.words
    with pytest.raises(KeyError, match="no reading kept here; choose from string_current_mean"):
        found.of("nonsense")


def test_dark_corners_are_counted_and_a_dark_lamp_still_has_words():
    long = replace_at(STAIR, "string.in_series", 105)
    found = corners(long, Spread.of(long))
    assert 0 < found.dark.sum() < len(found.dark) and f"In {found.dark.sum()} of 64 corners" in found.words
    dark = replace_at(STAIR, "string.in_series", 300)
    assert corners(dark, Spread.of(dark)).dark.all() and "nan" not in corners(dark, Spread.of(dark)).words
    none = replace_at(replace_at(dark, "bleeder", None), "smoothing_bleeder", None)
    nothing = corners(none, Spread.of(none))
    assert "Power factor: – as designed" in nothing.words and "inf" not in nothing.words


def test_what_is_no_lamp_or_no_spread_is_said():
    with pytest.raises(TypeError, match="is not a Spread; give a lamp and the spread of its parts"):
        corners(STAIR, 0.1)
    odd = replace_at(replace_at(STAIR, "string.led.series_resistance", 0.0), "string.led.forward_voltage", 0.52)
    with pytest.raises(ValueError, match=r"Led.forward_voltage: 468 mV is out of range"):
        corners(odd, Spread.of(odd))
