"""Tasks of lesson 6, first part: the moment of plugging in."""

import math

from ..tasks.lamps import lamp_of
from ..tasks.question import Choice, Question, Slip, Tolerance
from ..tasks.random_values import bridge_lamp, mains, part
from ..tasks.solution import TextStep, TheoryStep

LESSON = 6
_ANGLE = Tolerance("3 % is allowed: near zero the mains moves by as much in a degree.", relative=0.03)
_MOMENTS = ("moment", "other_moment", "third_moment")
# Degrees where the mains is near zero, about half way up, and near a crest.
_LOW, _MIDDLE, _HIGH = (0, 5, 175, 180, 185, 355), (30, 35, 145, 150, 210, 215, 325, 330), (80, 85, 95, 100, 260, 280)


def _plugged(chance):
    return mains(chance) | {"dropper": part(chance, 6, 150e-9, 1.5e-6), "inrush_resistor": part(chance, 6, 68, 680)}


def _at_an_angle(chance):
    moment = chance.choice((15, 20, 25, 30, 35, 40, 45, 50, 125, 130, 135, 140, 145, 150))
    return _plugged(chance) | {"moment": float(moment)}


def _changed_resistor(chance):
    values = _plugged(chance) | {"inrush_resistor": part(chance, 6, 47, 150)}
    return values | {"larger_resistor": float(f"{values['inrush_resistor'] * chance.choice((3, 4, 5, 10)):.2g}")}


def _limited(chance):
    return mains(chance) | {"greatest_current": chance.choice((1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 8.0, 10.0, 15.0))}


def _three_moments(chance):
    moments = [chance.choice(angles) for angles in (_LOW, _MIDDLE, _HIGH)]
    chance.shuffle(moments)
    return {
        "voltage": 230.0,
        "frequency": 50.0,
        "dropper": part(chance, 6, 220e-9, 1e-6),
        "in_series": chance.randint(18, 40),
        "inrush_resistor": part(chance, 6, 100, 470),
        **dict(zip(_MOMENTS, map(float, moments), strict=True)),
    }


TASKS = (
    Question(
        "inrush_peak",
        LESSON,
        "The first rush",
        "A lamp with a dropper of {dropper} and {inrush_resistor} in the line is plugged in on {voltage}, {frequency},"
        " at the worst moment. Both of its capacitors are empty. How large is the peak of the current at most, on a"
        " mains without inductance?",
        _plugged,
        "A",
        lambda q: q.inrush_peak,
        solution=(TheoryStep("peak_voltage"), TheoryStep("inrush_peak")),
        hints=(
            "An empty capacitor takes no volts in the first instant, whatever its capacitance.",
            "At worst the contact is made at a crest. All of that stands across the resistor.",
        ),
        slips=(
            Slip(
                "rms for peak",
                lambda q: q.using("inrush_peak", step_voltage=q.voltage),
                "You took the rms volts. At worst the contact is made at a crest, √2 times as high.",
            ),
            Slip(
                "V over Xc",
                lambda q: q.crest_current,
                "The reactance is for a sine that goes on and on. In the first instant only the resistor limits.",
            ),
            Slip(
                "charged from before",
                lambda q: q.using("inrush_peak", step_voltage=q.replug_step),
                "That is the peak with a dropper still charged the wrong way round; here it is empty.",
            ),
        ),
    ),
    Question(
        "inrush_at_angle",
        LESSON,
        "Plugged in at some moment",
        "A lamp with {inrush_resistor} in the line is plugged in on {voltage}, {moment} after the mains' rise through"
        " zero, its capacitors empty. How large is the first peak of the current at most, on a mains without"
        " inductance?",
        _at_an_angle,
        "A",
        lambda q: q.using("inrush_peak", step_voltage=_step(q)),
        solution=(
            TextStep(lambda q: f"In radians {q.moment:g}° is {math.radians(q.moment):.4g}."),
            TheoryStep("mains_voltage_at", lambda q: {"phase": math.radians(q.moment)}),
            TheoryStep("inrush_peak", lambda q: {"step_voltage": _step(q)}),
        ),
        hints=("The step is what the mains has just then.", "The mains is a sine; its peak is √2 times {voltage}."),
        slips=(
            Slip(
                "worst moment",
                lambda q: q.inrush_peak,
                "That would be at a crest. {moment} after the rise through zero the mains is lower.",
            ),
            Slip(
                "rms for peak",
                lambda q: q.using("inrush_peak", step_voltage=_step(q) * q.voltage / q.peak_voltage),
                "The sine of {moment} is a share of the peak, not of the rms volts.",
            ),
            Slip(
                "rms volts whatever the moment",
                lambda q: q.using("inrush_peak", step_voltage=q.voltage),
                "You took the rms volts. What counts is the mains at that moment.",
            ),
            Slip(
                "cosine",
                lambda q: abs(q.using("inrush_peak", step_voltage=_cosine(q))),
                "From the rise through zero on, the mains is a sine; you took the cosine.",
            ),
        ),
        tolerance=_ANGLE,
    ),
    Question(
        "replug",
        LESSON,
        "Plugged in again",
        "A loose plug: the contact breaks at a crest and is made again at the next one, before the bleeder has done"
        " anything. The lamp has {dropper} and {inrush_resistor} in the line, on {voltage}, {frequency}. How large is"
        " the peak of the current at worst, the volts of the string and the mains' inductance neglected?",
        _plugged,
        "A",
        lambda q: q.using("inrush_peak", step_voltage=q.replug_step),
        solution=(
            TheoryStep("peak_voltage"),
            TheoryStep("replug_step"),
            TheoryStep("inrush_peak", lambda q: {"step_voltage": q.replug_step}),
        ),
        hints=(
            "At the next crest the mains stands the other way round; how does the dropper stand?",
            "Mains and dropper now act together: the step is twice the mains' peak.",
        ),
        slips=(
            Slip(
                "empty dropper",
                lambda q: q.inrush_peak,
                "That is so with an empty dropper. It still holds the crest before, and adds to the mains.",
            ),
            Slip(
                "rms for peak",
                lambda q: q.using("inrush_peak", step_voltage=2 * q.voltage),
                "You took the rms volts; the dropper has kept a crest, and the mains is at one.",
            ),
            Slip(
                "four times",
                lambda q: 4 * q.inrush_peak,
                "Four times is what the energy becomes. The current follows the volts: twice.",
            ),
            Slip(
                "V over Xc",
                lambda q: q.crest_current,
                "The reactance is for a sine that goes on and on; here only the resistor limits.",
            ),
        ),
    ),
    Question(
        "inrush_energy",
        LESSON,
        "A larger resistor, and its heat",
        "A lamp with a dropper of {dropper} on {voltage} has {inrush_resistor} in the line. It is changed for"
        " {larger_resistor}. How much energy does the new resistor turn to heat in one rush at the worst moment, the"
        " capacitors empty?",
        _changed_resistor,
        "J",
        lambda q: q.using("inrush_energy", inrush_resistor=q.larger_resistor),
        solution=(
            TheoryStep("peak_voltage"),
            TheoryStep("inrush_energy", lambda q: {"inrush_resistor": q.larger_resistor}),
        ),
        hints=(
            "A larger resistor gets less current, and gets it for longer.",
            "The charge that has to pass is the same: the dropper's, at the mains' peak. Half of what the mains"
            " gives stays in the dropper.",
        ),
        slips=(
            Slip(
                "less in proportion",
                lambda q: q.inrush_energy * q.inrush_resistor / q.larger_resistor,
                "You let the larger resistor get less. The peak is lower, but the rush lasts longer in proportion: the"
                " resistance cancels.",
            ),
            Slip(
                "more in proportion",
                lambda q: q.inrush_energy * q.larger_resistor / q.inrush_resistor,
                "You let the larger resistor get more, as with an unchanged current. The current falls with it: the"
                " resistance cancels.",
            ),
            Slip(
                "half forgotten",
                lambda q: 2 * q.inrush_energy,
                "That is all that the mains gives, capacitance times volts squared. Half of it stays in the dropper.",
            ),
            Slip(
                "rms for peak",
                lambda q: q.using("inrush_energy", step_voltage=q.voltage),
                "You took the rms volts; squared, the peak counts twice as much.",
            ),
            Slip(
                "charged from before",
                lambda q: q.using("inrush_energy", step_voltage=q.replug_step),
                "That is the energy with a dropper charged the wrong way round: four times. Here it is empty.",
            ),
        ),
        last_hint="½ × {dropper} × (√2 × {voltage})². The resistance is not in it.",
    ),
    Question(
        "rush_power",
        LESSON,
        "What the resistor must stand",
        "A lamp on {voltage}, {frequency} with {dropper} holds its bridge at {clamped_voltage}. How much power does the"
        " {inrush_resistor} in its line take in the first instant, when the lamp is plugged in empty at the worst"
        " moment?",
        lambda chance: bridge_lamp(chance) | {"inrush_resistor": part(chance, 6, 100, 680)},
        "W",
        lambda q: q.using("inrush_resistor_heat", line_current_rms=q.inrush_peak),
        solution=(
            TheoryStep("peak_voltage"),
            TheoryStep("inrush_peak"),
            TheoryStep("inrush_resistor_heat", lambda q: {"line_current_rms": q.inrush_peak}),
        ),
        hints=(
            "An empty dropper takes no volts. What stands across the resistor at a crest?",
            "All of the mains' peak, √2 times {voltage}. The current is that over the resistance.",
        ),
        slips=(
            Slip(
                "I²R in use",
                lambda q: q.inrush_resistor_heat,
                "That is what it turns to heat in normal use. The rush is thousands of times as much for an instant: it"
                " decides which resistor will do.",
            ),
            Slip(
                "rms for peak",
                lambda q: q.voltage**2 / q.inrush_resistor,
                "You took the rms volts. At the worst moment there is the peak, and its square counts twice.",
            ),
            Slip(
                "charged from before",
                lambda q: q.using("inrush_resistor_heat", line_current_rms=2 * q.inrush_peak),
                "That is so with a dropper charged the wrong way round: four times. Here it is empty.",
            ),
        ),
        tolerance=Tolerance("4 % is allowed: a current that is 2 % off makes a power that is 4 % off.", relative=0.04),
    ),
    Question(
        "surge_resistor",
        LESSON,
        "A resistor for a limit",
        "The diodes of a lamp on {voltage} are to see no more than {greatest_current} when it is plugged in, empty, at"
        " the worst moment. What is the least resistance in the line?",
        _limited,
        "Ω",
        lambda q: q.surge_resistor,
        solution=(TheoryStep("peak_voltage"), TheoryStep("surge_resistor")),
        hints=("In the first instant the dropper takes no volts.", "At worst the mains stands at its peak."),
        slips=(
            Slip(
                "rms for peak",
                lambda q: q.using("surge_resistor", peak_voltage=q.voltage),
                "You took the rms volts, and so allow √2 times the current. At worst it is at a crest.",
            ),
            Slip(
                "charged from before",
                lambda q: q.using("surge_resistor", peak_voltage=q.replug_step),
                "That holds the limit with a charged dropper too, which is wise; but here it is empty.",
            ),
            Slip(
                "peak to peak",
                lambda q: q.using("surge_resistor", peak_voltage=q.voltage / 2),
                "You halved the volts. All of them stand across the resistor.",
            ),
        ),
    ),
    Choice(
        "worst_moment",
        LESSON,
        "Which moment is worst",
        "{in_series} LEDs of 3 V each in series behind a bridge, {dropper} and {inrush_resistor}, on {voltage},"
        " {frequency}. At which of three moments after the mains' rise through zero does plugging in draw the"
        " highest peak, the capacitors empty?",
        _three_moments,
        {"moment": "at {moment}", "other_moment": "at {other_moment}", "third_moment": "at {third_moment}"},
        lambda q: max(_MOMENTS, key=lambda name: _peak(q, q.values[name])),
        {
            name: "Compare the sine of {" + name + "} with that of the other two: an empty dropper takes no volts, so"
            " the resistor gets what the mains has just then, either way round."
            for name in _MOMENTS
        },
        lambda q: (
            "The solver finds a first peak of "
            + ", ".join(f"{_peak(q, q.values[name]):.3g} A at {q.values[name]:g}°" for name in _MOMENTS)
            + "."
        ),
        (
            "What does an empty dropper do in the first instant?",
            "The resistor gets what the mains has at that moment. Which way round does not matter.",
            "At 90° and at 270° the mains is at a crest.",
        ),
    ),
)


def _step(q):
    return q.using("mains_voltage_at", phase=math.radians(q.moment))


def _cosine(q):
    return q.using("mains_voltage_at", phase=math.radians(q.moment + 90))


def _peak(q, angle):
    """Amperes, in the first half cycle after plugging in."""
    from ...solver.transient import plug_in

    return plug_in(lamp_of(q), angle, periods=0.5).line_current_peak
