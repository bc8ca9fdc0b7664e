"""Sharing view: how one current splits among branches that are not quite alike, and many lamps drawn at random."""

from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from ...circuit.excerpt import excerpt
from ...circuit.fields import about, check, check_part, documented, quantity
from ...circuit.lamp import Lamp, Led
from ...components import kinds
from ...results.compare import why_dark
from ...solver.sharing import Branch, CurrentShares, Spread, Warmth, share, spread
from ...solver.steady import steady_state
from .readings import readings

DRAWS = 500  # lamps drawn for the histogram at each move of a slider
_COEFFICIENT = -3e-3  # V/K, of one LED junction: typical practice, no source
_LOWEST = 2.4  # V: an LED below that is red or yellow, and a blue one is the odd one beside it
ODD = ("open", "short", "colour")


@documented
@dataclass(frozen=True)
class Sharing:
    """Branches side by side, made of a lamp's LEDs, and what is the matter with the last of them."""

    lamp: Lamp
    in_parallel: int = quantity("", 2, 8, 3, meaning="branches side by side", whole=True)
    in_branch: int = quantity("", 1, 20, 1, meaning="LEDs in series in each branch", whole=True)
    scatter: float = quantity("", 0, 200, 30.0, meaning="standard deviation of an LED's forward voltage, in mV")
    resistor: float = quantity("Ω", 0, 1e5, 0.0, meaning="resistor of its own in each branch")
    total: float = quantity("A", 1e-4, 1, 0.020, meaning="current of all branches together")
    warmth: float = quantity("", 0, 1000, 0.0, meaning="K/W from each LED to the air around it")
    odd: str | None = None

    def __post_init__(self):
        check(self)
        check_part(self, "lamp", Lamp)
        if self.odd not in (None, *ODD):
            raise ValueError(f"Sharing.odd: {excerpt(self.odd)} will not do; choose one of {', '.join(ODD)}, or None")


@documented
@dataclass(frozen=True, eq=False)
class View:
    """One set of branches as they fall on average, and many at random."""

    setting: Sharing
    dark: bool = about("whether the lamp that the LEDs come from stays dark")
    why_dark: str = about("a clause; '' where it lights")
    branches: tuple = about("each a `Branch`, the lowest voltage first")
    warmth: Warmth
    shared: CurrentShares
    curves: tuple = about("volts and amperes of each branch; None for an open one")
    many: Spread
    even_share: float = about("current of each branch if all were alike", "A")
    odd: str = about("what is the matter with the last branch, in words; '' for nothing")
    wire: bool = about("whether the odd branch is a plain wire")
    readings: tuple


def setting_for(lamp: Lamp) -> Sharing:
    """A lamp's LEDs side by side: as many as it has in parallel, two at least, at the lamp's own current."""
    total = _current(lamp)
    rated = lamp.string.led.at_current * max(2, lamp.string.in_parallel)
    total = rated if total is None else total
    parallel = min(max(2, lamp.string.in_parallel), 8)
    return Sharing(lamp, in_parallel=parallel, total=min(max(float(f"{total:.3g}"), 1e-4), 1.0))


@lru_cache(maxsize=8)
def _current(lamp):
    """Mean current of its string, A; None where it stays dark."""
    result = steady_state(lamp)
    return None if result.dark else result.string_current_mean


@lru_cache(maxsize=8)
def _why_dark(lamp):
    return why_dark(lamp, steady_state(lamp, 128))


def view_of(setting: Sharing) -> View:
    """What a setting shows.

    Raises
    ------
    ValueError
        If the LEDs scatter so widely, or warmth takes so much, that no share can be reckoned.
    """
    led = setting.lamp.string.led
    branches = _as_they_fall(setting)
    warmth = Warmth(_COEFFICIENT * _junctions(led), setting.warmth)
    shared = share(branches, setting.total, warmth)
    many = spread(
        led,
        sigma=setting.scatter / 1e3,
        in_parallel=setting.in_parallel,
        in_series=setting.in_branch,
        branch_resistor=setting.resistor,
        total=setting.total,
        count=DRAWS,
        arrangement="strings",
        warmth=warmth,
        last=branches[-1] if setting.odd else None,
    )
    even_share = setting.total / setting.in_parallel
    top = 1.15 * max(shared.currents)
    amperes = np.concatenate([np.geomspace(1e-5 * top, 0.02 * top, 12), np.linspace(0.03 * top, top, 40)])
    curves = tuple(None if branch.open else (branch.voltage_at(amperes, warmth), amperes) for branch in branches)
    dark = _current(setting.lamp) is None
    view = View(
        setting=setting,
        dark=dark,
        why_dark=_why_dark(setting.lamp) if dark else "",
        branches=branches,
        warmth=warmth,
        shared=shared,
        curves=curves,
        many=many,
        even_share=even_share,
        odd=_odd_in_words(setting),
        wire=setting.odd == "short" and setting.in_branch == 1 and not setting.resistor,
        readings=(),
    )
    return replace(view, readings=readings(view, DRAWS))


def other_colour(led: Led) -> tuple[str, Led]:
    """An LED of another colour, far from this one's voltage: its name and the LED."""
    name = "blue, 5 mm" if led.forward_voltage / _junctions(led) < _LOWEST else "red, 5 mm"
    return name.split(",")[0], kinds.led_kind(name).led()


def hottest_in_lamp(
    lamp: Lamp, in_parallel: int, scatter: float, arrangement: str = "groups", count: int = 200
) -> Spread:
    """How many times its share the hottest LED carries in lamps like this, and drawn at random: the mean of them.

    Parameters
    ----------
    scatter
        mV, standard deviation of an LED's forward voltage.
    arrangement
        As for `sharing.spread`.
    count
        Lamps drawn.
    """
    return spread(
        lamp.string.led,
        sigma=scatter / 1e3,
        in_parallel=in_parallel,
        in_series=min(lamp.string.in_series, 200),
        total=setting_for(lamp).total,
        count=count,
        arrangement=arrangement,
    )


def _junctions(led):
    return max(1, round(led.ideality / 2))


def _as_they_fall(setting):
    """Branches as a few drawn at random lie on average, the lowest voltage first, the odd one last.

    Expected places of a small normal sample: G. Blom, Statistical Estimates and Transformed Beta-Variables, 1958
    (from memory).
    """
    from scipy.special import ndtri

    led, count, inside = setting.lamp.string.led, setting.in_parallel, setting.in_branch
    places = ndtri((np.arange(1, count + 1) - 0.375) / (count + 0.25))
    shift = setting.scatter / 1e3 * places / np.sqrt(inside)  # of each LED; of a whole branch it is root N times that
    branches = [
        Branch.of(
            Led(float(led.forward_voltage + by), led.at_current, led.series_resistance, led.ideality),
            inside,
            setting.resistor,
        )
        for by in shift
    ]
    if setting.odd == "open":
        branches[-1] = Branch(branches[-1].leds, setting.resistor, open=True)
    elif setting.odd == "short":
        branches[-1] = Branch(branches[-1].leds[:-1], setting.resistor)
    elif setting.odd == "colour":
        branches[-1] = Branch((*branches[-1].leds[:-1], other_colour(led)[1]), setting.resistor)
    return tuple(branches)


def _odd_in_words(setting):
    last = "the last LED" if setting.in_branch == 1 else "an LED of the last branch"
    if setting.odd == "colour":
        return f"{last} a {other_colour(setting.lamp.string.led)[0]} one"
    return {"open": f"{last} open", "short": f"{last} short", None: ""}[setting.odd]
