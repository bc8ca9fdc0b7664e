"""Wording of ratings: their sentences."""

from collections.abc import Sequence
from typing import Any

from ...circuit.parts import BY_KEY
from ...circuit.values import show, show_reading
from ...components.kinds import Chain
from ...solver.transient import Fault
from .placement import LED_SURGE_TIMES, name_of
from .stress import QUANTITIES, PartStress

_SINGULAR = {"diodes": "each diode of the bridge", "leds": "each LED"}


def part_name(part: str) -> str:
    """A part's name in a sentence; one diode, one LED.

    Parameters
    ----------
    part
        A key of `parts.BY_KEY`.
    """
    return _SINGULAR.get(part, BY_KEY[part].name)


def _stress_words(rating):
    """What the part sees: in normal use, and at its worst."""
    check = rating.tightest
    quantity = QUANTITIES[check.quantity][0]
    worst = f"{check.worst.circumstance.words} {check.worst.text}"
    if check.normal is None or check.worst is check.normal:
        return f"its {quantity} is {check.worst.text} {check.worst.circumstance.words}"
    return f"its {quantity} is {check.normal.text} in normal use, {worst}"


def _kind_words(kind):
    return kind.words[0].lower() + kind.words[1:-1] if isinstance(kind, Chain) and kind.count > 1 else name_of(kind)


def part_sentence(rating: Any) -> str:
    """What a part sees, what it allows, and what to take, of a `PartRating`."""
    name = part_name(rating.part)
    text = f"{name[0].upper()}{name[1:]}: {_stress_words(rating)}"
    kind = "" if rating.kind is None else name_of(rating.kind)
    limit = rating.tightest.limit_text
    if rating.origin == "proposed":
        text += f": take {_kind_words(rating.kind)}."
    elif rating.kind is None and rating.verdict == "over":
        text += f". That is over the {limit} that they are let take in a rush."
    elif rating.kind is None:
        text += ". No kind is given, so nothing but the rush is judged."
    elif rating.origin == "none passes":
        text += f". No kind kept here passes; even {kind} is allowed {limit} only."
    elif rating.verdict == "within":
        text += f". The {kind} that is fitted is allowed {limit}: within."
    elif rating.verdict == "ask the data sheet":
        text += f". Whether the {kind} that is fitted stands that, only its data sheet says."
    else:
        text += f". The {kind} that is fitted is allowed {limit}: {rating.verdict}."
        if rating.next_up is not None:
            text += f" Take {_kind_words(rating.next_up)}."
        elif rating.part != "leds":
            text += " No kind kept here passes."
    open_checks = [check for check in rating.unjudged if check.worst.value > 0 and check is not rating.tightest]
    if open_checks and rating.kind is not None:
        unrated = ", ".join(f"{QUANTITIES[check.quantity][0]} ({check.worst.text})" for check in open_checks)
        text += f" No rating is kept here for {unrated}: see its data sheet."
    return f"{text} {rating.remark}".strip()


def beyond_sentence(fault_words: str, stresses: Sequence[PartStress]) -> str:
    """A fault that no part is chosen for, with its figures.

    Parameters
    ----------
    stresses
        Those of the fault.
    """
    clauses = []
    for part, quantity, words in (
        ("dropper", "rms_current", "the line carries {} rms"),
        ("diodes", "surge", "the rush at plug-in reaches {}"),
        ("inrush_resistor", "power", "the inrush resistor is asked to burn {}"),
        ("leds", "mean_current", "each LED gets {}"),
    ):
        rows = [stress for stress in stresses if (stress.part, stress.quantity) == (part, quantity)]
        found, stiff = (
            max((row.value for row in rows if row.circumstance.stiff == stiff), default=0.0) for stiff in (False, True)
        )
        if found > 0:
            unit = {"power": "W"}.get(quantity, "A")
            more = f", on a stiff mains {show_reading(stiff, unit)}" if stiff > 1.1 * found else ""
            clauses.append(words.format(show_reading(found, unit)) + more)
    figures = f" {clauses[0][0].upper()}{'; '.join(clauses)[1:]}." if clauses else ""
    return f"{fault_words[0].upper()}{fault_words[1:]}: no part is chosen for that.{figures} {OPENS}"


def led_rush_sentence(stresses: Sequence[PartStress]) -> str:
    """The rush that goes through the LEDs once the smoothing capacitor is open; "" where there is none.

    Parameters
    ----------
    stresses
        Of the lamp.
    """
    open_smoothing = Fault("open", "smoothing")
    rushes = [
        stress.value
        for stress in stresses
        if (stress.part, stress.quantity, stress.circumstance.fault) == ("leds", "surge", open_smoothing)
    ]
    if not rushes:
        return ""
    return (
        f"Smoothing capacitor open: no LED is chosen for that. The next rush at plug-in goes through the LEDs, up to"
        f" {show_reading(max(rushes), 'A')} in each; few outlive that often."
    )


OPENS = (
    "Something must open the line before anything burns: a fuse, and an inrush resistor of a fusible, flame-proof kind,"
    " as data sheets and local codes ask. Until it is unplugged, and proved dead by measuring, all of the lamp counts"
    " as live mains."
)
SERIES = "A class for across the mains does not promise long service in series: its data sheet is to name that use."
NO_CLASS = "No class for the mains vouches for a film capacitor that is rated for dc."
RIPPLE = "Ripple ratings kept here are typical practice: its data sheet decides. Several in parallel share the ripple."
FUSIBLE = "Its kind is to be fusible and flame-proof and to stand the pulse: its data sheet names all three."
LED_RUSH = (
    f"Here LEDs are let take {LED_SURGE_TIMES:g} times their current in a rush (typical practice, no source). A"
    " smoothing capacitor takes the rush off them; without one only a much larger inrush resistor does."
)
WHICH_LED = "Say which kind of LED is fitted, and its current is looked at too."


def surge_remark(resistor: float, limit: float) -> str:
    """What an inrush resistor would do for diodes that no kind saves.

    Parameters
    ----------
    resistor, limit
        Ω and A.
    """
    return (
        f"An inrush resistor of {show(resistor, 'Ω')} or more would keep the rush to the {show(limit, 'A')} of a"
        " diode's data sheet on any mains, even when plugged in again at once."
    )
