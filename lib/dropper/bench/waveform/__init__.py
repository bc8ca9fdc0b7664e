"""Waveforms from an oscilloscope: read, measured with their uncertainty, laid over the prediction.

    from dropper.bench import waveform
    recording = waveform.load("stair_marker_scope.csv", mains_voltage=Channel("CH1", factor=100), …)
    measurement = waveform.measure(recording)
    comparison = waveform.compare(measurement, lamp)

An earthed oscilloscope's ground clip belongs nowhere in a circuit on the mains: a differential probe, or the
same circuit on an isolated low voltage. Local codes and people licensed to do mains work have the last word.
"""

from .attribution import Attribution
from .channel import NAMES, Channel
from .comparison import AS_READ, Comparison, compare
from .decimation import decimate, fold
from .estimate import Estimate
from .measurement import Measurement
from .measuring import measure
from .prediction import on_measured_mains, predicted_wave
from .recording import Recording, guess_columns, load

__all__ = [
    "AS_READ",
    "NAMES",
    "Attribution",
    "Channel",
    "Comparison",
    "Estimate",
    "Measurement",
    "Recording",
    "compare",
    "decimate",
    "fold",
    "guess_columns",
    "load",
    "measure",
    "on_measured_mains",
    "predicted_wave",
]
