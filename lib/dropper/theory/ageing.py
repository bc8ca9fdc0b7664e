"""Ageing: how a film capacitor loses capacitance over the years, if each year takes the same part of it."""

from __future__ import annotations

from functools import cache

from sympy import S

from .engine.assumptions import FILM_LOSS
from .engine.derivation import Derivation, premise, quotation, step
from .engine.justification import Reasoning, Solution, Substitution
from .engine.numeric import Inequality
from .engine.symbols import GLOSSARY, C, a_C, k_C, y_C

left = GLOSSARY["C_y"].of
_SCENARIO = (
    "A scenario: each year takes the same part of what is there. Real capacitors lose by steps, where surges of the "
    "mains burn specks of metal away, and faster where it is warm and damp (from memory).",
)
_SOME_TIME = Inequality(S.Zero, y_C, "", "nothing is lost in no time")


@cache
def derive_remaining_capacitance() -> Derivation:
    """Capacitance left after years."""
    return Derivation(
        name="remaining_capacitance",
        title="Capacitance left after years",
        question="How much of its capacitance does the dropper still have after some years?",
        steps=(
            premise(
                "approximation",
                "Each year takes the same part of what there was at its start.",
                left(y_C + 1),
                (1 - a_C) * left(y_C),
            ),
            premise("definition", "It starts whole.", left(0), C),
            step(
                "The curve through both: as with interest, only downwards.",
                left(y_C),
                C * (1 - a_C) ** y_C,
                Reasoning((1, 2), _solves_yearly),
            ),
        ),
        assumptions=_SCENARIO,
        sources=(FILM_LOSS,),
    )


def _solves_yearly(new, law, start):
    def at(years):
        return new.rhs.subs(y_C, years)

    return (
        law.lhs.xreplace({left(y_C + 1): at(y_C + 1)}) - law.rhs.xreplace({left(y_C): new.rhs}),
        at(0) - start.rhs,
        new.lhs - left(y_C),
    )


@cache
def derive_loss_each_year() -> Derivation:
    """Loss of each year from what is kept after several."""
    return Derivation(
        name="loss_each_year",
        title="Loss of each year",
        question="A capacitor has kept a part of its capacitance over some years; how much went in each?",
        steps=(
            quotation("What is left after years.", derive_remaining_capacitance(), function_of=y_C),
            premise("definition", "The part that was kept.", k_C, left(y_C) / C),
            step("The capacitance itself cancels.", k_C, (1 - a_C) ** y_C, Substitution((2, 1))),
            step("Solved for the loss of a year.", a_C, 1 - k_C ** (1 / y_C), Solution((3,))),
        ),
        assumptions=_SCENARIO,
        sources=(FILM_LOSS,),
        conditions=(_SOME_TIME,),
    )
