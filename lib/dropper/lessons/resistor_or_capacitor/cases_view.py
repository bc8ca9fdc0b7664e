"""Cases against two beliefs: that the volts add as plain numbers, and that a dropper burns what it drops."""

from functools import partial

from ... import theory
from ...circuit.lamp import Lamp
from ...circuit.values import show_reading
from ...solver.steady import steady_state
from .view import TwoWays, view_of

_read = partial(show_reading, full=True)  # zeros stay, so that figures side by side have the same digits


def beside_case(setting: TwoWays) -> tuple[str, str]:
    """The volts across a capacitor beside a load.

    Returns
    -------
    (str, str)
        What comes of it, and the key of the answer that holds: "difference", "triangle" or "mains".
    """
    across, mains, load = view_of(setting).dropper_voltage, setting.voltage, setting.load_voltage
    offered = {"difference": mains - load, "triangle": theory.voltage_beside_load(voltage=mains, load_voltage=load)}
    right = min((offered | {"mains": mains}).items(), key=lambda answer: abs(answer[1] - across))[0]
    return (
        f"{_read(across, 'V')}. The squares add: {mains:.0f}² is {load:.0f}² and {across:.0f}² together, as on a"
        " right-angled triangle."
    ), right


def lamp_case(lamp: Lamp, dissipation_factor: float) -> tuple[str, str]:
    """How much of a lamp's power warms its dropper.

    Returns
    -------
    (str, str)
        What comes of it, and the key of the answer that holds: "most", "third" or "little".
    """
    result = steady_state(lamp)
    loss = theory.dropper_loss(
        frequency=lamp.mains.frequency,
        dropper=lamp.dropper,
        dropper_voltage_rms=result.dropper_voltage_rms,
        dissipation_factor=dissipation_factor,
    )
    share = loss / (result.real_power + loss)
    right = "most" if share > 0.5 else "third" if share > 0.1 else "little"
    light = _read(result.heat["leds"], "W")
    return (
        f"The lamp takes {_read(result.real_power, 'W')}, and the LEDs get {light} of it. A dropper"
        f" with a dissipation factor of {dissipation_factor:g} warms with {_read(loss, 'W')}, at"
        f" {_read(result.dropper_voltage_rms, 'V')} across it."
    ), right
