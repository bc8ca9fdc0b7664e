"""Discharge: how the dropper is emptied through its bleeder after unplugging, and what of it shows on the pins."""

from __future__ import annotations

from functools import cache

from sympy import Derivative, exp, log

from .engine.assumptions import DISCHARGE_BOOK, DISCHARGE_LIMITS, LOOP_LAW
from .engine.derivation import Derivation, premise, quotation, step
from .engine.example import Example
from .engine.justification import Reasoning, Solution
from .engine.numeric import Inequality
from .engine.symbols import GLOSSARY, V_0, C, R_b, V_bus, V_d, V_lim, V_m, t

u, U = GLOSSARY["u"].of, GLOSSARY["u"].symbol
_ALONE = (
    "Nothing but the bleeder empties the dropper: no hand, no meter, no mains filter.",
    "A figure for choosing a part, no promise that anything is discharged: prove that by measuring, each time, as "
    "local codes and licensed practice ask.",
)
_NOT_THE_PINS = (
    "This is what the dropper holds. A meter between the plug's pins shows less, or nothing: the charged bus stands "
    "against the dropper, behind the bridge."
)
_STANDS_AGAINST = "the bus stands against the dropper, the bridge blocks, and a meter shows nothing of what is held"
_ABOVE_LIMIT = Inequality(
    V_lim, V_0, "V", "the capacitor starts at or below the limit, so there is nothing to wait for"
)


@cache
def derive_residual_voltage() -> Derivation:
    """Voltage left on the dropper after a time."""
    return Derivation(
        name="residual_voltage",
        title="What the dropper holds after unplugging",
        question="What voltage does the dropper still hold, so long after unplugging?",
        steps=(
            premise(
                "law", "What the capacitor loses flows through the bleeder.", C * Derivative(u(t), t) + u(t) / R_b, 0
            ),
            premise("circuit", "It starts at the voltage it had when unplugged, at worst the mains' peak.", u(0), V_0),
            step(
                "The one curve that satisfies both.", u(t), V_0 * exp(-t / (R_b * C)), Reasoning((1, 2), _solves_decay)
            ),
        ),
        assumptions=(*_ALONE, _NOT_THE_PINS),
        sources=(DISCHARGE_BOOK,),
        example=Example(
            {"time": "2e-6", "bleeder": "44", "dropper": "0.1e-6", "initial_voltage": "220"},
            "Rashid, Power Electronics, 4th edition, example 2.4",
        ),
    )


def _solves_decay(new, law, start):
    return ((law.lhs - law.rhs).xreplace({new.lhs: new.rhs}).doit(), new.rhs.subs(t, 0) - start.rhs, new.lhs - u(t))


@cache
def derive_discharge_time() -> Derivation:
    """Time until the voltage has fallen to a limit."""
    return Derivation(
        name="discharge_time",
        title="Time to fall to a limit",
        question="How long after unplugging does the dropper's voltage take to fall to a limit?",
        steps=(
            quotation("The voltage against time.", derive_residual_voltage(), function_of=t),
            premise("definition", "At the time looked for it is at the limit.", u(t), V_lim),
            step(
                "So the two right sides are equal.",
                V_lim,
                V_0 * exp(-t / (R_b * C)),
                Reasoning(
                    (1, 2), lambda new, curve, limit: (new.rhs - curve.rhs, new.lhs - limit.rhs, curve.lhs - limit.lhs)
                ),
            ),
            step("Solved for the time.", t, R_b * C * log(V_0 / V_lim), Solution((3,))),
        ),
        assumptions=_ALONE,
        sources=(DISCHARGE_BOOK, DISCHARGE_LIMITS),
        conditions=(_ABOVE_LIMIT,),
    )


@cache
def derive_largest_bleeder() -> Derivation:
    """Largest bleeder that still empties the dropper in time."""
    return Derivation(
        name="largest_bleeder",
        title="Largest bleeder",
        question="How large may the bleeder be if the dropper's voltage is to fall to a limit within a time?",
        steps=(
            quotation("The time that a bleeder takes.", derive_discharge_time()),
            step(
                "Solved for the bleeder. The next smaller preferred value is taken, its tolerance counted in.",
                R_b,
                t / (C * log(V_0 / V_lim)),
                Solution((1,)),
            ),
        ),
        assumptions=_ALONE,
        sources=(DISCHARGE_BOOK, DISCHARGE_LIMITS),
        conditions=(_ABOVE_LIMIT,),
    )


@cache
def derive_pins_voltage() -> Derivation:
    """What a meter between the plug's pins shows of what the dropper holds."""
    return Derivation(
        name="pins_voltage",
        title="Volts between the pins",
        question="What does a meter between the pins of a pulled plug show?",
        steps=(
            premise(
                "circuit",
                "From one pin to the other the current passes the dropper, a diode, the bus and a diode: once round, "
                "what the dropper holds stands across meter, diodes and bus.",
                U,
                V_m + 2 * V_d + V_bus,
            ),
            step(
                "Solved for the meter. Nothing between the pins is no proof that the dropper is empty.",
                V_m,
                U - 2 * V_d - V_bus,
                Solution((1,)),
            ),
        ),
        assumptions=(
            "A meter takes some microamperes: too few for the inrush resistor to matter.",
            "All four diodes are sound. A short in the bridge or across the bus lets all of it out to the pins.",
            "No figure here is a leave to touch anything: what a capacitor holds is measured across its own leads, by "
            "those who are trained and allowed to, as local codes and licensed practice ask.",
        ),
        sources=(LOOP_LAW,),
        example=Example({"dropper_voltage": "255", "bus_voltage": "66", "diode_voltage": "0.5"}),
        conditions=(Inequality(V_bus + 2 * V_d, U, "V", _STANDS_AGAINST),),
    )
