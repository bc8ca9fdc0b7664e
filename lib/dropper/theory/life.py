"""Life of the electrolytic smoothing capacitor: halved by each 10 K more."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from sympy import Derivative, log

from .engine.assumptions import LIFE_NOTE
from .engine.derivation import Derivation, premise, quotation, step
from .engine.example import Example
from .engine.justification import Reasoning, Solution
from .engine.symbols import GLOSSARY, L_0, T_0, T_2, T_a, T_b, T_eq, T_w, s

life = GLOSSARY["L"].of
_RULE = (
    "A rule of thumb for wet aluminium electrolytics; ripple current and voltage are within what the maker states.",
    "Temperatures are those of the capacitor, not of the room.",
)


@cache
def derive_electrolytic_life() -> Derivation:
    """Life at a temperature."""
    return Derivation(
        name="electrolytic_life",
        title="Life of an electrolytic capacitor",
        question="How long does the smoothing capacitor last, if it is cooler than its rating?",
        steps=(
            premise(
                "law",
                "Each kelvin takes the same fraction of the life; an interval halves it.",
                Derivative(life(T_w), T_w),
                -log(2) / T_2 * life(T_w),
            ),
            premise("definition", "At the rated temperature it has the life that the maker states.", life(T_0), L_0),
            step(
                "The one curve that satisfies both.",
                life(T_w),
                L_0 * 2 ** ((T_0 - T_w) / T_2),
                Reasoning((1, 2), _solves_ageing),
            ),
        ),
        assumptions=_RULE,
        sources=(LIFE_NOTE,),
        example=Example(
            {"rated_life": "1000", "rated_temperature": "105", "temperature": "45"},
            "Cosel FAQ a0057, its table of lives",
        ),
    )


def _solves_ageing(new, law, start):
    return (
        (law.lhs - law.rhs).xreplace({new.lhs: new.rhs}).doit(),
        new.rhs.subs(T_w, T_0) - start.rhs,
        new.lhs - life(T_w),
    )


@cache
def derive_equivalent_temperature() -> Derivation:
    """Steady temperature that wears as fast as a mix of two."""
    return Derivation(
        name="equivalent_temperature",
        title="Equivalent temperature of a mix",
        question="Part of the time warm, part of it cool: which steady temperature wears the capacitor as fast?",
        steps=(
            quotation("Life at a temperature.", derive_electrolytic_life(), function_of=T_w),
            premise(
                "law",
                "Wear adds up: each share of the time uses up its share of the life at its own temperature.",
                1 / life(T_eq),
                s / life(T_a) + (1 - s) / life(T_b),
            ),
            step(
                "The rated life and its temperature cancel.",
                2 ** (T_eq / T_2),
                s * 2 ** (T_a / T_2) + (1 - s) * 2 ** (T_b / T_2),
                Reasoning((1, 2), _wear_in_powers),
            ),
            step(
                "Solved for the temperature: nearer the warmer one than the mean.",
                T_eq,
                T_2 * log(s * 2 ** (T_a / T_2) + (1 - s) * 2 ** (T_b / T_2)) / log(2),
                Solution((3,)),
            ),
        ),
        assumptions=_RULE,
        sources=(LIFE_NOTE, "Wear that adds up in proportion to time: Palmgren and Miner's rule (from memory)."),
    )


def _wear_in_powers(new, lives, wear):
    """The equation of wear, each side times the life at nought degrees, is the new equation."""

    def at(temperature):
        return lives.rhs.xreplace({T_w: temperature})

    scale = at(0 * T_w)
    lives_by_name = {life(temperature): at(temperature) for temperature in (T_eq, T_a, T_b)}
    return (wear.lhs.xreplace(lives_by_name) * scale - new.lhs, wear.rhs.xreplace(lives_by_name) * scale - new.rhs)


def mixed_temperature(*, temperatures: Sequence[float], hours: Sequence[float]) -> float:
    """Steady temperature that wears an electrolytic as fast as any number of temperatures in turn.

    Equation
    --------
    That of `equivalent_temperature`, applied to the first two, to their mix and the third, and so on.

    Parameters
    ----------
    temperatures
        Degrees Celsius, from -60 up to 300.
    hours
        The time spent at each, hours (or any one unit), above 0.

    Returns
    -------
    float
        Degrees Celsius.

    Raises
    ------
    ValueError
        If the lists are empty or not as long as each other, or a value is outside its range.

    Sources
    -------
    As for `equivalent_temperature`.
    """
    if len(temperatures) != len(hours) or not len(hours):
        count = f"{len(temperatures)} temperatures and {len(hours)} hours"
        raise ValueError(f"temperatures and hours must be as many, and at least one of each, not {count}")
    if not all(0 < time < float("inf") for time in hours):
        raise ValueError(f"hours = {list(hours)} are not allowed: each must be above 0 h and finite")
    mix, spent = temperatures[0], 0.0
    for temperature, time in zip(temperatures, hours, strict=True):
        share = spent / (spent + time)
        mix = derive_equivalent_temperature()(first_share=share, first_temperature=mix, second_temperature=temperature)
        mix = min(max(mix, min(temperatures)), max(temperatures))  # rounding must not carry it past the warmest
        spent += time
    return float(mix)
