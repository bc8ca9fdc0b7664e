"""Alternatives: other smoothing, more or fewer LEDs, another arrangement, two droppers; and what each costs."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from .. import theory
from ..circuit.fields import about, documented
from ..circuit.series import preferred
from ..circuit.values import show
from ..results.compare import signed_percent
from ..solver.steady import spread, steady_states
from . import stock
from .brief import Brief
from .corners import POINTS
from .dropper_choice import led_headroom
from .infeasible import Infeasible
from .pipeline import size
from .sizing import Sizing

if TYPE_CHECKING:
    from .result import Design

_MISS = 0.05  # of the current, from which two droppers are looked for
_FEW = 0.2  # of the groups, more or fewer
_CLOSE = 1e-6


@documented
@dataclass(frozen=True, eq=False)
class Alternative:
    """Another way to do much the same."""

    words: str = about("what changes")
    brief: Brief = about("the brief that leads to it; `design` makes it whole")
    sizing: Sizing
    base: Sizing = about("what it is compared with")

    def __repr__(self) -> str:
        return f"<Alternative {self.words}: {show(self.sizing.current, 'A')}>"

    @property
    def shortfall(self) -> float:
        """How far it leaves the first brief's wishes: current missed and flicker over the wish, as fractions."""
        wish = self.base.brief
        wanted = wish.current * self.brief.in_parallel / wish.in_parallel  # through each LED the same
        miss = abs(self.sizing.current / wanted - 1)
        return max(0.0, miss - _MISS) + max(0.0, self.sizing.flicker / wish.flicker_limit - 1)

    @property
    def stored_energy(self) -> float:
        """What its two capacitors could hold, J: near enough their size on the board."""
        return _stored_energy(self.sizing)

    @property
    def costs(self) -> dict[str, str]:
        """Against the first: {what: signed per cent}, light by milliamperes times LEDs."""
        now, then = self.sizing, self.base
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
        now = self.sizing
        costs = ", ".join(f"{name} {change}" for name, change in self.costs.items() if change not in ("0.0 %", "–"))
        return (
            f"{self.words}: {show(now.current, 'A')} on average, at most {now.flicker:.3g} % flicker,"
            f" {show(now.result.real_power, 'W')}, power factor {now.result.power_factor:.2g}. Against the first:"
            f" {costs or 'nothing to speak of'}."
        )


def alternatives(design: Design | Sizing) -> tuple[Alternative, ...]:
    """Other ways to do much the same, the best first.

    They are ranked by how far they leave the wishes of the brief, then by the size of their capacitors. Each is a
    sizing: `design(alternative.brief)` rates its parts.

    Examples
    --------
    >>> brief = Brief("warm white, 5 mm", in_series=20, current=0.01, place="Europe", flicker=100)
    >>> alternatives(size(brief))[0].words
    'two droppers in parallel, 150 nF and 47 nF'
    """
    base = design if isinstance(design, Sizing) else design.sizing
    others = []
    for words, brief in (*_smoothings(base), *_droppers(base), *_strings(base), *_clamps(base)):
        try:
            sizing = size(brief)
        except Infeasible:
            continue
        if sizing.lamp != base.lamp or sizing.clamp != base.clamp:
            others.append(Alternative(words, brief, sizing, base))
    return tuple(sorted(others, key=lambda other: (round(other.shortfall, 3), other.stored_energy)))


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
            sizing = size(setting.but(flicker=max(limit, 0.1), largest_smoothing=1e-2))
            pairs += [limit, sizing.lamp.smoothing]
        except Infeasible:
            pairs += [limit, math.nan]
    return tuple(pairs)


def _smoothings(base):
    brief, now = base.brief, base.lamp.smoothing
    if "smoothing" in brief.fixed or not now:
        return
    near = stock.values(brief, "smoothing", now / 11, min(11 * now, brief.largest_smoothing))
    for word, values in (
        ("smaller", [v for v in near if v < now * (1 - _CLOSE)][-1:]),
        ("larger", [v for v in near if v > now * (1 + _CLOSE)][:1]),
    ):
        for value in values:
            depth = base.flicker_with(value)
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
    if brief.dropper_series < 12 and "dropper" not in brief.stock:
        yield "a dropper of series E12", brief.but(dropper_series=12)


def two_in_parallel(base: Sizing) -> tuple[float, ...]:
    """Two preferred values that together come nearest to the wished current, the LEDs within their limit.

    Returns
    -------
    (float, float) or None
        F, the larger first; None where no two come nearer than the one.

    Examples
    --------
    >>> two_in_parallel(size(Brief("warm white, 5 mm", in_series=20, current=0.01, place="Europe", flicker=100)))
    (1.5e-07, 4.7e-08)
    """
    brief, lamp = base.brief, base.lamp
    wanted = lamp.dropper / (1 + base.miss)
    kept = brief.stock.get("dropper") or preferred(brief.dropper_series, wanted / 50, wanted)
    values = [value for value in kept if value <= wanted]
    pairs = [(large, small) for small, large in itertools.combinations_with_replacement(values, 2)]
    pairs = [pair for pair in pairs if 0.5 * wanted < sum(pair) < 1.5 * wanted]
    if not pairs:
        return None
    means = steady_states(spread(lamp, {"dropper": [sum(pair) for pair in pairs]}), POINTS).string_current_mean
    misses = sorted((abs(mean / brief.current - 1), pair) for mean, pair in zip(means, pairs, strict=True))
    for miss, pair in misses:
        if miss >= abs(base.miss):
            return None
        if led_headroom(base.with_value("dropper", sum(pair))) >= 1:
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
        words = f"as many LEDs, {count // 2} in series and {2 * side} side by side"
        yield words, brief.but(in_series=count // 2, in_parallel=2 * side, current=2 * brief.current)
    if side % 2 == 0:
        words = f"as many LEDs, {2 * count} in series and {side // 2} side by side"
        yield words, brief.but(in_series=2 * count, in_parallel=side // 2, current=brief.current / 2)


def _clamps(base):
    if base.lamp.smoothing:
        yield (
            ("without the clamp" if base.brief.clamp else "a clamp across the bus"),
            base.brief.but(clamp=not base.brief.clamp),
        )


def _stored_energy(sizing):
    """What the dropper could hold at the mains' peak and the smoothing capacitor with the string open, J."""
    lamp = sizing.lamp
    return (lamp.dropper * sizing.brief.greatest_peak**2 + lamp.smoothing * sizing.open_bus_voltage**2) / 2


def _light(sizing):
    return sizing.current * sizing.brief.in_series


def _swing(sizing):
    return (sizing.greatest_current - sizing.least_current) / sizing.current


def _farads(sizing):
    return sizing.lamp.dropper + sizing.lamp.smoothing
