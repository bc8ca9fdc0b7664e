"""Prints against tables typed here from public sources, code by code, and garbage against clear refusals."""

import itertools
import math
from decimal import Decimal

import eseries
import pytest
from draws import examples
from dropper.circuit.series import E_SERIES
from dropper.circuit.values import show
from dropper.components.marks import MarkError, any_mark, codes
from dropper.components.marks.letters import MULTIPLIERS, TOLERANCES, VOLTS, rated_volts
from hypothesis import given, settings
from hypothesis import strategies as st

# Tolerance letters of IEC 60062, per cent (values from memory; B to M also stand in makers' tables for ceramic parts).
LETTERS = {"B": 0.1, "C": 0.25, "D": 0.5, "F": 1, "G": 2, "J": 5, "K": 10, "M": 20}
# EIA-96's letters, as a board maker's reference page on resistor marking gives them.
EIA_LETTERS = {
    "Z": "0.001",
    "Y": "0.01",
    "R": "0.01",
    "X": "0.1",
    "S": "0.1",
    "A": "1",
    "B": "10",
    "H": "10",
    "C": "100",
    "D": "1000",
    "E": "10000",
    "F": "100000",
}
# Rated dc voltages as two public tables give them (a forum's on polyester types, an instrument maker's on capacitors).
DC_VOLTS = {
    "0E": 2.5,
    "0G": 4,
    "0J": 6.3,
    "1A": 10,
    "1C": 16,
    "1D": 20,
    "1E": 25,
    "1V": 35,
    "1H": 50,
    "1J": 63,
    "2A": 100,
    "2D": 200,
    "2E": 250,
    "2F": 315,
    "2V": 350,
    "2G": 400,
    "2W": 450,
    "2J": 630,
    "2K": 800,
    "3A": 1000,
    "3B": 1250,
}
# Makers' data sheets of 1N4001 to 1N4007.
REVERSE = (50, 100, 200, 400, 600, 800, 1000)


def of(text, unit):
    """The values that a print has in a unit."""
    return [each for each in codes.read(text) if each.unit == unit]


def test_every_code_of_eia_96():
    steps = sorted({round(value) for value in eseries.erange(eseries.ESeries.E96, 100, 976)})
    assert len(steps) == 96 and set(MULTIPLIERS) == set(EIA_LETTERS)
    for (place, step), (letter, times) in itertools.product(enumerate(steps, 1), EIA_LETTERS.items()):
        wanted = float(Decimal(step) * Decimal(times))
        chips = [each for each in of(f"{place:02d}{letter}", "Ω") if each.part == "chip resistor"]
        assert [each.value for each in chips] == [pytest.approx(wanted, rel=1e-12)] and chips[0].minus == 1


@pytest.mark.parametrize(("text", "ohms"), [("01A", 100), ("68X", 49.9), ("12C", 13e3), ("96F", 97.6e6), ("66B", 4750)])
def test_examples_of_eia_96(text, ohms):
    assert ohms in [each.value for each in of(text, "Ω")]


def test_every_capacitor_code_of_three_numerals():
    """Two digits and a power of ten in picofarads; 8 and 9 are ×0.01 and ×0.1 (values from memory)."""
    for number, last in itertools.product(range(10, 100), range(10)):
        power = {8: -2, 9: -1}.get(last, last)
        wanted = float(Decimal(number).scaleb(power - 12))
        assert [each.value for each in of(f"{number}{last}", "F")] == [wanted]


def test_every_tolerance_letter_on_every_step_of_e24():
    for step, last, (letter, percent) in itertools.product(E_SERIES[24], (1, 3, 4, 5), LETTERS.items()):
        meaning = of(f"{step}{last}{letter}", "F")[0]
        assert (meaning.minus, meaning.plus) == (percent, percent)
        assert meaning.value == float(Decimal(step).scaleb(last - 12))
    assert of("104Z", "F")[0].tolerance == "−20/+80 %"
    assert {letter: minus for letter, (minus, _) in TOLERANCES.items() if letter != "Z"} == LETTERS


def test_below_ten_picofarads_letters_stand_for_picofarads():
    # Makers' tables for ceramic capacitors: B ±0.1 pF, C ±0.25 pF, D ±0.5 pF.
    for letter, most in (("B", 0.1), ("C", 0.25), ("D", 0.5)):
        meaning = of(f"479{letter}", "F")[0]
        assert meaning.absolute == pytest.approx(most * 1e-12) and meaning.minus is None
        assert meaning.high - meaning.low == pytest.approx(2e-12 * most)


def test_every_voltage_code():
    assert set(VOLTS) == {text[1] for text in DC_VOLTS}
    for text, volts in DC_VOLTS.items():
        assert rated_volts(int(text[0]), text[1]) == pytest.approx(volts)
        meaning = of(f"{text}104K", "F")[0]
        assert (meaning.voltage, meaning.supply, meaning.value) == (pytest.approx(volts), "dc", 1e-7)
    # The letters A to K are R10 of ISO 3: ten to the decade, rounded by 1.3 % at most.
    for place, letter in enumerate("ABCDEFGHJK"):
        assert VOLTS[letter] == pytest.approx(10 ** (place / 10), rel=0.0127)


def test_every_three_and_four_numeral_chip():
    for number, power in itertools.product(E_SERIES[24], range(8)):
        if number * 10**power <= 1e9:
            assert [each.value for each in of(f"{number}{power}", "Ω")] == [float(Decimal(number).scaleb(power))]
    for number, power in itertools.product(E_SERIES[96], range(5)):
        assert of(f"{number}{power}", "Ω")[0].value == float(Decimal(number).scaleb(power))


def test_a_letter_for_the_point_on_every_step_of_e24():
    """The letter is put back to a point by hand here."""
    factors = {"R": 0, "K": 3, "k": 3, "M": 6, "p": -12, "n": -9, "µ": -6, "u": -6}
    for step, (letter, power) in itertools.product(E_SERIES[24], factors.items()):
        unit = "F" if power < 0 else "Ω"
        for text, plain in (
            (f"{step // 10}{letter}{step % 10}", Decimal(step) / 10),
            (f"{letter}{step}", Decimal(step) / 100),
        ):
            values = [each.value for each in of(text, unit)]
            assert float(plain.scaleb(power)) in [pytest.approx(value, rel=1e-12) for value in values], text


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("474K", "470 nF ±10 %"),
        ("105J 400V", "1 µF ±5 %, 400 V dc"),
        ("2A104K", "100 nF ±10 %, 100 V dc"),
        ("474K 275V~ X2", "470 nF ±10 %, 275 V ac"),
        ("X2 0.33µF 275V", "330 nF, 275 V ac"),
        ("0.47 µF K X2 275 VAC", "470 nF ±10 %, 275 V ac"),
        ("µ47 K 250V~", "470 nF ±10 %, 250 V ac"),
        ("MKP 225 J 630V", "2.2 µF ±5 %, 630 V dc"),
        ("10µF 100V 105°C", "10 µF, 100 V dc"),
        ("102M Y2", "1 nF ±20 %"),
        (".47K", "470 nF ±10 %"),
        ("0,47 µF", "470 nF"),
        ("4R7", "4.7 Ω"),
        ("4K7J", "4.7 kΩ ±5 %"),
        ("R47", "470 mΩ"),
        ("5W 4R7J", "4.7 Ω ±5 %"),
        ("220 Ω 5 %", "220 Ω ±5 %"),
        ("000", "0 Ω"),
        ("10D471K", "470 V ±10 %"),
        ("3K3", "3.3 kΩ"),
        ("1N4007", "1000 V"),
        ("47", "47 pF"),
        ("4.7kΩ", "4.7 kΩ"),
        ("0R", "0 Ω"),
        ("0R22", "220 mΩ"),
    ],
)
def test_the_likeliest_reading(text, told):
    assert codes.read(text)[0].text == told


@pytest.mark.parametrize(
    ("text", "all_told"),
    [
        ("474K", {"470 nF ±10 %", "474 kΩ"}),
        ("474", {"470 nF", "470 kΩ"}),
        ("471K", {"470 pF ±10 %", "470 V ±10 %", "471 kΩ"}),
        ("4R7", {"4.7 Ω", "4.7 pF"}),
        ("22D", {"22 pF ±0.5 %", "165 kΩ ±1 %"}),
        ("4700", {"470 pF", "4.7 nF", "470 Ω"}),
        ("10R", {"10 Ω", "1.24 Ω ±1 %"}),
    ],
)
def test_all_that_a_print_could_mean(text, all_told):
    assert {each.text for each in codes.read(text)} == all_told


def test_every_diode_and_the_cathode_in_words():
    for number, volts in enumerate(REVERSE, 1):
        meaning = codes.read(f"1N400{number}")[0]
        assert meaning.value == volts and "cathode" in meaning.notes[0]
    assert "an I for the 1" in codes.read("IN4007")[0].notes[-1]


def test_notes_say_what_a_mark_does_not_promise():
    assert any("SERIES" in note for note in codes.read("474K 275V~ X2")[0].notes)
    assert any("dc rating" in note for note in codes.read("474K 400V")[0].notes)
    assert any("MINUS" in note for note in codes.read("10µF 100V")[0].notes)
    assert not any("MINUS" in note for note in codes.read("0.1µF 100V")[0].notes)


@pytest.mark.parametrize(
    ("text", "match"),
    [
        ("474Q", "character 4, 'Q', cannot follow '474'"),
        ("Q47", "character 1, 'Q', begins no known code"),
        ("474K 250", "character 6, '2', begins what cannot stand beside"),
        ("474K 250V 400V", "voltage twice"),
        ("4K7K7", "character 5, '7', cannot follow '4K7K'"),
        ("275V~", "no value in it"),
        ("012", "character 2, '1', cannot follow '0'"),
        ("1N4007 400V", "not found on a rectifier diode"),
        ("1N4008", "character 6, '8'|cannot follow"),
        ("97C?", "character 4"),
        ("", "nothing is typed"),
        (None, "nothing is typed"),
        ("4" * 61, "more than 60"),
    ],
)
def test_what_cannot_be_read_names_the_place_and_the_character(text, match):
    with pytest.raises(MarkError, match=match):
        codes.read(text)


@given(st.one_of(st.text(max_size=70), st.text("0123456789KJMRpnµFV~X2 .-", max_size=12)))
@settings(max_examples=examples(400))
def test_any_text_is_read_or_refused_in_words(text):
    try:
        found = any_mark.read(text)
    except MarkError as error:
        assert len(str(error)) > 20
    else:
        for each in found:
            assert math.isfinite(each.value) and each.value >= 0 and each.how and each.part and each.unit in "ΩFV"


def test_colours_typed_as_words_or_letters_are_bands():
    for text in ("yellow violet black gold", "YE-VT-BK-GD", "ye, vt, bk, gd"):
        assert any_mark.read(text)[0].text == "47 Ω ±5 %"
    with pytest.raises(MarkError, match="band 3: 'mauve'"):
        any_mark.read("yellow violet mauve gold")


def test_microfarads_may_have_a_minus_lead():
    """Aluminium electrolytics carry a stripe at their minus lead (common practice, no source)."""
    for text in ("47µ 350V 105°C", "470µ 16V", "1000µF 25V"):
        first = codes.read(text)[0]
        assert first.part == "capacitor" and any("MINUS" in note for note in first.notes), text
    assert any("275 V are ac here" in note for note in codes.read("474K 275V X2")[0].notes)
    assert show(0.47e-12, "F") == "0.47 pF"
