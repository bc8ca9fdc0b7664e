"""Explanation of a stress: its closed form, and what to put into it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from ...results import explain
from ...solver.transient.circuit import HEALTHY, OPEN, SHORT, Circuit

if TYPE_CHECKING:
    from ...solver.steady import SteadyState
    from ...solver.transient import Trace
    from .circumstances import Circumstance

# part, quantity -> derivation, and whether it takes other readings of the lamp
_SETTLED = {
    ("inrush_resistor", "rms_current"): ("line_current_rms", False),
    ("inrush_resistor", "power"): ("inrush_resistor_heat", True),
    ("dropper", "ac_voltage"): ("dropper_voltage_rms", False),
    ("dropper", "peak_voltage"): ("dropper_voltage_peak", False),
    ("dropper", "rms_current"): ("line_current_rms", False),
    ("bleeder", "peak_voltage"): ("dropper_voltage_peak", False),
    ("bleeder", "rms_voltage"): ("dropper_voltage_rms", False),
    ("bleeder", "power"): ("bleeder_heat", True),
    ("diodes", "reverse_voltage"): ("diode_reverse_voltage", True),
    ("smoothing_bleeder", "power"): ("smoothing_bleeder_heat", True),
    ("series_resistor", "power"): ("series_resistor_heat", True),
    ("leds", "mean_current"): ("mean_string_current", False),
}
_STRING_OPEN = {
    ("smoothing", "peak_voltage"): "bus_voltage_open",
    ("smoothing", "dc_voltage"): "bus_voltage_open",
    ("smoothing_bleeder", "peak_voltage"): "bus_voltage_open",
    ("diodes", "reverse_voltage"): "diode_reverse_voltage_open",
}
_MUCH_LARGER = 5.0  # smoothing over dropper, from which on the bus counts as standing still in the rush
_ONE_SHORT = {("leds", "mean_current"): "half_wave_current"}


def _clamp(circumstance, circuit, settled):
    """What holds the bridge's ac side, V; None where that is no plain clamp and the closed forms do not hold."""
    shorts = [n for n, state in enumerate(circuit.bridge, start=1) if state == SHORT]
    if circuit.line_open or circuit.dropper_short or circuit.dropper == 0 or circuit.string_open:
        return None
    if shorts in ([1, 2], [3, 4], [1, 3], [2, 4]) or settled.bus_voltage_peak < 0.1:
        return 0.0
    if any(state != HEALTHY for state in circuit.bridge):
        return None
    clamp = explain.clamped_voltage(circumstance.healthy, settled)
    return clamp if settled.word != "dark" and clamp < circuit.mains.peak else None


def settled_forms(circumstance: Circumstance, circuit: Circuit, settled: SteadyState, readings: dict) -> dict:
    """Closed forms for what lasts.

    Parameters
    ----------
    circuit
        That of the circumstance.
    readings
        Further readings by keyword, for instance "string_current_rms".

    Returns
    -------
    dict
        By part and quantity: derivation, values, scale, whether it takes readings.
    """
    from ...theory import ALL

    mains, diode = circuit.mains, circuit.diode
    clamp = _clamp(circumstance, circuit, settled)
    known = {
        "frequency": mains.frequency,
        "peak_voltage": mains.peak,
        "dropper": circuit.dropper,
        "clamped_voltage": clamp,
        "inrush_resistor": circuit.inrush_resistor,
        "bleeder": circuit.bleeder,
        "smoothing_bleeder": circuit.smoothing_bleeder,
        "series_resistor": circuit.series_resistor,
        "line_current_rms": settled.line_current_rms,
        "dropper_voltage_rms": settled.dropper_voltage_rms,
        "bus_voltage": settled.bus_voltage_mean,
        "output_voltage": settled.bus_voltage_mean,
        "diode_voltage": diode.voltage_at(settled.string_current_mean / max(settled.conduction_fraction, 1e-9)),
        **readings,
    }
    lit = clamp is not None and clamp > 0 and circuit.smoothing_leak == float("inf")
    forms = {}
    for (part, quantity), (name, from_readings) in _SETTLED.items():
        values = {word: known[word] for word in ALL[name].keywords}
        if None in values.values() or (name in ("mean_string_current", "diode_reverse_voltage") and not lit):
            continue
        if name == "diode_reverse_voltage":
            values["bus_voltage"] = settled.bus_voltage_peak
        scale = 1 / circuit.fewest_parallel if part == "leds" else 1.0
        forms[part, quantity] = (name, values, scale, from_readings)
    if OPEN in circuit.bridge:
        crest = {"peak_voltage": float(np.abs(settled.mains_voltage).max())}
        forms["diodes", "reverse_voltage"] = ("diode_reverse_voltage_beside_open", crest, 1.0, False)
    special = _STRING_OPEN if circuit.string_open and all(state == HEALTHY for state in circuit.bridge) else {}
    if [*circuit.bridge].count(SHORT) == 1 and settled.word != "dark":
        special = _ONE_SHORT
    for key, name in special.items():
        values = {word: known[word] for word in ALL[name].keywords}
        forms[key] = (name, values, 1 / circuit.fewest_parallel if key[0] == "leds" else 1.0, False)
    return forms


def plugging_forms(circuit: Circuit, trace: Trace) -> dict:
    """Closed forms for the rush of current at plug-in.

    Returns
    -------
    dict
        As of `settled_forms`; empty where the dropper is not there, or the bus moves with the rush.
    """
    from ... import theory

    step = abs(float(trace.mains_voltage[0]) - trace.precharge)
    holds = circuit.smoothing >= _MUCH_LARGER * circuit.dropper and not circuit.dropper_short
    if circuit.dropper == 0 or step <= 0 or not holds or circuit.line_open:
        return {}
    known = {
        "inrush_resistor": circuit.inrush_resistor + trace.line_resistance,
        "dropper": circuit.dropper,
        "line_inductance": trace.line_inductance,
        "step_voltage": step,
    }
    law = theory.rush_law(trace.line_inductance, circuit.dropper, known["inrush_resistor"])
    peak = (law, known, 1.0, False)
    forms = {("dropper", "peak_current"): peak, ("diodes", "surge"): peak}
    if circuit.inrush_resistor:
        energy = {word: known[word] for word in ("inrush_resistor", "dropper", "step_voltage")}
        forms["inrush_resistor", "pulse_energy"] = ("inrush_energy", energy, 1.0, False)
    if law == "ringing_inrush_peak" and not trace.precharge:
        forms["dropper", "pulse_voltage"] = ("dropper_overshoot", known, 1.0, False)
    return forms
