"""Goals of the conduction panel: a pause, a whole charge, a start at zero, and twice the charge from the same start."""

from ...circuit.values import show
from ..kit.goals import Goal


def _lit(view):
    return not view.result.dark


def _pauses(view, first, kept):
    return _lit(view) and not view.conducting and view.lit and view.moment.phase != first.moment.phase


def _paused(view, first, kept):
    return (
        f"At {view.moment.phase:.0f}° no diode conducts. C2 alone feeds the LEDs, with"
        f" {show(view.string_current, 'A')}. The dropper holds {show(abs(view.dropper_voltage), 'V')}."
    )


def _completes(view, first, kept):
    return _lit(view) and bool(view.conducting) and view.charge > 0.98 * view.charge_whole


def _completed(view, first, kept):
    return (
        f"At {view.moment.phase:.0f}° {show(view.charge, 'C')} of {show(view.charge_whole, 'C')} are through, just"
        " before the crest: there the mains stops rising."
    )


def _begins_at_zero(view, first, kept):
    return _lit(view) and abs(view.start) < 1.5 < abs(first.start)


def _began_at_zero(view, first, kept):
    held = next(reading.value for reading in view.readings if reading.key == "clamped_voltage")
    return (
        f"{view.moment.lamp.string.in_series} LEDs hold the bridge at {show(held, 'V')}, half of the mains' peak of"
        f" {show(view.moment.lamp.mains.peak, 'V')}. A longer string begins later still."
    )


def _doubles(view, first, kept):
    return _lit(view) and view.charge_whole >= 1.9 * first.charge_whole and abs(view.start - first.start) < 5


def _doubled(view, first, kept):
    return (
        f"{show(first.charge_whole, 'C')} became {show(view.charge_whole, 'C')}, and the start went only from"
        f" {first.start:.0f}° to {view.start:.0f}°: C sets how much, the string sets when.".replace("-", "−")
    )


GOALS = (
    Goal("pause", "Find a moment in which no diode conducts. Who feeds the LEDs then?", _pauses, _paused),
    Goal("whole", "Find the moment in which the charge of the half cycle is nearly through.", _completes, _completed),
    Goal("zero", "Make D1 and D4 begin at 0°, by the number of LEDs.", _begins_at_zero, _began_at_zero),
    Goal("twice", "Double the charge of a half cycle, and leave its start where it is.", _doubles, _doubled),
)
