"""Figures in the lessons' prose: each is the library's own, and one reading is one number on every page."""

import functools
import json
import re
from pathlib import Path

import pytest
from dropper import Lamp, replace_at, steady_state, theory
from dropper.circuit.units import PREFIXES
from dropper.circuit.units import UNITS as ALL_UNITS
from dropper.solver.state import UNITS
from dropper.solver.transient import Fault, with_fault

NOTEBOOKS = sorted((Path(__file__).resolve().parents[2] / "notebooks").glob("[01][0-9]_*.ipynb"))
STAIR = Lamp.from_toml("notebooks/lamps/stair_marker.toml")
SYMBOLS = r"[pnµmkM]?(?:VA|var|V|A|W|F|Ω|C|J)|%"
FIGURE = re.compile(rf"(?<![\w.,/])(\d+(?:\.\d+)?)[ \u00a0]?({SYMBOLS})(?![\w²/])")
# Figures of something else that lie near a reading of the lamp's by chance.
OF_SOMETHING_ELSE = {
    ("02", "69.1 V"): "what the bridge is held at, not the peak of the bus voltage",
    ("03", "170 µC"): "how a reply may be written",
    ("07", "324 V"): "how a reply may be written",
    ("09", "21.5 mA"): "mean of the rectified current into a short circuit, 4 f C Vp",
}
NEAR = 0.01  # nearer than that, a figure in the same unit is taken for the reading


@functools.cache
def prose(page):
    """What a notebook says in words, on one line."""
    path = next(path for path in NOTEBOOKS if path.name.startswith(page))
    cells = json.loads(path.read_text(encoding="utf-8"))["cells"]
    return " ".join(" ".join("".join(cell["source"]).split()) for cell in cells if cell["cell_type"] == "markdown")


@functools.cache
def seen(*changes):
    """The stair marker's steady state, with changes by path."""
    lamp = STAIR
    for path, value in changes:
        lamp = replace_at(lamp, path, value)
    return steady_state(lamp)


@functools.cache
def held(groups):
    """The clamped voltage D with so many LEDs, V."""
    from dropper.results.explain import clamped_voltage

    return clamped_voltage(replace_at(STAIR, "string.in_series", groups), seen(("string.in_series", groups)))


def with_leds(groups):
    return seen(("string.in_series", groups))


def rise(before, after):
    """By how much the mean string current rises, in per cent."""
    return 100 * (after.string_current_mean / before.string_current_mean - 1)


PEAK = STAIR.mains.peak
THOUSAND_OHMS = ("series_resistor", 1e3)
# Page, the words around the figure with # in its place, the figure's unit, and what it is a figure of.
STATED = [
    ("00", "some # beside the 256 V", "V", lambda: 1e3 * seen(THOUSAND_OHMS).string_current_mean),
    ("00", "beside the # that are left", "V", lambda: PEAK - held(22)),
    ("00", "the current falls by #", "%", lambda: -rise(seen(), seen(THOUSAND_OHMS))),
    ("00", "the bench says # less current", "%", lambda: -rise(seen(), seen(THOUSAND_OHMS))),
    ("02", "*D* falls by #. On top", "V", lambda: held(22) - held(11)),
    ("02", "On top of # that is", "V", lambda: PEAK - held(22)),
    ("02", "256 V that is # more", "%", lambda: 100 * (held(22) - held(11)) / (PEAK - held(22))),
    ("02", "The panel says #, for", "%", lambda: rise(with_leds(22), with_leds(11))),
    ("02", "then, # of 16.7 mA", "A", lambda: one_diode_short().string_current_mean),
    ("02", "9.37 mA of #", "A", lambda: seen().string_current_mean),
    ("02", "The solver gives #", "%", lambda: 100 * one_diode_short().string_current_mean / seen().string_current_mean),
    ("02", "more than half, # in the stair marker", "%", lambda: 100 * half_wave_share()),
    ("03", "a third of the #", "C", lambda: 0.5 * moved_in_a_period()),
    ("04", "with 10 it is #", "A", lambda: seen().string_current_min),
    ("04", "1 kΩ brings it to #", "%", lambda: seen(THOUSAND_OHMS).percent_flicker),
    ("05", "stair marker shows 230 V, # and", "A", lambda: seen().line_current_rms),
    ("05", "230 V, 22 mA and #", "W", lambda: seen().real_power),
    ("05", "22 mA are #", "VA", lambda: seen().apparent_power),
    ("05", "would burn # of 11 W", "W", lambda: larger(220.0).heat["inrush_resistor"]),
    ("05", "3.5 W of # here", "W", lambda: larger(220.0).real_power),
    ("09", "With 22 LEDs that is #", "V", lambda: PEAK - held(22)),
    ("09", "whole string: # with 22", "V", lambda: with_leds(22).bus_voltage_mean),
    ("09", "22 LEDs, # with 88", "V", lambda: with_leds(88).bus_voltage_mean),
    ("09", "With 96 LEDs only # are left", "V", lambda: PEAK - held(96)),
    ("09", "22 single LEDs #", "W", lambda: seen().heat["leds"]),
    ("09", "groups of three take #", "W", lambda: seen(("string.in_parallel", 3)).heat["leds"]),
]


def one_diode_short():
    return steady_state(with_fault(STAIR, Fault("short", "D1")))


def larger(ohms):
    """The larger lamp of lesson 05 with a resistor in its line."""
    return seen(("dropper", 6 * STAIR.dropper), ("string.in_parallel", 6), ("inrush_resistor", ohms))


def half_wave_share():
    source = {"frequency": 50, "dropper": STAIR.dropper, "peak_voltage": PEAK}
    half = theory.half_wave_current(**source, diode_voltage=0, output_voltage=held(22))
    return half / theory.mean_string_current(**source, clamped_voltage=held(22))


def moved_in_a_period():
    """Charge through the line in a period, one way and back, by the solver's wave."""
    return abs(seen().line_current).mean() / STAIR.mains.frequency


def scale_of(symbol):
    """What a unit with its prefix is worth in the unit itself, and that unit."""
    return (1.0, symbol) if symbol in ALL_UNITS else (PREFIXES[symbol[0]], symbol[1:])


def half_a_digit(number):
    """Half of what the last digit is worth."""
    return 0.5 * 10.0 ** -len(number.partition(".")[2])


@pytest.mark.parametrize(("page", "words", "unit", "value"), STATED, ids=[f"{row[0]} {row[1]}" for row in STATED])
def test_a_figure_in_the_text_is_the_librarys(page, words, unit, value):
    before, after = (re.escape(part) for part in words.split("#"))
    found = re.search(rf"{before}({FIGURE.pattern}){after}", prose(page))
    assert found, f"lesson {page} does not say {words!r} any more"
    number, symbol = FIGURE.match(found[1]).groups()
    scale, bare = scale_of(symbol)
    assert bare == unit and value() / scale == pytest.approx(float(number), abs=1.0001 * half_a_digit(number)), found[0]


def readings():
    """The stair marker's readings with their units, as data sheets and 25 °C have it."""
    result = seen()
    for name, unit in UNITS.items():
        value = getattr(result, name)
        if isinstance(value, float) and unit:
            yield name, value, unit
    yield from ((f"heat of {part}", watts, "W") for part, watts in result.heat.items() if watts)
    yield "clamped voltage", held(22), "V"
    yield "what it leaves of the peak", PEAK - held(22), "V"
    yield "peak of the mains", PEAK, "V"


@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)
def test_no_figure_lies_beside_a_reading_of_the_lamp(path):
    """6.44 mA here and 6.45 mA there: a figure within a per cent of a reading is that reading, rounded."""
    page, wrong = path.name[:2], []
    for match in FIGURE.finditer(prose(page)):
        number, symbol = match.groups()
        if (page, match[0]) in OF_SOMETHING_ELSE:
            continue
        scale, bare = scale_of(symbol)
        for name, value, unit in readings():
            if unit == bare:
                here = float(number) - value / scale
                if abs(here) < NEAR * float(number) and abs(here) > 1.0001 * half_a_digit(number):
                    wrong.append(f"{match[0]}, where the {name} is {value:.5g} {unit}")
    assert not wrong, "\n".join(wrong)
