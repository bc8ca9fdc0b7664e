"""Junctions: diodes and LEDs by the junction law with series resistance, and strings of them."""

from __future__ import annotations

from functools import cache

from sympy import Derivative, S, exp, log

from .engine.assumptions import FORWARD, SAME_LEDS, SHOCKLEY, SI_CONSTANTS
from .engine.derivation import Derivation, premise, quotation, step
from .engine.justification import Reasoning, Solution, Substitution
from .engine.numeric import Inequality
from .engine.symbols import (
    GLOSSARY,
    T_K,
    V_T,
    I_f,
    I_mean,
    I_s,
    M,
    N,
    R_s,
    V_f,
    V_s,
    i_F,
    k_B,
    n,
    q_e,
    r_F,
    r_s,
    v_F,
    v_j,
)

_ONE_LED = GLOSSARY["v_F"].of
_STRING = GLOSSARY["V_s"].of
_LIT = Inequality(S.Zero, I_mean, "A", "the logarithm has no value without current")
_INNER = Inequality(I_f * R_s, V_f, "V", "the series resistance alone would drop more than the forward voltage")


@cache
def derive_thermal_voltage_at() -> Derivation:
    """Thermal voltage from the temperature."""
    return Derivation(
        name="thermal_voltage_at",
        title="Thermal voltage",
        question="What voltage belongs to a temperature?",
        steps=(
            premise(
                "law",
                "The energy of heat for each charge carrier is its charge times the thermal voltage.",
                q_e * V_T,
                k_B * T_K,
            ),
            step("Solved for the voltage.", V_T, k_B * T_K / q_e, Solution((1,))),
        ),
        sources=(SI_CONSTANTS,),
    )


def _law_steps() -> tuple:
    """Steps 1 and 2, shared: the junction law and the series resistance."""
    return (
        premise("law", "The junction law.", i_F, I_s * (exp(v_j / (n * V_T)) - 1)),
        premise("circuit", "Junction and series resistance share the voltage.", v_F, v_j + R_s * i_F),
    )


@cache
def derive_saturation_current() -> Derivation:
    """Saturation current from the data sheet's one point."""
    return Derivation(
        name="saturation_current",
        title="Saturation current from the data sheet",
        question="The data sheet gives one forward voltage at one current; which curve runs through that point?",
        steps=(
            *_law_steps(),
            premise("definition", "At the data sheet's point the current is this.", i_F, I_f),
            premise("definition", "And the voltage is this.", v_F, V_f),
            step("So the junction itself has this voltage.", v_j, V_f - R_s * I_f, Solution((2, 3, 4))),
            step(
                "Solved for the saturation current.",
                I_s,
                I_f / (exp((V_f - R_s * I_f) / (n * V_T)) - 1),
                Solution((1, 3, 5)),
            ),
        ),
        sources=(SHOCKLEY,),
        conditions=(_INNER,),
    )


@cache
def derive_junction_voltage() -> Derivation:
    """Voltage of a diode or LED at a current."""
    return Derivation(
        name="junction_voltage",
        title="Voltage of a diode or LED",
        question="How much voltage does a diode or LED drop at a current?",
        steps=(
            *_law_steps(),
            step("The law, solved for the voltage.", v_j, n * V_T * log(1 + i_F / I_s), Solution((1,))),
            step("With the series resistance.", v_F, n * V_T * log(1 + i_F / I_s) + R_s * i_F, Substitution((2, 3))),
        ),
        sources=(SHOCKLEY,),
    )


@cache
def derive_dynamic_resistance() -> Derivation:
    """Slope of the curve: dynamic resistance."""
    return Derivation(
        name="dynamic_resistance",
        title="Dynamic resistance of an LED",
        question="How many volts more does an LED drop for each ampere more?",
        steps=(
            quotation("The voltage against current.", derive_junction_voltage(), function_of=i_F),
            premise("definition", "Dynamic resistance is its slope.", r_F, Derivative(_ONE_LED(i_F), i_F)),
            step("Differentiated.", r_F, n * V_T / (i_F + I_s) + R_s, Substitution((2, 1))),
            premise("approximation", "The saturation current is next to nothing beside the current.", i_F + I_s, i_F),
            step("So the slope does not depend on it.", r_F, n * V_T / i_F + R_s, Substitution((3, 4))),
        ),
        assumptions=(FORWARD,),
        sources=(SHOCKLEY,),
    )


def _string_steps() -> tuple:
    """Steps 1 to 5, shared: the voltage of a string from the data sheet's point."""
    from_point = n * V_T * log(i_F / I_f) + R_s * (i_F - I_f)
    return (
        premise(
            "approximation",
            "The junction law with series resistance, far above the saturation current.",
            v_F,
            n * V_T * log(i_F / I_s) + R_s * i_F,
        ),
        premise("definition", "The same at the data sheet's point.", V_f, n * V_T * log(I_f / I_s) + R_s * I_f),
        step("The difference knows nothing of the saturation current.", v_F - V_f, from_point, Substitution((1, 2))),
        premise("circuit", "Parallel LEDs share the string's current.", i_F, I_mean / M),
        premise("circuit", "Groups in series add their voltages.", V_s, N * v_F),
    )


@cache
def derive_string_voltage() -> Derivation:
    """Voltage of a string of LEDs in series and parallel."""
    share = I_mean / M
    return Derivation(
        name="string_voltage",
        title="Voltage of the LED string",
        question="What voltage does the whole string drop at its current?",
        steps=(
            *_string_steps(),
            step(
                "Put together.",
                V_s,
                N * (V_f + n * V_T * log(share / I_f) + R_s * (share - I_f)),
                Reasoning(
                    (3, 4, 5),
                    lambda new, one, per_led, total: (
                        new.rhs - total.rhs.xreplace({v_F: V_f + one.rhs}).xreplace({per_led.lhs: per_led.rhs}),
                        new.lhs - total.lhs,
                        one.lhs - (v_F - V_f),
                    ),
                ),
            ),
        ),
        assumptions=(FORWARD, SAME_LEDS, "The current is steady: ripple is neglected."),
        sources=(SHOCKLEY,),
        conditions=(_LIT,),
    )


@cache
def derive_string_resistance() -> Derivation:
    """Dynamic resistance of the whole string."""
    return Derivation(
        name="string_resistance",
        title="Dynamic resistance of the LED string",
        question="How many volts more does the string drop for each ampere more?",
        steps=(
            quotation("The string's voltage against its current.", derive_string_voltage(), function_of=I_mean),
            premise("definition", "Dynamic resistance is its slope.", r_s, Derivative(_STRING(I_mean), I_mean)),
            step(
                "Differentiated: groups in series add, LEDs in parallel divide the series resistance.",
                r_s,
                N * (n * V_T / I_mean + R_s / M),
                Substitution((2, 1)),
            ),
        ),
        assumptions=(FORWARD, SAME_LEDS),
        sources=(SHOCKLEY,),
        conditions=(_LIT,),
    )
