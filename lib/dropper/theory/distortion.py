"""Displacement and distortion: the two causes of a power factor below one."""

from __future__ import annotations

from functools import cache

from sympy import Integral, cos, pi, sin, sqrt

from .conduction import CREST, derive_line_current_rms_from_angle, in_voltages, line_current_steps
from .engine.assumptions import FOURIER, IDEAL_LAMP, POWER_TERMS
from .engine.derivation import Derivation, premise, quotation, step
from .engine.justification import Solution, Substitution
from .engine.symbols import GLOSSARY, I_1, PF_1, THD, C, I_cos, I_rms, I_sin, V_p, f, gamma, k_d, theta
from .factors import AREA, fraction_steps

i = GLOSSARY["i"].of


def fundamental_steps() -> tuple:
    """Steps 1 to 7, shared: the two parts of the fundamental current."""
    scale = f * C * V_p
    return (
        *line_current_steps(),
        premise(
            "definition",
            "The part in phase with the mains, by Fourier's integral over half a cycle, doubled.",
            I_sin,
            2 * Integral(i(theta) * sin(theta), (theta, CREST - gamma, CREST)) / pi,
        ),
        step("Worked out.", I_sin, 2 * scale * sin(gamma) ** 2, Substitution((4, 3))),
        premise(
            "definition",
            "The part a quarter period ahead.",
            I_cos,
            2 * Integral(i(theta) * cos(theta), (theta, CREST - gamma, CREST)) / pi,
        ),
        step("Worked out. It is above zero: the current leads.", I_cos, 2 * scale * AREA, Substitution((6, 3))),
    )


@cache
def derive_displacement_factor() -> Derivation:
    """Cosine of the angle by which the fundamental leads."""
    ratio, angle = sin(gamma) ** 2 / sqrt(sin(gamma) ** 4 + AREA**2), fraction_steps(10)
    return Derivation(
        name="displacement_factor",
        title="Displacement factor",
        question="How much of the low power factor is because the current leads?",
        steps=(
            *fundamental_steps(),
            premise(
                "definition",
                "Displacement factor is the part in phase over the whole fundamental.",
                PF_1,
                I_sin / sqrt(I_sin**2 + I_cos**2),
            ),
            step("Frequency, dropper and mains cancel.", PF_1, ratio, Substitution((8, 5, 7))),
            *angle,
            step("Put in.", PF_1, in_voltages(ratio, angle), Substitution((9, 12, 11, 10))),
        ),
        assumptions=IDEAL_LAMP,
        sources=(POWER_TERMS, FOURIER),
    )


@cache
def derive_distortion_factor() -> Derivation:
    """Rms of the fundamental over the whole rms current."""
    ratio, angle = (sin(gamma) ** 4 + AREA**2) / (pi * AREA), fraction_steps(13)
    return Derivation(
        name="distortion_factor",
        title="Distortion factor",
        question="How much of the low power factor is because the current is not a sine?",
        steps=(
            *fundamental_steps(),
            premise("definition", "Rms of the fundamental, from its two parts.", I_1**2, (I_sin**2 + I_cos**2) / 2),
            quotation("Rms of the whole current.", derive_line_current_rms_from_angle()),
            premise("definition", "Distortion factor is the one over the other.", k_d, I_1 / I_rms),
            step("Frequency, dropper and mains cancel.", k_d**2, ratio, Substitution((10, 8, 5, 7, 9))),
            step("The root.", k_d, sqrt(ratio), Solution((11,))),
            *angle,
            step("Put in.", k_d, in_voltages(sqrt(ratio), angle), Substitution((12, 15, 14, 13))),
        ),
        assumptions=IDEAL_LAMP,
        sources=(POWER_TERMS, FOURIER),
    )


@cache
def derive_current_thd() -> Derivation:
    """Total harmonic distortion from the distortion factor."""
    factor, distortion = derive_distortion_factor(), sqrt(1 / k_d**2 - 1)
    return Derivation(
        name="current_thd",
        title="Total harmonic distortion of the current",
        question="How large are all the harmonics together, against the fundamental?",
        steps=(
            premise(
                "definition",
                "Total harmonic distortion: the rms of all but the fundamental, over the fundamental.",
                THD**2,
                (I_rms**2 - I_1**2) / I_1**2,
            ),
            premise("definition", "Distortion factor is the fundamental over the whole.", k_d, I_1 / I_rms),
            step("Solved for the fundamental.", I_1, k_d * I_rms, Solution((2,))),
            step("The current cancels.", THD**2, 1 / k_d**2 - 1, Substitution((1, 3))),
            step("The root.", THD, distortion, Solution((4,))),
            quotation("The distortion factor is known.", factor),
            step("Put in.", THD, distortion.subs(k_d, factor.result.rhs), Substitution((5, 6))),
        ),
        assumptions=IDEAL_LAMP,
        sources=(POWER_TERMS,),
    )
