"""Proved dead: unplugged, waited for, measured at the pins, opened, measured at each capacitor, discharged."""

import math

from ... import theory
from ...circuit.lamp import Lamp, replace_at
from ...circuit.values import show
from ...results.reading import Reading
from ...solver.transient import Trace, worst_unplug
from ...standards.cautions import DISCHARGE, low_voltage
from ..meter.multimeter import Multimeter
from .steps import Stage, Step

DISCHARGE_RESISTOR = 4.7e3  # Ω, 2 W: between the 1 and 10 kΩ of common practice, no source
WORKING_VOLTAGE = 500.0  # V, the least that it has to stand: above the peak of 230 V and a tenth. Practice, no source
EMPTY = 1.0  # V; what is below no longer counts as charged here
LEAST_WAIT, SOON = 60.0, 1.0  # s
TRAINED = "If you are trained and allowed to, and only then,"
METER_OHMS = Multimeter().input_resistance

_DEAD = (
    "A capacitor counts as live until it has been measured. Nothing here says that a part may be touched; local codes"
    " and licensed practice do. Whoever is not trained and allowed to measure leaves the case closed."
)
_DEAD_LOW = (
    "Stored charge and hot parts are still there at these volts. The rules of the school and local codes come first."
)


def proved_dead_stage(lamp: Lamp) -> Stage:
    """Unplugged and waited for; pins measured; case opened; each capacitor measured, discharged, measured again."""
    low = low_voltage(lamp)
    steps = [_unplug(low), _wait(lamp), _meter(lamp)]
    if not low:
        steps += [_pins(lamp), _no_proof(lamp), _open()]
    steps += [_capacitors(lamp), _discharge(lamp), _again()]
    return Stage("Unplugged, and proved dead", tuple(steps), _DEAD_LOW if low else _DEAD)


def wait_time(lamp: Lamp) -> float:
    """Whole minutes, in s, in which sound bleeders take both capacitors from the mains' peak to `EMPTY`.

    At least one minute; a capacitor without a bleeder does not count, for nothing empties it.
    """
    pairs = (lamp.dropper, lamp.bleeder), (lamp.smoothing, lamp.smoothing_bleeder)
    times = [_bleeding_time(lamp, farads, ohms) for farads, ohms in pairs if farads and ohms]
    return LEAST_WAIT * max(1, math.ceil(max(times, default=0.0) / LEAST_WAIT))


def unplugged(lamp: Lamp, seconds: float, metered: bool = False) -> Trace:
    """A sound lamp unplugged at the worst moment; with a multimeter across the pins all the while, if it is to be so.

    With the meter the pins show less than the dropper holds: the bridge and the bus stand against it.
    """
    return worst_unplug(lamp, seconds=seconds, across=METER_OHMS if metered else None)


def volts_text(volts: float) -> str:
    """Volts for the list, either way round; what a range of hundreds shows as nothing is said so."""
    return "less than 0.1 V" if abs(volts) < 0.1 else show(abs(float(volts)), "V")


def minutes_text(lamp: Lamp) -> str:
    """The time to wait: "1 minute"."""
    count = round(wait_time(lamp) / LEAST_WAIT)
    return f"{count} minute{'s' if count > 1 else ''}"


def _decay(lamp, farads, ohms):
    return {"dropper": farads, "bleeder": ohms, "initial_voltage": lamp.mains.peak, "limit_voltage": EMPTY}


def _bleeding_time(lamp, farads, ohms):
    return theory.discharge_time(**_decay(lamp, farads, ohms)) if lamp.mains.peak > EMPTY else 0.0


def _unplug(low):
    if low:
        return Step(
            "unplug",
            "Unplug the transformer, keep its plug in sight, and take the lamp's leads off it.",
            "A part that is changed while the transformer feeds the lamp is changed under power.",
        )
    return Step(
        "unplug",
        "Unplug the lamp, keep the plug in sight, and leave the case closed. The pins count as live.",
        "A switch may be in the neutral and leave every part live.",
    )


def _wait(lamp):
    peak = show(lamp.mains.peak, "V")
    if lamp.bleeder is None:
        texts, reading = [f"The dropper holds up to {peak}, and this lamp has no bleeder that would empty it."], None
    else:
        seconds, values = _bleeding_time(lamp, lamp.dropper, lamp.bleeder), _decay(lamp, lamp.dropper, lamp.bleeder)
        reading = Reading("discharge_time", "dropper down to 1 V", seconds, "s", "discharge_time", values, exact=True)
        texts = [
            f"The dropper holds up to {peak}; a sound bleeder takes it to {show(EMPTY, 'V')} in {show(seconds, 's')}."
        ]
    if lamp.smoothing and lamp.smoothing_bleeder is not None:
        seconds = _bleeding_time(lamp, lamp.smoothing, lamp.smoothing_bleeder)
        texts.append(f"The smoothing capacitor, should the string be open, needs {show(seconds, 's')}.")
    elif lamp.smoothing:
        texts.append("The smoothing capacitor has no bleeder, and the LEDs do not empty it.")
    return Step(
        "wait",
        f"Wait {minutes_text(lamp)}. Nothing on this list is done in haste.",
        "Bleeders need their time. An open one cannot be seen, so the wait proves nothing.",
        " ".join(texts),
        reading,
    )


def _meter(lamp):
    volts, source = "600 V or more", "a proving unit's"
    if low_voltage(lamp):
        volts, source = f"{show(2 * lamp.mains.peak, 'V', 1)} or so", "a bench supply's"
    return Step(
        "prove the meter",
        f"Prove the meter on a known voltage of the size that is looked for, {source}, on the range that is used next:"
        f" dc, {volts}.",
        "A dead meter, a blown fuse or a wrong range shows 0 V of anything, and a few volts prove no range of hundreds"
        " (HSE GS38).",
    )


def _pins(lamp):
    if lamp.bleeder is None:
        expect, stop = f"Anything up to {_held_without_bleeder(lamp)}: nothing empties the dropper.", "Any voltage."
    else:
        shown = volts_text(unplugged(lamp, wait_time(lamp), metered=True).pins_voltage[-1])
        expect = f"After {minutes_text(lamp)}, with a meter of {show(METER_OHMS, 'Ω')}: {shown}."
        stop = f"More: the bleeder may be open, and the dropper then still holds {_held_without_bleeder(lamp)}."
    return Step(
        "pins",
        f"{TRAINED} measure from pin to pin: insulated probes with finger guards, the plug laid on something that"
        " insulates. Otherwise leave the lamp closed for somebody who is.",
        "If the dropper's bleeder is open or missing, its charge stays for hours.",
        expect,
        None,
        stop,
    )


def _held_without_bleeder(lamp):
    """What the dropper still holds after the wait where nothing empties it."""
    return volts_text(unplugged(replace_at(lamp, "bleeder", None), wait_time(lamp)).dropper_voltage[-1])


def _no_proof(lamp):
    metered = unplugged(lamp, SOON, metered=True)
    charged = [f"the dropper holds {volts_text(metered.dropper_voltage[-1])}"]
    if lamp.smoothing:
        charged.append(f"the smoothing capacitor {volts_text(metered.bus_voltage[-1])}")
    return Step(
        "no proof",
        "Do not take 0 V between the pins for an empty dropper.",
        "The bridge stands between the pins and the dropper, and the charged bus stands against it: the meter sees"
        " only what the dropper holds beyond the bus.",
        f"All parts sound, the meter on all the while, {show(SOON, 's')} after unplugging:"
        f" {volts_text(metered.pins_voltage[-1])} between the pins,"
        f" while {' and '.join(charged)}.",
    )


def _open():
    return Step(
        "open",
        "With the pins proved dead, prove the meter once more on the same known voltage and range. Only then open the"
        " case. What is inside counts as live.",
        "A reading counts between two proofs of the meter only.",
    )


def _capacitors(lamp):
    after, peak = unplugged(lamp, wait_time(lamp)), show(lamp.mains.peak, "V")
    texts = [f"After {minutes_text(lamp)} the dropper holds {volts_text(after.dropper_voltage[-1])}."]
    stop = "More: its bleeder is open."
    if lamp.bleeder is None:
        texts = [f"The dropper holds up to {volts_text(after.dropper_voltage[-1])}, for it has no bleeder."]
        stop = ""
    if lamp.smoothing:
        none = "" if lamp.smoothing_bleeder else ", for there is no bleeder across it"
        texts.append(f"The smoothing capacitor holds {volts_text(after.bus_voltage[-1])}{none}.")
        stop += (
            f" Up to {peak} on the smoothing capacitor: the string is open, and so is its bleeder, if one is fitted."
        )
    return Step(
        "capacitors",
        f"{'Measure' if low_voltage(lamp) else TRAINED + ' measure'} across the leads of each capacitor: the dropper"
        f"{', then the smoothing capacitor' if lamp.smoothing else ''}.",
        "Each keeps a charge of its own, and only its own leads show it.",
        " ".join(texts),
        None,
        stop.strip(),
    )


def _discharge(lamp):
    peak, resistor = lamp.mains.peak, show(DISCHARGE_RESISTOR, "Ω")
    how = f", with a working voltage of {show(WORKING_VOLTAGE, 'V')} or more. {DISCHARGE}"
    if low_voltage(lamp):
        how = " on insulated clips, never with a screwdriver."
    pulses = []
    for name, farads in (("dropper", lamp.dropper), ("smoothing capacitor", lamp.smoothing)):
        if farads:
            values = {"inrush_resistor": DISCHARGE_RESISTOR, "dropper": farads, "step_voltage": peak}
            joules, seconds = theory.inrush_energy(**values), 5 * DISCHARGE_RESISTOR * farads
            pulses.append(f"the {name} {show(joules, 'J')} in {show(seconds, 's')}")
    return Step(
        "discharge",
        f"Where a voltage is left, that capacitor is discharged through {resistor}, 2 W{how}",
        "A short takes all of it in one spark of many amperes. The resistor's data sheet says whether it stands such a"
        " pulse.",
        f"From {show(peak, 'V')}, in five time constants: {', '.join(pulses)};"
        f" {show(peak**2 / DISCHARGE_RESISTOR, 'W')} at first.",
    )


def _again():
    return Step(
        "measure again",
        "Measure across each capacitor again, then prove the meter once more, on the same known voltage and range.",
        "Only the second reading tells that it is empty, and only the proof that the meter still works.",
    )
