"""Goals of first power: what makes the filament glow, and how little a dark one says."""

from ...circuit.values import show
from ..kit.goals import Goal


def _fault(view):
    return view.now.fault[:1].upper() + view.now.fault[1:]


def _is_glow(view, first, kept):
    return view.setting.fault is not None and view.now.glows and not view.whole.glows


def _glow(view, first, kept):
    amperes, before = (show(one.state.line_current_rms, "A") for one in (view.now, view.whole))
    return f"{_fault(view)}: {view.now.glow}, {amperes} instead of {before}. Only resistors limit the current now."


def _is_false_alarm(view, first, kept):
    return view.setting.fault is None and view.now.glows


def _false_alarm(view, first, kept):
    setting = view.setting
    return (
        f"At {show(setting.lamp.dropper, 'F')} and {setting.filament.marked} it glows {view.now.glow}, and nothing is"
        " wrong. The filament has to suit the lamp."
    )


def _is_hidden(view, first, kept):
    return view.setting.fault is not None and view.now.state.dark and not view.now.glows


def _hidden(view, first, kept):
    amperes, before = (show(one.state.line_current_rms, "A") for one in (view.now, view.whole))
    return (
        f"{_fault(view)}: the LEDs are dark, and the filament as dark as with the whole lamp; {amperes} instead of"
        f" {before}. A dark filament clears nothing here."
    )


def _is_stronger(view, first, kept):
    same = view.setting.fault is not None and view.setting.fault.kind == "short"
    return same and not view.now.glows and view.setting.filament.power > first.setting.filament.power


def _stronger(view, first, kept):
    return (
        f"{view.setting.filament.marked}: {view.now.temperature:.0f} K, and dark. A stronger one needs more amperes to"
        f" glow; the lamp gives it {show(view.now.state.line_current_rms, 'A')}."
    )


GOALS = (
    Goal("glow", "Find a fault that makes the filament glow.", _is_glow, _glow),
    Goal("hidden", "Find a fault that leaves LEDs and filament dark.", _is_hidden, _hidden),
    Goal("stronger", "Keep a short, and take a stronger filament lamp. Does it show more?", _is_stronger, _stronger),
    Goal("false alarm", "Make the filament glow with nothing wrong in the lamp.", _is_false_alarm, _false_alarm),
)
