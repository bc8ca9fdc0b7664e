"""Strings: how many LEDs, of which colours, and what LEDs side by side make of their current."""

from __future__ import annotations

from functools import cache

from sympy import S, sqrt

from .charge import CLAMP_BELOW_PEAK, derive_clamped_voltage, derive_load_line
from .engine.assumptions import FIRST_PRINCIPLES, FORWARD, IDEAL_LAMP, LED_WARMTH, SAME_LEDS, SMALL_CHANGE, THERMAL_LAW
from .engine.derivation import Derivation, premise, quotation, step
from .engine.justification import Reasoning, Solution, Substitution
from .engine.numeric import Inequality
from .engine.symbols import (
    GLOSSARY,
    N_I,
    C,
    D,
    D_best,
    Delta_F,
    Delta_i,
    Delta_T,
    I_mean,
    M,
    M_o,
    N,
    N_b,
    N_best,
    N_j,
    R_br,
    R_th,
    V_d,
    V_f,
    V_fb,
    V_p,
    V_s,
    delta_i,
    delta_v,
    f,
    i_F,
    k_N,
    k_P,
    k_V,
    r_b,
    r_F,
    s_i,
    sigma_b,
    sigma_d,
    sigma_F,
    x_s,
)
from .power import derive_best_clamped_voltage, derive_real_power

_AS_RATED = "Each LED drops its data sheet's voltage; at other currents it drops a few tenths of a volt less or more."
_STEADY_CURRENT = "The dropper holds the string's current: the others hardly change the voltage of the whole."
_power = GLOSSARY["P"].of


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


@cache
def derive_mixed_clamped_voltage() -> Derivation:
    """Clamped voltage of a string of two kinds of LED."""
    return Derivation(
        name="mixed_clamped_voltage",
        title="Clamped voltage of a string of two colours",
        question="LEDs of two colours stand in one string: what is the bridge held at?",
        steps=(
            premise(
                "circuit",
                "In series each takes the same current and drops what its colour drops.",
                V_s,
                N * V_f + N_b * V_fb,
            ),
            quotation("The bridge adds two diodes.", derive_clamped_voltage()),
            step(
                "Put together: the order and the mixture do not matter, the sum does.",
                D,
                N * V_f + N_b * V_fb + 2 * V_d,
                Substitution((2, 1)),
            ),
        ),
        assumptions=(_AS_RATED,),
        sources=(FIRST_PRINCIPLES,),
    )


@cache
def derive_in_series_for_current() -> Derivation:
    """LEDs in series that leave a wanted current."""
    lost = I_mean / (4 * f * C)
    return Derivation(
        name="in_series_for_current",
        title="LEDs in series for a wanted current",
        question="The dropper is there and the current is chosen: how many LEDs belong in series?",
        steps=(
            quotation("The load line leaves this voltage.", derive_load_line()),
            premise("circuit", "It is taken up by the LEDs and two diodes.", D, N_I * V_f + 2 * V_d),
            step("Solved for the number.", N_I, (V_p - lost - 2 * V_d) / V_f, Solution((2, 1))),
        ),
        assumptions=(*IDEAL_LAMP, _AS_RATED),
        sources=(FIRST_PRINCIPLES,),
        conditions=(
            Inequality(lost + 2 * V_d, V_p, "V", "the dropper does not give so much current even without LEDs"),
        ),
    )


@cache
def derive_in_series_of_greatest_power() -> Derivation:
    """LEDs in series that take the most power."""
    return Derivation(
        name="in_series_of_greatest_power",
        title="LEDs in series for the greatest power",
        question="How many LEDs in series take the most power, whatever the dropper?",
        steps=(
            quotation("Power is greatest here.", derive_best_clamped_voltage()),
            premise(
                "circuit", "There the LEDs and two diodes make up the clamped voltage.", D_best, N_best * V_f + 2 * V_d
            ),
            step(
                "Solved for the number. The dropper is not in it.", N_best, (V_p / 2 - 2 * V_d) / V_f, Solution((2, 1))
            ),
        ),
        assumptions=(*IDEAL_LAMP, _AS_RATED),
        sources=(FIRST_PRINCIPLES,),
        conditions=(Inequality(2 * V_d, V_p / 2, "V", "the diodes alone take half of the mains' peak"),),
    )


@cache
def derive_power_of_more_leds() -> Derivation:
    """Power with so many times the LEDs."""
    return Derivation(
        name="power_of_more_leds",
        title="Power with so many times the LEDs",
        question="Twice the LEDs: how many times the power?",
        steps=(
            quotation("Power against clamped voltage.", derive_real_power(), function_of=D),
            premise(
                "definition",
                "Power after over power before, with the clamped voltage so many times as large.",
                k_P,
                _power(k_N * D) / _power(D),
            ),
            step(
                "The dropper and the frequency are gone. More voltage, and less left to push the current.",
                k_P,
                k_N * (V_p - k_N * D) / (V_p - D),
                Substitution((2, 1)),
            ),
        ),
        assumptions=IDEAL_LAMP,
        sources=(FIRST_PRINCIPLES,),
        conditions=(
            CLAMP_BELOW_PEAK,
            Inequality(k_N * D, V_p, "V", "with so many LEDs the lamp stays dark", or_equal=True),
        ),
    )
