"""Tasks of lesson 9: how LEDs side by side share a current."""

from ..tasks.question import PARTS, Choice, Question, Slip, Tolerance
from ..tasks.random_values import step_value, value_text
from ..tasks.solution import SumStep, TextStep, TheoryStep

LESSON = 9
_PERCENT = Tolerance("Half a point or 3 % of it is allowed: thermal resistances are known no better.", 0.03, 0.5)
_ALL = 0.95  # of the current: taken as nearly all
_EQUAL = 0.55  # of the current of two: taken as about half
_LARGE = 0.4  # rise of the current by an open LED


def _group(chance):
    return {
        "in_series": chance.randint(12, 40),
        "in_parallel": chance.randint(3, 6),
        "string_current_mean": chance.randint(24, 90) / 1e3,
    }


def _pair(chance):
    return {
        "forward_voltage": chance.choice((2.8, 3.0, 3.1, 3.2)),
        "string_current_mean": chance.randint(24, 50) / 1e3,
        "forward_voltage_difference": step_value(chance, 0.04, 0.1, 0.01),
        "dynamic_resistance": float(chance.randint(9, 16)),
    }


def _evened(chance):
    return _pair(chance) | {
        "forward_voltage_difference": step_value(chance, 0.1, 0.3, 0.05),
        "limit": float(chance.choice((10, 15, 20))),
    }


def _warm(chance):
    return {
        "forward_voltage": chance.choice((2.8, 3.0, 3.1, 3.2)),
        "dynamic_resistance": float(chance.randint(5, 14)),
        "thermal_resistance": float(chance.choice((150, 200, 250, 300))),
        "voltage_coefficient": chance.choice((-2e-3, -3e-3)),
    }


def _two_colours(chance):
    high, low = chance.choice((3.0, 3.1, 3.2)), chance.choice((1.9, 2.0, 2.1))
    first, second = chance.choice(((high, low), (low, high), (high, high), (low, low)))
    return {
        "forward_voltage": first,
        "second_forward_voltage": second,
        "string_current_mean": chance.randint(10, 30) / 1e3,
    }


def _opened(chance):
    return {"in_series": chance.randint(12, 40), "in_parallel": chance.choice((2, 3, 4, 5, 6, 8))}


TASKS = (
    Question(
        "one_open_share",
        LESSON,
        "One of a group open",
        "A string of {in_series} groups in series, each of {in_parallel} LEDs side by side, carries"
        " {string_current_mean} on average. In one group an LED goes open. What does each of the others in that"
        " group then carry, if they share alike?",
        _group,
        "A",
        lambda q: q.using("shared_current", opened=1),
        solution=(TheoryStep("shared_current", lambda q: {"opened": 1}),),
        hints=(
            "Does the dropper notice that one LED is gone?",
            "The string's current hardly changes, for one group drops a few hundredths of a volt more.",
        ),
        slips=(
            Slip(
                "as before",
                lambda q: q.using("shared_current", opened=0),
                "That is what each had before. The current of the missing one has to go somewhere.",
            ),
            Slip("all of it", lambda q: q.string_current_mean, "That is the whole string's; the others share it."),
            Slip(
                "its share lost",
                lambda q: q.using("shared_current", opened=0) * (1 - 1 / q.in_parallel),
                "You spread a smaller current. The groups in series all carry the same, this one too.",
            ),
        ),
    ),
    Question(
        "pair_difference",
        LESSON,
        "A few hundredths of a volt",
        "Two LEDs of {forward_voltage} side by side carry {string_current_mean} together. At one and the same"
        " current the first would drop {forward_voltage_difference} less than the second. About there the curve of"
        " each has a slope of {dynamic_resistance}, so many millivolts for each milliampere, its own resistance"
        " included. How much more current does the first one take than the second?",
        _pair,
        "A",
        lambda q: q.current_difference,
        solution=(TheoryStep("current_difference"),),
        hints=(
            "Side by side both have the same voltage. So it is their currents that have to differ.",
            "Ohms are volts for each ampere: how many amperes make up for those volts?",
        ),
        slips=(
            Slip(
                "equal",
                lambda q: 0.0,
                "They have the same voltage, not the same current; with different curves that cannot both be.",
            ),
            Slip(
                "in proportion",
                lambda q: q.string_current_mean / 2 * q.forward_voltage_difference / q.forward_voltage,
                "You took the volts in proportion. The curve is far steeper than a line from nought: divide by its"
                " slope.",
            ),
            Slip(
                "half of it",
                lambda q: q.current_difference / 2,
                "By that each is away from the mean; from one to the other it is twice as much.",
            ),
        ),
    ),
    Question(
        "resistor_for_pair",
        LESSON,
        "A resistor for each branch",
        "Two LEDs of {forward_voltage} side by side carry {string_current_mean} together and differ by"
        " {forward_voltage_difference}; the curve of each has a slope of {dynamic_resistance}, so many millivolts for"
        " each milliampere. How many ohms in series with each keep the difference of their currents to {limit} of"
        " one LED's share?",
        _evened,
        "Ω",
        lambda q: q.using("branch_resistor_for_imbalance", **_held(q)),
        solution=(
            TextStep(
                lambda q: (
                    f"One share: {value_text(q.string_current_mean, 'A')} / 2 ="
                    f" {value_text(q.string_current_mean / 2, 'A')}; allowed: {q.limit:g} % of it"
                )
            ),
            TheoryStep("branch_resistor_for_imbalance", lambda q: _held(q)),
        ),
        hints=(
            "The difference of the volts over the slope of a branch is the difference of the currents.",
            "The LED's own slope is part of the branch's; the resistor has to bring the rest.",
        ),
        slips=(
            Slip(
                "own slope forgotten",
                lambda q: _ohms(q) + q.dynamic_resistance,
                "That is the slope of the whole branch. The LED brings {dynamic_resistance} of it itself.",
            ),
            Slip(
                "own slope added",
                lambda q: _ohms(q) + 2 * q.dynamic_resistance,
                "The LED's own slope helps; it is to be taken off, not added.",
            ),
            Slip(
                "of the whole current",
                lambda q: q.using(
                    "branch_resistor_for_imbalance", **_held(q) | {"junction_current": q.string_current_mean}
                ),
                "You took {limit} of the current of both; one LED's share is half of that.",
            ),
        ),
        tolerance=PARTS,
    ),
    Question(
        "warm_difference",
        LESSON,
        "What warmth adds",
        "Two LEDs of {forward_voltage} side by side; the curve of each has a slope of {dynamic_resistance}, cold. Each"
        " has {thermal_resistance} to the air, and its voltage changes by {voltage_coefficient}. By how many per cent"
        " is the difference of their currents larger once each has warmed itself?",
        _warm,
        "%",
        lambda q: 100 * (q.dynamic_resistance / _warm_slope(q) - 1),
        solution=(
            TheoryStep("branch_resistance", lambda q: _single(q)),
            SumStep(
                lambda q: f"100 × ({q.dynamic_resistance:g} Ω / {_warm_slope(q):.4g} Ω − 1) %",
                "The same volts over fewer ohms:",
            ),
        ),
        hints=(
            "A milliampere more brings so many milliwatts, so many kelvins, so many millivolts less.",
            "Millivolts less for a milliampere more: warmth works like a resistance that is taken off the slope.",
        ),
        slips=(
            Slip("none", lambda q: 0.0, "The warmer one drops less and takes more still."),
            Slip(
                "once round",
                lambda q: 100 * (1 - _warm_slope(q) / q.dynamic_resistance),
                "You went round once. The current that warmth adds warms again, and so on: divide by what is left of"
                " the slope.",
            ),
            Slip(
                "sign",
                lambda q: 100 * (q.dynamic_resistance / (2 * q.dynamic_resistance - _warm_slope(q)) - 1),
                "The coefficient is below zero: the ohms come off the slope, and the difference grows.",
            ),
        ),
        tolerance=_PERCENT,
    ),
    Choice(
        "two_colours_side_by_side",
        LESSON,
        "Two LEDs side by side",
        "An LED of {forward_voltage} and one of {second_forward_voltage}, both stated at 20 mA, stand side by side"
        " without resistors and get {string_current_mean} together. Who takes the current?",
        _two_colours,
        {
            "first": "nearly all of it goes through the first",
            "both": "each takes about half",
            "second": "nearly all of it goes through the second",
        },
        lambda q: _taker(q),
        {
            "first": "Side by side they have one voltage. At that voltage, does the first one's curve already rise?",
            "second": "Side by side they have one voltage. At that voltage, does the second one's curve already rise?",
            "both": "One volt apart, the higher of the two carries next to nothing at the voltage at which the lower"
            " one carries all.",
        },
        lambda q: "The first carries {} and the second {}, at {} in common.".format(
            *(value_text(current, "A") for current in _split(q).currents), value_text(_split(q).voltage, "V")
        ),
        (
            "What do two parts side by side have in common, and what not?",
            "Go up with the voltage from nought. Whose curve begins to rise first, and does the voltage ever get to the"
            " other's?",
        ),
    ),
    Choice(
        "open_in_group",
        LESSON,
        "How much do the others get",
        "A string has {in_series} groups in series, each of {in_parallel} LEDs side by side, all alike. One LED goes"
        " open. By how much does the current of the others in its group rise?",
        _opened,
        {"none": "not at all", "some": "by less than 40 %", "large": "by 40 % or more"},
        lambda q: "large" if _rise(q) >= _LARGE else "some",
        {
            "none": "The string's current is the same in every group, and this group has one LED less to carry it.",
            "some": "Share the current of {in_parallel} out among one less: with so few side by side that is much.",
            "large": "Share the current of {in_parallel} out among one less: with so many side by side each gets only a"
            " little more.",
        },
        lambda q: (
            f"One of {q.in_parallel} is gone: the others rise by 1/({q.in_parallel} − 1), {100 * _rise(q):.0f} %."
            " Where one LED was near its limit, the next one may follow."
        ),
        (
            "What does the string's current do, when a single LED of many goes open?",
            "So the current of {in_parallel} is carried by one less.",
        ),
    ),
)


def _held(q):
    return {"imbalance": q.limit / 100, "junction_current": q.string_current_mean / 2}


def _ohms(q):
    return q.using("branch_resistor_for_imbalance", **_held(q))


def _single(q):
    return {"in_series": 1, "branch_resistor": 0.0, "junctions": 1}


def _warm_slope(q):
    return q.using("branch_resistance", **_single(q))


def _split(q):
    from ...circuit.lamp import Led
    from ...solver.sharing import Branch, share

    pair = [Branch.of(Led(volts, 0.020, 8.0)) for volts in (q.forward_voltage, q.second_forward_voltage)]
    return share(pair, q.string_current_mean)


def _taker(q):
    first, second = _split(q).shares
    return "first" if first > _ALL else "second" if second > _ALL else "both" if max(first, second) < _EQUAL else ""


def _rise(q):
    return q.using("shared_current", string_current_mean=1.0, opened=1) * q.in_parallel - 1
