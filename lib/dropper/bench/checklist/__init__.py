"""What to do with a lamp on the bench, step by step, with its own numbers and the reason for each.

    from dropper.bench.checklist import checklist, first_power, FilamentLamp
    for stage in checklist(lamp).stages: ...
    first_power(lamp, FilamentLamp(230, 25)).sentence       # a filament lamp in series: dark, or a stop
    first_power(with_fault(lamp, Fault("short", "dropper")), FilamentLamp(230, 25)).glow

Gathered from common practice; where a figure has a source it is named beside it. It replaces no training and no code:
whether a lamp may be opened, powered or used, local codes and people licensed to do mains work decide.
"""

from ...circuit.lamp import Lamp
from ...solver.heat.surroundings import Surroundings
from ..meter.plug_in import PlugInMeter
from . import before_power, under_power
from .series_lamp import GLOWS, FilamentLamp, FirstPower, first_power, shown_by
from .steps import WHO, CheckList, Stage, Step

__all__ = [
    "GLOWS",
    "WHO",
    "CheckList",
    "FilamentLamp",
    "FirstPower",
    "Stage",
    "Step",
    "checklist",
    "first_power",
    "shown_by",
]


def checklist(
    lamp: Lamp,
    filament: FilamentLamp | None = None,
    meter: PlugInMeter | None = None,
    surroundings: Surroundings | None = None,
) -> CheckList:
    """The check-list of one lamp.

    Parameters
    ----------
    filament
        In series at first power; None: `FilamentLamp.suiting` the lamp.
    meter
        None: a typical cheap one.
    surroundings
        None: a closed case, typical practice.

    Raises
    ------
    TypeError
        If it is no Lamp.
    """
    if not isinstance(lamp, Lamp):
        raise TypeError(f"lamp: {lamp!r:.60} is not a Lamp")
    return CheckList(
        lamp,
        (
            before_power.dead(lamp),
            before_power.measured(lamp),
            before_power.assembled(lamp),
            under_power.first(lamp, filament),
            under_power.readings(lamp, meter, surroundings),
            under_power.after(lamp),
        ),
    )
