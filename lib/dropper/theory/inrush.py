"""Inrush: the peak current of plugging in, the resistor that limits it, and the energy that it turns to heat."""

from __future__ import annotations

from functools import cache

from sympy import Derivative, Integral, Rational, exp, oo

from .engine.assumptions import FIRST_PRINCIPLES, INRUSH_BOOK, STEP, SURGE_NOTE, WORST_PLUG
from .engine.derivation import Derivation, premise, quotation, step
from .engine.example import Example
from .engine.justification import Reasoning, Solution, Substitution
from .engine.symbols import GLOSSARY, I_0, C, I_max, R_i, V_p, V_step, W, t, u_1

i, u = GLOSSARY["i"].of, GLOSSARY["u"].of


@cache
def derive_inrush_current() -> Derivation:
    """Inrush current against time."""
    return Derivation(
        name="inrush_current",
        title="Inrush current",
        question="How does the current die away after the lamp is plugged in?",
        steps=(
            premise("circuit", "Resistor and dropper share the step between them.", R_i * i(t) + u(t), V_step),
            premise(
                "law",
                "A capacitor's current is its capacitance times the rate at which its voltage changes.",
                i(t),
                C * Derivative(u(t), t),
            ),
            premise("circuit", "The dropper starts empty: any charge on it is counted with the step.", u(0), 0),
            step(
                "The voltage that satisfies all three.",
                u(t),
                V_step * (1 - exp(-t / (R_i * C))),
                Reasoning((1, 2, 3), _solves_circuit),
            ),
            step("And the current.", i(t), V_step / R_i * exp(-t / (R_i * C)), Substitution((2, 4))),
        ),
        assumptions=STEP,
        sources=(FIRST_PRINCIPLES, INRUSH_BOOK),
        example=Example({"time": "100e-6", "inrush_resistor": "220", "dropper": "470e-9", "step_voltage": "325"}),
    )


def _solves_circuit(new, loop, capacitor, start):
    voltage = new.rhs
    current = capacitor.rhs.xreplace({new.lhs: voltage}).doit()
    return (
        (loop.lhs - loop.rhs).xreplace({capacitor.lhs: current, new.lhs: voltage}),
        voltage.subs(t, 0) - start.rhs,
        new.lhs - u(t),
    )


@cache
def derive_inrush_peak() -> Derivation:
    """Peak of the inrush current."""
    return Derivation(
        name="inrush_peak",
        title="Peak of the inrush current",
        question="How much current flows in the first instant?",
        steps=(
            quotation("The current against time.", derive_inrush_current(), function_of=t),
            premise("definition", "It is greatest at the start.", I_0, i(0)),
            step(
                "Only the resistor limits it where the mains has no inductance; any that it has lets less through. At"
                " the worst moment the step is the mains' peak.",
                I_0,
                V_step / R_i,
                Substitution((2, 1)),
            ),
        ),
        assumptions=STEP,
        sources=(FIRST_PRINCIPLES, INRUSH_BOOK),
        example=Example(
            {"inrush_resistor": "44", "step_voltage": "220"}, "Rashid, Power Electronics, 4th edition, example 2.4"
        ),
    )


@cache
def derive_surge_resistor() -> Derivation:
    """The resistor that keeps the inrush below a limit."""
    return Derivation(
        name="surge_resistor",
        title="Resistor for an inrush limit",
        question="How large must the resistor be for the diodes to stand the inrush?",
        steps=(
            quotation("The peak of the inrush.", derive_inrush_peak()),
            premise("definition", "It may just reach the limit.", I_0, I_max),
            premise("circuit", "The worst moment to plug in is the crest.", V_step, V_p),
            step("Solved for the resistor.", R_i, V_p / I_max, Solution((1, 2, 3))),
        ),
        assumptions=(*STEP, WORST_PLUG),
        sources=(SURGE_NOTE,),
        example=Example(
            {"peak_voltage": "1000", "greatest_current": "2.5"}, "the support note to Texas Instruments SBVS343A (2019)"
        ),
    )


@cache
def derive_inrush_energy() -> Derivation:
    """Energy turned to heat in the inrush resistor."""
    return Derivation(
        name="inrush_energy",
        title="Energy in the inrush resistor",
        question="How much heat does the resistor get in one inrush, and does a larger one get less?",
        steps=(
            quotation("The current against time.", derive_inrush_current(), function_of=t),
            premise(
                "law",
                "The energy is current squared times resistance, added up over time.",
                W,
                Integral(R_i * i(t) ** 2, (t, 0, oo)),
            ),
            step(
                "The resistance cancels: a larger one gets the same energy, only more slowly.",
                W,
                Rational(1, 2) * C * V_step**2,
                Substitution((2, 1)),
            ),
        ),
        assumptions=STEP,
        sources=(FIRST_PRINCIPLES, INRUSH_BOOK),
        example=Example(
            {"inrush_resistor": "44", "dropper": "0.1e-6", "step_voltage": "220"},
            "Rashid, Power Electronics, 4th edition, example 2.4",
        ),
        extra_inputs=(R_i,),
    )


@cache
def derive_replug_step() -> Derivation:
    """The worst step when a lamp is plugged in again at once."""
    return Derivation(
        name="replug_step",
        title="Step when plugged in again",
        question="What if the lamp is unplugged at a crest and plugged in again at the opposite one?",
        steps=(
            premise("circuit", "The step is the mains less what the dropper has kept.", V_step, V_p - u_1),
            premise(
                "circuit",
                "At worst the dropper has kept the mains' peak the other way round.",
                u_1,
                -V_p,
                assumption="no bleeder has had time to empty it, and the clamped voltage is small against the peak",
            ),
            step("Twice the peak: twice the current, four times the energy.", V_step, 2 * V_p, Substitution((1, 2))),
        ),
        assumptions=(WORST_PLUG,),
        sources=(FIRST_PRINCIPLES,),
    )
