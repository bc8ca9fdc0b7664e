"""Flicker: how far a light swings, as the measures of the trade have it."""

from __future__ import annotations

from functools import cache

from sympy import Integral, Rational, asin, pi, sin, sqrt

from .engine.assumptions import FLICKER_TERMS, LIGHT_FOLLOWS, SINE_SWING, VISIBILITY_TERMS
from .engine.derivation import Derivation, premise, quotation, step
from .engine.justification import Solution, Substitution
from .engine.numeric import Inequality
from .engine.symbols import K_L, F_i, F_p, I_high, I_low, I_mean, I_p, Phi_high, Phi_low, S_v, alpha, m, m_T, theta
from .light import (
    NOT_BELOW_NOTHING,
    derive_string_current_max_of_swing,
    derive_string_current_min_of_swing,
    i_s,
    swing_step,
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
        conditions=(NOT_BELOW_NOTHING,),
    )


@cache
def derive_flicker_index_of_swing() -> Derivation:
    """Flicker index of a sine swing."""
    return Derivation(
        name="flicker_index_of_swing",
        title="Flicker index of a swing",
        question="What flicker index belongs to a swing of the string's current?",
        steps=(
            swing_step(),
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
        conditions=(NOT_BELOW_NOTHING,),
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
        conditions=(NOT_BELOW_NOTHING,),
    )
