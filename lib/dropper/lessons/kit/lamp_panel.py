"""What the panels share that start from a lamp file."""

from pathlib import Path

from ...circuit.lamp import Lamp, replace_at
from ...results.reading import Reading
from .lamp_box import LampBox
from .panel import Panel

FOLDER = Path("lamps")  # beside the notebook


class LampPanel(Panel):
    """A panel that starts from a lamp file and offers the files beside it.

    Parameters
    ----------
    path
        The lamp file; or a lamp, beside which those of the folder `lamps` are offered.
    ask
        Ask for a prediction before the sliders wake.
    """

    lesson = None

    def __init__(self, path: str | Path | Lamp, ask: bool = True):
        if isinstance(path, Lamp):
            lamp, self._files = path, (FOLDER, None)
        else:
            lamp, self._files = Lamp.from_toml(path), (Path(path).parent, Path(path).name)
        super().__init__(self.seen(replace_at(lamp, "mains.harmonics", {})), ask)

    def seen(self, lamp: Lamp) -> Lamp:
        """The setting in which a lamp is looked at."""
        return lamp

    def head(self) -> list[LampBox]:
        return [LampBox(*self._files, self._put_lamp, self.complain)]

    def _put_lamp(self, lamp):
        """Put a lamp on the panel; the lessons know a sine, and look at the fundamental alone."""
        sine = replace_at(lamp, "mains.harmonics", {})
        self.put(self.seen(sine))
        if lamp.mains.harmonics:
            self.complain(
                f"The mains of {lamp.name} carries harmonics. The formulas of this lesson know a sine: the panel"
                " shows the lamp on its fundamental alone. The bench of notebook 00 shows it with all of them."
            )

    def view_of(self, setting):
        return self.lesson.view_of(setting)

    def readings(self, view) -> tuple[Reading, ...]:
        return view.readings
