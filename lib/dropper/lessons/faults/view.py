"""Faults view: a lamp with one broken part beside the healthy one, its light, and what the other parts must stand."""

from dataclasses import dataclass

from ... import theory
from ...circuit.fields import about, check_part, documented
from ...circuit.lamp import THERMAL_VOLTAGE, Lamp
from ...circuit.values import show_reading
from ...results.excess import marked
from ...results.light import Light, light_of
from ...results.reading import Reading
from ...solver.steady import SteadyState
from ...solver.transient import Fault, faults_of, settle, with_fault

# Faults that leave a bridge behind a dropper, so that its formulas still hold.
_BRIDGE_FAULTS = {
    ("lost", "dropper"),
    ("open", "bleeder"),
    ("open", "smoothing_bleeder"),
    ("drifted", "inrush_resistor"),
    ("short", "inrush_resistor"),
    ("open", "smoothing"),
    ("dried out", "smoothing"),
    ("open", "string"),
    ("open", "LED"),
    ("short", "LED"),
    ("short", "group"),
    ("short", "groups"),
}
_WHY = {
    ("open", "dropper"): "The line is open at the dropper: next to no current flows.",
    ("short", "dropper"): "Nothing is left that drops the voltage: only the resistors limit the current. The inrush"
    " resistor must go open safely; a fuse, a fusible and flame-proof kind, and the data sheets decide.",
    ("lost", "dropper"): "The current goes with the capacitance, and the volts hardly change.",
    ("open", "bleeder"): "In use nobody notices. After unplugging nothing empties the dropper.",
    ("short", "bleeder"): "It bridges the dropper: only the resistors limit the current, as with a shorted dropper."
    " Something must open the line before anything burns.",
    ("open", "smoothing_bleeder"): "In use nobody notices. After unplugging the LEDs leave their knee voltage"
    " on the bus.",
    ("open", "inrush_resistor"): "The line is open.",
    ("drifted", "inrush_resistor"): "The light hardly changes; the heat in the resistor goes with its ohms.",
    ("short", "inrush_resistor"): "In use hardly anything changes. The next plug-in has only the mains' own impedance"
    " to limit it: some amperes on the reference impedance, tens on a stiff mains, and the dropper overshoots.",
    ("open", "D1"): "The other diodes let charge through one way only. The dropper charges until nothing flows: a"
    " capacitor blocks dc.",
    ("short", "D1"): "A half-wave pump is left: charge goes to the string in one half of the period; in the other"
    " half the shorted diode lets the dropper charge the other way round. The line current even rises.",
    ("short", "D1 and D2"): "The dropper alone is across the mains: its full reactive current, and no light.",
    ("short", "D1 and D3"): "The bus is shorted: no light and no heat in the string, while the line carries a"
    " little more current than before, as the dropper still limits it. All of it stays live.",
    ("open", "smoothing"): "The mean stays; the light goes out twice in every period. The next rush at plug-in goes"
    " through the LEDs.",
    ("dried out", "smoothing"): "The mean stays; the flicker grows. Only ripple or an eye for flicker tells.",
    ("leaky", "smoothing"): "Part of the current goes through the leak and warms the capacitor.",
    ("short", "smoothing"): "The bus is shorted: no light. The dropper still limits the line current. All of it stays"
    " live.",
    ("open", "string"): "Nothing clamps the bus: it climbs to the peak of the mains. The smoothing capacitor and the"
    " diodes have to stand that.",
    ("open", "LED"): "The others of its group take over its current.",
    ("short", "LED"): "Its whole group is dark; the others gain a little, for D has fallen.",
    ("short", "group"): "D has fallen by one group, and the current rises by that over what was left.",
    ("short", "groups"): "D has fallen, and the current rises along the load line; the watts fall.",
}


@documented
@dataclass(frozen=True)
class FaultyLamp:
    """A lamp and one of its faults, None for the healthy lamp."""

    lamp: Lamp
    fault: Fault | None = None

    def __post_init__(self):
        check_part(self, "lamp", Lamp)
        if self.fault is not None:
            with_fault(self.lamp, self.fault)  # says why where it does not apply


@documented
@dataclass(frozen=True, eq=False)
class View:
    """The repeating cycles of the healthy lamp and of the broken one."""

    setting: FaultyLamp
    healthy: SteadyState
    now: SteadyState
    fault: str = about("the fault in words; '' for none")
    readings: tuple

    @property
    def glow(self) -> Light:
        """The light through a period."""
        return light_of(self.setting.lamp, self.now)


def choices(lamp: Lamp) -> tuple:
    """The faults that can happen to a lamp, as (words, fault) with the healthy lamp first."""
    return (("none: the healthy lamp", None), *((fault.words(lamp), fault) for fault in faults_of(lamp)))


def view_of(setting: FaultyLamp) -> View:
    """What a setting shows."""
    lamp, fault = setting.lamp, setting.fault
    healthy = settle(lamp)
    now = healthy if fault is None else settle(with_fault(lamp, fault))
    return View(
        setting=setting,
        healthy=healthy,
        now=now,
        fault="" if fault is None else fault.words(lamp),
        readings=marked(_readings(lamp, fault, now), lamp),
    )


def light_clause(now: SteadyState, healthy: SteadyState) -> str:
    """What the light does, as a clause: "is dark", "looks the same" …"""
    if now.word == "same" and now.percent_flicker > healthy.percent_flicker + 15:
        return "has the same mean light, but flickers more"
    words = {"dark": "is dark", "dim": "is dim", "same": "looks the same", "brighter": "is brighter"}
    return words.get(now.word, "is overdriven")


def found(view: View) -> str:
    """What the fault of a view does, in a sentence with the currents and the watts."""
    now, healthy = view.now, view.healthy
    return (
        f"the lamp {light_clause(now, healthy)}, {show_reading(now.string_current_mean, 'A')} on average in the string"
        f" instead of {show_reading(healthy.string_current_mean, 'A')}; {show_reading(now.line_current_rms, 'A')} rms"
        f" in the line instead of {show_reading(healthy.line_current_rms, 'A')}, {show_reading(now.real_power, 'W')}"
        f" instead of {show_reading(healthy.real_power, 'W')}."
    )


def capital(words: str) -> str:
    """Words as they stand at the start of a sentence."""
    return words[:1].upper() + words[1:]


def reason(fault: Fault | None) -> str:
    """What a fault does, and why, in a sentence or two; "" for the healthy lamp."""
    if fault is None:
        return ""
    return _WHY.get((fault.kind, fault.part)) or _WHY.get((fault.kind, "D1"), "")


def _reverse(by, fault, now, drop):
    """The worst reverse voltage of a diode; beside an open one the bus floats, and no less than the bound is said."""
    if fault is not None and fault.kind == "open" and fault.part in ("D1", "D2", "D3", "D4"):
        crest = {"peak_voltage": float(abs(now.mains_voltage).max())}
        volts = theory.diode_reverse_voltage_beside_open(**crest)
        law = "diode_reverse_voltage_beside_open", crest
        return Reading("diode_reverse", "reverse voltage of a diode, at most", volts, "V", *law, True)
    return by(
        "diode_reverse",
        "reverse voltage of a diode, worst",
        max(now.diode_reverse_peak),
        "V",
        "diode_reverse_voltage",
        {"bus_voltage": max(now.bus_voltage_peak, 1e-9), "diode_voltage": drop / 2},
        from_readings=True,
    )


def _groups_left(lamp, fault):
    """How many groups of the string still drop their voltage."""
    if fault is None or fault.kind != "short" or fault.part not in ("group", "groups", "LED"):
        return lamp.string.in_series
    return lamp.string.in_series - (int(fault.amount_in(lamp)) if fault.part == "groups" else 1)


def _readings(lamp, fault, now):
    bridge = fault is None or (fault.kind, fault.part) in _BRIDGE_FAULTS
    half_wave = fault is not None and fault.kind == "short" and fault.part in ("D1", "D2", "D3", "D4")
    peak, note = lamp.mains.peak, reason(fault)
    source = {"frequency": lamp.mains.frequency, "dropper": lamp.dropper, "peak_voltage": peak}
    if fault is not None and (fault.kind, fault.part) == ("lost", "dropper"):
        source["dropper"] *= 1 - fault.amount_in(lamp)
    drop = 2 * lamp.diode.voltage_at(max(now.string_current_mean / max(now.conduction_fraction, 0.05), 1e-6))
    clamped = min(now.bus_voltage_mean + drop, peak * (1 - 1e-9))
    clamp = source | {"clamped_voltage": clamped}
    pump = source | {"output_voltage": now.bus_voltage_mean, "diode_voltage": drop / 2}

    def by(key, name, value, unit, derivation, values, holds=bridge, **more):
        if holds:
            return Reading(key, name, value, unit, derivation, values, note=note, **more)
        return Reading(key, name, value, unit, "", note=note or "By the solver; no formula is kept for this.")

    opened = fault is not None and (fault.kind, fault.part) == ("open", "string")
    current = ("half_wave_current", pump) if half_wave else ("mean_string_current", clamp)
    string = lamp.string
    lit = now.word != "dark"
    steep = {
        "string_current_mean": now.string_current_max,
        "in_series": _groups_left(lamp, fault),
        "in_parallel": string.in_parallel,
        "series_resistance": string.led.series_resistance,
        "forward_voltage": string.led.forward_voltage,
        "at_current": string.led.at_current,
        "ideality": string.led.ideality,
        "thermal_voltage": THERMAL_VOLTAGE,
    }
    bus = (
        ("string_voltage", steep)
        if lit
        else ("bus_voltage_open", {"peak_voltage": peak, "diode_voltage": lamp.diode.voltage_at(1e-4)})
    )
    rows = [
        by(
            "string_current_mean",
            "string current, mean",
            now.string_current_mean,
            "A",
            *current,
            holds=(bridge or half_wave) and not opened,
        ),
        by("real_power", "power from the mains", now.real_power, "W", "real_power", clamp),
        by("line_current_rms", "line current, rms", now.line_current_rms, "A", "line_current_rms", clamp),
        by(
            "bus_voltage_peak",
            "bus voltage, peak",
            now.bus_voltage_peak,
            "V",
            *bus,
            holds=opened or (lit and (bridge or half_wave) and (fault is None or fault.part != "LED")),
        ),
        by(
            "dropper_voltage_peak",
            "dropper voltage, peak",
            now.dropper_voltage_peak,
            "V",
            "dropper_voltage_peak",
            {"peak_voltage": peak, "clamped_voltage": clamped},
        ),
        _reverse(by, fault, now, drop),
    ]
    if lamp.inrush_resistor:
        power = {"line_current_rms": now.line_current_rms, "inrush_resistor": lamp.inrush_resistor}
        whole = fault is None or fault.part != "inrush_resistor"
        rows.append(
            by(
                "inrush_resistor_heat",
                "heat of the inrush resistor",
                now.heat.get("inrush_resistor", 0.0),
                "W",
                "inrush_resistor_heat",
                power,
                holds=whole and now.line_current_rms > 0,
                from_readings=True,
            )
        )
    return tuple(rows)
