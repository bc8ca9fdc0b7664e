"""Checklist: what to do with a lamp on the bench, step by step, with its own numbers and the reason for each.

    from dropper.bench.checklist import checklist, first_power, FilamentLamp
    for stage in checklist(lamp).stages: ...
    first_power(lamp, FilamentLamp(230, 25)).sentence       # a filament lamp in series: dark, or a stop
    first_power(with_fault(lamp, Fault("short", "dropper")), FilamentLamp(230, 25)).glow

Gathered from common practice; where a figure has a source it is named beside it. It replaces no training and no code:
whether a lamp may be opened, powered or used, local codes and people licensed to do mains work decide.
"""

from ...circuit.excerpt import excerpt
from ...circuit.lamp import Lamp
from ...solver.heat.surroundings import Surroundings
from ..meter.plug_in import PlugInMeter
from . import before_power, proved_dead, under_power
from .series_lamp import GLOWS, FilamentLamp, FirstPower, currents_behind, faults_by_glow, first_power
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
    "currents_behind",
    "faults_by_glow",
    "first_power",
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
        In series at first power; None: `FilamentLamp.for_lamp` the lamp.
    meter
        None: a typical cheap one.
    surroundings
        None: a closed case, typical practice.

    Raises
    ------
    TypeError
        If it is no Lamp.

    Examples
    --------
    >>> from dropper import Lamp, Led, LedString, Mains
    >>> lamp = Lamp(Mains(230, 50), LedString(Led(3.1, 0.02, 9.0), 22), 330e-9, 10e-6, 1e6, 220.0)
    >>> checklist(lamp)
    <CheckList of 'lamp': 35 steps in 6 stages>
    """
    if not isinstance(lamp, Lamp):
        raise TypeError(f"lamp: {excerpt(lamp)} is not a Lamp")
    return CheckList(
        lamp,
        (
            proved_dead.proved_dead_stage(lamp),
            before_power.measurement_stage(lamp),
            before_power.assembly_stage(lamp),
            under_power.first_power_stage(lamp, filament),
            under_power.readings_stage(lamp, meter, surroundings),
            under_power.after_stage(lamp),
        ),
    )
