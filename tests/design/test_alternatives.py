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


def test_they_are_ranked_and_each_says_what_it_costs(nook, others):
    left_out = [round(other.left_out, 3) for other in others]
    assert left_out == sorted(left_out) and len(others) >= 6
    for other in others:
        assert other.words in other.sentence and set(other.costs) >= {"flicker", "power factor", "watts"}
        assert other.draft.lamp != nook.lamp or other.draft.clamp != nook.draft.clamp


def test_less_smoothing_costs_flicker_and_more_saves_it(nook, others):
    words = {other.words.split(",")[0]: other for other in others}
    assert words["smaller smoothing"].draft.flicker > nook.draft.flicker > words["larger smoothing"].draft.flicker
    assert words["smaller smoothing"].draft.lamp.smoothing < nook.lamp.smoothing


def test_more_leds_raise_the_power_factor_and_the_swing(nook, others):
    """The power factor rises with D/Vp up to 0.775 (first principles); the swing goes with Vp/(Vp − D)."""
    more = next(other for other in others if other.words.startswith("more LEDs"))
    assert more.draft.result.power_factor > nook.result.power_factor
    assert more.costs["swing with mains"].startswith("+") and more.costs["light"].startswith("+")


def test_two_droppers_come_nearer_than_one(nook, others):
    pair = two_in_parallel(nook.draft)
    other = next(other for other in others if other.words.startswith("two droppers"))
    assert other.draft.lamp.dropper == pytest.approx(sum(pair))
    wanted = nook.brief.current
    assert abs(other.draft.current - wanted) < abs(nook.draft.current - wanted)
    assert other.draft.current == pytest.approx(steady_state(other.draft.lamp).string_current_mean)
    assert not design(other.brief).ratings.over


def test_designs_side_by_side_tell_their_changes(nook, others):
    header, rows = compare([nook, others[0].draft, others[-1].draft])
    assert len(header) == 4 and all(len(row) == 4 for row in rows)
    told = {row[0]: row[1:] for row in rows}
    assert told["dropper"][0] == "330 nF" and "(" not in told["dropper"][0]
    assert "+" in told["flicker, worst corner"][2] or "−" in told["flicker, worst corner"][2]
    with pytest.raises(ValueError, match="none to compare"):
        compare([])
