"""Sources: what may make a real lamp read otherwise than the predicted one, each as lamps that are one thing apart."""

from __future__ import annotations

from dataclasses import dataclass, replace

from ... import theory
from ...bench.meter import PlugInMeter
from ...circuit.fields import about, documented
from ...circuit.lamp import Lamp, Mains, replace_at
from ...circuit.values import show
from ...solver import heat
from ...solver.steady import SteadyState
from ...solver.transient.circuit import LINE_INDUCTANCE, LINE_RESISTANCE
from ...standards import Supply
from ..tolerance import Spread

PRACTICE = "typical practice, no source"
PARTS, MODEL, METER = "parts", "model", "meter"
# A public supply often has some 3 % of the one or the other; EN 50160 lets it have 5 % of the third and 6 % of the
# fifth. Both from memory.
_HARMONIC, _ORDERS, _PHASES = 0.03, (3, 5), (0.0, 90.0, 180.0, 270.0)
_FILM_TANGENT = 1e-3  # polypropylene, at the mains' frequency and somewhat above
_ELECTROLYTIC_TANGENT = 0.2  # at twice the mains' frequency, a sound one of some hundred volts
_LED_COEFFICIENT = -3e-3  # V/K, of one LED junction
_JUNCTION = 3.5  # V, at most, of one junction: what drops more has several in series
_MOST_OHMS = 1e4  # of a smoothing capacitor's loss
_HOTTEST = 125.0  # °C: no LED is left on a bench hotter than that
_REFERENCE = 25.0  # °C: where data sheets state an LED's volts
_FROM_SPREAD = ("dropper", "led", "frequency", "smoothing", "resistors")


@documented
@dataclass(frozen=True, eq=False)
class Source:
    """One source of error: what it is, how large it is taken, and lamps that have it."""

    key: str = about("what it is called in code")
    name: str = about("what it is called in words")
    kind: str = about("`PARTS`, `MODEL` or `METER`")
    amount: str = about("how large it is taken, in words")
    source: str = about("where that size comes from")
    lamps: tuple = about("lamps with this alone, one for each way that it can go", default=())
    smoothing_series: float = about(
        "ohms in series with the smoothing capacitor; 0 where it is no such thing", default=0.0
    )


def sources_of(lamp: Lamp, result: SteadyState, meter: PlugInMeter | None = None) -> tuple[Source, ...]:
    """Sources of error of a lamp's readings, the meter's own display left out.

    The mains is the one that the lamp stands on: its volts are as good as the meter that read them. Its band, through
    the day and from socket to socket, is no error of a reading; `tolerance` has that.

    Parameters
    ----------
    result
        The lamp's own, for how warm its LEDs get.
    meter
        The one that the mains' volts were read with.

    Raises
    ------
    ValueError
        If a part at the end of its tolerance is more than a lamp may have.
    """
    return (*_parts(lamp), _volts(lamp, meter or PlugInMeter()), *_left_out(lamp, result))


def _parts(lamp):
    """Each part and the frequency at both ends of its tolerance."""
    mains, notes = lamp.mains, {"led": "LEDs"}
    here = Supply("here", mains.voltage, mains.voltage, mains.voltage, mains.frequency, "EN 50160, value from memory")
    spread = Spread.of(lamp, here)
    for axis in spread.axes(lamp):
        if axis.key in _FROM_SPREAD:
            lamps = [lamp, lamp]
            for place, factor in enumerate((axis.low, axis.high)):
                for path, nominal in axis.paths:
                    lamps[place] = replace_at(lamps[place], path, nominal * factor)
            below, above = (f"{100 * abs(end - 1):.2g}" for end in (axis.low, axis.high))
            amount = f"±{above} %" if below == above else f"−{below} % to +{above} %"
            note = dict(spread.sources)[notes.get(axis.key, axis.key)]
            yield Source(axis.key, axis.name, PARTS, amount, note, tuple(lamps))


def _volts(lamp, meter):
    scale, volts = meter.scales()["voltage"], lamp.mains.voltage
    off = scale.error_limit(volts) + scale.step(volts) / 2
    lamps = tuple(replace_at(lamp, "mains.voltage", end) for end in (volts - off, volts + off))
    note = "limit of error of a plug-in meter; common practice, no source"
    return Source("mains", "mains volts, as read", METER, f"±{show(off, 'V', 2)}", note, lamps)


def _left_out(lamp, result):
    """What the solver's circuit does not have."""
    mains = lamp.mains
    if mains.is_sine:
        lamps = tuple(
            replace(lamp, mains=Mains(mains.voltage, mains.frequency, {order: (_HARMONIC, phase)}))
            for order in _ORDERS
            for phase in _PHASES
        )
        amount = f"{100 * _HARMONIC:.0f} % of the third or the fifth"
        note = f"EN 50160 allows 5 % and 6 % of them (from memory); {100 * _HARMONIC:.0f} %: {PRACTICE}"
        yield Source("harmonics", "harmonics of the mains", MODEL, amount, note, lamps)
    yield _impedance(lamp)
    yield _film_loss(lamp)
    yield _warmth(lamp, result)
    if lamp.smoothing:
        reactance = theory.dropper_reactance(frequency=2 * mains.frequency, dropper=lamp.smoothing)
        ohms = min(_ELECTROLYTIC_TANGENT * reactance, _MOST_OHMS)
        amount = f"{show(ohms, 'Ω', 2)} in series (tan δ {_ELECTROLYTIC_TANGENT:g})"
        name = "loss of the smoothing capacitor"
        yield Source("smoothing_series", name, MODEL, amount, PRACTICE, smoothing_series=ohms)


def _impedance(lamp):
    behind = theory.dropper_behind_line(
        frequency=lamp.mains.frequency, dropper=lamp.dropper, line_inductance=LINE_INDUCTANCE
    )
    lamps = (replace(lamp, dropper=behind, inrush_resistor=lamp.inrush_resistor + LINE_RESISTANCE),)
    amount = f"{show(LINE_RESISTANCE, 'Ω')} and {show(LINE_INDUCTANCE, 'H', 2)}"
    return Source("impedance", "impedance of the mains", MODEL, amount, "reference impedance of IEC TR 60725", lamps)


def _film_loss(lamp):
    ohms = _FILM_TANGENT * theory.dropper_reactance(frequency=lamp.mains.frequency, dropper=lamp.dropper)
    lamps = (replace(lamp, inrush_resistor=lamp.inrush_resistor + ohms),)
    amount = f"{show(ohms, 'Ω', 2)} in series (tan δ {_FILM_TANGENT:g})"
    note = f"polypropylene; {PRACTICE}"
    return Source("dropper_loss", "loss of the dropper", MODEL, amount, note, lamps)


def _warmth(lamp, result):
    """LEDs as warm as the lamp's own heat makes them in an enclosed lamp."""
    around = heat.Surroundings.typical("enclosed")
    try:
        warm = min(heat.temperatures(lamp, result, around).parts["leds"], _HOTTEST)
    except ValueError:  # hotter than the formulas hold for
        warm = _HOTTEST
    led = lamp.string.led
    volts = theory.warm_forward_voltage(
        forward_voltage=led.forward_voltage,
        voltage_coefficient=_LED_COEFFICIENT,
        junctions=max(1, round(led.forward_voltage / _JUNCTION)),
        junction_temperature=warm,
        reference_temperature=_REFERENCE,
    )
    lamps = (replace_at(lamp, "string.led.forward_voltage", volts),)
    note = f"enclosed, −3 mV/K a junction; {PRACTICE}"
    return Source("warmth", "warmth of the LEDs", MODEL, f"{show(warm - _REFERENCE, 'K', 2)} above 25 °C", note, lamps)
