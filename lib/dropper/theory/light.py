"""Light: how far the string's current swings, and the smoothing that a swing asks for.

A swing here is the part of the string's current at twice the mains frequency, taken as a sine; its phase angle goes
from 0 to 2 pi in half a period of the mains.
"""

from __future__ import annotations

from functools import cache

from sympy import Rational, S, pi, sin, sqrt

from .engine.assumptions import FIRST_PRINCIPLES, OHMS_LAW, SINE_SWING, SMALL_CHANGE
from .engine.derivation import Derivation, Step, premise, quotation, step
from .engine.justification import Solution, Substitution
from .engine.numeric import Inequality
from .engine.symbols import GLOSSARY, C_s, Delta_V, I_high, I_low, I_mean, d, f, m, r_s, theta
from .ripple import derive_current_modulation

i_s = GLOSSARY["i_s"].of
NOT_BELOW_NOTHING = Inequality(m, S.One, "", "the string's current cannot fall below nothing", or_equal=True)
_SOME_SWING = Inequality(S.Zero, m, "", "no smoothing capacitor is so large that nothing swings")
_LESS_THAN_UNSMOOTHED = Inequality(
    m, Rational(2, 3) * sqrt(1 + 8 * d), "", "the current swings no more than that without any"
)


def swing_step() -> Step:
    """The first step, shared: a mean current with a sine on it."""
    return premise(
        "definition",
        "The string's current swings about its mean, as a sine of the swing's own phase angle.",
        i_s(theta),
        I_mean * (1 + m * sin(theta)),
    )


@cache
def derive_string_current_max_of_swing() -> Derivation:
    """Greatest string current of a swing."""
    return Derivation(
        name="string_current_max_of_swing",
        title="Greatest current of a swing",
        question="How far does the string's current rise above its mean?",
        steps=(
            swing_step(),
            premise(
                "definition", "It is greatest where the sine is one, after a quarter of the swing.", I_high, i_s(pi / 2)
            ),
            step("The mean and the swing's amplitude.", I_high, I_mean * (1 + m), Substitution((2, 1))),
        ),
        assumptions=(SINE_SWING,),
        sources=(FIRST_PRINCIPLES,),
        conditions=(NOT_BELOW_NOTHING,),
    )


@cache
def derive_string_current_min_of_swing() -> Derivation:
    """Least string current of a swing."""
    return Derivation(
        name="string_current_min_of_swing",
        title="Least current of a swing",
        question="How far does the string's current fall below its mean?",
        steps=(
            swing_step(),
            premise(
                "definition",
                "It is least where the sine is minus one, after three quarters of the swing.",
                I_low,
                i_s(3 * pi / 2),
            ),
            step("The mean less the swing's amplitude.", I_low, I_mean * (1 - m), Substitution((2, 1))),
        ),
        assumptions=(SINE_SWING,),
        sources=(FIRST_PRINCIPLES,),
        conditions=(NOT_BELOW_NOTHING,),
    )


@cache
def derive_smoothing_for_modulation() -> Derivation:
    """The smoothing capacitor that leaves a wanted swing."""
    return Derivation(
        name="smoothing_for_modulation",
        title="Smoothing for a wanted swing",
        question="How large a smoothing capacitor keeps the flicker within a limit?",
        steps=(
            quotation("The swing that is left.", derive_current_modulation()),
            step(
                "Solved for the capacitor: half the flicker takes about twice the capacitor.",
                C_s,
                sqrt(4 * (1 + 8 * d) / (9 * m**2) - 1) / (4 * pi * f * r_s),
                Solution((1,)),
            ),
        ),
        assumptions=derive_current_modulation().assumptions,
        sources=(FIRST_PRINCIPLES,),
        conditions=(_SOME_SWING, _LESS_THAN_UNSMOOTHED),
    )


@cache
def derive_bus_ripple_of_swing() -> Derivation:
    """Ripple of the bus that goes with a swing of the current."""
    return Derivation(
        name="bus_ripple_of_swing",
        title="Bus ripple of a swing",
        question="How much does the bus ripple while the string's current swings?",
        steps=(
            premise(
                "law",
                "For small changes the bus follows the current by the string's dynamic resistance.",
                Delta_V,
                r_s * (I_high - I_low),
            ),
            quotation("The greatest current.", derive_string_current_max_of_swing()),
            quotation("The least current.", derive_string_current_min_of_swing()),
            step(
                "Peak to peak, twice the amplitude. A few volts of ripple are much flicker, for the string is steep.",
                Delta_V,
                2 * m * I_mean * r_s,
                Substitution((1, 2, 3)),
            ),
        ),
        assumptions=(SINE_SWING, SMALL_CHANGE),
        sources=(FIRST_PRINCIPLES, OHMS_LAW),
        conditions=(NOT_BELOW_NOTHING,),
    )
