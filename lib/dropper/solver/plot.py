"""Picture of a steady state: the one thing here that is drawn, with matplotlib, loaded only then."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from matplotlib.axes import Axes

# Colours of these quantities all through the course; a test holds them to those of the panels.
COLOURS = {"line_current": "#0072b2", "string_current": "#007a5a", "bus_voltage": "#c24e00"}


def currents_and_bus(
    title: str,
    time: np.ndarray,
    line_current: np.ndarray,
    string_current: np.ndarray,
    bus_voltage: np.ndarray,
    axes: Axes | None = None,
) -> Axes:
    """Two currents on the left axis and the bus voltage on the right one, over one period.

    Parameters
    ----------
    time
        s.
    line_current, string_current
        A, shape of `time`.
    bus_voltage
        V, shape of `time`.
    axes
        To draw in; new ones without.
    """
    if axes is None:
        from matplotlib import pyplot

        axes = pyplot.subplots(layout="constrained")[1]
    volts = axes.twinx()
    lines = [
        *axes.plot(1e3 * time, 1e3 * line_current, "-", color=COLOURS["line_current"], label="line current"),
        *axes.plot(1e3 * time, 1e3 * string_current, "-.", color=COLOURS["string_current"], label="string current"),
        *volts.plot(1e3 * time, bus_voltage, "--", color=COLOURS["bus_voltage"], label="bus voltage"),
    ]
    axes.set(xlabel="time (ms)", ylabel="current (mA)", title=title)
    volts.set(ylabel="bus voltage (V)")
    volts.set_ylim(bottom=min(0.0, volts.get_ylim()[0]))
    axes.legend(handles=lines)
    return axes
