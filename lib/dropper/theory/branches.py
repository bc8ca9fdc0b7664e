"""Branches: how LED strings in parallel share the current."""

from __future__ import annotations

from functools import cache

from sympy import S, sqrt

from .engine.assumptions import FIRST_PRINCIPLES, FORWARD, LED_WARMTH, SAME_LEDS, SMALL_CHANGE, THERMAL_LAW
from .engine.derivation import Derivation, premise, step
from .engine.justification import Reasoning, Solution
from .engine.numeric import Inequality
from .engine.symbols import (
    Delta_F,
    Delta_i,
    Delta_T,
    I_mean,
    M,
    M_o,
    N,
    N_j,
    R_br,
    R_th,
    V_f,
    delta_i,
    delta_v,
    i_F,
    k_V,
    r_b,
    r_F,
    s_i,
    sigma_b,
    sigma_d,
    sigma_F,
    x_s,
)

_STEADY_CURRENT = "The dropper holds the string's current: the others hardly change the voltage of the whole."


@cache
def derive_shared_current() -> Derivation:
    """Current of each of several parallel LEDs, some of them open."""
    return Derivation(
        name="shared_current",
        title="Share of each of several parallel LEDs",
        question="LEDs stand side by side, and some of them are open: what does each of the others carry?",
        steps=(
            premise(
                "circuit",
                "Those that are left carry the string's current together.",
                (M - M_o) * i_F,
                I_mean,
                assumption="all alike, so that they share equally",
            ),
            step("Solved for the share of one.", i_F, I_mean / (M - M_o), Solution((1,))),
        ),
        assumptions=(SAME_LEDS, _STEADY_CURRENT),
        sources=(FIRST_PRINCIPLES,),
        conditions=(Inequality(M_o, M, "", "one LED at least must be left to carry the current"),),
    )


@cache
def derive_branch_resistance() -> Derivation:
    """Slope of one of several parallel branches, once warm."""
    slope = N * (r_F + N_j * k_V * R_th * V_f) + R_br
    return Derivation(
        name="branch_resistance",
        title="Slope of a branch that warms itself",
        question="A little more current through one of several branches: how many volts more does the branch drop?",
        steps=(
            premise(
                "approximation",
                "An LED drops more by its dynamic resistance, and less by what warmth takes from its junctions.",
                delta_v,
                r_F * delta_i + N_j * k_V * Delta_T,
            ),
            premise(
                "law",
                "It is warmer by the thermal resistance times the watts that the change adds.",
                Delta_T,
                R_th * V_f * delta_i,
                assumption="its voltage itself hardly changes",
            ),
            premise(
                "circuit",
                "A branch has so many LEDs in series and a resistor of its own.",
                r_b * delta_i,
                N * delta_v + R_br * delta_i,
            ),
            step(
                "The coefficient is below zero: warmth works like a resistance taken away.",
                r_b,
                slope,
                Solution((3, 1, 2)),
            ),
        ),
        assumptions=(SMALL_CHANGE, "Each LED warms itself alone; the warmth that all share moves all alike."),
        sources=(THERMAL_LAW, LED_WARMTH),
        conditions=(
            Inequality(
                S.Zero,
                slope,
                "Ω",
                "warmth takes more than LEDs and resistor give, and the warmest branch draws more and more",
            ),
        ),
    )


@cache
def derive_branch_resistor_for_imbalance() -> Derivation:
    """Resistor in each branch that keeps two currents alike enough."""
    return Derivation(
        name="branch_resistor_for_imbalance",
        title="Resistor for parallel LEDs to share alike",
        question="How many ohms in each branch keep the difference of the currents within a part of the share?",
        steps=(
            premise(
                "approximation",
                "Two branches have the same voltage: what the LEDs differ by is left to the slopes.",
                (r_F + R_br) * Delta_i,
                Delta_F,
            ),
            premise(
                "definition", "The difference that is allowed, as a part of one branch's share.", Delta_i, x_s * i_F
            ),
            step("Solved for the resistor.", R_br, Delta_F / (x_s * i_F) - r_F, Solution((1, 2))),
        ),
        assumptions=(SMALL_CHANGE, FORWARD),
        sources=(FIRST_PRINCIPLES,),
        conditions=(
            Inequality(
                r_F * x_s * i_F, Delta_F, "V", "the LEDs' own slope keeps them closer than that already", or_equal=True
            ),
        ),
    )


@cache
def derive_share_deviation() -> Derivation:
    """Scatter of the currents of parallel branches."""
    return Derivation(
        name="share_deviation",
        title="Scatter of the currents of parallel branches",
        question="Each LED's forward voltage scatters a little: how much do the currents of the branches scatter?",
        steps=(
            premise(
                "law",
                "LEDs in series: of what is independent the squares of the deviations add.",
                sigma_b**2,
                N * sigma_F**2,
            ),
            premise(
                "law",
                "The branches' common voltage goes with their mean, and with each branch by one part of all.",
                sigma_d**2,
                sigma_b**2 * (1 - 1 / M),
            ),
            premise(
                "approximation",
                "What a branch deviates by, over its slope, is missing from its current.",
                s_i,
                sigma_d / (r_b * i_F),
            ),
            step(
                "Put together. The slope grows with the number in series, the scatter only with its root: long"
                " branches share better.",
                s_i,
                sqrt(N) * sigma_F * sqrt(1 - 1 / M) / (r_b * i_F),
                Reasoning((1, 2, 3), _squares_agree),
            ),
        ),
        assumptions=(SMALL_CHANGE, "The LEDs' forward voltages know nothing of one another: they are not sorted."),
        sources=(FIRST_PRINCIPLES,),
    )


def _squares_agree(new, branch, apart, current):
    whole = (current.rhs**2).xreplace({apart.lhs: apart.rhs}).xreplace({branch.lhs: branch.rhs})
    return new.rhs**2 - whole, new.lhs - current.lhs
