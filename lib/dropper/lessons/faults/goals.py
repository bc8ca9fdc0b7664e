"""Goals of lesson 7's panel: faults to find by what they do."""

from ...circuit.numerals import show_times
from ...circuit.values import show, show_reading
from ..kit.goals import Goal

_DIODES = ("D1", "D2", "D3", "D4")
_PEAK = 0.9  # of the mains' peak: nothing holds the bus down any more
_MORE = 1.03  # times the healthy lamp's line current: a meter of 1 mA sees it
_MANY = 5.0  # times it: what no part can be chosen for


def _string_lost(view, first, kept):
    return view.now.bus_voltage_peak > _PEAK * view.setting.lamp.mains.peak > 2 * view.healthy.bus_voltage_peak


def _string_lost_words(view, first, kept):
    now, healthy = view.now.bus_voltage_peak, view.healthy.bus_voltage_peak
    return (
        f"{show(now, 'V')} on C2 instead of {show(healthy, 'V')}, and {show(max(view.now.diode_reverse_peak), 'V')} on"
        " a diode that blocks: only the string held them down."
    )


def _one_diode_dark(view, first, kept):
    fault = view.setting.fault
    return fault is not None and fault.part in _DIODES and view.now.dark and not view.healthy.dark


def _one_diode_dark_words(view, first, kept):
    return (
        f"Dark, with {view.fault}: {show_reading(view.now.string_current_mean, 'A')} in the string instead of"
        f" {show_reading(view.healthy.string_current_mean, 'A')}. The dropper is charged one way, and blocks."
    )


def _line_up_light_down(view, first, kept):
    return view.now.word == "dim" and view.now.line_current_rms > _MORE * view.healthy.line_current_rms


def _line_up_light_down_words(view, first, kept):
    now, healthy = view.now, view.healthy
    return (
        f"{show(now.string_current_mean, 'A')} in the string, {show_times(now.relative_current)} the healthy lamp's;"
        f" {show(now.line_current_rms, 'A')} in the line instead of {show(healthy.line_current_rms, 'A')}. No bang,"
        " and more than half: one half cycle goes past the string."
    )


def _dark_but_live(view, first, kept):
    now, healthy = view.now, view.healthy
    return now.dark and now.line_current_rms > healthy.line_current_rms and now.real_power < healthy.real_power / 2


def _dark_but_live_words(view, first, kept):
    now, healthy = view.now, view.healthy
    return (
        f"{show(now.line_current_rms, 'A')} in the line instead of {show(healthy.line_current_rms, 'A')}, yet"
        f" {show(now.real_power, 'W')} instead of {show(healthy.real_power, 'W')}: the dropper limits a short as it"
        " limits the LEDs. Dark is not dead."
    )


def _runaway(view, first, kept):
    return view.now.line_current_rms > _MANY * view.healthy.line_current_rms


def _runaway_words(view, first, kept):
    now = view.now
    heat = now.heat.get("inrush_resistor", 0.0)
    burns = f", and {show(heat, 'W')} in R1" if heat else ""
    return (
        f"{show(now.line_current_rms, 'A')} in the line{burns}: nothing but resistors limits it, X2 on the dropper or"
        " not. Something must open the line: a fuse, a fusible resistor."
    )


GOALS = (
    Goal("volts", "Find the fault that puts most volts on C2.", _string_lost, _string_lost_words),
    Goal("diode", "Make the lamp dark with one diode.", _one_diode_dark, _one_diode_dark_words),
    Goal("line", "Make the lamp dimmer while the line current rises.", _line_up_light_down, _line_up_light_down_words),
    Goal("short", "Make it dark with more current in the line than before.", _dark_but_live, _dark_but_live_words),
    Goal("fuse", "Find the fault that asks for a fuse.", _runaway, _runaway_words),
)
