"""Questions of the faults: what is guessed of each before it is shown, and why a wrong guess does not hold."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from ...circuit.fields import about, documented

if TYPE_CHECKING:
    from ...solver.steady import SteadyState
    from ...solver.transient import Fault

_MANY = 3.0  # times the healthy lamp's line current: what a fuse is for
_LITTLE = 1.3  # times it: the dropper still limits the line
_HALF = (0.47, 0.53)  # of the healthy lamp's string current: what people call half the light
_UNSEEN = 0.02  # of the line current: less than a plug-in meter's last digit shows


@documented
@dataclass(frozen=True)
class FaultQuestion:
    """What is asked of a fault."""

    text: str = about('goes on after the fault\'s words: "what does the light do?"')
    answers: Mapping = about("by key")
    right: Callable[[SteadyState, SteadyState], str] = about(
        "the key of the answer that holds, of the cycles of the broken lamp and of the healthy one"
    )
    causes: Mapping = about("why an answer that does not hold does not, by its key", default_factory=dict)


LIGHT = FaultQuestion(
    "what does the light do?",
    {
        "dark": "dark",
        "dim": "dim",
        "same": "looks the same",
        "brighter": "brighter",
        "over": "overdriven, until it bangs",
    },
    lambda now, healthy: now.word,
)


def _diode_open(now, healthy):
    return {"dark": "dark", "dim": "half", "same": "same"}.get(now.word, "")


def _diode_short(now, healthy):
    if now.line_current_rms > _MANY * healthy.line_current_rms:
        return "bang"
    if now.dark:
        return "dark"
    low, high = _HALF
    return "half" if low < now.relative_current < high else "more" if high <= now.relative_current < 1 else ""


def _line(now, healthy):
    times = now.line_current_rms / healthy.line_current_rms
    return "away" if times > _MANY else "little" if 0.9 < times < _LITTLE else "less" if times <= 0.9 else ""


def _noticed(now, healthy):
    if now.word != "same":
        return "light"
    change = abs(now.line_current_rms / healthy.line_current_rms - 1)
    return "meter" if change > _UNSEEN else "nobody"


_OF_A_DIODE_OPEN = FaultQuestion(
    "what does the light do?",
    {
        "half": "half the light: every other half cycle is lost",
        "dark": "dark",
        "same": "looks the same: C2 fills the gaps",
    },
    _diode_open,
    {
        "half": "One half cycle still has its way. But the dropper is charged by it and never discharged: a capacitor"
        " lets no current through that always flows the same way.",
        "same": "C2 can only give what comes in, and nothing comes in any more.",
    },
)
_OF_A_DIODE_SHORT = FaultQuestion(
    "what does the light do?",
    {
        "bang": "a bang: it is a short circuit on the mains",
        "dark": "dark: all of the current goes past the string",
        "half": "half the light: one half cycle is lost",
        "more": "less light, but more than half",
    },
    _diode_short,
    {
        "bang": "The dropper still stands in the line, and limits the current as ever.",
        "dark": "One half cycle goes past the string. The other one still goes through it.",
        "half": "In the half cycle past the string the dropper charges to nearly the whole peak. So the other half"
        " cycle moves more charge than before.",
    },
)
_OF_A_DROPPER_SHORT = FaultQuestion(
    "it is of class X2. What does the line current do?",
    {
        "never": "that cannot happen: X2 fails open",
        "little": "hardly more: the LEDs limit it",
        "away": "it grows many times: something must open the line",
    },
    _line,
    {
        "never": "X2 is tested across the mains. In series it does another duty, and no class promises that a part"
        " never goes short.",
        "little": "LEDs hold a voltage; they limit no current. Only the resistors are left.",
    },
)
_OF_A_SHORT_OUTPUT = FaultQuestion(
    "what does the line current do?",
    {
        "away": "it runs away: a short is an overload",
        "little": "it rises a little",
        "less": "it falls: the lamp is dark, so nothing flows",
    },
    _line,
    {
        "away": "The dropper is what limits the line, with LEDs behind it or with a short. It takes all of the mains.",
        "less": "Dark is not dead: the dropper's current flows on, through the short.",
    },
)
_OF_AN_OPEN_BLEEDER = FaultQuestion(
    "who notices while the lamp is on?",
    {"light": "everybody: the light changes", "meter": "a plug-in meter shows it", "nobody": "nobody"},
    _noticed,
    {
        "light": "The bleeder has a hundred times the dropper's ohms: it takes next to nothing of the current.",
        "meter": "It takes less than the meter's last digit. Its work begins when the plug comes out.",
    },
)
_OWN = {
    ("open", "D1"): _OF_A_DIODE_OPEN,
    ("short", "D1"): _OF_A_DIODE_SHORT,
    ("short", "dropper"): _OF_A_DROPPER_SHORT,
    ("short", "smoothing"): _OF_A_SHORT_OUTPUT,
    ("short", "D1 and D3"): _OF_A_SHORT_OUTPUT,
    ("open", "bleeder"): _OF_AN_OPEN_BLEEDER,
    ("open", "smoothing_bleeder"): _OF_AN_OPEN_BLEEDER,
}


def question_of(fault: Fault) -> FaultQuestion:
    """What is asked of a fault before it is shown."""
    return _OWN.get((fault.kind, fault.part), LIGHT)
