"""Goals of the powers panel: more waste, more light and more of the bill, each beside the power factor."""

from ...circuit.values import show
from ..kit.goals import Goal

_CLEARLY = 0.03  # of a power factor: more than a plug-in meter's digits and a turn of the mains make
_LITTLE = 0.05  # what twice the current makes of it, and a little more


def _wastes(view, first, kept):
    return _better(view, first) and view.led_share < first.led_share - 5


def _wasted(view, first, kept):
    return (
        f"{_factors(view, first)}, but of the watts only {view.led_share:.0f} % still reach the LEDs, where it was"
        f" {first.led_share:.0f} %. More waste can give a better power factor."
    )


def _doubles(view, first, kept):
    result, before = view.result, first.result
    return not result.dark and result.string_current_mean >= 1.9 * before.string_current_mean


def _doubled(view, first, kept):
    return (
        f"{show(first.result.string_current_mean, 'A')} became {show(view.result.string_current_mean, 'A')}."
        f" {_factors(view, first)}: {_reason(view, first)}."
    )


def _reason(view, first):
    if abs(view.result.power_factor - first.result.power_factor) <= _LITTLE:
        return "watts and volt-amperes grow together, and their ratio changes little"
    if _better(view, first) and view.led_share < first.led_share:
        return (
            f"{view.led_share:.0f} % of the watts reach the LEDs, where it was {first.led_share:.0f} %. The waste made"
            " it better, not the current"
        )
    return f"the string holds {view.fraction:.2f} of the mains' peak, where it was {first.fraction:.2f}"


def _costs_more(view, first, kept):
    return _better(view, first) and view.energy > 1.1 * first.energy and view.led_share > first.led_share - 2


def _cost_more(view, first, kept):
    return (
        f"{_factors(view, first)}, and the volt-amperes went from {show(first.result.apparent_power, 'VA')} to"
        f" {show(view.result.apparent_power, 'VA')}. But the meter in the house counts"
        f" {show(view.energy, 'kWh')} a year in place of {show(first.energy, 'kWh')}: it counts watts."
    )


def _nears(view, first, kept):
    return not view.result.dark and view.lead < first.lead - 20


def _neared(view, first, kept):
    return (
        f"The fundamental is {view.lead:.0f}° ahead, where it was {first.lead:.0f}°; it stays ahead. Its cosine is"
        f" {view.result.displacement_factor:.2f}, the power factor {view.result.power_factor:.2f}: the pieces take"
        " the rest."
    )


def _better(view, first):
    return not view.result.dark and view.result.power_factor > first.result.power_factor + _CLEARLY


def _factors(view, first):
    return f"The power factor went from {first.result.power_factor:.2f} to {view.result.power_factor:.2f}"


GOALS = (
    Goal("waste", "Waste more watts, and get a better power factor for it.", _wastes, _wasted),
    Goal("light", "Double the current of the LEDs. What does the power factor do?", _doubles, _doubled),
    Goal("bill", "Get a better power factor and a higher bill, without more waste.", _costs_more, _cost_more),
    Goal("lead", "Bring the current 20° nearer to the voltage. Can you make it lag?", _nears, _neared),
)
