"""Faults as data: names, what applies to which lamp, errors in words."""

import copy

import pytest
from dropper import Mains, replace_at
from dropper.solver.transient import FAULTS, Fault, Faulty, faults_of, plug_in, settle, with_fault
from transient_scenes import BARE, SHELF, STAIR


def words_of(lamp):
    return {fault.words() for fault in faults_of(lamp)}


def test_every_fault_has_words_of_its_own():
    words = [fault.words() for fault in FAULTS]
    assert len(set(words)) == len(words) == 22
    assert "{" not in "".join(words)


def test_only_faults_of_parts_that_are_there_apply():
    assert words_of(STAIR) == {f.words() for f in FAULTS} - {
        "one LED of a parallel group open",
        "one LED of a parallel group short, and so its group",
    }
    assert words_of(SHELF) == {f.words() for f in FAULTS}
    bare = replace_at(BARE, "smoothing_bleeder", None)
    assert not any(part in words for words in words_of(bare) for part in ("bleeder", "inrush", "smoothing"))
    assert "one group short" not in words_of(replace_at(BARE, "string.in_series", 1))


def test_amounts_are_told_with_the_lamp():
    assert Fault("leaky", "smoothing").words(STAIR) == "smoothing capacitor leaky, 6.82 kΩ across it"
    assert Fault("leaky", "smoothing", 1e4).words() == "smoothing capacitor leaky, 10 kΩ across it"
    assert Fault("short", "groups").words(STAIR) == "11 groups short"
    assert Fault("lost", "dropper", 0.3).words() == "dropper has lost 30 %"
    assert with_fault(STAIR, Fault("short", "groups", 3)).name == "stair, 3 groups short"


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (
            lambda: Fault("loose", "dropper"),
            "Fault.kind: 'loose' of 'dropper' is unknown; it can be 'open', 'short', 'lost'",
        ),
        (lambda: Fault("lost", "string"), "Fault.kind: 'lost' of 'string' is unknown; it can be 'open'"),
        (lambda: Fault("drifted", "plug"), "Fault.part: 'plug' cannot be 'drifted'; that can be 'inrush_resistor'"),
        (lambda: Fault("loose", "plug"), "Fault.kind: 'loose' is unknown; it can be 'open', 'short'"),
        (lambda: Fault("open", "D1", 2), "Fault.amount: 'diode D1 open' takes no amount, not 2"),
        (lambda: Fault("lost", "dropper", 1.5), "share of the capacitance lost is 1.5; allowed is 0.01 to 0.999"),
        (lambda: Fault("short", "groups", 2.5), "how many groups are short is 2.5; allowed is a whole number"),
        (
            lambda: with_fault(STAIR, Fault("short", "groups", 22)),
            "the string has 22 groups, and at least one must be left",
        ),
        (
            lambda: with_fault(BARE, Fault("open", "bleeder")),
            "does not apply: the lamp has no bleeder across its dropper",
        ),
        (lambda: with_fault(STAIR, Fault("open", "LED")), "the LEDs stand alone, none in parallel"),
    ],
)
def test_what_cannot_be_is_told_in_words(make, words):
    with pytest.raises(ValueError) as told:
        make()
    assert words in str(told.value)


def test_only_lamps_are_taken():
    for call in (settle, plug_in):
        with pytest.raises(TypeError, match="neither a Lamp nor one with a fault"):
            call("a lamp")
    with pytest.raises(TypeError, match=r"Faulty.lamp: .* is not a Lamp"):
        Faulty(with_fault(STAIR, FAULTS[0]), FAULTS[1])


def test_amounts_matter():
    currents = [
        settle(with_fault(STAIR, Fault("lost", "dropper", lost))).string_current_mean for lost in (0.2, 0.5, 0.8)
    ]
    assert currents[0] > currents[1] > currents[2]
    more = [settle(with_fault(STAIR, Fault("short", "groups", k))).string_current_mean for k in (1, 5, 15)]
    assert more[0] < more[1] < more[2]
    one = settle(with_fault(STAIR, Fault("short", "group"))).string_current_mean
    assert more[0] == pytest.approx(one, rel=1e-9)


def test_a_lamp_with_a_fault_is_plain_data():
    faulty = with_fault(STAIR, Fault("lost", "dropper", 0.5))
    assert faulty == with_fault(STAIR, Fault("lost", "dropper", 0.5)) and hash(faulty) == hash(copy.deepcopy(faulty))


def test_results_that_are_handed_out_again_cannot_be_spoilt():
    result = settle(replace_at(STAIR, "mains", Mains(229.0, 50.0)))
    with pytest.raises(ValueError, match="read-only"):
        result.line_current[0] = 1.0
