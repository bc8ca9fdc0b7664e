"""Energy: what a lamp takes from the mains in a year, and what that costs."""

from __future__ import annotations

from functools import cache

from .engine.assumptions import FIRST_PRINCIPLES
from .engine.derivation import Derivation, premise, quotation, step
from .engine.justification import Substitution
from .engine.symbols import P, W_a, W_h, c_a, c_E, t_a

_SAME_POWER = "The lamp takes the same power all the time that it is in use, and none while it is not."


@cache
def derive_energy_of_a_year() -> Derivation:
    """Energy taken in a year, in kilowatt-hours."""
    return Derivation(
        name="energy_of_a_year",
        title="Energy of a year",
        question="How much energy does the lamp take in a year?",
        steps=(
            premise("law", "Energy is power times time: watts times hours are watt-hours.", W_h, P * t_a),
            premise("definition", "The bill counts kilowatt-hours, a thousand watt-hours each.", W_a, W_h / 1000),
            step(
                "Put together. Real power counts: a household's meter leaves out the rest of the volt-amperes.",
                W_a,
                P * t_a / 1000,
                Substitution((2, 1)),
            ),
        ),
        assumptions=(_SAME_POWER,),
        sources=(FIRST_PRINCIPLES,),
    )


@cache
def derive_cost_of_a_year() -> Derivation:
    """Cost of that energy, in any currency."""
    return Derivation(
        name="cost_of_a_year",
        title="Cost of a year",
        question="What does a year of light cost?",
        steps=(
            quotation("The energy of a year.", derive_energy_of_a_year()),
            premise("definition", "Each kilowatt-hour has its price.", c_a, c_E * W_a),
            step("Put together, in the currency of the price.", c_a, P * t_a * c_E / 1000, Substitution((2, 1))),
        ),
        assumptions=(_SAME_POWER, "One price for every kilowatt-hour; standing charges are left out."),
        sources=(FIRST_PRINCIPLES,),
    )
