"""Measurement view: a recorded lamp beside the predicted one: curves, uncertain figures, the difference."""

import functools
from dataclasses import dataclass, replace

import numpy as np

from ... import theory
from ...bench import meter, waveform
from ...circuit.fields import about, check_part, documented, spec_of
from ...circuit.lamp import Lamp, Mains, Readings
from ...circuit.values import show
from ...results.explain import reading
from ...solver.steady import SteadyState
from ..kit.typed_value import typed_value

_KEYS = ("line_current_rms", "real_power", "apparent_power", "power_factor", "displacement_factor", "bus_voltage_mean")
COLUMNS = 128  # of the picture's bands
TYPED = (
    ("voltage", "mains volts", "V"),
    ("current", "line current", "A"),
    ("power", "watts", "W"),
    ("power_factor", "power factor", ""),
    ("bus_voltage", "dc volts on the string", "V"),
)


@documented
@dataclass(frozen=True)
class RecordedLamp:
    """A lamp to predict, and what was measured; the lamp's mains gives the volts, the recording their shape."""

    lamp: Lamp
    measurement: waveform.Measurement

    def __post_init__(self):
        check_part(self, "lamp", Lamp)
        check_part(self, "measurement", waveform.Measurement)


@documented
@dataclass(frozen=True, eq=False)
class View:
    """The comparison, and what the picture draws of the recording."""

    setting: RecordedLamp
    comparison: waveform.Comparison
    result: SteadyState
    bands: dict = about("by channel: share of the period, least and greatest value, offsets taken out")
    strip: tuple = about("channel, time in s, least and greatest of the whole recording's voltage or current")
    means: dict = about("by channel: the mean period of the recording")
    waves: dict = about("by channel: the predicted period")
    difference_error: np.ndarray | None = about(
        "so much of the currents' difference may be nothing, over the period", "A"
    )
    readings: tuple


def setting_for(lamp: Lamp, measurement: waveform.Measurement) -> RecordedLamp:
    """The setting in which a recording is first looked at: the lamp on the measured volts, if they can be its own."""
    harmonics = measurement.voltage_harmonics
    volts = round(harmonics[1].value, 1) if harmonics else lamp.mains.voltage  # those above come on top
    if not 0.7 < volts / lamp.mains.voltage < 1.4:  # rather a wrong probe factor than another mains
        volts = lamp.mains.voltage
    mains = Mains(min(max(volts, 1.0), 1000.0), min(max(measurement.frequency.value, 10.0), 1000.0))
    return RecordedLamp(_on_mains(lamp, mains), measurement)


def _on_mains(lamp, mains):
    return replace(lamp, mains=mains)


def view_of(setting: RecordedLamp) -> View:
    """What a setting shows."""
    lamp, measurement = setting.lamp, setting.measurement
    shaped = waveform.on_measured_mains(lamp, measurement).mains.harmonics if measurement.voltage_harmonics else {}
    driven = _on_mains(lamp, Mains(lamp.mains.voltage, measurement.frequency.value, shaped))
    comparison = waveform.compare(measurement, driven)
    result = comparison.result
    bands, strip = _bands_and_strip(measurement)
    means = {name: cycle.mean - measurement.offsets.get(name, 0.0) for name, cycle in measurement.cycles.items()}
    difference_error = None
    if comparison.residual is not None:
        scale = measurement.recording.accuracy("line_current") / np.sqrt(3)
        noise = measurement.cycles["line_current"].variance
        difference_error = 2 * np.sqrt(noise + (scale * means["line_current"]) ** 2)
    return View(
        setting=setting,
        comparison=comparison,
        result=result,
        bands=bands,
        strip=strip,
        means=means,
        waves={name: waveform.predicted_wave(measurement, result, name) for name in means},
        difference_error=difference_error,
        readings=() if result.dark else tuple(_readings(driven, result, comparison)),
    )


@functools.lru_cache(maxsize=2)
def _bands_and_strip(measurement):
    """The recording's bands, which no slider changes."""
    recording, period = measurement.recording, measurement.period
    bands = {}
    for name in recording.present():
        share, low, high = waveform.fold(
            recording.time, getattr(recording, name), period.frequency, period.phase, COLUMNS
        )
        offset = measurement.offsets.get(name, 0.0)
        bands[name] = share, low - offset, high - offset
    first = recording.present()[0]
    return bands, (first, *waveform.decimate(recording.time, getattr(recording, first), 2 * COLUMNS))


def _readings(lamp, result, comparison):
    row_keys = {
        "line_current_rms": "current",
        "real_power": "real",
        "apparent_power": "apparent",
        "power_factor": "power_factor",
        "displacement_factor": "displacement_factor",
        "bus_voltage_mean": "bus_mean",
    }
    rows = {row.key: row for row in comparison.rows}
    for key in _KEYS:
        prediction = reading(key, lamp, result)
        row, note = rows.get(row_keys[key]), ""
        if row is not None:
            note = f"Measured: {row.estimate.text(row.unit)}."
        yield replace(prediction, note=note)


def compare_readings(
    lamp: Lamp, texts: dict[str, str], instrument: meter.PlugInMeter | None = None
) -> tuple[Readings, str, list[tuple]]:
    """Readings typed by hand, judged: whether they agree with themselves, and with the prediction's bands.

    Parameters
    ----------
    lamp
        On the mains that was read, if a voltage was.
    texts
        By the keys of `TYPED`, as people write them: "22 mA", "0.26"; empty for what was not read.
    instrument
        Whose errors make the bands.

    Returns
    -------
    (Readings, str, list of (str, str, str, str))
        The readings; whether the set agrees with itself, in a sentence; and for each its name, what was read, the band
        in which it should fall, and "inside", "outside" or "–". Volts that were read are taken as they are.

    Raises
    ------
    ValueError
        For a text that is no such value.
    """
    from ...solver.steady import steady_state

    instrument = instrument or meter.PlugInMeter()
    read = Readings(
        **{
            key: typed_value(name, texts[key], unit, spec_of(Readings.__dataclass_fields__[key]))
            for key, name, unit in TYPED
            if str(texts.get(key) or "").strip()
        }
    )
    if read.voltage:
        lamp = _on_mains(lamp, Mains(read.voltage, lamp.mains.frequency))
    result = steady_state(lamp)
    bands = meter.expected_bands(result, instrument)
    rows = []
    for key, name, unit in TYPED:
        value = getattr(read, key)
        if key == "bus_voltage":
            error = 0.01 * result.bus_voltage_mean + 0.3  # a multimeter's 1 % and three digits: common practice
            low, high = result.bus_voltage_mean - error, result.bus_voltage_mean + error
            words = f"{show(low, 'V')} to {show(high, 'V')}"
        else:
            low, high, words = bands[key].low, bands[key].high, bands[key].words
        inside = "–" if value is None else "inside" if low - 1e-9 <= value <= high + 1e-9 else "outside"
        if key == "voltage" and value:
            words, inside = "–", waveform.AS_READ
        text = "–" if value is None else f"{value:.2f}" if unit == "" else show(value, unit, 4)
        rows.append((name, text, words, inside))
    return read, meter.agreement(read).words, rows


def clamped_fraction_of(power_factor: float | np.ndarray) -> float:
    """D over the mains' peak that an ideal lamp of this power factor has, on the rising side of the curve.

    Returns
    -------
    float or array

    Source: `theory.power_factor` turned round by interpolation.
    """
    rising = np.linspace(0.005, 0.77, 600)
    return np.interp(power_factor, theory.power_factor(clamped_fraction=rising), rising)
