"""A design: a lamp with every value and kind, what it does, and what to mind."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from ..bench.residual import CAUTION, Residual, ResidualCheck
from ..circuit.fields import about, documented
from ..circuit.lamp import Lamp
from ..circuit.values import show, show_reading
from ..results.explain import reading
from ..results.reading import Reading
from ..solver.heat import WarmLamp
from ..solver.steady import SteadyState, steady_state
from .brief import Brief
from .corners import POINTS, bright, dim, spread_of, tall, wavering
from .rating_pass import clamping, greatest
from .ratings import QUANTITIES, RatingsTable
from .sizing import Draft

if TYPE_CHECKING:
    from .reasons import ChosenPart

_SHOWN = (
    "string_current_mean",
    "percent_flicker",
    "real_power",
    "power_factor",
    "line_current_rms",
    "bus_voltage_mean",
)


@documented
@dataclass(frozen=True, eq=False)
class Design:
    """A lamp that meets a brief."""

    draft: Draft = about("Its values and currents.")
    parts: tuple = about("In the order of the current.")
    ratings: RatingsTable = about(
        "Every part's stresses, those of the corners of mains and tolerances included, against the kinds chosen.",
        repr=False,
    )
    warm: WarmLamp = about("In the bright corner, as warm as it makes itself.", repr=False)
    residual: Residual = about("What is left on the pins, by every rule.", repr=False)
    kept: ResidualCheck = about("By the rule that the brief asks for.", repr=False)
    rushes: tuple = about("Plugged in at the worst moment, and again at once, in the bright corner.", repr=False)
    advice: tuple = about("Fuse, varistor, clamp: what to take to their data sheets.", repr=False)
    warnings: tuple = field(repr=False)

    @property
    def brief(self) -> Brief:
        """The brief that it meets."""
        return self.draft.brief

    @property
    def lamp(self) -> Lamp:
        """The `Lamp` with nominal values, on nominal mains."""
        return self.draft.lamp

    @property
    def result(self) -> SteadyState:
        """The `SteadyState` of the lamp."""
        return self.draft.result

    @property
    def kinds(self) -> dict:
        """The kinds chosen, as `ratings` takes them: {part: kind}."""
        return {rating.part: rating.kind for rating in self.ratings.parts}

    @property
    def spread(self):
        """The `Spread` that the brief asks for: ends of mains, parts and LEDs."""
        return spread_of(self.brief, self.lamp)

    @property
    def bright(self) -> Lamp:
        """The `Lamp` in the bright corner, where most current flows."""
        return bright(self.brief, self.lamp)

    @property
    def tall(self) -> Lamp:
        """The `Lamp` in the tall corner, where its bus stands highest in use."""
        return tall(self.brief, self.lamp)

    @property
    def clamped(self) -> Lamp | None:
        """The bright `Lamp` with its string open, the clamp in the string's place; None where there is no clamp."""
        return None if self.draft.clamp is None else clamping(self.draft, self.bright)

    def of(self, part: str) -> ChosenPart:
        """A part of the design by its key; KeyError where it has none."""
        for found in self.parts:
            if found.part == part:
                return found
        raise KeyError(f"{part!r} is not in this design; there are {', '.join(found.part for found in self.parts)}")

    @property
    def readings(self) -> tuple[Reading, ...]:
        """What the lamp does, each number ready to explain itself: tuple of `Reading`."""
        temperatures = self.warm.temperatures
        corners = [
            self._in_a_corner(
                f"{key}_current",
                f"string current, {key}",
                "string_current_mean",
                lamp,
                f"In the {word} corner: mains, dropper and LEDs at the ends that make it {key}.",
            )
            for key, lamp, word in (("least", dim(self.brief, self.lamp), "dim"), ("greatest", self.bright, "bright"))
        ]
        worst = self._in_a_corner(
            "worst_flicker",
            "percent flicker, worst corner",
            "percent_flicker",
            wavering(self.brief, self.lamp),
            "In the worst of eight corners of mains, dropper and LEDs, with least smoothing.",
        )
        air = Reading(
            "air",
            "air inside, bright corner",
            temperatures.air,
            "°C",
            "enclosure_temperature",
            {
                "room_temperature": temperatures.room,
                "enclosure_heat": sum(temperatures.heat.values()),
                "enclosure_resistance": self.brief.surroundings.enclosure_resistance,
            },
            True,
        )
        usual = [reading(key, self.lamp, self.result) for key in _SHOWN]
        return (usual[0], *corners, usual[1], worst, *usual[2:], air)

    @staticmethod
    def _in_a_corner(key, name, read, lamp, note):
        """A reading of the lamp in a corner, under a name of its own."""
        return dataclasses.replace(reading(read, lamp, steady_state(lamp, POINTS)), key=key, name=name, note=note)

    def rows(self) -> list[tuple[str, ...]]:
        """The parts list as text: a tuple a part, under `header`.

        The worst is the greatest that was found; needed is the rating that leaves the margin of what lasts.
        """
        return [
            (
                part.symbol,
                part.name,
                part.value_text,
                f"E{part.series}" if part.series else "–",
                part.kind_text,
                *self._stood(part.rating),
            )
            for part in self.parts
        ]

    header = ("symbol", "part", "value", "series", "kind", "worst found", "needed, with margin", "stands")

    def _stood(self, rating):
        """Worst, needed and stood, as text."""
        if rating is None:
            return "–", "–", "–"
        check = rating.tightest
        stress = show_reading(greatest(rating, self.ratings.stresses), check.worst.unit)
        worst = f"{QUANTITIES[check.quantity][0]} {stress}"
        if rating.verdict == "ask the data sheet":
            return worst, "–", rating.verdict
        return worst, show_reading(check.needed, check.worst.unit), check.limit_text

    @property
    def sentence(self) -> str:
        """The design in a few sentences."""
        made, lamp = self.draft, self.lamp
        smoothing = f", {show(lamp.smoothing, 'F')} behind the bridge" if lamp.smoothing else ", no smoothing"
        spread = f"{show_reading(made.least, 'A')} to {show_reading(made.greatest, 'A')} over mains, tolerance and LEDs"
        return (
            f"{self.brief.name}: {show(lamp.dropper, 'F')} in the line{smoothing}. The string gets"
            f" {show_reading(made.current, 'A')} on average ({spread}) and wavers by up to {made.flicker:.3g} %. It"
            f" takes {show_reading(self.result.real_power, 'W')} at a power factor of {self.result.power_factor:.2g}."
            " Every part"
            " stands what was found with mains and dropper at their upper ends, with LEDs of least forward voltage (the"
            " bright corner) and of greatest (the tall corner), and with every single fault that parts are chosen for;"
            f" only the rush into the inrush resistor is left to its data sheet. {CAUTION}"
        )

    def named(self, name: str) -> Design:
        """The same design under another name."""
        lamp = dataclasses.replace(self.lamp, name=name)
        made = dataclasses.replace(self.draft, lamp=lamp, brief=self.brief.but(name=name))
        return dataclasses.replace(self, draft=made)
