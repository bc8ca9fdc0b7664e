"""Sensitivity: by how many per cent the string's current changes for each per cent of a part or of the mains."""

from __future__ import annotations

from functools import cache

from sympy import Derivative, Expr, S, Symbol

from .charge import CLAMP_BELOW_PEAK, derive_mean_string_current
from .engine.assumptions import FIRST_PRINCIPLES, IDEAL_LAMP
from .engine.derivation import Derivation, premise, quotation, step
from .engine.justification import Substitution
from .engine.numeric import Inequality
from .engine.symbols import E_C, E_D, E_V, GLOSSARY, C, D, E_f, I_new, V_lost, V_p, f, x_I

current = GLOSSARY["I_mean"].of
_SOME_VOLTAGE = Inequality(
    V_lost, D, "V", "the groups that are short cannot have dropped all of the clamped voltage or more"
)


def _elasticity(
    name: str, elasticity: Symbol, part: Symbol, value: Expr, title: str, question: str, moral: str
) -> Derivation:
    """Elasticity of the mean string current to one of the symbols it depends on."""
    return Derivation(
        name=name,
        title=title,
        question=question,
        steps=(
            quotation("The mean current, all else held.", derive_mean_string_current(), function_of=part),
            premise(
                "definition",
                "Elasticity is the change in per cent for each per cent.",
                elasticity,
                part / current(part) * Derivative(current(part), part),
            ),
            step(moral, elasticity, value, Substitution((2, 1))),
        ),
        assumptions=IDEAL_LAMP,
        sources=(FIRST_PRINCIPLES,),
        conditions=(CLAMP_BELOW_PEAK,),
        extra_inputs=(f, C, V_p, D),
    )


@cache
def derive_elasticity_to_dropper() -> Derivation:
    """Elasticity to the dropper."""
    return _elasticity(
        "elasticity_to_dropper",
        E_C,
        C,
        S.One,
        "Sensitivity to the dropper",
        "A dropper of 10 per cent tolerance: how well is the current known?",
        "One: the current follows the capacitance per cent for per cent.",
    )


@cache
def derive_elasticity_to_frequency() -> Derivation:
    """Elasticity to the mains frequency."""
    return _elasticity(
        "elasticity_to_frequency",
        E_f,
        f,
        S.One,
        "Sensitivity to the frequency",
        "A lamp for 50 Hz on 60 Hz: what happens to the current?",
        "One: the current follows the frequency per cent for per cent.",
    )


@cache
def derive_elasticity_to_peak_voltage() -> Derivation:
    """Elasticity to the mains voltage."""
    return _elasticity(
        "elasticity_to_peak_voltage",
        E_V,
        V_p,
        V_p / (V_p - D),
        "Sensitivity to the mains voltage",
        "The mains is 10 per cent high: is the current only 10 per cent high too?",
        "More than one: the nearer the string's voltage to the mains' peak, the more the mains is magnified.",
    )


@cache
def derive_elasticity_to_clamped_voltage() -> Derivation:
    """Elasticity to the clamped voltage."""
    return _elasticity(
        "elasticity_to_clamped_voltage",
        E_D,
        D,
        -D / (V_p - D),
        "Sensitivity to the string's voltage",
        "LEDs with 10 per cent more forward voltage: how much less current?",
        "Little for a short string, and without bound for one that comes near the mains' peak.",
    )


@cache
def derive_current_rise_on_short() -> Derivation:
    """Rise of the current when LED groups go short."""
    return Derivation(
        name="current_rise_on_short",
        title="Rise of the current when LEDs go short",
        question="One LED group goes short, or is bridged: what do the others get?",
        steps=(
            quotation("The mean current against the clamped voltage.", derive_mean_string_current(), function_of=D),
            premise(
                "circuit",
                "The clamped voltage falls by what the short groups dropped.",
                I_new,
                current(D - V_lost),
                assumption="the other LEDs hardly drop more at the higher current",
            ),
            premise("definition", "Rise as a fraction of the current before.", x_I, (I_new - current(D)) / current(D)),
            step(
                "The lost voltage over what the dropper had. Each short adds to it; the LEDs that are left carry it.",
                x_I,
                V_lost / (V_p - D),
                Substitution((3, 2, 1)),
            ),
        ),
        assumptions=IDEAL_LAMP,
        sources=(FIRST_PRINCIPLES,),
        conditions=(CLAMP_BELOW_PEAK, _SOME_VOLTAGE),
    )
