"""Rules of thumb against the derivation: mains voltage over reactance, and 'a bridge gives twice as much'."""

from __future__ import annotations

from functools import cache

from sympy import pi, sqrt

from .charge import CLAMP_BELOW_PEAK, derive_mean_string_current
from .engine.assumptions import FIRST_PRINCIPLES, FULL_BRIDGE_NOTE, HALF_WAVE_NOTE, IDEAL_LAMP
from .engine.derivation import Derivation, premise, quotation, step
from .engine.justification import Reasoning, Solution, Substitution
from .engine.symbols import C, D, I_mean, I_sc, V_d, V_o, V_p, d, f, k_x
from .half_wave import derive_half_wave_current
from .reactance import derive_peak_voltage, derive_short_circuit_current


@cache
def derive_reactance_rule_excess() -> Derivation:
    """What the rule 'mains voltage over reactance' gives, over the true mean current."""
    return Derivation(
        name="reactance_rule_excess",
        title="Excess of the rule V over X_C",
        question="By how much does mains voltage over reactance overstate the current of a string?",
        steps=(
            quotation("The rule gives the rms current into a short circuit.", derive_short_circuit_current()),
            quotation("The string's true mean current.", derive_mean_string_current()),
            quotation("Peak and rms of the mains.", derive_peak_voltage()),
            premise("definition", "Measure the clamped voltage against the mains' peak.", D, d * V_p),
            premise("definition", "The one over the other.", k_x, I_sc / I_mean),
            step(
                "Frequency, dropper and mains cancel. Even with nothing clamped the rule is a ninth too high, for it "
                "takes an rms value for a mean; the more is clamped, the worse it gets.",
                k_x,
                pi / (2 * sqrt(2) * (1 - d)),
                Substitution((5, 1, 2, 4, 3)),
            ),
        ),
        assumptions=IDEAL_LAMP,
        sources=(FIRST_PRINCIPLES,),
    )


@cache
def derive_clamped_share() -> Derivation:
    """Clamped voltage over the mains' peak."""
    return Derivation(
        name="clamped_share",
        title="Clamped voltage over the mains' peak",
        question="Which share of the mains' peak does the string hold?",
        steps=(
            premise("definition", "Measure the clamped voltage against the mains' peak.", D, d * V_p),
            step("So the share is the one over the other.", d, D / V_p, Solution((1,))),
        ),
        sources=(FIRST_PRINCIPLES,),
        conditions=(CLAMP_BELOW_PEAK,),
    )


@cache
def derive_half_wave_break_even() -> Derivation:
    """Clamped voltage at which a half-wave supply gives as much as a bridge."""
    return Derivation(
        name="half_wave_break_even",
        title="Where a half-wave supply gives as much as a bridge",
        question="At what clamped voltage do two diodes pump as much current as a bridge?",
        steps=(
            quotation("A bridge gives this much.", derive_mean_string_current()),
            quotation("A half-wave supply gives this much.", derive_half_wave_current()),
            premise(
                "circuit",
                "Both pass two diodes: count the same drops, and the same string, in the clamped voltage.",
                D,
                V_o + 2 * V_d,
            ),
            step(
                "The half-wave supply in these terms: half the current into a short circuit, but falling a quarter "
                "as steeply.",
                I_mean,
                f * C * (2 * V_p - D),
                Substitution((2, 3)),
            ),
            step(
                "At the break-even point both give the same.",
                4 * f * C * (V_p - D),
                f * C * (2 * V_p - D),
                Reasoning((1, 4), lambda new, bridge, half: (new.lhs - bridge.rhs, new.rhs - half.rhs)),
            ),
            step(
                "Frequency and dropper cancel. Below two thirds of the mains' peak the bridge gives more.",
                D,
                2 * V_p / 3,
                Solution((5,)),
            ),
        ),
        assumptions=IDEAL_LAMP,
        sources=(FIRST_PRINCIPLES, HALF_WAVE_NOTE, FULL_BRIDGE_NOTE),
    )
