"""Tasks of lesson 7, first part: what each part has to stand, in normal use and with the string open."""

import math

from ...circuit.series import preferred
from ...components.kinds import CARBON_FILM, CHIP, RECTIFIERS, Resistor, Stress, Use, chain, next_up
from ...components.kinds.rating import PRACTICE
from ..tasks.question import Choice, Question, Slip, Tolerance
from ..tasks.random_values import bridge_lamp, mains, part, share_of_peak
from ..tasks.solution import SumStep, TextStep, TheoryStep

LESSON = 7
_VOLTS = Tolerance("3 V or 2 % are allowed: √2 ≈ 1.41 and a volt of diodes make as much.", 0.02, 3.0)
_WATTS = Tolerance("4 % is allowed: a current that is 2 % off makes a power that is 4 % off.", relative=0.04)
_WHOLE = Tolerance("Only the whole number is allowed.", relative=0.0, absolute=0.1, exact=True)
_RESISTORS = (*CARBON_FILM[:3], *CHIP[2:4])


def _string_comes_off(chance):
    values = mains(chance)
    return values | {
        "string_voltage": share_of_peak(chance, values["voltage"], 0.15, 0.6),
        "diode_voltage": chance.choice((0.7, 0.8, 0.9)),
    }


def _margin(chance):
    return {
        "voltage": chance.choice((100.0, 120.0, 127.0, 220.0, 230.0, 240.0, 277.0)),
        "diode_voltage": chance.choice((0.7, 0.8, 0.9)),
        "used": chance.choice((50.0, 60.0, 80.0)),
    }


def _high_mains(chance):
    return _string_comes_off(chance) | {"rise": chance.choice((5.0, 6.0, 7.0, 8.0, 10.0))}


def _held(chance):
    values = mains(chance)
    return values | {"clamped_voltage": share_of_peak(chance, values["voltage"], 0.15, 0.7)}


def _groups_short(chance):
    values = mains(chance)
    values["clamped_voltage"] = share_of_peak(chance, values["voltage"], 0.35, 0.7)
    return values | {"lost_voltage": 3.0 * max(round(chance.uniform(0.2, 0.6) * values["clamped_voltage"] / 3), 1)}


def _a_resistor(chance):
    kind = chance.choice(_RESISTORS)
    border = kind.limiting_voltage**2 / kind.rated_power
    values = preferred(12, 0.05 * border, 0.7 * border) + preferred(12, 1.5 * border, 20 * border)
    return {"resistance": chance.choice(values), "rated_power": _rated(kind), "limiting_voltage": kind.limiting_voltage}


def _bleeders(chance):
    kind = chance.choice((*_RESISTORS, CHIP[1]))
    return {
        "voltage": chance.choice((120.0, 127.0, 220.0, 230.0, 240.0)),
        "bleeder": part(chance, 6, 330e3, 2.2e6),
        "rated_power": _rated(kind),
        "limiting_voltage": kind.limiting_voltage,
    }


def _rated(kind):
    """Rated watts as they are printed, to three digits."""
    return float(f"{kind.rated_power:.3g}")


TASKS = (
    Question(
        "diode_reverse",
        LESSON,
        "Reverse voltage, the string open",
        "A lamp on {voltage} holds its smoothing capacitor at {string_voltage}; its diodes drop {diode_voltage}"
        " each. Then the string comes off. What reverse voltage must each diode of the bridge stand?",
        _string_comes_off,
        "V",
        lambda q: q.diode_reverse_voltage_open,
        solution=(TheoryStep("peak_voltage"), TheoryStep("diode_reverse_voltage_open")),
        hints=(
            "With the string open nothing draws current from the smoothing capacitor. How far is it charged?",
            "It is charged to the mains' peak, less two drops; a diode that blocks has that and one drop.",
        ),
        slips=(
            Slip(
                "string's voltage",
                lambda q: q.using("diode_reverse_voltage", bus_voltage=q.string_voltage),
                "That is what it stands in normal use. With the string open nothing holds the bus down.",
            ),
            Slip(
                "rms for peak",
                lambda q: q.using("diode_reverse_voltage_open", peak_voltage=q.voltage),
                "You took the rms volts; the bus charges to the peak.",
            ),
            Slip(
                "twice the peak",
                lambda q: 2 * q.diode_reverse_voltage_open,
                "Twice the peak is for one diode alone before a capacitor. In a bridge each one sees the bus.",
            ),
            Slip(
                "shared by two",
                lambda q: q.diode_reverse_voltage_open / 2,
                "Two diodes block, but they do not share: the other two conduct, and each that blocks has all of it.",
            ),
        ),
        tolerance=_VOLTS,
    ),
    Choice(
        "which_diode",
        LESSON,
        "Which diode",
        "The mains is {voltage}, and no more than {used} of a diode's rated reverse voltage is to be used, with the"
        " string open too. The diodes drop {diode_voltage} each. Which is the first diode of the family that will"
        " do?",
        _margin,
        {kind.name: f"{kind.name}, {kind.reverse_voltage:g} V" for kind in RECTIFIERS},
        lambda q: _first_diode(q),
        {
            kind.name: f"It is rated for {kind.reverse_voltage:g} V. Hold the mains' peak, √2 times {{voltage}},"
            " against {used} of that, and look at the diode before it too."
            for kind in RECTIFIERS
        },
        lambda q: (
            f"With the string open a diode stands {q.diode_reverse_voltage_open:.4g} V. At {q.used:g} % of the rating"
            f" it has to be rated for {100 * q.diode_reverse_voltage_open / q.used:.4g} V or more."
        ),
        (
            "With the string open, how far does the smoothing capacitor charge?",
            "The reverse voltage is the mains' peak, less one drop.",
            "Divide it by {used}, and go up the family.",
        ),
    ),
    Question(
        "smoothing_open_voltage",
        LESSON,
        "The smoothing capacitor, the string open",
        "The mains is {voltage} and may be {rise} higher. The string holds the smoothing capacitor at"
        " {string_voltage}; the diodes drop {diode_voltage} each. What voltage must the capacitor stand if the"
        " string comes off on such a day?",
        _high_mains,
        "V",
        lambda q: q.using("bus_voltage_open", **_risen(q)),
        solution=(
            TheoryStep("peak_voltage"),
            TextStep(lambda q: f"With {q.rise:g} % more it is {_risen(q)['peak_voltage']:.4g} V."),
            TheoryStep("bus_voltage_open", lambda q: _risen(q)),
        ),
        hints=(
            "What holds the capacitor at {string_voltage}, and what happens without it?",
            "Take the peak of the higher mains, and two drops away from it.",
        ),
        slips=(
            Slip(
                "string's voltage",
                lambda q: q.string_voltage,
                "That is so while the string draws current. Without it the capacitor charges to the mains' peak.",
            ),
            Slip(
                "rms for peak",
                lambda q: q.using("bus_voltage_open", peak_voltage=q.voltage * (1 + q.rise / 100)),
                "You took the rms volts; the capacitor charges to the peak.",
            ),
            Slip(
                "mains as stated",
                lambda q: q.bus_voltage_open,
                "You took the mains as it is stated. On a high day it has {rise} more.",
            ),
            Slip(
                "twice the peak",
                lambda q: 2 * q.using("bus_voltage_open", **_risen(q)),
                "A bridge does not double: it charges to the peak once.",
            ),
        ),
        tolerance=_VOLTS,
    ),
    Question(
        "dropper_rms",
        LESSON,
        "Rms across the dropper",
        "On {voltage} a string holds the bridge at {clamped_voltage}. What does a true-rms voltmeter show across the"
        " dropper in normal use?",
        _held,
        "V",
        lambda q: q.dropper_voltage_rms,
        solution=(TheoryStep("peak_voltage"), TheoryStep("dropper_voltage_rms")),
        hints=(
            "Its peak is the mains' peak less {clamped_voltage}, and it stays there while nothing flows.",
            "So its wave is flatter than a sine: the rms is more than the peak over √2.",
        ),
        slips=(
            Slip("peak", lambda q: q.dropper_voltage_peak, "That is the peak across the dropper."),
            Slip(
                "rms of a sine",
                lambda q: q.dropper_voltage_peak / math.sqrt(2),
                "Peak over √2 is for a sine. The dropper holds its peak through each pause, so its rms is more.",
            ),
            Slip(
                "plain difference",
                lambda q: q.voltage - q.clamped_voltage,
                "Rms volts and a square wave do not subtract plainly.",
            ),
            Slip(
                "triangle",
                lambda q: math.sqrt(max(q.voltage**2 - q.clamped_voltage**2, 0.0)),
                "The triangle is for sine waves; a bridge with its string holds a square wave.",
            ),
        ),
    ),
    Question(
        "dropper_peak_short",
        LESSON,
        "The dropper when LEDs go short",
        "On {voltage} a string holds the bridge at {clamped_voltage}. LEDs that took {lost_voltage} together go"
        " short. What is the peak voltage across the dropper now?",
        _groups_short,
        "V",
        lambda q: q.using("dropper_voltage_peak", **_left(q)),
        solution=(
            TextStep(
                lambda q: (
                    f"What is left of the string holds {q.clamped_voltage:g} V − {q.lost_voltage:g} V"
                    f" = {_left(q)['clamped_voltage']:g} V."
                )
            ),
            TheoryStep("peak_voltage"),
            TheoryStep("dropper_voltage_peak", lambda q: _left(q)),
        ),
        hints=(
            "At the crest the mains' peak is shared between dropper and bridge.",
            "What the LEDs no longer take, the dropper takes.",
        ),
        slips=(
            Slip(
                "as before",
                lambda q: q.dropper_voltage_peak,
                "That is the peak with the whole string. The dropper gets what the short LEDs had.",
            ),
            Slip(
                "the wrong way",
                lambda q: q.using("dropper_voltage_peak", clamped_voltage=q.clamped_voltage + q.lost_voltage),
                "Fewer LEDs hold the bridge at less, so the dropper gets more.",
            ),
            Slip(
                "rms for peak",
                lambda q: q.voltage - q.clamped_voltage + q.lost_voltage,
                "You took the rms volts; at the crest the mains is √2 times as high.",
            ),
            Slip(
                "all of the peak",
                lambda q: q.peak_voltage,
                "That would be so with all of them short. It is what the dropper has to be chosen for.",
            ),
        ),
        tolerance=_VOLTS,
    ),
    Question(
        "working_voltage",
        LESSON,
        "Volts of a resistor",
        "A resistor of {resistance} is rated for {rated_power}, and its kind for {limiting_voltage} whatever the ohms."
        " How many volts may stand across it all the time?",
        _a_resistor,
        "V",
        lambda q: q.resistor_working_voltage,
        solution=(TheoryStep("resistor_working_voltage"),),
        hints=(
            "Two limits hold at once, one of heat and one of the body.",
            "At which voltage does it turn {rated_power} to heat? The lesser of that and {limiting_voltage} holds.",
        ),
        slips=(
            Slip(
                "watts alone",
                lambda q: _other(q, math.sqrt(q.rated_power * q.resistance)),
                "At that voltage it would take its rated power. But with so many ohms the kind's own limit of"
                " {limiting_voltage} comes first.",
            ),
            Slip(
                "kind alone",
                lambda q: _other(q, q.limiting_voltage),
                "That is the limit of its kind. With so few ohms the rated power of {rated_power} comes first.",
            ),
            Slip(
                "root forgotten", lambda q: q.rated_power * q.resistance, "Watts times ohms is the square of the volts."
            ),
        ),
    ),
    Question(
        "bleeders_in_series",
        LESSON,
        "How many in series",
        "A bleeder of {bleeder} is to stand across the dropper on {voltage}. The resistors at hand are rated for"
        " {rated_power} and {limiting_voltage} each, and the mains' peak is to be held against that. How many, of equal"
        " ohms, are needed in series?",
        _bleeders,
        "",
        lambda q: _chained(q),
        solution=(
            TheoryStep("peak_voltage"),
            SumStep(
                lambda q: f"{q.peak_voltage:.4g} V / {q.limiting_voltage:g} V, and up to the next whole number",
                "The watts are no matter here, the volts are:",
            ),
        ),
        hints=(
            "The ohms and the watts are soon right with one. What of the volts?",
            "Equal resistors in series share the volts equally. Each may have {limiting_voltage}.",
        ),
        slips=(
            Slip(
                "rms for peak",
                lambda q: _other_count(q, math.ceil(q.voltage / q.limiting_voltage)),
                "You held the rms volts against the limit. Here the peak is to be held against it.",
            ),
            Slip(
                "watts alone",
                lambda q: _other_count(q, 1),
                "One takes the watts with ease. But the mains' peak is more than its {limiting_voltage}.",
            ),
        ),
        tolerance=_WHOLE,
    ),
    Question(
        "inrush_resistor_heat",
        LESSON,
        "Heat of the inrush resistor",
        "A lamp on {voltage}, {frequency} with {dropper} holds its bridge at {clamped_voltage}. How much power does the"
        " {inrush_resistor} in its line turn to heat in normal use? (It hardly changes the current.)",
        lambda chance: bridge_lamp(chance) | {"inrush_resistor": part(chance, 12, 47, 330)},
        "W",
        lambda q: q.inrush_resistor_heat,
        solution=(TheoryStep("peak_voltage"), TheoryStep("line_current_rms"), TheoryStep("inrush_resistor_heat")),
        hints=(
            "Heat follows the square of the current, so the rms line current counts.",
            "Find the rms line current first; it is more than the mean that the LEDs get.",
        ),
        slips=(
            Slip(
                "mean for rms",
                lambda q: q.using("inrush_resistor_heat", line_current_rms=q.mean_string_current),
                "You took the mean current. The LEDs follow the mean, heat follows the rms.",
            ),
            Slip(
                "string forgotten",
                lambda q: q.using("inrush_resistor_heat", line_current_rms=q.short_circuit_current),
                "That is mains over reactance: the string of {clamped_voltage} makes the current less.",
            ),
            Slip(
                "square forgotten",
                lambda q: q.inrush_resistor * q.line_current_rms,
                "Current times resistance is the volts across it; times the current once more is the power.",
            ),
            Slip(
                "peak for rms",
                lambda q: q.using("inrush_resistor_heat", line_current_rms=q.line_current_peak),
                "You took the peak of the current; heat follows the rms.",
            ),
        ),
        tolerance=_WATTS,
    ),
)


def _first_diode(q):
    stress = Stress(voltage=q.diode_reverse_voltage_open)
    return next_up("rectifier diode", stress, Use(voltage=q.used / 100)).name


def _risen(q):
    return {"peak_voltage": q.peak_voltage * (1 + q.rise / 100)}


def _left(q):
    return {"clamped_voltage": q.clamped_voltage - q.lost_voltage}


def _other(q, volts):
    """A limit that is not the one that holds."""
    return math.nan if math.isclose(volts, q.resistor_working_voltage) else volts


def _chained(q):
    stress = Stress(voltage=q.peak_voltage, power=q.using("bleeder_heat", dropper_voltage_rms=q.voltage))
    kind = Resistor("the resistor of the task", "its ratings as given", PRACTICE, q.rated_power, q.limiting_voltage)
    return chain(kind, q.bleeder, stress).count


def _other_count(q, count):
    return math.nan if count == _chained(q) else count
