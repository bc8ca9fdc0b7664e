"""Two points of an LED's curve: its series resistance, or how steep its logarithm is."""

from __future__ import annotations

from functools import cache

from sympy import log

from .engine.assumptions import FORWARD, SHOCKLEY
from .engine.derivation import Derivation, premise, step
from .engine.justification import Solution, Substitution
from .engine.symbols import V_T, I_f, I_s, R_s, V_f, i_F, n, v_F

_COOL = "Both points were taken at one temperature: in short pulses, or so briefly that the LED stays cool."


def _difference_steps() -> tuple:
    """Steps 1 to 3, shared: what lies between two points of one curve."""
    between = n * V_T * log(i_F / I_f) + R_s * (i_F - I_f)
    return (
        premise(
            "approximation",
            "The junction law with series resistance, far above the saturation current, at one point.",
            v_F,
            n * V_T * log(i_F / I_s) + R_s * i_F,
        ),
        premise(
            "definition", "The same at the other, which is the data sheet's.", V_f, n * V_T * log(I_f / I_s) + R_s * I_f
        ),
        step("The difference knows nothing of the saturation current.", v_F - V_f, between, Substitution((1, 2))),
    )


@cache
def derive_series_resistance_of_points() -> Derivation:
    """Series resistance from a second point of the curve."""
    return Derivation(
        name="series_resistance_of_points",
        title="Series resistance from two points",
        question="The data sheet's curve gives a second point; what series resistance do the two tell?",
        steps=(
            *_difference_steps(),
            step(
                "What the logarithm leaves of the difference is the resistance's; less than zero means that the "
                "ideality was taken too high.",
                R_s,
                (v_F - V_f - n * V_T * log(i_F / I_f)) / (i_F - I_f),
                Solution((3,)),
            ),
        ),
        assumptions=(FORWARD, _COOL),
        sources=(SHOCKLEY,),
    )


@cache
def derive_ideality_of_points() -> Derivation:
    """Ideality from a second point of the curve."""
    return Derivation(
        name="ideality_of_points",
        title="Ideality from two points",
        question="Two points of an LED's curve are known, and its series resistance; how steep is its logarithm?",
        steps=(
            *_difference_steps(),
            step(
                "What the resistance leaves of the difference is the logarithm's.",
                n,
                (v_F - V_f - R_s * (i_F - I_f)) / (V_T * log(i_F / I_f)),
                Solution((3,)),
            ),
        ),
        assumptions=(FORWARD, _COOL),
        sources=(SHOCKLEY,),
    )
