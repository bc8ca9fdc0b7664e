"""Tolerance: what it does to a lamp, its corners, its sensitivities, and thousands of lamps drawn at random.

    from dropper import standards
    from dropper.design import tolerance

    spread = tolerance.Spread.of(lamp, standards.supply("Europe"), dropper=0.10)
    tolerance.elasticities(lamp)[0].words                       # what weighs most
    tolerance.corners(lamp, spread).of("string_current_mean").words
    sample = tolerance.monte_carlo(lamp, spread)                # 20,000 lamps, seeded
    sample.quantiles("string_current_mean")
    sample.yield_against(tolerance.Limits.around(0.0137, 0.10)).words

Where a figure of the spread comes from stands in `Spread.sources`; a real part has its own data sheet, and a real
socket its own volts.
"""

from .axis import FLAT, TRIANGLE, Axis
from .corners import Corners, Extreme, corners
from .elasticity import Elasticity, elasticities
from .formulas import WEIGHTS, ByFormula, by_formula
from .limits import Limits, Yield
from .monte_carlo import Counting, Sample, monte_carlo
from .quantities import HUMPED, KEYS
from .spread import LETTERS, Spread

__all__ = [
    "FLAT",
    "HUMPED",
    "KEYS",
    "LETTERS",
    "TRIANGLE",
    "WEIGHTS",
    "Axis",
    "ByFormula",
    "Corners",
    "Counting",
    "Elasticity",
    "Extreme",
    "Limits",
    "Sample",
    "Spread",
    "Yield",
    "by_formula",
    "corners",
    "elasticities",
    "monte_carlo",
]
