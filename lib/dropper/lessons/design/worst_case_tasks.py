"""Tasks of lesson 10 on values whose tolerance is counted in: bleeder, inrush resistor, smoothing."""

from ..tasks.question import Question, Slip, Tolerance
from ..tasks.random_values import bridge_lamp, mains, part, value_text
from ..tasks.solution import SumStep, TextStep, TheoryStep

LESSON = 10


def _emptied(chance):
    time, limit = chance.choice(((1.0, 34.0), (5.0, 60.0), (2.0, 60.0)))
    return {
        "voltage": mains(chance)["voltage"],
        "mains_off": float(chance.choice((5, 10))),
        "dropper": part(chance, 6, 150e-9, 2.2e-6),
        "dropper_off": float(chance.choice((5, 10, 20))),
        "resistor_off": float(chance.choice((2, 5))),
        "time": time,
        "limit_voltage": limit,
    }


def _rush(chance):
    return {
        "voltage": mains(chance)["voltage"],
        "mains_off": float(chance.choice((5, 6, 8, 10))),
        "greatest_current": float(chance.choice((2, 3, 4, 5, 6, 8, 10))),
    }


def _steady(chance):
    values = bridge_lamp(chance, 0.2, 0.6)
    del values["dropper"]
    return values | {
        "string_resistance": float(chance.randint(80, 400)),
        "limit": float(chance.choice((5, 8, 10, 12))),
        "smoothing_off": float(chance.choice((10, 20))),
    }


TASKS = (
    Question(
        "bleeder_at_its_ends",
        LESSON,
        "A bleeder, all ends counted",
        "A dropper of {dropper} ±{dropper_off} hangs on {voltage}, which may be {mains_off} high. {time} after"
        " unplugging at the crest no more than {limit_voltage} may be left. Resistors keep ±{resistor_off}. What is the"
        " largest value that may be marked on the bleeder?",
        _emptied,
        "Ω",
        lambda q: q.using("largest_bleeder", **_worst(q)) / (1 + q.resistor_off / 100),
        solution=(
            TheoryStep("peak_voltage"),
            TextStep(
                lambda q: (
                    f"The upper ends: {value_text(q.dropper, 'F')} + {q.dropper_off:g} % ="
                    f" {value_text(_worst(q)['dropper'], 'F', 4)}, and {value_text(q.peak_voltage, 'V', 4)} +"
                    f" {q.mains_off:g} % = {value_text(_high_peak(q), 'V', 4)}."
                )
            ),
            TheoryStep("largest_bleeder", lambda q: _worst(q)),
            SumStep(
                lambda q: (
                    f"{value_text(q.using('largest_bleeder', **_worst(q)), 'Ω', 4)} / {1 + q.resistor_off / 100:g}"
                ),
                "The resistor itself may be at its upper end:",
            ),
        ),
        hints=(
            "Which end of the dropper, of the mains and of the resistor empties it most slowly?",
            "All the upper ones. Put the dropper and the peak at theirs into the formula first.",
        ),
        slips=(
            Slip(
                "as marked",
                lambda q: q.using("largest_bleeder"),
                "That holds if every part is just what is marked on it. A rule is kept by the worst of them.",
            ),
            Slip(
                "the lower ends",
                lambda q: q.using("largest_bleeder", **_worst(q, -1)) / (1 - q.resistor_off / 100),
                "Those ends empty it soonest. The worst case is the other one.",
            ),
            Slip(
                "rms for peak",
                lambda q: (
                    q.using("largest_bleeder", **_worst(q) | {"initial_voltage": q.voltage * (1 + q.mains_off / 100)})
                    / (1 + q.resistor_off / 100)
                ),
                "It may be unplugged at the crest: the discharge begins from the peak.",
            ),
        ),
    ),
    Question(
        "resistor_for_replug",
        LESSON,
        "A resistor for the worst plug-in",
        "On {voltage}, which may be {mains_off} high, a lamp is pulled out and at once put back in, at the other crest."
        " The line current is not to pass {greatest_current}. How large must the inrush resistor still be at the lower"
        " end of its tolerance, all of that step taken by it?",
        _rush,
        "Ω",
        lambda q: q.using("surge_resistor", peak_voltage=_step(q)),
        solution=(
            TheoryStep("peak_voltage"),
            TextStep(
                lambda q: (
                    f"With the mains high: {value_text(q.peak_voltage, 'V', 4)} + {q.mains_off:g} % ="
                    f" {value_text(_high_peak(q), 'V', 4)}."
                )
            ),
            TheoryStep("replug_step", lambda q: {"peak_voltage": _high_peak(q)}),
            TextStep(lambda q: "In the resistor's formula this whole step stands in the place of the peak:"),
            TheoryStep("surge_resistor", lambda q: {"peak_voltage": _step(q)}),
        ),
        hints=(
            "The dropper is still full, and the mains meets it with the opposite sign.",
            "Twice the peak, and that of the high mains.",
        ),
        slips=(
            Slip(
                "empty dropper",
                lambda q: q.using("surge_resistor", peak_voltage=_high_peak(q)),
                "That is the first plug-in. Put back in at once, the dropper's own volts come on top.",
            ),
            Slip(
                "nominal mains",
                lambda q: q.using("surge_resistor", peak_voltage=2 * q.peak_voltage),
                "The mains may be {mains_off} high, and the rush with it.",
            ),
            Slip(
                "rms for peak",
                lambda q: q.using("surge_resistor", peak_voltage=_step(q) * q.voltage / q.peak_voltage),
                "A plug goes in when it likes, at the crest as well.",
            ),
        ),
    ),
    Question(
        "smoothing_at_least",
        LESSON,
        "Smoothing that is enough at its lower end",
        "On {voltage}, {frequency} a string of {string_resistance} holds the bridge at {clamped_voltage}. The current"
        " is to swing by no more than ±{limit} about its mean. Electrolytics keep ±{smoothing_off}. What is to be"
        " marked on the smoothing capacitor at least?",
        _steady,
        "F",
        lambda q: _smooth(q) / (1 - q.smoothing_off / 100),
        solution=(
            TheoryStep("peak_voltage"),
            TextStep(lambda q: f"D/Vp = {q.clamped_voltage:g} V / {q.peak_voltage:.4g} V = {q.clamped_fraction:.4g}"),
            TheoryStep("smoothing_for_modulation", lambda q: {"current_modulation": q.limit / 100}),
            SumStep(
                lambda q: f"{value_text(_smooth(q), 'F', 4)} / {1 - q.smoothing_off / 100:g}",
                "So much must be left at the lower end:",
            ),
        ),
        hints=(
            "How much is needed, if it were just what is marked? The string's dynamic resistance decides.",
            "The one that is bought may be {smoothing_off} smaller than its mark.",
        ),
        slips=(
            Slip(
                "tolerance forgotten",
                lambda q: _smooth(q),
                "Half of all capacitors with that mark hold less than it says.",
            ),
            Slip(
                "twice the swing",
                lambda q: _smooth(q, 0.5) / (1 - q.smoothing_off / 100),
                "You took {limit} from end to end. It is allowed either way.",
            ),
            Slip(
                "the mains' own frequency",
                lambda q: 2 * _smooth(q) / (1 - q.smoothing_off / 100),
                "Behind a bridge the charge comes twice in a period.",
            ),
        ),
        tolerance=Tolerance("3 % is allowed: D/Vp is rounded on the way.", 0.03),
    ),
)


def _high_peak(q):
    return q.peak_voltage * (1 + q.mains_off / 100)


def _worst(q, way=1):
    return {
        "dropper": q.dropper * (1 + way * q.dropper_off / 100),
        "initial_voltage": q.peak_voltage * (1 + way * q.mains_off / 100),
    }


def _step(q):
    return q.using("replug_step", peak_voltage=_high_peak(q))


def _smooth(q, share=1.0):
    return q.using("smoothing_for_modulation", current_modulation=share * q.limit / 100)
