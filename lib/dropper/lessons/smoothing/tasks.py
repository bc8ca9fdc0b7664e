"""Tasks of lesson 4 on ripple, the swing of the light, and the capacitor that smooths."""

import math

from ..tasks.question import Question, Slip, Tolerance
from ..tasks.random_values import part, step_value
from ..tasks.solution import SumStep, TheoryStep

LESSON = 4
_PERCENT = Tolerance("3 % of it is allowed: electrolytic capacitors are sold to 20 %.", relative=0.03, absolute=0.05)
_SMOOTHER = Tolerance("5 % is allowed: electrolytic capacitors are sold to 20 %.", relative=0.05)
_INDEX = Tolerance("A digit in the third place is allowed.", relative=0.01, absolute=0.002)


def _bus(chance):
    return {
        "frequency": chance.choice((50.0, 60.0)),
        "smoothing": part(chance, 6, 4.7e-6, 220e-6),
        "string_current_mean": chance.choice((0.005, 0.008, 0.010, 0.012, 0.015, 0.018, 0.020, 0.030)),
    }


def _extremes(chance):
    least = chance.randint(2, 12)
    return {"string_current_max": (least + chance.randint(3, 14)) / 1e3, "string_current_min": least / 1e3}


def _string(chance):
    return {
        "in_series": chance.randint(16, 60),
        "in_parallel": 1,
        "ideality": chance.choice((1.8, 2.0, 2.2)),
        "thermal_voltage": 0.026,
        "series_resistance": chance.choice((4.0, 5.0, 6.0, 8.0, 10.0, 12.0)),
        "string_current_mean": chance.choice((0.005, 0.008, 0.010, 0.012, 0.015, 0.020)),
        "forward_voltage": 3.0,
    }


def _smoothed(chance):
    return {
        "frequency": chance.choice((50.0, 60.0)),
        "smoothing": part(chance, 6, 10e-6, 100e-6),
        "clamped_fraction": step_value(chance, 0.15, 0.7, 0.05),
        "string_resistance": part(chance, 12, 220.0, 820.0),
    }


def _to_smooth(chance):
    values = _smoothed(chance) | {"current_modulation": chance.choice((0.04, 0.05, 0.08, 0.1, 0.15, 0.2))}
    del values["smoothing"]
    return values


TASKS = (
    Question(
        "ripple_bound",
        LESSON,
        "Ripple, at most",
        "A string takes a mean of {string_current_mean} from a smoothing capacitor of {smoothing} behind a bridge on"
        " {frequency}. How large can the ripple be at most, from peak to peak?",
        _bus,
        "V",
        lambda q: q.ripple_bound,
        solution=(TheoryStep("ripple_bound"),),
        hints=(
            "At worst the capacitor feeds the string alone for a whole half cycle.",
            "Charge is current times time; divided by the capacitance it is the fall of voltage.",
        ),
        slips=(
            Slip(
                "mains frequency",
                lambda q: q.using("ripple_bound", frequency=q.frequency / 2),
                "You let it wait for a whole period. Behind a bridge it is filled twice a period.",
            ),
            Slip(
                "factor 2 too many",
                lambda q: q.ripple_bound / 2,
                "A factor of 2 is counted twice; from peak to peak is asked for.",
            ),
            Slip(
                "rms of the ripple",
                lambda q: q.ripple_bound / (2 * math.sqrt(2)),
                "You turned it into an rms; from peak to peak is asked for.",
            ),
        ),
    ),
    Question(
        "percent_flicker",
        LESSON,
        "Percent flicker",
        "The current of a string swings between {string_current_min} and {string_current_max}, and the light follows"
        " it. What is the percent flicker?",
        _extremes,
        "%",
        lambda q: q.percent_flicker,
        solution=(TheoryStep("percent_flicker"),),
        hints=("It compares the swing with the sum of the two extremes.",),
        slips=(
            Slip(
                "over the greatest",
                lambda q: 100 * (1 - q.string_current_min / q.string_current_max),
                "You divided by the greatest value. Percent flicker divides by the sum of the two extremes.",
            ),
            Slip(
                "over the mean",
                lambda q: 2 * q.percent_flicker,
                "You divided by the mean of the extremes; percent flicker divides by their sum.",
            ),
            Slip(
                "least over greatest",
                lambda q: 100 * q.string_current_min / q.string_current_max,
                "That is what is left in the trough.",
            ),
            Slip(
                "over the least",
                lambda q: 100 * (q.string_current_max / q.string_current_min - 1),
                "You divided by the least value; percent flicker divides by the sum of the two extremes.",
            ),
        ),
        tolerance=_PERCENT,
    ),
    Question(
        "flicker_index",
        LESSON,
        "Flicker index",
        "The light swings as a sine, with an amplitude of {current_modulation} times its mean. What is its flicker"
        " index?",
        lambda chance: {"current_modulation": step_value(chance, 0.05, 0.95, 0.05)},
        "",
        lambda q: q.flicker_index_of_swing,
        solution=(TheoryStep("flicker_index_of_swing"),),
        hints=(
            "It is the area above the mean over the whole area of one cycle.",
            "The half wave of a sine has an area of 2 times its amplitude; the whole cycle is 2π long.",
        ),
        slips=(
            Slip(
                "modulation itself",
                lambda q: q.current_modulation,
                "That is the modulation, percent flicker over 100; the index compares areas.",
            ),
            Slip(
                "factor 2 forgotten",
                lambda q: q.flicker_index_of_swing / 2,
                "You divided by 2π; the half wave above the mean has an area of 2, which takes the 2 away.",
            ),
            Slip(
                "both halves",
                lambda q: 2 * q.flicker_index_of_swing,
                "You counted what is below the mean as well; only what is above it counts.",
            ),
        ),
        tolerance=_INDEX,
    ),
    Question(
        "string_resistance",
        LESSON,
        "Dynamic resistance",
        "{in_series} LEDs in series carry {string_current_mean} at about {forward_voltage} each. Each LED has"
        " {series_resistance} in series and an ideality of {ideality}; the thermal voltage is {thermal_voltage}."
        " What dynamic resistance does the string have?",
        _string,
        "Ω",
        lambda q: q.string_resistance,
        solution=(TheoryStep("string_resistance"),),
        hints=(
            "What counts is the slope of the curve: volts more for each ampere more.",
            "Each junction has ideality times thermal voltage over its current; its series resistance adds.",
        ),
        slips=(
            Slip(
                "volts over amperes",
                lambda q: q.in_series * q.forward_voltage / q.string_current_mean,
                "That is voltage over current, the slope of a line from the origin. Where the string works its curve"
                " is far steeper: a volt more drives far more current than that.",
            ),
            Slip(
                "one LED", lambda q: q.using("string_resistance", in_series=1), "That is one LED; they are in series."
            ),
            Slip(
                "junctions alone",
                lambda q: q.using("string_resistance", series_resistance=0.0),
                "The series resistance of each LED is left out.",
            ),
            Slip(
                "series resistance alone",
                lambda q: q.in_series * q.series_resistance,
                "The junctions themselves are left out.",
            ),
            Slip(
                "ideality forgotten",
                lambda q: q.using("string_resistance", ideality=1.0),
                "The ideality of {ideality} is left out.",
            ),
        ),
        tolerance=_SMOOTHER,
    ),
    Question(
        "modulation",
        LESSON,
        "How deep the light swings",
        "A string of {string_resistance} dynamic resistance, across {smoothing}, behind a bridge on {frequency}; the"
        " clamped voltage is {clamped_fraction} of the mains' peak. How large is the amplitude of the current's swing,"
        " in per cent of its mean?",
        _smoothed,
        "%",
        lambda q: 100 * q.current_modulation,
        solution=(
            TheoryStep("charging_harmonic"),
            TheoryStep("current_modulation"),
            SumStep(
                lambda q: f"100 × {q.charging_harmonic:.4g} / √(1 + {_ratio(q):.4g}²) %",
                "In per cent, with what the capacitor takes for what the string takes:",
            ),
        ),
        hints=(
            "The rectified current swings at twice the mains frequency; string and capacitor share the swing.",
            "The string gets the smaller share, the larger its resistance is against the capacitor's reactance.",
        ),
        slips=(
            Slip(
                "mains frequency",
                lambda q: 100 * q.using("current_modulation", frequency=q.frequency / 2),
                "Behind a bridge the swing has twice {frequency}.",
            ),
            Slip(
                "no smoothing", lambda q: 100 * q.charging_harmonic, "That is the swing before the smoothing capacitor."
            ),
            Slip(
                "ohms added",
                lambda q: 100 * q.charging_harmonic / (1 + _ratio(q)),
                "You added resistance and reactance plainly; they add as the sides of a right-angled triangle.",
            ),
        ),
        tolerance=_PERCENT,
    ),
    Question(
        "smoothing_needed",
        LESSON,
        "How much smoothing",
        "A string of {string_resistance} dynamic resistance, behind a bridge on {frequency}; the clamped voltage is"
        " {clamped_fraction} of the mains' peak. How large a smoothing capacitor holds the amplitude of its current's"
        " swing at {current_modulation} of the mean?",
        _to_smooth,
        "F",
        lambda q: q.smoothing_for_modulation,
        solution=(TheoryStep("smoothing_for_modulation"),),
        hints=(
            "By what factor has the swing of the rectified current to be made smaller?",
            "The capacitor's reactance at twice {frequency} has to be smaller than the string's resistance by nearly"
            " that factor.",
        ),
        slips=(
            Slip(
                "mains frequency",
                lambda q: q.using("smoothing_for_modulation", frequency=q.frequency / 2),
                "Behind a bridge the swing has twice {frequency}, so half of that is enough.",
            ),
            Slip(
                "2π forgotten",
                lambda q: 2 * math.pi * q.smoothing_for_modulation,
                "The 2π of the reactance is missing.",
            ),
            Slip(
                "from peak to peak",
                lambda q: q.using("smoothing_for_modulation", current_modulation=q.current_modulation / 2),
                "You took the figure as from peak to peak; it is the amplitude.",
            ),
        ),
        tolerance=_SMOOTHER,
    ),
)


def _ratio(q):
    """The string's resistance over the smoothing capacitor's reactance at twice the mains frequency."""
    reactance = q.using("dropper_reactance", frequency=2 * q.frequency, dropper=q.smoothing)
    return q.string_resistance / reactance
