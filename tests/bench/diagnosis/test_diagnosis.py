"""Finding the fault: its sums against scipy, its odds against lamps drawn at random, its findings against the bench."""

import math

import draws
import numpy as np
import pytest
from dropper import Lamp, Led, LedString, Mains, replace_at
from dropper.bench.diagnosis import (
    WEIGHTS,
    Evidence,
    Meters,
    causes_of,
    diagnose,
    indistinguishable,
    information_gains,
    kind_of,
    next_measurement,
)
from dropper.bench.diagnosis.ambiguity import overlaps
from dropper.bench.diagnosis.cause_table import pins_residuals, table_of
from dropper.bench.diagnosis.diagnose import is_conclusive
from dropper.bench.diagnosis.information import (
    InformationGain,
    bits_between,
    bits_of_words,
    recommendation,
    riskier_alternative,
)
from dropper.bench.diagnosis.likelihood import conditional_gaussian, log_box_probability
from dropper.bench.diagnosis.measurements import LIVE, MEASUREMENTS
from dropper.bench.diagnosis.posterior import log_likelihood_by_pull, posterior_of
from dropper.bench.diagnosis.prediction import interval_of, prediction_of
from dropper.bench.diagnosis.separation import rivals_of
from dropper.bench.diagnosis.simulation import PULL_ANGLES
from dropper.bench.diagnosis.word_readings import word_probabilities
from dropper.bench.meter import PlugInMeter
from dropper.solver.transient import FAULTS, Fault, settle, unplug, with_fault
from lamps_with_faults import SHARES, one_case
from scipy import stats

STAIR = Lamp.from_toml("notebooks/lamps/stair_marker.toml")
STRIP = Lamp.from_toml("notebooks/lamps/shelf_strip.toml")
CASE = Lamp.from_toml("notebooks/lamps/display_case.toml")
PLUG_IN = ("voltage", "current", "power", "power_factor")
EYE = ("light", "leds_dark")


def read(fault=None, lamp=STAIR, fields=PLUG_IN):
    """What a perfect plug-in meter shows of a lamp at its nominal values."""
    state = settle(lamp if fault is None else with_fault(lamp, fault))
    shown = PlugInMeter().readings(state) | {"voltage": 230.0}
    return Evidence(**{name: shown[name] for name in fields})


# --- the calculus ------------------------------------------------------------------------------------------------


def test_a_rounded_reading_against_the_normal_distribution():
    """Table values of the normal distribution: scipy.stats."""
    found = log_box_probability(np.array([[1.32]]), np.array([[[0.05**2]]]), np.array([1.25]), np.array([1.35]))
    normal = stats.norm(1.32, 0.05)
    assert found[0] == pytest.approx(math.log(normal.cdf(1.35) - normal.cdf(1.25)), rel=1e-12)
    far = log_box_probability(np.array([[0.0]]), np.array([[[1.0]]]), np.array([8.0]), np.array([9.0]))
    assert far[0] == pytest.approx(math.log(stats.norm.sf(8) - stats.norm.sf(9)), rel=1e-9)


@pytest.mark.parametrize("d", [2, 3, 4])
def test_rounded_readings_together_against_scipy(d):
    """The probability of a box under a Gaussian of several dimensions: scipy.stats.multivariate_normal."""
    rng = np.random.default_rng(draws.seed(d))
    for _ in range(draws.examples(6)):
        root = rng.normal(size=(d, d)) * 0.4 + np.eye(d)
        covariance, mean = root @ root.T, rng.normal(size=d)
        low = mean - rng.uniform(0.1, 1.5, d)
        high = mean + rng.uniform(0.1, 1.5, d)
        exact = stats.multivariate_normal(mean, covariance, seed=1).cdf(high, lower_limit=low)
        fine, usual = (log_box_probability(mean[None], covariance[None], low, high, count)[0] for count in (2000, 48))
        assert fine == pytest.approx(math.log(exact), abs=0.005)
        assert usual == pytest.approx(math.log(exact), abs=0.08), (
            "half a decibel: nothing beside a likelihood's own size"
        )


def test_what_is_left_once_some_readings_are_known_against_a_ratio_of_densities():
    rng = np.random.default_rng(draws.seed(5))
    root = rng.normal(size=(3, 3)) + np.eye(3)
    covariance, mean = root @ root.T, rng.normal(size=3)
    known = np.array([0.3, -0.2])
    moved, rest = conditional_gaussian(mean[None], covariance[None], 2, known)
    joint, first = stats.multivariate_normal(mean, covariance), stats.multivariate_normal(mean[:2], covariance[:2, :2])
    for x in (-1.0, 0.0, 2.0):
        exact = joint.pdf([*known, x]) / first.pdf(known)
        assert stats.norm(moved[0, 0], math.sqrt(rest[0, 0, 0])).pdf(x) == pytest.approx(exact, rel=1e-9)


@pytest.mark.parametrize("seed", [draws.seed(number) for number in range(draws.examples(4))])
def test_expected_information_against_enumeration(seed):
    """Every reading on a fine grid, Shannon's sum over causes (definition, from memory)."""
    rng = np.random.default_rng(seed)
    weights, cause = rng.dirichlet(np.ones(9)), np.array([0, 0, 0, 1, 1, 2, 2, 3, 4])
    mean, spread = rng.normal(size=9) * 2, rng.uniform(0.2, 0.8, 9)
    grid = np.linspace(-12, 12, 20_001)
    each = weights[:, None] * stats.norm(mean[:, None], spread[:, None]).pdf(grid)
    joint = np.array([each[cause == one].sum(0) for one in range(5)]) * (grid[1] - grid[0])
    apart = joint.sum(1, keepdims=True) * joint.sum(0, keepdims=True)
    exact = np.sum(joint * np.log2(np.maximum(joint, 1e-300) / np.maximum(apart, 1e-300)))
    found = bits_between(weights, cause, mean[:, None], (spread**2)[:, None, None])
    assert found == pytest.approx(exact, abs=0.03)


def test_expected_information_of_words_against_enumeration():
    weights, cause = np.array([0.5, 0.2, 0.3]), np.array([0, 1, 1])
    table = np.array([[0.9, 0.1], [0.2, 0.8], [0.5, 0.5]])
    joint = np.array([weights[0] * table[0], weights[1] * table[1] + weights[2] * table[2]])
    exact = (
        stats.entropy(joint.sum(1), base=2) + stats.entropy(joint.sum(0), base=2) - stats.entropy(joint.ravel(), base=2)
    )
    assert bits_of_words(weights, cause, table) == pytest.approx(exact, rel=1e-12)
    assert bits_of_words(weights, np.zeros(3, int), table) == pytest.approx(0, abs=1e-12)


def test_bayes_by_hand():
    """Prior times likelihood over their sum, from the parts, for one reading in words."""
    posterior = posterior_of(STAIR, Evidence(light="none"))
    table, chance = posterior.table, word_probabilities(posterior.table, "light")[:, 0]
    prior = np.array([posterior.prior[kind] for kind in table.causes])[table.cause] * table.share * 0.98
    joint = prior * chance
    assert posterior.weights == pytest.approx(joint / (joint.sum() + 0.02 / 5), rel=1e-9)
    assert posterior.weights.sum() + posterior.unknown == pytest.approx(1)


def test_a_reading_is_most_probable_where_it_is_predicted():
    table, meters = table_of(STAIR), Meters()
    one = prediction_of(table, "bus_voltage", meters, Evidence())
    likely = log_likelihood_by_pull(table, Evidence(bus_voltage=34.1), meters)[:, 0]
    assert abs(one.mean[likely.argmax()] - 34.1) < 1.5
    low, high = interval_of("bus_voltage", 34.1, meters)
    assert high - low == pytest.approx(0.1)


# --- the table ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("lamp", [STAIR, CASE], ids=lambda lamp: lamp.name)
def test_every_fault_that_a_lamp_can_have_is_among_its_causes(lamp):
    kinds = causes_of(lamp)
    for fault in FAULTS:
        if (fault.kind, fault.part) == ("short", "LED"):
            assert kind_of(fault) == ("short", "group"), "the same circuit"
            continue
        assert (kind_of(fault) in kinds) == (not fault.why_not(lamp)), fault.words()
    assert set(kinds) <= set(WEIGHTS) and len(kinds) == len(set(kinds))
    table = table_of(lamp)
    sums = np.bincount(table.cause, table.share)
    assert sums == pytest.approx(np.ones(len(kinds)))


@pytest.mark.parametrize(
    "fault",
    [
        Fault("lost", "dropper", 0.437),
        Fault("leaky", "smoothing", 5050.0),
        Fault("short", "groups", 7),
        Fault("drifted", "inrush_resistor", 6.4),
    ],
    ids=lambda fault: fault.part,
)
def test_between_computed_amounts_the_table_is_close_to_the_circuit(fault):
    table, state = table_of(STAIR), settle(with_fault(STAIR, fault))
    points = table.points_of(kind_of(fault))
    for name, field in (("current", "line_current_rms"), ("power", "real_power"), ("bus", "bus_voltage_mean")):
        found = np.interp(fault.amount, table.amount[points], table.mean[name][points])
        assert found == pytest.approx(getattr(state, field), rel=0.015), name


# --- what it finds: facts of the bench (common practice, no source) ----------------------------------------------


def test_no_reading_leaves_the_prior():
    found = diagnose(STAIR)
    posterior = found.posterior.causes()
    whole = sum(WEIGHTS[kind] for kind in causes_of(STAIR))
    for kind, chance in posterior.items():
        assert chance == pytest.approx(0.98 * WEIGHTS[kind] / whole)
    assert found.cannot_tell and found.next.measurement.key == "plug-in"


def test_current_and_watts_down_at_the_same_power_factor_is_a_shrunken_dropper():
    found = diagnose(STAIR, read(Fault("lost", "dropper", 0.5)))
    assert found.word == "found" and found.causes[0].kind == ("lost", "dropper")
    middle, low, high = found.causes[0].amount
    assert low < 0.5 < high and abs(middle - 0.5) < 0.05 and high - low < 0.25
    assert "line current" in found.causes[0].why and "watts" in found.causes[0].why


def test_current_up_with_watts_and_power_factor_down_is_less_voltage_or_a_shorted_diode():
    found = diagnose(STAIR, read(Fault("short", "D1")))
    kinds = {cause.kind for cause in found.causes if cause.probability > 0.01}
    assert kinds == {("short", "D1"), ("short", "groups"), ("leaky", "smoothing")}
    assert any({("short", "D1"), ("short", "groups")} <= set(group) for group in found.alike)


def test_a_plug_in_meter_cannot_tell_a_shorted_diode_from_half_the_groups_and_dc_volts_can():
    for lamp in (STAIR, CASE):
        pairs = {frozenset((pair.first, pair.second)): pair for pair in indistinguishable(lamp, ("plug-in",))}
        pair = pairs[frozenset((("short", "D1"), ("short", "groups")))]
        groups = next(amount for amount in pair.amounts if amount)
        assert 0.4 < groups / lamp.string.in_series < 0.65 and pair.overlap > 0.8
        assert "shorted groups" in pair.words and "What tells them apart" in pair.words
        with_dc = {frozenset((pair.first, pair.second)) for pair in indistinguishable(lamp, ("plug-in", "bus"))}
        assert frozenset((("short", "D1"), ("short", "groups"))) not in with_dc


def test_a_leaky_smoothing_capacitor_looks_like_shorted_groups_even_with_dc_volts():
    pairs = {frozenset((pair.first, pair.second)): pair for pair in indistinguishable(STAIR, ("plug-in",))}
    assert frozenset((("leaky", "smoothing"), ("short", "groups"))) in pairs
    seen = {frozenset((pair.first, pair.second)) for pair in indistinguishable(STAIR, ("plug-in", "light", "leds"))}
    assert frozenset((("leaky", "smoothing"), ("short", "groups"))) not in seen, "all dim, none dark"


def test_dark_at_nothing_has_several_causes_and_unplugged_parts_sort_them():
    dark = Evidence(voltage=230.0, current=0.0, power=0.0, light="none")
    found = diagnose(STAIR, dark)
    few = {cause.kind for cause in found.causes if cause.probability > 0.005}
    assert {("open", "inrush_resistor"), ("open", "dropper"), ("open", "D1")} == few
    assert found.next.measurement.hazard == 0
    sorted_out = diagnose(STAIR, dark.replace(inrush_resistance=219.0))
    assert sorted_out.causes[0].kind == ("open", "dropper")
    assert diagnose(STAIR, dark.replace(inrush_resistance=math.inf)).word == "found"


def test_open_bleeders_show_in_residual_volts_only():
    for kind, field, left in (("bleeder", "pins_residual", 150.0), ("smoothing_bleeder", "bus_residual", 50.0)):
        usual = read().replace(light="same", leds_dark=0, bus_voltage=67.4, bus_ripple=1.78)
        before = diagnose(STAIR, usual).probability(Fault("open", kind))
        assert before == pytest.approx(posterior_of(STAIR, usual).causes()[("open", kind)])
        assert 0.02 < before < 0.5
        after = diagnose(STAIR, usual.replace(**{field: left}))
        assert after.causes[0].kind == ("open", kind) and after.word == "found"


@pytest.mark.parametrize("after", [1.0, 5.0])
@pytest.mark.parametrize("volts", [0.0, 0.1])
@pytest.mark.parametrize("lamp", [STAIR, STRIP], ids=lambda lamp: lamp.name)
def test_no_volts_on_the_pins_accuse_nobody(lamp, volts, after):
    """A healthy lamp shows a meter 0 V there within a second, whatever its dropper holds."""
    alone = diagnose(lamp, Evidence(pins_residual=volts, pins_after=after))
    assert alone.cannot_tell and alone.causes[0].probability < 0.5, alone.verdict
    usual = posterior_of(lamp).causes()[None]
    assert alone.probability(None) > 0.9 * usual, "no less likely than before the reading"
    healthy = read(lamp=lamp).replace(voltage=lamp.mains.voltage, pins_residual=volts, pins_after=after)
    beside = diagnose(lamp, healthy)
    assert beside.causes[0].kind is None and beside.probability(None) > 0.35, beside.verdict
    assert beside.probability(Fault("lost", "dropper")) < 0.1 and beside.unknown < 0.1


def test_volts_on_the_pins_are_the_circuit_s_with_the_meter_there():
    """By moment of pulling: `unplug` with 10 MΩ across the pins, a healthy lamp and one without its bleeder."""
    volts, slope = pins_residuals(CASE, 1.0, 10e6)
    for kind, faulty in ((None, CASE), (("open", "bleeder"), with_fault(CASE, Fault("open", "bleeder")))):
        row = volts[table_of(CASE).points_of(kind)[0]]
        for angle, read in zip(PULL_ANGLES, row, strict=True):
            assert read == pytest.approx(abs(unplug(faulty, angle, 1.0, 10e6).pins_voltage[-1]), abs=0.01), (
                kind,
                angle,
            )
    assert np.all(slope[table_of(CASE).points_of(("open", "inrush_resistor"))] == 0), "no way to the pins"


def test_a_lead_that_the_prior_alone_gives_is_told_as_such():
    """One diode short against half of the groups: the readings fit both, and a count of dark LEDs parts them."""
    read = Evidence(voltage=230.0, current=0.023, power=0.8, power_factor=0.16)
    found = diagnose(STAIR, read, priors={("short", "groups"): 0.05, ("leaky", "smoothing"): 0.02})
    assert found.causes[0].probability > 0.95 and found.word == "likely", "however rare the others are"
    assert "The readings fit" in found.verdict and "how common each is" in found.verdict
    assert set(rivals_of(found.posterior, ("short", "D1"))) == {("short", "groups"), ("leaky", "smoothing")}
    counted = diagnose(STAIR, read.replace(leds_dark=0))
    assert counted.word == "found" and "how common" not in counted.verdict


def test_a_dried_out_capacitor_shows_in_ripple():
    usual = read().replace(leds_dark=0, bus_voltage=67.0)
    dried = ("dried out", "smoothing")
    assert diagnose(STAIR, usual).probability(Fault(*dried)) < 0.4
    assert diagnose(STAIR, usual.replace(bus_ripple=3.4)).causes[0].kind == dried


def test_one_open_led_of_a_group_shows_to_the_eye_only():
    blind = read(Fault("open", "LED"), CASE).replace(bus_voltage=101.5, bus_ripple=5.05)
    assert diagnose(CASE, blind).probability(Fault("open", "LED")) < 0.2
    assert diagnose(CASE, blind.replace(leds_dark=1)).causes[0].kind == ("open", "LED")


def test_contradictory_readings_are_told_and_nothing_is_claimed():
    found = diagnose(STAIR, Evidence(voltage=230.0, current=0.022, power=4.3, power_factor=0.26))
    assert found.word == "contradictory" and found.cannot_tell and found.unknown > 0.99
    assert "contradict one another" in found.verdict and "disagrees with itself" in found.verdict
    apart = diagnose(STAIR, read().replace(light="same", bus_voltage=180.0))
    assert apart.word == "contradictory"


# --- what to do next ---------------------------------------------------------------------------------------------


def test_live_measurements_can_be_declined_and_the_safer_comes_first():
    posterior = posterior_of(STAIR, read(Fault("short", "D1")))
    assert all(gain.measurement.hazard < LIVE for gain in information_gains(posterior, live=False))
    assert any(gain.measurement.hazard == LIVE for gain in information_gains(posterior))
    assert next_measurement(posterior).measurement.hazard < LIVE
    dangers = [measurement.hazard for measurement in MEASUREMENTS.values()]
    assert MEASUREMENTS["bus"].hazard == max(dangers) and MEASUREMENTS["dropper"].hazard == min(dangers)
    assert "licensed practice" in MEASUREMENTS["bus"].danger


def test_what_is_more_dangerous_and_tells_far_more_is_named_as_such():
    safe, live = InformationGain(MEASUREMENTS["leds"], 0.4), InformationGain(MEASUREMENTS["bus"], 1.2)
    assert recommendation((safe, live)) is safe and riskier_alternative((safe, live), safe) is live
    assert (
        riskier_alternative((safe, InformationGain(MEASUREMENTS["bus"], 0.5)), safe) is None
        and riskier_alternative((), None) is None
    )
    assert recommendation(()) is None and recommendation((InformationGain(MEASUREMENTS["leds"], 0.001),)) is None
    dear = (InformationGain(MEASUREMENTS["light"], 1.0), InformationGain(MEASUREMENTS["bridge"], 0.6))
    assert recommendation(dear).measurement.key == "light", (
        "less than half as much for its cost: safer does not make up for it"
    )


def test_the_expected_gain_is_what_the_answers_give_on_average():
    """By brute force for an answer in words: the entropy of the causes before, less its mean after."""
    posterior = posterior_of(STAIR, Evidence(light="dim"))
    chance = word_probabilities(posterior.table, "bridge")
    entropy = lambda weights: stats.entropy(np.bincount(posterior.table.cause, weights), base=2)  # noqa: E731
    left = sum(
        (posterior.weights * chance[:, word]).sum()
        / posterior.weights.sum()
        * entropy(posterior.weights * chance[:, word])
        for word in range(chance.shape[1])
    )
    gain = next(one for one in information_gains(posterior) if one.measurement.key == "bridge")
    assert gain.bits == pytest.approx(entropy(posterior.weights) - left, abs=0.01)


def test_overlap_is_bhattacharyya_s():
    """Against its integral over one reading, numerically."""
    table, meters = table_of(STAIR), Meters()
    found = overlaps(table, ("bus_voltage",), meters)
    one = prediction_of(table, "bus_voltage", meters, Evidence())
    spread = np.sqrt((one.loadings**2).sum(1) + one.independent**2 + 1e-3**2 / 12)
    grid = np.linspace(0, 150, 40_001)
    for a, b in ((0, 3), (0, 30), (10, 40)):
        root = np.sqrt(stats.norm(one.mean[a], spread[a]).pdf(grid) * stats.norm(one.mean[b], spread[b]).pdf(grid))
        assert found[a, b] == pytest.approx(root.sum() * (grid[1] - grid[0]), abs=1e-4)


# --- honesty -----------------------------------------------------------------------------------------------------


@pytest.mark.slow
@pytest.mark.parametrize("fields", [PLUG_IN, (*PLUG_IN, *EYE, "bus_voltage")], ids=["plug-in", "and eye and dc"])
def test_odds_are_honest_on_lamps_drawn_at_random(fields):
    """150 faulty lamps, parts and meters off at random; thousands in `benchmarks/diagnosis.py`."""
    rng = np.random.default_rng(20)
    cases = [one_case(rng, (STAIR, CASE)[number % 2]) for number in range(150)]
    assert SHARES == WEIGHTS, "the odds are for faults as often as these"
    stated, true, claimed, right = [], [], 0, 0
    for case in cases:
        posterior = posterior_of(case.lamp, Evidence(**{field: case.readings[field] for field in fields}))
        causes = posterior.causes()
        ranked = list(causes)[:3]
        if is_conclusive(list(causes.values()), posterior.unknown):
            claimed, right = claimed + 1, right + (case.kind in ranked)
        stated += causes.values()
        true += [kind == case.kind for kind in causes]
    assert claimed >= 0.5 * len(cases) and right >= 0.95 * claimed
    stated, true = np.array(stated), np.array(true)
    for low, high in ((0.0, 0.1), (0.1, 0.3), (0.3, 0.7), (0.7, 0.95), (0.95, 1.01)):
        inside = (stated >= low) & (stated < high)
        count, mean = inside.sum(), stated[inside].mean()
        chance = 3.3 * math.sqrt(mean * (1 - mean) / count)  # what chance alone does once in a thousand
        assert abs(true[inside].mean() - mean) <= chance + 0.02, (low, high)


# --- what is refused ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: Evidence(light="odd"), "Evidence.light"),
        (lambda: Evidence(current=-1.0), "Evidence.current"),
        (lambda: Evidence(bleeder_resistance=float("nan")), "Evidence.bleeder_resistance"),
        (lambda: posterior_of(STAIR, priors={("lost", "bleeder"): 1.0}), "is no cause"),
        (lambda: posterior_of(STAIR, priors=dict.fromkeys(WEIGHTS, 0.0)), "no cause"),
        (lambda: indistinguishable(STAIR, ("sniff",)), "measurement"),
        (lambda: diagnose(replace_at(STAIR, "string.in_series", 300)), "stays dark"),
    ],
)
def test_what_cannot_be_is_refused_in_words(make, words):
    with pytest.raises(ValueError, match=words):
        make()


def test_other_priors_count():
    rare = diagnose(STAIR, read(Fault("short", "D1")), priors={("short", "D1"): 0.001})
    assert rare.causes[0].kind != ("short", "D1")


@pytest.mark.parametrize("read", [{"leds_dark": 5.0}, {"bleeder_resistance": 0.0}, {"smoothing_resistance": 0.0}])
def test_one_likely_cause_without_a_second_is_told_alone(read):
    found = diagnose(Lamp.from_toml("notebooks/lamps/stair_marker.toml"), Evidence(**read))
    assert found.causes[0].words in found.verdict


@pytest.mark.parametrize("share", [0.8, 1.0, 1.2])
def test_a_smoothing_capacitor_within_its_tolerance_is_no_fault_by_what_it_keeps(share):
    """Ten seconds after the pull e^(−t/RC) leans on ±20 % of C more than any other reading does."""
    from dropper.bench.diagnosis.simulation import bus_residual_of

    lamp = Lamp.from_toml("notebooks/lamps/stair_marker.toml")
    left = float(bus_residual_of(replace_at(lamp, "smoothing", share * lamp.smoothing), None, None, 10.0, 1e7))
    found = diagnose(lamp, Evidence(bus_residual=left, light="same"), live=False)
    assert found.word != "contradictory" and found.probability(None) > 0.05, found.verdict


def test_a_sure_cause_is_confirmed_unplugged_before_a_part_is_changed():
    """Over 99 % too: the part itself is measured, once, with the plug out."""
    lamp = Lamp(Mains(230, 50), LedString(Led(3.1, 0.02, 9.0), 22), 330e-9, 10e-6, 1e6, 220.0)
    read = Evidence(voltage=230, current=0.011, power=0.6, power_factor=0.25)
    wanted = "Before a part is changed, with the plug out and the capacitors empty: lift one lead of the dropper"
    sure = diagnose(lamp, read, live=False)
    assert sure.causes[0].probability > 0.99 and sure.next is None
    assert wanted in sure.verdict
    assert wanted not in diagnose(lamp, read.replace(dropper_capacitance=160e-9)).verdict
