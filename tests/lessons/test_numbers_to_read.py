"""Numbers on the panels are fit to be read: digits that can be known, one of a thing in the singular, rows that stay."""

import html
import re

import numpy as np
import pytest
from dropper import Lamp
from dropper.circuit.units import UNITS
from dropper.lessons.conduction.view import Moment, view_of
from panels_to_try import ALL, OTHERS, STAIR, ends, new_panel

# Less than a bench instrument shows: pico and femto of anything, nano of all but capacitance and charge.
TINY = re.compile(r"(?<![\w.])\d[\d.]* ?(?:[pfa][AVWJCΩs]|n[AVWJs])(?!\w)")
ONE_OF_MANY = re.compile(r"(?<![\d.,])(?<!\d )1 (?:LED|hour|year|group|lamp|branch|set|point|day)e?s\b")
NO_NUMBER = re.compile(r"\bnan\b|\binf\b|[-+]?\d\.?\d*e-?\d\d\b|/ 0(?: A|\b(?!\.))")
NUMBER = re.compile(r"(?<![\w.,])(\d+(?: \d{3})*(?:\.\d+)?)(?![\w.])")
MOST_DIGITS = 4
# A standard's number is a name, and beside its ± a number has the digits that this gives it.
WITH_REASON = re.compile(r"\b(?:IEC|IEEE|EN|ISO|Regulation)\b[ A-Z()]*[\d/-]+(?::\d+)?|[\d.]+ ± [\d.]+")


def read(markup):
    """What of a piece of HTML or SVG is read, in one line."""
    return html.unescape(" ".join(re.sub(r"<style.*?</style>|<[^>]+>", " ", markup, flags=re.S).split())).replace(
        "\u00a0", " "
    )


def digits(number):
    """How many significant digits a number has; zeros before its point may be places only."""
    plain = number.replace(" ", "")
    return len((plain if "." in plain else plain.rstrip("0")).replace(".", "").lstrip("0"))


def faults_of(text):
    """What nobody can read or know in a text."""
    found = [match[0] for pattern in (TINY, ONE_OF_MANY, NO_NUMBER) for match in pattern.finditer(text)]
    plain = WITH_REASON.sub("", text)
    return found + [match[0] for match in NUMBER.finditer(plain) if digits(match[1]) > MOST_DIGITS]


def shown_by(panel):
    """All that a panel has in words, the numbers in its picture too."""
    panel.write_now()
    labels = " | ".join(re.findall(r"<text[^>]*>(.*?)</text>", panel.curves.value))
    return " | ".join(read(text) for text in (panel.words, panel.table.value, panel.sentence.value, labels))


def moves(panel):
    """Each slider at both of its ends, each choice of a list, all else as it was."""
    for path, slider in panel.sliders.items():
        for value in [value for _, value in slider.options] if hasattr(slider, "options") else ends(slider):
            panel.reset()
            yield path, value
    panel.reset()


def rows(panel):
    """What the rows of a panel's table are of, without what is said of it behind a comma or as a mark."""
    panel.write_now()
    names = re.findall(r'<th scope="row"[^>]*>(.*?)</th>', panel.table.value)
    return [re.sub('<span class="excess">.*?</span>', "", name).partition(",")[0] for name in names]


def put(panel, path, value):
    """Put a slider somewhere, and have a fault shown without a guess."""
    panel.sliders[path].value = value
    if hasattr(panel, "guess"):
        panel.guess(None)


def dark(view):
    """Whether the lamp of a view makes no light."""
    return getattr(view, "dark", False) or getattr(getattr(view, "result", None), "dark", False)


def test_the_checks_find_what_they_are_for():
    for bad in ("18.1 pV", "318 nA", "1 LEDs", "At 1 hours a day", "2.3e-05", "16.67 mA / 0 A", "12.345 V"):
        assert faults_of(bad), bad
    for good in (
        "49.968 ± 0.012 Hz",
        "IEC 60479-1:2018",
        "330 nF",
        "10 nC",
        "1 LED",
        "21 LEDs",
        "16 000 h",
        "100 000 h",
        "0.1693",
        "10 / 0.5",
        "1.29 kA",
    ):
        assert not faults_of(good), good


AT_ONCE = ("Faults",)  # the other panels take minutes


@pytest.mark.slow
@pytest.mark.parametrize(
    "name", [name if name in AT_ONCE else pytest.param(name, marks=pytest.mark.wide) for name in ("Bench", *ALL)]
)
def test_every_number_can_be_known_and_read_and_rows_stay_while_the_lamp_lights(name):
    panel = new_panel(name)
    first, wrong = rows(panel), []
    panel.keep()
    for path, value in moves(panel):
        put(panel, path, value)
        found = faults_of(shown_by(panel))
        if not dark(panel.view):
            left = rows(panel)
            found += [f"no row {row!r}" for row in first if first.count(row) > left.count(row)]
        wrong += [f"{path} at {value}: {text}" for text in found]
    assert not wrong, "\n".join(wrong)


@pytest.mark.parametrize("path", [STAIR, *OTHERS])
def test_a_reading_is_the_same_number_on_every_panel(path):
    """Panels that show the lamp as it is, unbroken and at the temperature of its data sheets."""
    seen = {}
    for name in ("Bench", "LoadLine", "Conduction", "Smoothing", "Powers", "Strings", "Faults"):
        for reading in new_panel(name, path=path).view.readings:
            seen.setdefault(reading.name, {}).setdefault(reading.text, []).append(name)
    assert sum(len(names) > 1 for texts in seen.values() for names in texts.values()) > 8
    apart = {name: texts for name, texts in seen.items() if len(texts) > 1}
    assert not apart, apart


def test_a_whole_turn_later_the_same_charge_has_been_moved():
    lamp = Lamp.from_toml(STAIR)
    first, last = (view_of(Moment(lamp, phase)) for phase in (0.0, 360.0))
    assert first.charge == pytest.approx(last.charge, rel=1e-12)
    held = np.interp(first.start % 360, first.angle, first.result.dropper_voltage, period=360)
    assert first.charge == pytest.approx(lamp.dropper * (first.dropper_voltage - held), rel=0.01)


def test_what_explains_a_reading_shows_every_value_put_in():
    panel = new_panel("Strings")
    panel.explain_reading("led_voltage")
    told = read(panel.derivations["led_voltage"])
    assert not re.search(r"(?<![\d.])0 A\b", told), told
    assert r"\cdot 10^{-" in told and "·10⁻" in told, "the saturation current is far below any prefix"


def test_units_with_a_floor_are_units():
    from dropper.circuit import values

    assert set(values._FLOORS) | set(values._CEILINGS) <= set(UNITS)
