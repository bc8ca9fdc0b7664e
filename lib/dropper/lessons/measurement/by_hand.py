"""By hand: what two measured numbers, the bus voltage and the line current, say of the string and of the dropper."""

import math
from dataclasses import dataclass
from pathlib import Path

from ... import theory
from ...bench import waveform
from ...circuit.fields import about, documented
from ...circuit.lamp import Lamp
from ...circuit.values import show

SAMPLE = "stair_marker_scope.csv"
# What the columns of the course's own recording are.
SAMPLE_CHANNELS = {
    "mains_voltage": waveform.Channel("CH1", factor=100.0),
    "line_current": waveform.Channel("CH2", shunt=10.0),
    "bus_voltage": waveform.Channel("CH3", factor=10.0),
}


@documented
@dataclass(frozen=True)
class ByHand:
    """The string's volts and the dropper's capacitance, from a measurement and the ideal formula."""

    clamped_voltage: float = about("bus voltage and two diodes", "V")
    dropper: float = about("capacitance that the measured current asks for", "F")
    values: dict = about("what else to put into `theory.line_current_rms`, by keyword")
    words: str = about("The same in a sentence.")


def by_hand(lamp: Lamp, measurement: waveform.Measurement) -> ByHand:
    """String and dropper of a lamp that was measured.

    D is the measured bus voltage and two diodes of the lamp; the current is in proportion to C, so that C follows from
    the current of one microfarad (`theory.line_current_rms`).

    Parameters
    ----------
    lamp
        Gives the diodes, and what is printed on the dropper.
    measurement
        With mains voltage, line current and bus voltage.
    """
    current = measurement.current.value
    values = {
        "frequency": measurement.frequency.value,
        "peak_voltage": math.sqrt(2) * measurement.voltage_harmonics[1].value,
        "clamped_voltage": measurement.bus_mean.value + 2 * lamp.diode.voltage_at(current),
    }
    dropper = 1e-6 * current / theory.line_current_rms(dropper=1e-6, **values)
    return ByHand(
        values["clamped_voltage"],
        dropper,
        values,
        f"Bus {show(measurement.bus_mean.value, 'V')} and two diodes: D = {show(values['clamped_voltage'], 'V')}."
        f" Line current {show(current, 'A')} rms: C = {show(dropper, 'F')}. Printed on the part:"
        f" {show(lamp.dropper, 'F')}.",
    )


def in_proportion(lamp: Lamp, measurement: waveform.Measurement) -> str:
    """The dropper by a rule of three, in a sentence: its current goes with its capacitance, as long as D stays.

    Parameters
    ----------
    lamp
        Gives what is printed on the dropper.
    measurement
        With the line current.
    """
    row = waveform.compare(measurement, waveform.on_measured_mains(lamp, measurement)).row("current")
    share = row.estimate.value / row.prediction
    return (
        f"C = {show(lamp.dropper, 'F')} × {show(row.estimate.value, 'A')} / {show(row.prediction, 'A')}"
        f" = {show(share * lamp.dropper, 'F')}"
    )


def sample(folder: str | Path = "lamps") -> waveform.Measurement:
    """The course's own recording, measured.

    Parameters
    ----------
    folder
        Where it lies.
    """
    return waveform.measure(waveform.load(Path(folder) / SAMPLE, **SAMPLE_CHANNELS))
