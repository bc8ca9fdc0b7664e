"""The check-list: nothing is powered before it is proved dead, numbers are the lamp's, nothing is called safe."""

import functools
import re

import pytest
from dropper import Lamp, replace_at, steady_state
from dropper.bench.checklist import checklist
from dropper.circuit.parsing import parse
from dropper.results.explain import in_html

STAIR = Lamp.from_toml("notebooks/lamps/stair_marker.toml")


@functools.cache
def stair_list():
    return checklist(STAIR)


def place(key):
    return [step.key for step in stair_list().steps].index(key)


def test_the_order_is_that_of_a_careful_bench():
    """Unplug, prove the meter, measure, discharge, measure again; power last (OSHA 1910.333, HSE GS38: prove dead)."""
    order = (
        "unplug",
        "prove the meter",
        "residual volts",
        "discharge",
        "measure again",
        "dropper",
        "order",
        "low voltage",
        "closed",
        "eyes",
        "series lamp",
        "off again",
        "bet",
        "plug-in meter",
        "decay",
        "record",
    )
    assert [place(key) for key in order] == sorted(place(key) for key in order)
    assert all(step.why for step in stair_list().steps)


def test_the_discharge_is_the_one_by_hand():
    """0.33 s of time constant and ln(325.3/1) = 5.785 make 1.91 s; after 1 s 325.3·exp(−1/0.33) = 15.7 V are left."""
    assert "325 V" in stair_list().of("residual volts").expect and "1.91 s" in stair_list().of("residual volts").expect
    assert "15.7 V" in stair_list().of("decay").expect
    assert "17.5 mJ" in stair_list().of("discharge").why  # ½ · 330 nF · (325.3 V)²


def test_the_readings_hold_what_the_solver_finds():
    result, text = steady_state(STAIR), stair_list().of("plug-in meter").expect
    for value, unit in ((result.line_current_rms, "A"), (result.real_power, "W"), (result.apparent_power, "VA")):
        prefix = "m" if unit == "A" else ""
        low, high = re.search(rf"([\d.]+ {prefix}{unit}) to ([\d.]+ {prefix}{unit})[,;]", text).groups()
        assert parse(low, unit) <= value <= parse(high, unit), text


def test_numbers_explain_themselves():
    behind = [step.reading for step in stair_list().steps if step.reading]
    assert len(behind) >= 3
    for reading in behind:
        assert len(in_html(reading)) > 200


@pytest.mark.parametrize(
    ("path", "value", "gone", "said"),
    [
        ("bleeder", None, {"bleeder"}, "no bleeder"),
        ("smoothing", 0.0, {"smoothing", "smoothing volts", "stripe"}, ""),
        ("smoothing_bleeder", None, {"smoothing bleeder"}, "there is no bleeder across it"),
        ("inrush_resistor", 0.0, {"inrush resistor"}, ""),
    ],
)
def test_parts_that_are_not_there_are_not_asked_for(path, value, gone, said):
    shorter = checklist(replace_at(STAIR, path, value))
    assert not gone & {step.key for step in shorter.steps}
    assert said in " ".join(" ".join((step.do, step.expect, step.why)) for step in shorter.steps)


def test_nothing_live_is_called_fit_to_touch():
    text = " ".join(
        " ".join(
            (stage.caution, *(part for step in stage.steps for part in (step.do, step.why, step.expect, step.stop)))
        )
        for stage in stair_list().stages
    )
    assert not re.search(r"\bsafe\b|safe to|harmless|can be touched now", text, re.IGNORECASE)
    assert text.count("licensed practice") >= 3 and "local codes" in text


def test_a_wrong_thing_is_told():
    with pytest.raises(TypeError, match="is not a Lamp"):
        checklist("stair marker")


def test_a_lamp_on_low_volts_is_never_sent_to_the_mains():
    twin = checklist(Lamp.from_toml("notebooks/lamps/classroom_twin.toml"))
    first = next(stage for stage in twin.stages if stage.title.startswith("First power"))
    assert first.steps[0].key == "transformer" and "safety isolating" in first.steps[0].do
    assert "through a filament lamp" in twin.of("series lamp").do and "series box" not in twin.of("series lamp").do
    assert "multimeter" in twin.of("line").do and "plug-in meter" not in [step.key for step in twin.steps]
    assert twin.of("dropper").stop == "", "a class for the mains is not asked of a part on 24 V"
    powered = [stage for stage in twin.stages if "live" in stage.caution]
    assert sum("Never connect this lamp to the mains" in stage.caution for stage in powered) == 2


def test_discharging_is_left_to_the_trained():
    """HSE GS38 and OSHA 1910.333: a device made for it, in trained hands."""
    told = stair_list().of("discharge").do
    assert "trained" in told and "insulated device" in told and "never a resistor held in the hand" in told
