"""A board as it is typed: the values that are meant, what is said back, and what is asked about.

Printed codes: IEC 60062 (684J: 68 with four zeros in pF, J ±5 %; colours of bands), from memory.
"""

from pathlib import Path

import pytest
from dropper import Lamp
from dropper.bench.own_lamp import ROWS, read_board, texts_of
from dropper.circuit.lamp import value_at
from for_every import for_every

KNOWN = {"leds": "22", "led": "warm white"}
TYPED = {
    ("dropper", "684J 400V"): 680e-9,
    ("dropper", "330 nF"): 330e-9,
    ("dropper", "0.47 measured"): 470e-9,
    ("dropper", "331 measured"): 331e-9,
    ("bleeder", "1M"): 1e6,
    ("bleeder", "105"): 1e6,
    ("bleeder", "none"): None,
    ("bleeder", "yellow violet yellow gold"): 470e3,
    ("smoothing", "10"): 10e-6,
    ("smoothing", "none"): 0.0,
    ("inrush_resistor", "220 measured"): 220.0,
    ("series_resistor", "4R7"): 4.7,
}
# What is asked about, and what the answer has to name.
ASKED = {
    ("inrush_resistor", "220"): "22 Ω",
    ("dropper", "680 nH"): "684J 400V",
    ("dropper", "none"): "leave it empty",
    ("bleeder", "10 Ω"): "1 kΩ to 1 GΩ",
    ("leds", "many"): "19 × 2",
    ("leds", "0"): "every lamp",
    ("led", "white"): "cool white, 5 mm",
    ("led", "3"): "3.1 V at 20 mA",
    ("led", "no_such.csv"): "no_such.csv",
    ("mains", "abc"): "230 V 50 Hz",
    ("diodes", "MB9"): "1N4007",
}


@for_every(TYPED.items())
def test_what_is_printed_or_measured_is_read(typed, value):
    key, text = typed
    lamp = read_board(KNOWN | {key: text}).lamp
    assert lamp is not None, f"{key} {text!r} is refused"
    read = value_at(lamp, key)
    assert read == (None if value is None else pytest.approx(value)), f"{key} {text!r} is read as {read}"


@for_every(ASKED.items())
def test_what_cannot_be_meant_is_answered_at_its_field_with_what_would_do(typed, named):
    key, text = typed
    board = read_board(KNOWN | {key: text})
    assert board.lamp is None, f"{key} {text!r} makes a lamp"
    assert named in board.wrong[key], f"{key} {text!r} is answered by {board.wrong[key]!r}"
    assert list(board.wrong) == [key]


def test_what_is_not_known_is_taken_as_usual_and_said():
    board = read_board(KNOWN)
    for row in ROWS:
        if row.usual:
            assert "usual" in board.words[row.key], f"{row.name}: nothing says that it was not typed"
            assert board.captions[row.key] == "?", f"{row.name} stands on the drawing as if it were known"
    assert "look" in board.words["bleeder"], "a bleeder that nobody has seen is taken for granted"
    assert read_board({}).missing == ("LEDs", "one LED")


def test_groups_in_parallel_are_counted():
    board = read_board(KNOWN | {"leds": "19 × 2 LEDs"})
    assert (board.lamp.string.in_series, board.lamp.string.in_parallel) == (19, 2)
    assert "38 LEDs" in board.words["leds"]


@for_every(sorted(Path("notebooks/lamps").glob("*.toml")))
def test_a_lamp_goes_through_its_own_fields_unchanged(path):
    lamp = Lamp.from_toml(path)
    assert read_board(texts_of(lamp), lamp.name, lamp).lamp == lamp, f"{path.name} is another lamp after the form"
