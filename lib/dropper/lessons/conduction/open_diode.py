"""Open diode: what is left of a lamp's current when one diode of its bridge is open, as the outcome of a guess."""

from ...circuit.lamp import Lamp
from ...circuit.values import show, unbroken
from ...solver.steady import steady_state
from ...solver.transient import Fault, with_fault

_NOTHING = 1e-4  # of the healthy lamp's current


def open_diode_case(lamp: Lamp) -> tuple[str, str]:
    """A lamp whose diode D1 is open.

    Returns
    -------
    (str, str)
        What comes of it, and the key of the answer that holds: "same", "half" or "dark".
    """
    before, after = steady_state(lamp), steady_state(with_fault(lamp, Fault("open", "D1")))
    left = after.relative_current
    right = "dark" if after.dark else "half" if left < 0.75 else "same"
    share = f"{100 * left:.1g} %" if left > _NOTHING else "next to nothing"
    held = abs(float(after.dropper_voltage.min() + after.dropper_voltage.max()) / 2)
    return unbroken(
        f"The string gets {show(after.string_current_mean, 'A')} in place of {show(before.string_current_mean, 'A')},"
        f" {share}. The dropper stands charged, at {show(held, 'V')} of the"
        f" {show(lamp.mains.peak, 'V')} peak. What goes into it in one half cycle has to come"
        " out in the other, and that way is closed. Dark is not off: the whole mains is still there."
    ), right
