"""Power at an instant: what capacitor and resistor of a series circuit take through the cycle."""

from __future__ import annotations

from functools import cache

from sympy import cos, sin

from .engine.assumptions import CAPACITOR_LAW, LOSSLESS, OHMS_LAW, PURE_LOAD, SINE
from .engine.derivation import Derivation, premise, step
from .engine.justification import Substitution
from .engine.symbols import GLOSSARY, R_L, X_C, I_rms, theta
from .series import current_step, dropper_voltage_steps

i, u, v_L, p_C, p_R = (GLOSSARY[name].of for name in ("i", "u", "v_L", "p_C", "p_R"))


@cache
def derive_capacitor_power_at() -> Derivation:
    """Power of the dropper at one instant."""
    return Derivation(
        name="capacitor_power_at",
        title="Power of the dropper at one instant",
        question="When does the dropper take power, and when does it give it back?",
        steps=(
            *dropper_voltage_steps(),
            premise(
                "definition", "Power is voltage times current at the same instant.", p_C(theta), u(theta) * i(theta)
            ),
            step(
                "It swings at twice the frequency, as far below zero as above.",
                p_C(theta),
                -X_C * I_rms**2 * sin(2 * theta),
                Substitution((4, 3, 1)),
            ),
        ),
        assumptions=(SINE, LOSSLESS),
        sources=(CAPACITOR_LAW,),
    )


@cache
def derive_resistor_power_at() -> Derivation:
    """Power of a resistor at one instant."""
    return Derivation(
        name="resistor_power_at",
        title="Power of a resistor at one instant",
        question="Does a resistor ever give power back?",
        steps=(
            current_step(),
            premise(
                "law",
                "The load's voltage is its resistance times the current, in step with it.",
                v_L(theta),
                R_L * i(theta),
            ),
            premise(
                "definition", "Power is voltage times current at the same instant.", p_R(theta), v_L(theta) * i(theta)
            ),
            step(
                "It swings at twice the frequency too, but from nothing upwards: never below zero.",
                p_R(theta),
                R_L * I_rms**2 * (1 - cos(2 * theta)),
                Substitution((3, 2, 1)),
            ),
        ),
        assumptions=(SINE, PURE_LOAD),
        sources=(OHMS_LAW,),
    )
