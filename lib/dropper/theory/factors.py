"""Power factor: apparent power, the power factor, and where it is greatest.

Frequency, dropper and mains voltage cancel: only the clamped voltage, as a fraction of the mains' peak, is left.
"""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

import sympy
from sympy import Derivative, Rational, acos, cos, pi, sin, sqrt

from .charge import CLAMP_BELOW_PEAK
from .conduction import (
    derive_conduction_angle,
    derive_line_current_rms,
    derive_line_current_rms_from_angle,
    in_voltages,
)
from .engine.assumptions import FIRST_PRINCIPLES, IDEAL_LAMP, POWER_TERMS
from .engine.derivation import Derivation, premise, quotation, step
from .engine.justification import Reasoning, Substitution
from .engine.symbols import GLOSSARY, PF, D, I_rms, P, PF_slope, S, V, V_p, d, gamma
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


def fraction_steps(first: int) -> tuple:
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
    in_angle, angle = derive_power_factor_from_angle(), fraction_steps(2)
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
