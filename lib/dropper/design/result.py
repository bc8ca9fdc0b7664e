"""A design: a lamp with every value and kind, what it does, and what to mind."""

import dataclasses
from dataclasses import dataclass, field

from ..explain import reading
from ..heat import WarmLamp
from ..ratings import RatingsTable
from ..reading import Reading, written
from ..residual import CAUTION, Residual, ResidualCheck
from ..values import show
from .corners import spread_of
from .draft import Draft

_SHOWN = (
    "string_current_mean", "percent_flicker", "real_power", "power_factor", "line_current_rms", "bus_voltage_mean",
)  # fmt: skip

_BEHIND = ("smoothing", "smoothing_bleeder", "diodes")  # stand less because of a clamp


@dataclass(frozen=True, eq=False)
class Design:
    """A lamp that meets a brief.

    Parameters
    ----------
    draft : Draft
        Its values and currents.
    parts : tuple of ChosenPart
        In the order of the current.
    ratings : RatingsTable
        Every part's stresses, those of the corners of mains and tolerances included, against the kinds chosen.
    warm : WarmLamp
        In the bright corner, as warm as it makes itself.
    residual : Residual
        What is left on the pins, by every rule.
    kept : ResidualCheck
        By the rule that the brief asks for.
    rushes : tuple of Trace
        Plugged in at the worst moment, and again at once, in the bright corner.
    advice : tuple of str
        Fuse, varistor, clamp: what to take to their data sheets.
    warnings : tuple of str
    """

    draft: Draft
    parts: tuple
    ratings: RatingsTable = field(repr=False)
    warm: WarmLamp = field(repr=False)
    residual: Residual = field(repr=False)
    kept: ResidualCheck = field(repr=False)
    rushes: tuple = field(repr=False)
    advice: tuple = field(repr=False)
    warnings: tuple = field(repr=False)

    @property
    def brief(self):
        """The brief that it meets."""
        return self.draft.brief

    @property
    def lamp(self):
        """The `Lamp` with nominal values, on nominal mains."""
        return self.draft.lamp

    @property
    def result(self):
        """The `SteadyState` of the lamp."""
        return self.draft.result

    @property
    def kinds(self):
        """The kinds chosen, as `ratings` takes them: {part: kind}."""
        return {rating.part: rating.kind for rating in self.ratings.parts}

    @property
    def for_the_sheet(self):
        """Further keywords of `sheet.lamp_sheet`: the kinds, the mains' upper limit, the spread, and what is not drawn.

        A sheet knows no clamp and says so: what it holds the bus for is proposed there as for a bus that an open string
        lets rise.
        """
        asked = {"fitted": self.kinds, "upper": self.brief.supply.high, "spread": spread_of(self.brief, self.lamp)}
        if self.draft.clamp is None:
            return asked
        kept = {part: kind for part, kind in self.kinds.items() if part not in _BEHIND}
        clamp = self.of("clamp")
        also = (
            f"{clamp.symbol}: a clamp of {clamp.value_text} {clamp.kind_text} across the smoothing capacitor belongs to"
            " this design. Circuit and figures are without it; with it the smoothing capacitor is"
            f" {self.kinds['smoothing'].name}."
        )
        return asked | {"fitted": kept, "also": (also,)}

    def of(self, part):
        """A part of the design by its key; KeyError where it has none."""
        for found in self.parts:
            if found.part == part:
                return found
        raise KeyError(f"{part!r} is not in this design; there are {', '.join(found.part for found in self.parts)}")

    @property
    def readings(self):
        """What the lamp does, each number ready to explain itself: tuple of `Reading`."""
        made, temperatures = self.draft, self.warm.temperatures
        ends = (("least", made.least, "dim"), ("greatest", made.greatest, "bright"))
        corners = [
            Reading(
                f"{key}_current", f"string current, {key}", value, "A", "",
                note=f"By the solver, in the {word} corner: mains, dropper and LEDs at the ends that make it {key}.",
            )
            for key, value, word in ends
        ]  # fmt: skip
        worst = Reading(
            "worst_flicker", "percent flicker, worst corner", made.flicker, "%", "",
            note="By the solver: the worst of eight corners of mains, dropper and LEDs, with least smoothing.",
        )  # fmt: skip
        air = Reading(
            "air", "air inside, bright corner", temperatures.air, "°C", "enclosure_temperature",
            {
                "room_temperature": temperatures.room, "enclosure_heat": sum(temperatures.heat.values()),
                "enclosure_resistance": self.brief.surroundings.enclosure_resistance,
            },
            True,
        )  # fmt: skip
        usual = [reading(key, self.lamp, self.result) for key in _SHOWN]
        return (usual[0], *corners, usual[1], worst, *usual[2:], air)

    def rows(self):
        """The parts list as text: a tuple a part, under `header`."""
        return [
            (
                part.symbol, part.name, part.value_text, f"E{part.series}" if part.series else "–", part.kind_text,
                "–" if part.rating is None else part.rating.tightest.worst.text,
                "–" if part.rating is None else part.rating.tightest.limit_text,
                "–" if part.rating is None else f"{part.rating.margin:.3g}",
            )
            for part in self.parts
        ]  # fmt: skip

    header = ("", "part", "value", "series", "kind", "worst stress", "allowed", "margin")

    @property
    def sentence(self):
        """The design in a few sentences."""
        made, lamp = self.draft, self.lamp
        smoothing = f", {show(lamp.smoothing, 'F')} behind the bridge" if lamp.smoothing else ", no smoothing"
        spread = f"{written(made.least, 'A')} to {written(made.greatest, 'A')} over mains, tolerance and LEDs"
        return (
            f"{self.brief.name}: {show(lamp.dropper, 'F')} in the line{smoothing}. The string gets"
            f" {written(made.current, 'A')} on average ({spread}) and wavers by up to {made.flicker:.3g} %. It takes"
            f" {written(self.result.real_power, 'W')} at a power factor of {self.result.power_factor:.2g}. Every part"
            " stands what was found with mains and dropper at their upper ends, with LEDs of least forward voltage"
            " (the bright corner) and of greatest (the tall corner), and with every single fault that parts are chosen"
            f" for. {CAUTION}"
        )

    def named(self, name):
        """The same design under another name.

        Parameters
        ----------
        name : str
        """
        lamp = dataclasses.replace(self.lamp, name=name)
        made = dataclasses.replace(self.draft, lamp=lamp, brief=self.brief.but(name=name))
        return dataclasses.replace(self, draft=made)
