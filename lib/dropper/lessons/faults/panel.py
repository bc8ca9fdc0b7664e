"""Faults panel: pick a fault, guess what it does, and see it in the circuit, in the curves and in the volts."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

import ipywidgets as widgets

from ...circuit.html import joined, tag
from ...circuit.lamp import Lamp
from ..kit import faulty_circuit as circuit
from ..kit import sliders as controls
from ..kit.lamp_panel import LampPanel
from ..kit.markup import Html
from ..tasks.progress import progress_at
from . import figure, goals, verdicts, view
from .questions import question_of

_NO_GUESS = "just show it"


class Faults(LampPanel):
    """A lamp with one part broken, beside the healthy one; see `LampPanel`.

    Attributes
    ----------
    drawing : Html
        The circuit with the broken part in it.
    guess_text : Html
        What is to be guessed of a fault, and what came of it.
    guess_buttons : widgets.HBox
    """

    picture, lesson = figure, view
    glows = True
    decisive = ("fault",)
    observed = "bus_voltage_peak"
    goals = goals.GOALS
    causes: Mapping[str, str] = {
        "string": "The LEDs hold C2 down only as long as current flows through them. Then nothing draws any, and the"
        " bridge goes on charging.",
        "nothing": "Dark is not dead: the bridge still charges C2, and nothing is left to empty it quickly.",
        "twice": "A bridge charges C2 to the peak once; it does not double it.",
    }

    def __init__(self, path: str | Path | Lamp, ask: bool = True):
        self._guess_fault = None  # it waits for a guess
        self.drawing = Html()
        self.guess_text = controls.words()
        self.guess_buttons = widgets.HBox()
        self.guess_buttons.layout.display = "none"
        super().__init__(path, ask)

    def asides(self) -> list[widgets.Widget]:
        return [self.guess_text, self.guess_buttons]

    def picture_column(self) -> list[widgets.Widget]:
        return [self.drawing, self.picture_box, self.sentence]

    def guess(self, answer: str | None) -> None:
        """Guess what the fault does that waits, and see it.

        Parameters
        ----------
        answer
            A key of the answers of its question; None: no guess.
        """
        fault, self._guess_fault = self._guess_fault, None
        self.guess_buttons.layout.display = "none"
        if fault is None:
            return
        super().move("fault", fault)
        if self.setting.fault != fault:
            return
        question = question_of(fault)
        right = question.right(self.view.now, self.view.healthy)
        said = tag("b", "No guess made." if answer is None else f"You said: {question.answers[answer]}.")
        found = view.found(self.view)
        if answer is not None:
            progress_at().note_prediction(
                f"faults_{fault.kind}_{fault.part}".replace(" ", "_"), answer, "", answer == right
            )
            found = joined(tag("strong", "Right:" if answer == right else "Not so:"), " ", found)
        cause = question.causes.get(answer, "") if answer != right else ""
        self.guess_text.value = tag("div", joined(said, " ", found, " ", cause), css="dropper-words", role="status")

    def move(self, path: str, value: Any) -> None:
        known = self.prediction is None or (value == verdicts.QUESTION_FAULT and not self._judged)
        if path != "fault" or self._busy or known or not value:
            if path == "fault" and not self._busy:
                self._drop_guess()
            super().move(path, value)
            return
        self._guess_fault = value
        question = question_of(value)
        text = f"{view.capital(value.words(self.setting.lamp))}: {question.text}"
        self.guess_text.value = tag("div", text, css="dropper-words question", role="status")
        self.guess_buttons.children = [
            controls.button(words, f"My guess: {words}", lambda key=key: self.guess(key))
            for key, words in (*question.answers.items(), (None, _NO_GUESS))
        ]
        self.guess_buttons.layout.display = ""
        self.drawing.value = circuit.draw(self.setting.lamp, value)

    def show(self, view: Any) -> None:
        super().show(view)
        self.drawing.value = circuit.draw(view.setting.lamp, view.setting.fault, view.now)

    def start_from(self, setting: view.FaultyLamp) -> None:
        super().start_from(setting)
        self._drop_guess()

    def reset(self) -> None:
        self._drop_guess()
        super().reset()

    def _drop_guess(self):
        """Drop the fault that waits for a guess."""
        self._guess_fault, self.guess_text.value, self.guess_buttons.layout.display = None, "", "none"

    def setting_for(self, lamp: Lamp) -> view.FaultyLamp:
        return view.FaultyLamp(lamp)

    def question(self) -> tuple[str, dict[str, str]]:
        lamp = self.initial.lamp
        volts = verdicts.volts_in_words(lamp)
        return (
            f"In the {lamp.name} a joint of the string cracks: the string is open. What does the smoothing capacitor C2"
            " have to stand?",
            {
                "string": f"{volts['string']}, the string's volts, as before",
                "nothing": "next to nothing: no current, no light, no volts",
                "peak": f"{volts['peak']}, the peak of the mains",
                "twice": f"{volts['twice']}, twice the peak",
            },
        )

    def verdict(self) -> tuple[str, str]:
        return verdicts.open_string_verdict(self.question_setting.lamp)

    def can_judge(self) -> bool:
        return super().can_judge() and self.setting.fault == verdicts.QUESTION_FAULT

    def make_sliders(self, setting: view.FaultyLamp) -> dict[str, widgets.Widget]:
        lamp = setting.lamp
        fault = widgets.Dropdown(
            options=[(words, controls.on_slider("fault", fault)) for words, fault in view.choices(lamp)],
            value=controls.on_slider("fault", setting.fault),
            description="fault",
            style={"description_width": "150px"},
        )
        sliders = controls.of_lamp(lamp, "mains.voltage", "dropper", "smoothing", within="lamp.")
        groups = controls.linear("LEDs in series", lamp.string.in_series, "", min(2, lamp.string.in_series), 100, 1)
        return {"fault": fault, **sliders, "lamp.string.in_series": groups}
