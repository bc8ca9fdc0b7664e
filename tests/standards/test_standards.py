"""Published limits at and around each of their borders, against the tables of the standards named beside each check."""

import datetime
import math

import numpy as np
import pytest
from dropper import Lamp, replace_at, standards, steady_state
from hypothesis import given
from hypothesis import strategies as st

JUST = 1 + 1e-9


def spectrum(fundamental=0.1, **shares):
    """Harmonic currents of orders 0 to 40 from per cents of the fundamental: h3=86 is the third."""
    currents = np.zeros(41)
    currents[1] = fundamental
    for name, share in shares.items():
        currents[int(name[1:])] = fundamental * share / 100
    return currents


def pulse(start, peak, stop, points=720):
    """A current that rises from `start` to `peak` and falls to `stop`, degrees, the same upside down half a period on."""
    angle = (np.arange(points) + 0.5) * 360 / points
    half = np.interp(angle, [start, peak, stop], [0, 1, 0], left=0, right=0)
    return half - np.roll(half, points // 2)


# IEEE 1789-2015, 8.1.1, as restated: low risk 0.025·f below 90 Hz and 0.08·f to 1250 Hz, no effect 0.01·f and 0.0333·f;
# 8 % and 3.33 % at 100 Hz, 9.6 % and 4.0 % at 120 Hz. That nothing is restricted above 1250 and 3000 Hz: value from memory.
@pytest.mark.parametrize(
    ("frequency", "low_risk", "no_effect"),
    [
        (100, 8.0, 3.33),
        (120, 9.6, 4.0),
        (1, 0.025, 0.01),
        (50, 1.25, 0.5),
        (89.999, 2.25, 0.9),
        (90, 7.2, 3.0),
        (1250, 100, 41.6),
        (1251, 100, 41.66),
        (3000, 100, 99.9),
        (3001, 100, 100),
        (20000, 100, 100),
    ],
)
def test_modulation_limits(frequency, low_risk, no_effect):
    assert standards.low_risk_modulation(frequency) == pytest.approx(low_risk, rel=2e-3)
    assert standards.no_effect_modulation(frequency) == pytest.approx(no_effect, rel=2e-3)


@given(st.floats(0.1, 1e5))
def test_no_effect_asks_for_more_than_low_risk_and_neither_for_more_than_can_be(frequency):
    none, low = standards.no_effect_modulation(frequency), standards.low_risk_modulation(frequency)
    assert 0 < none <= low <= 100


@pytest.mark.parametrize("frequency", [0, -100, math.nan, math.inf, "fast", None])
def test_a_frequency_that_cannot_be_is_refused_in_words(frequency):
    for limit in (standards.low_risk_modulation, standards.no_effect_modulation):
        with pytest.raises(ValueError, match=r"frequency: .* Hz will not do; allowed is a number above 0 Hz"):
            limit(frequency)


@pytest.mark.parametrize(
    ("depth", "word", "sign"),
    [
        (3.32, "no effect", "✓"),
        (3.34, "low risk", "△"),
        (8.0, "low risk", "△"),
        (8.01, "over", "✗"),
        (100, "over", "✗"),
    ],
)
def test_modulation_verdict(depth, word, sign):
    verdict = standards.modulation_verdict(depth, 100)
    assert (verdict.word, verdict.sign) == (word, sign)
    assert "IEEE 1789-2015" in verdict.words and "At 100 Hz" in verdict.words
    if depth == 100:
        assert "12.5 times the 8 % of low risk" in verdict.words
    with pytest.raises(ValueError, match="percent_flicker: 101 % will not do; allowed is a number from 0 to 100 %"):
        standards.modulation_verdict(101, 100)


# Regulation (EU) 2019/2020, Annex II, Table 4: none up to 5 W, 0.5 to 10 W, 0.7 to 25 W, 0.9 above.
@pytest.mark.parametrize(
    ("power", "least"),
    [(0, None), (5, None), (5 * JUST, 0.5), (10, 0.5), (10 * JUST, 0.7), (25, 0.7), (25 * JUST, 0.9), (500, 0.9)],
)
def test_least_displacement_factor(power, least):
    assert standards.least_displacement_factor(power) == least
    if least is None:
        assert standards.displacement_verdict(power, 0.1).word == "no limit"
    else:
        assert standards.displacement_verdict(power, least).word == "within"
        short = standards.displacement_verdict(power, least - 0.25)
        assert short.word == "below" and f"0.25 short of the {least:g}" in short.words and short.sign == "✗"


def test_displacement_factor_that_cannot_be_judged():
    assert standards.displacement_verdict(12, math.nan).word == "not judged"
    with pytest.raises(ValueError, match="displacement_factor: 1.2 will not do; allowed is a number from -1 to 1"):
        standards.displacement_verdict(12, 1.2)
    with pytest.raises(ValueError, match="power: -1 W will not do; allowed is a number from 0 W"):
        standards.least_displacement_factor(-1)


# The same table: SVM 0.9, from September 2024 0.4 (amendment 2021/341); PstLM 1.0. The first of the month: value from memory.
@pytest.mark.parametrize(
    ("day", "most", "slow"),
    [
        ((2021, 8, 31), None, None),
        ((2021, 9, 1), 0.9, 1.0),
        ((2024, 8, 31), 0.9, 1.0),
        ((2024, 9, 1), 0.4, 1.0),
        ((2030, 1, 1), 0.4, 1.0),
    ],
)
def test_stroboscopic_limits_by_day(day, most, slow):
    day = datetime.date(*day)
    assert standards.largest_stroboscopic_visibility(day) == most
    assert standards.largest_short_term_flicker(day) == slow
    if most is None:
        assert standards.stroboscopic_verdict(2.6, day).word == "no limit"
    else:
        assert standards.stroboscopic_verdict(most, day).word == "within"
        over = standards.stroboscopic_verdict(2 * most, day)
        assert over.word == "over" and f"2 times the {most:g} allowed" in over.words
        assert standards.stroboscopic_verdict(math.nan, day).word == "not judged"


def test_a_day_must_be_a_date():
    with pytest.raises(TypeError, match="day: 2024 is not a date"):
        standards.largest_stroboscopic_visibility(2024)


# IEC 61000-3-2:2018, lighting: nothing below 5 W, limits from 220 V up, one of three ways to 25 W, a table above.
@pytest.mark.parametrize(
    ("power", "voltage", "names"),
    [
        (4.999, 230, []),
        (5, 230, ["a", "b", "c"]),
        (25, 230, ["a", "b", "c"]),
        (25 * JUST, 230, ["table"]),
        (12, 219.9, []),
        (12, 220, ["a", "b", "c"]),
        (100, 120, []),
        (100, 220, ["table"]),
    ],
)
def test_which_limits_hold(power, voltage, names):
    sets = standards.harmonic_limits(power, voltage, 0.5)
    assert [limits.name for limits in sets] == names
    if not names:
        verdict = standards.harmonic_verdict(spectrum(h3=90), power, voltage, 0.5)
        assert (verdict.word, verdict.sign, verdict.checks) == ("no limit", "–", ())
        assert ("below 5 W" in verdict.words) == (voltage >= 220) and ("below 220 V" in verdict.words) == (
            voltage < 220
        )


def test_limits_for_each_watt():
    """Way (a), mA a watt: 3rd 3.4, 5th 1.9, 7th 1.0, 9th 0.5, 11th 0.35, odd ones to the 39th 3.85/n."""
    way = standards.harmonic_limits(10, 230)[0]
    printed = {3: 34.0, 5: 19.0, 7: 10.0, 9: 5.0, 11: 3.5, 13: 2.962, 15: 2.567, 39: 0.987}
    assert way.unit == "A" and set(way.limits) == set(range(3, 40, 2))
    for order, milliamperes in printed.items():
        assert way.limits[order] == pytest.approx(milliamperes * 1e-3, rel=1e-3), order


def test_limits_of_the_other_two_ways():
    """(b) 3rd 86 %, 5th 61 % and the shape; (c) distortion 70 %, 3rd 35, 5th 25, 7th 30, 9th and 11th 20, 2nd 5 %: value
    from memory."""
    _, b, c = standards.harmonic_limits(10, 230)
    assert (b.unit, b.limits, b.shape, b.distortion) == ("%", {3: 86, 5: 61}, True, None)
    assert (c.unit, c.limits, c.shape, c.distortion) == ("%", {2: 5, 3: 35, 5: 25, 7: 30, 9: 20, 11: 20}, False, 70)


def test_the_table_above_25_watts():
    """2nd 2, 3rd 30 times the power factor, 5th 10, 7th 7, 9th 5, odd ones from the 11th to the 39th 3 %."""
    (table,) = standards.harmonic_limits(40, 230, 0.5)
    expected = {2: 2, 3: 15, 5: 10, 7: 7, 9: 5} | dict.fromkeys(range(11, 40, 2), 3)
    assert table.limits == expected and list(table.limits) == sorted(expected)
    with pytest.raises(ValueError, match="power_factor: is missing; above 25 W"):
        standards.harmonic_limits(40, 230)


@pytest.mark.parametrize("order", [2, 3, 5, 7, 9, 11, 13, 37, 39])
def test_the_table_names_the_harmonic_that_is_over_and_by_how_much(order):
    limit = standards.harmonic_limits(60, 230, 0.9)[0].limits[order]
    within = standards.harmonic_verdict(spectrum(0.3, **{f"h{order}": limit / JUST}), 60, 230, 0.9)
    over = standards.harmonic_verdict(spectrum(0.3, **{f"h{order}": 1.5 * limit}), 60, 230, 0.9)
    assert within.word == "within" and over.word == "over"
    assert over.checks[0].over == (order,) and over.checks[0].ratio == pytest.approx(1.5)
    said = {2: "2nd", 3: "3rd"}.get(order, f"{order}th")
    assert f"the {said} harmonic is" in over.words and f"1.5 times the {limit:.3g} % allowed" in over.words


def test_even_harmonics_above_the_second_and_dc_are_not_limited():
    currents = spectrum(0.3, h4=50, h0=50, h40=50)
    assert standards.harmonic_verdict(currents, 60, 230, 0.9).word == "within"


def test_any_one_of_the_three_ways_will_do():
    """At 20 W the first way allows 68 mA of third harmonic, 38 mA of fifth."""
    by_a = spectrum(0.08, h3=84, h5=40)  # 67 mA, 32 mA
    verdict = standards.harmonic_verdict(by_a, 20, 230)
    assert verdict.word == "within" and [check.word for check in verdict.checks] == ["within", "not judged", "over"]
    assert (
        "(a) is met" in verdict.words
        and "(c) is not met: the 3rd harmonic is 84 %, 2.4 times the 35 %" in verdict.words
    )
    by_c = spectrum(0.4, h3=34, h5=24)  # 136 mA: twice what (a) allows
    verdict = standards.harmonic_verdict(by_c, 20, 230)
    assert [check.word for check in verdict.checks] == ["over", "not judged", "within"] and verdict.word == "within"
    assert "96 mA, 2.53 times the 38 mA allowed; over too: 3rd harmonic" in verdict.words and verdict.checks[
        0
    ].over == (3, 5)
    by_b = spectrum(0.2, h3=80, h5=55)
    shaped = standards.harmonic_verdict(by_b, 20, 230, waveform=pulse(40, 62, 100))
    assert [check.word for check in shaped.checks] == ["over", "within", "over"] and shaped.word == "within"
    late = standards.harmonic_verdict(by_b, 20, 230, waveform=pulse(40, 70, 100))
    assert late.word == "over" and "later than 65°" in late.words and "none is seen to be met" in late.words
    unseen = standards.harmonic_verdict(by_b, 20, 230)
    assert (unseen.word, unseen.sign) == (
        "not judged",
        "?",
    ) and "the shape of the current was not given" in unseen.words
    hopeless = standards.harmonic_verdict(spectrum(0.2, h3=90, h5=55), 20, 230)
    assert hopeless.word == "over" and "(b) is not met: the 3rd harmonic is 90 %, 1.05 times" in hopeless.words


def test_the_distortion_of_way_c_counts_all_orders_to_the_40th():
    """Orders that have no limit of their own make 71 % together."""
    currents = spectrum(0.5, **{f"h{order}": 71 / math.sqrt(4) for order in (4, 6, 8, 40)})
    verdict = standards.harmonic_verdict(currents, 6, 230)
    assert "(c) is not met: the distortion is 71 %, 1.01 times the 70 % allowed" in verdict.words
    currents[[4, 6, 8, 40]] *= 69 / 71
    assert standards.harmonic_verdict(currents, 6, 230).checks[2].word == "within"


def test_harmonics_too_small_to_count_are_left_out():
    """Below 5 mA, or 0.6 % of the line current if that is more: value from memory. At 5 W the 11th may be 1.75 mA."""
    assert standards.harmonic_verdict(spectrum(0.1, h11=4.99), 5, 230).checks[0].word == "within"
    assert standards.harmonic_verdict(spectrum(0.1, h11=5.01), 5, 230).checks[0].over == (11,)
    assert "too small to count" in standards.harmonic_verdict(spectrum(0.05, h11=5), 5, 230).words
    big = spectrum(10.0, h39=0.59)  # 59 mA
    assert standards.harmonic_verdict(big, 6, 230).checks[0].word == "within"
    big[39] = 0.0601
    assert standards.harmonic_verdict(big, 6, 230).checks[0].over == (39,)


@pytest.mark.parametrize(
    ("start", "peak", "stop", "met", "said"),
    [
        (55, 62, 95, True, ""),
        (61, 63, 95, False, "later than 60°"),
        (40, 66, 95, False, "later than 65°"),
        (40, 60, 89, False, "before 90°"),
        (0, 64, 180, True, ""),
        (20, 90, 160, False, "later than 65°"),
    ],
)
def test_the_shape_of_the_current(start, peak, stop, met, said):
    """Way (b): starts by 60°, last peak by 65°, does not stop before 90° (from memory); the threshold is 5 % of the peak."""
    shape = standards.current_shape(pulse(start, peak, stop))
    assert shape.met == met and said in shape.words
    assert shape.starts == pytest.approx(start + 0.05 * (peak - start), abs=0.3)
    assert shape.last_peak == pytest.approx(peak, abs=0.3)
    assert shape.stops == pytest.approx(stop - 0.05 * (stop - peak), abs=0.3)


def test_the_last_of_several_peaks_counts_and_the_worse_half_cycle():
    two = pulse(10, 40, 100) + 0.3 * pulse(70, 80, 100)
    assert standards.current_shape(two).last_peak == pytest.approx(80, abs=0.3)
    lopsided = pulse(10, 40, 100)
    lopsided[360:] = pulse(30, 60, 95)[360:]
    shape = standards.current_shape(lopsided)
    assert shape.starts == pytest.approx(31.5, abs=0.3) and shape.stops == pytest.approx(93.25, abs=0.3)
    half_wave = np.maximum(pulse(10, 40, 100), 0)
    shape = standards.current_shape(half_wave)
    assert not shape.met and "no current flows along with the mains" in shape.words


def test_a_current_that_leads_starts_before_the_zero_and_stops_at_the_crest():
    """Of an ideal dropper: a cosine from −37° to 90°, so it falls to 5 % of its peak at 87.1°: (b) just fails."""
    angle = (np.arange(1024) + 0.5) * 360 / 1024
    wrapped = (angle + 180) % 360 - 180
    half = np.where((wrapped > -37) & (wrapped < 90), np.cos(np.radians(angle)), 0)
    shape = standards.current_shape(half - np.roll(half, 512))
    assert shape.starts == pytest.approx(-37, abs=0.4)
    assert shape.last_peak == pytest.approx(0, abs=0.4)
    assert shape.stops == pytest.approx(math.degrees(math.acos(0.05)), abs=0.1)
    assert not shape.met and shape.words.startswith("the current starts at −3") and "before 90°" in shape.words


@pytest.mark.parametrize("groups", [22, 40, 70])
def test_dropper_lamps_of_some_watts(groups):
    """The solver's currents: the verdict's figures against the ratios worked out here from the tables."""
    lamp = replace_at(Lamp.from_toml("notebooks/lamps/stair_marker.toml"), "dropper", 1.5e-6)
    result = steady_state(replace_at(replace_at(lamp, "string.in_parallel", 5), "string.in_series", groups))
    power, currents = result.real_power, result.harmonic_currents
    assert 5 < power < 25
    verdict = standards.harmonic_verdict(currents, power, 230, result.power_factor, result.line_current)
    milliwatt = {3: 3.4, 5: 1.9, 7: 1.0, 9: 0.5, 11: 0.35} | {n: 3.85 / n for n in range(13, 40, 2)}
    ratios = {n: 1000 * currents[n] / (each * power) for n, each in milliwatt.items() if currents[n] >= 5e-3}
    assert verdict.checks[0].over == tuple(n for n, ratio in ratios.items() if ratio > 1)
    assert verdict.checks[0].ratio == pytest.approx(max(ratios.values()))
    share = {3: 35, 5: 25, 7: 30, 9: 20, 11: 20}
    parts = [100 * currents[n] / currents[1] / most for n, most in share.items() if currents[n] >= 5e-3]
    assert verdict.checks[2].ratio == pytest.approx(max(*parts, 100 * result.current_thd / 70), rel=1e-3)
    shape = standards.current_shape(result.line_current)
    assert verdict.checks[1].word == ("within" if shape.met else "over") and shape.words in verdict.words
    leads = np.angle(np.fft.fft(result.line_current)[1] / -1j)
    assert leads > 0, "a dropper's current leads"
    assert 5 < power < 10
    enough = math.cos(leads) >= 0.5
    assert standards.displacement_verdict(power, result.displacement_factor).word == ("within" if enough else "below")
    assert enough == (groups > 22), "with few groups the dropper takes nearly all the volts, and leads by far"


def test_what_cannot_be_judged_is_refused_in_words():
    with pytest.raises(
        ValueError, match=r"harmonic_currents: shape \(20,\); needs finite values of the orders 0 to 39"
    ):
        standards.harmonic_verdict(np.ones(20), 12, 230)
    with pytest.raises(ValueError, match="no fundamental flows, yet the power is 12 W"):
        standards.harmonic_verdict(np.zeros(41), 12, 230)
    with pytest.raises(ValueError, match="nominal_voltage: 0 V will not do; allowed is a number above 0 V"):
        standards.harmonic_limits(12, 0)
    with pytest.raises(ValueError, match="power_factor: 1.5 will not do; allowed is a number above 0 to 1"):
        standards.harmonic_limits(40, 230, 1.5)
    with pytest.raises(ValueError, match=r"waveform: shape \(71,\)"):
        standards.current_shape(np.ones(71))
    with pytest.raises(ValueError, match="waveform: its highest value is 0 A"):
        standards.current_shape(np.zeros(72))


# IEC 60038:2009 and EN 50160; UK supply regulations; AS 60038; ANSI C84.1-2020 (value from memory); Japan's Electricity
# Business Act Enforcement Regulation, Article 38; PRODIST module 8 (from memory); GB/T 12325 (from memory).
@pytest.mark.parametrize(
    ("place", "nominal", "low", "high", "frequency"),
    [
        ("Europe", 230, 230 * 0.9, 230 * 1.1, 50),
        ("Europe, all means", 230, 230 * 0.85, 230 * 1.1, 50),
        ("United Kingdom", 230, 230 * 0.94, 230 * 1.1, 50),
        ("Australia", 230, 230 * 0.94, 230 * 1.1, 50),
        ("United States", 120, 120 * 0.95, 120 * 1.05, 60),
        ("United States, at the socket", 120, 104, 127, 60),
        ("Japan, east", 100, 101 - 6, 101 + 6, 50),
        ("Japan, west", 100, 101 - 6, 101 + 6, 60),
        ("Brazil, 127 V", 127, 117, 133, 60),
        ("Brazil, 220 V", 220, 202, 231, 60),
        ("China", 220, 220 * 0.9, 220 * 1.07, 50),
    ],
)
def test_mains_by_country(place, nominal, low, high, frequency):
    found = standards.supply(place)
    assert (found.nominal, found.frequency) == (nominal, frequency)
    assert (found.low, found.high) == pytest.approx((low, high))
    assert found.holds(found.low) and found.holds(found.high)
    assert not found.holds(found.low - 0.1) and not found.holds(found.high + 0.1)
    assert place in found.words and found.source in found.words


def test_every_supply_can_be_found_and_none_else():
    names = [each.place for each in standards.SUPPLIES]
    assert len(set(names)) == len(names)
    for name in names:
        each = standards.supply(name)
        assert each.frequency in (50, 60) and each.source and (each.low is None) == (each.high is None)
        assert each.low is None or each.low < each.high
    assert standards.supply("Mexico").holds(127) is None and "no band kept here" in standards.supply("Mexico").words
    with pytest.raises(ValueError, match="place: 'Atlantis' is not kept here; there are Europe; .*Mexico"):
        standards.supply("Atlantis")
