"""Scatter: thousands of lamps with LEDs as they come out of the bag: how much the hottest LED of each gets."""

from dataclasses import dataclass

import numpy as np

from ...circuit.excerpt import excerpt
from ...circuit.fields import Spec, about, check_value, documented
from ...circuit.lamp import Led
from ...circuit.values import show
from ...components.kinds import LedKind
from .branch import COLD, TOTAL, Branch, Warmth
from .law import Laws, in_common

# LEDs side by side, and so many of these groups in series; or whole strings side by side.
ARRANGEMENTS = ("groups", "strings")
_COUNTS = {
    "in_parallel": Spec("", 1, 100, whole=True),
    "in_series": Spec("", 1, 200, whole=True),
    "count": Spec("", 1, 100_000, whole=True),
    "seed": Spec("", 0, 2**32, whole=True),
}
_SIGMA = Spec("V", 1e-6, 1, zero=True, meaning="standard deviation of the forward voltage")
_RESISTOR = Spec("Ω", 0, 1e6, meaning="resistor of its own in each branch")
_AT_ONCE = 400_000  # LEDs drawn together, so that memory stays small


@documented
@dataclass(frozen=True, eq=False, repr=False)
class Spread:
    """What many lamps with scattered LEDs came to."""

    hottest: np.ndarray = about("largest current of a branch over an even share", shape="shape (lamps,)")
    currents: np.ndarray = about("of the branches", "A", shape="shape (lamps, groups in series or 1, branches)")
    total: float = about("of all branches together", "A")
    seed: int = about("the same seed draws the same lamps")

    def __repr__(self) -> str:
        return (
            f"<Spread of {len(self.hottest)} lamps: hottest branch {self.hottest.mean():.3g} times its even share on"
            f" average, {self.percentile(95):.3g} times at the 95th percentile>"
        )

    @property
    def deviation(self) -> float:
        """Standard deviation of the branches' currents as a part of an even share."""
        even = self.total / self.currents.shape[-1]
        return float(np.sqrt(np.mean((self.currents / even - 1) ** 2)))

    def percentile(self, percent: float) -> float:
        """The share that so many per cent of the lamps' hottest branches stay below.

        Parameters
        ----------
        percent
            0 to 100.
        """
        return float(np.percentile(self.hottest, percent))

    @property
    def words(self) -> str:
        """The distribution in a sentence."""
        return (
            f"Of {len(self.hottest)} lamps drawn at random the hottest LED carries {self.hottest.mean():.2f} times its"
            f" even share on average, and in one lamp of twenty more than {self.percentile(95):.2f} times."
        )


def spread(
    led: Led | LedKind,
    *,
    sigma: float | None = None,
    least: float | None = None,
    greatest: float | None = None,
    in_parallel: int,
    in_series: int = 1,
    branch_resistor: float = 0.0,
    total: float,
    count: int = 500,
    seed: int = 0,
    arrangement: str = "groups",
    warmth: Warmth = COLD,
    last: Branch | None = None,
) -> Spread:
    """Draw many lamps with LEDs that scatter, and share the current in each.

    Parameters
    ----------
    led
        The LED that the others scatter about; of a kind, its typical one.
    sigma
        V, standard deviation of a normal scatter, cut off at four of them.
    least, greatest
        V, in place of `sigma`: anywhere between the two alike, as of a data sheet's unsorted LEDs. A kind brings its
        own.
    in_parallel
        LEDs in a group, or strings side by side.
    in_series
        Groups in series, or LEDs in a string.
    branch_resistor
        Ω, one in series with each LED of a group, or with each string.
    total
        A, the current of the whole.
    count
        Lamps drawn.
    arrangement
        "groups" or "strings", see `ARRANGEMENTS`.
    last
        Stands in place of the last branch of each lamp, and does not scatter. Only where there is one group.

    Raises
    ------
    ValueError
        For a value out of range, a scatter so wide that an LED would have no voltage left, both kinds of scatter, or a
        last branch that would be the only one and is open.

    Examples
    --------
    >>> spread(Led(3.0, 0.020, 9.0), sigma=0.05, in_parallel=3, total=0.030, count=200)
    <Spread of 200 lamps: hottest branch 1.31 times its even share on average, 1.66 times at the 95th percentile>
    """
    for name, value in (("in_parallel", in_parallel), ("in_series", in_series), ("count", count), ("seed", seed)):
        check_value(name, value, _COUNTS[name])
    total = check_value("total", total, TOTAL)
    branch_resistor = check_value("branch_resistor", branch_resistor, _RESISTOR)
    if arrangement not in ARRANGEMENTS:
        raise ValueError(f"arrangement: {excerpt(arrangement)} will not do; choose {' or '.join(ARRANGEMENTS)}")
    groups, inside = (in_series, 1) if arrangement == "groups" else (1, in_series)
    if last is not None and groups > 1:
        raise ValueError("last: one branch of its own can only stand in a single group; take arrangement='strings'")
    if last is not None and last.open and in_parallel == 1:
        raise ValueError("last: one branch at least must be there that is not open")
    if isinstance(led, LedKind):
        if sigma is None and least is None and greatest is None:
            least, greatest = led.least, led.greatest
        led = led.led()
    scatter = _scatter(led, sigma, least, greatest)
    slope, _, resistance = Branch.of(led, inside, branch_resistor).law(warmth)
    chance = np.random.default_rng(seed)
    step = max(1, _AT_ONCE // (groups * in_parallel * inside))
    parts = []
    for first in range(0, count, step):
        drawn = scatter(chance, (min(step, count - first), groups, in_parallel, inside))
        logs = _log_saturation(led, drawn).mean(axis=-1)
        laws = Laws(np.full(logs.shape, slope), logs, np.full(logs.shape, resistance))
        parts.append(_split(laws, total, last, warmth))
    currents = np.concatenate(parts)
    even = total / in_parallel if total else 1.0
    return Spread(currents.max(axis=(1, 2)) / even, currents, total, seed)


def _split(laws, total, last, warmth):
    """Currents of the branches of each set, A."""
    if last is None:
        return laws.current(in_common(laws, total)[..., None])
    others = [part[..., :-1] for part in (laws.slope, laws.log_saturation, laws.resistance)]
    end = (*laws.slope.shape[:-1], 1)
    if last.open:
        laws = Laws(*others)
        return np.concatenate([laws.current(in_common(laws, total)[..., None]), np.zeros(end)], axis=-1)
    law = last.law(warmth)
    if law[0] == law[2] == 0:  # a wire takes all
        return np.concatenate([np.zeros(others[0].shape), np.full(end, total)], axis=-1)
    laws = Laws(
        *(np.concatenate([part, np.full(end, value)], axis=-1) for part, value in zip(others, law, strict=True))
    )
    return laws.current(in_common(laws, total)[..., None])


def _log_saturation(led, forward):
    """ln(Is in A) of LEDs that differ from one in their forward voltage only."""
    inner = (forward - led.series_resistance * led.at_current) / led.slope_voltage
    return np.log(led.at_current) - inner - np.log1p(-np.exp(-inner))


def _scatter(led, sigma, least, greatest):
    """What draws forward voltages, V, of a shape."""
    floor = led.series_resistance * led.at_current
    if sigma is not None and (least is not None or greatest is not None):
        raise ValueError("sigma: give either that, or least and greatest")
    if sigma is not None:
        sigma = check_value("sigma", sigma, _SIGMA)
        low = led.forward_voltage - 4 * sigma
    elif least is None or greatest is None:
        raise ValueError("sigma: give that, or both least and greatest forward voltage, or a kind of LED")
    elif not least <= greatest:
        raise ValueError(f"least: {show(least, 'V')} is not below the greatest, {show(greatest, 'V')}")
    else:
        low = least
    if not low > floor:
        raise ValueError(
            f"sigma: some LEDs would be down to {show(low, 'V')}, and the LED's resistance alone takes"
            f" {show(floor, 'V')}; scatter them less"
        )
    if sigma is None:
        return lambda chance, shape: chance.uniform(least, greatest, shape)
    return lambda chance, shape: led.forward_voltage + sigma * np.clip(chance.standard_normal(shape), -4, 4)
