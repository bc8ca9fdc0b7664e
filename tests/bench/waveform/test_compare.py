"""A measured lamp beside the predicted one: what agrees, what differs, and which part is blamed."""

from dataclasses import replace

import numpy as np
import pytest
from dropper import Mains, replace_at, theory
from dropper.bench import waveform
from dropper.bench.waveform import Channel, Estimate
from dropper.lessons.measurement import view as lesson
from recordings import STAIR, of_lamp

PLAIN = {"noise": (1, 2e-4, 0.1)}


def compared(lamp, against=STAIR, **more):
    found = waveform.measure(of_lamp(lamp, **PLAIN, **more))
    return waveform.compare(found, waveform.on_measured_mains(against, found))


def test_the_same_lamp_agrees_in_everything_and_nobody_is_blamed():
    found = compared(STAIR)
    assert {row.verdict for row in found.rows[1:]} == {"agrees"}
    assert found.row("voltage").verdict == "taken as read", "the prediction has its volts from the recording"
    assert found.attribution.words.startswith("Nothing to explain") and found.attribution.part == ""
    assert abs(found.delay) < 2e-5 and found.warnings == ()


@pytest.mark.parametrize("share", [0.6, 0.84, 1.2])
def test_a_dropper_that_has_changed_is_found(share):
    attribution = compared(replace_at(STAIR, "dropper", share * STAIR.dropper)).attribution
    assert attribution.dropper == pytest.approx(share - 1, abs=0.005) and abs(attribution.clamped_voltage) < 0.005
    assert (
        attribution.part == "dropper"
        and "whole curve is scaled" in attribution.words
        and attribution.explained_share > 0.99
    )


@pytest.mark.parametrize("groups", [16, 20, 26])
def test_a_string_that_has_changed_is_found(groups):
    attribution = compared(replace_at(STAIR, "string.in_series", groups)).attribution
    assert attribution.clamped_voltage == pytest.approx(groups / 22 - 1, abs=0.03) and abs(attribution.dropper) < 0.01
    assert (
        attribution.part == "clamped"
        and "starts at another angle" in attribution.words
        and attribution.explained_share > 0.98
    )


@pytest.mark.parametrize(
    ("path", "value", "more"),
    [
        ("string.in_series", 100, -1),
        ("string.in_series", 60, -1),
        ("string.in_series", 1, 1),
        ("string.led.forward_voltage", 1.6, 1),
    ],
)
def test_a_prediction_of_quite_another_lamp_blames_nobody_or_rightly(path, value, more):
    """The measured string holds more than that of few LEDs, and less than that of many."""
    attribution = compared(STAIR, against=replace_at(STAIR, path, value)).attribution
    assert attribution.difference > 0.2
    if attribution.part:
        assert (
            attribution.part == "clamped"
            and attribution.clamped_voltage * more > 0.3
            and abs(attribution.dropper) < 0.05
        ), attribution.words
    else:
        assert attribution.words.startswith(("No change", "Neither")), attribution.words


def test_what_no_part_explains_is_said():
    recording = of_lamp(**PLAIN)
    odd = replace(recording, line_current=recording.mains_voltage / 12_000)
    found = waveform.measure(odd)
    attribution = waveform.compare(found, waveform.on_measured_mains(STAIR, found)).attribution
    assert attribution.words.startswith("Neither") or attribution.explained_share < 0.9


def test_size_and_start_follow_the_derivations():
    """The power factor knows D/Vp alone, the current C as well: what the blame rests on, by the closed forms."""
    held = {"frequency": 50.0, "peak_voltage": 325.0, "clamped_voltage": 70.0}
    one, other = (theory.line_current_rms(dropper=c, **held) for c in (330e-9, 277e-9))
    assert other / one == pytest.approx(277 / 330, rel=1e-12)
    early, late = (theory.conduction_start(peak_voltage=325.0, clamped_voltage=d) for d in (70.0, 77.0))
    assert late > early
    assert lesson.clamped_fraction_of(theory.power_factor(clamped_fraction=0.3)) == pytest.approx(0.3, abs=1e-3)


def test_the_mains_is_taken_from_the_recording_with_its_harmonics():
    lamp = replace_at(STAIR, "mains", Mains(224.0, 50.0, {5: (0.03, 160.0)}))
    found = waveform.measure(of_lamp(lamp, **PLAIN))
    mains = waveform.on_measured_mains(STAIR, found).mains
    assert mains.voltage == pytest.approx(224, rel=1e-3) and set(mains.harmonics) == {5}
    assert mains.harmonics[5] == (pytest.approx(0.03, rel=0.03), pytest.approx(160, abs=2))


def test_without_a_voltage_the_current_says_where_the_period_begins():
    found = waveform.measure(replace(of_lamp(**PLAIN), mains_voltage=None, bus_voltage=None))
    comparison = waveform.compare(found, replace_at(STAIR, "mains.frequency", 50.03))
    assert comparison.row("current").verdict == "agrees" and abs(comparison.residual).max() < 0.006
    with pytest.raises(KeyError, match="real"):
        comparison.row("real")


@pytest.mark.parametrize("factor", [0.1, 10.0])
def test_a_wrong_probe_factor_is_suspected(factor):
    recording = of_lamp(**PLAIN)
    found = waveform.measure(replace(recording, line_current=factor * recording.line_current))
    doubts = waveform.compare(found, waveform.on_measured_mains(STAIR, found)).warnings
    way = "too small" if factor < 1 else "too large"
    assert any("probe factor is probably" in text and way in text for text in doubts)


@pytest.mark.parametrize("volts", [90.0, 200.0, 255.0])
def test_no_part_is_blamed_on_another_mains_than_the_measured(volts):
    found = waveform.measure(of_lamp(**PLAIN))
    moved = waveform.compare(found, replace_at(waveform.on_measured_mains(STAIR, found), "mains.voltage", volts))
    assert moved.attribution is None and moved.warnings[0].startswith(
        f"The mains is set to {volts:g} V; 230 V were measured"
    )
    assert not any("right way round" in text for text in moved.warnings)


@pytest.mark.parametrize("late", [-10e-6, 10e-6])
def test_a_current_out_of_step_is_no_part_s_fault(late):
    """A lamp's own current, moved by half a sample: the ± of the power factor holds it, and nobody is blamed."""
    exact = of_lamp(**PLAIN)
    shifted = np.interp(exact.time - late, exact.time, exact.line_current)
    found = waveform.measure(replace(exact, line_current=shifted, bus_voltage=None, in_step=None))
    comparison = waveform.compare(found, waveform.on_measured_mains(STAIR, found))
    assert (
        exact.sample_spacing / 2 == pytest.approx(10e-6)
        and found.power_factor.uncertainty > 0.004 * found.power_factor.value
    )
    assert {row.verdict for row in comparison.rows} <= {"agrees", "taken as read"}
    assert comparison.attribution.words.startswith("Nothing to explain")


def test_estimates_are_written_to_the_digit_that_is_known():
    assert Estimate(0.018362, 0.00032).text("A") == "18.36 ± 0.64 mA"
    assert Estimate(0.2576, 0.00042).text("") == "0.25760 ± 0.00084"
    assert Estimate(-1.1, 0.027).text("W") == "−1.100 ± 0.054 W"
    assert Estimate(49.97, 0.0).text("Hz") == "50 Hz" and Estimate(float("nan"), 1).text("V") == "–"


def test_typed_readings_are_judged_against_one_another_and_the_bands():
    good = {"voltage": "231.2 V", "current": "22 mA", "power": "1.3", "power_factor": "0.26", "bus_voltage": "67.1 V"}
    read, said, rows = lesson.compare_readings(STAIR, good)
    assert read.current == 0.022 and "agrees with itself" in said
    assert [row[-1] for row in rows] == ["taken as read", *["inside"] * 4]
    _, said, rows = lesson.compare_readings(STAIR, good | {"current": "18 mA", "bus_voltage": ""})
    assert "disagrees" in said and rows[1][-1] == "outside" and rows[4][-1] == "–"
    with pytest.raises(ValueError, match="line current: '22 mV' is not in A"):
        lesson.compare_readings(STAIR, {"current": "22 mV"})


SCOPE = "notebooks/lamps/stair_marker_scope.csv"
CHANNELS = {"mains_voltage": Channel("CH1", factor=100), "line_current": Channel("CH2", shunt=10.0)}


def test_the_courses_own_recording_is_of_an_aged_lamp():
    """Invented: dropper at 84 % of its mark, a mains of 232.4 V at 49.97 Hz with a 3rd and a 5th harmonic."""
    found = waveform.measure(waveform.load(SCOPE, **CHANNELS))
    assert found.frequency.agrees(49.97) and found.voltage.agrees(232.4)
    attribution = waveform.compare(found, waveform.on_measured_mains(STAIR, found)).attribution
    assert attribution.dropper == pytest.approx(-0.16, abs=0.01)


@pytest.mark.parametrize(
    ("text", "channels", "said"),
    [
        (
            "t (s),u (V)\n" + "".join(f"{k % 7},1\n" for k in range(20)),
            {"time": "t"},
            r"line 9, column 1 \(t\): the time",
        ),
        ("u (V),i (A)\n3,1\n1,2\n2,0\n", {}, "no column rises as time does"),
        ("t (s),u (V)\n" + "".join(f"{k},1\n" for k in range(20)), {"line_current": "u"}, "is in 'V'; say the ohms"),
        ("t (s),u (V)\n0,1\n1,x\n", {}, "line 3, column 2"),
        ("t (s),u (V)\n0,1\n1,2\n", {"time": 5.0}, "less than 1 s"),
    ],
)
def test_a_recording_that_cannot_be_had_is_answered_in_words(text, channels, said):
    with pytest.raises(ValueError, match=said):
        waveform.load(text, **channels)


def test_channels_scale_turn_and_refuse():
    text = "t (s),a (mV),b (V)\n" + "".join(f"{k / 1e3},{k % 5},{k % 3}\n" for k in range(50))
    found = waveform.load(
        text, mains_voltage=Channel("b", factor=100, inverted=True), line_current=Channel("a", factor=10, shunt=4.7)
    )
    assert found.mains_voltage[2] == -200 and found.line_current[1] == pytest.approx(1e-2 / 4.7)
    probe = waveform.load(text, line_current=Channel("a", volts_per_ampere=0.1)).line_current[1]
    assert probe == pytest.approx(1e-2)
    assert waveform.load(text.replace("t (s),", "").replace("/", ""), time=1e-3).present()
    for wrong in ({"factor": 0}, {"shunt": -1}, {"accuracy": 2}, {"shunt": 1.0, "volts_per_ampere": 1.0}):
        with pytest.raises(ValueError, match="Channel|not both"):
            Channel("a", **wrong)
    with pytest.raises(ValueError, match="a is chosen for both mains voltage and line current"):
        waveform.load(text, mains_voltage="a", line_current=Channel("a", shunt=1.0))
    with pytest.raises(ValueError, match="in step within: 20 ms is out of range"):
        waveform.load(text, mains_voltage="b", in_step=0.02)
