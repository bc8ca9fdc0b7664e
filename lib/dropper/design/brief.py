"""Brief: what is wanted of a lamp, and what there is to make it of: the wishes that a design has to meet."""

from __future__ import annotations

import copy
import dataclasses
import math
from dataclasses import dataclass
from pathlib import Path

import tomli_w

from ..circuit import lampfile
from ..circuit.excerpt import excerpt
from ..circuit.fields import about, check, check_text, documented, quantity
from ..circuit.series import E_SERIES
from ..circuit.values import show
from ..components.kinds import LedKind, led_kind
from ..solver.heat import Surroundings
from ..standards import Supply, supply, touch_rule
from . import constraints
from .constraints import BEST, groups
from .ratings.placement import LED_SURGE_TIMES


def _series(default, meaning):
    return quantity("", 3, 24, default, meaning=meaning, whole=True)


@documented
@dataclass(frozen=True)
class Brief:
    """What is wanted, SI units.

    Raises
    ------
    ValueError
        For a value out of range; the error names the field, the value, its unit and what is allowed.
    """

    led: str = about("name of a kind in `kinds.LEDS`; what it is called where `own_led` says more")
    in_series: int | str = about(
        'groups of LEDs in series, 1 to 1000; "best" leaves them to the design, which takes the most light that a'
        " dropper of given size gives, within all other wishes"
    )
    current: float = quantity("A", 1e-4, 2, meaning="mean current through the string")
    name: str = "lamp"
    place: str = about('a supply by its name in `standards.SUPPLIES`; "" for mains of one\'s own', default="")
    voltage: float | None = quantity("V", 10, 500, None, none=True, meaning="nominal mains voltage")
    low: float | None = quantity("V", 5, 500, None, none=True, meaning="least mains voltage")
    high: float | None = quantity("V", 10, 600, None, none=True, meaning="greatest mains voltage")
    frequency: float | None = quantity("Hz", 10, 1000, None, none=True, meaning="mains frequency")
    mains_tolerance: float = quantity("", 0, 0.3, 0.10, meaning="tolerance of volts where no ends are given or kept")
    in_parallel: int = quantity("", 1, 100, 1, meaning="LEDs in parallel in each group", whole=True)
    flicker: str | float = about(
        'greatest percent flicker, whatever mains and tolerances do: "low risk" or "no effect" of IEEE '
        "1789-2015, or per cent, 0.1 to 100.",
        default="low risk",
    )
    swing: float | None = quantity(
        "%", 1, 300, None, none=True, meaning="most that mean current moves from least to greatest mains, of its value"
    )
    enclosure: str = about(
        '"open", "vented" or "enclosed" (typical practice, no source); "12 K/W"; or "120 × 60 × 40 mm plastic".',
        default="enclosed",
    )
    touchable: bool = about("whether parts of the circuit shall be open to touch: always refused", default=False)
    metal_case: bool = about("whether the case is of metal: the design says what that asks for", default=False)
    room: float = quantity("", -20, 60, 25.0, meaning="°C of the air outside")
    rule: str = about(
        "what may be left on the plug's pins, by its key in `standards.TOUCH_RULES`.", default="portable luminaire"
    )
    bus_rule: str = about(
        "the same for the smoothing capacitor, which no rule that is kept here asks for inside a case that stays shut.",
        default="fixed luminaire",
    )
    inrush: float = quantity("A", 0.1, 30, 10.0, meaning="greatest line current at plug-in")
    dropper_series: int = _series(6, "E series of the dropper")
    smoothing_series: int = _series(6, "E series of the smoothing capacitor")
    resistor_series: int = _series(24, "E series of resistors")
    dropper_tolerance: float = quantity("", 0.01, 0.3, 0.10, meaning="tolerance of the dropper")
    smoothing_tolerance: float = quantity("", 0.01, 0.5, 0.20, meaning="tolerance of the smoothing capacitor")
    resistor_tolerance: float = quantity("", 0.001, 0.2, 0.05, meaning="tolerance of resistors")
    largest_smoothing: float = quantity("F", 1e-8, 1e-2, 470e-6, meaning="largest smoothing capacitor")
    warmest: float = quantity("", 30, 120, 70.0, meaning="°C that the air inside may reach")
    led_share: float = quantity("", 0.2, 1, 1.0, meaning="share of the LEDs' current limit that is used")
    led_pulse: float | None = quantity(
        "A", 1e-3, 30, None, none=True, meaning="greatest pulse of one LED, of its data sheet; none: practice is kept"
    )
    leds_in_use_only: bool = about(
        "whether LEDs keep their limit in use only; without it they do so with any single fault too", default=False
    )
    clamp: bool = about("whether a clamp across the bus holds its voltage if the string opens", default=False)
    fixed: dict = about(
        'values from the drawer, by the names of `constraints.FIXABLE`: {"dropper": 330e-9}; text like "330 nF" too',
        default_factory=dict,
        hash=False,
    )
    stock: dict = about(
        "what is in the drawer, by the same names: values that alone are taken; the series serves the other parts",
        default_factory=dict,
        hash=False,
    )
    own_led: LedKind | None = about("a kind of one's own", default=None)

    def __post_init__(self):
        check(self)
        for name, longest in (("name", 80), ("led", 60), ("place", 60)):
            check_text(self, name, longest)
        self._set("own_led", constraints.read_own_led(self.own_led))
        self._set("flicker", constraints.read_flicker(self.flicker))
        self._set("in_series", constraints.read_groups(self.in_series))
        self._set("fixed", constraints.read_fixed(self.fixed))
        self._set("stock", constraints.read_stock(self.stock))
        for name in ("leds_in_use_only", "clamp", "touchable", "metal_case"):
            if not isinstance(getattr(self, name), bool):
                raise ValueError(f"Brief.{name}: {excerpt(getattr(self, name))} will not do; allowed is True or False")
        for name in ("dropper_series", "smoothing_series", "resistor_series"):
            if getattr(self, name) not in E_SERIES:
                allowed = ", ".join(f"E{number}" for number in E_SERIES)
                raise ValueError(f"Brief.{name}: E{getattr(self, name)} is not kept here; allowed is {allowed}")
        try:
            self._look_up()
        except ValueError as error:
            raise ValueError(f"Brief.{error}") from None

    def _look_up(self):
        """Everything that is told by name is there, and the mains' ends lie about its nominal volts."""
        if self.place and (self.voltage, self.low, self.high, self.frequency) != (None,) * 4:
            raise ValueError(
                f"place: {excerpt(self.place)} has its own volts and hertz; leave place empty, or those out"
            )
        if not self.place and None in (self.voltage, self.frequency):
            raise ValueError("voltage: give volts and hertz, or a place whose mains it is")
        ends = self.supply
        if not ends.low <= ends.nominal <= ends.high:
            volts_text = ", ".join(show(volts, "V", 4) for volts in (ends.low, ends.nominal, ends.high))
            raise ValueError(f"voltage: {volts_text} are not least, nominal and greatest mains in this order")
        _ = self.surroundings
        for which in ("least", "typical", "greatest"):
            self.led_kind.led(which)  # complains of LEDs that no lamp can have
        if self.warmest <= self.room:
            raise ValueError(f"warmest: {self.warmest:g} °C inside is no more than the {self.room:g} °C of the room")
        for name in ("rule", "bus_rule"):
            try:
                entry = touch_rule(getattr(self, name))
            except ValueError as error:
                raise ValueError(f"{name}: {str(error).removeprefix('key: ')}") from None
            if name == "bus_rule" and entry.limit is None:
                raise ValueError(f"bus_rule: {excerpt(entry.key)} is about plugs; take one with a limit in volts")

    def _set(self, name, value):
        object.__setattr__(self, name, value)

    @property
    def supply(self) -> Supply:
        """The mains with both its ends, a `standards.Supply`."""
        if self.place:
            entry = supply(self.place)
        else:
            entry = Supply("mains as given", self.voltage, self.low, self.high, self.frequency, "as given")
        band = self.mains_tolerance
        low = (1 - band) * entry.nominal if entry.low is None else entry.low
        high = (1 + band) * entry.nominal if entry.high is None else entry.high
        return dataclasses.replace(entry, low=low, high=high)

    @property
    def greatest_peak(self) -> float:
        """Peak of the mains at its upper end, V."""
        return math.sqrt(2) * self.supply.high

    @property
    def led_kind(self) -> LedKind:
        """The `kinds.LedKind`."""
        if self.own_led is not None:
            return self.own_led
        try:
            return led_kind(self.led)
        except ValueError as error:
            raise ValueError(f"led: {str(error).removeprefix('name: ')}") from None

    @property
    def surroundings(self) -> Surroundings | None:
        """The `heat.Surroundings`."""
        return constraints.read_enclosure(self.enclosure).around(self.room)

    @property
    def led_surge(self) -> float:
        """Greatest pulse of one LED, A: of its data sheet, else typical practice without a source."""
        return LED_SURGE_TIMES * self.led_kind.current_limit if self.led_pulse is None else self.led_pulse

    @property
    def flicker_limit(self) -> float:
        """Greatest percent flicker, per cent."""
        if self.flicker in constraints.FLICKER_WORDS:
            return constraints.FLICKER_WORDS[self.flicker](2 * self.supply.frequency)
        return self.flicker

    @property
    def led_limit(self) -> float:
        """Greatest mean current of one LED in use that lasts, A."""
        return self.led_share * self.led_kind.current_limit

    @property
    def words(self) -> str:
        """The brief in a sentence."""
        count = "the best number of groups" if self.in_series == BEST else groups(self.in_series)
        beside = f", {self.in_parallel} side by side in each group" if self.in_parallel > 1 else ""
        return (
            f"{self.name}: {count} of {self.led} in series{beside}, {show(self.current, 'A')} on"
            f" average, at most {self.flicker_limit:.3g} % flicker. {self.supply.words}"
        )

    def but(self, **changes) -> Brief:
        """The same brief with some things changed.

        Parameters
        ----------
        **changes
            Fields and their new values.
        """
        return dataclasses.replace(self, **changes)

    def without_fixed(self, part: str, **changes) -> Brief:
        """The same brief with a part that was fixed left to the design, and some things changed, as for `but`."""
        return self.but(fixed={name: value for name, value in self.fixed.items() if name != part}, **changes)

    @classmethod
    def from_toml(cls, path: Path | str) -> Brief:
        """Read a brief from a file; a wrong one raises `LampFileError` with the line."""
        return cls.from_toml_text(lampfile.read_text(path), Path(path).name)

    @classmethod
    def from_toml_text(cls, text: str, source: str = "brief") -> Brief:
        """The same from text that has been read already."""
        return lampfile.build(cls, text, source)

    def to_toml_text(self) -> str:
        """The brief as text; reading it back gives an equal brief."""
        twin = copy.copy(self)
        twin._set("fixed", {part: constraints.text_of(part, value) for part, value in self.fixed.items()})
        drawer = {part: [constraints.text_of(part, value) for value in kept] for part, kept in self.stock.items()}
        twin._set("stock", drawer)
        twin._set("own_led", None)
        own = {} if self.own_led is None else {"own_led": self.own_led.to_record()}
        return lampfile.write(twin) + ("\n" + tomli_w.dumps(own) if own else "")

    def to_toml(self, path: Path) -> None:
        """Write the brief to a file."""
        Path(path).write_text(self.to_toml_text(), encoding="utf-8")
