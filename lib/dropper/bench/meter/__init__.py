"""Meters: what they show of a lamp, digits, errors, floors, and whether readings can go together.

from dropper.bench.meter import Multimeter, PlugInMeter, agreement, expected_bands
PlugInMeter().readings(result)                 # numbers rounded to the meter's digits
print(expected_bands(result, PlugInMeter()))   # the band in which each reading should fall
agreement({"voltage": 230, "current": 0.022, "power": 1.4, "power_factor": 0.27}).words
"""

from .agreement import agreement
from .expectation import Band, expected_bands
from .intervals import Agreement
from .multimeter import Multimeter
from .plug_in import PlugInMeter
from .scale import Scale

__all__ = ["Agreement", "Band", "Multimeter", "PlugInMeter", "Scale", "agreement", "expected_bands"]
