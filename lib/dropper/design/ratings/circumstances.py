"""Circumstances in which a part is looked at: normal use, the mains' upper limit, plug-in, and each single fault."""

from collections.abc import Iterable
from dataclasses import dataclass

from ...circuit.excerpt import excerpt
from ...circuit.fields import Spec, about, check_value, documented
from ...circuit.lamp import Lamp, replace_at
from ...circuit.parts import BY_KEY
from ...circuit.values import show
from ...solver.transient import Fault, Faulty, with_fault
from ...standards import Supply

# Faults against which no part is chosen: hardly anything but the line itself limits the current, or the rush.
BEYOND = {("short", "dropper"), ("short", "bleeder"), ("short", "inrush_resistor")}
# Faults that neither a plug-in meter nor a look at the light shows. Nobody repairs them, so each is taken to be there
# already when the next fault comes: beside every single fault the lamp is looked at without its bleeders too.
HIDDEN = {("open", "bleeder"), ("open", "smoothing_bleeder")}
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
    stiff: bool = about("whether the mains is a stiff one; else it has the reference impedance", default=False)

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

    def counts_for(self, part: str, quantity: str) -> bool:
        """Whether a part is chosen for what it meets here: LEDs are not for the rush that a broken part lets through.

        Parameters
        ----------
        part, quantity
            As of a `PartStress`.
        """
        return self.counted and ((part, quantity) != ("leds", "surge") or self.fault is None)


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
        *_plugged("plug-in", "at the worst moment", "again at once", high),
    ]
    for fault in faults:
        if not isinstance(fault, Fault):
            raise TypeError(f"faults: {excerpt(fault)} is not a Fault")
        faulty = with_fault(high, fault)
        words = f"one fault ({fault.words(lamp).split(' (')[0]})"
        cases.append(Circumstance("fault", f"with {words}", faulty))
        bare, gone = without_bleeders(high, fault)
        if gone:
            cases.append(Circumstance("fault", f"with {words} and {gone} open unseen", with_fault(bare, fault)))
        if fault.kind != "open" or fault.part in _SPREAD_THE_RUSH:
            cases += _plugged("fault", f"with {words}", f"again with {words}", faulty)
    return tuple(cases)


def _plugged(when, first, again, lamp):
    """Plugged in once and again, each on a mains of the reference impedance and on a stiff one."""
    return [
        Circumstance(when, f"plugged in {words}{' on a stiff mains' if stiff else ''}", lamp, plugging, stiff)
        for plugging, words in (("first", first), ("again", again))
        for stiff in (False, True)
    ]


def without_bleeders(lamp: Lamp, fault: Fault) -> tuple[Lamp, str]:
    """A lamp whose hidden faults are there already, and which parts those are, in words; "" where it has none.

    Parameters
    ----------
    fault
        The one that comes next; a bleeder that it is about stays.
    """
    gone = [part for _, part in sorted(HIDDEN) if getattr(lamp, part) and part != fault.part]
    for part in gone:
        lamp = replace_at(lamp, part, None)
    return lamp, "the bleeders" if len(gone) == 2 else f"the {BY_KEY[gone[0]].name}" if gone else ""
