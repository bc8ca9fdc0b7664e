"""Metering: what a meter does to its own reading, by its averaging, its input resistance or its phase error."""

from __future__ import annotations

from functools import cache

from sympy import Integral, acos, cos, pi, sin, sqrt

from .charge import CLAMP_BELOW_PEAK, derive_mean_string_current
from .engine.assumptions import FIRST_PRINCIPLES, IDEAL_LAMP, LOOP_LAW, OHMS_LAW, POWER_TERMS, RMS, SINE
from .engine.derivation import Derivation, premise, quotation, step
from .engine.justification import Solution, Substitution
from .engine.symbols import (
    GLOSSARY,
    I_1,
    PF_1,
    C,
    D,
    I_av,
    I_mean,
    P,
    P_m,
    R_b,
    R_bm,
    R_in,
    R_o,
    V,
    V_m,
    V_p,
    V_x,
    X_av,
    eps,
    f,
    k_f,
    phi,
    theta,
    x_P,
    x_ra,
)
from .reactance import derive_peak_voltage

v = GLOSSARY["v"].of
_AVERAGING = "The meter rectifies what it is given, takes the mean, and has a scale that is right for a sine."


def _form_factor():
    return (
        premise("definition", "The meter is set so that it is right for a sine.", v(theta), V_p * sin(theta)),
        premise(
            "definition", "It takes the mean of the rectified wave.", x_ra, Integral(v(theta), (theta, 0, pi)) / pi
        ),
        step("Of a sine that is two over pi of its peak.", x_ra, 2 * V_p / pi, Substitution((2, 1))),
        quotation("The sine's peak and its rms value.", derive_peak_voltage()),
        premise(
            "definition", "Its scale is drawn with the factor between rms value and rectified mean.", k_f, V / x_ra
        ),
        step("Of a sine, about 1.11.", k_f, pi / (2 * sqrt(2)), Substitution((5, 3, 4))),
    )


@cache
def derive_form_factor_of_sine() -> Derivation:
    """Rms value over rectified mean of a sine, about 1.11."""
    return Derivation(
        name="form_factor_of_sine",
        title="Form factor of a sine",
        question="With what factor does an averaging meter turn a mean into rms volts or amperes?",
        steps=_form_factor(),
        assumptions=(_AVERAGING,),
        sources=(RMS,),
    )


@cache
def derive_averaging_reading() -> Derivation:
    """What an averaging meter shows of any wave."""
    return Derivation(
        name="averaging_reading",
        title="Reading of an averaging meter",
        question="What does a meter without true rms show of a wave that is no sine?",
        steps=(
            premise(
                "definition", "It multiplies the rectified mean, whatever the wave, by its factor.", X_av, k_f * x_ra
            ),
            quotation("The factor is a sine's.", derive_form_factor_of_sine()),
            step(
                "Put together. It is the rms value of a sine only.",
                X_av,
                pi * x_ra / (2 * sqrt(2)),
                Substitution((1, 2)),
            ),
        ),
        assumptions=(_AVERAGING,),
        sources=(RMS,),
    )


@cache
def derive_averaging_meter_current() -> Derivation:
    """What an averaging ammeter in the line of a lamp shows."""
    return Derivation(
        name="averaging_meter_current",
        title="Line current on an averaging meter",
        question="What does an ammeter without true rms show in the line of a dropper lamp?",
        steps=(
            premise(
                "circuit",
                "The bridge is the rectifier: the mean of the rectified line current is the string's, and "
                "the meter shows its factor times that.",
                I_av,
                k_f * I_mean,
            ),
            quotation("The factor is a sine's.", derive_form_factor_of_sine()),
            quotation("The string's mean current.", derive_mean_string_current()),
            step(
                "Put together: 1.11 times the string's current, and less than the true rms.",
                I_av,
                pi * sqrt(2) * f * C * (V_p - D),
                Substitution((1, 2, 3)),
            ),
        ),
        assumptions=(*IDEAL_LAMP, _AVERAGING),
        sources=(FIRST_PRINCIPLES,),
        conditions=(CLAMP_BELOW_PEAK,),
    )


@cache
def derive_loaded_voltage() -> Derivation:
    """What a voltmeter shows of a voltage behind a resistance."""
    return Derivation(
        name="loaded_voltage",
        title="Voltage under a meter's load",
        question="How far does a voltmeter pull down what it measures?",
        steps=(
            premise(
                "law",
                "The same current flows through the source's resistance and through the meter.",
                (V_x - V_m) / R_o,
                V_m / R_in,
            ),
            step("Solved for the voltage at the meter: a divider.", V_m, V_x * R_in / (R_in + R_o), Solution((1,))),
        ),
        assumptions=("Source and meter are plain resistances.",),
        sources=(LOOP_LAW, OHMS_LAW),
    )


@cache
def derive_bleeder_with_meter() -> Derivation:
    """A bleeder with a voltmeter across it."""
    return Derivation(
        name="bleeder_with_meter",
        title="A bleeder with a meter across it",
        question="How fast does a meter across the dropper's own leads empty what it measures?",
        steps=(
            premise(
                "law",
                "Across the capacitor's own leads bleeder and meter stand side by side: their conductances add.",
                1 / R_bm,
                1 / R_b + 1 / R_in,
            ),
            step(
                "As one resistance. Without a bleeder the meter alone empties the capacitor, in its own time.",
                R_bm,
                R_b * R_in / (R_b + R_in),
                Solution((1,)),
            ),
        ),
        assumptions=(
            "The meter stays on; a short touch of the probes takes less.",
            "It is across the capacitor itself. Between the plug's pins the bridge and the charged bus stand between.",
        ),
        sources=(OHMS_LAW,),
    )


@cache
def derive_power_error_of_phase() -> Derivation:
    """What a meter's phase error does to its watts."""
    return Derivation(
        name="power_error_of_phase",
        title="Watts of a meter with a phase error",
        question="How far off are the watts if the meter sees the current a little too late?",
        steps=(
            premise(
                "definition",
                "Only the fundamental of the current gives real power; phi is its angle.",
                P,
                V * I_1 * cos(phi),
            ),
            premise(
                "definition", "The meter sees that angle smaller by its phase error.", P_m, V * I_1 * cos(phi - eps)
            ),
            premise("definition", "The error as a fraction of the true power.", x_P, P_m / P - 1),
            step("Put together.", x_P, cos(phi - eps) / cos(phi) - 1, Substitution((3, 2, 1))),
            premise("definition", "The displacement factor is that angle's cosine.", phi, acos(PF_1)),
            step(
                "The smaller the displacement factor, the worse.",
                x_P,
                cos(acos(PF_1) - eps) / PF_1 - 1,
                Substitution((4, 5)),
            ),
        ),
        assumptions=(SINE, "The meter is right in everything else."),
        sources=(POWER_TERMS,),
    )
