"""Conduction: when the bridge conducts within a half cycle, and the currents that follow from it.

The half cycle looked at starts at the negative crest and ends at the positive one; the other is its mirror image.
"""

from __future__ import annotations

from functools import cache

from sympy import Derivative, Expr, Integral, Max, acos, asin, cos, pi, sin, sqrt

from .charge import CLAMP_BELOW_PEAK
from .engine.assumptions import CAPACITOR_LAW, FIRST_PRINCIPLES, IDEAL_LAMP, RMS
from .engine.derivation import Derivation, premise, quotation, step
from .engine.justification import Reasoning, Solution, Substitution
from .engine.symbols import GLOSSARY, C, D, I_mean, I_pk, I_rms, V_p, f, gamma, k_c, theta, theta_1, u_1, v_1

i, v = GLOSSARY["i"].of, GLOSSARY["v"].of
CREST = pi / 2


def line_current_steps() -> tuple:
    """Steps 1 to 3, shared: the line current while the bridge conducts, against the phase angle."""
    return (
        premise(
            "circuit",
            "While the bridge holds its ac side steady, the dropper's voltage changes exactly as the "
            "mains does; a phase angle passes at 2 pi f radians a second.",
            i(theta),
            2 * pi * f * C * Derivative(v(theta), theta),
        ),
        premise("definition", "The mains is a sine of its phase angle.", v(theta), V_p * sin(theta)),
        step(
            "So the current is the same cosine as into a short circuit, only cut short.",
            i(theta),
            2 * pi * f * C * V_p * cos(theta),
            Substitution((1, 2)),
        ),
    )


def angle_steps(first: int) -> tuple:
    """Three steps, shared: the conduction angle, its cosine and its sine, numbered from `first`."""
    cosine = (2 * D - V_p) / V_p
    return (
        quotation("The conduction angle follows from the voltages.", derive_conduction_angle()),
        step("Its cosine.", cos(gamma), cosine, Substitution((first,))),
        step(
            "Its sine, which is never negative from 0 to pi.",
            sin(gamma),
            2 * sqrt(D * (V_p - D)) / V_p,
            Reasoning((first + 1,), lambda new, known: (new.rhs**2 + known.rhs**2 - 1, new.lhs - sin(gamma))),
        ),
    )


def in_voltages(expression: Expr, steps: tuple) -> Expr:
    """An expression in the conduction angle, with what `angle_steps` found put in."""
    angle, cosine, sine = (entry.equation for entry in steps)
    return expression.xreplace({sine.lhs: sine.rhs, cosine.lhs: cosine.rhs}).xreplace({angle.lhs: angle.rhs})


@cache
def derive_conduction_start() -> Derivation:
    """Phase angle at which the bridge begins to conduct."""
    return Derivation(
        name="conduction_start",
        title="Start of conduction",
        question="At what point of the half cycle does current begin to flow?",
        steps=(
            premise(
                "circuit",
                "From the negative crest on nothing flows; the dropper keeps the voltage it had there.",
                u_1,
                -(V_p - D),
            ),
            premise(
                "circuit",
                "Conduction starts when mains less dropper voltage reaches the clamped voltage.",
                v_1 - u_1,
                D,
            ),
            step("The mains voltage at that moment.", v_1, 2 * D - V_p, Solution((2, 1))),
            premise("definition", "The mains is a sine of its phase angle.", v_1, V_p * sin(theta_1)),
            step("The angle, between the two crests.", theta_1, asin((2 * D - V_p) / V_p), Solution((4, 3))),
        ),
        assumptions=IDEAL_LAMP,
        sources=(FIRST_PRINCIPLES,),
        conditions=(CLAMP_BELOW_PEAK,),
    )


@cache
def derive_conduction_angle() -> Derivation:
    """How long the bridge conducts, as an angle."""
    return Derivation(
        name="conduction_angle",
        title="Conduction angle",
        question="For how much of each half cycle does current flow?",
        steps=(
            quotation("Conduction starts here.", derive_conduction_start()),
            premise("circuit", "It ends at the crest, where the mains stops rising.", gamma, CREST - theta_1),
            step(
                "So it lasts for this angle: all of the half cycle for a short circuit, next to none when the "
                "clamped voltage comes near the peak.",
                gamma,
                acos((2 * D - V_p) / V_p),
                Substitution((2, 1)),
            ),
        ),
        assumptions=IDEAL_LAMP,
        sources=(FIRST_PRINCIPLES,),
        conditions=(CLAMP_BELOW_PEAK,),
    )


@cache
def derive_conduction_fraction() -> Derivation:
    """Conduction as a part of the time."""
    return Derivation(
        name="conduction_fraction",
        title="Conduction as part of the time",
        question="For what part of the time does current flow in the line?",
        steps=(
            quotation("In each half cycle current flows for this angle.", derive_conduction_angle()),
            premise("definition", "Half a cycle is pi radians.", k_c, gamma / pi),
            step("Put together.", k_c, acos((2 * D - V_p) / V_p) / pi, Substitution((2, 1))),
        ),
        assumptions=IDEAL_LAMP,
        sources=(FIRST_PRINCIPLES,),
        conditions=(CLAMP_BELOW_PEAK,),
    )


@cache
def derive_mean_string_current_from_angle() -> Derivation:
    """Mean string current the second way: the area under the current."""
    return Derivation(
        name="mean_string_current_from_angle",
        title="Mean current of the string, from the conduction angle",
        question="What current reaches the LEDs, if we see for how long the line conducts?",
        steps=(
            *line_current_steps(),
            premise(
                "definition",
                "The mean of the rectified current over half a cycle of pi radians.",
                I_mean,
                Integral(i(theta), (theta, CREST - gamma, CREST)) / pi,
            ),
            step(
                "The area under the piece of cosine.", I_mean, 2 * f * C * V_p * (1 - cos(gamma)), Substitution((4, 3))
            ),
        ),
        assumptions=IDEAL_LAMP,
        sources=(FIRST_PRINCIPLES,),
    )


@cache
def derive_line_current_rms_from_angle() -> Derivation:
    """Rms line current in terms of the conduction angle."""
    square = 2 * pi * (f * C * V_p) ** 2 * (gamma - sin(gamma) * cos(gamma))
    return Derivation(
        name="line_current_rms_from_angle",
        title="Rms line current, from the conduction angle",
        question="What rms current heats the inrush resistor, if we see for how long the line conducts?",
        steps=(
            *line_current_steps(),
            premise(
                "definition",
                "The square of the rms value is the mean of the square over half a cycle.",
                I_rms**2,
                Integral(i(theta) ** 2, (theta, CREST - gamma, CREST)) / pi,
            ),
            step("The area under the piece of squared cosine.", I_rms**2, square, Substitution((4, 3))),
            step(
                "And its root.",
                I_rms,
                sqrt(2 * pi) * f * C * V_p * sqrt(gamma - sin(gamma) * cos(gamma)),
                Solution((5,)),
            ),
        ),
        assumptions=IDEAL_LAMP,
        sources=(FIRST_PRINCIPLES, CAPACITOR_LAW, RMS),
    )


@cache
def derive_line_current_rms() -> Derivation:
    """Rms line current in closed form."""
    in_angle, angle = derive_line_current_rms_from_angle(), angle_steps(2)
    return Derivation(
        name="line_current_rms",
        title="Rms line current",
        question="What rms current flows in the line, through dropper and inrush resistor?",
        steps=(
            quotation("In terms of the conduction angle.", in_angle),
            *angle,
            step(
                "Put together: always more than the mean current, most of all when conduction is short.",
                I_rms,
                in_voltages(in_angle.result.rhs, angle),
                Substitution((1, 4, 3, 2)),
            ),
        ),
        assumptions=IDEAL_LAMP,
        sources=(FIRST_PRINCIPLES, RMS),
        conditions=(CLAMP_BELOW_PEAK,),
    )


@cache
def derive_line_current_peak() -> Derivation:
    """Peak of the line current in normal use."""
    start = derive_conduction_start()
    return Derivation(
        name="line_current_peak",
        title="Peak line current in normal use",
        question="How high does the line current rise in each half cycle?",
        steps=(
            *line_current_steps(),
            step(
                "Its slope is upward before the mains' rise through zero and downward after it.",
                Derivative(i(theta), theta),
                -2 * pi * f * C * V_p * sin(theta),
                Substitution((3,)),
            ),
            quotation("Conduction starts here.", start),
            premise(
                "definition",
                "So the peak is at the rise through zero, or at the start if that comes later.",
                I_pk,
                i(Max(0, theta_1)),
            ),
            step("Put together.", I_pk, 2 * pi * f * C * V_p * cos(Max(0, start.result.rhs)), Substitution((6, 3, 5))),
        ),
        assumptions=IDEAL_LAMP,
        sources=(FIRST_PRINCIPLES, CAPACITOR_LAW),
        conditions=(CLAMP_BELOW_PEAK,),
    )
