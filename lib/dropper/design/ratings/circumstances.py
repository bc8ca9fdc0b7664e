"""Circumstances in which a part is looked at: normal use, the mains' upper limit, plug-in, and each single fault."""

from collections.abc import Iterable
from dataclasses import dataclass

from ...circuit.fields import Spec, about, check_value, documented
from ...circuit.lamp import Lamp, replace_at
from ...circuit.values import show
from ...solver.transient import Fault, Faulty, with_fault
from ...standards import Supply

# Faults against which no part is chosen: hardly anything but the line itself limits the current, or the rush.
BEYOND = {("short", "dropper"), ("short", "bleeder"), ("short", "inrush_resistor")}
# A part that is open makes no rush larger, save these: they were there to spread it.
_SPREAD_THE_RUSH = ("smoothing", "LED")
_RISE, _RISE_SOURCE = 1.1, "the lamp's own mains and 10 % (IEC 60038:2009; value from memory)"
_UPPER = Spec("V", 1, 1000, meaning="upper limit of the mains")
WHEN = ("normal", "upper", "plug-in", "fault")


@documented
@dataclass(frozen=True)
class Circumstance:
    """A circumstance in which stresses are found."""

    when: str = about('"normal", "upper", "plug-in" or "fault"')
    words: str = about('"in normal use", "with one fault (string open)"')
    lamp: Lamp | Faulty = about("with the mains of this circumstance")
    plugging: str = about('"" for what lasts, "first" or "again" for the moment of plugging in', default="")

    @property
    def fault(self) -> None:
        """The fault, or None."""
        return self.lamp.fault if isinstance(self.lamp, Faulty) else None

    @property
    def healthy(self) -> Lamp:
        """The lamp without its fault."""
        return self.lamp.lamp if isinstance(self.lamp, Faulty) else self.lamp

    @property
    def lasting(self) -> bool:
        """Whether it lasts for all the life of the lamp: then only shares of the ratings are used."""
        return self.when in ("normal", "upper")

    @property
    def counted(self) -> bool:
        """Whether parts are chosen for it."""
        return self.fault is None or (self.fault.kind, self.fault.part) not in BEYOND


def upper_limit(lamp: Lamp, upper: float | Supply | None = None) -> tuple[float, str]:
    """The mains' upper limit for a lamp, and where it comes from.

    Parameters
    ----------
    upper
        V rms; a supply's own upper limit; None: 10 % above the lamp's mains.

    Returns
    -------
    (float, str)
        V rms, and its source in words.

    Raises
    ------
    ValueError
        If the limit is below the lamp's mains, above 1000 V, or a supply has none.
    """
    source = "as given"
    if upper is None:
        upper, source = _RISE * lamp.mains.voltage, _RISE_SOURCE
    elif isinstance(upper, Supply):
        if upper.high is None:
            raise ValueError(f"upper: no upper limit is kept here for {upper.place}; give it in volts")
        upper, source = upper.high, f"{upper.place}: {upper.source}"
    volts = check_value("upper", upper, _UPPER)
    if volts < lamp.mains.voltage * (1 - 1e-9):
        raise ValueError(
            f"upper: {show(volts, 'V', 4)} is below the lamp's mains of {show(lamp.mains.voltage, 'V', 4)};"
            " allowed is that or more"
        )
    return volts, source


def circumstances(lamp: Lamp, upper: float, faults: Iterable[Fault]) -> tuple[Circumstance, ...]:
    """All of them, in order; all but normal use have the mains at its upper limit.

    Parameters
    ----------
    upper
        V rms.

    Raises
    ------
    ValueError
        If a fault cannot happen to the lamp.
    """
    high = replace_at(lamp, "mains.voltage", upper)
    cases = [
        Circumstance("normal", "in normal use", lamp),
        Circumstance("upper", f"with the mains at {show(upper, 'V', 4)}", high),
        Circumstance("plug-in", "plugged in at the worst moment", high, "first"),
        Circumstance("plug-in", "plugged in again at once", high, "again"),
    ]
    for fault in faults:
        if not isinstance(fault, Fault):
            raise TypeError(f"faults: {fault!r:.60} is not a Fault")
        faulty = with_fault(high, fault)
        words = f"one fault ({fault.words(lamp).split(' (')[0]})"
        cases.append(Circumstance("fault", f"with {words}", faulty))
        if fault.kind != "open" or fault.part in _SPREAD_THE_RUSH:
            cases.append(Circumstance("fault", f"plugged in with {words}", faulty, "first"))
            cases.append(Circumstance("fault", f"plugged in again with {words}", faulty, "again"))
    return tuple(cases)
