"""Lamp panel: what the panels share that start from a lamp file."""

from pathlib import Path
from typing import Any

from ...circuit.lamp import Lamp
from .lamp_box import LampBox, first_lamp
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

    Attributes
    ----------
    lamp_box : LampBox
    """

    def __init__(self, path: str | Path | Lamp, ask: bool = True):
        if isinstance(path, Lamp):
            lamp, files, note = path, (FOLDER, None), ""
        else:
            lamp, file, note = self._first(path)
            files = (Path(path).parent, file)
        own = lamp if files[1] is None else None
        self.lamp_box = LampBox(*files, self.set_lamp, self.complain, own, note)
        super().__init__(self.setting_for(lamp.replace(mains=lamp.mains.sine)), ask)

    def _first(self, path):
        """The lamp that was chosen last, where this panel can show it; else that of the file."""
        lamp, file, note = first_lamp(path)
        if file == Path(path).name:
            return lamp, file, note
        try:
            self.lesson.view_of(self.setting_for(lamp.replace(mains=lamp.mains.sine)))
        except (ValueError, ArithmeticError) as error:
            page = Lamp.from_toml(path)
            return page, Path(path).name, f"The {lamp.name} cannot be shown here ({error}). This is the {page.name}."
        return lamp, file, note

    def setting_for(self, lamp: Lamp) -> Any:
        """The setting in which a lamp is shown at first."""
        return lamp

    def header(self) -> list[LampBox]:
        return [self.lamp_box]

    def set_lamp(self, lamp: Lamp) -> None:
        """Put a lamp on the panel; the lessons know a sine, and show it on the fundamental of its mains alone."""
        self.start_from(self.setting_for(lamp.replace(mains=lamp.mains.sine)))
        if not lamp.mains.is_sine:
            what = "carries harmonics" if lamp.mains.shape is None else f"is no sine ({lamp.mains.shape.words})"
            self.complain(
                f"The mains of {lamp.name} {what}. The formulas of this lesson know a sine: the panel"
                " shows the lamp on one of the same voltage. The bench of notebook 00 shows it as it is."
            )
