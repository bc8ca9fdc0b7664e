"""Published limits as data: wavering light, displacement factor, harmonic currents, mains voltages.

    from dropper import standards

    standards.low_risk_modulation(100)          # 8.0 %, IEEE 1789-2015
    standards.least_displacement_factor(12)     # 0.7, Regulation (EU) 2019/2020
    standards.harmonic_limits(12, 230)          # three ways, IEC 61000-3-2:2018
    standards.supply("United Kingdom").high     # 253 V

Each figure stands beside its standard and edition, and a figure that was not read in a text is
marked "value from memory". Standards change: newer editions and amendments may say otherwise.
Whoever makes or sells a lamp reads the standard itself, and local codes have the last word.
A verdict here is a lesson about a computed lamp, no test of a real one.
"""

from .ecodesign import (
    displacement_verdict,
    largest_short_term_flicker,
    largest_stroboscopic_visibility,
    least_displacement_factor,
    stroboscopic_verdict,
)
from .harmonics import Check, HarmonicVerdict, LimitSet, harmonic_limits, harmonic_verdict
from .light import low_risk_modulation, modulation_verdict, no_effect_modulation
from .mains import SUPPLIES, Supply, supply
from .shape import CurrentShape, current_shape
from .verdict import SIGNS, Verdict

__all__ = [
    "SIGNS",
    "SUPPLIES",
    "Check",
    "CurrentShape",
    "HarmonicVerdict",
    "LimitSet",
    "Supply",
    "Verdict",
    "current_shape",
    "displacement_verdict",
    "harmonic_limits",
    "harmonic_verdict",
    "largest_short_term_flicker",
    "largest_stroboscopic_visibility",
    "least_displacement_factor",
    "low_risk_modulation",
    "modulation_verdict",
    "no_effect_modulation",
    "stroboscopic_verdict",
    "supply",
]
