"""Recording: what the columns of an oscilloscope's CSV file are, in volts and amperes against time."""

from dataclasses import dataclass
from pathlib import Path

import numpy as np

from ...circuit.excerpt import label
from ...circuit.fields import about, check_value, documented, quantity, spec_of
from ...circuit.values import show
from .. import table
from .channel import NAMES, Channel

_WORDS = {
    "time": ("time", "zeit", "second", "x-axis"),
    "mains_voltage": ("mains", "line voltage", "netz", "ch1", "channel 1", "c1", "chan1"),
    "line_current": ("current", "strom", "shunt", "ch2", "channel 2", "c2", "chan2"),
    "bus_voltage": ("bus", "dc", "string", "ch3", "channel 3", "c3", "chan3"),
}


@documented
@dataclass(frozen=True, eq=False)
class Recording:
    """Voltage and current against time. Gaps are nan; a channel that was not recorded is None."""

    time: np.ndarray = about("s, rising.", repr=False)
    mains_voltage: np.ndarray | None = about("V.", repr=False, default=None)
    line_current: np.ndarray | None = about(
        "A, from the mains into the lamp where the mains is above zero.", repr=False, default=None
    )
    bus_voltage: np.ndarray | None = about("V.", repr=False, default=None)
    channels: dict = about("What each was taken from.", default_factory=dict)
    source: str = about("The file's name.", default="recording")
    in_step: float | None = quantity("s", 0, 10e-3, None, none=True, meaning="between the channels' samples, at most")

    def __post_init__(self):
        time = np.asarray(self.time, float)
        object.__setattr__(self, "time", _even_time(time, self.source))
        check_value("in step within", self.in_step, spec_of(self.__dataclass_fields__["in_step"]))
        for name in NAMES:
            values = getattr(self, name)
            if values is not None:
                values = np.asarray(values, float)
                if values.shape != time.shape:
                    raise ValueError(f"{name}: {values.size} samples, but {time.size} of time; both must have as many")
                if np.isnan(values).all():
                    raise ValueError(f"{self.source}: the column of the {NAMES[name]} is empty")
                object.__setattr__(self, name, values)
        if self.mains_voltage is None and self.line_current is None:
            raise ValueError(
                f"{self.source}: neither mains voltage nor line current was recorded; choose a column for one of them"
            )

    def __repr__(self) -> str:
        channels = ", ".join(NAMES[name] for name in self.present())
        return f"<Recording {self.source!r}: {len(self)} samples of {channels}, {show(self.sample_spacing, 's')} apart>"

    def __len__(self) -> int:
        return self.time.size

    @property
    def sample_spacing(self) -> float:
        """s from one sample to the next, in the mean."""
        return float(self.time[-1] - self.time[0]) / (len(self) - 1)

    @property
    def skew(self) -> float:
        """s by which voltage and current may be out of step, at most."""
        return 0.5 * self.sample_spacing if self.in_step is None else self.in_step

    def present(self) -> list[str]:
        """The names of the channels that were recorded."""
        return [name for name in NAMES if getattr(self, name) is not None]

    def accuracy(self, name: str) -> float:
        """Limit of error of a channel's scale, as a fraction."""
        return self.channels[name].accuracy if name in self.channels else 0.0


def load(
    source: Path | str | bytes | table.Table,
    *,
    time: str | float | None = None,
    mains_voltage: str | Channel | None = None,
    line_current: str | Channel | None = None,
    bus_voltage: str | Channel | None = None,
    in_step: float | None = None,
    **reading,
) -> Recording:
    r"""A recording from an oscilloscope's CSV file.

    Parameters
    ----------
    source
        A path, text, bytes, or a table that was read already.
    time
        The column of time; or the seconds from one sample to the next, where the file has none. The first column
        that rises all the way where it is not said.
    mains_voltage, line_current, bus_voltage
        The column of each, or a `Channel` with its factor; without any of the three `guess_columns`
        guesses them.
    in_step
        As in `Recording`.
    reading : optional
        `delimiter`, `decimal`, `encoding`, `name` for `table.read`.

    Raises
    ------
    TableError
        If the file cannot be read, with line and column.
    ValueError
        If a column is missing, empty or used twice, or the time does not rise.

    Examples
    --------
    >>> text = "time (ms), CH1 (V)\n" + "\n".join(f"{0.1 * k:.1f}, {k % 200 - 100}" for k in range(400))
    >>> load(text, mains_voltage=Channel("CH1", factor=3.0), name="scope")
    <Recording 'scope': 400 samples of mains voltage, 100 µs apart>
    """
    data = source if isinstance(source, table.Table) else table.read(source, **reading)
    given = {"mains_voltage": mains_voltage, "line_current": line_current, "bus_voltage": bus_voltage}
    guessed = guess_columns(data, time if isinstance(time, str) else None)
    if not any(given.values()):
        given = {name: guessed.get(name) for name in given}
    channels = {
        name: channel if isinstance(channel, Channel) else Channel(channel)
        for name, channel in given.items()
        if channel
    }
    _check_columns(channels, time)
    values = {name: channel.values(data, "A" if name == "line_current" else "V") for name, channel in channels.items()}
    if isinstance(time, int | float):
        if not 0 < time < 1:
            raise ValueError(f"time: {time:g} s from sample to sample; allowed is more than 0 and less than 1 s")
        moments = np.arange(len(data)) * float(time)
    else:
        column = time or guessed.get("time")
        if column is None:
            raise ValueError(f"{data.source}: no column rises as time does; say the seconds between samples")
        moments = data.si(column, "s")
        _check_rising(moments, data, column)
    return Recording(moments, channels=channels, source=data.source, in_step=in_step, **values)


def _check_columns(channels, time):
    """Complain of a column that is two things."""
    used = {time: "time"} if isinstance(time, str) else {}
    for name, channel in channels.items():
        if channel.column in used:
            raise ValueError(
                f"{channel.column} is chosen for both {used[channel.column]} and {NAMES[name]}; each has its own column"
            )
        used[channel.column] = NAMES[name]


def guess_columns(data: table.Table, time: str | None = None) -> dict[str, str]:
    r"""Which column is what, by their units and names.

    Parameters
    ----------
    time
        The column of time, where it is known.

    Returns
    -------
    dict of str to str
        Column by "time", "mains_voltage", "line_current", "bus_voltage"; what could not be guessed is missing.

    Examples
    --------
    >>> guess_columns(table.read("time (s), CH1 (V), I (mA)\n0, 1, 2\n1, 3, 4"))
    {'time': 'time', 'line_current': 'I', 'mains_voltage': 'CH1'}
    """
    left, columns = list(data.columns), {}
    rising = [name for name in left if _rises(data.columns[name])]
    rising.sort(key=lambda name: not name.lower().startswith(_WORDS["time"]))
    if time in left:
        rising = [time]
    if rising and len(left) > 1:
        columns["time"] = rising[0]
        left.remove(rising[0])
    for what in ("line_current", "bus_voltage", "mains_voltage"):
        for name in left:
            unit = data.units[name].lower()
            ampere = what == "line_current" and unit.endswith(("a", "amp", "amps", "ampere"))
            if ampere or any(word in name.lower() for word in _WORDS[what]):
                columns[what] = name
                left.remove(name)
                break
    for what in NAMES:  # what is left, in the order in which channels are usually taken
        if what not in columns and left:
            columns[what] = left.pop(0)
    return columns


def _rises(values):
    return values.size > 1 and bool(np.all(np.diff(values) >= 0)) and values[-1] > values[0]


def _check_rising(moments, data, column):
    """Complain of the first moment that is missing or earlier than the one before it."""
    place = list(data.columns).index(column) + 1
    bad = np.isnan(moments)
    bad[1:] |= moments[1:] < moments[:-1]
    if bad.any():
        line = int(data.lines[np.argmax(bad)])
        raise table.TableError(
            f"{data.source}: line {line}, column {place} ({label(column)}): the time is missing, or earlier than in"
            " the line before; allowed is a time that rises all the way",
            line,
            place,
        )


def _even_time(time, source):
    """Time as it was before it was written with few digits: evenly spaced where it is so but for its last digit."""
    if time.size < 8:
        raise ValueError(f"{source}: {time.size} samples; a waveform needs at least 8")
    if not (np.isfinite(time[-1] - time[0]) and (time[1:] >= time[:-1]).all() and time[-1] > time[0]):
        raise ValueError(f"{source}: the time does not rise all the way")
    even = np.linspace(time[0], time[-1], time.size)
    off = np.subtract(time, even)
    off = float(np.abs(off, out=off).max())
    spacing = (time[-1] - time[0]) / (time.size - 1)
    if off < 2 * spacing:
        return even
    steps = np.diff(time)
    if not (steps == 0).any():
        return time
    if off < 2 * float(steps[steps > 0].min()):  # several samples share a time: its last digit is too coarse
        return even
    raise ValueError(f"{source}: two samples bear the same time; the time needs more digits")
