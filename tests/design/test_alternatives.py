"""Alternatives and designs side by side."""

from pathlib import Path

import pytest
from dropper import steady_state
from dropper.design import Brief, alternatives, compare, design, two_in_parallel

BRIEFS = Path(__file__).parents[2] / "notebooks" / "lamps" / "briefs"


@pytest.fixture(scope="module")
def nook():
    return design(Brief.from_toml(BRIEFS / "reading_nook.toml"))


@pytest.fixture(scope="module")
def others(nook):
    return alternatives(nook)


@pytest.mark.slow
def test_they_are_ranked_and_each_says_what_it_costs(nook, others):
    shortfall = [round(other.shortfall, 3) for other in others]
    assert shortfall == sorted(shortfall) and len(others) >= 6
    for other in others:
        assert other.words in other.sentence and set(other.costs) >= {"flicker", "power factor", "watts"}
        assert other.sizing.lamp != nook.lamp or other.sizing.clamp != nook.sizing.clamp


def test_less_smoothing_costs_flicker_and_more_saves_it(nook, others):
    words = {other.words.split(",")[0]: other for other in others}
    assert words["smaller smoothing"].sizing.flicker > nook.sizing.flicker > words["larger smoothing"].sizing.flicker
    assert words["smaller smoothing"].sizing.lamp.smoothing < nook.lamp.smoothing


def test_more_leds_raise_the_power_factor_and_the_swing(nook, others):
    """The power factor rises with D/Vp up to 0.775 (first principles); the swing goes with Vp/(Vp − D)."""
    more = next(other for other in others if other.words.startswith("more LEDs"))
    assert more.sizing.result.power_factor > nook.result.power_factor
    assert more.costs["swing with mains"].startswith("+") and more.costs["light"].startswith("+")


def test_two_droppers_come_nearer_than_one(nook, others):
    pair = two_in_parallel(nook.sizing)
    other = next(other for other in others if other.words.startswith("two droppers"))
    assert other.sizing.lamp.dropper == pytest.approx(sum(pair))
    wanted = nook.brief.current
    assert abs(other.sizing.current - wanted) < abs(nook.sizing.current - wanted)
    assert other.sizing.current == pytest.approx(steady_state(other.sizing.lamp).string_current_mean)
    assert not design(other.brief).ratings.over


def test_designs_side_by_side_tell_their_changes(nook, others):
    header, rows = compare([nook, others[0].sizing, others[-1].sizing])
    assert len(header) == 4 and all(len(row) == 4 for row in rows)
    told = {row[0]: row[1:] for row in rows}
    assert told["dropper"][0] == "330 nF" and "(" not in told["dropper"][0]
    assert "+" in told["flicker, worst corner"][2] or "−" in told["flicker, worst corner"][2]
    with pytest.raises(ValueError, match="none to compare"):
        compare([])
