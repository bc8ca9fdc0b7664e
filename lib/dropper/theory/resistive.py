"""A plain resistor in place of the dropper: the current that it lets through, and the heat that it makes.

The bridge conducts while the mains is above the clamped voltage, in the middle of each half cycle.
"""

from __future__ import annotations

from functools import cache

from sympy import Integral, S, acos, asin, cos, pi, sin, sqrt

from .charge import REACHED
from .engine.assumptions import CLAMP, FIRST_PRINCIPLES, OHMS_LAW, RESISTOR_ALONE, SINE
from .engine.derivation import Derivation, given, quoted, step
from .engine.justification import Solved, Substituted
from .engine.numeric import Below
from .engine.symbols import GLOSSARY, P_R, D, I_mean, R_d, V_p, theta, theta_1

i, v = GLOSSARY["i"].of, GLOSSARY["v"].of
_FED = (SINE, CLAMP, RESISTOR_ALONE)
_LIT = Below(S.Zero, I_mean, "A", "no resistor is so large that it lets no current through")
_TAKEN = sqrt(V_p**2 - D**2) - D * acos(D / V_p)  # half the area under the mains above the clamped voltage


def _fed_steps() -> tuple:
    """Steps 1 to 5, shared: the current while the bridge conducts, and when that begins."""
    return (
        given(
            "law",
            "While the bridge conducts, the resistor has what the bridge leaves of the mains.",
            i(theta),
            (v(theta) - D) / R_d,
        ),
        given("definition", "The mains is a sine of its phase angle.", v(theta), V_p * sin(theta)),
        given(
            "circuit",
            "Conduction starts where the mains has risen to the clamped voltage, and ends where it has "
            "fallen to it, as far before the end of the half cycle.",
            V_p * sin(theta_1),
            D,
        ),
        step("The angle of the start.", theta_1, asin(D / V_p), Solved((3,))),
        step("Its cosine.", cos(theta_1), sqrt(V_p**2 - D**2) / V_p, Substituted((4,))),
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
            given(
                "definition",
                "The mean of the rectified current over half a cycle of pi radians.",
                I_mean,
                Integral(i(theta), (theta, theta_1, pi - theta_1)) / pi,
            ),
            step(
                "The area between the mains and the clamped voltage.",
                I_mean,
                2 * (V_p * cos(theta_1) - D * (pi / 2 - theta_1)) / (pi * R_d),
                Substituted((6, 1, 2)),
            ),
            step(
                "Put together. It is no straight line: near the mains' peak there is little left, and not for long.",
                I_mean,
                2 * _TAKEN / (pi * R_d),
                Substituted((7, 5, 4)),
            ),
        ),
        assumptions=_FED,
        sources=(FIRST_PRINCIPLES, OHMS_LAW),
        requires=(REACHED,),
    )


@cache
def derive_dropping_resistor_for_current() -> Derivation:
    """The resistor that a wanted current needs."""
    return Derivation(
        name="dropping_resistor_for_current",
        title="Resistor for a wanted current",
        question="How large must a resistor be that gives the string the same current as a dropper?",
        steps=(
            quoted("The current is known from the parts.", derive_resistor_fed_current()),
            step("Solved for the resistor.", R_d, 2 * _TAKEN / (pi * I_mean), Solved((1,))),
        ),
        assumptions=_FED,
        sources=(FIRST_PRINCIPLES, OHMS_LAW),
        requires=(REACHED, _LIT),
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
            given(
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
                Substituted((6, 1, 2)),
            ),
            step(
                "Put in the angle, its cosine, and its sine, which is the clamped voltage over the peak.",
                P_R,
                square / (pi * R_d),
                Substituted((7, 5, 4)),
            ),
            quoted("The resistor for the wanted current.", derive_dropping_resistor_for_current()),
            step(
                "Put together: the heat goes with the current, and depends on the voltages besides.",
                P_R,
                I_mean * square / (2 * _TAKEN),
                Substituted((8, 9)),
            ),
        ),
        assumptions=_FED,
        sources=(FIRST_PRINCIPLES, OHMS_LAW),
        requires=(REACHED,),
    )
