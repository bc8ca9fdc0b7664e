"""Heat: how warm a lamp gets, what that does to its LEDs, and what years do to its capacitors.

    from dropper import Lamp, steady_state
    from dropper.solver import heat

    around = heat.Surroundings.typical("enclosed")
    heat.temperatures(lamp, steady_state(lamp), around).parts["leds"]   # °C
    heat.warm_up(lamp, around, coefficient=-3e-3).result     # with the LEDs as warm as they make themselves
    heat.smoothing_life(kinds.LIVES[3], 65.0).words
    heat.film_years(lamp, range(11), heat.scenarios()[2]).string_current

The network is a lesson: room, air inside, part. Thermal resistances are the learner's own or typical practice without a
source; a real lamp is measured.
"""

from .network import Temperatures, temperatures
from .surroundings import ENCLOSURES, PRACTICE, Surroundings, resistor_to_air, warm_use
from .warm_lamp import WarmLamp, warm_up
from .years import FilmYears, LifeSpan, Scenario, film_years, scenario_of_test, scenarios, smoothing_life

__all__ = [
    "ENCLOSURES",
    "PRACTICE",
    "FilmYears",
    "LifeSpan",
    "Scenario",
    "Surroundings",
    "Temperatures",
    "WarmLamp",
    "film_years",
    "resistor_to_air",
    "scenario_of_test",
    "scenarios",
    "smoothing_life",
    "temperatures",
    "warm_up",
    "warm_use",
]
