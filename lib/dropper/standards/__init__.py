"""Standards: published limits of light, displacement factor, harmonics, mains, and of what is left after unplugging.

    from dropper import standards

    standards.low_risk_modulation(100)          # 8.0 %, IEEE 1789-2015
    standards.least_displacement_factor(12)     # 0.7, Regulation (EU) 2019/2020
    standards.harmonic_limits(12, 230)          # three ways, IEC 61000-3-2:2018
    standards.supply("United Kingdom").high     # 253 V
    standards.energy_limits(470e-9)             # 60 V and 120 V, IEC 62368-1:2018
    standards.thresholds_reached(0.02)           # let-go passed, IEC TS 60479-1
    standards.pulse_test_voltage("X2", 470e-9)  # 2.5 kV, IEC 60384-14

Each figure stands beside its standard and edition, and a figure that was not read in a text is
marked "value from memory". Standards change: newer editions and amendments may say otherwise.
Whoever makes or sells a lamp reads the standard itself, and local codes have the last word.
A verdict here is a lesson about a computed lamp, no test of a real one.
"""

from .body import (
    BODY_RESISTANCES,
    BODY_THRESHOLDS,
    DC_REACTION,
    HOUSEHOLD_DEVICE,
    NO_LEAVE,
    BodyResistance,
    BodyThreshold,
    ResidualCurrentDevice,
    effect_words,
    thresholds_reached,
)
from .capacitors import X2_DAMP_HEAT, X2_ENDURANCE, ChangeTest, change_verdict, class_for_pulses, pulse_test_voltage
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
from .touch import TOUCH_RULES, TouchRule, energy_class, energy_limits, touch_rule
from .touch_verdict import residual_verdict, touch_current_verdicts
from .verdict import SIGNS, Verdict

__all__ = [
    "BODY_RESISTANCES",
    "BODY_THRESHOLDS",
    "DC_REACTION",
    "HOUSEHOLD_DEVICE",
    "NO_LEAVE",
    "SIGNS",
    "SUPPLIES",
    "TOUCH_RULES",
    "X2_DAMP_HEAT",
    "X2_ENDURANCE",
    "BodyResistance",
    "BodyThreshold",
    "ChangeTest",
    "Check",
    "CurrentShape",
    "HarmonicVerdict",
    "LimitSet",
    "ResidualCurrentDevice",
    "Supply",
    "TouchRule",
    "Verdict",
    "change_verdict",
    "class_for_pulses",
    "current_shape",
    "displacement_verdict",
    "effect_words",
    "energy_class",
    "energy_limits",
    "harmonic_limits",
    "harmonic_verdict",
    "largest_short_term_flicker",
    "largest_stroboscopic_visibility",
    "least_displacement_factor",
    "low_risk_modulation",
    "modulation_verdict",
    "no_effect_modulation",
    "pulse_test_voltage",
    "residual_verdict",
    "stroboscopic_verdict",
    "supply",
    "thresholds_reached",
    "touch_current_verdicts",
    "touch_rule",
]
