"""The circuit as data: every wrong value is refused in words, and files lose nothing."""

import dataclasses
from pathlib import Path

import pytest
from draws import examples
from dropper import Diode, Lamp, LampFileError, Led, LedString, Mains, Readings, replace_at, steady_state
from hypothesis import given, settings
from hypothesis import strategies as st

LAMPS = Path(__file__).resolve().parents[2] / "notebooks" / "lamps"
PLAIN = Lamp(mains=Mains(230.0, 50.0), string=LedString(Led(3.1, 0.020, 9.0), 22), dropper=330e-9, smoothing=10e-6)

WRONG = [
    ("dropper", 0),
    ("dropper", -1e-9),
    ("dropper", float("nan")),
    ("dropper", float("inf")),
    ("dropper", 330),
    ("dropper", "330 F"),
    ("dropper", None),
    ("bleeder", 0),
    ("bleeder", 1e12),
    ("inrush_resistor", -1),
    ("smoothing", 1.0),
    ("smoothing", -1e-6),
    ("series_resistor", 1e9),
    ("mains.voltage", 0),
    ("mains.voltage", 1e6),
    ("mains.frequency", 0),
    ("string.in_series", 0),
    ("string.in_series", 2.5),
    ("string.in_series", True),
    ("string.in_parallel", 10**9),
    ("string.led.forward_voltage", 0.1),
    ("string.led.at_current", 0),
    ("string.led.series_resistance", 200.0),
    ("string.led.ideality", 0.2),
    ("diode.forward_voltage", 9.0),
    ("readings.power_factor", 1.2),
]


@pytest.mark.parametrize(("path", "value"), WRONG)
def test_a_wrong_value_names_field_value_and_range(path, value):
    with pytest.raises(ValueError) as caught:
        replace_at(PLAIN, path, value)
    message = str(caught.value)
    assert path.rpartition(".")[2] in message
    assert "allowed is" in message or "use a smaller one" in message or "too small" in message


@pytest.mark.parametrize(("text", "value"), [("470 nF", 470e-9), ("474", None), ("0.47µ", 470e-9), ("330 nH", None)])
def test_values_may_be_text_as_in_a_file(text, value):
    """What cannot be read names the field, what was typed and what would do."""
    if value is None:
        with pytest.raises(ValueError, match=rf"dropper.*{text}"):
            PLAIN.replace(dropper=text)
    else:
        assert PLAIN.replace(dropper=text).dropper == pytest.approx(value, rel=1e-12)


def test_one_thing_is_changed_at_a_time_and_parts_are_reached():
    changed = PLAIN.replace(mains__voltage=120, string__led__forward_voltage="2.9 V")
    assert (changed.mains.voltage, changed.string.led.forward_voltage) == (120.0, 2.9)
    assert changed.replace(mains__voltage=230, string__led__forward_voltage=3.1) == PLAIN


@pytest.mark.parametrize(
    "harmonics", [{1: (0.1, 0)}, {41: (0.1, 0)}, {3: (2, 0)}, {3: (0.1, 1e9)}, {3: 0.1}, [3], {2.5: (0.1, 0)}]
)
def test_wrong_harmonics_are_refused_in_words(harmonics):
    with pytest.raises(ValueError, match=r"Mains\.harmonics"):
        Mains(230, 50, harmonics)


def test_a_part_of_the_wrong_kind_is_refused():
    with pytest.raises(TypeError, match=r"Lamp\.mains"):
        dataclasses.replace(PLAIN, mains=230)
    with pytest.raises(AttributeError, match="no field 'droper'"):
        replace_at(PLAIN, "droper", 1e-9)


def test_a_junction_passes_through_its_data_sheet_point():
    led = Led(forward_voltage=3.1, at_current=0.020, series_resistance=9.0)
    assert led.voltage_at(0.020) == pytest.approx(3.1, rel=1e-12)
    assert Diode().voltage_at(0.010) == pytest.approx(0.8, rel=1e-12)


@pytest.mark.parametrize("path", sorted(LAMPS.glob("*.toml")), ids=lambda path: path.stem)
def test_every_demo_lamp_lights_and_survives_writing(path, tmp_path):
    lamp = Lamp.from_toml(path)
    lamp.to_toml(tmp_path / "again.toml")
    assert Lamp.from_toml(tmp_path / "again.toml") == lamp
    result = steady_state(lamp)
    assert result.settled and not result.dark


def test_the_demo_lamps_cover_what_a_bench_meets():
    lamps = [Lamp.from_toml(path) for path in LAMPS.glob("*.toml")]
    assert {(lamp.mains.voltage, lamp.mains.frequency) for lamp in lamps} >= {(230, 50), (120, 60)}
    assert any(lamp.string.in_parallel > 1 for lamp in lamps)


def _positive(low, high):
    return st.floats(low, high, allow_nan=False)


_any_lamp = st.builds(
    Lamp,
    mains=st.builds(
        Mains,
        voltage=_positive(1, 1000),
        frequency=_positive(10, 1000),
        harmonics=st.dictionaries(st.integers(2, 40), st.tuples(_positive(0, 1), st.floats(-360, 360)), max_size=4),
    ),
    string=st.builds(
        LedString,
        led=st.builds(Led, _positive(1.5, 4), _positive(1e-4, 0.1), _positive(0, 10), _positive(1, 3)),
        in_series=st.integers(1, 1000),
        in_parallel=st.integers(1, 1000),
    ),
    dropper=_positive(1e-10, 1e-4),
    smoothing=st.just(0.0) | _positive(1e-9, 1e-2),
    bleeder=st.none() | _positive(1e3, 1e9),
    inrush_resistor=_positive(0, 1e5),
    smoothing_bleeder=st.none() | _positive(1e2, 1e9),
    series_resistor=_positive(0, 1e6),
    readings=st.builds(
        Readings, current=st.none() | _positive(0, 10), note=st.text(st.characters(categories=["L"]), max_size=20)
    ),
    name=st.text(st.characters(categories=["L", "N"]), min_size=1, max_size=40),
)


@given(_any_lamp)
@settings(max_examples=examples(200))
def test_writing_and_reading_loses_nothing(lamp):
    assert Lamp.from_toml_text(lamp.to_toml_text()) == lamp


@pytest.mark.slow
@given(_any_lamp)
@settings(max_examples=examples(100))
def test_no_lamp_hangs_or_breaks_the_solver(lamp):
    """Whatever a lamp file may say: finite readings, and heat that adds up.

    Here with the ends of the ranges; of a thousand lamps from within them tests/solver/test_dark.py holds the same.
    """
    result = steady_state(lamp, 128)
    assert result.line_current_rms >= 0
    assert result.string_current_mean >= 0
    assert result.settled
    gap = abs(sum(result.heat.values()) - result.real_power)
    assert gap <= 1e-6 * result.apparent_power + 1e-15  # W: of a lamp through which nothing flows at all


GOOD = PLAIN.to_toml_text()
SPOILT = {
    "unit": ('dropper = "330 nF"', 'dropper = "330 nH"', r"line \d+: .*330 nH"),
    "unknown key": ("dropper =", "droper =", r"line \d+: unknown key 'droper'"),
    "unknown key below": ("in_series =", "in_serie =", r"line \d+: unknown key 'in_serie' in \[string\]"),
    "missing part": ('dropper = "330 nF"\n', "", "dropper is missing"),
    "missing table": ("[mains]", "[supply]", r"line \d+: unknown key 'supply'"),
    "zero": ("in_series = 22", "in_series = 0", r"line \d+: .*0 is out of range"),
    "negative": ('"330 nF"', '"-330 nF"', r"line \d+: .*out of range"),
    "nan": ('"330 nF"', "nan", r"line \d+: .*finite"),
    "infinite": ('"330 nF"', "inf", r"line \d+: .*finite"),
    "absurd": ('"330 nF"', "330", r"line \d+: Lamp.dropper: 330 F is out of range; allowed is 100 pF to 100 µF"),
    "not a table": ("[string.led]", "[[string.led]]", r"must be a table"),
    "not TOML": ("[mains]", "[mains", "not TOML"),
    "list for a value": ('"330 nF"', "[1, 2]", r"line \d+: .*not a number"),
}


@pytest.mark.parametrize("slip", SPOILT)
def test_a_slip_in_a_lamp_file_is_told_with_its_line(slip):
    old, new, expected = SPOILT[slip]
    assert old in GOOD
    with pytest.raises(LampFileError, match=expected):
        Lamp.from_toml_text(GOOD.replace(old, new))


@given(st.text(max_size=300))
def test_any_text_is_a_lamp_or_a_lamp_file_error(text):
    with pytest.raises(LampFileError):
        Lamp.from_toml_text(text)


def test_a_file_that_is_no_lamp_file_is_told_so(tmp_path):
    with pytest.raises(LampFileError, match="cannot be opened"):
        Lamp.from_toml(tmp_path / "nowhere.toml")
    (tmp_path / "binary.toml").write_bytes(b"\xff\xfe\x00")
    with pytest.raises(LampFileError, match="not UTF-8"):
        Lamp.from_toml(tmp_path / "binary.toml")
    (tmp_path / "long.toml").write_text("#" * 200_000)
    with pytest.raises(LampFileError, match="longer than"):
        Lamp.from_toml(tmp_path / "long.toml")
    (tmp_path / "deep.toml").write_text("a = " + "[" * 50_000)
    with pytest.raises(LampFileError, match="a number has thousands of digits; write it like"):
        Lamp.from_toml_text("dropper = " + "9" * 5000)
    with pytest.raises(LampFileError, match="cannot be opened"):
        Lamp.from_toml("a\0b")
    with pytest.raises(LampFileError, match="line 1: tables more than 6 deep"):
        Lamp.from_toml(tmp_path / "deep.toml")


def test_a_string_that_the_mains_never_reaches_stays_dark():
    result = steady_state(replace_at(PLAIN, "string.in_series", 300))
    assert result.dark
    assert result.string_current_mean < 1e-6


def test_a_lamp_shows_its_parts_as_a_table_with_its_name_as_text():
    shown = PLAIN.replace(name="<b>lamp</b>")._repr_html_()
    assert "<b>" not in shown and "330 nF" in shown and "22 in series" in shown
