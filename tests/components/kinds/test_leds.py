"""Kinds of LEDs: every figure says where it is from; kinds in series become one equal LED."""

import dataclasses
import math

import numpy as np
import pytest
from dropper import Lamp, LedString, Mains, steady_state
from dropper.circuit.lamp import Led
from dropper.components import kinds
from dropper.components.kinds.mixing import FROM, NEAR, TO
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

# Makers' data sheets, read: which figures of each line they state. All else in that line is typical practice.
STATED = {
    "yellow, 5 mm": {"typical": 1.85, "at_current": 0.002, "coefficient": -2e-3},
    "blue, 5 mm": {"typical": 3.2},
    "warm white, 5 mm": {"typical": 3.0, "least": 2.6, "greatest": 3.4},
    "near-UV 375 nm, 5 mm": {"typical": 3.5, "at_current": 0.020},
    "mid-power 0.2 W, one junction": {"typical": 2.8, "at_current": 0.060},
    "mid-power 0.5 W, one junction": {"typical": 3.2, "at_current": 0.150, "least": 2.6, "greatest": 3.6},
    "mid-power, two junctions": {"typical": 6.0, "junctions": 2},
    "mid-power, three junctions": {"typical": 9.0, "junctions": 3},
}


@pytest.mark.parametrize("kind", kinds.LEDS, ids=lambda kind: kind.name)
def test_every_figure_says_how_it_was_had(kind):
    read = STATED.get(kind.name, {})
    for figure in kinds.leds.FIGURES:
        expected = (
            "read in makers' data sheets" if figure in read or figure == "reverse_limit" else kinds.PROVENANCES[3]
        )
        assert kind.provenance_of(figure) == expected, figure
    assert {figure: getattr(kind, figure) for figure in read} == read
    assert kind.source and kind.provenance in kinds.PROVENANCES


@pytest.mark.parametrize("kind", kinds.LEDS, ids=lambda kind: kind.name)
def test_figures_are_in_order_and_of_a_size_that_leds_have(kind):
    assert kind.least < kind.typical < kind.greatest
    assert kind.at_current <= kind.current_limit
    assert kind.reverse_limit == 5  # makers' data sheets
    assert -4e-3 <= kind.coefficient <= -1e-3  # V/K a junction; value from memory for the band of common LEDs
    assert kind.series_resistance * kind.current_limit < 0.15 * kind.typical, "the junction drops most of it"
    for which in ("least", "typical", "greatest"):
        led = kind.led(which)
        assert led.voltage_at(kind.at_current) == pytest.approx(getattr(kind, which), rel=1e-9)
        assert led.ideality == 2 * kind.junctions
        assert 1.4 < led.voltage_at(kind.at_current) / kind.junctions < 4.1


def test_colours_go_up_in_volts():
    """Photon energy rises from red to near ultraviolet, and the forward voltage with it."""
    at = [
        kinds.led_kind(f"{name}, 5 mm").led().voltage_at(0.020)
        for name in ("red", "yellow-green", "blue", "near-UV 375 nm")
    ]
    assert at == sorted(at) and len(set(at)) == 4


def test_names_are_not_given_twice():
    assert len({kind.name for kind in kinds.LEDS}) == len(kinds.LEDS)


# --- kinds in series --------------------------------------------------------------------------------------------


def leds():
    return st.builds(
        lambda volts, amps, share, ideality: Led(
            volts * ideality, amps, min(share * volts * ideality / amps, 1e3), ideality
        ),
        st.floats(0.9, 2.4),
        st.floats(1e-3, 0.2),
        st.floats(0, 0.25),
        st.floats(1, 3),
    )


def string_of(parts, current):
    """Volts of the LEDs one after another: Kirchhoff's law, no average."""
    return math.fsum(led.voltage_at(current) for led, many in parts for _ in range(many))


@given(
    parts=st.lists(st.tuples(leds(), st.integers(1, 30)), min_size=1, max_size=5),
    current=st.floats(math.log(FROM), math.log(TO)),
)
def test_one_law_stands_for_many(parts, current):
    string = kinds.mixed(parts)
    assert string.in_series == sum(many for _, many in parts) and string.in_parallel == 1
    common = string.led.at_current
    assert common == min(led.at_current for led, _ in parts)
    assert string.voltage_at(common) == pytest.approx(string_of(parts, common), rel=1e-12)
    amps = common * math.exp(current)
    assert string.voltage_at(amps) == pytest.approx(string_of(parts, amps), rel=NEAR)


@pytest.mark.parametrize("which", ["typical", "least", "greatest"])
def test_the_kinds_kept_here_mix_to_a_millionth(which):
    """Far above their saturation currents the law of the sum is exact; at a hundredth of the current it still is."""
    parts = [(kind, 1 + place) for place, kind in enumerate(kinds.LEDS)]
    string = kinds.mixed(parts, which)
    for current in np.geomspace(FROM * string.led.at_current, 0.2, 20):
        assert string.voltage_at(current) == pytest.approx(
            string_of([(kind.led(which), many) for kind, many in parts], current), rel=1e-6
        )


def test_one_kind_alone_stays_what_it_is():
    led = kinds.led_kind("red, 5 mm").led()
    string = kinds.mixed([(led, 4), (led, 3)])
    assert string.in_series == 7
    for field in dataclasses.fields(led):
        assert getattr(string.led, field.name) == pytest.approx(getattr(led, field.name), rel=1e-12)


def test_a_lamp_with_a_mixed_string_runs_at_the_current_that_the_load_line_gives():
    """4fC(Vp − D), D the sum of every LED's own voltage and two diodes, without ripple: within 1 % (design bound)."""
    parts = [(kinds.led_kind("red, 5 mm").led(), 10), (kinds.led_kind("blue, 5 mm").led(), 12)]
    lamp = Lamp(Mains(230, 50), kinds.mixed(parts), dropper=330e-9, smoothing=470e-6)

    def excess(current):
        clamped = string_of(parts, current) + 2 * lamp.diode.voltage_at(current)
        return 4 * 50 * lamp.dropper * (lamp.mains.peak - clamped) - current

    assert steady_state(lamp).string_current_mean == pytest.approx(brentq(excess, 1e-4, 0.03), rel=0.01)


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda red: kinds.mixed([]), "no LED at all"),
        (lambda red: kinds.mixed(5), "5 is not a list of (kind of LED, how many)"),
        (lambda red: kinds.mixed([red, red]), "is not a list of (kind of LED, how many)"),
        (lambda red: kinds.mixed([(red, 3, 2)]), "is not (kind of LED, how many)"),
        (lambda red: kinds.mixed([(red, 0)]), "0 LEDs will not do; give a whole number from 1 up"),
        (lambda red: kinds.mixed([(red, 2.5)]), "2.5 LEDs will not do"),
        (lambda red: kinds.mixed([(red, True)]), "True LEDs will not do"),
        (lambda red: kinds.mixed([(red, 600), (red, 500)]), "1100 LEDs will not do for a string; allowed is 1 to 1000"),
        (lambda red: kinds.mixed([("red", 5)]), "'red' is no kind of LED; give an LedKind"),
        (lambda red: kinds.mixed([((red, kinds.led_kind("blue, 5 mm")), 5)]), "mixed in series only. In parallel"),
        (lambda red: kinds.mixed([(LedString(red.led(), 3, 2), 5)]), "mixed in series only. In parallel"),
        (lambda red: kinds.mixed([(red, 5)], "mean"), "choose typical, least or greatest"),
        (lambda red: kinds.mixed([(Led(0.5, 0.001, 495.0, 1.0), 1), (red, 1)]), "mostly series resistance"),
        (lambda red: dataclasses.replace(red, least=2.1), "are not least, typical and greatest"),
        (lambda red: dataclasses.replace(red, current_limit=0.01), "are not a stated current and a limit"),
        (lambda red: dataclasses.replace(red, coefficient=1e-3), "LedKind.coefficient: 1 mV/K is out of range"),
        (lambda red: dataclasses.replace(red, typical=math.nan), "LedKind.typical: nan is not a finite number in V"),
        (lambda red: dataclasses.replace(red, junctions=1.5), "LedKind.junctions: 1.5 is not whole"),
        (lambda red: dataclasses.replace(red, source_figures=("colour",)), "'colour' is no figure of an LED"),
        (lambda red: red.provenance_of("colour"), "'colour' is no figure of an LED; there are typical, least"),
    ],
)
def test_errors_speak_to_a_person(make, words):
    with pytest.raises(ValueError) as caught:
        make(kinds.led_kind("red, 5 mm"))
    assert words in str(caught.value)


def test_a_string_that_is_hardly_leds_is_either_near_or_refused():
    """A resistor in an LED's clothes: the sum of the laws is no longer one law of the same form."""
    for share in np.linspace(0.5, 0.999, 20):
        parts = [(Led(0.6, 1e-3, share * 600.0, 1.0), 1), (Led(3.1, 0.02, 9.0, 2.0), 1)]
        try:
            string = kinds.mixed(parts)
        except ValueError:
            assert share > 0.7
        else:
            low = FROM * string.led.at_current
            assert string.voltage_at(low) == pytest.approx(string_of(parts, low), rel=NEAR)
