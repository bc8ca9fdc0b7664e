"""Tasks of lesson 10 on tolerance: weights, the worst case, chance, corners, and which letter will do."""

import math

from ...components.marks.letters import TOLERANCES
from ..tasks.question import Choice, Question, Slip, Tolerance
from ..tasks.random_values import bridge_lamp, value_text
from ..tasks.solution import SumStep, TextStep, TheoryStep

LESSON = 10
_SMALL = Tolerance("3 % is allowed: weights are for small changes.", 0.03)
_LETTERS = {letter: TOLERANCES[letter][1] / 100 for letter in "JKM"}
_PERCENT = ("mains_off", "dropper_off", "string_off")


def _lamp(chance):
    return bridge_lamp(chance, 0.2, 0.6)


def _mains(chance):
    return _lamp(chance) | {"mains_off": float(chance.choice((3, 4, 5, 6, 8, 10)))}


def _string(chance):
    return bridge_lamp(chance, 0.15, 0.4) | {"string_off": float(chance.choice((3, 4, 5, 6, 8, 10)))}


def _all(chance):
    return _lamp(chance) | {
        "mains_off": float(chance.choice((3, 4, 5, 6, 8))),
        "dropper_off": float(chance.choice((5, 10, 20))),
        "string_off": float(chance.choice((4, 6, 8, 10))),
    }


def _near(chance):
    """The same where no two parts do nearly as much as one another."""
    while True:
        values = _all(chance)
        first, second, *_ = sorted(_effects(values).values(), reverse=True)
        if first > 1.25 * second:
            return values


def _effects(values):
    """What each does to the current by its weight, in %; the peak taken roughly, for drawing only."""
    peak = 1.414 * values["voltage"]
    left = peak - values["clamped_voltage"]
    return {
        "mains": values["mains_off"] * peak / left,
        "dropper": values["dropper_off"],
        "string": values["string_off"] * values["clamped_voltage"] / left,
    }


def _letter(chance):
    return _lamp(chance) | {
        "mains_off": float(chance.choice((3, 4, 5, 6, 8))),
        "limit": float(chance.choice((10, 12, 15, 18, 20, 25, 30, 35, 40))),
    }


TASKS = (
    Question(
        "mains_on_current",
        LESSON,
        "The mains is high",
        "A lamp on {voltage}, {frequency} has {dropper}; its string holds the bridge at {clamped_voltage}. The mains"
        " is {mains_off} high. By how many per cent is the mean string current higher? Take the weight of the mains"
        " times its rise.",
        _mains,
        "%",
        lambda q: q.mains_off * q.elasticity_to_peak_voltage,
        solution=(
            TheoryStep("peak_voltage"),
            TheoryStep("elasticity_to_peak_voltage"),
            SumStep(lambda q: f"{q.mains_off:g} % × {q.elasticity_to_peak_voltage:.4g}", "So many times the per cent:"),
        ),
        hints=(
            "The string's volts stay; all that the mains gains, the dropper gets.",
            "How many per cent is it of what the dropper had, Vp − D?",
        ),
        slips=(
            Slip(
                "in proportion",
                lambda q: q.mains_off,
                "That would hold if all of the mains stood across the dropper. The string takes its volts first, and"
                " of the rest {mains_off} of the mains is a larger part.",
            ),
            Slip(
                "the string's weight",
                lambda q: -q.mains_off * q.elasticity_to_clamped_voltage,
                "You took D over Vp − D, the weight of the string; the mains weighs Vp over Vp − D.",
            ),
        ),
        tolerance=_SMALL,
    ),
    Question(
        "string_on_current",
        LESSON,
        "LEDs with more volts",
        "A lamp on {voltage}, {frequency} has {dropper}; its string should hold the bridge at {clamped_voltage}, but"
        " these LEDs drop {string_off} more, and so does the bridge's ac side. By how many per cent is the mean string"
        " current lower?",
        _string,
        "%",
        lambda q: -q.string_off * q.elasticity_to_clamped_voltage,
        solution=(
            TheoryStep("peak_voltage"),
            TheoryStep("elasticity_to_clamped_voltage"),
            SumStep(
                lambda q: f"{q.string_off:g} % × {-q.elasticity_to_clamped_voltage:.4g}",
                "More volts, less current; so many times the per cent:",
            ),
        ),
        hints=(
            "Count volts, not per cent, first: how many more does the string take?",
            "How many per cent are those of what the dropper had, Vp − D?",
        ),
        slips=(
            Slip(
                "in proportion",
                lambda q: q.string_off,
                "The current does not follow the string's volts in proportion; it follows what they leave, Vp − D.",
            ),
            Slip(
                "the mains' weight",
                lambda q: q.string_off * q.elasticity_to_peak_voltage,
                "You took Vp over Vp − D, the weight of the mains; the string weighs D over Vp − D.",
            ),
            Slip(
                "over the peak",
                lambda q: q.string_off * q.clamped_fraction,
                "You took the volts over the mains' peak. The current was made by Vp − D, not by all of Vp.",
            ),
        ),
        tolerance=_SMALL,
    ),
    Question(
        "worst_case",
        LESSON,
        "All at their bad ends",
        "A lamp on {voltage}, {frequency} has {dropper}; its string holds the bridge at {clamped_voltage}. The mains"
        " may be {mains_off} off, the dropper {dropper_off}, the clamped voltage {string_off}. If all are at their"
        " bad ends, by how many per cent is the current off? Add up weight times tolerance.",
        _all,
        "%",
        lambda q: 100 * q.using("worst_case_spread", **_tolerances(q)),
        solution=(
            TheoryStep("peak_voltage"),
            TheoryStep("worst_case_spread", lambda q: _tolerances(q)),
            SumStep(lambda q: f"100 % × {q.using('worst_case_spread', **_tolerances(q)):.4g}"),
        ),
        hints=(
            "Each part brings its tolerance times its weight.",
            "Mains: Vp over Vp − D. Dropper: 1. String: D over Vp − D.",
        ),
        slips=(
            Slip(
                "no weights",
                lambda q: sum(getattr(q, name) for name in _PERCENT),
                "You added the tolerances as they are. The mains counts for more than it is, and the string by its"
                " own weight.",
            ),
            Slip(
                "by chance",
                lambda q: 100 * q.using("root_sum_square_spread", **_tolerances(q)),
                "That is what chance makes of it. All at their bad ends means the plain sum.",
            ),
            Slip(
                "the string the other way",
                lambda q: (
                    100
                    * (
                        q.using("worst_case_spread", **_tolerances(q))
                        - 2 * q.string_off / 100 * -q.elasticity_to_clamped_voltage
                    )
                ),
                "You let the string help. Its bad end is the one that pulls the same way as the others.",
            ),
        ),
        tolerance=_SMALL,
    ),
    Question(
        "by_chance",
        LESSON,
        "If chance decides",
        "A lamp on {voltage}, {frequency} has {dropper}; its string holds the bridge at {clamped_voltage}. The mains"
        " may be {mains_off} off, the dropper {dropper_off}, the clamped voltage {string_off}, and none knows of the"
        " others. Add by squares: by how many per cent is the current off?",
        _all,
        "%",
        lambda q: 100 * q.using("root_sum_square_spread", **_tolerances(q)),
        solution=(
            TheoryStep("peak_voltage"),
            TheoryStep("root_sum_square_spread", lambda q: _tolerances(q)),
            SumStep(lambda q: f"100 % × {q.using('root_sum_square_spread', **_tolerances(q)):.4g}"),
        ),
        hints=(
            "First weight times tolerance for each, as before.",
            "Then the root of the sum of their squares, as with the sides of a box.",
        ),
        slips=(
            Slip(
                "plain sum",
                lambda q: 100 * q.using("worst_case_spread", **_tolerances(q)),
                "That is the worst case, with everything at its bad end at once.",
            ),
            Slip(
                "no weights",
                lambda q: math.hypot(*(getattr(q, name) for name in _PERCENT)),
                "You squared the tolerances as they are; each has its weight first.",
            ),
        ),
        tolerance=_SMALL,
    ),
    Question(
        "brightest_corner",
        LESSON,
        "The brightest corner",
        "A lamp on {voltage}, {frequency} has {dropper}; its string holds the bridge at {clamped_voltage}. What is the"
        " mean string current with the mains {mains_off} high, the dropper {dropper_off} high and the clamped voltage"
        " {string_off} low? Leave nothing out.",
        _all,
        "A",
        lambda q: q.mean_string_current * (1 + q.using("greatest_current_rise", **_tolerances(q))),
        solution=(
            TheoryStep("peak_voltage"),
            TextStep(
                lambda q: (
                    f"In that corner the dropper has {value_text(q.dropper, 'F')} + {q.dropper_off:g} % ="
                    f" {value_text(_high(q)['dropper'], 'F', 4)}, the mains' peak is {q.mains_off:g} % higher,"
                    f" {value_text(_high(q)['peak_voltage'], 'V', 4)}, and the bridge is held at"
                    f" {value_text(q.clamped_voltage, 'V')} − {q.string_off:g} % ="
                    f" {value_text(_high(q)['clamped_voltage'], 'V', 4)}."
                )
            ),
            TheoryStep("mean_string_current", lambda q: _high(q)),
        ),
        hints=("Which way does each make more current?", "Put that corner's three values into 4fC(Vp − D)."),
        slips=(
            Slip("as designed", lambda q: q.mean_string_current, "That is the current with everything as designed."),
            Slip(
                "string high",
                lambda q: q.using(
                    "mean_string_current",
                    **_high(q) | {"clamped_voltage": q.clamped_voltage * (1 + q.string_off / 100)},
                ),
                "More volts in the string make less current; its bright end is the low one.",
            ),
            Slip(
                "dropper alone",
                lambda q: q.mean_string_current * (1 + q.dropper_off / 100),
                "You let only the dropper be off.",
            ),
        ),
    ),
    Question(
        "deviation_of_a_mark",
        LESSON,
        "What a tolerance says",
        "A capacitor keeps ±{dropper_off}, and nothing more is known: anywhere between the two ends is as likely. What"
        " is its standard deviation, in per cent of the mark?",
        lambda chance: {"dropper_off": float(chance.choice((1, 2, 3, 5, 8, 10, 15, 20)))},
        "%",
        lambda q: 100 * q.using("flat_deviation", tolerance=q.dropper_off / 100),
        solution=(
            TheoryStep("flat_deviation", lambda q: {"tolerance": q.dropper_off / 100}),
            SumStep(lambda q: f"100 % × {q.using('flat_deviation', tolerance=q.dropper_off / 100):.4g}"),
        ),
        hints=(
            "It is the root of the mean square of the deviation.",
            "The mean of x² from the middle to an end at t is t²/3.",
        ),
        slips=(
            Slip(
                "the bound",
                lambda q: q.dropper_off,
                "That is the greatest deviation. Most capacitors lie nearer to the mark.",
            ),
            Slip(
                "half",
                lambda q: q.dropper_off / 2,
                "Half the bound is the mean size of the deviation. Squared first and rooted last, it is more.",
            ),
            Slip(
                "with an aim",
                lambda q: (
                    100
                    * q.using("triangle_deviation", share_below=q.dropper_off / 100, share_above=q.dropper_off / 100)
                ),
                "That holds for a value that is aimed at, likeliest in the middle. Here every place is as likely.",
            ),
        ),
    ),
    Choice(
        "weighs_most",
        LESSON,
        "What weighs most",
        "A lamp on {voltage}, {frequency} has {dropper}; its string holds the bridge at {clamped_voltage}. The mains"
        " may be {mains_off} off, the dropper {dropper_off}, the clamped voltage {string_off}. Which of them moves the"
        " current most?",
        _near,
        {"mains": "the mains", "dropper": "the dropper", "string": "the string"},
        lambda q: max(_weighed(q), key=_weighed(q).get),
        {
            "mains": "The mains is magnified, but here its tolerance is small enough for another to do more.",
            "dropper": "The dropper's per cents go into the current as they are; here another does more.",
            "string": "The string's volts take their part of what is left to the dropper; here another does more.",
        },
        lambda q: (
            "Weight times tolerance: " + ", ".join(f"{name} {value:.3g} %" for name, value in _weighed(q).items()) + "."
        ),
        ("Weight times tolerance, for each.", "Mains: Vp over Vp − D. Dropper: 1. String: D over Vp − D."),
    ),
    Choice(
        "loosest_letter",
        LESSON,
        "Which letter will do",
        "A lamp on {voltage}, {frequency} has {dropper}; its string holds the bridge at {clamped_voltage}. The current"
        " must not rise by more than {limit}, even with the mains {mains_off} high; the string is as designed. Which is"
        " the loosest letter that the dropper may carry: J (5 %), K (10 %) or M (20 %)?",
        _letter,
        {"J": "J", "K": "K", "M": "M", "none": "none of them will do"},
        lambda q: _loosest(q),
        {
            "J": "Another would do as well or, if the mains takes all there is, not even this one does.",
            "K": "With that the rise is over {limit}, or a looser one would still keep it.",
            "M": "With the mains {mains_off} high, 20 % more in the dropper is beyond {limit}.",
            "none": "The mains does not take all of the {limit}; a letter is left that keeps it.",
        },
        lambda q: (
            "Rise of the current in the brightest corner: "
            + ", ".join(f"{letter} {100 * _rise(q, off):.3g} %" for letter, off in _LETTERS.items())
            + "."
        ),
        (
            "How much of the limit does the mains take, by its weight?",
            "The rises multiply: (1 + of the mains) times (1 + of the dropper).",
        ),
    ),
)


def _tolerances(q):
    return {
        "voltage_tolerance": q.mains_off / 100,
        "dropper_tolerance": q.dropper_off / 100,
        "frequency_tolerance": 0.0,
        "clamped_tolerance": q.string_off / 100,
    }


def _high(q):
    """Dropper, peak and clamped voltage in the brightest corner."""
    return {
        "dropper": q.dropper * (1 + q.dropper_off / 100),
        "peak_voltage": q.peak_voltage * (1 + q.mains_off / 100),
        "clamped_voltage": q.clamped_voltage * (1 - q.string_off / 100),
    }


def _weighed(q):
    """Weight times tolerance of each, in %."""
    return {
        "mains": q.mains_off * q.elasticity_to_peak_voltage,
        "dropper": q.dropper_off * q.elasticity_to_dropper,
        "string": -q.string_off * q.elasticity_to_clamped_voltage,
    }


def _rise(q, off):
    """Rise of the current with the mains high and the dropper so much high, as a fraction."""
    return q.using(
        "greatest_current_rise",
        voltage_tolerance=q.mains_off / 100,
        dropper_tolerance=off,
        frequency_tolerance=0.0,
        clamped_tolerance=0.0,
    )


def _loosest(q):
    letters = [letter for letter, off in _LETTERS.items() if _rise(q, off) <= q.limit / 100]
    return letters[-1] if letters else "none"
