"""Transients and single faults: plugging in, unplugging, a dip of the mains, a part gone wrong.

    from dropper.solver.transient import Fault, plug_in, settle, unplug, with_fault
    settle(with_fault(lamp, Fault("open", "D1"))).word          # "dark"
    plug_in(lamp, angle=90).line_current_peak
    unplug(lamp, angle=90).time_below(34.0)

The circuit has four separate diodes and follows the same exponential laws as the steady
state. Angles are in degrees of the mains' fundamental, from where it passes zero upwards.
What is computed here is no proof that anything is discharged: that is measured, each time,
as local codes and licensed practice ask.
"""

from .body import HANDS, LIVE, Body
from .circuit import LINE_INDUCTANCE, LINE_RESISTANCE, STIFF_INDUCTANCE, STIFF_RESISTANCE
from .faults import FAULTS, Fault, Faulty, faults_of, with_fault
from .person import Touch, touch
from .repeating_cycle import settle
from .switching import brownout, plug_in, unplug
from .trace import Trace
from .worst_case import worst_plug_in, worst_unplug

__all__ = [
    "FAULTS",
    "HANDS",
    "LINE_INDUCTANCE",
    "LINE_RESISTANCE",
    "LIVE",
    "STIFF_INDUCTANCE",
    "STIFF_RESISTANCE",
    "Body",
    "Fault",
    "Faulty",
    "Touch",
    "Trace",
    "brownout",
    "faults_of",
    "plug_in",
    "settle",
    "touch",
    "unplug",
    "with_fault",
    "worst_plug_in",
    "worst_unplug",
]
