"""Voice: what a move has done, in one short line that is said once the sliders rest."""

import re
import time
from collections.abc import Sequence
from typing import Any

from ...circuit.values import show_reading
from ...results.reading import Reading
from .deferred import Deferred

REST = 0.4  # s without a move after which the next one counts as another
_DEGREES = {"°": "°", "°C": "K"}  # the units whose zero is where one puts it, and that of a difference


class MoveVoice:
    """What is said of each move of a panel: one reading, and what the move did to it.

    Parameters
    ----------
    deferred
        Of the panel.
    """

    def __init__(self, deferred: Deferred):
        self._deferred, self._setting, self._line = deferred, None, ""
        self._now, self._rested = {}, {}  # the readings by key, and what they were when the sliders rested last
        self._moved = 0.0

    def line(self, setting: Any, readings: Sequence[Reading], first: Sequence[str], words: str) -> str:
        """What is said of a setting; the same as long as it stays.

        Parameters
        ----------
        readings
            Those of the view.
        first
            The keys of those that are named rather than another, as long as the move changes them.
        words
            The picture in words, whose beginning is said where there is nothing to read.
        """
        if setting != self._setting:
            if not self._deferred.waits or time.monotonic() - self._moved > REST:
                self._rested = self._now
            self._setting, self._moved = setting, time.monotonic()
            self._now = {row.key: row for row in readings if row.value == row.value}
            row = self._named(first)
            self._line = change_line(self._rested.get(row.key), row) if row else re.split("[.:;] ", words)[0]
        return self._line

    def _named(self, first):
        """The first that is wanted and has changed, else the one that has changed most, else the first wanted."""
        wanted = [self._now[key] for key in first if key in self._now][:1] or list(self._now.values())[:1]
        changed = {key: row for key, row in self._now.items() if row.text != self._rested.get(key, row).text}
        if not changed or (wanted and wanted[0].key in changed):
            return wanted[0] if wanted else None
        return max(changed.values(), key=lambda row: _share(self._rested[row.key].value, row.value))


def _share(before, now):
    return abs(now - before) / max(abs(before), abs(now))


def change_line(before: Reading | None, now: Reading) -> str:
    """A reading and what it did, as one says it.

    Parameters
    ----------
    before
        The reading before the move; None where there was none.

    Examples
    --------
    >>> def current(amperes): return Reading("i", "string current, mean", amperes, "A", "")
    >>> change_line(current(0.0167), current(0.0173))
    'string current 17.3 mA, 4 % more'
    >>> change_line(current(0.0167), current(0.0005)), change_line(current(0.01), current(0.05))
    ('string current 500 µA, 97 % less', 'string current 50.0 mA, 5 times as much')
    >>> change_line(current(0.0167), current(0.0167)), change_line(None, current(0.0167))
    ('string current 16.7 mA, unchanged', 'string current 16.7 mA')
    """
    told = f"{now.name.partition(',')[0]} {now.text}"
    change = _change(before, now) if before is not None else ""
    return ", ".join(filter(None, (told, change, now.excess)))


def _change(before, now):
    if before.value != before.value or now.value != now.value:
        return ""
    if before.text == now.text:
        return "unchanged"
    step = now.value - before.value
    word = "more" if step > 0 else "less"
    if now.unit in _DEGREES:
        return f"{show_reading(abs(step), _DEGREES[now.unit])} {word}"
    if not before.value:
        return ""
    times = now.value / before.value
    if times >= 2:
        return f"{times:.2g} times as much"
    percent = 100 * abs(times - 1)
    return f"{percent:.0f} % {word}" if percent >= 1 else f"{percent:.1g} % {word}"
