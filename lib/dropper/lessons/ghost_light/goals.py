"""Goals of ghost light: a bleeder that ends it, a switch that causes it, and a capacitor across the lamp."""

from ...circuit.values import show
from ..kit.goals import Goal


def _glows(view, first, kept):
    return view.seen and view.setting.leakage > 0


def _glowing(view, first, kept):
    return f"{show(view.led, 'A', 2)} in each LED, while the switch is off: its own capacitor feeds the lamp."


def _bled(view, first, kept):
    same = view.setting.across >= first.setting.across
    return same and not view.seen and not view.setting.cure and bool(view.setting.lamp.smoothing_bleeder)


def _bled_words(view, first, kept):
    return (
        f"{show(view.setting.lamp.smoothing_bleeder, 'Ω')} across C2 take what comes, at"
        f" {show(view.result.bus_voltage_mean, 'V')}: too little for LEDs in series. {show(view.led, 'A', 2)} are left."
    )


def _cured(view, first, kept):
    return not view.seen and view.setting.cure > 0 and view.setting.across >= first.setting.across


def _cure_words(view, first, kept):
    return (
        f"{show(view.setting.cure, 'F')} across the lamp divide the volts down, and {show(view.led, 'A', 2)} are left."
        " It must be a capacitor made for the mains, with a bleeder."
    )


GOALS = (
    Goal("bleeder", "Fit a bleeder R3 that makes the lamp dark when it is off.", _bled, _bled_words),
    Goal("switch", "Put an electronic switch in, and let the lamp glow by it.", _glows, _glowing),
    Goal("cure", "Make the lamp dark by a capacitor across it.", _cured, _cure_words),
)
