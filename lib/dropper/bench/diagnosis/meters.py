"""Meters: the two on the bench, and the scale that each reading is taken on."""

import functools
from dataclasses import dataclass

from ...circuit.fields import documented
from ..meter import Multimeter, PlugInMeter
from ..meter.scale import Scale

PART_BY_OHMS = {
    "bleeder_resistance": "bleeder",
    "inrush_resistance": "inrush_resistor",
    "smoothing_resistance": "leak",
    "smoothing_bleeder_resistance": "smoothing_bleeder",
}
_PLUG_IN, _MULTIMETER = PlugInMeter(), Multimeter()


@documented
@dataclass(frozen=True)
class Meters:
    """The two meters on the bench."""

    plug_in: PlugInMeter = _PLUG_IN
    multimeter: Multimeter = _MULTIMETER


@functools.lru_cache(maxsize=256)
def scale_of(name: str, meters: Meters) -> Scale | None:
    """The `Scale` that a reading is taken on; None for a count."""
    plug_in = meters.plug_in.scales()
    if name in plug_in:
        return plug_in[name]
    if name in PART_BY_OHMS:
        return meters.multimeter.ohms
    return {
        "bus_voltage": meters.multimeter.dc_volts,
        "pins_residual": meters.multimeter.dc_volts,
        "bus_residual": meters.multimeter.dc_volts,
        "bus_ripple": meters.multimeter.ac_volts,
        "dropper_capacitance": meters.multimeter.farads,
        "smoothing_capacitance": meters.multimeter.farads,
    }.get(name)
