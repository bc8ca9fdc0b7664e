"""Discharge: how the dropper is emptied through its bleeder after unplugging."""

from __future__ import annotations

from functools import cache

from sympy import Derivative, exp, log

from .engine.assumptions import DISCHARGE_BOOK, DISCHARGE_LIMITS
from .engine.derivation import Derivation, premise, quotation, step
from .engine.example import Example
from .engine.justification import Reasoning, Solution
from .engine.numeric import Inequality
from .engine.symbols import GLOSSARY, V_0, C, R_b, V_lim, t

u = GLOSSARY["u"].of
_ALONE = (
    "Nothing but the bleeder empties the dropper: no hand, no meter, no mains filter.",
    "A figure for choosing a part, no promise that anything is discharged: prove that by measuring, each time, as "
    "local codes and licensed practice ask.",
)
_ABOVE_LIMIT = Inequality(
    V_lim, V_0, "V", "the capacitor starts at or below the limit, so there is nothing to wait for"
)


@cache
def derive_residual_voltage() -> Derivation:
    """Voltage left on the dropper after a time."""
    return Derivation(
        name="residual_voltage",
        title="Voltage left after unplugging",
        question="What voltage is left on the dropper, and so on the plug's pins, after a time?",
        steps=(
            premise(
                "law", "What the capacitor loses flows through the bleeder.", C * Derivative(u(t), t) + u(t) / R_b, 0
            ),
            premise("circuit", "It starts at the voltage it had when unplugged, at worst the mains' peak.", u(0), V_0),
            step(
                "The one curve that satisfies both.", u(t), V_0 * exp(-t / (R_b * C)), Reasoning((1, 2), _solves_decay)
            ),
        ),
        assumptions=_ALONE,
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
        question="How long after unplugging does the voltage take to fall to a limit?",
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
        question="How large may the bleeder be if the voltage is to fall to a limit within a time?",
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
