"""Parallel junctions: how two LEDs without resistors share a current."""

from __future__ import annotations

from functools import cache

from sympy import exp, log

from .engine.assumptions import FIRST_PRINCIPLES, FORWARD, SHOCKLEY, SMALL_CHANGE
from .engine.derivation import Derivation, premise, step
from .engine.justification import Reasoning, Solution, Substitution
from .engine.symbols import V_T, Delta_F, Delta_i, I_f, V_f, i_a, i_b, k_a, n, r_F


@cache
def derive_current_share() -> Derivation:
    """Share of the current between two unequal LEDs in parallel."""
    return Derivation(
        name="current_share",
        title="Current sharing of two parallel LEDs",
        question="Two LEDs in parallel differ a little in forward voltage: how do they share the current?",
        steps=(
            premise(
                "circuit",
                "Both have the same voltage; at the same current the first would drop less.",
                V_f + n * V_T * log(i_b / I_f),
                V_f - Delta_F + n * V_T * log(i_a / I_f),
                assumption="no series resistance: the worst case",
            ),
            step("So their currents stand in this ratio.", i_b, i_a * exp(-Delta_F / (n * V_T)), Solution((1,))),
            premise("definition", "Share of the first.", k_a, i_a / (i_a + i_b)),
            step(
                "Put in. A few hundredths of a volt upset it.",
                k_a,
                1 / (1 + exp(-Delta_F / (n * V_T))),
                Substitution((3, 2)),
            ),
        ),
        assumptions=(
            FORWARD,
            "Both LEDs are equally warm. In truth the one that takes more grows warmer and takes more still.",
        ),
        sources=(SHOCKLEY,),
    )


@cache
def derive_current_difference() -> Derivation:
    """Difference of the currents of two parallel LEDs, with resistance."""
    return Derivation(
        name="current_difference",
        title="Current difference of two parallel LEDs with resistance",
        question="How much does a resistance in series with each of two parallel LEDs help them to share?",
        steps=(
            premise(
                "approximation",
                "Both have the same voltage; for small differences each curve is a straight line.",
                V_f + r_F * (i_b - I_f),
                V_f - Delta_F + r_F * (i_a - I_f),
            ),
            premise("definition", "Difference of the currents.", Delta_i, i_a - i_b),
            step(
                "The voltage difference over the dynamic resistance of one LED, its series resistance included.",
                Delta_i,
                Delta_F / r_F,
                Reasoning(
                    (1, 2),
                    lambda new, loop, difference: (
                        loop.rhs - loop.lhs - r_F * (difference.rhs - new.rhs),
                        new.lhs - difference.lhs,
                    ),
                ),
            ),
        ),
        assumptions=(SMALL_CHANGE, FORWARD),
        sources=(FIRST_PRINCIPLES,),
    )
