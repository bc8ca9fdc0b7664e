"""Sizing: a lamp on its way from a brief to a design, and the corners in which its values are judged."""

from __future__ import annotations

import dataclasses
import math
from dataclasses import dataclass
from functools import cached_property

from ..circuit.fields import about, documented
from ..circuit.lamp import Lamp, replace_at
from ..circuit.values import show
from ..solver.steady import SteadyState, steady_state, steady_states
from . import corners
from .brief import Brief
from .corners import POINTS
from .tolerance import Spread

CLAMP_TOLERANCE = 0.05  # typical practice, no source
_NUMBERS = ("result", "least_current", "greatest_current", "flicker", "greatest_bus_voltage")


@documented
@dataclass(frozen=True)
class Sizing:
    """The values of a lamp for a brief, before its parts are rated. A changed value makes another sizing."""

    brief: Brief
    lamp: Lamp = about("nominal values, on nominal mains")
    pieces: dict = about(
        'how many resistors in series make a bleeder, and the ohms of each: {"bleeder": (2, 470e3)}',
        default_factory=dict,
        hash=False,
    )
    clamp: float | None = about("nominal voltage of the clamp across the bus; None for no clamp", "V", default=None)
    floors: dict = about(
        "where the search for a part begins: farads of the smoothing capacitor, fewest pieces of a bleeder",
        default_factory=dict,
        hash=False,
    )

    def __repr__(self) -> str:
        return f"<Sizing {self.brief.name!r}: dropper {show(self.lamp.dropper, 'F')}, {show(self.current, 'A')}>"

    def with_value(self, part: str, value: float | None) -> Sizing:
        """The same with another value of one part, SI units."""
        return self._changed(lamp=replace_at(self.lamp, part, value))

    def with_bleeder(self, part: str, ohms: float | None, pieces: tuple[int, float] | None) -> Sizing:
        """The same with another bleeder, "bleeder" or "smoothing_bleeder", and how it is put together."""
        others = {name: counted for name, counted in self.pieces.items() if name != part}
        lamp = replace_at(self.lamp, part, ohms)
        return self._changed(lamp=lamp, pieces=others | ({part: pieces} if pieces else {}))

    def with_clamp(self, volts: float | None) -> Sizing:
        """The same with another clamp across the bus, or none."""
        return self._changed(clamp=volts)

    def with_floor(self, part: str, floor: float) -> Sizing:
        """The same with the search for one part begun at another value."""
        return self._changed(floors=self.floors | {part: floor})

    def _changed(self, **fields):
        """The same with other fields; itself, with its corners, where nothing differs."""
        other = dataclasses.replace(self, **fields)
        return self if other == self else other

    def named(self, name: str) -> Sizing:
        """The same under another name; nothing is solved again."""
        lamp = dataclasses.replace(self.lamp, name=name)
        twin = dataclasses.replace(self, brief=self.brief.but(name=name), lamp=lamp)
        twin.__dict__.update({key: self.__dict__[key] for key in _NUMBERS if key in self.__dict__})
        return twin

    # --- the lamp in its corners ----------------------------------------------------------------------------------

    @cached_property
    def spread(self) -> Spread:
        """The ends of everything that may lie off its nominal value."""
        return corners.spread_of(self.brief, self.lamp)

    @cached_property
    def bright(self) -> Lamp:
        """The lamp where most current flows."""
        return corners.bright(self.brief, self.lamp)

    @cached_property
    def dim(self) -> Lamp:
        """The lamp where least current flows."""
        return corners.dim(self.brief, self.lamp)

    @cached_property
    def tall(self) -> Lamp:
        """The lamp whose bus stands highest in use."""
        return corners.tall(self.brief, self.lamp)

    @cached_property
    def tall_with_least_smoothing(self) -> Lamp:
        """The same with its smoothing capacitor at the low end of its tolerance."""
        return replace_at(self.tall, "smoothing", (1 - self.brief.smoothing_tolerance) * self.lamp.smoothing)

    @cached_property
    def wavering(self) -> Lamp:
        """The lamp in the one of eight corners where its light wavers most, with least smoothing."""
        return corners.wavering(self.brief, self.lamp)

    # --- what it does there ---------------------------------------------------------------------------------------

    @cached_property
    def result(self) -> SteadyState:
        """The steady state of the lamp with nominal values."""
        return steady_state(self.lamp)

    @property
    def current(self) -> float:
        """Mean current through the string on nominal mains, A."""
        return self.result.string_current_mean

    @property
    def miss(self) -> float:
        """How far the current is from the wish, as a fraction of it."""
        return self.current / self.brief.current - 1

    @cached_property
    def least_current(self) -> float:
        """Mean current through the string in the dim corner, A."""
        return float(steady_states([self.dim], POINTS).string_current_mean[0])

    @cached_property
    def greatest_current(self) -> float:
        """Mean current through the string in the bright corner, A."""
        return float(steady_states([self.bright], POINTS).string_current_mean[0])

    @cached_property
    def flicker(self) -> float:
        """Percent flicker in the worst corner, %; nan where the dim corner stays dark."""
        return self.flicker_with(self.lamp.smoothing) if self.least_current > 0 else math.nan

    def flicker_with(self, smoothing: float) -> float:
        """Percent flicker in the worst corner with another smoothing capacitor, %.

        Parameters
        ----------
        smoothing
            F, nominal.
        """
        return float(corners.flickers(self.brief, self.lamp, [smoothing])[0])

    @cached_property
    def greatest_bus_voltage(self) -> float:
        """The greatest bus voltage in use, with everything at its worst end, V."""
        return float(steady_state(self.tall_with_least_smoothing, POINTS).bus_voltage.max())

    @property
    def open_bus_voltage(self) -> float:
        """What the bus reaches with the string open, V: the mains' peak, or the clamp's upper end."""
        peak = self.brief.greatest_peak
        return peak if self.clamp is None else min(peak, (1 + CLAMP_TOLERANCE) * self.clamp)
