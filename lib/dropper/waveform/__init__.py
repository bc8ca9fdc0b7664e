"""Waveforms from an oscilloscope: read, measured with their uncertainty, laid over the prediction.

    from dropper import waveform
    recording = waveform.load("stair_marker_scope.csv", mains_voltage=Channel("CH1", factor=100), …)
    measured = waveform.measure(recording)
    compared = waveform.compare(measured, lamp)

An earthed oscilloscope's ground clip belongs nowhere in a circuit on the mains: a differential probe, or the
same circuit on an isolated low voltage. Local codes and people licensed to do mains work have the last word.
"""

from .blame import Blame
from .channel import NAMES, Channel
from .compare import TAKEN, Comparison, compare, on_measured_mains, predicted_wave
from .estimate import Estimate
from .measure import Measured, measure
from .recording import Recording, guess, load
from .thin import folded, thinned

__all__ = [
    "NAMES", "TAKEN", "Blame", "Channel", "Comparison", "Estimate", "Measured", "Recording", "compare", "folded",
    "guess", "load", "measure", "on_measured_mains", "predicted_wave", "thinned",
]  # fmt: skip
