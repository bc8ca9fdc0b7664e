"""Stresses of every part of a lamp, in the settled cycle and in the rush at plug-in."""

import functools
import math

import numpy as np

from ... import theory
from ...circuit import progress
from ...circuit.lamp import Lamp
from ...solver.cycles import on_all_cores
from ...solver.transient import STIFF_INDUCTANCE, STIFF_RESISTANCE, Trace, plug_in, settle, worst_plug_in
from ...solver.transient.circuit import OPEN
from ...solver.transient.faults import Fault, circuit_of
from .circumstances import circumstances
from .explanation import plugging_forms, settled_forms
from .stress import PartStress

_RUSH_PERIODS = 1.0  # of the mains, looked at after plugging in
WHENS = ("normal", "upper", "plug-in", "fault")
_NOTHING = 1e-9  # V, A or W: what is below is no stress
_SURGE_TIME = 8.3e-3  # s, over which data sheets of diodes count a surge


@functools.lru_cache(maxsize=32)
def stresses(
    lamp: Lamp, upper: float, faults: tuple[Fault, ...], when: tuple[str, ...] = WHENS
) -> tuple[PartStress, ...]:
    """Every stress found.

    Parameters
    ----------
    upper
        V rms, the mains' upper limit.
    when
        Of which circumstances: all, or some of `WHENS`; the others are not solved.

    Raises
    ------
    ValueError
        If a fault cannot happen to the lamp.
    ArithmeticError
        If the circuit's equations could not be solved.
    """
    cases = []  # a rush on a stiff mains goes with the one before it, whose worst moment it takes
    for circumstance in circumstances(lamp, upper, faults):
        if circumstance.when not in when:
            continue
        if circumstance.stiff:
            cases[-1].append(circumstance)
        else:
            cases.append([circumstance])
    results = [None] * len(cases)

    def look_at(part):
        results[part] = [_stresses(case) for case in cases[part]]

    on_all_cores(look_at, len(cases), 1, progress.report)
    return tuple(stress for found in results for stress in found)


def _stresses(case):
    """Stresses of one circumstance, or of a rush and the same on a stiff mains."""
    results, trace = [], None
    for circumstance in case:
        circuit = circuit_of(circumstance.lamp)
        if circumstance.plugging:
            trace = _plug_in_on_stiff(circumstance.lamp, trace) if circumstance.stiff else _plug_in(circumstance)
            values, forms = _rush(trace, circuit), plugging_forms(circuit, trace)
        else:
            settled = settle(circumstance.lamp)
            values, readings = _lasting(settled, circuit, circumstance.fault)
            forms = settled_forms(circumstance, circuit, settled, readings)
        results += [
            PartStress(part, quantity, value, circumstance, *forms.get((part, quantity), ()))
            for (part, quantity), value in values.items()
            if _is_there(circumstance.healthy, part) and not _has_failed(circumstance.fault, part)
        ]
    return results


def _plug_in(circumstance):
    """The rush at its worst moment, on a mains of the reference impedance."""
    return worst_plug_in(circumstance.lamp, circumstance.plugging == "again", _RUSH_PERIODS)


def _plug_in_on_stiff(lamp, worst):
    """The same rush at the same moment on a stiff mains."""
    charges = worst.precharge, worst.bus_precharge
    return plug_in(lamp, worst.angle, *charges, _RUSH_PERIODS, STIFF_RESISTANCE, STIFF_INDUCTANCE)


def _is_there(lamp, part):
    return part in ("diodes", "leds") or bool(getattr(lamp, part))


def _has_failed(fault, part):
    """Whether nothing more is asked of a part because the fault is its own. A diode's neighbours go on."""
    if fault is None or fault.kind == "lost":
        return False
    return fault.part == part or (fault.part == "string" and part == "leds")


def _lasting(settled, circuit, fault):
    """Values by part and quantity for a cycle that repeats, and readings that closed forms ask for."""
    time, period = settled.time, 1 / circuit.mains.frequency

    def mean(wave):
        return float(np.trapezoid(wave, time) / period)

    line, string = settled.line_current, settled.string_current
    dropper_dc = mean(settled.dropper_voltage)
    string_rms = math.sqrt(mean(string**2))
    rising = max(mean(np.maximum(line, 0)), mean(np.maximum(-line, 0)))  # each diode carries one direction only
    gone = {f"D{n}" for n in range(1, 5) if fault is not None and f"D{n}" in fault.part}
    sound = [n for n in range(4) if f"D{n + 1}" not in gone]
    reverse = max(0.0, *(settled.diode_reverse_peak[n] for n in sound))
    dropper_held = abs(dropper_dc)
    if OPEN in circuit.bridge:  # where the bus floats is decided by strays: no less than the bound is counted on
        crest = float(np.abs(settled.mains_voltage).max())
        reverse = max(reverse, theory.diode_reverse_voltage_beside_open(peak_voltage=crest))
        if math.isinf(circuit.bleeder):  # nothing empties the dropper, and the bus may: then all of the crest is on it
            dropper_held = max(dropper_held, crest)
    heat, resistor, series = settled.heat, circuit.inrush_resistor, circuit.series_resistor
    leds = circuit.groups * circuit.in_parallel + circuit.odd_parallel
    values = {
        ("inrush_resistor", "rms_current"): settled.line_current_rms,
        ("inrush_resistor", "rms_voltage"): resistor * settled.line_current_rms,
        ("inrush_resistor", "peak_voltage"): resistor * settled.line_current_peak,
        ("inrush_resistor", "power"): heat["inrush_resistor"],
        ("dropper", "ac_voltage"): math.sqrt(max(settled.dropper_voltage_rms**2 - dropper_dc**2, 0.0)),
        ("dropper", "peak_voltage"): settled.dropper_voltage_peak,
        ("dropper", "dc_voltage"): dropper_held,
        ("dropper", "rms_current"): settled.line_current_rms,
        ("bleeder", "rms_voltage"): settled.dropper_voltage_rms,
        ("bleeder", "peak_voltage"): settled.dropper_voltage_peak,
        ("bleeder", "power"): heat["bleeder"],
        ("diodes", "reverse_voltage"): reverse,
        ("diodes", "mean_current"): rising,
        ("diodes", "power"): max(settled.diode_heat[n] for n in sound),
        ("smoothing", "peak_voltage"): settled.bus_voltage_peak,
        ("smoothing", "dc_voltage"): settled.bus_voltage_mean,
        ("smoothing", "ripple_current"): _ripple_current(settled, circuit, period),
        ("smoothing_bleeder", "rms_voltage"): math.sqrt(mean(settled.bus_voltage**2)),
        ("smoothing_bleeder", "peak_voltage"): settled.bus_voltage_peak,
        ("smoothing_bleeder", "power"): heat["smoothing_bleeder"],
        ("series_resistor", "rms_voltage"): series * string_rms,
        ("series_resistor", "peak_voltage"): series * settled.string_current_max,
        ("series_resistor", "power"): heat["series_resistor"],
        ("leds", "mean_current"): settled.led_current_mean,
        ("leds", "peak_current"): settled.string_current_max / circuit.fewest_parallel,
        ("leds", "power"): heat["leds"] / leds if leds else 0.0,
    }
    readings = {"string_current_rms": string_rms}
    return {key: float(value) if value > _NOTHING else 0.0 for key, value in values.items()}, readings


def _ripple_current(settled, circuit, period):
    """Rms current of the smoothing capacitor: what its voltage's changes from stride to stride take."""
    steps = np.diff(settled.time)
    moved = steps > 0
    charge = circuit.smoothing * np.diff(settled.bus_voltage)[moved]
    return math.sqrt(float(np.sum(charge**2 / steps[moved])) / period)


def _rush(trace: Trace, circuit):
    peak, dropper = trace.line_current_peak, trace.dropper_voltage_peak
    return {
        ("inrush_resistor", "pulse_voltage"): circuit.inrush_resistor * peak,
        ("inrush_resistor", "pulse_energy"): trace.inrush_energy,
        ("dropper", "pulse_voltage"): dropper,
        ("dropper", "peak_current"): peak,
        ("bleeder", "peak_voltage"): dropper,
        ("diodes", "surge"): peak,
        ("diodes", "surge_i2t"): trace.i2t(_SURGE_TIME),
        ("smoothing", "peak_voltage"): trace.bus_voltage_peak,
        ("smoothing_bleeder", "peak_voltage"): trace.bus_voltage_peak,
        ("series_resistor", "peak_voltage"): circuit.series_resistor * trace.string_current_peak,
        ("leds", "surge"): trace.string_current_peak / circuit.fewest_parallel,
    }
