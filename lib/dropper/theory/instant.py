"""Instant: one moment while the bridge conducts: mains, line current, and the charge moved so far."""

from __future__ import annotations

from functools import cache

from sympy import cos, pi, sin, sqrt

from .charge import CLAMP_BELOW_PEAK
from .conduction import line_current_steps
from .engine.assumptions import CAPACITOR_LAW, FIRST_PRINCIPLES, IDEAL_LAMP, SINE
from .engine.derivation import Derivation, premise, quotation, step
from .engine.justification import Substitution
from .engine.symbols import GLOSSARY, C, D, Q, V, V_p, f, theta, u_1
from .reactance import derive_peak_voltage

i, v, u = GLOSSARY["i"].of, GLOSSARY["v"].of, GLOSSARY["u"].of


@cache
def derive_mains_voltage_at() -> Derivation:
    """Mains voltage at a phase angle."""
    return Derivation(
        name="mains_voltage_at",
        title="Mains voltage at one moment",
        question="How far is the mains from zero at this point of its cycle?",
        steps=(
            premise(
                "definition",
                "The mains is a sine of its phase angle, which starts where it rises through zero.",
                v(theta),
                V_p * sin(theta),
            ),
            quotation("Its peak.", derive_peak_voltage()),
            step("In rms volts, as a meter shows them.", v(theta), sqrt(2) * V * sin(theta), Substitution((1, 2))),
        ),
        assumptions=(SINE,),
        sources=(FIRST_PRINCIPLES,),
    )


@cache
def derive_line_current_at() -> Derivation:
    """Line current at a phase angle at which the bridge conducts."""
    return Derivation(
        name="line_current_at",
        title="Line current at one moment",
        question="How much current flows now, while the bridge conducts?",
        steps=(
            *line_current_steps()[:2],
            step(
                "So the current is the same cosine as into a short circuit; it has come down to nothing at the crest.",
                i(theta),
                2 * pi * f * C * V_p * cos(theta),
                Substitution((1, 2)),
            ),
        ),
        assumptions=IDEAL_LAMP,
        sources=(FIRST_PRINCIPLES, CAPACITOR_LAW),
    )


@cache
def derive_charge_so_far() -> Derivation:
    """Charge moved since conduction began in the positive half cycle."""
    return Derivation(
        name="charge_so_far",
        title="Charge moved so far",
        question="How much of a half cycle's charge has gone through the bridge by now?",
        steps=(
            premise(
                "circuit",
                "From the negative crest on nothing flowed; the dropper kept the voltage it had there.",
                u_1,
                -(V_p - D),
            ),
            premise(
                "circuit",
                "While the bridge conducts, the dropper has what the mains leaves it.",
                u(theta),
                v(theta) - D,
            ),
            premise("definition", "The mains is a sine of its phase angle.", v(theta), V_p * sin(theta)),
            premise(
                "law",
                "The charge that went through is the capacitance times the change of voltage.",
                Q,
                C * (u(theta) - u_1),
            ),
            step(
                "Put together: nothing at the start, and the whole charge at the crest.",
                Q,
                C * (V_p * (1 + sin(theta)) - 2 * D),
                Substitution((4, 2, 3, 1)),
            ),
        ),
        assumptions=IDEAL_LAMP,
        sources=(FIRST_PRINCIPLES,),
        conditions=(CLAMP_BELOW_PEAK,),
    )
