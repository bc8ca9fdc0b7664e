"""Tolerance: how far off the string's current is at the worst, by chance, and in a corner."""

from __future__ import annotations

from functools import cache

from sympy import Integral, S, sqrt

from .charge import CLAMP_BELOW_PEAK, derive_mean_string_current
from .engine.assumptions import FIRST_PRINCIPLES, IDEAL_LAMP
from .engine.derivation import Derivation, premise, quotation, step
from .engine.justification import Solution, Substitution
from .engine.numeric import Inequality
from .engine.symbols import (
    E_C,
    E_D,
    E_V,
    C,
    D,
    E_f,
    I_mean,
    I_new,
    V_p,
    f,
    mu_x,
    sigma_x,
    t_any,
    t_C,
    t_D,
    t_f,
    t_hi,
    t_lo,
    t_V,
    x,
    x_hi,
    x_lo,
    x_rss,
    x_sum,
)
from .sensitivity import (
    derive_elasticity_to_clamped_voltage,
    derive_elasticity_to_dropper,
    derive_elasticity_to_frequency,
    derive_elasticity_to_peak_voltage,
)

_SMALL = "Each tolerance is small: products of two of them are left out."
_ALONE = "No deviation knows of another: each part comes from a batch of its own."
_GUM = "JCGM 100:2008, guide to the expression of uncertainty in measurement"
_PROPAGATION = f"{_GUM}, 5.1.2: combined standard uncertainty of independent quantities (from memory)."
_STILL_LIT = Inequality(
    D * (1 + t_D), V_p * (1 - t_V), "V", "in the dimmest corner the mains does not reach the string: it is dark"
)
_OF_MAINS_AND_STRING = (V_p * t_V + D * t_D) / (V_p - D)


def _weights():
    """The four elasticities, quoted."""
    return (
        quotation("Weight of the mains voltage.", derive_elasticity_to_peak_voltage()),
        quotation("Weight of the dropper.", derive_elasticity_to_dropper()),
        quotation("Weight of the frequency.", derive_elasticity_to_frequency()),
        quotation(
            "Weight of the clamped voltage; more volts there mean less current.", derive_elasticity_to_clamped_voltage()
        ),
    )


@cache
def derive_worst_case_spread() -> Derivation:
    """Spread of the current if every part is at its bad end."""
    return Derivation(
        name="worst_case_spread",
        title="Worst case of the current",
        question="Mains, dropper, frequency and LEDs are all at their bad ends: how far off is the current?",
        steps=(
            *_weights(),
            premise(
                "approximation",
                "Each part brings its tolerance times its weight; at the bad ends all pull one way.",
                x_sum,
                E_V * t_V + E_C * t_C + E_f * t_f - E_D * t_D,
                assumption=_SMALL,
            ),
            step(
                "Dropper and frequency as they are; mains and string magnified by what the string leaves to the"
                " dropper.",
                x_sum,
                t_C + t_f + _OF_MAINS_AND_STRING,
                Substitution((5, 1, 2, 3, 4)),
            ),
        ),
        assumptions=(*IDEAL_LAMP, _SMALL),
        sources=(FIRST_PRINCIPLES,),
        conditions=(CLAMP_BELOW_PEAK,),
    )


@cache
def derive_root_sum_square_spread() -> Derivation:
    """Spread of the current if chance decides."""
    return Derivation(
        name="root_sum_square_spread",
        title="Spread of the current by chance",
        question="All parts at their bad ends at once is rare: how far off is the current by chance?",
        steps=(
            *_weights(),
            premise(
                "law",
                "Deviations that know nothing of each other add by their squares. Put in standard deviations"
                " and one comes out.",
                x_rss,
                sqrt((E_V * t_V) ** 2 + (E_C * t_C) ** 2 + (E_f * t_f) ** 2 + (E_D * t_D) ** 2),
                assumption=_ALONE,
            ),
            step(
                "The largest rules: one that is three times another makes nine tenths of the sum.",
                x_rss,
                sqrt(t_C**2 + t_f**2 + (V_p**2 * t_V**2 + D**2 * t_D**2) / (V_p - D) ** 2),
                Substitution((5, 1, 2, 3, 4)),
            ),
        ),
        assumptions=(*IDEAL_LAMP, _SMALL, _ALONE),
        sources=(FIRST_PRINCIPLES, _PROPAGATION),
        conditions=(CLAMP_BELOW_PEAK,),
    )


@cache
def derive_greatest_current_rise() -> Derivation:
    """Rise of the current in the brightest corner."""
    return Derivation(
        name="greatest_current_rise",
        title="Rise of the current in the brightest corner",
        question="Every part at the end that makes more current: how much more is it, nothing left out?",
        steps=(
            quotation("The mean current as designed.", derive_mean_string_current()),
            premise(
                "definition",
                "The same with mains, dropper and frequency high, and the string low.",
                I_new,
                4 * f * (1 + t_f) * C * (1 + t_C) * (V_p * (1 + t_V) - D * (1 - t_D)),
            ),
            premise("definition", "Rise as a fraction of the current as designed.", x_hi, I_new / I_mean - 1),
            step(
                "Factors, not sums: each rise rises with the others.",
                x_hi,
                (1 + t_C) * (1 + t_f) * (1 + _OF_MAINS_AND_STRING) - 1,
                Substitution((3, 2, 1)),
            ),
        ),
        assumptions=IDEAL_LAMP,
        sources=(FIRST_PRINCIPLES,),
        conditions=(CLAMP_BELOW_PEAK,),
    )


@cache
def derive_greatest_current_fall() -> Derivation:
    """Fall of the current in the dimmest corner."""
    return Derivation(
        name="greatest_current_fall",
        title="Fall of the current in the dimmest corner",
        question="Every part at the end that makes less current: how much less is it, nothing left out?",
        steps=(
            quotation("The mean current as designed.", derive_mean_string_current()),
            premise(
                "definition",
                "The same with mains, dropper and frequency low, and the string high.",
                I_new,
                4 * f * (1 - t_f) * C * (1 - t_C) * (V_p * (1 - t_V) - D * (1 + t_D)),
            ),
            premise("definition", "Fall as a fraction of the current as designed.", x_lo, 1 - I_new / I_mean),
            step(
                "Each fall has less left to fall from: it is less than the rise in the other corner.",
                x_lo,
                1 - (1 - t_C) * (1 - t_f) * (1 - _OF_MAINS_AND_STRING),
                Substitution((3, 2, 1)),
            ),
        ),
        assumptions=IDEAL_LAMP,
        sources=(FIRST_PRINCIPLES,),
        conditions=(CLAMP_BELOW_PEAK, _STILL_LIT),
    )


@cache
def derive_flat_deviation() -> Derivation:
    """Standard deviation of a value that may be anywhere between two ends."""
    return Derivation(
        name="flat_deviation",
        title="Standard deviation between two bounds",
        question="A part keeps its tolerance and nothing more is known: what is its standard deviation?",
        steps=(
            premise(
                "definition",
                "Every deviation is as likely as any other: the root of the mean square.",
                sigma_x,
                sqrt(Integral(x**2 / (2 * t_any), (x, -t_any, t_any))),
                assumption="the maker promises the bounds and nothing else",
            ),
            step(
                "Less than the bound itself, for the ends are no likelier than the middle.",
                sigma_x,
                t_any / sqrt(S(3)),
                Substitution((1,)),
            ),
        ),
        assumptions=("Nothing but the bounds is known.",),
        sources=(FIRST_PRINCIPLES, f"{_GUM}, 4.3.7: the same (from memory)."),
    )


@cache
def derive_triangle_deviation() -> Derivation:
    """Standard deviation of a value that is aimed at."""
    rising, falling = 2 * (x + t_lo) / (t_lo * (t_lo + t_hi)), 2 * (t_hi - x) / (t_hi * (t_lo + t_hi))

    def mean_of(what):
        return Integral(what * rising, (x, -t_lo, 0)) + Integral(what * falling, (x, 0, t_hi))

    return Derivation(
        name="triangle_deviation",
        title="Standard deviation about an aim",
        question="A value is aimed at and bounds are kept, as by a supplier of mains: what is its standard deviation?",
        steps=(
            premise(
                "definition",
                "Likeliest at the aim, falling straight to nothing at both bounds: the mean.",
                mu_x,
                mean_of(x),
                assumption="the ends are rare, and nothing lies beyond them",
            ),
            step("Off the aim where the bounds are not alike.", mu_x, (t_hi - t_lo) / 3, Substitution((1,))),
            premise(
                "definition", "Squared, it is the mean square about that mean.", sigma_x**2, mean_of((x - mu_x) ** 2)
            ),
            step("Worked out.", sigma_x**2, (t_lo**2 + t_lo * t_hi + t_hi**2) / 18, Substitution((3, 2))),
            step(
                "With both bounds alike: the bound over the root of six.",
                sigma_x,
                sqrt((t_lo**2 + t_lo * t_hi + t_hi**2) / 18),
                Solution((4,)),
            ),
        ),
        assumptions=("The aim is the likeliest value, and the bounds are kept.",),
        sources=(FIRST_PRINCIPLES, f"{_GUM}, 4.3.9: the same for bounds that are alike (from memory)."),
    )
