"""Nonactive power: apparent power that is not real power, as reactive power and distortion power of the line current.

Terms of IEEE 1459-2010 for a mains that is a sine.  The standard counts the reactive power of a leading current as
negative; Q_1 is its magnitude here, in every formula and on every page.
"""

from __future__ import annotations

from functools import cache

from sympy import Integral, cos, pi, sin, sqrt

from .charge import CLAMP_BELOW_PEAK
from .conduction import CREST, angle_steps, derive_line_current_rms_from_angle, in_voltages, line_current_steps
from .distortion import fundamental_steps
from .engine.assumptions import FIRST_PRINCIPLES, FOURIER, IDEAL_LAMP, POWER_TERMS, SINE
from .engine.derivation import Derivation, premise, quotation, step
from .engine.justification import Solution, Substitution
from .engine.symbols import (
    D_I,
    GLOSSARY,
    I_1,
    I_H,
    N_P,
    Q_1,
    S_1,
    C,
    I_cos,
    I_rms,
    I_sin,
    P,
    S,
    V,
    V_p,
    f,
    gamma,
    theta,
)
from .factors import AREA
from .power import derive_real_power_from_angle
from .reactance import derive_peak_voltage

i, v = GLOSSARY["i"].of, GLOSSARY["v"].of
_SCALE = f * C * V_p**2


@cache
def derive_fundamental_reactive_power() -> Derivation:
    """Reactive power of the fundamental, leading."""
    in_angle, angle = _SCALE * AREA, angle_steps(6)
    return Derivation(
        name="fundamental_reactive_power",
        title="Reactive power of the lamp",
        question="How much power does the fundamental only push to and fro?",
        steps=(
            *line_current_steps(),
            premise(
                "definition",
                "Reactive power is real power's twin: current times a voltage like the mains but a quarter period "
                "aside; the mean over half a cycle. The standard takes the one behind, which gives a leading current a "
                "minus; with the one ahead it is the magnitude.",
                Q_1,
                Integral(V_p * cos(theta) * i(theta), (theta, CREST - gamma, CREST)) / pi,
            ),
            step("Worked out: above zero, since the current leads.", Q_1, in_angle, Substitution((4, 3))),
            *angle,
            step("Put in.", Q_1, in_voltages(in_angle, angle), Substitution((5, 8, 7, 6))),
        ),
        assumptions=IDEAL_LAMP,
        sources=(POWER_TERMS, FIRST_PRINCIPLES),
        conditions=(CLAMP_BELOW_PEAK,),
    )


@cache
def derive_fundamental_apparent_power() -> Derivation:
    """Apparent power of the fundamental."""
    in_angle, angle = _SCALE * sqrt(sin(gamma) ** 4 + AREA**2), angle_steps(13)
    return Derivation(
        name="fundamental_apparent_power",
        title="Apparent power of the fundamental",
        question="How many volt-amperes would be left if the current were only its fundamental?",
        steps=(
            *fundamental_steps(),
            premise("definition", "Rms of the fundamental, from its two parts.", I_1**2, (I_sin**2 + I_cos**2) / 2),
            quotation("Peak and rms of the mains.", derive_peak_voltage()),
            premise("definition", "Rms voltage times rms fundamental; here both squared.", S_1**2, V**2 * I_1**2),
            step("Worked out.", S_1**2, in_angle**2, Substitution((10, 8, 5, 7, 9))),
            step("The root.", S_1, in_angle, Solution((11,))),
            *angle,
            step("Put in.", S_1, in_voltages(in_angle, angle), Substitution((12, 15, 14, 13))),
        ),
        assumptions=IDEAL_LAMP,
        sources=(POWER_TERMS, FOURIER),
        conditions=(CLAMP_BELOW_PEAK,),
    )


@cache
def derive_current_distortion_power() -> Derivation:
    """Current distortion power: rms voltage times rms harmonics."""
    in_angle, angle = _SCALE * sqrt(pi * AREA - AREA**2 - sin(gamma) ** 4), angle_steps(15)
    return Derivation(
        name="current_distortion_power",
        title="Current distortion power",
        question="How many volt-amperes are there because the current is not a sine?",
        steps=(
            *fundamental_steps(),
            premise("definition", "Rms of the fundamental, from its two parts.", I_1**2, (I_sin**2 + I_cos**2) / 2),
            quotation("Rms of the whole current.", derive_line_current_rms_from_angle()),
            premise(
                "definition", "The harmonics are what the fundamental leaves of the square.", I_H**2, I_rms**2 - I_1**2
            ),
            quotation("Peak and rms of the mains.", derive_peak_voltage()),
            premise(
                "definition",
                "Current distortion power is rms voltage times rms harmonics; here both squared.",
                D_I**2,
                V**2 * I_H**2,
            ),
            step("Worked out.", D_I**2, in_angle**2, Substitution((12, 10, 8, 5, 7, 9, 11))),
            step("The root.", D_I, in_angle, Solution((13,))),
            *angle,
            step("Put in.", D_I, in_voltages(in_angle, angle), Substitution((14, 17, 16, 15))),
        ),
        assumptions=IDEAL_LAMP,
        sources=(POWER_TERMS, FOURIER),
        conditions=(CLAMP_BELOW_PEAK,),
    )


@cache
def derive_nonactive_power() -> Derivation:
    """All of the apparent power that is not real power."""
    in_angle, angle = _SCALE * sqrt(pi * AREA - sin(gamma) ** 4), angle_steps(8)
    return Derivation(
        name="nonactive_power",
        title="Nonactive power of the lamp",
        question="How many of the volt-amperes are no watts, for whatever reason?",
        steps=(
            premise(
                "definition",
                "Nonactive power is what real power leaves of the apparent power, in squares.",
                N_P**2,
                S**2 - P**2,
            ),
            premise("definition", "Apparent power is rms voltage times rms current.", S, V * I_rms),
            quotation("Real power.", derive_real_power_from_angle()),
            quotation("Rms current.", derive_line_current_rms_from_angle()),
            quotation("Peak and rms of the mains.", derive_peak_voltage()),
            step("Worked out.", N_P**2, in_angle**2, Substitution((1, 2, 3, 4, 5))),
            step("The root.", N_P, in_angle, Solution((6,))),
            *angle,
            step("Put in.", N_P, in_voltages(in_angle, angle), Substitution((7, 10, 9, 8))),
        ),
        assumptions=IDEAL_LAMP,
        sources=(POWER_TERMS,),
        conditions=(CLAMP_BELOW_PEAK,),
    )


@cache
def derive_apparent_power_from_parts() -> Derivation:
    """Apparent power from real, reactive and distortion power."""

    def over_a_cycle(of):
        return Integral(of, (theta, 0, 2 * pi))

    return Derivation(
        name="apparent_power_from_parts",
        title="Apparent power from its three parts",
        question="Watts, reactive power and distortion power: how do they make up the volt-amperes?",
        steps=(
            premise("definition", "The mains is a sine of its phase angle.", v(theta), sqrt(2) * V * sin(theta)),
            premise(
                "definition",
                "The part of the fundamental current in phase with the mains, by Fourier's integral.",
                I_sin,
                over_a_cycle(i(theta) * sin(theta)) / pi,
            ),
            premise("definition", "The part a quarter period ahead.", I_cos, over_a_cycle(i(theta) * cos(theta)) / pi),
            premise(
                "definition",
                "Real power is the mean of voltage times current.",
                P,
                over_a_cycle(v(theta) * i(theta)) / (2 * pi),
            ),
            step(
                "A sine voltage draws watts from the part in phase only, whatever the current's shape.",
                P,
                V * I_sin / sqrt(2),
                Substitution((4, 1, 2)),
            ),
            premise(
                "definition",
                "Reactive power as a magnitude, the current leading: the same with a voltage a quarter period ahead. "
                "(The standard takes the one behind, which gives a minus.)",
                Q_1,
                over_a_cycle(sqrt(2) * V * cos(theta) * i(theta)) / (2 * pi),
            ),
            step("It comes from the part a quarter period ahead only.", Q_1, V * I_cos / sqrt(2), Substitution((6, 3))),
            premise("definition", "Rms of the fundamental, from its two parts.", I_1**2, (I_sin**2 + I_cos**2) / 2),
            premise(
                "definition",
                "The whole square is that of the fundamental and that of the harmonics.",
                I_rms**2,
                I_1**2 + I_H**2,
            ),
            premise("definition", "Current distortion power is rms voltage times rms harmonics.", D_I, V * I_H),
            premise(
                "definition",
                "Apparent power is rms voltage times rms current; here both squared.",
                S**2,
                V**2 * I_rms**2,
            ),
            step(
                "The squares of the three add up to it.",
                S**2,
                P**2 + Q_1**2 + D_I**2,
                Substitution((11, 9, 8, 5, 7, 10)),
            ),
            step("The root: three edges of a box, and its diagonal.", S, sqrt(P**2 + Q_1**2 + D_I**2), Solution((12,))),
        ),
        assumptions=(SINE,),
        sources=(POWER_TERMS, FOURIER),
    )
