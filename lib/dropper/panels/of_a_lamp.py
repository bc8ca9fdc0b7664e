"""What the panels share that start from a lamp file."""

from pathlib import Path

from ..lamp import Lamp
from .lampbox import LampBox
from .stand import Stand


class OfALamp(Stand):
    """A panel that starts from a lamp file and offers the files beside it.

    Parameters
    ----------
    path : str or Path
        The lamp file.
    ask : bool
        Ask for a prediction before the sliders wake.
    """

    lesson = None

    def __init__(self, path, ask=True):
        self._path = Path(path)
        super().__init__(self.seen(Lamp.from_toml(path)), ask)

    def seen(self, lamp):
        """The setting in which a lamp is looked at."""
        return lamp

    def head(self):
        return [LampBox(self._path.parent, self._path.name, lambda lamp: self.put(self.seen(lamp)), self.complain)]

    def look(self, setting):
        return self.lesson.look(setting)

    def readings(self, view):
        return view.readings
