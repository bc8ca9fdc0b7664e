"""Surroundings of the parts: the room, the lamp's enclosure, and how well each part gives off its heat."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass

from ... import theory
from ...circuit.excerpt import excerpt
from ...circuit.fields import Spec, about, check, check_value, documented, quantity
from ...components import kinds
from ...components.kinds.rating import Use
from ...components.kinds.resistors import Resistor

PRACTICE = "typical practice, no source"
# K/W from the air inside to the room; of small lamps, each PRACTICE.
ENCLOSURES = {"open": 0.0, "vented": 6.0, "enclosed": 15.0}
# K/W from one piece to the air around it; PRACTICE. Those of resistors follow from their derating line.
_DIODE, _LED = 60.0, 250.0
_RESISTORS = ("inrush_resistor", "bleeder", "smoothing_bleeder", "series_resistor")
WARMING = (*_RESISTORS, "diodes", "leds")
_TO_AIR = Spec("K/W", 0, 1e4, meaning="thermal resistance from one piece to the air inside")


@documented
@dataclass(frozen=True)
class Surroundings:
    """What is around the parts of a lamp.

    Raises
    ------
    ValueError
        For a value out of range, or a part that is missing or unknown in `to_air`.
    """

    room_temperature: float = quantity("°C", -40, 100, 25.0, meaning="temperature of the room")
    enclosure_resistance: float = quantity("K/W", 0, 1e3, 0.0, meaning="from the air inside to the room")
    to_air: dict = about(
        "from one piece of a part to the air inside, by the keys of `WARMING`; one LED, one diode; 0 to 10 000",
        "K/W",
        default_factory=dict,
        hash=False,
    )
    light_share: float = quantity("", 0, 0.6, 0.0, meaning="share of the LEDs' power that leaves as light")

    def __post_init__(self):
        check(self)
        if not isinstance(self.to_air, dict) or set(self.to_air) != set(WARMING):
            names = ", ".join(map(str, self.to_air)) or "nothing"
            raise ValueError(f"Surroundings.to_air: needs K/W for each of {', '.join(WARMING)}; there is {names}")
        checked = {key: check_value(f"Surroundings.to_air[{key!r}]", self.to_air[key], _TO_AIR) for key in WARMING}
        object.__setattr__(self, "to_air", checked)

    @classmethod
    def typical(cls, enclosure: str, **changes) -> Surroundings:
        """Surroundings of a small lamp with values of typical practice, no source.

        Parameters
        ----------
        enclosure
            "open", "vented" or "enclosed".
        **changes
            Other fields, or K/W of single parts by their key.

        Raises
        ------
        ValueError
            For another enclosure or an unknown field.
        """
        if not isinstance(enclosure, str) or enclosure not in ENCLOSURES:
            raise ValueError(f"enclosure: {excerpt(enclosure)} is not kept here; choose from {', '.join(ENCLOSURES)}")
        half_watt = resistor_to_air(kinds.part("film 1/2 W"))
        to_air = dict.fromkeys(_RESISTORS, half_watt) | {"diodes": _DIODE, "leds": _LED}
        to_air |= {key: changes.pop(key) for key in WARMING if key in changes}
        unknown = set(changes) - {item.name for item in dataclasses.fields(cls)}
        if unknown:
            raise ValueError(f"{', '.join(sorted(unknown))}: no field of surroundings and no part that warms")
        return cls(**{"enclosure_resistance": ENCLOSURES[enclosure], "to_air": to_air} | changes)


def resistor_to_air(resistor: Resistor) -> float:
    """Thermal resistance from a resistor to the air around it, as its derating line tells, K/W.

    Examples
    --------
    >>> resistor_to_air(kinds.part("film 1/2 W"))
    170.0
    """
    return theory.thermal_resistance_of_derating(
        rated_power=resistor.rated_power,
        full_power_temperature=resistor.full_power_to,
        no_power_temperature=resistor.no_power_from,
    )


def warm_use(resistor: Resistor, air_temperature: float, use: Use = kinds.AS_RATED) -> Use:
    """How much of a resistor's ratings may be used where the air around it is warm.

    Parameters
    ----------
    air_temperature
        °C.
    use
        What would be used at 25 °C; the derating comes on top.

    Raises
    ------
    ValueError
        Where nothing is allowed any more, or for a temperature out of range.

    Examples
    --------
    >>> round(warm_use(kinds.part("film 1/2 W"), 100.0).power, 2)
    0.65
    """
    share = theory.derated_share(
        temperature=air_temperature,
        full_power_temperature=resistor.full_power_to,
        no_power_temperature=resistor.no_power_from,
    )
    if share * use.power < 1e-3:
        raise ValueError(f"air_temperature: at {air_temperature:g} °C {resistor.name} is allowed no power any more")
    return dataclasses.replace(use, power=share * use.power)
