"""From a brief to a design: values, kinds, ratings, temperatures, reasons."""

import dataclasses
import functools
import math

from ..bench import residual
from ..circuit.values import show
from ..components import kinds
from ..results.reading import Reading
from ..solver import heat
from ..solver.steady import steady_state
from ..solver.transient import Fault, worst_plug_in
from ..standards import touch_rule
from . import advice, dc_side, dropper_choice, rating_pass
from .brief import Brief
from .corners import bright
from .infeasible import Infeasible
from .ratings.placement import name_of
from .reasons import ChosenPart, chosen
from .result import Design
from .sizing import draft

_MOST_WISHES = 16  # given up one after another, until a brief can be met
_RUSH_PERIODS = 1.0


@functools.lru_cache(maxsize=32)
def design(brief: Brief) -> Design:
    """A lamp that meets a brief, every part on a preferred value and of a kind that stands what it is asked to.

    Raises
    ------
    Infeasible
        Which wish fails, why, and the nearest brief.
    """
    try:
        return _made(brief)
    except Infeasible:
        raise
    except ValueError as error:  # a part beyond what a lamp may have
        wish = "fixed" if brief.fixed else "current"
        why = f"These wishes ask for a part that is not kept here: {str(error).removeprefix('Lamp.')}."
        raise Infeasible(wish, why) from None


def _made(brief):
    floors = {}
    while True:
        made = draft(brief, tuple(sorted(floors.items())))
        warm = _warm(made)
        use = rating_pass.use_at(warm.temperatures.air)
        rows = rating_pass.found(made)
        parts = rating_pass.rated(made, rows, use)
        short = [rating for rating in parts if rating.kind is None or rating.verdict in ("over", "little margin")]
        short = [rating for rating in short if rating.part != "leds"]
        if not short:
            break
        _raise_floor(made, short[0], rows, use, floors)
    return _design(made, warm, use, rows, parts)


def nearest(brief: Brief) -> tuple[Design | None, tuple[Infeasible, ...]]:
    """The design of a brief, or of the nearest that can be met, and what had to be given up for it.

    Returns
    -------
    (Design or None, tuple of Infeasible)
        None where no change of one wish after another helps.
    """
    given_up = []
    while len(given_up) < _MOST_WISHES:
        try:
            return design(brief), tuple(given_up)
        except Infeasible as failed:
            given_up.append(failed)
            if failed.nearest is None:
                break
            brief = failed.nearest
    return None, tuple(given_up)


def _warm(made):
    """The lamp in its bright corner as warm as it makes itself."""
    brief, kind = made.brief, made.brief.led_kind
    lamp = bright(brief, made.lamp)
    around = brief.surroundings
    pieces = {part: around.to_air[part] / count for part, (count, _) in made.pieces.items()}
    around = dataclasses.replace(around, to_air=around.to_air | pieces)
    try:
        warm = heat.warm_up(lamp, around, kind.coefficient, kind.junctions, points=256)
    except ValueError as error:
        less = float(f"{0.7 * brief.current:.2g}")
        why = f"With {show(brief.current, 'A')} the lamp gets hotter than can be told: {error}."
        raise Infeasible("current", why, brief.but(current=less)) from None
    air = warm.temperatures.air
    if air > brief.warmest:
        share = (brief.warmest - brief.room) / (air - brief.room)
        raise Infeasible(
            "current",
            f"With mains and dropper at their upper ends the air inside comes to {air:.3g} °C, of"
            f" {show(warm.result.real_power, 'W')}; {brief.warmest:.3g} °C is the wish.",
            brief.but(current=dropper_choice.rounded_down(0.97 * share * brief.current)),
        )
    return warm


def _raise_floor(made, rating, rows, use, floors):
    """From where on a value is to be looked at so that a part passes; complains where none would."""
    brief, part = made.brief, rating.part
    own = [stress for stress in rows if stress.part == part]
    checks = [check for check in rating.checks if check.verdict in ("over", "little margin")]
    if part in made.pieces and part not in brief.fixed and made.pieces[part][0] < 12:
        floors[part] = made.pieces[part][0] + 1
        return
    biggest = {
        "inrush_resistor": kinds.FUSIBLE[-1],
        "smoothing": kinds.ELECTROLYTICS[-1],
        "dropper": kinds.X1[-1],
        "diodes": kinds.RECTIFIERS[-1],
    }.get(part, kinds.FILM[-1])
    checks = checks or rating_pass.failed(made, part, biggest, own, use)
    ripple = part == "smoothing" and all(check.quantity == "ripple_current" for check in checks)
    if ripple and part not in brief.fixed:
        larger = rating_pass.next_value(brief.smoothing_series, made.lamp.smoothing)
        if larger <= brief.largest_smoothing * (1 + 1e-9):
            floors["smoothing"] = larger
            return
    told = "; ".join(rating_pass.words_of(check) for check in checks)
    why = f"No {rating.part.replace('_', ' ')} kept here would do, not even {name_of(biggest)}: {told}."
    if part in brief.fixed:
        raise Infeasible("fixed", why, brief.freed(part))
    if part == "inrush_resistor" and brief.inrush < 30:
        raise Infeasible("inrush", why, brief.but(inrush=min(30.0, float(f"{1.4 * brief.inrush:.2g}"))))
    if ripple or part == "inrush_resistor":
        raise Infeasible("current", why, brief.but(current=dropper_choice.rounded_down(0.8 * brief.current)))
    raise Infeasible("voltage", why)


def _design(made, warm, use, rows, parts):
    brief, lamp = made.brief, made.lamp
    peak = math.sqrt(2) * brief.supply.high
    left = residual.judge(lamp.dropper, lamp.bleeder, peak, brief.dropper_tolerance, brief.resistor_tolerance)
    large = bright(brief, lamp)
    rushes = tuple(worst_plug_in(large, again, _RUSH_PERIODS) for again in (False, True))
    told = tuple(
        chosen(made, rating, tuple(stress for stress in rows if stress.part == rating.part), use) for rating in parts
    )
    counsel = [
        advice.fuse(
            steady_state(large, 256).line_current_rms,
            advice.worst_line(made),
            _dropper_short(rows),
            rushes[1].inrush_energy,
            rushes[1].i2t(8.3e-3),
        ),
        advice.varistor(
            brief.supply, next(r.kind.ratings["ac_voltage"] for r in parts if r.part == "dropper"), lamp.inrush_resistor
        ),
    ]
    if made.clamp is not None:
        clamp = _clamp(made)
        told += (clamp,)
        counsel.append(advice.clamp(made.clamp, clamp.reading.value))
    rule = touch_rule(brief.rule)
    return Design(
        draft=made,
        parts=told,
        ratings=rating_pass.table(made, rows, parts, use),
        warm=warm,
        residual=left,
        kept=next(check for check in left.checks if check.rule == rule),
        rushes=rushes,
        advice=tuple(counsel),
        warnings=advice.warnings(made, warm),
    )


def _dropper_short(rows):
    """A rms in the line once the dropper has gone short, as far as the inrush resistor lets it."""
    return max(
        stress.value
        for stress in rows
        if (stress.part, stress.quantity, stress.circumstance.fault)
        == ("inrush_resistor", "rms_current", Fault("short", "dropper"))
    )


def _clamp(made):
    lamp = rating_pass.clamping(made, bright(made.brief, made.lamp))
    held = steady_state(lamp, 256)
    values = {
        "frequency": lamp.mains.frequency,
        "dropper": lamp.dropper,
        "peak_voltage": lamp.mains.peak,
        "clamped_voltage": min(made.held + 2 * lamp.diode.voltage_at(held.string_current_mean), lamp.mains.peak),
    }
    reading = Reading("clamp", "heat of the clamp with the string open", held.heat["leds"], "W", "real_power", values)
    bus = dc_side.greatest_bus(made.brief, made.lamp)
    return ChosenPart(
        "clamp",
        "clamp",
        "D5",
        made.clamp,
        show(made.clamp, "V"),
        24,
        f"±{100 * dc_side.CLAMP_TOLERANCE:g} %",
        None,
        reading,
        f"The bus reaches {show(bus, 'V')} in use, which must not open it; with the string open it holds the"
        f" bus to {show(made.held, 'V')}.",
        "The next lower voltage may conduct in use.",
    )
