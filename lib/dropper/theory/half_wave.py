"""Half wave: what the dropper feeds when one diode bridges it, and the capacitance that this takes."""

from __future__ import annotations

from functools import cache

from .engine.assumptions import HALF_WAVE_NOTE, NO_LEAK, NO_RESISTANCE, SINE
from .engine.derivation import Derivation, premise, quotation, step
from .engine.example import Example
from .engine.justification import Solution, Substitution
from .engine.numeric import Inequality
from .engine.symbols import C, I_mean, Q, V_d, V_o, V_p, f, u_1, u_2

OUTPUT_BELOW_SWING = Inequality(
    V_o + 2 * V_d, 2 * V_p, "V", "the swing of the mains never reaches the output and two diodes, and no current flows"
)
_PUMP = (SINE, NO_RESISTANCE, NO_LEAK, "The output is held steady by its own capacitor or a voltage reference diode.")


@cache
def derive_half_wave_current() -> Derivation:
    """Mean output current of a half-wave pump: two diodes instead of four."""
    return Derivation(
        name="half_wave_current",
        title="Current of a half-wave supply",
        question="How much current is left if two diodes pump one way instead of a bridge working both ways?",
        steps=(
            premise(
                "circuit", "At the negative crest one diode recharges the dropper, past the output.", u_1, -(V_p - V_d)
            ),
            premise(
                "circuit",
                "At the positive crest the other diode has passed the charge on to the output.",
                u_2,
                V_p - V_d - V_o,
            ),
            premise(
                "law",
                "The charge that went through is the capacitance times the change of voltage.",
                Q,
                C * (u_2 - u_1),
            ),
            premise("circuit", "It reaches the output once in a period.", I_mean, f * Q),
            step(
                "So the output gets this much.", I_mean, f * C * (2 * V_p - V_o - 2 * V_d), Substitution((4, 3, 1, 2))
            ),
        ),
        assumptions=_PUMP,
        sources=(HALF_WAVE_NOTE,),
        conditions=(OUTPUT_BELOW_SWING,),
    )


@cache
def derive_dropper_for_half_wave() -> Derivation:
    """The dropper that a half-wave supply needs."""
    return Derivation(
        name="dropper_for_half_wave",
        title="Dropper of a half-wave supply",
        question="How large a dropper does a half-wave supply need for a wanted current?",
        steps=(
            quotation("The current is known from the parts.", derive_half_wave_current()),
            step("Solved for the dropper.", C, I_mean / (f * (2 * V_p - V_o - 2 * V_d)), Solution((1,))),
        ),
        assumptions=_PUMP,
        sources=(HALF_WAVE_NOTE,),
        example=Example(
            {
                "frequency": "50",
                "peak_voltage": "311.1",
                "output_voltage": "20",
                "diode_voltage": "0.7",
                "string_current_mean": "0.015",
            },
            "Atmel user guide 7597B-AVR-10/07, appendix 2, which rounds to 0.5 µF",
        ),
        conditions=(OUTPUT_BELOW_SWING,),
    )
