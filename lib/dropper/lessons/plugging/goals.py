"""Goals of lesson 6's two panels: what stays after the pull, and the rush at plugging in."""

from ...circuit.values import show
from ..kit.goals import Goal

_FULL = 200.0  # V after a second: next to nothing has gone
_LITTLE = 20.0  # V: pulled near the dropper's own zero
_QUICK = 0.3  # s
_TWICE = 1.9  # times the peak of the first view
_HALF = 0.55  # of it


def _value(view, key):
    return next(reading for reading in view.readings if reading.key == key).value


def _text(view, key):
    return next(reading for reading in view.readings if reading.key == key).text


def _kept(view, first, kept):
    return _value(view, "held") > _FULL >= _value(first, "held")


def _kept_words(view, first, kept):
    return (
        f"{_text(view, 'held')} after a second, and down to 34 V: {_text(view, 'to_limit')}. The LEDs empty nothing:"
        " the bridge lets no current back. Only a bleeder does."
    )


def _quick(view, first, kept):
    lamp = view.setting.lamp
    same = lamp.dropper == first.setting.lamp.dropper and view.setting.pulled == first.setting.pulled
    return same and bool(lamp.bleeder) and _value(view, "to_limit") < _QUICK < _value(first, "to_limit")


def _quick_words(view, first, kept):
    lamp = view.setting.lamp
    return (
        f"{show(lamp.bleeder, 'Ω')} instead of {show(first.setting.lamp.bleeder, 'Ω')}: {_text(view, 'to_limit')}"
        f" instead of {_text(first, 'to_limit')}. The time goes with the ohms, and with the farads."
    )


def _lucky(view, first, kept):
    return _value(view, "at_once") < _LITTLE and _value(first, "at_once") > _FULL


def _lucky_words(view, first, kept):
    return (
        f"Pulled at {view.setting.pulled:.0f}° it holds {_text(view, 'at_once')}, at {first.setting.pulled:.0f}°"
        f" {_text(first, 'at_once')}. Nobody who pulls a plug chooses the moment."
    )


PULL_GOALS = (
    Goal("kept", "Keep more than 200 V in the dropper one second after the pull.", _kept, _kept_words),
    Goal("quick", "Bring the same dropper down to 34 V in less than 0.3 s.", _quick, _quick_words),
    Goal("lucky", "Find a moment of pulling that leaves less than 20 V.", _lucky, _lucky_words),
)


def _same_parts(view, first):
    return view.setting.lamp == first.setting.lamp


def _twice(view, first, kept):
    return _same_parts(view, first) and view.peak > _TWICE * first.peak


def _twice_words(view, first, kept):
    times = view.rush.inrush_energy / first.rush.inrush_energy if first.rush.inrush_energy else 0.0
    heat = f" Its heat: {times:.1f} times, for the step counts squared." if times else ""
    words = f"{show(view.peak, 'A')} instead of {show(first.peak, 'A')}: what is left on the dropper adds to the mains."
    return words + heat


def _gentle(view, first, kept):
    return bool(view.setting.lamp.inrush_resistor) and view.peak < 0.1 * first.peak and _same_parts(view, first)


def _gentle_words(view, first, kept):
    return (
        f"{show(view.peak, 'A')} at {view.setting.angle:.0f}°: the mains stands where the dropper stands, so there is"
        " no step. Nobody chooses that moment either."
    )


def _half(view, first, kept):
    moved = view.setting.angle == first.setting.angle and view.setting.precharge == first.setting.precharge
    same = view.setting.lamp.dropper == first.setting.lamp.dropper
    return moved and same and view.rush.inrush_energy > 0 and view.peak < _HALF * first.peak


def _half_words(view, first, kept):
    return (
        f"Peak {show(view.peak, 'A')} instead of {show(first.peak, 'A')}; heat of the rush"
        f" {show(view.rush.inrush_energy, 'J')} instead of {show(first.rush.inrush_energy, 'J')}. Lower, longer, the"
        f" same heat; in use R1 takes {show(view.heat_in_use, 'W')} instead of {show(first.heat_in_use, 'W')}."
    )


def _bare(view, first, kept):
    return not view.setting.lamp.inrush_resistor and view.peak > first.peak


def _bare_words(view, first, kept):
    return (
        f"{show(view.peak, 'A')} instead of {show(first.peak, 'A')}, and the dropper goes to"
        f" {show(view.rush.dropper_voltage_peak, 'V')}: mains and dropper swing against each other."
    )


RUSH_GOALS = (
    Goal("half", "Halve the peak of the rush. Watch its heat in R1.", _half, _half_words),
    Goal("twice", "Make the peak nearly twice as high, all parts as they are.", _twice, _twice_words),
    Goal("gentle", "Find a moment with hardly any rush, all parts as they are.", _gentle, _gentle_words),
    Goal("bare", "Leave nothing but the mains to limit the rush.", _bare, _bare_words),
)
