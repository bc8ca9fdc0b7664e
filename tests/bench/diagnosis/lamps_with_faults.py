"""Faulty lamps drawn at random, and what a person with meters would write down: shares nothing with `diagnosis`.

Parts within their tolerances, amounts anywhere, mains anywhere in its band; the circuit is settled as it then is, and
each meter gets one error of its own before its readings are rounded.
"""

import math
from dataclasses import dataclass, replace

import numpy as np
from dropper import Lamp
from dropper.solver.transient import Fault, settle, unplug, with_fault

# How often a fault is drawn: the fault finder is told the same.
SHARES = {
    None: 12,
    ("lost", "dropper"): 30,
    ("open", "dropper"): 4,
    ("short", "dropper"): 1,
    ("open", "bleeder"): 3,
    ("short", "bleeder"): 0.5,
    ("open", "smoothing_bleeder"): 2,
    ("open", "inrush_resistor"): 8,
    ("short", "inrush_resistor"): 0.5,
    ("drifted", "inrush_resistor"): 4,
    ("open", "D1"): 2,
    ("short", "D1"): 5,
    ("short", "D1 and D2"): 1,
    ("short", "D1 and D3"): 1,
    ("open", "smoothing"): 2,
    ("dried out", "smoothing"): 8,
    ("leaky", "smoothing"): 3,
    ("short", "smoothing"): 2,
    ("open", "string"): 8,
    ("open", "LED"): 3,
    ("short", "group"): 5,
    ("short", "groups"): 3,
}


@dataclass(frozen=True)
class Case:
    """A lamp as it should be, what is wrong with it, and all its readings by name."""

    lamp: Lamp
    kind: tuple | None
    amount: float | None
    readings: dict


def one_case(rng, lamp, shares=SHARES):
    kinds = [kind for kind in shares if possible(lamp, kind)]
    weights = np.array([shares[kind] for kind in kinds], float)
    kind = kinds[rng.choice(len(kinds), p=weights / weights.sum())]
    amount = drawn_amount(rng, lamp, kind)
    real = as_built(rng, lamp)
    fault = None if kind is None else Fault(*kind, amount)
    return Case(lamp, kind, amount, readings_of(rng, lamp, real, fault))


def possible(lamp, kind):
    if kind is None:
        return True
    return not Fault(*kind).why_not(lamp) and (kind != ("short", "groups") or lamp.string.in_series > 2)


def drawn_amount(rng, lamp, kind):
    if kind == ("lost", "dropper"):
        return float(rng.uniform(0.05, 0.9))
    if kind == ("dried out", "smoothing"):
        return float(rng.uniform(0.3, 0.97))
    if kind == ("drifted", "inrush_resistor"):
        return float(np.exp(rng.uniform(np.log(1.3), np.log(30))))
    if kind == ("leaky", "smoothing"):
        return float(Fault(*kind).amount_in(lamp) * np.exp(rng.uniform(np.log(0.1), np.log(10))))
    if kind == ("short", "groups"):
        counts = np.arange(2, lamp.string.in_series)
        return int(rng.choice(counts, p=(1 / counts) / (1 / counts).sum()))
    return None


def as_built(rng, lamp):
    def off(limit):
        return 1 + rng.uniform(-limit, limit)

    led = lamp.string.led
    return replace(
        lamp,
        mains=replace(lamp.mains, voltage=lamp.mains.voltage * off(0.10)),
        dropper=lamp.dropper * off(0.10),
        smoothing=lamp.smoothing * off(0.20),
        inrush_resistor=lamp.inrush_resistor * off(0.05),
        bleeder=lamp.bleeder and lamp.bleeder * off(0.05),
        smoothing_bleeder=lamp.smoothing_bleeder and lamp.smoothing_bleeder * off(0.05),
        string=replace(lamp.string, led=replace(led, forward_voltage=led.forward_voltage * off(0.05))),
    )


def readings_of(rng, lamp, real, fault):
    broken = real if fault is None else with_fault(real, fault)
    state = settle(broken)
    kind = fault and (fault.kind, fault.part)
    amount = fault and fault.amount_in(real)

    def error(limit):
        return rng.uniform(-limit, limit)

    # one plug-in meter: 1 % of volts, 2 % of amperes, 1 % more of watts, half a degree, a digit each
    volts_off, amperes_off, watts_off, late = error(0.01), error(0.02), error(0.01), error(math.radians(0.5))
    volts, amperes = real.mains.voltage, state.line_current_rms
    angle = 2 * np.pi * state.time * real.mains.frequency
    leading = np.trapezoid(state.line_current * np.cos(angle), angle) / (np.sqrt(2) * np.pi)
    watts = state.real_power + abs(leading) * volts * np.sin(late)
    shown_watts = watts * (1 + volts_off + amperes_off + watts_off)
    factor = (
        shown_watts / (volts * (1 + volts_off) * amperes * (1 + amperes_off)) if amperes > 2e-3 else rng.uniform(0, 1)
    )
    seen = {
        "voltage": digits(volts * (1 + volts_off) + error(0.1), 0.1),
        "current": digits(amperes * (1 + amperes_off) + error(1e-3), 1e-3),
        "power": digits(shown_watts + error(0.1), 0.1),
        "power_factor": min(digits(factor + error(0.01), 0.01), 1.0),
    }
    if seen["current"] == 0:
        seen["power_factor"] = float(rng.choice([0.0, 1.0, 0.5]))

    dc, ac, farads, ohms = (1 + error(limit) for limit in (0.01, 0.015, 0.03, 0.01))

    def counted(value, finest, gain, more):
        """A meter of 2000 counts."""
        step = finest
        while abs(value) > 2000 * step * 0.9999:
            step *= 10
        return max(digits(value * gain + error(more * step), step), 0.0)

    def resistance(value):
        if value > 20e6:
            return math.inf
        return counted(max(value, 0.2), 0.1, ohms, 3)

    bus = state.bus_voltage
    weight = np.gradient(state.time)
    mean = (bus * weight).sum() / weight.sum()
    averaged = np.pi / (2 * np.sqrt(2)) * (np.abs(bus - mean) * weight).sum() / weight.sum()
    pull = rng.uniform(0, 360)  # one pull, at any moment, a meter of 10 MΩ on the pins
    left = abs(float(unplug(broken, pull, seconds=1.0, across=10e6).pins_voltage[-1]))
    farads_left = {("open", "dropper"): 0, ("short", "dropper"): 0, ("lost", "dropper"): 1 - (amount or 0)}.get(kind, 1)
    across = {("open", "bleeder"): math.inf, ("short", "bleeder"): 1e-3}.get(kind, real.bleeder or math.inf)
    store = real.smoothing * {
        ("open", "smoothing"): 0,
        ("short", "smoothing"): 0,
        ("dried out", "smoothing"): 1 - (amount or 0),
    }.get(kind, 1)
    inrush = real.inrush_resistor * {
        ("open", "inrush_resistor"): math.inf,
        ("short", "inrush_resistor"): 0,
        ("drifted", "inrush_resistor"): amount,
    }.get(kind, 1)
    leak = {("leaky", "smoothing"): amount, ("short", "smoothing"): 0.0}.get(kind, math.inf)
    below = math.inf if kind == ("open", "smoothing_bleeder") else real.smoothing_bleeder or math.inf
    seen |= {
        "bus_voltage": counted(state.bus_voltage_mean, 1e-3, dc, 3),
        "bus_ripple": counted(averaged, 1e-3, ac, 5),
        "pins_residual": counted(left, 1e-3, dc, 3),
        "bus_residual": counted(bus_left(real, fault), 1e-3, dc, 3),
        "dropper_capacitance": counted(real.dropper * farads_left, 1e-12, farads, 5),
        "smoothing_capacitance": counted(store, 1e-12, farads, 5),
        "inrush_resistance": resistance(inrush),
        "bleeder_resistance": resistance(across),
        "smoothing_resistance": resistance(leak),
        "smoothing_bleeder_resistance": resistance(below),
        "light": light(rng, lamp, state),
        "leds_dark": dark_leds(real, kind, amount, state),
        "bridge": {
            ("open", "D1"): "one open",
            ("short", "D1"): "one short",
            ("short", "D1 and D2"): "two short on a rail",
            ("short", "D1 and D3"): "two short on a leg",
        }.get(kind, "good"),
        "string": {
            ("open", "string"): "open",
            ("short", "group"): "one short",
            ("short", "groups"): "several short",
        }.get(kind, "good"),
    }
    return seen


def digits(value, digit):
    return round(max(value, 0.0) / digit) * digit


def bus_left(real, fault):
    """Volts across the smoothing capacitor ten seconds after the plug is pulled, a meter of 10 MΩ on it."""
    bleeder = real.smoothing_bleeder or math.inf
    metered = replace(real, smoothing_bleeder=1 / (1 / bleeder + 1e-7))
    if fault is not None and (fault.kind, fault.part) == ("open", "smoothing_bleeder"):
        metered, fault = replace(real, smoothing_bleeder=10e6), None
    return float(unplug(metered if fault is None else with_fault(metered, fault), 30, seconds=10).bus_voltage[-1])


def light(rng, lamp, state):
    """What somebody says who knew the lamp before: give or take 15 %."""
    before = settle(lamp)
    ratio = state.string_current_mean / before.string_current_mean
    if ratio < 0.01:
        return "none"
    half = state.time < state.time[-1] / 2
    sides = [np.trapezoid(state.string_current[part], state.time[part]) for part in (half, ~half)]
    flicker = state.percent_flicker + 30 * (abs(sides[0] - sides[1]) > 0.1 * sum(sides))
    if flicker > before.percent_flicker + rng.normal(25, 12):
        return "flickering"
    seen = ratio * math.exp(rng.normal(0, 0.15))
    return "dim" if seen < 0.8 else "brighter" if seen > 1.25 else "same"


def dark_leds(real, kind, amount, state):
    string = real.string
    if state.word == "dark":
        return string.in_series * string.in_parallel
    groups = {("short", "group"): 1, ("short", "groups"): amount}.get(kind, 0)
    return groups * string.in_parallel + (kind == ("open", "LED"))
