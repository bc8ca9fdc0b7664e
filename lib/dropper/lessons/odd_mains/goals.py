"""Goals of odd mains: a hot resistor at the same light, a larger one, a dimmer that does not dim, and a slow edge."""

from ...circuit.values import show
from ..kit.goals import Goal

_SAME = 0.05  # of a sine's light


def _heat(view):
    return view.result.heat["inrush_resistor"]


def _heats(view, first, kept):
    return view.supply.lamp == first.supply.lamp and view.heat >= 5 and abs(view.light - 1) < _SAME


def _heated(view, first, kept):
    return (
        f"The light is {100 * view.light:.0f} % of a sine's. R1 takes {show(_heat(view), 'W')} in place of"
        f" {show(view.on_sine.heat['inrush_resistor'], 'W')}, for the line carries"
        f" {show(view.result.line_current_rms, 'A')} in place of {show(view.on_sine.line_current_rms, 'A')}."
    )


def _bigger(view, first, kept):
    grown = view.supply.lamp.inrush_resistor >= 1.9 * first.supply.lamp.inrush_resistor > 0
    return view.supply.kind == "stepped" and grown and view.heat > 1.5


def _grown(view, first, kept):
    return (
        f"R1 of {show(view.supply.lamp.inrush_resistor, 'Ω')} takes {show(_heat(view), 'W')}. The current falls, but"
        " each step moves the same charge through it: a larger resistor is no cure."
    )


def _undimmed(view, first, kept):
    return view.supply.kind in ("leading", "trailing") and view.supply.angle >= 60 and view.light > 0.9


def _undimmed_words(view, first, kept):
    return (
        f"A dimmer cuts {view.supply.angle:g}° off, and the light is {100 * view.light:.0f} % of before. The line"
        f" current is {view.line:.1f} times a sine's."
    )


def _slow(view, first, kept):
    return view.supply.kind == "stepped" and view.supply.edge >= 4e-4 and view.heat < 6


def _slowed(view, first, kept):
    return (
        f"With edges of {show(view.supply.edge, 's')} R1 takes {show(_heat(view), 'W')}. The current of a dropper is as"
        " large as the voltage is fast."
    )


GOALS = (
    Goal("heat", "Heat R1 five times as much, while the light stays within 5 %.", _heats, _heated),
    Goal("larger", "On the stepped wave, make R1 at least twice as large. Does it get cooler?", _bigger, _grown),
    Goal(
        "dimmer",
        "Put a dimmer on that cuts off 60° or more, and lose no more than 10 % of the light.",
        _undimmed,
        _undimmed_words,
    ),
    Goal("slow", "Make the steps of the inverter slow, 0.4 ms or more. What does R1 do?", _slow, _slowed),
)
