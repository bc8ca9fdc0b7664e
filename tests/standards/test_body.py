"""Currents through a person: the lines that are kept, what a residual-current device is promised to do, and no leave."""

import re

import pytest
from dropper import standards

# IEC TS 60479-1, ac of 15 to 100 Hz, as encyclopedias and lectures restate it: felt from 0.5 mA, no letting go from
# 10 mA. Values from memory: 5 mA for the whole population, 40 mA where curve c1 is at some seconds.
LINES = {"reaction": 0.5e-3, "let-go of everybody": 5e-3, "let-go": 10e-3, "fibrillation": 40e-3}


def test_the_lines_are_those_of_the_standard_and_say_how_they_were_had():
    assert {line.key: line.current for line in standards.BODY_THRESHOLDS} == LINES
    for line in (*standards.BODY_THRESHOLDS, standards.DC_REACTION):
        assert line.standard == "IEC TS 60479-1" and line.provenance in ("restated", "value from memory")
    assert standards.DC_REACTION.current == 2e-3


def test_a_line_is_reached_at_its_own_current():
    for place, line in enumerate(standards.BODY_THRESHOLDS):
        assert standards.thresholds_reached(line.current) == standards.BODY_THRESHOLDS[: place + 1]
        assert standards.thresholds_reached(0.999 * line.current) == standards.BODY_THRESHOLDS[:place]
    with pytest.raises(ValueError, match="current: -0.001 A will not do"):
        standards.thresholds_reached(-1e-3)


@pytest.mark.parametrize(
    ("amperes", "answer"),
    # IEC 61008-1, restated by makers: a device of 30 mA must not trip at 15 mA, and must at 30 mA.
    [
        (0, "nothing"),
        (1e-6, "stays on"),
        (15e-3, "stays on"),
        (15.1e-3, "either"),
        (29.9e-3, "either"),
        (30e-3, "trips"),
    ],
)
def test_what_a_device_of_thirty_milliamperes_is_promised_to_do(amperes, answer):
    assert standards.HOUSEHOLD_DEVICE.answer(amperes) == answer


def test_people_have_fewer_ohms_at_more_volts():
    """IEC TS 60479-1:2005, Table 1, values from memory: 1225 Ω in the middle at 225 V."""
    lines = sorted(standards.BODY_RESISTANCES, key=lambda line: line.voltage)
    for name in ("low", "middle", "high"):
        ohms = [getattr(line, name) for line in lines]
        assert ohms == sorted(ohms, reverse=True)
    assert lines[-1].middle == 1225
    assert all(line.low < line.middle < line.high for line in lines)


@pytest.mark.parametrize("amperes", [0.0, 1e-9, 0.4e-3, 0.6e-3, 3e-3, 7e-3, 20e-3, 39e-3, 0.2, 5.0])
@pytest.mark.parametrize("share", [0.0, 0.5, 1.0])
def test_no_sentence_is_leave_to_touch(amperes, share):
    words = standards.effect_words(amperes, share * amperes)
    assert words.endswith(standards.NO_LEAVE)
    assert not re.search(r"\b(safe|safely|harmless|fine|ok|only|within|allowed|no danger)\b", words.lower()), words


def test_a_direct_current_is_held_against_its_own_line():
    assert "2 mA" in standards.effect_words(0.02, 0.0199) and "10 mA" not in standards.effect_words(0.02, -0.0199)
    assert "10 mA" in standards.effect_words(0.02, 0.01)
