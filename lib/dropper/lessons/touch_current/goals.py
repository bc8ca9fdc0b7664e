"""Goals of the panel of a person in the circuit: what is to be found out, none of it leave to touch."""

from ...circuit.values import show
from ...standards import HOUSEHOLD_DEVICE, NO_LEAVE
from ..kit.goals import Goal

_MUCH = 0.1  # A, more than a dropper of this size lets through
_LET_GO = 0.01  # A, from where on a hand may no longer open (`standards.BODY_THRESHOLDS`)
_FAR = 0.9  # of the mains' peak


def _much(view, first, kept):
    return view.now.current_rms > _MUCH and not view.setting.short


def _much_words(view, first, kept):
    return (
        f"{show(view.now.current_rms, 'A')} through the person, and the dropper is sound: it is in the other wire. The"
        f" plug turned, it would be {show(view.turned.current_rms, 'A')}. {NO_LEAVE}"
    )


def _far(view, first, kept):
    return view.meter.minus_voltage_peak > _FAR * view.setting.lamp.mains.peak


def _far_words(view, first, kept):
    return (
        f"Minus stands up to {show(view.meter.minus_voltage_peak, 'V')} from earth. The string's own volts are"
        f" {show(view.meter.bus_voltage_mean, 'V')}, between plus and minus only. {NO_LEAVE}"
    )


def _stays_on(view, first, kept):
    moved = view.setting != first.setting  # some lamps do so from the start
    return moved and view.now.current_rms > _LET_GO and view.device in ("stays on", "either")


def _stays_on_words(view, first, kept):
    return (
        f"{show(view.now.current_rms, 'A')} flow: above {show(_LET_GO, 'A')} a hand may no longer open. The device of"
        f" {show(HOUSEHOLD_DEVICE.trips, 'A')} may stay on. {NO_LEAVE}"
    )


def _unseen(view, first, kept):
    return view.device == "nothing" and view.now.current_rms > 1e-3


def _unseen_words(view, first, kept):
    return (
        f"{show(view.now.current_rms, 'A')} flow from hand to hand, and the device sees nothing: what goes out in one"
        f" wire comes back in the other. {NO_LEAVE}"
    )


GOALS = (
    Goal(
        "stays on",
        "Have more than 10 mA flow while the residual-current device may stay on.",
        _stays_on,
        _stays_on_words,
    ),
    Goal("far", "Put the minus of the string more than 290 V from earth.", _far, _far_words),
    Goal("much", "Have more than 100 mA flow, the dropper sound.", _much, _much_words),
    Goal("unseen", "Have a current flow of which the device sees nothing.", _unseen, _unseen_words),
)
