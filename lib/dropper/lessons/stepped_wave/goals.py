"""Goals of the stepped wave: a hot resistor at the same light, and what a larger one does about it."""

from ...circuit.values import show
from ..kit.goals import Goal


def _heats(view, first, kept):
    same_parts = view.supply.lamp == first.supply.lamp
    return same_parts and view.heat >= 5 and abs(view.light - 1) < 0.05


def _heated(view, first, kept):
    return (
        f"The light is {100 * view.light:.0f} % of a sine's. R1 takes {show(_heat(view), 'W')} in place of"
        f" {show(view.on_sine.heat['inrush_resistor'], 'W')}, for the line carries"
        f" {show(view.result.line_current_rms, 'A')} in place of {show(view.on_sine.line_current_rms, 'A')}."
    )


def _peaks(view, first, kept):
    return view.supply.highest > 1 and view.result.line_current_peak >= 5 * first.on_sine.line_current_peak


def _peaked(view, first, kept):
    return (
        f"{show(first.on_sine.line_current_peak, 'A')} became {show(view.result.line_current_peak, 'A')}. The dropper"
        " passes current while the voltage changes, and at a step it changes fast."
    )


def _bigger(view, first, kept):
    grown = view.supply.lamp.inrush_resistor >= 1.9 * first.supply.lamp.inrush_resistor > 0
    return view.supply.highest > 1 and grown and view.heat > 1.5


def _grown(view, first, kept):
    return (
        f"R1 of {show(view.supply.lamp.inrush_resistor, 'Ω')} takes {show(_heat(view), 'W')}. The current falls, but"
        " less than the resistance grows: a larger resistor is no cure."
    )


def _heat(view):
    return view.result.heat["inrush_resistor"]


GOALS = (
    Goal("peak", "Let the wave alone raise the peaks of the line current to five times a sine's.", _peaks, _peaked),
    Goal("heat", "Heat R1 five times as much, while the light stays within 5 %.", _heats, _heated),
    Goal("larger", "On the stepped wave, make R1 at least twice as large. Does it get cooler?", _bigger, _grown),
)
