"""Temperatures of the parts: each gives its heat to the air inside, and that gives all of it to the room."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from ... import theory
from ...circuit.excerpt import excerpt
from ...circuit.fields import about, documented
from ...circuit.lamp import Lamp
from ...circuit.parts import BY_KEY, fitted_parts
from .surroundings import WARMING, Surroundings

if TYPE_CHECKING:
    from ..steady import SteadyState

_DIODES = 4
_LEAST_RISE = 0.1  # K, the least rise worth a word


@documented
@dataclass(frozen=True, repr=False)
class Temperatures:
    """How warm a lamp is, long after it was switched on."""

    room: float = about("of the room", "°C")
    air: float = about("of the air inside the lamp", "°C")
    parts: dict = about("by part; the ideal capacitors make no heat and are as warm as the air", "°C", hash=False)
    heat: dict = about("by part, all its pieces together, without the light", "W", hash=False)
    pieces: dict = about("how many pieces share it, by part", hash=False)
    light: float = about("power that leaves as light", "W")

    def __repr__(self) -> str:
        warmest = max(self.parts, key=self.parts.get)
        return (
            f"<Temperatures: {warmest} {self.parts[warmest]:.1f} °C, air inside {self.air:.1f} °C,"
            f" room {self.room:.1f} °C>"
        )

    @property
    def words(self) -> str:
        """The warmest part and the air, in a sentence."""
        warmest = max(self.parts, key=self.parts.get)
        if self.parts[warmest] - self.room < _LEAST_RISE:
            return f"Nothing gets warm: everything is at the {self.room:.3g} °C of the room."
        name = BY_KEY[warmest].name
        return (
            f"The {name} is the warmest, at {self.parts[warmest]:.1f} °C; the air inside is at {self.air:.1f} °C, "
            f"{self.air - self.room:.1f} K above the room."
        )


def temperatures(lamp: Lamp, result: SteadyState, surroundings: Surroundings) -> Temperatures:
    """How warm each part gets.

    The heat is the steady state's; the rises are `theory.part_temperature`. Parts do not warm each other except through
    the air inside.

    Parameters
    ----------
    result
        The lamp's own.

    Raises
    ------
    ValueError
        If the result is that of many lamps, or a part would be hotter than the formulas hold for.

    Examples
    --------
    >>> from dropper import Lamp, Led, LedString, Mains, steady_state
    >>> lamp = Lamp(Mains(230, 50), LedString(Led(3.1, 0.02), 22), "330 nF", "10 µF")
    >>> temperatures(lamp, steady_state(lamp), Surroundings.typical("enclosed"))
    <Temperatures: leds 55.8 °C, air inside 42.7 °C, room 25.0 °C>
    """
    if not isinstance(surroundings, Surroundings):
        raise ValueError(
            f"surroundings: {excerpt(surroundings)} will not do; take Surroundings.typical('open') or others"
        )
    if not isinstance(result.real_power, float):
        raise ValueError("result: is that of many lamps; one at a time, please")
    light = surroundings.light_share * result.heat["leds"]
    keys = [part.key for part in fitted_parts(lamp) if part.key in result.heat]
    heat = {key: result.heat[key] - (light if key == "leds" else 0.0) for key in keys}
    pieces = dict.fromkeys(keys, 1) | {"diodes": _DIODES, "leds": lamp.string.in_series * lamp.string.in_parallel}
    around = {
        "room_temperature": surroundings.room_temperature,
        "enclosure_resistance": surroundings.enclosure_resistance,
        "enclosure_heat": sum(heat.values()),
    }
    air = theory.enclosure_temperature(**around)
    parts = {
        key: theory.part_temperature(
            **around, heat_flow=heat[key] / pieces[key], thermal_resistance=surroundings.to_air[key]
        )
        if key in WARMING
        else air
        for key in keys
    }
    return Temperatures(surroundings.room_temperature, air, parts, heat, pieces, light)
