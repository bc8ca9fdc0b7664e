"""Reactance: why a capacitor limits the current and takes no power; short-circuit current, mean power."""

from __future__ import annotations

from functools import cache

from sympy import Derivative, Integer, Integral, cos, pi, sin, sqrt

from .engine.assumptions import CAPACITOR_LAW, LOSSLESS, NO_RESISTANCE, REFERENCE_IMPEDANCE, RMS, SINE
from .engine.derivation import Derivation, premise, quotation, step
from .engine.example import Example
from .engine.justification import Solution, Substitution
from .engine.numeric import Inequality
from .engine.symbols import GLOSSARY, P_C, X_C, C, C_line, I_p, I_sc, L_m, V, V_p, f, t, theta

v, i = GLOSSARY["v"].of, GLOSSARY["i"].of


@cache
def derive_peak_voltage() -> Derivation:
    """Peak of a sine from its rms value."""
    return Derivation(
        name="peak_voltage",
        title="Peak of the mains voltage",
        question="How high does a mains of so many volts rms rise at its crest?",
        steps=(
            premise("definition", "The mains is a sine of its phase angle.", v(theta), V_p * sin(theta)),
            premise(
                "definition",
                "The square of the rms value is the mean of the square over one period.",
                V**2,
                Integral(v(theta) ** 2, (theta, 0, 2 * pi)) / (2 * pi),
            ),
            step("The mean of a squared sine is one half.", V**2, V_p**2 / 2, Substitution((2, 1))),
            step("So the peak is the square root of two times the rms value.", V_p, sqrt(2) * V, Solution((3,))),
        ),
        assumptions=(SINE,),
        sources=(RMS,),
    )


@cache
def derive_crest_current() -> Derivation:
    """Peak current of a capacitor straight across the mains."""
    return Derivation(
        name="crest_current",
        title="Peak current into a short circuit",
        question="How much current flows at most if the dropper alone is across the mains?",
        steps=(
            premise(
                "law",
                "A capacitor's current is its capacitance times the rate at which its voltage changes.",
                i(t),
                C * Derivative(v(t), t),
            ),
            premise(
                "circuit",
                "With a short circuit behind it, the dropper has the whole mains across it.",
                v(t),
                V_p * sin(2 * pi * f * t),
            ),
            step(
                "Differentiating gives a current that leads by a quarter period.",
                i(t),
                2 * pi * f * C * V_p * cos(2 * pi * f * t),
                Substitution((1, 2)),
            ),
            premise("definition", "The current is greatest where the voltage rises through zero.", I_p, i(0)),
            step("There the cosine is one.", I_p, 2 * pi * f * C * V_p, Substitution((4, 3))),
        ),
        assumptions=(SINE, LOSSLESS, NO_RESISTANCE),
        sources=(CAPACITOR_LAW,),
    )


@cache
def derive_dropper_reactance() -> Derivation:
    """Reactance of the dropper: peak voltage over peak current."""
    return Derivation(
        name="dropper_reactance",
        title="Reactance of the dropper",
        question="How many volts does the dropper take for each ampere of sine current?",
        steps=(
            quotation("Straight across the mains, the dropper's current has this peak.", derive_crest_current()),
            premise("definition", "Reactance is the peak of the voltage over the peak of the current.", X_C, V_p / I_p),
            step("The voltage cancels.", X_C, 1 / (2 * pi * f * C), Substitution((2, 1))),
        ),
        assumptions=(SINE, LOSSLESS),
        sources=(CAPACITOR_LAW,),
        example=Example({"frequency": "50", "dropper": "330e-9"}, "Wikipedia, Capacitive power supply"),
    )


@cache
def derive_short_circuit_current() -> Derivation:
    """Rms current with a short circuit behind the dropper."""
    return Derivation(
        name="short_circuit_current",
        title="Rms current into a short circuit",
        question="What does an ammeter show if the dropper alone is across the mains?",
        steps=(
            quotation("The current has this peak.", derive_crest_current()),
            premise("circuit", "It is a cosine of the phase angle.", i(theta), I_p * cos(theta)),
            premise(
                "definition",
                "The square of the rms value is the mean of the square over one period.",
                I_sc**2,
                Integral(i(theta) ** 2, (theta, 0, 2 * pi)) / (2 * pi),
            ),
            step("The mean of a squared cosine is one half.", I_sc**2, I_p**2 / 2, Substitution((3, 2))),
            step("So the rms value is the peak over the square root of two.", I_sc, I_p / sqrt(2), Solution((4,))),
            quotation("The mains' peak and rms value stand in the same ratio.", derive_peak_voltage()),
            step(
                "In rms values: mains voltage over reactance. It is no string's current: a string gets less.",
                I_sc,
                2 * pi * f * C * V,
                Substitution((5, 1, 6)),
            ),
        ),
        assumptions=(SINE, LOSSLESS, NO_RESISTANCE),
        sources=(CAPACITOR_LAW, RMS),
    )


@cache
def derive_mean_capacitor_power() -> Derivation:
    """The mean of voltage times current over a period is zero."""
    return Derivation(
        name="mean_capacitor_power",
        title="Mean power of a capacitor on the mains",
        question="Does the dropper burn, as heat, the voltage that it takes?",
        steps=(
            premise(
                "law",
                "A capacitor's current is its capacitance times the rate at which its voltage changes.",
                i(t),
                C * Derivative(v(t), t),
            ),
            premise("circuit", "Its voltage is the mains.", v(t), V_p * sin(2 * pi * f * t)),
            step(
                "The current leads by a quarter period.",
                i(t),
                2 * pi * f * C * V_p * cos(2 * pi * f * t),
                Substitution((1, 2)),
            ),
            step(
                "Voltage times current swings at twice the frequency, as far below zero as above: what is taken in "
                "one quarter period is given back in the next.",
                v(t) * i(t),
                pi * f * C * V_p**2 * sin(4 * pi * f * t),
                Substitution((3, 2)),
            ),
            premise(
                "definition",
                "The mean power is the mean of voltage times current over one period.",
                P_C,
                f * Integral(v(t) * i(t), (t, 0, 1 / f)),
            ),
            step(
                "It is nothing. (A real dropper has small losses; they warm it, but they drop no voltage.)",
                P_C,
                0,
                Substitution((5, 4)),
            ),
        ),
        assumptions=(SINE, LOSSLESS),
        sources=(CAPACITOR_LAW,),
        extra_inputs=(f, C, V_p),
    )


@cache
def derive_dropper_behind_line() -> Derivation:
    """The dropper that alone would do what dropper and mains' inductance do together."""
    return Derivation(
        name="dropper_behind_line",
        title="Dropper behind the mains' own inductance",
        question="How much more capacitance does the mains' inductance let a dropper seem to have?",
        steps=(
            quotation("The dropper has this reactance.", derive_dropper_reactance()),
            premise(
                "law",
                "The volts on an inductance stand against those on a capacitor in the same line, so that its reactance "
                "is taken off; what is left is that of a dropper which stands there alone.",
                1 / (2 * pi * f * C_line),
                X_C - 2 * pi * f * L_m,
            ),
            step(
                "Solved. On a mains it is a few parts in a hundred thousand more.",
                C_line,
                C / (1 - (2 * pi * f) ** 2 * L_m * C),
                Solution((2, 1)),
            ),
        ),
        assumptions=(SINE, LOSSLESS),
        sources=(CAPACITOR_LAW, REFERENCE_IMPEDANCE),
        conditions=(
            Inequality(
                (2 * pi * f) ** 2 * L_m * C, Integer(1), "", "with more the mains' inductance outweighs the dropper"
            ),
        ),
    )
