"""Units: the one table of them, with their names, the spellings that are read, their dimensions, and SI's prefixes.

What reads values (`parsing`, a task's replies, measured tables), what writes them (`values`, worked examples) and what
checks dimensions all take their units from here.
"""

from dataclasses import dataclass


@dataclass(frozen=True)
class Unit:
    """One unit.

    symbol: as it is written; name: in words; spellings: other ways to write it that are read everywhere;
    in_values: further ones that are read in a single value only; dimension: its name in sympy.physics.units, "" for a
    plain number; prefixed: whether a value has SI prefixes; plain_when_worked: a worked example writes none all the
    same; tight: no space before it.
    """

    symbol: str
    name: str
    spellings: tuple[str, ...] = ()
    in_values: tuple[str, ...] = ()
    dimension: str = ""
    prefixed: bool = True
    plain_when_worked: bool = False
    tight: bool = False

    @property
    def plain(self) -> bool:
        """Whether a worked example, or a task, writes it without prefixes."""
        return self.plain_when_worked or not self.prefixed

    @property
    def spelled(self) -> tuple[str, ...]:
        """Its symbol and the ways to write it that are read everywhere."""
        return (self.symbol, *self.spellings)

    @property
    def read_as(self) -> tuple[str, ...]:
        """Every way to write it in a value, the longest first, so that none is taken for the end of another."""
        return tuple(sorted(filter(None, {*self.spelled, *self.in_values}), key=lambda s: (-len(s), s)))


_TABLE = (
    Unit("", "a plain number", prefixed=False, tight=True),
    Unit("%", "per cent", ("per cent", "percent"), prefixed=False),
    Unit("V", "volts", ("volt", "volts"), ("Vrms", "Vdc", "Vac"), "voltage"),
    Unit("A", "amperes", ("amp", "amps", "ampere", "amperes"), (), "current"),
    Unit("W", "watts", ("watt", "watts"), (), "power"),
    Unit("VA", "volt-amperes", dimension="power"),
    Unit("var", "var", ("vars", "VAr", "VAR"), (), "power"),
    Unit("F", "farads", ("farad", "farads"), (), "capacitance"),
    Unit("Ω", "ohms", ("ohm", "ohms", "Ohm", "Ohms", "\u2126"), ("R",), "impedance"),
    Unit("H", "henries", ("henry", "henries"), (), "inductance"),
    Unit("Hz", "hertz", ("hertz",), (), "frequency"),
    Unit("C", "coulombs", ("coulomb", "coulombs"), (), "charge"),
    Unit("J", "joules", ("joule", "joules"), (), "energy"),
    Unit("Wh", "watt-hours", dimension="energy"),
    Unit("kWh", "kilowatt-hours", dimension="energy", prefixed=False),
    Unit("/kWh", "a kilowatt-hour", dimension="/energy", prefixed=False),  # money has no dimension
    Unit("A²s", "ampere squared seconds", dimension="energy/impedance", prefixed=False),  # mA²s would be (mA)²s
    Unit("s", "seconds", ("sec", "second", "seconds"), (), "time"),
    Unit("h", "hours", ("hour", "hours"), (), "time", prefixed=False),
    Unit("years", "years", ("year",), ("a",), "time", prefixed=False),
    Unit("°", "degrees", (), ("deg",), prefixed=False, tight=True),
    Unit("rad", "radians", ("radian", "radians"), plain_when_worked=True),
    Unit("rad/s", "radians a second", dimension="frequency", plain_when_worked=True),
    Unit("K", "kelvins", ("kelvin", "kelvins"), (), "temperature", plain_when_worked=True),
    Unit(
        "°C", "degrees Celsius", ("degrees Celsius", "degrees C"), ("degrees", "°", "C"), "temperature", prefixed=False
    ),
    Unit("K/W", "kelvins a watt", dimension="temperature/power", plain_when_worked=True),
    Unit("J/K", "joules a kelvin", dimension="energy/temperature", plain_when_worked=True),
    Unit("V/K", "volts a kelvin", dimension="voltage/temperature"),
    Unit("ppm/K", "millionths a kelvin", dimension="/temperature", prefixed=False),
    Unit("lm", "lumens", ("lumen", "lumens"), (), "luminous_intensity"),
    Unit("lm/A", "lumens an ampere", dimension="luminous_intensity/current"),
)
UNITS = {unit.symbol: unit for unit in _TABLE}
PREFIXES = {"p": 1e-12, "n": 1e-9, "µ": 1e-6, "m": 1e-3, "": 1.0, "k": 1e3, "M": 1e6, "G": 1e9}
MICRO = "uμ"  # read as µ: what a keyboard has, and the Greek letter


def factor(text: str, unit: str) -> float | None:
    """What numbers in a unit written with a prefix are multiplied with to be in the SI unit itself.

    Words are read in capitals and small letters alike, prefixes are not.

    Parameters
    ----------
    text
        As the heading of a column has it: "mA", "kΩ", "Volts".
    unit
        The SI unit.

    Returns
    -------
    float or None
        None where the text is in another unit.

    Examples
    --------
    >>> factor("mA", "A"), factor("Volts", "V"), factor("mA", "V")
    (0.001, 1.0, None)
    """
    known = UNITS.get(unit) or Unit(unit, unit)
    words = {word.lower() for word in known.spelled}
    for prefix, times in [*PREFIXES.items(), *((sign, PREFIXES["µ"]) for sign in MICRO)]:
        rest = text.removeprefix(prefix)
        if text.startswith(prefix) and (rest == unit or rest.lower() in words):
            return times
    return None
