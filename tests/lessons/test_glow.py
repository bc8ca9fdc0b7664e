"""The drawn lamp: its light is the string's, it never flashes too often, it can be held still, and it costs little."""

import re

import numpy as np
import pytest
from dropper import Lamp
from dropper.circuit.lamp import replace_at
from dropper.lessons.kit import glow
from dropper.lessons.kit.glow import GlowBox, slowed
from dropper.results.light import Light, glow_of, light_of
from dropper.solver.steady import steady_state
from dropper.solver.transient import Fault, settle, with_fault
from for_every import for_every
from panels_to_try import STAIR, ends, new_panel

GLOWING = ("LoadLine", "Conduction", "Smoothing", "Faults", "Ageing", "FirstPower")
SCREEN = 2.2  # the power by which a screen's light goes with what it is given: the usual figure, from memory


@pytest.fixture(scope="module")
def stair():
    return Lamp.from_toml(STAIR)


def light_in(html):
    """The light of each step of the drawn wave, the most of which is 1; and how many seconds the wave takes."""
    steps = [float(step) ** SCREEN for step in re.findall(r"%\{opacity:([\d.]+)\}", html)]
    cycle = re.search(r"--cycle:([\d.]+)s", html)
    return steps, float(cycle[1]) if cycle else 0.0


def flashes(light):
    """Pairs of opposing changes of 10 % of the most light, as WCAG 2.2 defines a general flash."""
    count, low, high, rising = 0, light[0], light[0], False
    for _ in range(2):  # the second one is counted: it begins where the first has ended
        count = 0
        for value in light[1:]:
            low, high = min(low, value), max(high, value)
            if not rising and value >= low + 0.1:
                rising, high, count = True, value, count + 1
            elif rising and value <= high - 0.1:
                rising, low = False, value
    return count


def test_the_drawn_light_flickers_as_deep_as_the_solver_says(stair):
    @for_every([1e-6, 4.7e-6, 10e-6, 47e-6])
    def look(smoothing):
        lamp = replace_at(stair, "smoothing", smoothing)
        result, box = steady_state(lamp), GlowBox()
        box.show(light_of(lamp, result))
        light, cycle = light_in(box.lamp.value)
        assert abs(100 * (1 - min(light)) / (1 + min(light)) - result.percent_flicker) < 6  # 24 steps miss a cusp
        assert cycle == 50 / lamp.mains.frequency

    look()


def test_light_goes_with_the_current_over_the_stated_one(stair):
    result = steady_state(stair)
    light = light_of(stair, result)
    assert light.mean == pytest.approx(result.string_current_mean / stair.string.led.at_current, rel=0.02)
    assert "20 mA" in light.words
    side_by_side = replace_at(stair, "string.in_parallel", 2)
    assert light_of(side_by_side, steady_state(side_by_side)).mean == pytest.approx(light.mean / 2, rel=0.1)


def test_a_dark_string_has_no_glow_and_nothing_moves(stair):
    @for_every([("open", "string"), ("short", "smoothing"), ("open", "dropper")])
    def look(kind, part):
        result = settle(with_fault(stair, Fault(kind, part)))
        box = GlowBox()
        box.show(light_of(stair, result))
        assert "--glass:0.0;--halo:0.0;" in box.lamp.value and "keyframes" not in box.lamp.value
        assert box.hold.disabled

    look()


def test_it_never_flashes_more_than_three_times_a_second(stair):
    """WCAG 2.2, success criterion 2.3.1, whatever the mains and the fault."""
    mains = [replace_at(stair, "mains.frequency", hertz) for hertz in (10.0, 50.0, 65.0, 400.0, 1000.0)]
    bare = [replace_at(lamp, "smoothing", 0.0) for lamp in mains]
    results = [(lamp, steady_state(lamp)) for lamp in (*mains, *bare)]
    results.append((stair, settle(with_fault(stair, Fault("short", "D1")))))

    @for_every(results)
    def look(lamp, result):
        box = GlowBox()
        box.show(light_of(lamp, result))
        light, cycle = light_in(box.lamp.value)
        assert not light or flashes(light) / cycle <= 3, (lamp.mains.frequency, flashes(light), cycle)

    look()


def test_slowing_is_said_where_it_is_more_than_fifty_times():
    hum = Light(np.array([0.0, 1.0] * 12 + [0.0]), 1 / 400, "")
    assert slowed(hum) > 50
    box = GlowBox()
    box.show(hum)
    assert f"{slowed(hum)} × slowed" in box.lamp.value


@pytest.mark.parametrize("name", GLOWING)
def test_panels_show_it_small_and_silent(name):
    panel = new_panel(name)
    for slider in list(panel.sliders.values())[-2:]:
        for value in ends(slider):
            slider.value = value
            html = panel.glow_box.lamp.value
            assert len(html) < 3000
            assert 'aria-hidden="true"' in html, "its words are in the sentence"


def test_it_is_not_shown_while_it_would_answer_the_question():
    panel = new_panel("Smoothing", ask=True)
    assert panel.glow_box.layout.display == "none" and not panel.glow_box.lamp.value
    panel.prediction.skip()
    assert panel.glow_box.layout.display == "" and panel.glow_box.lamp.value


def test_pause_holds_it_still_and_a_redraw_does_not_let_go():
    panel = new_panel("Smoothing")
    panel.glow_box.hold.click()
    assert "dropper-held" in panel.glow_box.lamp._dom_classes and panel.glow_box.hold.description == "Go on"
    panel.sliders["dropper"].index += 1
    assert "dropper-held" in panel.glow_box.lamp._dom_classes
    panel.glow_box.hold.click()
    assert "dropper-held" not in panel.glow_box.lamp._dom_classes


def test_what_looks_as_before_goes_on_untouched(stair):
    box, result = GlowBox(), steady_state(stair)
    box.show(light_of(stair, result))
    before = box.lamp.value
    box.show(light_of(stair, result))
    assert box.lamp.value is before


def test_a_new_picture_goes_on_where_the_last_one_was(stair, monkeypatch):
    light, since = light_of(stair, steady_state(stair)), []
    for seconds in (100.25, 100.75, 101.25):
        monkeypatch.setattr(glow.time, "time", lambda seconds=seconds: seconds)
        box = GlowBox()
        box.show(light)
        since.append(float(re.search(r"--since:-([\d.]+)s", box.lamp.value)[1]))
    assert since == [0.25, 0.75, 0.25], "one second a round at 50 Hz"


def test_a_filament_has_the_colour_of_its_word():
    box, colours = GlowBox(), set()
    for word in ("dark", "a dull red", "red", "orange", "yellow", "bright"):
        box.show(glow_of(word, 0.02, word))
        colours.add(re.search(r"--shine:(#\w+)", box.lamp.value)[1])
    assert len(colours) == 6 and box.hold.layout.display == "none", "it never flickers"
