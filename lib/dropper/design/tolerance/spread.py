"""Spread: between which ends the parts of a lamp and its mains may lie, and where each of those figures comes from."""

from __future__ import annotations

from dataclasses import dataclass, replace

from ... import theory
from ...circuit.excerpt import excerpt
from ...circuit.fields import about, check, documented, quantity
from ...circuit.lamp import Lamp
from ...circuit.numerals import counted
from ...circuit.values import show
from ...components.kinds import LEDS
from ...components.kinds.leds import LedKind
from ...components.kinds.rating import MAKERS_SHEET
from ...components.marks.letters import TOLERANCES
from ...standards import SUPPLIES, Supply
from .axis import FLAT, TRIANGLE, Axis

# Letters that film capacitors carry, as fractions either way.
LETTERS = {letter: TOLERANCES[letter][1] / 100 for letter in "JKM"}
NO_SOURCE = "typical practice, no source"
_BAND = 0.10  # of the nominal voltage, where no band is kept
_STEERED = 0.01  # of the frequency
_LED = 0.10  # of the forward voltage, where no kind is near
_LOSS = 0.03  # of the capacitance, each year
_NEAR = 0.15  # how far a kind's typical voltage may be from an LED's


def _part(unit="", low=0.0, high=0.5, default=0.0, *, meaning):
    return quantity(unit, low, high, default, meaning=meaning, zero=True)


@documented
@dataclass(frozen=True)
class Spread:
    """What the parts of a lamp and its mains may be: nominal values, ends, and years of use.

    Raises
    ------
    ValueError
        For a value out of range, or ends that do not lie about the nominal value.
    """

    voltage: float = quantity("V", 1, 1000, meaning="nominal mains voltage")
    voltage_low: float = quantity("V", 1, 1000, meaning="least mains voltage")
    voltage_high: float = quantity("V", 1, 1000, meaning="greatest mains voltage")
    frequency: float = quantity("Hz", 10, 1000, meaning="nominal mains frequency")
    frequency_low: float = quantity("Hz", 10, 1000, meaning="least mains frequency")
    frequency_high: float = quantity("Hz", 10, 1000, meaning="greatest mains frequency")
    dropper: float = _part(meaning="tolerance of the dropper")
    smoothing: float = _part(meaning="tolerance of the smoothing capacitor")
    resistors: float = _part(meaning="tolerance of the resistors")
    led_below: float = _part(meaning="how much less an LED may drop")
    led_above: float = _part(meaning="how much more an LED may drop")
    years: float = _part(high=50, meaning="years in use")
    loss_each_year: float = _part(default=_LOSS, meaning="part of the capacitance that each year takes")
    place: str = about("whose mains it is", default="the lamp's own mains")
    sources: tuple = about("what each figure is, and where it comes from", default=())

    def __post_init__(self):
        check(self)
        for name, unit in (("voltage", "V"), ("frequency", "Hz")):
            low, nominal, high = (getattr(self, name + end) for end in ("_low", "", "_high"))
            if not low <= nominal <= high:
                values_text = ", ".join(show(value, unit, 4) for value in (low, nominal, high))
                raise ValueError(f"Spread.{name}: {values_text} are not least, nominal and greatest in this order")

    @classmethod
    def of(
        cls,
        lamp: Lamp,
        supply: Supply | None = None,
        led_kind: LedKind | None = None,
        dropper: float = LETTERS["K"],
        years: float = 0.0,
    ) -> Spread:
        """What is usual for a lamp.

        Parameters
        ----------
        supply
            Without it: a public supply of the lamp's own volts and hertz, or ±10 % where none is kept.
        led_kind
            Its spread about its typical voltage is taken over. Without it: that of a kind near to the lamp's
            LED, or ±10 % where none is.
        dropper
            Tolerance of the dropper as a fraction; J 0.05, K 0.10, M 0.20 (IEC 60062, value from memory).
        """
        supply = supply or _supply_of(lamp.mains)
        kind = led_kind or _kind_of(lamp.string.led)
        low, high, band = _band(supply)
        below, above = (1 - kind.least / kind.typical, kind.greatest / kind.typical - 1) if kind else (_LED, _LED)
        sheet = f"{kind.name}: {kind.source}" if kind else NO_SOURCE
        around = "EN 50160: ±1 % for 99.5 % of the year" if "EN 50160" in supply.source else f"±1 %, {NO_SOURCE}"
        return cls(
            voltage=supply.nominal,
            voltage_low=low,
            voltage_high=high,
            frequency=supply.frequency,
            frequency_low=max((1 - _STEERED) * supply.frequency, 10.0),  # a mains goes from 10 Hz to 1 kHz here
            frequency_high=min((1 + _STEERED) * supply.frequency, 1000.0),
            dropper=dropper,
            smoothing=0.20,
            resistors=0.05,
            led_below=below,
            led_above=above,
            years=years,
            place=supply.place,
            sources=(
                ("mains", band),
                ("frequency", around),
                ("dropper", "the letter on the part, IEC 60062; value from memory"),
                ("smoothing", f"±20 %, letter M, IEC 60062; {NO_SOURCE}"),
                ("resistors", f"±5 %, {NO_SOURCE}"),
                ("LEDs", sheet),
                ("years", f"{_LOSS:.0%} of the capacitance a year, scenario, no source"),
            ),
        )

    def centre(self, lamp: Lamp) -> Lamp:
        """The lamp on its nominal mains, its dropper as old as the spread says; everything else as it is."""
        mains = replace(lamp.mains, voltage=self.voltage, frequency=self.frequency)
        if not self.years:
            return replace(lamp, mains=mains)
        left = theory.remaining_capacitance(dropper=lamp.dropper, loss_each_year=self.loss_each_year, years=self.years)
        return replace(lamp, mains=mains, dropper=left)

    def axes(self, lamp: Lamp) -> tuple[Axis, ...]:
        """What may lie off its nominal value in a lamp, one `Axis` each; parts that are not fitted have none."""
        centre = self.centre(lamp)
        ohms = tuple(
            (path, value)
            for path in ("inrush_resistor", "bleeder", "smoothing_bleeder", "series_resistor")
            if (value := getattr(lamp, path))
        )
        mains, frequency, led = centre.mains.voltage, centre.mains.frequency, lamp.string.led.forward_voltage
        axes = [
            Axis(
                "mains",
                "mains",
                "V",
                self.voltage_low / mains,
                self.voltage_high / mains,
                TRIANGLE,
                (("mains.voltage", mains),),
            ),
            Axis("dropper", "dropper", "F", 1 - self.dropper, 1 + self.dropper, FLAT, (("dropper", centre.dropper),)),
            Axis(
                "led",
                "each LED",
                "V",
                1 - self.led_below,
                1 + self.led_above,
                TRIANGLE,
                (("string.led.forward_voltage", led),),
            ),
            Axis(
                "frequency",
                "frequency",
                "Hz",
                self.frequency_low / frequency,
                self.frequency_high / frequency,
                TRIANGLE,
                (("mains.frequency", frequency),),
            ),
        ]
        if lamp.smoothing:
            axes.append(
                Axis(
                    "smoothing",
                    "smoothing",
                    "F",
                    1 - self.smoothing,
                    1 + self.smoothing,
                    FLAT,
                    (("smoothing", lamp.smoothing),),
                )
            )
        if ohms:
            axes.append(Axis("resistors", "resistors", "", 1 - self.resistors, 1 + self.resistors, FLAT, ohms))
        return tuple(axes)

    @property
    def words(self) -> str:
        """The spread in a sentence."""
        below, above = (f"{100 * part:.3g}" for part in (self.led_below, self.led_above))
        led = f"±{above} %" if below == above else f"−{below} % to +{above} %"
        aged = f", after {counted(self.years, 'year')}" if self.years else ""
        place = self.place[0].upper() + self.place[1:]
        return (
            f"{place}: {show(self.voltage_low, 'V', 4)} to {show(self.voltage_high, 'V', 4)},"
            f" {show(self.frequency_low, 'Hz', 4)} to {show(self.frequency_high, 'Hz', 4)}; dropper"
            f" ±{100 * self.dropper:.3g} %{aged}; each LED's volts {led}."
        )


def _supply_of(mains):
    """The first public supply of these volts and hertz; else one of ±10 % about them."""
    for supply in SUPPLIES:
        if abs(supply.nominal / mains.voltage - 1) < 0.005 and abs(supply.frequency - mains.frequency) < 0.5:
            return supply
    return Supply("the lamp's own mains", mains.voltage, None, None, mains.frequency, NO_SOURCE)


def _band(supply):
    """Ends of a supply's voltage, and where they come from."""
    if supply.low is not None:
        return supply.low, supply.high, f"{supply.place}: {supply.source}"
    return (1 - _BAND) * supply.nominal, (1 + _BAND) * supply.nominal, f"{supply.place}: ±10 %, {NO_SOURCE}"


def _kind_of(led):
    """A kind whose typical voltage is near an LED's, stated at about the same current; None if none is near.

    Of several that are as near, to 5 %, one with a data sheet goes before, then the one that spreads most.
    """

    def rank(kind):
        off = abs(kind.typical / led.forward_voltage - 1)
        return round(off / 0.05), kind.provenance != MAKERS_SHEET, (kind.least - kind.greatest) / kind.typical

    near = [
        kind
        for kind in LEDS
        if 0.5 <= kind.at_current / led.at_current <= 2 and abs(kind.typical / led.forward_voltage - 1) <= _NEAR
    ]
    return min(near, key=rank, default=None)


def check_both(lamp: Lamp, spread: Spread) -> None:
    """Raise `TypeError` in words unless there are a lamp and a spread."""
    for what, kind in ((lamp, Lamp), (spread, Spread)):
        if not isinstance(what, kind):
            raise TypeError(f"{excerpt(what)} is not a {kind.__name__}; give a lamp and the spread of its parts")
