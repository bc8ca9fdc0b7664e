"""Placement: kinds of parts in their places, what may be fitted where, and what a kind allows of each quantity."""

import dataclasses
import re

from ...circuit.excerpt import excerpt
from ...circuit.fields import about, documented
from ...circuit.lamp import Lamp, value_at
from ...circuit.parts import BY_KEY
from ...components import kinds
from ...components.kinds import Chain, Kind, LedKind, Resistor
from ...components.kinds.rating import Use
from ...standards import pulse_test_voltage

_RESISTORS = ("inrush_resistor", "bleeder", "smoothing_bleeder", "series_resistor")
_LEAST_ELECTROLYTIC = 0.47e-6  # F; smaller smoothing capacitors are film
_RIPPLE_REACH = 2.0  # a size kept in `kinds.RIPPLES` speaks for capacitors up to so many times as large
# How many times its current limit, or where that is not known its stated current, an LED is let take in the rush at
# plug-in. Makers' sheets of small LEDs allow some 100 mA for 0.1 ms where 30 mA may last (from memory); the rest is
# typical practice, no source.
LED_SURGE_TIMES = 5.0
_WRITTEN_CHAIN = re.compile(r"(\d{1,3})\s*[×xX*]\s*(.+)")


@documented
@dataclasses.dataclass(frozen=True)
class Allowed:
    """What a kind allows of one quantity."""

    limit: float = about("what it may reach", "SI units")
    share: float = about("How much of it is used in what lasts, 0 to 1.", default=1.0)
    rating: str = about('Name of the limit in `kinds.Stress`, or "" where no family is ordered by it.', default="")


def families(lamp: Lamp, part: str) -> tuple[str, ...]:
    """The families that a part is proposed from, in this order; none for LEDs.

    Parameters
    ----------
    part
        A key of `parts.BY_KEY`.
    """
    if part == "smoothing":
        return ("dc film capacitor",) if lamp.smoothing < _LEAST_ELECTROLYTIC else ("electrolytic",)
    return {
        "inrush_resistor": ("fusible resistor",),
        "series_resistor": ("film resistor",),
        "bleeder": ("carbon film resistor",),
        "smoothing_bleeder": ("carbon film resistor",),
        "dropper": ("X2 capacitor", "X1 capacitor"),
        "diodes": ("rectifier diode",),
        "leds": (),
    }[part]


def family_of(kind: Chain | Kind | LedKind) -> str:
    """The family that a kind is one of, or "" for one of the learner's own."""
    kind = kind.part if isinstance(kind, Chain) else kind
    return next((name for name, members in kinds.FAMILIES.items() if kind in members), "")


def name_of(kind: Chain | Kind | LedKind) -> str:
    """A kind's name; that of a chain tells how many."""
    if isinstance(kind, Chain):
        return kind.part.name if kind.count == 1 else f"{kind.count} × {kind.part.name}"
    return kind.name


def fit(lamp: Lamp, part: str, given: str | Chain | Kind | LedKind) -> Chain | Kind | LedKind:
    """What a learner says is fitted, as a kind in its place.

    Parameters
    ----------
    part
        A key of `parts.BY_KEY`.
    given
        "1N4007", "2 × carbon film 1/4 W", a kind of the learner's own.

    Returns
    -------
    Chain, Kind or LedKind
        A resistor as a `Chain`, of one if it stands alone.

    Raises
    ------
    ValueError
        For a part that is not there, a name that is not kept, or a kind that cannot be that part.
    """
    known = (*_RESISTORS, "dropper", "diodes", "smoothing", "leds")
    if part not in known:
        raise ValueError(f"fitted: {excerpt(part)} is no part that is rated; there are {', '.join(known)}")
    if part not in ("diodes", "leds") and not value_at(lamp, part):
        raise ValueError(f"fitted: the lamp has no {BY_KEY[part].name}, so {excerpt(given)} cannot be it")
    count, kind = 1, given
    if isinstance(given, str):
        chain = _WRITTEN_CHAIN.fullmatch(given.strip())
        if chain:
            count, given = int(chain[1]), chain[2]
        kind = kinds.led_kind(given.strip()) if part == "leds" else kinds.part(given.strip())
    wanted = {
        "dropper": (kinds.AcrossTheMains, kinds.DcFilm),
        "diodes": (kinds.RectifierDiode,),
        "smoothing": (kinds.Electrolytic, kinds.DcFilm),
        "leds": (LedKind,),
    }.get(part, (Resistor, Chain))
    if not isinstance(kind, wanted):
        why = ""
        if part == "dropper" and isinstance(kind, kinds.Electrolytic):
            why = "; an electrolytic stands voltage one way round only"
        raise ValueError(f"fitted: {excerpt(getattr(kind, 'name', kind))} cannot be the {BY_KEY[part].name}{why}")
    if isinstance(kind, Resistor):
        if count < 1:
            raise ValueError(f"fitted: {count} of {kind.name} will not do; at least 1 in series")
        return Chain(kind, count, value_at(lamp, part) / count)
    if count != 1:
        raise ValueError(f"fitted: {count} of {kind.name}: only resistors are counted in series here")
    return kind


def allowed(lamp: Lamp, part: str, kind: Chain | Kind | LedKind | None, quantity: str, use: Use) -> Allowed | None:
    """What a kind allows of a quantity in its place.

    Returns
    -------
    Allowed or None
        None where no rating is kept.
    """
    if kind is None:  # of LEDs the current at which their voltage is stated is known all the same
        if (part, quantity) != ("leds", "surge"):
            return None
        return Allowed(LED_SURGE_TIMES * lamp.string.led.at_current)
    return _limits(lamp, part, kind, use).get(quantity)


def _limits(lamp, part, kind, use):
    from ... import theory

    if isinstance(kind, Chain):
        each, resistor = kind.resistance_each, kind.part
        working = theory.resistor_working_voltage(
            resistance=each, rated_power=resistor.rated_power, limiting_voltage=resistor.limiting_voltage
        )
        # fewer ohms than the lamp has take more watts
        share = kind.resistance / value_at(lamp, part)
        return {
            "peak_voltage": Allowed(kind.count * resistor.limiting_voltage, use.voltage, "voltage"),
            "rms_voltage": Allowed(kind.count * working, use.voltage),
            "power": Allowed(kind.count * resistor.rated_power * share, use.power, "power"),
        }
    if isinstance(kind, kinds.RectifierDiode):
        current = min(use.current, kinds.CAPACITIVE_LOAD.current) if lamp.smoothing else use.current
        heat = theory.surge_fusing_integral(surge_current=kind.surge, surge_time=kind.surge_time)
        return {
            "reverse_voltage": Allowed(kind.reverse_voltage, use.voltage, "voltage"),
            "mean_current": Allowed(kind.current, current, "current"),
            "surge": Allowed(kind.surge, 1.0, "surge"),
            "surge_i2t": Allowed(heat),
        }
    if isinstance(kind, kinds.AcrossTheMains):
        # whole: the class is for the mains with all its swings, tested at 1.25 times the rating (IEC 60384-14)
        return {
            "ac_voltage": Allowed(kind.rated_ac_voltage, 1.0, "ac_voltage"),
            "peak_voltage": Allowed(theory.peak_voltage(voltage=kind.rated_ac_voltage)),
            "pulse_voltage": Allowed(pulse_test_voltage(kind.mains_class, lamp.dropper)),
        }
    if isinstance(kind, kinds.DcFilm):
        limits = _dc_limits(kind, use)
        if part == "dropper":
            limits["ac_voltage"] = Allowed(kind.ac_voltage, use.voltage, "ac_voltage")
            limits["pulse_voltage"] = Allowed(kind.rated_voltage)
        return limits
    if isinstance(kind, kinds.Electrolytic):
        limits = _dc_limits(kind, use)
        sizes = [
            size
            for size in kinds.RIPPLES
            if size.rated_voltage <= kind.rated_voltage
            and lamp.smoothing / _RIPPLE_REACH <= size.capacitance <= lamp.smoothing * (1 + 1e-9)
        ]
        if sizes:
            size = max(sizes, key=lambda each: (each.capacitance, each.rated_voltage))
            limits["ripple_current"] = Allowed(size.current, use.current)
        return limits
    if isinstance(kind, LedKind):
        return {
            "mean_current": Allowed(kind.current_limit, use.current, "current"),
            "surge": Allowed(LED_SURGE_TIMES * kind.current_limit),
        }
    raise TypeError(f"kind: {excerpt(kind)} is no kind that is rated here")


def _dc_limits(kind, use):
    return {
        "peak_voltage": Allowed(kind.rated_voltage, use.voltage, "voltage"),
        "dc_voltage": Allowed(kind.rated_voltage, use.voltage),
    }
