"""Strings: how many LEDs in series, and of which colours."""

from __future__ import annotations

from functools import cache

from .charge import CLAMP_BELOW_PEAK, derive_clamped_voltage, derive_load_line
from .engine.assumptions import FIRST_PRINCIPLES, IDEAL_LAMP
from .engine.derivation import Derivation, premise, quotation, step
from .engine.justification import Solution, Substitution
from .engine.numeric import Inequality
from .engine.symbols import GLOSSARY, N_I, C, D, D_best, I_mean, N, N_b, N_best, V_d, V_f, V_fb, V_p, V_s, f, k_N, k_P
from .power import derive_best_clamped_voltage, derive_real_power

_AS_RATED = "Each LED drops its data sheet's voltage; at other currents it drops a few tenths of a volt less or more."
_power = GLOSSARY["P"].of


@cache
def derive_mixed_clamped_voltage() -> Derivation:
    """Clamped voltage of a string of two kinds of LED."""
    return Derivation(
        name="mixed_clamped_voltage",
        title="Clamped voltage of a string of two colours",
        question="LEDs of two colours stand in one string: what is the bridge held at?",
        steps=(
            premise(
                "circuit",
                "In series each takes the same current and drops what its colour drops.",
                V_s,
                N * V_f + N_b * V_fb,
            ),
            quotation("The bridge adds two diodes.", derive_clamped_voltage()),
            step(
                "Put together: the order and the mixture do not matter, the sum does.",
                D,
                N * V_f + N_b * V_fb + 2 * V_d,
                Substitution((2, 1)),
            ),
        ),
        assumptions=(_AS_RATED,),
        sources=(FIRST_PRINCIPLES,),
    )


@cache
def derive_in_series_for_current() -> Derivation:
    """LEDs in series that leave a wanted current."""
    lost = I_mean / (4 * f * C)
    return Derivation(
        name="in_series_for_current",
        title="LEDs in series for a wanted current",
        question="The dropper is there and the current is chosen: how many LEDs belong in series?",
        steps=(
            quotation("The load line leaves this voltage.", derive_load_line()),
            premise("circuit", "It is taken up by the LEDs and two diodes.", D, N_I * V_f + 2 * V_d),
            step("Solved for the number.", N_I, (V_p - lost - 2 * V_d) / V_f, Solution((2, 1))),
        ),
        assumptions=(*IDEAL_LAMP, _AS_RATED),
        sources=(FIRST_PRINCIPLES,),
        conditions=(
            Inequality(lost + 2 * V_d, V_p, "V", "the dropper does not give so much current even without LEDs"),
        ),
    )


@cache
def derive_in_series_of_greatest_power() -> Derivation:
    """LEDs in series that take the most power."""
    return Derivation(
        name="in_series_of_greatest_power",
        title="LEDs in series for the greatest power",
        question="How many LEDs in series take the most power, whatever the dropper?",
        steps=(
            quotation("Power is greatest here.", derive_best_clamped_voltage()),
            premise(
                "circuit", "There the LEDs and two diodes make up the clamped voltage.", D_best, N_best * V_f + 2 * V_d
            ),
            step(
                "Solved for the number. The dropper is not in it.", N_best, (V_p / 2 - 2 * V_d) / V_f, Solution((2, 1))
            ),
        ),
        assumptions=(*IDEAL_LAMP, _AS_RATED),
        sources=(FIRST_PRINCIPLES,),
        conditions=(Inequality(2 * V_d, V_p / 2, "V", "the diodes alone take half of the mains' peak"),),
    )


@cache
def derive_power_of_more_leds() -> Derivation:
    """Power with so many times the LEDs."""
    return Derivation(
        name="power_of_more_leds",
        title="Power with so many times the LEDs",
        question="Twice the LEDs: how many times the power?",
        steps=(
            quotation("Power against clamped voltage.", derive_real_power(), function_of=D),
            premise(
                "definition",
                "Power after over power before, with the clamped voltage so many times as large.",
                k_P,
                _power(k_N * D) / _power(D),
            ),
            step(
                "The dropper and the frequency are gone. More voltage, and less left to push the current.",
                k_P,
                k_N * (V_p - k_N * D) / (V_p - D),
                Substitution((2, 1)),
            ),
        ),
        assumptions=IDEAL_LAMP,
        sources=(FIRST_PRINCIPLES,),
        conditions=(
            CLAMP_BELOW_PEAK,
            Inequality(k_N * D, V_p, "V", "with so many LEDs the lamp stays dark", or_equal=True),
        ),
    )
