"""Touch-current view: a person in the circuit, the current both ways of the plug, and what a breaker sees of it."""

from __future__ import annotations

from dataclasses import dataclass, replace

from ... import theory
from ...circuit.excerpt import excerpt
from ...circuit.fields import about, check_part, documented
from ...circuit.lamp import Lamp, replace_at
from ...circuit.values import show
from ...results.reading import Reading
from ...solver.transient import HANDS, LIVE, Body, Fault, Faulty, Touch, settle, touch, with_fault
from ...standards import BODY_RESISTANCES, HOUSEHOLD_DEVICE, NO_LEAVE, effect_words
from ...standards.cautions import LOW_VOLTAGE

STATES = {
    "sound": "sound",
    "no R1": "sound, without R1",
    "short": "dropper short",
    "short, no R1": "dropper short, without R1",
}
_METER = 10e6  # Ω of a voltmeter: how far the minus stands from earth with nobody there
_HELD = 0.85  # share of the bus's volts up to which the body keeps the bridge from taking part
_MIXED = 0.1  # direct part over rms from which on a current counts as no plain ac


@documented
@dataclass(frozen=True)
class Contact:
    """A lamp and the person in its circuit."""

    lamp: Lamp
    resistance: float = about("of the person", "Ω", default=1000.0)
    hand: str = about("a key of `solver.transient.HANDS`", default="minus")
    live: str = about("a key of `solver.transient.LIVE`", default="dropper")
    state: str = about("of the lamp: a key of `STATES`", default="sound")

    def __post_init__(self):
        check_part(self, "lamp", Lamp)
        if self.state not in STATES:
            raise ValueError(f"Contact.state: {excerpt(self.state)} is unknown; it can be {', '.join(STATES)}")

    @property
    def words(self) -> str:
        """Where the hand is, which side is live, and the state of the lamp."""
        one, other = ("Hands", "") if self.hand == "string" else ("A hand", ", the other end of the person on earth")
        return f"{one} on {HANDS[self.hand]}{other}; {LIVE[self.live]}; lamp: {STATES[self.state]}."

    @property
    def body(self) -> Body:
        """The person."""
        return Body(self.resistance, self.hand, self.live)

    @property
    def meter(self) -> Body:
        """A voltmeter between minus and earth, and nobody near."""
        return Body(_METER, "minus", self.live)

    @property
    def turned(self) -> Contact:
        """The same with the plug the other way round."""
        return replace(self, live=next(key for key in LIVE if key != self.live))

    @property
    def short(self) -> bool:
        """Whether the dropper is short."""
        return self.state.startswith("short")

    @property
    def subject(self) -> Lamp | Faulty:
        """The lamp in its state."""
        lamp = replace_at(self.lamp, "inrush_resistor", 0.0) if self.state.endswith("no R1") else self.lamp
        return with_fault(lamp, Fault("short", "dropper")) if self.short else lamp


@documented
@dataclass(frozen=True, eq=False)
class View:
    """What flows."""

    setting: Contact
    now: Touch
    turned: Touch = about("the same with the plug the other way round")
    meter: Touch = about("the same with a voltmeter in the person's place: what stands there with nobody near")
    device: str = about("what a residual-current device does: see `ResidualCurrentDevice.answer`")
    light: str = about("of the lamp with nobody near, as `SteadyState.word` has it")
    readings: tuple


def states_of(lamp: Lamp) -> dict[str, str]:
    """The states that a lamp can be in, those of R1 only where it has one."""
    return {key: words for key, words in STATES.items() if lamp.inrush_resistor or "R1" not in words}


def view_of(setting: Contact) -> View:
    """What a setting shows."""
    subject = setting.subject
    now, turned, meter = (touch(subject, body) for body in (setting.body, setting.turned.body, setting.meter))
    return View(
        setting=setting,
        now=now,
        turned=turned,
        meter=meter,
        device=HOUSEHOLD_DEVICE.answer(now.earth_current_rms),
        light=settle(subject).word,
        readings=_readings(setting, now, meter),
    )


def effect(view: View) -> str:
    """What the current does to a person, and that no figure is leave to touch."""
    return effect_words(view.now.current_rms, view.now.current_mean)


def device_words(view: View) -> str:
    """What a residual-current device does, in a sentence or two."""
    device, current = HOUSEHOLD_DEVICE, show(view.now.earth_current_rms, "A")
    rating = show(device.trips, "A")
    words = {
        "nothing": "A residual-current device sees nothing of it: all that goes out in one wire comes back in the"
        " other.",
        "stays on": f"A residual-current device of {rating} stays on: {current} is below the {show(device.holds, 'A')}"
        " up to which it must not trip.",
        "either": f"A residual-current device of {rating} may stay on: between {show(device.holds, 'A')} and {rating}"
        f" it may do either, and {current} is there.",
        "trips": f"A residual-current device of {rating} must trip, and until it has, {current} flow: it limits"
        " nothing, it only ends it.",
    }[view.device]
    mixed = view.device != "nothing" and abs(view.now.current_mean) > _MIXED * view.now.current_rms
    return words + (" One of type AC need not see a current with a direct part." if mixed else "")


def path_words(setting: Contact) -> str:
    """The way of the current, and what limits it."""
    at_bridge = setting.live == "bridge"
    rest = "the dropper is short and limits nothing" if setting.short else "the dropper limits it"
    if setting.hand == "string":
        limit = "the dropper is short, and little" if setting.short else "the dropper"
        return f"From plus through both arms to minus; {limit} limits it, and both wires of the mains carry it."
    if setting.hand == "bridge" and at_bridge and setting.short:
        return "The short dropper ties the hand to neutral; what drives the current is the drop in R1 and the line."
    if setting.hand == "bridge":
        through = "the bridge and the string" if at_bridge else "the dropper"
        limit = "the dropper is in the other wire" if at_bridge else rest
        return f"From live through {through} to the hand, and over earth; {limit}."
    if at_bridge:
        return "From live through the bridge to the hand, and over earth; the dropper is in the other wire."
    return f"From live through the dropper and the bridge to the hand, and over earth, half the time; {rest}."


def isolation_words(lamp: Lamp) -> str:
    """What a lamp on low volts is computed for here; "" for one on the mains."""
    if lamp.mains.voltage > LOW_VOLTAGE:
        return ""
    return (
        " This lamp belongs behind a safety isolating transformer, which ties neither wire to earth; the figures to"
        " earth are those of a supply that has one wire earthed all the same, and a mistake at the transformer puts the"
        " mains there."
    )


def resistance_words() -> str:
    """How many ohms a person has, by the table that is kept."""
    line = max(BODY_RESISTANCES, key=lambda line: line.voltage)
    return (
        f"How many ohms is a person? From hand to hand, dry, large contacts, at {show(line.voltage, 'V')}: one in"
        f" twenty below {show(line.low, 'Ω')}, half below {show(line.middle, 'Ω', 4)}, one in twenty above"
        f" {show(line.high, 'Ω')} (IEC TS 60479-1, Table 1, values from memory). Wet skin, a firm grip, a cut: less."
    )


def worst_verdict(setting: Contact) -> tuple[str, str]:
    """What sets the current at worst, by the panel's question: the key of an answer, and a sentence."""
    ways = {live: touch(setting.subject, replace(setting, live=live).body) for live in LIVE}
    worst = max(ways.values(), key=lambda way: way.current_rms)
    if worst.hand_voltage_peak > 0.9 * setting.lamp.mains.peak:
        right = "mains"
    else:
        right = "string" if worst.hand_voltage_peak > 0.9 * worst.bus_voltage_mean else "dropper"
    first, second = ways["dropper"], ways["bridge"]
    meter = touch(setting.subject, replace(setting, live="bridge").meter)
    times = second.current_rms / first.current_rms
    return right, (
        f"With live at the dropper {show(first.current_rms, 'A')} rms flow; turned, with live at the bridge,"
        f" {show(second.current_rms, 'A')}, {times:.2g} times as much: the dropper is then in the other wire. The"
        f" string holds {show(meter.bus_voltage_mean, 'V')}, and its minus stands up to"
        f" {show(meter.minus_voltage_peak, 'V')} from earth. A residual-current device limits nothing: it"
        f" ends what it sees, and below its rating it need not. {NO_LEAVE}"
    )


def _readings(setting, now, meter):
    lamp, ohms = setting.lamp, {"body_resistance": setting.resistance}
    mains = {"voltage": lamp.mains.voltage}
    source = {"frequency": lamp.mains.frequency, "dropper": lamp.dropper}
    alone, behind = mains | ohms, mains | ohms | source
    solver = (
        "By the solver, with the person as a resistance in the circuit. The standard's lines are for a sine; the rms of"
        f" any wave is held against them here. {NO_LEAVE}"
    )
    nobody = "By the solver, with a voltmeter of 10 MΩ between minus and earth, and nobody near."
    pumped = (
        setting.hand in ("minus", "plus")
        and setting.live == "dropper"
        and not setting.short
        and now.hand_voltage_peak < _HELD * now.bus_voltage_mean
    )
    drop = lamp.diode.voltage_at(max(now.string_current_mean, 1e-6))
    pump = source | {"peak_voltage": lamp.mains.peak, "output_voltage": now.bus_voltage_mean, "diode_voltage": drop}
    half_wave = (
        "The hand makes a half-wave pump of the lamp. In the other half cycle it lies beside a diode that conducts, and"
        f" takes a little back. {NO_LEAVE}"
    )
    return (
        Reading("current_rms", "current through the person, rms", now.current_rms, "A", "", note=solver),
        Reading(
            "current_mean",
            "of it direct (mean)",
            abs(now.current_mean),
            "A",
            "half_wave_current" if pumped else "",
            pump if pumped else {},
            note=half_wave if pumped else solver,
            names={"": "mean current through the person"} if pumped else {},
        ),
        Reading(
            "alone", "the mains over the body alone", theory.body_current(**alone), "A", "body_current", alone, True
        ),
        Reading(
            "behind",
            "a sound dropper and the body in series",
            theory.body_current_behind_dropper(**behind),
            "A",
            "body_current_behind_dropper",
            behind,
            True,
        ),
        Reading("current_peak", "current through the person, peak", now.current_peak, "A", "", note=solver),
        Reading(
            "device",
            "what a residual-current device sees, rms",
            now.earth_current_rms,
            "A",
            "",
            note="What flows to earth. It compares the two wires of the mains, and knows nothing of a person.",
        ),
        Reading("minus", "bus minus from earth, farthest", meter.minus_voltage_peak, "V", "", note=nobody),
        Reading("bus", "bus voltage, mean", meter.bus_voltage_mean, "V", "", note=nobody),
    )
