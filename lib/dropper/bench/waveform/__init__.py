"""Waveforms from an oscilloscope: read, measured with their uncertainty, laid over the prediction.

    from dropper.bench import waveform
    recording = waveform.load("stair_marker_scope.csv", mains_voltage=Channel("CH1", factor=100), …)
    measured = waveform.measure(recording)
    compared = waveform.compare(measured, lamp)

An earthed oscilloscope's ground clip belongs nowhere in a circuit on the mains: a differential probe, or the
same circuit on an isolated low voltage. Local codes and people licensed to do mains work have the last word.
"""

from .attribution import Blame
from .channel import NAMES, Channel
from .comparison import TAKEN, Comparison, compare
from .decimate import folded, thinned
from .estimate import Estimate
from .measurement import Measured, measure
from .prediction import on_measured_mains, predicted_wave
from .recording import Recording, guess, load

__all__ = [
    "NAMES",
    "TAKEN",
    "Blame",
    "Channel",
    "Comparison",
    "Estimate",
    "Measured",
    "Recording",
    "compare",
    "folded",
    "guess",
    "load",
    "measure",
    "on_measured_mains",
    "predicted_wave",
    "thinned",
]
