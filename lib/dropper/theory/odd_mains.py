"""Odd mains: the volts of a sine that a dimmer has cut, the top of a stepped wave, and the heat of its edges."""

from __future__ import annotations

from functools import cache

from sympy import Integral, pi, sin, sqrt

from .engine.assumptions import CAPACITOR_LAW, FIRST_PRINCIPLES, RMS
from .engine.derivation import Derivation, premise, quotation, step
from .engine.justification import Solution, Substitution
from .engine.numeric import Inequality
from .engine.symbols import GLOSSARY, C, D, P_e, V, V_ct, V_p, V_t, W_on, W_up, alpha_c, f, k_t, theta
from .reactance import derive_peak_voltage

v = GLOSSARY["v"].of
_QUICK = "An edge takes no time, and the current of one has died away before the next comes."


@cache
def derive_cut_voltage() -> Derivation:
    """Rms voltage behind a dimmer."""
    left = 1 - alpha_c / pi + sin(2 * alpha_c) / (2 * pi)
    return Derivation(
        name="cut_voltage",
        title="Rms voltage behind a dimmer",
        question="How many volts are left of a sine of which each half period loses an angle?",
        steps=(
            premise("definition", "The mains is a sine.", v(theta), V_p * sin(theta)),
            premise(
                "definition",
                "The square of what is left, from the cut to the end of the half period, and its mean.",
                V_ct**2,
                Integral(v(theta) ** 2, (theta, alpha_c, pi)) / pi,
            ),
            step("Worked out.", V_ct**2, V_p**2 * left / 2, Substitution((2, 1))),
            quotation("Peak and rms value of the whole sine.", derive_peak_voltage()),
            step("Put in.", V_ct**2, V**2 * left, Substitution((3, 4))),
            step("The root. A cut at the end takes as much as one at the start.", V_ct, V * sqrt(left), Solution((5,))),
        ),
        assumptions=("The cut takes no time.",),
        sources=(RMS,),
    )


@cache
def derive_top_voltage() -> Derivation:
    """Top of a stepped wave from its rms value."""
    return Derivation(
        name="top_voltage",
        title="Top of a stepped wave",
        question="How high is the top of a wave of three levels that has the mains' rms value?",
        steps=(
            premise(
                "definition",
                "The square stands at the top for a share of the time, and is nothing for the rest.",
                V**2,
                k_t * V_t**2,
            ),
            step("Solved. With half of the time it is the peak of the sine.", V_t, V / sqrt(k_t), Solution((1,))),
        ),
        assumptions=("The edges take no time.",),
        sources=(RMS,),
    )


@cache
def derive_edge_heat() -> Derivation:
    """Heat of the inrush resistor on a stepped wave."""
    heat = C * f * (2 * V_t**2 - 4 * V_t * D + 4 * D**2)
    return Derivation(
        name="edge_heat",
        title="Heat of the inrush resistor by steep edges",
        question="What do the edges of a stepped wave burn in the resistor in the line?",
        steps=(
            premise(
                "law",
                "At the top the dropper holds V_t - D. Back at zero the bridge takes it to D the same way round: the"
                " change is V_t - 2 D, and a capacitor that changes by a jump leaves half of C times its square.",
                W_up,
                C * (V_t - 2 * D) ** 2 / 2,
            ),
            premise(
                "law",
                "On the way to the other side it goes from D to D - V_t: the change is the whole top.",
                W_on,
                C * V_t**2 / 2,
            ),
            premise("definition", "Both come in each half period.", P_e, 2 * f * (W_up + W_on)),
            step(
                "Put together. No resistance stands in it: a larger R1 burns as much.",
                P_e,
                heat,
                Substitution((3, 1, 2)),
            ),
        ),
        assumptions=(
            _QUICK,
            "The bus hardly moves, and the clamped voltage stays.",
            "The bleeder draws next to nothing.",
        ),
        sources=(CAPACITOR_LAW, FIRST_PRINCIPLES),
        conditions=(Inequality(2 * D, V_t, "V", "back at zero the bridge would not conduct", or_equal=True),),
    )
