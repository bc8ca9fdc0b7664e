"""Body currents: what a current through a person does, and what a residual-current device makes of it.

A lesson, no measure of anybody: skin, sweat, path, time and the person decide, and each figure here is a line drawn
through a wide band. To be below a line is no leave to touch: a start is enough to fall, and all of a lamp is mains.
"""

from dataclasses import dataclass

from ..circuit.fields import about, documented
from ..circuit.values import show
from .touch import MEMORY, SECOND_HAND
from .verdict import number

EFFECTS = "IEC TS 60479-1"
DEVICES = "IEC 61008-1"
NO_LEAVE = "All of this lamp is mains; a figure is no leave to touch."


@documented
@dataclass(frozen=True)
class BodyThreshold:
    """A current through a person from which on something is to be expected."""

    key: str
    current: float = about("rms of a sine of 15 to 100 Hz that lasts", "A")
    words: str = about("What is to be expected from there on, as a clause.")
    standard: str
    provenance: str = about('How the figure is known: "restated" or "value from memory".')


# Restated: encyclopedias, makers' pages and lectures that name the standard. Hand to hand or hand to feet.
BODY_THRESHOLDS = (
    BodyThreshold("reaction", 0.5e-3, "it can be felt, and a start makes people fall", EFFECTS, SECOND_HAND),
    BodyThreshold("let-go of everybody", 5e-3, "not everybody can let go, children least", EFFECTS, MEMORY),
    BodyThreshold("let-go", 10e-3, "a grown-up's hand may no longer open", EFFECTS, SECOND_HAND),
    BodyThreshold("fibrillation", 40e-3, "the heart may fibrillate, if it lasts some seconds", EFFECTS, MEMORY),
)
DC_REACTION = BodyThreshold("reaction to dc", 2e-3, "a direct current can be felt", EFFECTS, MEMORY)


@documented
@dataclass(frozen=True)
class BodyResistance:
    """Resistance of a person from hand to hand, large dry contacts, at one touch voltage."""

    voltage: float = about("across the body, ac of 50 or 60 Hz", "V")
    low: float = about("that 5 % of all people are below", "Ω")
    middle: float = about("that half of all people are below", "Ω")
    high: float = about("that 95 % of all people are below", "Ω")


# IEC TS 60479-1:2005, Table 1; values from memory.
BODY_RESISTANCES = (
    BodyResistance(25.0, 1750.0, 3250.0, 6100.0),
    BodyResistance(50.0, 1375.0, 2500.0, 4600.0),
    BodyResistance(100.0, 990.0, 1725.0, 3125.0),
    BodyResistance(225.0, 775.0, 1225.0, 1900.0),
)


@documented
@dataclass(frozen=True)
class ResidualCurrentDevice:
    """What is promised of an earth-leakage breaker: it compares the line's two wires, and knows nothing else."""

    holds: float = about("up to which it must stay on, rms of a sine", "A")
    trips: float = about("from which on it must trip, rms of a sine", "A")
    standard: str
    provenance: str

    def answer(self, current: float) -> str:
        """What it does: "nothing" where there is no current to earth, "stays on", "either" or "trips".

        Parameters
        ----------
        current
            To earth, rms, A; 0 or more.

        Raises
        ------
        ValueError
            For a current below 0.

        Source: IEC 61008-1, restated: a device of 30 mA must not trip up to half of it, and must at all of it. The
        bounds are for a sine; a pulsating current may need more, and a device of type AC need not see it at all (from
        memory).

        Examples
        --------
        >>> [HOUSEHOLD_DEVICE.answer(amperes) for amperes in (0, 0.012, 0.02, 0.2)]
        ['nothing', 'stays on', 'either', 'trips']
        """
        amperes = number("current", current, "A", 0)
        if amperes == 0:
            return "nothing"
        return "trips" if amperes >= self.trips else "either" if amperes > self.holds else "stays on"


_NEARLY_ALL = 0.9  # direct part over rms
HOUSEHOLD_DEVICE = ResidualCurrentDevice(15e-3, 30e-3, DEVICES, SECOND_HAND)


def thresholds_reached(current: float) -> tuple[BodyThreshold, ...]:
    """The thresholds that a current through a person has reached, from the least up.

    Parameters
    ----------
    current
        A rms; 0 or more.

    Raises
    ------
    ValueError
        For a current below 0.

    Source: `BODY_THRESHOLDS`, each with how it was had.

    Examples
    --------
    >>> [threshold.key for threshold in thresholds_reached(0.012)]
    ['reaction', 'let-go of everybody', 'let-go']
    """
    amperes = number("current", current, "A", 0)
    return tuple(threshold for threshold in BODY_THRESHOLDS if amperes >= threshold.current)


def effect_words(current: float, direct: float = 0.0) -> str:
    """What a current through a person does, in a sentence that ends in a caution.

    Parameters
    ----------
    current
        A rms, of all of it; 0 or more.
    direct
        A, its mean, either way. A current that is nearly all direct is held against `DC_REACTION` alone.

    Raises
    ------
    ValueError
        For a current below 0.

    Source: `BODY_THRESHOLDS` and `DC_REACTION`; they are of sines and of steady direct currents, and a wave between the
    two is held against those of a sine by its rms.

    Examples
    --------
    >>> effect_words(0.0161).split(". ")[0]
    "16.1 mA is above 10 mA, from where on a grown-up's hand may no longer open"
    """
    reached = thresholds_reached(current)
    if abs(direct) > _NEARLY_ALL * current > _NEARLY_ALL * DC_REACTION.current:
        words = (
            f"{show(current, 'A')}, nearly all of it direct, is above {show(DC_REACTION.current, 'A')}, from where on"
            f" {DC_REACTION.words}; no line for letting go can be drawn, each making"
            " and breaking of it jerks the muscles, and it burns by electrolysis."
        )
    elif not reached:
        least = BODY_THRESHOLDS[0]
        words = (
            f"{show(current, 'A')} is what this circuit gives and no more is known: a worn part, a wet hand or a turned"
            f" plug, and it is above {show(least.current, 'A')}, from where on {least.words}."
        )
    else:
        top = reached[-1]
        words = f"{show(current, 'A')} is above {show(top.current, 'A')}, from where on {top.words}."
    return f"{words} {NO_LEAVE}"
