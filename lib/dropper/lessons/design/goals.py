"""Goals of the designer: what is sold, what another mains asks for, and where no lamp is left."""

from ...circuit.values import show, show_reading
from ...design import Design, Infeasible
from ...results.compare import signed_percent
from ..kit.goals import Goal
from ..kit.moved import only_moved

_NEAR = 0.03  # of the wish
_HALF = 0.6  # of the mains at first


def _is_met(view, first, kept):
    wish = view.setting.current
    near = isinstance(view.answer, Design) and abs(view.answer.sizing.current / wish - 1) < _NEAR
    return near and only_moved("current", view.setting, first.setting)


def _met(view, first, kept):
    return (
        f"{show(view.lamp.dropper, 'F')} give {show_reading(view.answer.sizing.current, 'A')},"
        f" {show(view.setting.current, 'A')} is the wish. Few values are sold, so a wish bends to them."
    )


def _is_on_half(view, first, kept):
    volts = view.setting.supply.nominal
    return isinstance(view.answer, Design) and volts < _HALF * first.setting.supply.nominal


def _on_half(view, first, kept):
    smoothing = next((part for part in view.answer.parts if part.part == "smoothing"), None)
    other = f" C2 is an {smoothing.kind_text}." if smoothing else ""
    return (
        f"On {show(view.setting.supply.nominal, 'V')} the dropper is {show(view.lamp.dropper, 'F')}; it was"
        f" {show(first.lamp.dropper, 'F')}. Fewer volts are left over the LEDs, so more capacitance is needed.{other}"
    )


def _is_too_long(view, first, kept):
    return isinstance(view.answer, Infeasible) and view.answer.wish == "in_series"


def _too_long(view, first, kept):
    nearest = view.answer.nearest
    most = f" At most {nearest.in_series} can be had." if nearest else ""
    return (
        f"{view.setting.in_series} groups in series take more volts than the lowest mains,"
        f" {show(view.setting.supply.low, 'V')}, gives.{most}"
    )


def _is_too_bright(view, first, kept):
    answer = view.answer
    return isinstance(answer, Infeasible) and answer.wish == "current" and view.setting.current > first.setting.current


def _too_bright(view, first, kept):
    nearest = view.answer.nearest
    most = f" {show(nearest.current, 'A')} can be had." if nearest else ""
    wish = signed_percent(first.setting.current, view.setting.current)
    return (
        f"{show(view.setting.current, 'A')} is {wish} of the first wish. What an LED stands in a fault decides.{most}"
    )


GOALS = (
    Goal("met", "Change the string current to a wish that one dropper meets within 3 %.", _is_met, _met),
    Goal("half", "Take the lamp to a mains of about half the volts.", _is_on_half, _on_half),
    Goal("long", "Ask for more LEDs in series than the mains can light.", _is_too_long, _too_long),
    Goal("bright", "Ask for more current than these LEDs stand.", _is_too_bright, _too_bright),
)
