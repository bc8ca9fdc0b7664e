"""What else would do: other smoothing, more or fewer LEDs, another arrangement, two droppers; and what each costs."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from .. import theory
from ..circuit.fields import about, documented
from ..circuit.lamp import replace_at
from ..circuit.series import preferred
from ..circuit.values import show
from ..results.compare import signed_percent
from ..solver.steady import spread, steady_states
from .brief import Brief
from .corners import POINTS, greatest_flicker
from .dropper_choice import led_room
from .infeasible import Infeasible
from .sizing import Draft, draft

if TYPE_CHECKING:
    from .result import Design

_MISS = 0.05  # of the current, from which two droppers are looked for
_FEW = 0.2  # of the groups, more or fewer
_CLOSE = 1e-6


@documented
@dataclass(frozen=True, eq=False)
class Alternative:
    """Another way to do much the same."""

    words: str = about("What changes.")
    brief: Brief = about("That leads to it; `design` makes it whole.")
    draft: Draft = field(repr=False)
    base: Draft = about("What it is compared with.", repr=False)

    @property
    def left_out(self) -> float:
        """How far it leaves the first brief's wishes: current missed and flicker over the wish, as fractions."""
        wish = self.base.brief
        wanted = wish.current * self.brief.in_parallel / wish.in_parallel  # through each LED the same
        miss = abs(self.draft.current / wanted - 1)
        return max(0.0, miss - _MISS) + max(0.0, self.draft.flicker / wish.flicker_limit - 1)

    @property
    def size(self) -> float:
        """What its two capacitors could hold, J: near enough their size on the board."""
        return stored(self.draft)

    @property
    def costs(self) -> dict[str, str]:
        """Against the first: {what: signed per cent}, light by milliamperes times LEDs."""
        now, then = self.draft, self.base
        return {
            "flicker": signed_percent(then.flicker, now.flicker),
            "power factor": signed_percent(then.result.power_factor, now.result.power_factor),
            "watts": signed_percent(then.result.real_power, now.result.real_power),
            "light": signed_percent(_light(then), _light(now)),
            "swing with mains": signed_percent(_swing(then), _swing(now)),
            "microfarads in all": signed_percent(_farads(then), _farads(now)),
        }

    @property
    def sentence(self) -> str:
        """All of it in words."""
        now = self.draft
        told = ", ".join(f"{name} {change}" for name, change in self.costs.items() if change not in ("0.0 %", "–"))
        return (
            f"{self.words}: {show(now.current, 'A')} on average, at most {now.flicker:.3g} % flicker,"
            f" {show(now.result.real_power, 'W')}, power factor {now.result.power_factor:.2g}. Against the first:"
            f" {told or 'nothing to speak of'}."
        )


def alternatives(made: Design | Draft) -> tuple[Alternative, ...]:
    """Other ways to do much the same, the best first.

    They are ranked by how far they leave the wishes of the brief, then by the size of their capacitors. Each is a
    draft: `design(alternative.brief)` rates its parts.
    """
    base = made if isinstance(made, Draft) else made.draft
    found = []
    for words, brief in (*_smoothings(base), *_droppers(base), *_strings(base), *_clamps(base)):
        try:
            other = draft(brief)
        except Infeasible:
            continue
        if other.lamp != base.lamp or other.clamp != base.clamp:
            found.append(Alternative(words, brief, other, base))
    return tuple(sorted(found, key=lambda other: (round(other.left_out, 3), other.size)))


def stored(made: Draft) -> float:
    """What the dropper could hold at the mains' peak and the smoothing capacitor with the string open, J."""
    peak = math.sqrt(2) * made.brief.supply.high
    return made.lamp.dropper * peak**2 / 2 + made.lamp.smoothing * made.held**2 / 2


def half_the_flicker(setting: Brief) -> tuple[float, float, float, float]:
    """What half the flicker asks of the smoothing capacitor.

    Returns
    -------
    (float, float, float, float)
        Per cent and F: as wished, and for half of that; nan where no capacitor to be had is large enough.
    """
    pairs = []
    for limit in (setting.flicker_limit, setting.flicker_limit / 2):
        try:
            made = draft(setting.but(flicker=max(limit, 0.1), largest_smoothing=1e-2))
            pairs += [limit, made.lamp.smoothing]
        except Infeasible:
            pairs += [limit, math.nan]
    return tuple(pairs)


def _smoothings(base):
    brief, now = base.brief, base.lamp.smoothing
    if "smoothing" in brief.fixed or not now:
        return
    near = preferred(brief.smoothing_series, now / 11, min(11 * now, brief.largest_smoothing))
    for word, values in (
        ("smaller", [v for v in near if v < now * (1 - _CLOSE)][-1:]),
        ("larger", [v for v in near if v > now * (1 + _CLOSE)][:1]),
    ):
        for value in values:
            depth = greatest_flicker(brief, replace_at(base.lamp, "smoothing", value))
            wish = brief.flicker if depth <= brief.flicker_limit else min(100.0, 1.05 * depth)
            yield (
                f"{word} smoothing, {show(value, 'F')} instead of {show(now, 'F')}",
                brief.but(fixed=brief.fixed | {"smoothing": value}, flicker=wish),
            )


def _droppers(base):
    brief = base.brief
    if abs(base.miss) <= _MISS or "dropper" in brief.fixed:
        return
    pair = two_in_parallel(base)
    if pair is not None:
        large, small = pair
        yield (
            f"two droppers in parallel, {show(large, 'F')} and {show(small, 'F')}",
            brief.but(fixed=brief.fixed | {"dropper": large + small}),
        )
    if brief.dropper_series < 12:
        yield "a dropper of series E12", brief.but(dropper_series=12)


def two_in_parallel(base: Draft) -> tuple[float, ...]:
    """Two preferred values that together come nearest to the wished current, the LEDs within their limit.

    Returns
    -------
    (float, float) or None
        F, the larger first; None where no two come nearer than the one.
    """
    brief, lamp = base.brief, base.lamp
    wanted = lamp.dropper / (1 + base.miss)
    values = preferred(brief.dropper_series, wanted / 50, wanted)
    pairs = [(large, small) for small, large in itertools.combinations_with_replacement(values, 2)]
    pairs = [pair for pair in pairs if 0.5 * wanted < sum(pair) < 1.5 * wanted]
    if not pairs:
        return None
    means = steady_states(spread(lamp, {"dropper": [sum(pair) for pair in pairs]}), POINTS).string_current_mean
    misses = sorted((abs(mean / brief.current - 1), pair) for mean, pair in zip(means, pairs, strict=True))
    for miss, pair in misses:
        if miss >= abs(base.miss):
            return None
        if led_room(brief, replace_at(lamp, "dropper", sum(pair))) >= 1:
            return pair
    return None


def _strings(base):
    brief = base.brief
    count, side = brief.in_series, brief.in_parallel
    step = max(1, round(_FEW * count))
    share = base.lamp.clamped_voltage(brief.current) / base.lamp.mains.peak
    per_group = base.lamp.string.voltage_at(brief.current) / count
    best = theory.best_clamped_voltage(peak_voltage=base.lamp.mains.peak)
    half = round(best / per_group)
    for groups, why in (
        (count + step, f"more LEDs, {count + step} in series"),
        (count - step, f"fewer LEDs, {count - step} in series"),
        (half, f"{half} in series: D near half the mains' peak, where the power is greatest"),
    ):
        if groups >= 1 and groups != count:
            yield f"{why} (D/Vp {share * groups / count:.2g})", brief.but(in_series=groups)
    if count % 2 == 0:
        told = f"as many LEDs, {count // 2} in series and {2 * side} side by side"
        yield told, brief.but(in_series=count // 2, in_parallel=2 * side, current=2 * brief.current)
    if side % 2 == 0:
        told = f"as many LEDs, {2 * count} in series and {side // 2} side by side"
        yield told, brief.but(in_series=2 * count, in_parallel=side // 2, current=brief.current / 2)


def _clamps(base):
    if base.lamp.smoothing:
        yield (
            ("without the clamp" if base.brief.clamp else "a clamp across the bus"),
            base.brief.but(clamp=not base.brief.clamp),
        )


def _light(made):
    return made.current * made.brief.in_series


def _swing(made):
    return (made.greatest - made.least) / made.current


def _farads(made):
    return made.lamp.dropper + made.lamp.smoothing
