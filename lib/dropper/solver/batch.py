"""Batches: many lamps, and many steady states, as columns with an entry a lamp."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Any

import numpy as np

from ..circuit.excerpt import excerpt
from ..circuit.fields import unit_of
from ..circuit.lamp import Diode, Lamp, Led, LedString, Mains, replace_at
from ..circuit.values import show
from . import state
from .state import SteadyState

if TYPE_CHECKING:
    import pandas

    from ..circuit.mains import Cycle

_PARTS = {"": Lamp, "mains": Mains, "diode": Diode, "string": LedString, "string.led": Led}
_LAW = {"slope_voltage": "V", "saturation_current": "A"}
_WAVES = ("time", "mains_voltage", "line_current", "dropper_voltage", "bus_voltage", "string_current")


class Batch:
    """Columns by name, each an array whose first axis counts the lamps.

    `len`, indexing with a number (one lamp), with a slice, an array of numbers or of truth values (a smaller batch),
    and iteration work as for a list.
    """

    def __init__(self, columns: dict[str, np.ndarray]):
        self.columns = columns

    @property
    def names(self) -> tuple[str, ...]:
        """The columns' names."""
        return tuple(self.columns)

    @property
    def units(self) -> dict[str, str]:
        """The columns' units by name, "" for a plain number."""
        return {name: self._unit(name) for name in self.columns}

    def to_frame(self) -> pandas.DataFrame:
        """A pandas DataFrame with a row a lamp and a column a number; `frame.attrs["units"]` has the units.

        A column of several numbers is taken apart by place: "harmonic_currents.3" is the third harmonic. Waves are left
        out.
        """
        import pandas

        flat, units = {}, {}
        for name, column in self.columns.items():
            if name in _WAVES:
                continue
            pieces = {name: column}
            if column.ndim > 1:
                pieces = {f"{name}.{place}": column[:, place] for place in range(column.shape[1])}
            flat |= pieces
            units |= dict.fromkeys(pieces, self._unit(name))
        frame = pandas.DataFrame(flat)
        frame.index.name = "lamp"
        frame.attrs["units"] = units
        return frame

    def __len__(self) -> int:
        return len(next(iter(self.columns.values())))

    def __iter__(self) -> Iterator:
        return (self._one(place) for place in range(len(self)))

    def __getitem__(self, key: int | slice | Sequence[int] | np.ndarray) -> Any:
        if isinstance(key, int | np.integer):
            place = range(len(self))[key]  # counts from the end too, and refuses what is out of range
            return self._one(place)
        return self._some(np.arange(len(self))[key])

    def _unit(self, name):
        raise NotImplementedError

    def _one(self, place):
        """One lamp's own."""
        raise NotImplementedError

    def _some(self, places):
        """A smaller batch, of an array of places."""
        raise NotImplementedError


class LampBatch(Batch):
    """Many lamps: what `spread` makes and `steady_states` takes. A column for each number of a lamp, by its path.

    Parameters
    ----------
    columns
        By path, "dropper", "mains.voltage" …, in SI units; nan where nothing is fitted.
    cycles
        What a period of the mains looks like, each `circuit.mains.Cycle` that occurs.
    cycle_of
        For each lamp its place in `cycles`, shape (lamps,).
    lamps
        The lamps themselves, or one that all are like but for `changed`.
    changed
        Paths in which they differ from the one.

    Examples
    --------
    >>> from dropper import Lamp, Led, LedString, Mains, spread
    >>> lamp = Lamp(Mains(230, 50), LedString(Led(3.1, 0.02), 22), "330 nF", "10 µF")
    >>> lamps = spread(lamp, {"dropper": [2.2e-7, 3.3e-7, 4.7e-7]})
    >>> lamps
    <LampBatch of 3 lamps, dropper 220 nF to 470 nF>
    >>> lamps[-1].dropper, len(lamps[:2]), lamps.units["dropper"]
    (4.7e-07, 2, 'F')
    """

    def __init__(
        self,
        columns: dict[str, np.ndarray],
        cycles: Sequence[Cycle],
        cycle_of: np.ndarray,
        lamps: Sequence[Lamp],
        changed: Sequence[str] = (),
    ):
        super().__init__(columns)
        self.cycles, self.cycle_of, self._lamps, self.changed = cycles, cycle_of, lamps, tuple(changed)

    @property
    def symmetric(self) -> np.ndarray:
        """Whether the second half cycle of each lamp's mains mirrors the first, shape (lamps,)."""
        return np.array([cycle.mirrored for cycle in self.cycles], bool)[self.cycle_of]

    def __repr__(self) -> str:
        ranges = [
            f", {path} {show(self.columns[path].min(), self._unit(path))} to"
            f" {show(self.columns[path].max(), self._unit(path))}"
            for path in self.changed
            if len(self)
        ]
        return f"<LampBatch of {len(self)} lamps{''.join(ranges)}>"

    def _unit(self, name):
        part, _, last = name.rpartition(".")
        if last in _LAW:
            return _LAW[last]
        return next(unit_of(field) for field in dataclasses.fields(_PARTS[part]) if field.name == last)

    def _one(self, place):
        if not self.changed:
            return self._lamps[place]
        lamp = self._lamps[0]
        for path in self.changed:
            lamp = replace_at(lamp, path, float(self.columns[path][place]))
        return lamp

    def _some(self, places):
        lamps = self._lamps if self.changed else [self._lamps[place] for place in places]
        columns = {path: column[places] for path, column in self.columns.items()}
        return LampBatch(columns, self.cycles, self.cycle_of[places], lamps, self.changed)


class SteadyStateBatch(Batch):
    """Steady states of many lamps. Every reading of `SteadyState` is an attribute, an array with an entry a lamp.

    `heat` is a dict of such arrays; waves are arrays of shape (lamps, points), None where they were not kept. What the
    quick solver does not know is None.

    Parameters
    ----------
    columns
        By the names of `SteadyState`; "heat.leds" and so on for the heat of the parts.
    lamps
        Whose they are.

    Examples
    --------
    >>> from dropper import Lamp, Led, LedString, Mains, spread, steady_states
    >>> lamp = Lamp(Mains(230, 50), LedString(Led(3.1, 0.02), 22), "330 nF", "10 µF")
    >>> many = steady_states(spread(lamp, {"dropper": [2.2e-7, 3.3e-7, 4.7e-7]}))
    >>> many
    <SteadyStateBatch of 3 lamps: string 11.4 mA to 23.9 mA, real power 769 mW to 1.72 W>
    >>> many.power_factor.round(3), many[0].word
    (array([0.229, 0.236, 0.243]), 'same')
    >>> many.to_frame()["heat.leds"].round(2).tolist(), many.units["heat.leds"]
    ([0.75, 1.15, 1.68], 'W')
    """

    def __init__(self, columns: dict[str, np.ndarray], lamps: LampBatch):
        super().__init__(columns)
        self.lamps = lamps

    @property
    def heat(self) -> dict[str, np.ndarray]:
        """W by part, as of `SteadyState`, each an array of shape (lamps,)."""
        return {name.removeprefix("heat."): column for name, column in self.columns.items() if name[:5] == "heat."}

    def __getattr__(self, name: str) -> np.ndarray | None:
        columns = self.__dict__.get("columns", {})
        if name in columns:
            return columns[name]
        if name in state.UNITS:
            return None
        raise AttributeError(f"{type(self).__name__} has no {excerpt(name)}; its columns are {', '.join(columns)}")

    def __dir__(self) -> list[str]:
        return sorted({*super().__dir__(), *state.UNITS})

    def __repr__(self) -> str:
        ranges = [
            f"{words} {show(self.columns[name].min(), unit)} to {show(self.columns[name].max(), unit)}"
            for words, name, unit in (("string", "string_current_mean", "A"), ("real power", "real_power", "W"))
            if len(self)
        ]
        return f"<SteadyStateBatch of {len(self)} lamps{': ' * bool(ranges)}{', '.join(ranges)}>"

    def _unit(self, name):
        return state.UNITS[name.partition(".")[0]]

    def _one(self, place):
        heat, readings = {}, {}
        for name, column in self.columns.items():
            value = column[place] if column.ndim > 1 else column[place].item()
            if name.startswith("heat."):
                heat[name[5:]] = value
            else:
                readings[name] = value
        return SteadyState(heat=heat, lamp=self.lamps[place], **readings)

    def _some(self, places):
        return SteadyStateBatch({name: column[places] for name, column in self.columns.items()}, self.lamps[places])
