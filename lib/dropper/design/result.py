"""Design: a lamp with every value and kind, what it does, and what to mind."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass

from ..bench.residual import CAUTION, Residual, ResidualCheck
from ..circuit import html
from ..circuit.excerpt import excerpt
from ..circuit.fields import about, documented
from ..circuit.lamp import Lamp
from ..circuit.values import show, show_reading
from ..components.kinds import Chain, Kind, LedKind
from ..results.explain import reading
from ..results.reading import Reading
from ..solver.heat import WarmLamp
from ..solver.steady import SteadyState, steady_state
from .brief import Brief
from .chosen_part import ChosenPart
from .corner_stresses import clamp_for_string
from .corners import POINTS
from .rating_pass import greatest_stress
from .ratings import QUANTITIES, RatingsTable
from .sizing import Sizing
from .tolerance import Spread

_SHOWN = (
    "string_current_mean",
    "percent_flicker",
    "real_power",
    "power_factor",
    "line_current_rms",
    "bus_voltage_mean",
)
NEEDED = (
    "At plug-in and with a fault all of a rating is used, so what is needed there is the worst found itself. A margin"
    " is kept in what lasts: four fifths of the volts and half of the watts are used, less in warm air. Where that"
    " decides, more is needed than was found."
)
_WORDS = 'style="text-align:left;white-space:normal"'


CORNER_READINGS = {  # what a design reads in its corners: name and unit
    "least_current": ("string current, least", "A"),
    "greatest_current": ("string current, greatest", "A"),
    "worst_flicker": ("percent flicker, worst corner", "%"),
    "air": ("air inside, bright corner", "°C"),
}


@documented
@dataclass(frozen=True, eq=False)
class Design:
    """A lamp that meets a brief."""

    sizing: Sizing = about("its values and currents")
    parts: tuple[ChosenPart, ...] = about("in the order of the current; a clamp last")
    ratings: RatingsTable = about(
        "every part's stresses, those of the corners of mains and tolerances included, against the kinds chosen"
    )
    warm: WarmLamp = about("in the bright corner, as warm as it makes itself")
    residual: Residual = about("what the dropper holds after unplugging, by every rule")
    rule_check: ResidualCheck = about("what the dropper holds after unplugging, by the rule that the brief asks for")
    plug_ins: tuple = about("traces, plugged in at the worst moment, and again at once, in the bright corner")
    advice: tuple[str, ...] = about("fuse, varistor, clamp: what to take to their data sheets")
    warnings: tuple[str, ...] = about("what it keeps within its limits and is still worth a word")

    def __repr__(self) -> str:
        power, current = show_reading(self.result.real_power, "W"), show_reading(self.sizing.current, "A")
        return f"<Design {self.brief.name!r}: {show(self.lamp.dropper, 'F')} in the line, {current}, {power}>"

    def _repr_html_(self) -> str:
        heads = ("symbol", "part", "value", "kind", "why")
        parts = [
            (part.symbol, part.name, part.value_text, part.kind_text, f"{part.why} {part.not_less}".strip())
            for part in self.parts
        ]
        readings = [(reading.name, reading.text) for reading in self.readings]
        return str(
            html.joined(
                html.tag("p", self.sentence),
                html.table("Parts, and the reasons for them", heads, parts, columns=dict.fromkeys(range(5), _WORDS)),
                html.table("What the lamp does", (), readings, columns={0: _WORDS}),
                html.tag("ul", html.items((*self.warnings, *self.advice))),
            )
        )

    @property
    def brief(self) -> Brief:
        """The brief that it meets."""
        return self.sizing.brief

    @property
    def lamp(self) -> Lamp:
        """The `Lamp` with nominal values, on nominal mains."""
        return self.sizing.lamp

    @property
    def result(self) -> SteadyState:
        """The `SteadyState` of the lamp."""
        return self.sizing.result

    @property
    def kinds(self) -> dict[str, Chain | Kind | LedKind]:
        """The kinds chosen, as `ratings` takes them: {part: kind}."""
        return {rating.part: rating.kind for rating in self.ratings.parts}

    @property
    def spread(self) -> Spread:
        """What the brief asks for: ends of mains, parts and LEDs."""
        return self.sizing.spread

    @property
    def bright(self) -> Lamp:
        """The `Lamp` in the bright corner, where most current flows."""
        return self.sizing.bright

    @property
    def tall(self) -> Lamp:
        """The `Lamp` in the tall corner, where its bus stands highest in use."""
        return self.sizing.tall

    @property
    def clamped(self) -> Lamp | None:
        """The bright `Lamp` with its string open, the clamp in the string's place; None where there is no clamp."""
        return None if self.sizing.clamp is None else clamp_for_string(self.sizing, self.bright)

    def of(self, part: str) -> ChosenPart:
        """A part of the design by its key; KeyError where it has none."""
        for chosen in self.parts:
            if chosen.part == part:
                return chosen
        raise KeyError(
            f"{excerpt(part)} is not in this design; there are {', '.join(chosen.part for chosen in self.parts)}"
        )

    @property
    def readings(self) -> tuple[Reading, ...]:
        """What the lamp does, each number ready to explain itself: tuple of `Reading`."""
        temperatures = self.warm.temperatures
        corners = [
            self._in_a_corner(
                f"{key}_current",
                "string_current_mean",
                lamp,
                f"In the {word} corner: mains, dropper and LEDs at the ends that make it {key}.",
            )
            for key, lamp, word in (("least", self.sizing.dim, "dim"), ("greatest", self.bright, "bright"))
        ]
        worst = self._in_a_corner(
            "worst_flicker",
            "percent_flicker",
            self.sizing.wavering,
            "In the worst of eight corners of mains, dropper and LEDs, with least smoothing.",
        )
        air = Reading(
            "air",
            CORNER_READINGS["air"][0],
            temperatures.air,
            CORNER_READINGS["air"][1],
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
    def _in_a_corner(key, read, lamp, note):
        """A reading of the lamp in a corner, under a name of its own."""
        own = reading(read, lamp, steady_state(lamp, POINTS))
        return dataclasses.replace(own, key=key, name=CORNER_READINGS[key][0], note=note)

    def rows(self) -> list[tuple[str, ...]]:
        """The parts list as text: a tuple a part, under `header`.

        The worst is the greatest that was found. The rating needed is that, for what happens at plug-in or with a
        fault, when all of a rating is used; for what lasts it is more, as `NEEDED` says.
        """
        return [
            (
                part.symbol,
                part.name,
                part.value_text,
                f"E{part.series}" if part.series else "–",
                part.kind_text,
                *self._limits(part.rating),
            )
            for part in self.parts
        ]

    header = ("symbol", "part", "value", "series", "kind", "worst found", "rating needed", "stands")

    def _limits(self, rating):
        """The worst found, the rating needed, and the rating there is, as text."""
        if rating is None:
            return "–", "–", "–"
        check = rating.tightest
        worst = f"{QUANTITIES[check.quantity][0]} {greatest_stress(rating, self.ratings.stresses).text}"
        if rating.verdict == "ask the data sheet":
            return worst, "–", rating.verdict
        return worst, show_reading(check.needed, check.worst.unit), check.limit_text

    @property
    def sentence(self) -> str:
        """The design in a few sentences."""
        sizing, lamp = self.sizing, self.lamp
        smoothing = f", {show(lamp.smoothing, 'F')} behind the bridge" if lamp.smoothing else ", no smoothing"
        least, greatest = show_reading(sizing.least_current, "A"), show_reading(sizing.greatest_current, "A")
        spread = f"{least} to {greatest} over mains, tolerance and LEDs"
        return (
            f"{self.brief.name}: {show(lamp.dropper, 'F')} in the line{smoothing}. The string gets"
            f" {show_reading(sizing.current, 'A')} on average ({spread}) and wavers by up to {sizing.flicker:.3g} %. It"
            f" takes {show_reading(self.result.real_power, 'W')} at a power factor of {self.result.power_factor:.2g}."
            " Every part"
            " stands what was found with mains and dropper at their upper ends, with LEDs of least forward voltage (the"
            " bright corner) and of greatest (the tall corner), and with every single fault that parts are chosen for;"
            f" only the rush into the inrush resistor is left to its data sheet. {CAUTION}"
        )

    def named(self, name: str) -> Design:
        """The same design under another name."""
        return dataclasses.replace(self, sizing=self.sizing.named(name))
