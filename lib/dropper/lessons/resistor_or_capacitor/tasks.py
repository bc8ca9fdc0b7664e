"""Tasks of lesson 1: where the voltage goes, behind a resistor and behind a capacitor."""

import math

from ..tasks.question import Choice, Question, Slip, Tolerance
from ..tasks.random_values import mains, part, step_value
from ..tasks.solution import TheoryStep

LESSON = 1
_EXACT_NOUGHT = Tolerance(
    "Only nought is right here: in an ideal capacitor what is taken in one quarter period comes back in the next.",
    absolute=1e-6,
)
_ANGLE = Tolerance("Two degrees are allowed: no one reads an oscilloscope better.", relative=0.0, absolute=2.0)


def _dropper_on_mains(chance):
    return mains(chance) | {"dropper": part(chance, 6, 100e-9, 4.7e-6)}


def _heater(chance):
    values = mains(chance)
    return values | {"load_voltage": step_value(chance, 0.4 * values["voltage"], 0.8 * values["voltage"], 1.0)}


def _small_heater(chance):
    return _heater(chance) | {"line_current_rms": part(chance, 12, 0.022, 0.27)}


def _warmer(chance):
    return mains(chance) | {"dropper": part(chance, 6, 0.47e-6, 4.7e-6), "load_resistance": part(chance, 12, 680, 4700)}


TASKS = (
    Question(
        "reactance",
        LESSON,
        "Reactance",
        "A dropper of {dropper} is on the mains at {frequency}. What is its reactance?",
        lambda chance: {"frequency": chance.choice((50.0, 60.0)), "dropper": part(chance, 12, 100e-9, 4.7e-6)},
        "Ω",
        lambda q: q.dropper_reactance,
        solution=(TheoryStep("dropper_reactance"),),
        hints=(
            "The larger the capacitor and the higher the frequency, the less it holds the current back.",
            "Frequency and capacitance stand below the line, with 2π: it counts radians, not cycles.",
        ),
        slips=(
            Slip(
                "2π forgotten",
                lambda q: 2 * math.pi * q.dropper_reactance,
                "That is one over frequency times capacitance: the 2π is missing.",
            ),
            Slip("π for 2π", lambda q: 2 * q.dropper_reactance, "A full turn is 2π, not π: the factor 2 is missing."),
            Slip(
                "twice the mains frequency",
                lambda q: q.using("dropper_reactance", frequency=2 * q.frequency),
                "Only behind the bridge do things happen twice a period; the dropper sees {frequency}.",
            ),
            Slip(
                "upside down",
                lambda q: 1 / q.dropper_reactance,
                "That is amperes for each volt; a reactance is volts for each ampere, so turn it over.",
            ),
        ),
    ),
    Question(
        "short_circuit",
        LESSON,
        "Behind the dropper, a short circuit",
        "A dropper of {dropper} alone is across the mains, {voltage}, {frequency}. What does an ammeter in its line"
        " show (rms)?",
        _dropper_on_mains,
        "A",
        lambda q: q.short_circuit_current,
        solution=(TheoryStep("dropper_reactance"), TheoryStep("short_circuit_current")),
        hints=("Nothing but the reactance holds the current back.", "Mains voltage over reactance, both as rms."),
        slips=(
            Slip(
                "peak for rms",
                lambda q: q.crest_current,
                "That is the peak of the current; an ammeter shows the rms, √2 times less.",
            ),
            Slip(
                "mean for rms",
                lambda q: q.using("mean_string_current", clamped_voltage=0.0),
                "That is the rectified mean; an ammeter shows the rms.",
            ),
            Slip(
                "2π forgotten",
                lambda q: q.short_circuit_current / (2 * math.pi),
                "2π is missing: the reactance is one over 2π times frequency and capacitance.",
            ),
        ),
    ),
    Question(
        "volts_beside",
        LESSON,
        "Volts across the capacitor",
        "A small heater needs {load_voltage} and is fed through a capacitor from {voltage}. How many volts rms stand"
        " across the capacitor?",
        _heater,
        "V",
        lambda q: q.voltage_beside_load,
        solution=(TheoryStep("voltage_beside_load"),),
        hints=(
            "The two voltages do not rise at the same time: one is a quarter of a period behind the other.",
            "They are the short sides of a right-angled triangle, and the mains is the long one.",
        ),
        slips=(
            Slip(
                "plain difference",
                lambda q: q.voltage - q.load_voltage,
                "Plain differences are for resistors. Volts a quarter of a period apart add as the sides of a"
                " right-angled triangle.",
            ),
            Slip(
                "squares added",
                lambda q: math.hypot(q.voltage, q.load_voltage),
                "The mains is the long side of the triangle: take the square of the load's voltage away.",
            ),
            Slip("root forgotten", lambda q: q.voltage_beside_load**2, "That is the square of it: take the root."),
            Slip("all of the mains", lambda q: q.voltage, "Some of the mains is left for the load."),
        ),
    ),
    Question(
        "dropper_for_heater",
        LESSON,
        "A capacitor for a heater",
        "A small heater takes {line_current_rms} at {load_voltage}. Which capacitor in series makes it run on"
        " {voltage}, {frequency}?",
        _small_heater,
        "F",
        lambda q: q.dropper_for_load,
        solution=(TheoryStep("voltage_beside_load"), TheoryStep("dropper_for_load")),
        hints=(
            "First find the volts across the capacitor: a quarter of a period apart, not a plain difference.",
            "Those volts over the current are its reactance; from that follows the capacitance.",
        ),
        slips=(
            Slip(
                "plain difference",
                lambda q: q.dropper_for_load * q.voltage_beside_load / (q.voltage - q.load_voltage),
                "You gave the capacitor the plain difference of the voltages. It has the side of a right-angled"
                " triangle.",
            ),
            Slip(
                "all of the mains",
                lambda q: q.dropper_for_load * q.voltage_beside_load / q.voltage,
                "You gave the capacitor all of the mains; the load keeps {load_voltage} of it.",
            ),
            Slip("2π forgotten", lambda q: q.dropper_for_load * 2 * math.pi, "The 2π of the reactance is missing."),
        ),
    ),
    Question(
        "resistor_for_heater",
        LESSON,
        "A resistor for a heater",
        "A small heater takes {line_current_rms} at {load_voltage}. Which resistor in"
        " series makes it run on {voltage}?",
        _small_heater,
        "Ω",
        lambda q: q.resistor_for_load,
        solution=(TheoryStep("resistor_for_load"),),
        hints=("A resistor's voltage rises and falls with the load's.", "So it takes the plain difference."),
        slips=(
            Slip(
                "triangle for a resistor",
                lambda q: q.voltage_beside_load / q.line_current_rms,
                "The triangle is for a capacitor. A resistor's voltage is in step with the load's: plain difference.",
            ),
            Slip(
                "all of the mains",
                lambda q: q.voltage / q.line_current_rms,
                "That is mains over current, the resistor and the load together.",
            ),
            Slip(
                "the load's own",
                lambda q: q.load_voltage / q.line_current_rms,
                "That is the resistance of the load itself.",
            ),
        ),
    ),
    Question(
        "resistor_heat",
        LESSON,
        "What the resistor pays",
        "A resistor in series brings the mains, {voltage}, down to the {load_voltage} of a heater that takes"
        " {line_current_rms}. How much power does the resistor turn into heat?",
        _small_heater,
        "W",
        lambda q: q.resistor_heat_beside_load,
        solution=(TheoryStep("resistor_heat_beside_load"),),
        hints=("Power is volts times amperes, and here they are in step.", "Which volts stand across the resistor?"),
        slips=(
            Slip(
                "all of the mains",
                lambda q: q.voltage * q.line_current_rms,
                "That is what the mains gives; part of it goes to the load.",
            ),
            Slip(
                "the load's power",
                lambda q: q.load_voltage * q.line_current_rms,
                "That is the power of the load; what is asked for is the resistor's.",
            ),
            Slip(
                "triangle for a resistor",
                lambda q: q.voltage_beside_load * q.line_current_rms,
                "Those are a capacitor's volts. A resistor takes the plain difference.",
            ),
        ),
    ),
    Question(
        "dropper_power",
        LESSON,
        "What the capacitor pays",
        "An ideal capacitor of {dropper} is across {voltage}, {frequency}, with nothing behind it. How much power does"
        " it take on average?",
        _dropper_on_mains,
        "W",
        lambda q: q.mean_capacitor_power,
        solution=(TheoryStep("mean_capacitor_power"),),
        hints=(
            "Look at one quarter of a period, and then at the next one.",
            "While its voltage rises it takes energy. While its voltage falls, where does the energy go?",
        ),
        last_hint="the mean over a period of a sine at twice the frequency, whose peaks are as high above zero as below"
        " it ({dropper}, {voltage}, {frequency} only set how high).",
        slips=(
            Slip(
                "VA for W",
                lambda q: q.voltage * q.short_circuit_current,
                "That is volts times amperes, VA. They are a quarter of a period apart, so on average it is no power.",
            ),
            Slip(
                "peak VA for W",
                lambda q: q.peak_voltage * q.crest_current,
                "That is peak volts times peak amperes. They do not come at the same moment.",
            ),
        ),
        tolerance=_EXACT_NOUGHT,
    ),
    Question(
        "current_lead",
        LESSON,
        "How far the current leads",
        "A heater of {load_resistance} is in series with {dropper} on {voltage}, {frequency}. By how many degrees does"
        " the current lead the mains voltage?",
        _warmer,
        "°",
        lambda q: math.degrees(q.phase_lead),
        solution=(TheoryStep("dropper_reactance"), TheoryStep("phase_lead")),
        hints=(
            "A capacitor alone leads by 90°, a resistor alone by nothing.",
            "Find the reactance first. It is opposite the angle, and the resistance lies beside it.",
        ),
        slips=(
            Slip(
                "the other angle",
                lambda q: 90 - math.degrees(q.phase_lead),
                "That is the other angle of the triangle: the reactance stands above the line.",
            ),
            Slip(
                "minus sign",
                lambda q: -math.degrees(q.phase_lead),
                "Behind a capacitor the current leads; as a lead the angle is positive.",
            ),
            Slip("always a quarter", lambda q: 90.0, "90° is for a capacitor alone; the heater pulls it back."),
        ),
        tolerance=_ANGLE,
    ),
    Question(
        "series_current",
        LESSON,
        "Resistance and reactance together",
        "A heater of {load_resistance} is in series with {dropper} on {voltage}, {frequency}. What current flows"
        " (rms)?",
        _warmer,
        "A",
        lambda q: q.series_current,
        solution=(TheoryStep("dropper_reactance"), TheoryStep("series_current")),
        hints=("Find the reactance first.", "Resistance and reactance are the short sides of a right-angled triangle."),
        slips=(
            Slip(
                "ohms added",
                lambda q: q.voltage / (q.load_resistance + q.reactance),
                "You added ohms of resistance and of reactance. They belong to voltages a quarter of a period apart:"
                " take the root of the sum of the squares.",
            ),
            Slip("reactance alone", lambda q: q.short_circuit_current, "The resistance of the heater is left out."),
            Slip("resistance alone", lambda q: q.voltage / q.load_resistance, "The capacitor is left out."),
            Slip("peak for rms", lambda q: math.sqrt(2) * q.series_current, "That is the peak; rms is asked for."),
        ),
    ),
    Choice(
        "which_warms",
        LESSON,
        "Which one warms",
        "Two heaters of {load_voltage} and {line_current_rms} run on {voltage}: one behind a resistor, one behind an"
        " ideal capacitor. Both meters show the same amperes. Which one costs more to run?",
        _small_heater,
        {
            "resistor": "the one behind the resistor",
            "same": "both cost the same",
            "capacitor": "the one behind the capacitor",
        },
        lambda q: _dearer(q),
        {
            "same": "Same volts and same amperes are the same VA, not the same watts: behind the capacitor volts and"
            " amperes are out of step, and only what is in step is power.",
            "capacitor": "The capacitor takes energy and gives it back twice a period; it keeps none.",
            "resistor": "The resistor turns all that it takes into heat.",
        },
        lambda q: (
            f"Behind the resistor: {_totals(q)[0]:.3g} W, {q.resistor_heat_beside_load:.3g} W of it heat in the"
            f" resistor. Behind the capacitor: {_totals(q)[1]:.3g} W, all of it in the heater."
        ),
        (
            "Both heaters take the same watts. What do the two parts in front of them take?",
            "The resistor's volts and amperes are in step; the capacitor's are a quarter of a period apart.",
        ),
    ),
)


def _dearer(q):
    behind_resistor, behind_capacitor = _totals(q)
    if math.isclose(behind_resistor, behind_capacitor):
        return "same"
    return "resistor" if behind_resistor > behind_capacitor else "capacitor"


def _totals(q):
    """Watts taken from the mains behind the resistor and behind the capacitor."""
    heater = q.load_voltage * q.line_current_rms
    ideal_loss = q.using("mean_capacitor_power", frequency=q.frequency, dropper=q.dropper_for_load)
    return heater + q.resistor_heat_beside_load, heater + ideal_loss
