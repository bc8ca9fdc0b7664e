"""Goals of the print: a reading that is surely in or out, a print of two meanings, volts that are dc."""

from ...circuit.values import show
from ..kit.goals import Goal


def _is_within(view, first, kept):
    return view.judgement is not None and view.judgement.word == "within"


def _is_outside(view, first, kept):
    return view.judgement is not None and view.judgement.word == "outside"


def _judged(view, first, kept):
    unit, judgement = view.meaning.unit, view.judgement
    return (
        f"{judgement.word.capitalize()}: the meter means {show(judgement.least, unit, 4)} to"
        f" {show(judgement.most, unit, 4)}, and the mark allows {show(view.meaning.low, unit)} to"
        f" {show(view.meaning.high, unit)}."
    )


def _is_double(view, first, kept):
    return len(view.meanings) > max(1, len(first.meanings))


def _double(view, first, kept):
    meanings = "; or ".join(f"{one.text}, a {one.part}" for one in view.meanings[:3])
    return f"{view.setting.text} is {meanings}. The part that carries it decides."


def _is_dc(view, first, kept):
    return view.meaning.voltage is not None and view.meaning.supply == "dc"


def _dc(view, first, kept):
    return (
        f"{show(view.meaning.voltage, 'V')} without ~, AC or VAC are dc volts. What it stands of ac is less, and only"
        " its data sheet says it: no part for the mains (lesson 10)."
    )


GOALS = (
    Goal("within", "Find a reading with which this part is surely within.", _is_within, _judged),
    Goal("outside", "Find one with which it is surely outside.", _is_outside, _judged),
    Goal("double", "Type a print that can mean two things.", _is_double, _double),
    Goal("dc", "Type a print whose volts are dc.", _is_dc, _dc),
)
