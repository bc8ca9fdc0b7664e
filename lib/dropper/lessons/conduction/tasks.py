"""Tasks of lesson 3: when the bridge conducts, for how long, and what passes on meanwhile."""

import math

from ..tasks.question import Question, Slip, Tolerance
from ..tasks.random_values import mains, part, share_of_peak, step_value
from ..tasks.solution import SumStep, TextStep, TheoryStep

LESSON = 3
_ANGLE = Tolerance("Two degrees are allowed: no one reads an oscilloscope better.", relative=0.0, absolute=2.0)
_SHARE = Tolerance("One point is allowed: two degrees of the half cycle's 180°.", relative=0.0, absolute=1.0)
_VOLTS = Tolerance("3 V or 2 % are allowed: √2 ≈ 1.41 and a volt of diodes make as much.", 0.02, 3.0)
_DROPS = Tolerance("A tenth of a volt is allowed: at so few volts a diode's drop counts.", relative=0.0, absolute=0.1)


def _held(chance):
    values = mains(chance)
    return values | {"clamped_voltage": share_of_peak(chance, values["voltage"], 0.15, 0.85)}


def _swung(chance):
    values = mains(chance)
    peaks = 1.4 * values["voltage"]
    return values | {
        "dropper": part(chance, 6, 220e-9, 2.2e-6),
        "swing": step_value(chance, round(0.9 * peaks, -1), round(1.7 * peaks, -1), 10.0),
    }


def _class_bench(chance):
    return {
        "in_series": chance.randint(3, 7),
        "forward_voltage": chance.choice((1.9, 2.0, 2.1, 3.0, 3.1, 3.2)),
        "diode_voltage": chance.choice((0.6, 0.7, 0.8, 0.9)),
    }


TASKS = (
    Question(
        "clamped_voltage",
        LESSON,
        "What the bridge sees",
        "A string of {in_series} LEDs of {forward_voltage} each stands behind a bridge whose diodes drop"
        " {diode_voltage} each. At what voltage is the bridge's ac side held while current flows?",
        _class_bench,
        "V",
        lambda q: q.using("clamped_voltage", string_voltage=_string(q)),
        solution=(
            TextStep(lambda q: f"The string: {q.in_series} × {q.forward_voltage:g} V = {_string(q):.4g} V"),
            TheoryStep("clamped_voltage", lambda q: {"string_voltage": _string(q)}),
        ),
        hints=(
            "Follow the current once round, from one ac terminal of the bridge to the other.",
            "It passes one diode, the string, and another diode.",
        ),
        slips=(
            Slip("diodes forgotten", lambda q: _string(q), "The current passes two diodes as well."),
            Slip(
                "one diode",
                lambda q: _string(q) + q.diode_voltage,
                "One diode on the way in, and another one on the way back: two drops.",
            ),
            Slip("four diodes", lambda q: _string(q) + 4 * q.diode_voltage, "Only two of the four conduct at a time."),
            Slip(
                "drops taken away",
                lambda q: _string(q) - 2 * q.diode_voltage,
                "The drops add to the string's: all stand in the way of the same current.",
            ),
        ),
        tolerance=_DROPS,
    ),
    Question(
        "conduction_start",
        LESSON,
        "Where conduction starts",
        "On {voltage} a string holds the bridge at {clamped_voltage}. At which angle does conduction start in the"
        " positive half cycle? Count from the mains' rise through zero; before it the angle is negative.",
        _held,
        "°",
        lambda q: math.degrees(q.conduction_start),
        solution=(TheoryStep("peak_voltage"), TheoryStep("conduction_start")),
        hints=(
            "At the start the dropper still holds the voltage that the negative crest has left on it.",
            "The mains need not reach D: the dropper helps with Vp − D. So it has to reach 2D − Vp only.",
        ),
        slips=(
            Slip(
                "dropper's charge forgotten",
                lambda q: math.degrees(math.asin(q.clamped_fraction)),
                "There the mains itself reaches {clamped_voltage}. But the dropper is still charged from the crest"
                " before, and helps.",
            ),
            Slip(
                "sign",
                lambda q: -math.degrees(q.conduction_start),
                "The size is right. Below half of the peak conduction starts before the mains' zero (negative), above"
                " it after (positive).",
            ),
            Slip(
                "rms for peak",
                lambda q: math.degrees(q.using("conduction_start", peak_voltage=q.voltage)),
                "You took the rms volts; the dropper charges to the peak.",
            ),
            Slip(
                "arccosine",
                lambda q: math.degrees(q.conduction_angle),
                "That is how long it conducts; where it starts is asked for.",
            ),
        ),
        tolerance=_ANGLE,
    ),
    Question(
        "conduction_angle",
        LESSON,
        "How long it conducts",
        "On {voltage} a string holds the bridge at {clamped_voltage}. For how many degrees of each half cycle does the"
        " bridge conduct?",
        _held,
        "°",
        lambda q: math.degrees(q.conduction_angle),
        solution=(TheoryStep("peak_voltage"), TheoryStep("conduction_angle")),
        hints=("It stops at the crest, at 90°: from there on the mains goes back.", "Where does it start?"),
        slips=(
            Slip("the pause", lambda q: 180 - math.degrees(q.conduction_angle), "That is the pause between."),
            Slip(
                "both half cycles",
                lambda q: 2 * math.degrees(q.conduction_angle),
                "That is of the whole period; each half cycle is asked for.",
            ),
            Slip(
                "as behind a resistor",
                lambda q: 2 * math.degrees(math.acos(q.clamped_fraction)),
                "Behind a resistor it would conduct on both sides of the crest, while the mains is above the string."
                " Behind a capacitor it starts earlier and ends at the crest.",
            ),
            Slip(
                "dropper's charge forgotten",
                lambda q: math.degrees(math.acos(q.clamped_fraction)),
                "You let it start where the mains itself reaches {clamped_voltage}; the dropper's charge helps.",
            ),
            Slip(
                "rms for peak",
                lambda q: math.degrees(q.using("conduction_angle", peak_voltage=q.voltage)),
                "You took the rms volts; the peak counts.",
            ),
        ),
        tolerance=_ANGLE,
    ),
    Question(
        "conduction_share",
        LESSON,
        "Part of the time",
        "On {voltage} a string holds the bridge at {clamped_voltage}. For how many per cent of the time does current"
        " flow in the line?",
        _held,
        "%",
        lambda q: 100 * q.conduction_fraction,
        solution=(
            TheoryStep("peak_voltage"),
            TheoryStep("conduction_fraction"),
            SumStep(
                lambda q: f"100 × arccos({2 * q.clamped_fraction - 1:.4g}) / 180° %",
                "In per cent, the angle in degrees:",
            ),
        ),
        hints=("For how many degrees of each half cycle does it conduct?", "A half cycle has 180°."),
        slips=(
            Slip(
                "one half cycle of two",
                lambda q: 50 * q.conduction_fraction,
                "You divided by 360°. It conducts in both half cycles.",
            ),
            Slip("the pause", lambda q: 100 - 100 * q.conduction_fraction, "That is the part without current."),
            Slip(
                "in a straight line",
                lambda q: 100 - 100 * q.clamped_fraction,
                "The time does not shrink in a straight line with the voltage: a sine is steep at zero and flat at the"
                " crest.",
            ),
            Slip("always", lambda q: 100.0, "It would always flow if there were no string, and D were nought."),
        ),
        tolerance=_SHARE,
    ),
    Question(
        "dropper_peak",
        LESSON,
        "Peak across the dropper",
        "On {voltage} a string holds the bridge at {clamped_voltage}. What is the peak voltage across the dropper in"
        " normal use?",
        _held,
        "V",
        lambda q: q.dropper_voltage_peak,
        solution=(TheoryStep("peak_voltage"), TheoryStep("dropper_voltage_peak")),
        hints=(
            "Look at the crest of the mains, while current still flows.",
            "There the mains' peak is shared between dropper and bridge.",
        ),
        slips=(
            Slip(
                "rms for peak",
                lambda q: q.voltage - q.clamped_voltage,
                "You took the rms volts; at the crest the mains is √2 times as high.",
            ),
            Slip(
                "all of the peak",
                lambda q: q.peak_voltage,
                "The bridge takes {clamped_voltage} of it. (For the choice of a part, think of the fault case too.)",
            ),
            Slip(
                "triangle",
                lambda q: math.sqrt(max(q.voltage**2 - q.clamped_voltage**2, 0.0)),
                "The triangle is for sine waves; a bridge with its string holds a square wave. Look at the crest.",
            ),
            Slip("twice", lambda q: 2 * q.dropper_voltage_peak, "That is the swing from peak to peak."),
        ),
        tolerance=_VOLTS,
    ),
    Question(
        "starting_voltage",
        LESSON,
        "Mains voltage at the start",
        "On {voltage} a string holds the bridge at {clamped_voltage}. How high is the mains at the moment at which"
        " conduction starts in the positive half cycle? (It may be below zero.)",
        _held,
        "V",
        lambda q: q.peak_voltage * math.sin(q.conduction_start),
        solution=(
            TheoryStep("peak_voltage"),
            TheoryStep("conduction_start"),
            SumStep(
                lambda q: f"Vp sin θ₁ = {q.peak_voltage:.4g} V × sin({math.degrees(q.conduction_start):.4g}°)",
                "The mains is a sine:",
            ),
        ),
        hints=(
            "The negative crest has left Vp − D on the dropper, the other way round.",
            "Mains and dropper together have to reach {clamped_voltage}.",
        ),
        slips=(
            Slip(
                "dropper's charge forgotten",
                lambda q: q.clamped_voltage,
                "That would be so with an empty dropper. It still holds what the crest before has left.",
            ),
            Slip(
                "with the mains",
                lambda q: 0.0,
                "That is where the mains passes zero. The dropper adds what it has kept since the crest before.",
            ),
            Slip(
                "the dropper's",
                lambda q: q.dropper_voltage_peak,
                "That is what the dropper holds; with it, how high must the mains be?",
            ),
            Slip("rms for peak", lambda q: 2 * q.clamped_voltage - q.voltage, "You took the rms volts for the peak."),
            Slip("sign", lambda q: -q.peak_voltage * math.sin(q.conduction_start), "The size is right, not the sign."),
        ),
        tolerance=Tolerance("5 V are allowed: the mains rises by as much in a degree.", relative=0.0, absolute=5.0),
    ),
    Question(
        "current_from_swing",
        LESSON,
        "Current from a picture",
        "A differential probe across a dropper of {dropper} shows {swing} from peak to peak, on {voltage}, {frequency}."
        " What mean current do the LEDs get? (The oscilloscope itself is never floated.)",
        _swung,
        "A",
        lambda q: q.using("mean_string_current", **_swinging(q)),
        solution=(
            TextStep(
                lambda q: (
                    f"Half of the swing, {q.swing:g} V / 2 = {q.swing / 2:g} V,"
                    " is the dropper's peak: Vp less D. With D = 0 it"
                    " stands for Vp below."
                )
            ),
            TheoryStep("mean_string_current", lambda q: _swinging(q)),
        ),
        hints=(
            "Charge is capacitance times the change of voltage, and the picture shows the change.",
            "So much charge moves in each half cycle; there are twice {frequency} of them in a second.",
        ),
        slips=(
            Slip(
                "one half cycle of two",
                lambda q: q.using("mean_string_current", **_swinging(q)) / 2,
                "Both half cycles hand on charge; or you took half of the swing for all of it.",
            ),
            Slip(
                "swing for peak",
                lambda q: 2 * q.using("mean_string_current", **_swinging(q)),
                "The swing from peak to peak is the whole change already; you doubled it.",
            ),
            Slip(
                "V over Xc", lambda q: q.short_circuit_current, "That is mains over reactance; the picture says more."
            ),
            Slip(
                "rms of a sine",
                lambda q: q.using("mean_string_current", **_swinging(q)) / math.sqrt(2),
                "You divided by √2. The wave is no sine, and a charge needs the whole swing.",
            ),
        ),
    ),
)


def _string(q):
    return q.in_series * q.forward_voltage


def _swinging(q):
    return {"peak_voltage": q.swing / 2, "clamped_voltage": 0.0}
