"""The design from a brief: values round after round until none changes, then temperatures, ratings and reasons."""

import functools

from ..bench import residual
from ..circuit import progress
from ..solver.transient import worst_plug_in
from ..standards import touch_rule
from . import advice, wishes
from .bleeders import choose_bleeder, choose_smoothing_bleeder
from .brief import Brief
from .chosen_part import choose_clamp_part, choose_part
from .corners import bare
from .dc_side import choose_clamp, choose_smoothing
from .dropper_choice import check_string, choose_dropper, guess_dropper
from .floors import overloaded, raise_floor
from .infeasible import Infeasible
from .inrush import choose_inrush_resistor, guess_inrush_resistor
from .rating_pass import rate
from .result import Design
from .sizing import Sizing
from .temperatures import warm_up

# A round: each value is chosen with the others as they are.
_ROUND = (choose_dropper, choose_bleeder, choose_smoothing, choose_clamp, choose_smoothing_bleeder)
_MOST_ROUNDS = 12
_MOST_WISHES = 16  # given up one after another, until a brief can be met
_INRUSH_PERIODS = 1.0


@functools.lru_cache(maxsize=32)
def design(brief: Brief) -> Design:
    """A lamp that meets a brief, every part on a preferred value and of a kind that stands what it is asked to.

    Raises
    ------
    Infeasible
        Which wish fails, why, and the nearest brief.

    Examples
    --------
    >>> design(Brief("warm white, 5 mm", in_series=200, current=0.01, place="Europe"))  # doctest: +ELLIPSIS
    Traceback (most recent call last):
    dropper.design.infeasible.Infeasible: 200 groups of up to 3.27 V need 655 V; ... At most 84 groups can be had.
    """
    wishes.refuse_touchable(brief)
    try:
        return _design(wishes.with_groups(brief))
    except Infeasible:
        raise
    except ValueError as error:  # a part beyond what a lamp may have
        wish = "fixed" if brief.fixed else "current"
        why = f"These wishes ask for a part that is not kept here: {str(error).removeprefix('Lamp.')}."
        raise Infeasible(wish, why) from None


def _design(brief):
    floors = {}
    while True:
        sizing = size(brief, tuple(sorted(floors.items())))
        wishes.check_current(sizing)
        wishes.check_swing(sizing)
        wishes.check_pulse(sizing)
        progress.report(0.2)
        warm = warm_up(sizing)
        with progress.stage(0.2, 0.9):
            ratings = rate(sizing, warm.temperatures.air)
        short = overloaded(ratings)
        if not short:
            break
        part, floor = raise_floor(sizing, ratings, short[0])
        floors[part] = floor
    lamp, peak = sizing.lamp, brief.greatest_peak
    left = residual.judge(lamp.dropper, lamp.bleeder, peak, brief.dropper_tolerance, brief.resistor_tolerance)
    parts = tuple(choose_part(sizing, ratings, rating) for rating in ratings.parts)
    if sizing.clamp is not None:
        parts += (choose_clamp_part(sizing),)
    plug_ins = tuple(worst_plug_in(sizing.bright, again, _INRUSH_PERIODS) for again in (False, True))
    return Design(
        sizing=sizing,
        parts=parts,
        ratings=ratings,
        warm=warm,
        residual=left,
        rule_check=next(check for check in left.checks if check.rule == touch_rule(brief.rule)),
        plug_ins=plug_ins,
        advice=advice.for_data_sheets(sizing, ratings, parts, plug_ins[1]),
        warnings=advice.warnings(sizing, warm),
    )


@functools.lru_cache(maxsize=128)
def size(brief: Brief, floors: tuple[tuple[str, float], ...] = ()) -> Sizing:
    """All values of a lamp that meets a brief, its parts not rated yet: quick enough for a slider that rests.

    Parameters
    ----------
    floors
        Where the search for a part begins: F of the smoothing capacitor, fewest pieces of a bleeder.

    Raises
    ------
    Infeasible
        Which wish fails, why, and the nearest brief.

    Examples
    --------
    >>> size(Brief("warm white, 5 mm", in_series=20, current=0.01, place="Europe", flicker=100)).lamp.dropper
    2.2e-07
    """
    brief = wishes.with_groups(brief)
    sizing = Sizing(brief, bare(brief, {"dropper": 1e-7, "smoothing": 1e-5}), floors=dict(floors))
    check_string(sizing)
    sizing = guess_inrush_resistor(guess_dropper(sizing))
    lamps = []
    for _ in range(_MOST_ROUNDS):
        before = sizing
        for choose in _ROUND:
            sizing = choose(sizing)
        if sizing == before:  # the resistor in the line moves the others least, and costs most
            sizing = choose_inrush_resistor(sizing)
            if sizing == before:
                break
        if sizing.lamp in lamps:  # two smoothings that call each other up by their bleeders: the larger it is
            sizing = sizing.with_floor("smoothing", max(lamp.smoothing for lamp in lamps))
        lamps.append(sizing.lamp)
    return sizing


def nearest(brief: Brief) -> tuple[Design | None, tuple[Infeasible, ...]]:
    """The design of a brief, or of the nearest that can be met, and what had to be given up for it.

    Returns
    -------
    (Design or None, tuple of Infeasible)
        None where no change of one wish after another helps.

    Examples
    --------
    >>> nearest(Brief("mid-power, three junctions", 1, 0.01, voltage=10.0, low=5.0, frequency=50.0))[0] is None
    True
    """
    given_up = []
    while len(given_up) < _MOST_WISHES:
        try:
            return design(brief), tuple(given_up)
        except Infeasible as failure:
            given_up.append(failure)
            if failure.nearest is None:
                break
            brief = failure.nearest
    return None, tuple(given_up)
