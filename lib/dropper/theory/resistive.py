"""Resistive dropper: a resistor in place of the capacitor, the current it lets through, and its heat.

The bridge conducts while the mains is above the clamped voltage, in the middle of each half cycle.
"""

from __future__ import annotations

from functools import cache

from sympy import Integral, S, acos, asin, cos, pi, sin, sqrt

from .charge import CLAMP_BELOW_PEAK
from .engine.assumptions import CLAMP, FIRST_PRINCIPLES, OHMS_LAW, RESISTOR_ALONE, SINE
from .engine.derivation import Derivation, premise, quotation, step
from .engine.justification import Solution, Substitution
from .engine.numeric import Inequality
from .engine.symbols import GLOSSARY, P_R, D, I_mean, R_d, V_p, theta, theta_1

i, v = GLOSSARY["i"].of, GLOSSARY["v"].of
_RESISTOR_LAMP = (SINE, CLAMP, RESISTOR_ALONE)
_LIT = Inequality(S.Zero, I_mean, "A", "no resistor is so large that it lets no current through")
_HALF_AREA = sqrt(V_p**2 - D**2) - D * acos(D / V_p)  # half the area under the mains above the clamped voltage


def _fed_steps() -> tuple:
    """Steps 1 to 5, shared: the current while the bridge conducts, and when that begins."""
    return (
        premise(
            "law",
            "While the bridge conducts, the resistor has what the bridge leaves of the mains.",
            i(theta),
            (v(theta) - D) / R_d,
        ),
        premise("definition", "The mains is a sine of its phase angle.", v(theta), V_p * sin(theta)),
        premise(
            "circuit",
            "Conduction starts where the mains has risen to the clamped voltage, and ends where it has "
            "fallen to it, as far before the end of the half cycle.",
            V_p * sin(theta_1),
            D,
        ),
        step("The angle of the start.", theta_1, asin(D / V_p), Solution((3,))),
        step("Its cosine.", cos(theta_1), sqrt(V_p**2 - D**2) / V_p, Substitution((4,))),
    )


@cache
def derive_resistor_fed_current() -> Derivation:
    """Mean string current behind a resistor."""
    return Derivation(
        name="resistor_fed_current",
        title="Mean current of a string behind a resistor",
        question="How much current reaches the LEDs if a plain resistor stands in place of the dropper?",
        steps=(
            *_fed_steps(),
            premise(
                "definition",
                "The mean of the rectified current over half a cycle of pi radians.",
                I_mean,
                Integral(i(theta), (theta, theta_1, pi - theta_1)) / pi,
            ),
            step(
                "The area between the mains and the clamped voltage.",
                I_mean,
                2 * (V_p * cos(theta_1) - D * (pi / 2 - theta_1)) / (pi * R_d),
                Substitution((6, 1, 2)),
            ),
            step(
                "Put together. It is no straight line: near the mains' peak there is little left, and not for long.",
                I_mean,
                2 * _HALF_AREA / (pi * R_d),
                Substitution((7, 5, 4)),
            ),
        ),
        assumptions=_RESISTOR_LAMP,
        sources=(FIRST_PRINCIPLES, OHMS_LAW),
        conditions=(CLAMP_BELOW_PEAK,),
    )


@cache
def derive_dropping_resistor_for_current() -> Derivation:
    """The resistor that a wanted current needs."""
    return Derivation(
        name="dropping_resistor_for_current",
        title="Resistor for a wanted current",
        question="How large must a resistor be that gives the string the same current as a dropper?",
        steps=(
            quotation("The current is known from the parts.", derive_resistor_fed_current()),
            step("Solved for the resistor.", R_d, 2 * _HALF_AREA / (pi * I_mean), Solution((1,))),
        ),
        assumptions=_RESISTOR_LAMP,
        sources=(FIRST_PRINCIPLES, OHMS_LAW),
        conditions=(CLAMP_BELOW_PEAK, _LIT),
    )


@cache
def derive_dropping_resistor_heat() -> Derivation:
    """Heat of a resistor in place of the dropper."""
    angle = pi / 2 - theta_1
    square = (V_p**2 + 2 * D**2) * acos(D / V_p) - 3 * D * sqrt(V_p**2 - D**2)
    return Derivation(
        name="dropping_resistor_heat",
        title="Heat of a resistor in place of the dropper",
        question="How many watts does a resistor burn to give the string a wanted current?",
        steps=(
            *_fed_steps(),
            premise(
                "law",
                "It turns current squared times resistance to heat; the mean over half a cycle.",
                P_R,
                Integral(R_d * i(theta) ** 2, (theta, theta_1, pi - theta_1)) / pi,
            ),
            step(
                "Worked out.",
                P_R,
                (V_p**2 * (angle + sin(theta_1) * cos(theta_1)) - 4 * V_p * D * cos(theta_1) + 2 * D**2 * angle)
                / (pi * R_d),
                Substitution((6, 1, 2)),
            ),
            step(
                "Put in the angle, its cosine, and its sine, which is the clamped voltage over the peak.",
                P_R,
                square / (pi * R_d),
                Substitution((7, 5, 4)),
            ),
            quotation("The resistor for the wanted current.", derive_dropping_resistor_for_current()),
            step(
                "Put together: the heat goes with the current, and depends on the voltages besides.",
                P_R,
                I_mean * square / (2 * _HALF_AREA),
                Substitution((8, 9)),
            ),
        ),
        assumptions=_RESISTOR_LAMP,
        sources=(FIRST_PRINCIPLES, OHMS_LAW),
        conditions=(CLAMP_BELOW_PEAK,),
    )
