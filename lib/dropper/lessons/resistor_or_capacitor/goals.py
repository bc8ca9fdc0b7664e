"""Goals of the two ways to drop a voltage: when the capacitor takes energy, and what its volts and its heat follow."""

from ...circuit.lamp import replace_at
from ...circuit.values import show, show_reading
from ..kit.goals import Goal
from ..kit.moved import only_moved

_TENTH, _HUNDREDTH = 0.9, 0.01


def _alone(path, view, first):
    """Whether one thing of the load was moved; the moment may be any."""
    return only_moved(path, replace_at(view.setting, "phase", first.setting.phase), first.setting)


def _moment(view):
    return f"At {view.setting.phase:.0f}°"


def _takes(view, first, kept):
    return view.now[1] > 0


def _taken(view, first, kept):
    given = f"; at {first.setting.phase:.0f}° it gave {show_reading(-first.now[1], 'W')}" if first.now[1] < 0 else ""
    return f"{_moment(view)} it takes {show_reading(view.now[1], 'W')}{given}. What it takes, it gives back."


def _is_crest(view, first, kept):
    return view.setting.phase % 180 == 90


def _crest(view, first, kept):
    return (
        f"{_moment(view)} the current is greatest, {show(abs(view.current).max(), 'A')}, and the capacitor has no"
        " volts. Its volts and its current never peak together."
    )


def _is_cooler(view, first, kept):
    return _alone("load_voltage", view, first) and view.heat[0] <= _TENTH * first.heat[0]


def _cooler(view, first, kept):
    before, after = (one.setting.voltage - one.setting.load_voltage for one in (first, view))
    return (
        f"Resistor {show(before, 'V')} to {show(after, 'V')}, capacitor only {show(first.dropper_voltage, 'V')} to"
        f" {show(view.dropper_voltage, 'V')}. Its volts do not add to the load's as plain numbers do."
    )


def _is_smaller(view, first, kept):
    return _alone("frequency", view, first) and view.dropper <= _TENTH * first.dropper


def _smaller(view, first, kept):
    return (
        f"At {show(view.setting.frequency, 'Hz')} {show(view.dropper, 'F')} do what {show(first.dropper, 'F')} did."
        f" The resistor stays at {show(view.resistor, 'Ω')}: it does not know the frequency."
    )


def _is_warm(view, first, kept):
    return _alone("dissipation_factor", view, first) and view.heat[1] >= _HUNDREDTH * view.heat[0]


def _warm(view, first, kept):
    factor = view.setting.dissipation_factor
    return (
        f"A dissipation factor of {factor:g} makes {show_reading(view.heat[1], 'W')}; the resistor makes"
        f" {show_reading(view.heat[0], 'W')}."
    )


GOALS = (
    Goal("takes", "Find a moment at which the capacitor takes energy in.", _takes, _taken),
    Goal("crest", "Find the moment at which its voltage is zero. Where is the current then?", _is_crest, _crest),
    Goal("cooler", "Make the resistor a tenth cooler by the load voltage alone.", _is_cooler, _cooler),
    Goal("smaller", "Make do with a capacitor a tenth smaller, by the mains frequency.", _is_smaller, _smaller),
    Goal("warm", "Warm the capacitor to a hundredth of the resistor's heat.", _is_warm, _warm),
)
