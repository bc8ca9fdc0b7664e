"""Cases of measuring: what a plain multimeter shows, and how far off a reading may lie, as outcomes of a guess."""

import numpy as np

from ...bench.meter.multimeter import ac_value
from ...circuit.lamp import Lamp
from ...circuit.values import show
from ...design.uncertainty import error_budget
from ...results.compare import signed_percent
from ...solver.steady import steady_state

_SAME = 0.03  # what counts as no change
_SMALL, _SOME = 0.03, 0.08  # shares of a reading


def meter_case(lamp: Lamp) -> tuple[str, str]:
    """A multimeter that takes the mean and shows it as rms, in the line of a lamp.

    Returns
    -------
    (str, str)
        What comes of it, and the key of the answer that holds: "less", "same" or "more".
    """
    result = steady_state(lamp)
    shown, true = ac_value(result.line_current, true_rms=False), result.line_current_rms
    mean = float(np.abs(result.line_current).mean())
    right = "same" if abs(shown / true - 1) < _SAME else "less" if shown < true else "more"
    return (
        f"It shows {show(shown, 'A')}, where the true rms value is {show(true, 'A')}: {signed_percent(true, shown)}."
        f" The plain meter takes the mean, {show(mean, 'A')}, and multiplies it by 1.11."
    ), right


def tolerance_case(lamp: Lamp) -> tuple[str, str]:
    """How far the line current of a sound lamp may lie from its prediction.

    Returns
    -------
    (str, str)
        What comes of it, and the key of the answer that holds: "small", "some" or "large".
    """
    bar = error_budget(lamp).bars["line_current_rms"]
    share = bar.half_width / bar.value
    right = "small" if share < _SMALL else "some" if share < _SOME else "large"
    return (
        f"{bar.text}: up to {100 * share:.0f} % off with nothing wrong. The largest part of it is the"
        f" {bar.largest.name}."
    ), right
