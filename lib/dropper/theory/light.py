"""Light: how deep it flickers, in percent flicker and flicker index of the string's current, and the smoothing for it.

A swing here is the part of the string's current at twice the mains frequency, taken as a sine; its phase angle goes
from 0 to 2 pi in half a period of the mains.
"""

from __future__ import annotations

from functools import cache

from sympy import Integral, Rational, S, asin, pi, sin, sqrt

from .engine.assumptions import (
    FIRST_PRINCIPLES,
    FLICKER_TERMS,
    LIGHT_FOLLOWS,
    OHMS_LAW,
    SINE_SWING,
    SMALL_CHANGE,
    VISIBILITY_TERMS,
)
from .engine.derivation import Derivation, Step, premise, quotation, step
from .engine.justification import Solution, Substitution
from .engine.numeric import Inequality
from .engine.symbols import (
    GLOSSARY,
    K_L,
    C_s,
    Delta_V,
    F_i,
    F_p,
    I_high,
    I_low,
    I_mean,
    I_p,
    Phi_high,
    Phi_low,
    S_v,
    alpha,
    d,
    f,
    m,
    m_T,
    r_s,
    theta,
)
from .ripple import derive_current_modulation

i_s = GLOSSARY["i_s"].of
_NOT_BELOW_NOTHING = Inequality(m, S.One, "", "the string's current cannot fall below nothing", or_equal=True)
_SOME_SWING = Inequality(S.Zero, m, "", "no smoothing capacitor is so large that nothing swings")
_LESS_THAN_UNSMOOTHED = Inequality(
    m, Rational(2, 3) * sqrt(1 + 8 * d), "", "the current swings no more than that without any"
)


def _swing() -> Step:
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
            _swing(),
            premise(
                "definition", "It is greatest where the sine is one, after a quarter of the swing.", I_high, i_s(pi / 2)
            ),
            step("The mean and the swing's amplitude.", I_high, I_mean * (1 + m), Substitution((2, 1))),
        ),
        assumptions=(SINE_SWING,),
        sources=(FIRST_PRINCIPLES,),
        conditions=(_NOT_BELOW_NOTHING,),
    )


@cache
def derive_string_current_min_of_swing() -> Derivation:
    """Least string current of a swing."""
    return Derivation(
        name="string_current_min_of_swing",
        title="Least current of a swing",
        question="How far does the string's current fall below its mean?",
        steps=(
            _swing(),
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
        conditions=(_NOT_BELOW_NOTHING,),
    )


@cache
def derive_percent_flicker() -> Derivation:
    """Percent flicker from the extremes of the current."""
    return Derivation(
        name="percent_flicker",
        title="Percent flicker",
        question="How deep does the light flicker, judged by its brightest and its darkest instant?",
        steps=(
            premise(
                "definition",
                "Percent flicker: difference over sum of the extremes, in per cent.",
                F_p,
                100 * (Phi_high - Phi_low) / (Phi_high + Phi_low),
            ),
            premise("approximation", "The light follows the current: the most light.", Phi_high, K_L * I_high),
            premise("approximation", "The least light.", Phi_low, K_L * I_low),
            step(
                "How much light an ampere makes does not matter.",
                F_p,
                100 * (I_high - I_low) / (I_high + I_low),
                Substitution((1, 2, 3)),
            ),
        ),
        assumptions=(LIGHT_FOLLOWS,),
        sources=(FLICKER_TERMS,),
        conditions=(Inequality(I_low, I_high, "A", "the least current cannot be above the greatest", or_equal=True),),
    )


@cache
def derive_percent_flicker_of_swing() -> Derivation:
    """Percent flicker of a sine swing."""
    return Derivation(
        name="percent_flicker_of_swing",
        title="Percent flicker of a swing",
        question="What percent flicker belongs to a swing of the string's current?",
        steps=(
            quotation("Percent flicker.", derive_percent_flicker()),
            quotation("The greatest current.", derive_string_current_max_of_swing()),
            quotation("The least current.", derive_string_current_min_of_swing()),
            step(
                "The mean cancels: percent flicker is the amplitude over the mean, in per cent.",
                F_p,
                100 * m,
                Substitution((1, 2, 3)),
            ),
        ),
        assumptions=(LIGHT_FOLLOWS, SINE_SWING),
        sources=(FLICKER_TERMS,),
        conditions=(_NOT_BELOW_NOTHING,),
    )


@cache
def derive_flicker_index_of_swing() -> Derivation:
    """Flicker index of a sine swing."""
    return Derivation(
        name="flicker_index_of_swing",
        title="Flicker index of a swing",
        question="What flicker index belongs to a swing of the string's current?",
        steps=(
            _swing(),
            premise(
                "definition",
                "Flicker index: the area above the mean, here the first half of the swing, over the whole area.",
                F_i,
                Integral(i_s(theta) - I_mean, (theta, 0, pi)) / Integral(i_s(theta), (theta, 0, 2 * pi)),
            ),
            step("Worked out. A swing down to nothing has an index of one over pi.", F_i, m / pi, Substitution((2, 1))),
        ),
        assumptions=(LIGHT_FOLLOWS, SINE_SWING),
        sources=(FLICKER_TERMS,),
        conditions=(_NOT_BELOW_NOTHING,),
    )


@cache
def derive_flicker_index_of_rectified_sine() -> Derivation:
    """Flicker index of a rectified sine, a plain number."""
    index = sqrt(1 - 4 / pi**2) - 1 + 2 * asin(2 / pi) / pi
    return Derivation(
        name="flicker_index_of_rectified_sine",
        title="Flicker index of a rectified sine",
        question="What flicker index has a string without smoothing, next to a short circuit for the dropper?",
        steps=(
            premise(
                "circuit", "The current is a rectified sine; here one half cycle of it.", i_s(theta), I_p * sin(theta)
            ),
            premise("definition", "Its mean.", I_mean, Integral(i_s(theta), (theta, 0, pi)) / pi),
            step("Worked out.", I_mean, 2 * I_p / pi, Substitution((2, 1))),
            premise(
                "definition",
                "It passes the mean at this angle, and again as far before the end.",
                I_p * sin(alpha),
                I_mean,
            ),
            step("The angle.", alpha, asin(2 / pi), Solution((4, 3))),
            premise(
                "definition",
                "Flicker index: the area above the mean over the whole area.",
                F_i,
                Integral(i_s(theta) - I_mean, (theta, alpha, pi - alpha)) / Integral(i_s(theta), (theta, 0, pi)),
            ),
            step("Worked out: a plain number, 0.2105.", F_i, index, Substitution((6, 1, 3, 5))),
        ),
        assumptions=(LIGHT_FOLLOWS,),
        sources=(FLICKER_TERMS,),
    )


@cache
def derive_stroboscopic_visibility_of_swing() -> Derivation:
    """Stroboscopic visibility of a sine swing."""
    power = Rational(37, 10)
    return Derivation(
        name="stroboscopic_visibility_of_swing",
        title="Stroboscopic visibility of a swing",
        question="Does an average observer see the swing on things that move?",
        steps=(
            premise(
                "definition",
                "Each harmonic's swing is taken over the swing that is just visible at its frequency; "
                "their 3.7th powers add up. A sine has one harmonic only.",
                S_v,
                ((m / m_T) ** power) ** (1 / power),
            ),
            step(
                "For one harmonic the powers cancel: the swing over the one that is just visible.",
                S_v,
                m / m_T,
                Substitution((1,)),
            ),
        ),
        assumptions=(LIGHT_FOLLOWS, SINE_SWING),
        sources=(VISIBILITY_TERMS,),
        conditions=(_NOT_BELOW_NOTHING,),
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
        conditions=(_NOT_BELOW_NOTHING,),
    )
