"""Ripple: the ripple of the bus, and how much of it reaches the string as flicker at twice the mains frequency."""

from __future__ import annotations

from functools import cache

from sympy import Integral, Mul, Rational, cos, pi, sin, sqrt

from .conduction import CREST, derive_mean_string_current_from_angle, line_current_steps
from .engine.assumptions import FIRST_PRINCIPLES, FOURIER, IDEAL_LAMP, RIPPLE_BOOK, SMALL_CHANGE
from .engine.derivation import Derivation, premise, quotation, step
from .engine.example import Example
from .engine.justification import Solution, Substitution
from .engine.symbols import GLOSSARY, C_s, Delta_V, I_bs, I_mean, Q, T, d, f, gamma, h_2, h_a, h_b, m, r_s, theta
from .factors import derive_conduction_angle_from_fraction

i = GLOSSARY["i"].of


@cache
def derive_ripple_bound() -> Derivation:
    """Textbook bound of the ripple."""
    return Derivation(
        name="ripple_bound",
        title="Bound of the bus ripple",
        question="By how much does the bus sag between two charges, at the very most?",
        steps=(
            premise("definition", "A period is the inverse of the frequency.", T, 1 / f),
            premise(
                "approximation",
                "At most the smoothing capacitor feeds the string, and the bleeder across it, alone for a whole half"
                " cycle.",
                Q,
                (I_mean + I_bs) * T / 2,
                assumption="all that the two take in half a cycle comes from the capacitor, none from the bridge",
            ),
            premise("law", "It loses voltage as it loses charge.", Delta_V, Q / C_s),
            step(
                "Put together. The true ripple is less, for the bridge conducts much of the time.",
                Delta_V,
                (I_mean + I_bs) / (2 * f * C_s),
                Substitution((3, 2, 1)),
            ),
        ),
        sources=(RIPPLE_BOOK,),
        example=Example(
            {"frequency": "60", "smoothing": "100e-6", "string_current_mean": "0.0034"},
            "Malvino and Bates, Electronic Principles, 7th edition, example 4-7",
        ),
    )


@cache
def derive_charging_harmonic() -> Derivation:
    """Strength of the current's swing at twice the mains frequency, before smoothing."""
    square = Mul(Rational(4, 9), 5 + 4 * cos(gamma), evaluate=False)
    return Derivation(
        name="charging_harmonic",
        title="Swing of the rectified current before smoothing",
        question="How strongly does the current behind the bridge pulse, at twice the mains frequency?",
        steps=(
            *line_current_steps(),
            quotation("Its mean.", derive_mean_string_current_from_angle()),
            premise(
                "definition",
                "The swing's cosine part, by Fourier's integral over half a cycle, over the mean.",
                h_a,
                2 * Integral(i(theta) * cos(2 * theta), (theta, CREST - gamma, CREST)) / (pi * I_mean),
            ),
            step(
                "Worked out.",
                h_a,
                Mul(Rational(2, 3), 1 - 2 * cos(gamma) - 2 * cos(gamma) ** 2, evaluate=False),
                Substitution((5, 3, 4)),
            ),
            premise(
                "definition",
                "The sine part.",
                h_b,
                2 * Integral(i(theta) * sin(2 * theta), (theta, CREST - gamma, CREST)) / (pi * I_mean),
            ),
            step("Worked out.", h_b, Rational(4, 3) * sin(gamma) * (1 + cos(gamma)), Substitution((7, 3, 4))),
            premise("definition", "The whole swing, squared.", h_2**2, h_a**2 + h_b**2),
            step("Nearly everything cancels.", h_2**2, square, Substitution((9, 6, 8))),
            step("The root.", h_2, sqrt(square), Solution((10,))),
            quotation(
                "The conduction angle depends on the clamped fraction alone.", derive_conduction_angle_from_fraction()
            ),
            step(
                "Put in: from two thirds of the mean for a short circuit to twice the mean for short pulses.",
                h_2,
                Rational(2, 3) * sqrt(1 + 8 * d),
                Substitution((11, 12)),
            ),
        ),
        assumptions=IDEAL_LAMP,
        sources=(FIRST_PRINCIPLES, FOURIER),
    )


@cache
def derive_current_modulation() -> Derivation:
    """How much of the swing reaches the string."""
    return Derivation(
        name="current_modulation",
        title="Swing of the string's current",
        question="How deep is the flicker that the smoothing capacitor leaves?",
        steps=(
            quotation("The swing before smoothing, over the mean.", derive_charging_harmonic()),
            premise(
                "circuit",
                "At twice the mains frequency it splits between the string, m, and the smoothing "
                "capacitor: as many times as much as the string's resistance is of its reactance there, and a "
                "quarter period ahead. Such parts add as squares.",
                h_2**2,
                m**2 + (4 * pi * f * C_s * r_s * m) ** 2,
            ),
            step("Solved for the string's part.", m, h_2 / sqrt(1 + (4 * pi * f * C_s * r_s) ** 2), Solution((2,))),
            step(
                "Put in. The string's dynamic resistance is small: smoothing its current takes tens of microfarads.",
                m,
                Rational(2, 3) * sqrt(1 + 8 * d) / sqrt(1 + (4 * pi * f * C_s * r_s) ** 2),
                Substitution((3, 1)),
            ),
        ),
        assumptions=(
            *IDEAL_LAMP,
            SMALL_CHANGE,
            "Only the swing at twice the mains frequency is counted; the smoothing "
            "capacitor takes still more of the faster ones.",
        ),
        sources=(FIRST_PRINCIPLES,),
    )
