"""Fault verdicts: what a part has to stand beside a broken one, as the answer to a question."""

from ... import theory
from ...circuit.lamp import Lamp
from ...circuit.values import show
from ...solver.transient import Fault, settle, with_fault

QUESTION_FAULT = Fault("open", "string")  # what the panel's question is about


def volts_in_words(lamp: Lamp) -> dict[str, str]:
    """The volts that people expect on the smoothing capacitor of a lamp whose string is open, by answer."""
    peak = lamp.mains.peak
    return {
        "string": show(settle(lamp).bus_voltage_mean, "V", 2),
        "peak": f"some {show(peak, 'V', 2)}",
        "twice": f"some {show(2 * peak, 'V', 2)}",
    }


def open_string_verdict(lamp: Lamp) -> tuple[str, str]:
    """What the smoothing capacitor has to stand once the string is open: the key of an answer, and a sentence."""
    healthy, now = settle(lamp), settle(with_fault(lamp, QUESTION_FAULT))
    peak, volts = lamp.mains.peak, now.bus_voltage_peak
    places = {"string": healthy.bus_voltage_mean, "nothing": 0.0, "peak": peak, "twice": 2 * peak}
    diode = max(now.diode_reverse_peak)
    dark = "Dark" if now.dark else "Lit"
    return min(places, key=lambda key: abs(places[key] - volts)), (
        f"With the string open C2 stands at {show(volts, 'V')}, instead of {show(healthy.bus_voltage_mean, 'V')}, and a"
        f" diode blocks {show(diode, 'V')}. {dark}, and live: only the string's current held the volts down."
    )


def diode_verdict(lamp: Lamp) -> tuple[str, str]:
    """What a diode of the bridge has to block at worst: "string", "peak" or "twice", and a sentence."""
    healthy, now = settle(lamp), settle(with_fault(lamp, Fault("open", "D1")))
    lost = settle(with_fault(lamp, QUESTION_FAULT))
    peak = lamp.mains.peak
    bound = theory.diode_reverse_voltage_beside_open(peak_voltage=peak)
    places = {"string": healthy.bus_voltage_mean, "peak": peak, "twice": 2 * peak}
    most = max(bound, *now.diode_reverse_peak, *lost.diode_reverse_peak)
    return min(places, key=lambda key: abs(places[key] - most)), (
        f"Healthy, a diode blocks {show(max(healthy.diode_reverse_peak), 'V')}; with the string open"
        f" {show(max(lost.diode_reverse_peak), 'V')}. With D1 open its neighbour blocks"
        f" {show(max(now.diode_reverse_peak), 'V')} here, and up to {show(bound, 'V')} are to be counted on: the"
        " dropper keeps one peak, and the mains adds the other."
    )
