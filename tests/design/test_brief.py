"""Briefs: checked, written and read; wishes that cannot be met, and the nearest that can."""

import dataclasses
from pathlib import Path

import pytest
from dropper.circuit.lampfile import LampFileError
from dropper.components.kinds import LEDS
from dropper.design import Brief, Infeasible, design, nearest, size

BRIEFS = Path(__file__).parents[2] / "notebooks" / "lamps" / "briefs"
NOOK = Brief.from_toml(BRIEFS / "reading_nook.toml")


@pytest.mark.parametrize(
    "brief",
    [
        NOOK,
        NOOK.but(place="", voltage=230.0, frequency=50.0, high=250.0, fixed={"dropper": "330 nF", "bleeder": "none"}),
        NOOK.but(led="own", own_led=dataclasses.replace(LEDS[0], name="own"), clamp=True, leds_in_use_only=True),
        NOOK.but(
            in_series="best", swing=30.0, led_pulse=0.05, stock={"dropper": ["330 nF", "220 nF"]}, metal_case=True
        ),
        NOOK.but(enclosure="120 × 60 × 40 mm wood", place="", voltage=115, frequency=400, mains_tolerance=0.04),
        NOOK.but(flicker="12.5 %", dropper_series=12, room=-5),
    ],
)
def test_a_brief_written_and_read_is_the_same(brief, tmp_path):
    brief.to_toml(tmp_path / "brief.toml")
    assert Brief.from_toml(tmp_path / "brief.toml") == brief


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"in_series": 0}, "in_series.*whole number from 1"),
        ({"current": -1}, "current.*out of range"),
        ({"place": "Atlantis"}, "place.*Europe"),
        ({"place": ""}, "voltage.*place"),
        ({"voltage": 230.0}, "place.*leave"),
        ({"place": "", "voltage": 230.0, "frequency": 50.0, "low": 240.0}, "least, nominal and greatest"),
        ({"flicker": "some"}, "flicker.*low risk"),
        ({"flicker": 0}, "flicker"),
        ({"led": "candle"}, "led.*warm white"),
        ({"rule": "none"}, "rule.*household"),
        ({"bus_rule": "office, superseded"}, "bus_rule.*plugs"),
        ({"dropper_series": 7}, "E7.*E12"),
        ({"enclosure": "bag"}, "enclosure.*vented"),
        ({"enclosure": "120 × 60 × 40 mm paper"}, "enclosure.*paper.*plastic"),
        ({"in_series": "many"}, "in_series.*best"),
        ({"stock": {"dropper": "330 nF"}}, "stock.*list"),
        ({"stock": {"dropper": ["330 ohm"]}}, "stock.*330 nF"),
        ({"warmest": 40.0, "room": 45.0}, "warmest"),
        ({"fixed": {"dropper": "330 ohm"}}, "dropper.*330 nF"),
        ({"fixed": {"fuse": 1}}, "fuse.*allowed are"),
        ({"clamp": "yes"}, "clamp.*True or False"),
        ({"own_led": {"name": "x"}}, "own_led.*typical"),
    ],
)
def test_a_wrong_wish_is_named(changes, words):
    with pytest.raises(ValueError, match=words):
        NOOK.but(**changes)


def test_a_wrong_file_names_the_line():
    text = NOOK.to_toml_text().replace('flicker = "low risk"', 'flicker = "lots"')
    line = text.splitlines().index('flicker = "lots"') + 1
    with pytest.raises(LampFileError, match=rf"line {line}: Brief.flicker"):
        Brief.from_toml_text(text)


@pytest.mark.slow
@pytest.mark.parametrize(
    ("changes", "wish"),
    [
        ({"in_series": 95}, "in_series"),
        ({"current": 0.030}, "current"),
        ({"flicker": 0.5}, "flicker"),
        ({"in_series": 60, "led_share": 1.0, "current": 0.012, "room": 60.0}, "warmest"),
        ({"fixed": {"smoothing": 1e-6}}, "fixed"),
        ({"fixed": {"inrush_resistor": 10.0}}, "fixed"),
        ({"fixed": {"bleeder": 4.7e6}}, "fixed"),
        ({"fixed": {"bleeder": None}}, "fixed"),
        ({"fixed": {"dropper": 1e-6}}, "fixed"),
    ],
)
def test_a_wish_too_far_is_answered_with_the_nearest(changes, wish):
    with pytest.raises(Infeasible) as failed:
        design(NOOK.but(**changes))
    assert failed.value.wish == wish
    assert any(letter.isdigit() for letter in failed.value.why), "figures say why"
    made, given_up = nearest(NOOK.but(**changes))
    assert made is not None and given_up[0].wish == wish
    assert made.lamp == design(made.brief).lamp


def test_the_nearest_gives_up_no_more_than_needed():
    """One group more than the nearest has does not fit; a little more current than it has is too much."""
    with pytest.raises(Infeasible) as failed:
        design(NOOK.but(in_series=95))
    with pytest.raises(Infeasible) as again:
        size(NOOK.but(in_series=failed.value.nearest.in_series + 1))
    assert again.value.wish == "in_series"
    with pytest.raises(Infeasible) as failed:
        design(NOOK.but(current=0.030))
    with pytest.raises(Infeasible):
        size(NOOK.but(current=1.08 * failed.value.nearest.current))


def test_leds_in_use_only_are_allowed_more_and_it_is_told():
    brief = NOOK.but(current=0.023, dropper_series=24)
    strict, loose = nearest(brief)[0], design(brief.but(leds_in_use_only=True))
    assert loose.sizing.current > strict.sizing.current
    assert any("with a fault they may not" in told for told in loose.warnings)


def test_a_single_package_above_the_mains_has_no_nearest():
    kind = dict(
        name="tall",
        typical=95.0,
        least=90.0,
        greatest=100.0,
        at_current=0.02,
        current_limit=0.03,
        junctions=28,
        coefficient=-2e-3,
        series_resistance=50.0,
        source="no data sheet",
        had="typical practice, no source",
    )
    brief = NOOK.but(place="", voltage=48.0, frequency=50.0, led="tall", own_led=kind, in_series=1)
    made, given_up = nearest(brief)
    assert made is None and given_up[0].nearest is None and "Not even one" in given_up[0].why
