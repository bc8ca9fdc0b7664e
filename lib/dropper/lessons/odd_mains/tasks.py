"""Tasks of lesson 14: steps, dimmers, meters that are right for a sine only, and a lamp that is off and glows."""

import math

from ...circuit.values import show
from ..tasks.question import Choice, Question, Slip, Tolerance
from ..tasks.random_values import step_value
from ..tasks.solution import SumStep, TextStep, TheoryStep

LESSON = 14


def _stepped(chance):
    return {"resistor_heat": step_value(chance, 0.08, 0.3, 0.02), "times_current": step_value(chance, 2.2, 4.6, 0.2)}


def _top(chance):
    return {"voltage": chance.choice((115.0, 120.0, 220.0, 230.0)), "dwell": step_value(chance, 0.35, 0.7, 0.05)}


def _cut(chance):
    return {"voltage": chance.choice((115.0, 120.0, 220.0, 230.0)), "cut_off": chance.choice((45.0, 60.0, 90.0, 120.0))}


def _radians(q):
    return {"voltage": q.voltage, "cut_angle": math.radians(q.cut_off)}


def _edges(chance):
    return {
        "dropper": chance.choice((220e-9, 330e-9, 470e-9, 680e-9)),
        "frequency": chance.choice((50.0, 60.0)),
        "top_voltage": chance.choice((310.0, 325.0, 340.0)),
        "clamped_voltage": chance.choice((50.0, 70.0, 90.0)),
    }


def _off(chance):
    return {
        "switch_capacitor": chance.choice((22e-9, 33e-9, 47e-9, 68e-9, 100e-9)),
        "dropper": chance.choice((220e-9, 330e-9, 470e-9, 680e-9)),
        "frequency": chance.choice((50.0, 60.0)),
        "peak_voltage": 325.0,
        "clamped_voltage": chance.choice((50.0, 60.0, 80.0)),
    }


def _in_series(q):
    return q.switch_capacitor * q.dropper / (q.switch_capacitor + q.dropper)


def _passed(q):
    return q.using("mean_string_current", dropper=_in_series(q))


def _dimmer(chance):
    return {"cut_off": chance.choice((*range(30, 80, 5), *range(125, 160, 5))) * 1.0}


TASKS = (
    Question(
        "stepped_heat",
        LESSON,
        "On a stepped wave",
        "On a sine the inrush resistor of a lamp turns {resistor_heat} to heat. On an inverter's stepped wave its light"
        " is the same, and its rms line current is {times_current} times as large. How much heat is it there?",
        _stepped,
        "W",
        lambda q: q.resistor_heat * q.times_current**2,
        solution=(
            SumStep(
                lambda q: f"{q.times_current:g}² × {q.resistor_heat:g} W",
                "Power in a resistor goes with the square of the rms current:",
            ),
        ),
        hints=("P = I²R, and R stays.", "Twice the rms current makes four times the heat."),
        slips=(
            Slip(
                "as the light",
                lambda q: q.resistor_heat,
                "You let the heat stay as the light does. The light follows the charge, the heat the rms line current.",
            ),
            Slip(
                "in proportion",
                lambda q: q.resistor_heat * q.times_current,
                "The heat goes with the square of the current.",
            ),
        ),
    ),
    Choice(
        "lamp_on_dimmer",
        LESSON,
        "Why 'not dimmable'",
        "A dropper lamp hangs on a dimmer for filament lamps. It cuts {cut_off} off the start of each half period. What"
        " happens?",
        _dimmer,
        {
            "dims": "it gets clearly dimmer, and R1 hot",
            "hot": "the light stays about the same, and R1 gets hot",
            "cool": "it gets dimmer, and R1 cooler, like a filament lamp",
        },
        lambda q: "hot" if q.cut_off < 90 else "dims",
        {
            "dims": "The crest at 90° is left. The light follows how far the voltage swings, so it stays.",
            "hot": "The crest at 90° is cut away. What is left of the swing turns the dropper over by less.",
            "cool": "A filament follows the rms volts. Here the voltage jumps where the dimmer switches on, and pulses"
            " of amperes go through R1.",
        },
        lambda q: (
            f"A cut of {q.cut_off:g}°, and the crest of the sine is at 90°. Before it, the swing is left whole and the"
            " light with it; past it, both fall. Either way the voltage jumps where the dimmer switches on: pulses of"
            " amperes go through R1, and its heat goes with their square."
        ),
        ("Is the crest of the sine left, at 90°? The cut takes {cut_off}.", "How fast does the voltage rise there?"),
    ),
    Question(
        "edge_heat",
        LESSON,
        "What the edges burn",
        "An inverter of {frequency} makes three levels with a top of {top_voltage} and steep edges. A lamp has a"
        " dropper of {dropper}, and its bridge is held at {clamped_voltage}. How much heat do the edges make in R1?",
        _edges,
        "W",
        lambda q: q.edge_heat,
        solution=(TheoryStep("edge_heat"),),
        hints=(
            "Each jump U of a capacitor leaves C·U²/2 in the resistor, whatever its ohms.",
            "In each half period the dropper jumps by the top less twice the clamp, and by the whole top.",
        ),
        slips=(
            Slip(
                "one half only",
                lambda q: q.edge_heat / 2,
                "That is for half of the edges. A period has two half periods.",
            ),
            Slip(
                "whole tops",
                lambda q: 2 * q.frequency * q.dropper * q.top_voltage**2,
                "Going back to zero the bridge holds its own voltage at both ends: that jump is smaller.",
            ),
        ),
        tolerance=Tolerance("3 % is allowed.", relative=0.03),
    ),
    Question(
        "stepped_top",
        LESSON,
        "The top of a stepped wave",
        "An inverter's label says {voltage}. A scope shows three levels, and the top lasts {dwell} of each half period."
        " How high is the top?",
        _top,
        "V",
        lambda q: q.top_voltage,
        solution=(TheoryStep("top_voltage"),),
        hints=("Rms: the mean of the square, and its root.", "The square is there for that share of the time."),
        slips=(
            Slip(
                "a sine's peak",
                lambda q: math.sqrt(2) * q.voltage,
                "√2 belongs to a sine. Here the top follows from how long it lasts.",
            ),
            Slip("mean for rms", lambda q: q.voltage / q.dwell, "You took the mean. The rms value has a root."),
        ),
    ),
    Question(
        "cut_volts",
        LESSON,
        "Behind a dimmer",
        "A dimmer on {voltage} cuts {cut_off} off each half period. What does a true-rms voltmeter show behind it?",
        _cut,
        "V",
        lambda q: q.using("cut_voltage", **_radians(q)),
        solution=(
            TextStep(lambda q: f"{q.cut_off:g}° are {math.radians(q.cut_off):.4g} rad"),
            TheoryStep("cut_voltage", _radians),
        ),
        hints=("The heat in a heater would be the mean of the square.", "Cut off 90° and half of the power is gone."),
        slips=(
            Slip(
                "in proportion",
                lambda q: q.voltage * (1 - q.cut_off / 180),
                "The volts are not in proportion to the angle: the ends of a half period have few of them.",
            ),
            Slip(
                "no root",
                lambda q: q.using("cut_voltage", **_radians(q)) ** 2 / q.voltage,
                "That share is of the power. The volts go with its root.",
            ),
        ),
    ),
    Question(
        "off_and_alight",
        LESSON,
        "Off, and yet alight",
        "An electronic switch is off, but a capacitor of {switch_capacitor} stands across it. The lamp behind it has a"
        " dropper of {dropper}, and no bleeder. The mains of {frequency} has a peak of {peak_voltage}, and the string"
        " clamps the bridge at {clamped_voltage}. What is the mean current of the string?",
        _off,
        "A",
        _passed,
        solution=(
            TextStep(
                lambda q: (
                    f"{show(q.switch_capacitor, 'F')} and {show(q.dropper, 'F')} in series: C1·C2/(C1 + C2) ="
                    f" {show(_in_series(q), 'F')}"
                )
            ),
            SumStep(
                lambda q: (
                    f"4 × {q.frequency:g} Hz × {show(_in_series(q), 'F')} × ({q.peak_voltage:g} V −"
                    f" {q.clamped_voltage:g} V)"
                ),
                "Both are the dropper together:",
            ),
        ),
        hints=(
            "The open switch is a capacitor in series with the lamp.",
            "4 f C (Vp − D), with C1·C2/(C1 + C2) for C.",
        ),
        slips=(
            Slip("no circuit", lambda q: 0.0, "A capacitor passes alternating current, however open the switch is."),
            Slip(
                "switch alone",
                lambda q: _passed(q) * q.switch_capacitor / _in_series(q),
                "The lamp's own dropper stands in series with it, and makes it less.",
            ),
            Slip(
                "half of it",
                lambda q: _passed(q) / 2,
                "The dropper is turned over twice in a period: both halves light the string.",
            ),
        ),
        tolerance=Tolerance("3 % is allowed.", relative=0.03),
    ),
)
