"""Goals of the measurement: which part can explain a difference, and what speaks against the others."""

from ...circuit.values import show
from ...results.compare import signed_percent
from ..kit.goals import Goal
from ..kit.moved import only_moved

_LEDS_AT_THEIR_END = 3.5  # V an LED
_RIPPLE, _UNMOVED = 1.5, 0.02  # the ripple so many times another; a current that hardly changes


def _alone(path, view, first):
    dark = view.result.dark or first.result.dark
    return not dark and only_moved(path, view.setting.lamp, first.setting.lamp)


def _row(view, key):
    return next((row for row in view.comparison.rows if row.key == key), None)


def _agrees(view, first):
    now, before = _row(view, "current"), _row(first, "current")
    return now is not None and before is not None and before.verdict == "differs" and now.verdict == "agrees"


def _is_explained(view, first, kept):
    return _alone("dropper", view, first) and _agrees(view, first)


def _explained(view, first, kept):
    return (
        f"At {show(view.setting.lamp.dropper, 'F')} the currents agree within what is not known."
        f" {show(first.setting.lamp.dropper, 'F')} are printed on the part."
    )


def _is_contradicted(view, first, kept):
    return _alone("mains.voltage", view, first) and _agrees(view, first) and _row(view, "voltage") is not None


def _contradicted(view, first, kept):
    volts = _row(view, "voltage")
    return (
        f"At {show(view.setting.lamp.mains.voltage, 'V')} the currents agree. But the volts were measured too:"
        f" {volts.estimate.text('V')}. So it is not the mains."
    )


def _is_tall(view, first, kept):
    raised = view.setting.lamp.string.led.forward_voltage >= _LEDS_AT_THEIR_END
    return _alone("string.led.forward_voltage", view, first) and raised and _row(view, "current") is not None


def _tall(view, first, kept):
    bus = view.result.bus_voltage_mean - first.result.bus_voltage_mean
    return (
        f"The current still differs by {_row(view, 'current').difference}, and the bus stands {show(bus, 'V')} higher"
        " than before. The string cannot explain so much."
    )


def _is_unseen(view, first, kept):
    if not _alone("smoothing", view, first) or not first.result.bus_ripple or not view.result.bus_ripple:
        return False
    ripple = view.result.bus_ripple / first.result.bus_ripple
    current = abs(view.result.line_current_rms / first.result.line_current_rms - 1)
    return max(ripple, 1 / ripple) >= _RIPPLE and current < _UNMOVED


def _unseen(view, first, kept):
    line = signed_percent(first.result.line_current_rms, view.result.line_current_rms)
    return (
        f"The ripple of the bus goes from {show(first.result.bus_ripple, 'V')} to {show(view.result.bus_ripple, 'V')},"
        f" the line current changes by {line}. A meter in the plug does not see this part."
    )


GOALS = (
    Goal("explained", "Move the dropper alone until the currents agree.", _is_explained, _explained),
    Goal("contradicted", "Make them agree with the mains voltage alone.", _is_contradicted, _contradicted),
    Goal("tall", "Raise the LEDs' forward voltage to its end. Is it the string?", _is_tall, _tall),
    Goal("unseen", "Find the part that moves the bus and hardly the line current.", _is_unseen, _unseen),
)
