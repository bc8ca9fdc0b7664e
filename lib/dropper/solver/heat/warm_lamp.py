"""Warm lamp: one whose LEDs are as warm as they make themselves, which lowers their voltage and changes the heat."""

from dataclasses import dataclass

from ... import theory
from ...circuit.fields import Spec, about, check_value, documented
from ...circuit.lamp import Lamp, replace_at
from ...circuit.values import show
from ..steady import SteadyState, steady_state
from .network import Temperatures, temperatures
from .surroundings import Surroundings

_CLOSE = 1e-4  # K, between what the LEDs are taken for and what they then come to
_MOST_ROUNDS = 50
_STEEPEST = 0.9  # of the feedback, as far as the next guess trusts it
_COEFFICIENT = Spec("V/K", -0.05, 0.05, meaning="change of one junction's forward voltage with temperature")
_REFERENCE = Spec("°C", -60, 300, meaning="temperature at which the forward voltage is stated")


@documented
@dataclass(frozen=True, repr=False)
class WarmLamp:
    """A lamp and what its own heat makes of it."""

    cold: Lamp = about("as its data sheets have it")
    lamp: Lamp = about("with the forward voltage of its LEDs as warm as they are")
    result: SteadyState = about("of the warm lamp")
    temperatures: Temperatures = about("of the warm lamp")
    rounds: tuple = about("of the LEDs, guess after guess", "°C")

    def __repr__(self) -> str:
        return (
            f"<WarmLamp {self.lamp.name!r}: LEDs at {self.temperatures.parts['leds']:.1f} °C,"
            f" {show(self.lamp.string.led.forward_voltage, 'V', 4)} each, string"
            f" {show(self.result.string_current_mean, 'A')}, {len(self.rounds)} rounds>"
        )

    @property
    def words(self) -> str:
        """What warmth did, in a sentence."""
        before, after = self.cold.string.led.forward_voltage, self.lamp.string.led.forward_voltage
        way = "less" if after < before else "more"
        changed = f"{show(abs(after - before), 'V')} {way}"
        return (
            f"At {self.temperatures.parts['leds']:.3g} °C each LED drops {changed} than on its data sheet; "
            f"found in {len(self.rounds)} rounds."
        )


def warm_up(
    lamp: Lamp,
    surroundings: Surroundings,
    coefficient: float,
    junctions: int = 1,
    reference_temperature: float = 25.0,
    points: int = 1024,
) -> WarmLamp:
    """The steady state of a lamp whose LEDs are as warm as it makes them.

    Round by round: the steady state gives the heat, the heat the LEDs' temperature, that their forward voltage
    (`theory.warm_forward_voltage`), and that the next steady state, until nothing changes any more. The next guess
    takes the slope of the last two rounds into account, so that a strong feedback is found too. The diodes' voltage and
    the resistors' ohms are left as they are.

    Parameters
    ----------
    lamp
        With the forward voltage of its LEDs at `reference_temperature`.
    coefficient
        V/K for each junction, -0.05 to 0.05; LEDs have some -2e-3 to -4e-3.
    junctions
        In series inside one package.
    reference_temperature
        °C.
    points
        As for `steady_state`.

    Raises
    ------
    ValueError
        For values out of range, LEDs hotter than the formulas hold for, or if no temperature is found.

    Examples
    --------
    >>> from dropper import Lamp, Led, LedString, Mains, steady_state
    >>> lamp = Lamp(Mains(230, 50), LedString(Led(3.1, 0.02), 22), "330 nF", "10 µF")
    >>> warm_up(lamp, Surroundings.typical("enclosed"), coefficient=-3e-3)
    <WarmLamp 'lamp': LEDs at 55.1 °C, 3.01 V each, string 17.1 mA, 4 rounds>
    """
    check_value("coefficient", coefficient, _COEFFICIENT)
    check_value("reference_temperature", reference_temperature, _REFERENCE)
    stated = lamp.string.led.forward_voltage

    def solve_at(temperature):
        """The lamp with its LEDs taken for so warm, what it does, and how warm they then come to be."""
        volts = theory.warm_forward_voltage(
            forward_voltage=stated,
            voltage_coefficient=coefficient,
            junctions=junctions,
            junction_temperature=temperature,
            reference_temperature=reference_temperature,
        )
        warm = replace_at(lamp, "string.led.forward_voltage", volts)
        result = steady_state(warm, points)
        return warm, result, temperatures(warm, result, surroundings)

    guess, rounds, before = surroundings.room_temperature, [], None
    while len(rounds) < _MOST_ROUNDS:
        warm, result, temperatures_then = solve_at(guess)
        led_temperature = temperatures_then.parts["leds"]
        rounds.append(guess)
        if abs(led_temperature - guess) <= _CLOSE:
            return WarmLamp(lamp, warm, result, temperatures_then, tuple(rounds))
        slope = 0.0 if before is None else (led_temperature - before[1]) / (guess - before[0])
        before = (guess, led_temperature)
        guess += (led_temperature - guess) / (1 - min(slope, _STEEPEST))
    raise ValueError(
        f"coefficient: with {coefficient:g} V/K no steady temperature is found in {_MOST_ROUNDS} rounds; the LEDs "
        f"were at {rounds[-1]:.4g} °C last. A weaker feedback or less thermal resistance will do"
    )
