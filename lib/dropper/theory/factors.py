"""Power factors: apparent power, power factor, and how the power factor splits into displacement and distortion.

Frequency, dropper and mains voltage cancel: only the clamped voltage, as a fraction of the mains' peak, is left.
"""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

import sympy
from sympy import Derivative, Integral, Rational, acos, cos, pi, sin, sqrt

from .charge import CLAMP_BELOW_PEAK
from .conduction import (
    CREST,
    derive_conduction_angle,
    derive_line_current_rms,
    derive_line_current_rms_from_angle,
    in_voltages,
    line_current_steps,
)
from .engine.assumptions import FIRST_PRINCIPLES, FOURIER, IDEAL_LAMP, POWER_TERMS
from .engine.derivation import Derivation, premise, quotation, step
from .engine.justification import Reasoning, Solution, Substitution
from .engine.symbols import (
    GLOSSARY,
    I_1,
    PF,
    PF_1,
    THD,
    C,
    D,
    I_cos,
    I_rms,
    I_sin,
    P,
    PF_slope,
    S,
    V,
    V_p,
    d,
    f,
    gamma,
    k_d,
    theta,
)
from .power import derive_real_power_from_angle
from .reactance import derive_peak_voltage

i = GLOSSARY["i"].of
AREA = gamma - sin(gamma) * cos(gamma)  # twice the area under the piece of squared cosine


@cache
def derive_conduction_angle_from_fraction() -> Derivation:
    """Conduction angle from the clamped fraction alone."""
    return Derivation(
        name="conduction_angle_from_fraction",
        title="Conduction angle from the clamped fraction",
        question="Does the conduction angle depend on the mains at all, once D is measured against its peak?",
        steps=(
            quotation("The conduction angle.", derive_conduction_angle()),
            premise("definition", "Measure the clamped voltage against the mains' peak.", D, d * V_p),
            step("The peak cancels.", gamma, acos(2 * d - 1), Substitution((1, 2))),
        ),
        assumptions=IDEAL_LAMP,
        sources=(FIRST_PRINCIPLES,),
    )


def _fraction_steps(first: int) -> tuple:
    """Three steps, shared: the conduction angle, its cosine and its sine from the clamped fraction."""
    return (
        quotation(
            "The conduction angle depends on the clamped fraction alone.", derive_conduction_angle_from_fraction()
        ),
        step("Its cosine.", cos(gamma), 2 * d - 1, Substitution((first,))),
        step(
            "Its sine, which is never negative from 0 to pi.",
            sin(gamma),
            2 * sqrt(d * (1 - d)),
            Reasoning((first + 1,), lambda new, known: (new.rhs**2 + known.rhs**2 - 1, new.lhs - sin(gamma))),
        ),
    )


@cache
def derive_apparent_power() -> Derivation:
    """Volts times amperes, both rms."""
    current = derive_line_current_rms()
    return Derivation(
        name="apparent_power",
        title="Apparent power of the lamp",
        question="How many volt-amperes does the lamp load the mains with?",
        steps=(
            premise("definition", "Apparent power is rms voltage times rms current.", S, V * I_rms),
            quotation("The rms line current.", current),
            quotation("Peak and rms of the mains.", derive_peak_voltage()),
            step("Put together.", S, V_p / sqrt(2) * current.result.rhs, Substitution((1, 2, 3))),
        ),
        assumptions=IDEAL_LAMP,
        sources=(POWER_TERMS,),
        conditions=(CLAMP_BELOW_PEAK,),
    )


@cache
def derive_power_factor_from_angle() -> Derivation:
    """Power factor in terms of the conduction angle."""
    return Derivation(
        name="power_factor_from_angle",
        title="Power factor, from the conduction angle",
        question="What is the power factor, if we see for how long the line conducts?",
        steps=(
            premise("definition", "Power factor is real over apparent power.", PF, P / S),
            premise("definition", "Apparent power is rms voltage times rms current.", S, V * I_rms),
            quotation("Real power.", derive_real_power_from_angle()),
            quotation("Rms current.", derive_line_current_rms_from_angle()),
            quotation("Peak and rms of the mains.", derive_peak_voltage()),
            step(
                "Frequency, dropper and mains voltage have cancelled.",
                PF,
                sin(gamma) ** 2 / sqrt(pi * AREA),
                Substitution((1, 2, 3, 4, 5)),
            ),
        ),
        assumptions=IDEAL_LAMP,
        sources=(POWER_TERMS,),
    )


@cache
def derive_power_factor() -> Derivation:
    """Power factor as a function of D / V_p alone."""
    in_angle, angle = derive_power_factor_from_angle(), _fraction_steps(2)
    return Derivation(
        name="power_factor",
        title="Power factor of the lamp",
        question="What sets the power factor: the dropper, the mains or the LEDs?",
        steps=(
            quotation("The power factor depends on the conduction angle alone.", in_angle),
            *angle,
            step(
                "So the power factor does too.", PF, in_voltages(in_angle.result.rhs, angle), Substitution((1, 4, 3, 2))
            ),
        ),
        assumptions=IDEAL_LAMP,
        sources=(POWER_TERMS,),
    )


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
    ratio, angle = sin(gamma) ** 2 / sqrt(sin(gamma) ** 4 + AREA**2), _fraction_steps(10)
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
    ratio, angle = (sin(gamma) ** 4 + AREA**2) / (pi * AREA), _fraction_steps(13)
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


@cache
def derive_power_factor_slope() -> Derivation:
    """Slope of the power factor with the conduction angle: nothing at its maximum."""
    slope = sin(gamma) * (2 * cos(gamma) * AREA - sin(gamma) ** 3) / (sqrt(pi) * AREA ** Rational(3, 2))
    return Derivation(
        name="power_factor_slope",
        title="Slope of the power factor",
        question="Where is the power factor greatest?",
        steps=(
            quotation("Power factor against conduction angle.", derive_power_factor_from_angle(), function_of=gamma),
            premise("definition", "Its slope.", PF_slope, Derivative(GLOSSARY["PF"].of(gamma), gamma)),
            step("The bracket above the line is nothing at the maximum.", PF_slope, slope, Substitution((2, 1))),
        ),
        assumptions=IDEAL_LAMP,
        sources=(FIRST_PRINCIPLES,),
    )


class GreatestPowerFactor(NamedTuple):
    """Where the power factor is greatest, and how great it is there."""

    clamped_fraction: float
    power_factor: float


@cache
def greatest_power_factor() -> GreatestPowerFactor:
    """The greatest power factor a dropper lamp can have, and the clamped fraction D / V_p that gives it.

    Equation: the slope of the power factor (see `power_factor_slope`) is zero; no closed form is known to us, so it
    is solved to 30 digits.  Parameters, ranges: none.  Returns: two plain numbers.  Errors: none.  Source: first
    principles; assumptions as in `power_factor`.
    """
    angle = sympy.nsolve(derive_power_factor_slope().result.rhs, gamma, 1, prec=30)
    of_fraction = derive_conduction_angle_from_fraction().result.rhs
    fraction = sympy.nsolve(of_fraction - angle, d, Rational(3, 4), prec=30)
    factor = derive_power_factor_from_angle().result.rhs.subs(gamma, angle)
    return GreatestPowerFactor(float(fraction), float(factor.evalf(30)))
