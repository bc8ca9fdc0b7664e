"""An LED from the learner's own table and from the learner's own data sheet."""

import math
import time
from pathlib import Path

import numpy as np
import pytest
from draws import examples
from dropper.bench import led_fit
from dropper.circuit.lamp import Led
from dropper.components import kinds
from hypothesis import given, settings
from hypothesis import strategies as st

VOLTS, MILLIAMPS = (2.629, 2.703, 2.830, 2.971, 3.100), (1, 3, 8, 14, 20)


def written(head, rows, mark=",", comma=False):
    text = "\n".join(mark.join(f"{value:g}" for value in row) for row in rows)
    return f"{head}\n{text.replace('.', ',') if comma else text}\n"


PAIRS = list(zip(VOLTS, MILLIAMPS, strict=True))


@pytest.mark.parametrize(
    "text",
    [
        written("voltage (V), current (mA)", PAIRS),
        written("U/V;I/mA", PAIRS, ";", comma=True),
        written("V\tmA", PAIRS, "\t"),
        written("volts, milliamps", PAIRS),
        written("current [A], forward voltage [mV]", [(amps / 1e3, 1e3 * volts) for volts, amps in PAIRS]),
        written("current (µA), voltage (V)", [(1e3 * amps, volts) for volts, amps in PAIRS]),
        written("time (s), voltage (V), current (mA), room", [(n, *pair, 21) for n, pair in enumerate(PAIRS)]),
        "# my LED\n" + written("voltage (V), current (mA)", PAIRS) + "# the end\n",
    ],
)
def test_a_table_is_read_however_it_is_written(text, tmp_path):
    expected = led_fit.fit(VOLTS, np.array(MILLIAMPS) / 1e3)
    for source in (text, tmp_path / "led.csv"):
        if isinstance(source, Path):
            source.write_text(text, encoding="utf-8")
        found = led_fit.from_csv(source)
        assert found.led.forward_voltage == pytest.approx(expected.led.forward_voltage, rel=1e-9)
        assert found.led.series_resistance == pytest.approx(expected.led.series_resistance, rel=1e-6)
        assert [point.volts for point in found.points] == pytest.approx(list(VOLTS))


def test_rows_are_counted_as_lines_of_the_file():
    rows = [*PAIRS[:3], (3.9, 11), *PAIRS[3:], (3.2, 26), (3.28, 30)]
    found = led_fit.from_csv("# one\n" + written("voltage (V), current (mA)", rows))
    assert [point.row for point in found.outliers] == [6] and "Line 6 stands" in found.sentence


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (
            written("voltage (V), current", PAIRS),
            "no column is in A; one of them has to be the current, such as 'current (mA)'",
        ),
        (
            written("one, other", PAIRS),
            "no column is in V; one of them has to be volts, such as 'voltage (V)'. The headings are 'one', 'other'",
        ),
        (written("voltage (V), voltage (mV)", PAIRS), "are both in V; keep one of them"),
        ("voltage (V), current (mA)\n2.6, 1\n2.7, x\n2.8, 8\n2.9, 14\n", "line 3, column 2"),
        ("voltage (V), current (mA)\n2.6, 1\n2.7, -3\n2.8, 8\n2.9, 14\n", "line 3: -3 mA is negative"),
        (written("voltage (V), current (A)", PAIRS), "line 5: 14 A is more than 10 A; if that column is in mA"),
        ("voltage (V), current (mA)\n2.6, 1\n", "points: 1 with a current are too few"),
        ("nothing\nhere\n", "none of the first 2 lines is a line of numbers"),
    ],
)
def test_a_table_that_will_not_do_says_where(text, words):
    with pytest.raises(ValueError) as caught:
        led_fit.from_csv(text)
    assert words in str(caught.value), str(caught.value)


def test_a_file_that_is_not_there_is_told():
    with pytest.raises(ValueError, match=r"not_there\.csv"):
        led_fit.from_csv("not_there.csv")


# --- data sheets ------------------------------------------------------------------------------------------------


def test_a_full_data_sheet():
    kind = led_fit.from_sheet(
        "shop white", 3.1, 0.020, current_limit=0.030, least=2.8, greatest=3.4, coefficient=-3e-3, second=(2.84, 0.005)
    )
    assert kind.led("least").forward_voltage == 2.8 and kind.led("greatest").forward_voltage == 3.4
    assert kind.led().voltage_at(0.005) == pytest.approx(2.84, rel=1e-9)
    own = {name for name in kinds.leds.FIGURES if kind.provenance_of(name) == "the learner's own data sheet"}
    assert own == {"typical", "least", "greatest", "at_current", "current_limit", "coefficient", "series_resistance"}
    assert kind.provenance_of("reverse_limit") == "read in makers' data sheets" and kind.reverse_limit == 5


def test_a_short_data_sheet_is_filled_up_and_says_so():
    kind = led_fit.from_sheet("red", 2.0, 0.020, current_limit=0.030)
    assert kind.least == kind.typical == kind.greatest == 2.0 and kind.coefficient == -2e-3
    for figure in ("least", "coefficient", "series_resistance", "ideality", "junctions"):
        assert kind.provenance_of(figure) == "typical practice, no source"
    assert kind.series_resistance * 0.030 == pytest.approx(0.2)
    for known in kinds.LEDS:  # the same practice as in the table: within a factor of three
        filled = led_fit.from_sheet(
            "own", known.typical, known.at_current, current_limit=known.current_limit, junctions=known.junctions
        )
        assert 1 / 3 < filled.series_resistance / known.series_resistance < 3, known.name


@given(
    volts=st.floats(1.5, 4.0),
    amps=st.floats(1e-3, 0.3),
    ohm_share=st.floats(0, 0.15),
    ideality=st.floats(1.1, 3),
    times=st.one_of(st.floats(0.01, 0.6), st.floats(1.7, 5)),
)
@settings(max_examples=examples(60))
def test_two_points_of_a_curve_are_both_met(volts, amps, ohm_share, ideality, times):
    """Where 2 is too steep for the two points, the ideality gives way and no resistance is left."""
    true = Led(volts, amps, ohm_share * volts / amps, ideality)
    second = true.voltage_at(times * amps), times * amps
    kind = led_fit.from_sheet("own", volts, amps, current_limit=10 * amps, second=second)
    assert kind.led().voltage_at(second[1]) == pytest.approx(second[0], rel=1e-6)
    if ideality > 2:
        assert kind.series_resistance > true.series_resistance - 1e-9 and kind.ideality == 2
    if kind.ideality != 2:
        assert kind.series_resistance == 0 and 1 <= kind.ideality < 2


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ({"least": 3.3}, "are not least, typical and greatest"),
        ({"current_limit": 0.010}, "are not a stated current and a limit"),
        ({"current_limit": None}, "current_limit: None is not a finite number in A"),
        ({"coefficient": 2e-3}, "coefficient: 2 mV/K is out of range"),
        ({"second": 3.0}, "second: 3.0 is not (volts, amperes)"),
        ({"second": (3.05, 0.019)}, "lie too near each other; read one at half the current or less"),
        ({"second": (3.3, 0.005)}, "more current has to go with more volts"),
        ({"second": (3.09, 0.002)}, "lie so flat that no junction does it"),
        ({"second": (math.nan, 0.002)}, "second, volts: nan is not a finite number in V"),
        ({"junctions": 0}, "junctions: 0 is out of range"),
        ({"name": "two\nlines"}, "must be one line of text"),
    ],
)
def test_a_data_sheet_that_contradicts_itself_is_told(more, words):
    given = {"name": "own", "typical": 3.1, "at_current": 0.020, "current_limit": 0.030} | more
    with pytest.raises(ValueError) as caught:
        led_fit.from_sheet(given.pop("name"), given.pop("typical"), given.pop("at_current"), **given)
    assert words in str(caught.value), str(caught.value)


def test_a_record_of_thousands_of_points_is_fitted_at_once():
    """A source-meter writes so many; the start is had from a few of them, the fit from all."""
    true = Led(3.1, 0.020, 9.0, 2.2)
    amps = [1e-4 + 5e-6 * place for place in range(8000)]
    begin = time.perf_counter()
    found = led_fit.fit([true.voltage_at(amp) for amp in amps], amps, at_current=0.020)
    assert time.perf_counter() - begin < 5
    assert len(found.used_points) == 8000 and found.led.forward_voltage == pytest.approx(3.1, abs=1e-3)
    assert found.led.series_resistance == pytest.approx(9.0, abs=0.1)
