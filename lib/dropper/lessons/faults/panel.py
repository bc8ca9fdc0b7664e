"""Faults panel: pick a fault, predict the light, and see what the other parts must stand."""

from pathlib import Path
from typing import Any

import ipywidgets as widgets

from ...circuit.html import tag
from ...circuit.lamp import Lamp
from ..kit import sliders as controls
from ..kit.lamp_panel import LampPanel
from . import figure, view

GUESSES = {
    "dark": "dark",
    "dim": "dim",
    "same": "looks the same",
    "brighter": "brighter",
    "over": "overdriven, until it bangs",
}


class Faults(LampPanel):
    """A lamp with one part broken, beside the healthy one; see `LampPanel`.

    Attributes
    ----------
    guess_text : Html
        What is to be guessed of a fault, and what came of it.
    guess_buttons : widgets.HBox
    """

    picture, lesson = figure, view
    decisive = ("fault",)

    def __init__(self, path: str | Path | Lamp, ask: bool = True):
        self._guess_fault = None  # it waits for a guess
        self.guess_text = controls.words()
        self.guess_buttons = widgets.HBox(
            [
                controls.button(words, f"Guess that the light is so: {words}", lambda word=word: self.guess(word))
                for word, words in (*GUESSES.items(), (None, "just show it"))
            ]
        )
        self.guess_buttons.layout.display = "none"
        super().__init__(path, ask)

    def asides(self) -> list[widgets.Widget]:
        return [self.guess_text, self.guess_buttons]

    def guess(self, word: str | None) -> None:
        """Guess what the light does with the fault that waits, and see it.

        Parameters
        ----------
        word
            One of `GUESSES`; None: no guess.
        """
        fault, self._guess_fault = self._guess_fault, None
        self.guess_buttons.layout.display = "none"
        if fault is None:
            return
        super().move("fault", fault)
        now = self.view.now.word
        guess = "No guess made." if word is None else f"You guessed {GUESSES[word]!r}:"
        right = "" if word is None else " right." if word == now else f" it is {GUESSES[now]!r}."
        self.guess_text.value = tag("div", guess + right, css="dropper-words", role="status")

    def move(self, path: str, value: Any) -> None:
        if path != "fault" or self._busy or self.prediction is None:
            super().move(path, value)
            return
        if not value:
            self._drop_guess()
            super().move(path, value)
            return
        self._guess_fault = value
        words = value.words(self.setting.lamp)
        self.guess_text.value = tag(
            "div", f"{words}: what does the light do?", css="dropper-words question", role="status"
        )
        self.guess_buttons.layout.display = ""

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
        return (
            f"One diode of the {self.initial.lamp.name}'s bridge opens. What does the light do?",
            {
                "half": "half the brightness: every other half cycle is missing",
                "dark": "dark",
                "same": "nothing to be seen: the smoothing capacitor fills in",
            },
        )

    def verdict(self) -> tuple[str, str]:
        word, sentence = view.fault_verdict(self.question_setting.lamp, view.QUESTION_FAULT)
        return {"dark": "dark", "dim": "half", "same": "same"}.get(word, ""), (
            f"{sentence} The other diodes charge the dropper in one direction until nothing flows: a capacitor"
            " blocks dc."
        )

    def can_judge(self) -> bool:
        return super().can_judge() and self.setting.fault == view.QUESTION_FAULT

    def make_sliders(self, setting: view.FaultyLamp) -> dict[str, widgets.Widget]:
        lamp = setting.lamp
        fault = widgets.Dropdown(
            options=[(words, controls.on_slider("fault", fault)) for words, fault in view.choices(lamp)],
            value=controls.on_slider("fault", setting.fault),
            description="fault",
            style={"description_width": "150px"},
            layout=widgets.Layout(width=controls.WIDTH),
        )
        sliders = controls.of_lamp(lamp, "mains.voltage", "dropper", "smoothing", within="lamp.")
        groups = controls.linear("LEDs in series", lamp.string.in_series, "", min(2, lamp.string.in_series), 100, 1)
        return {"fault": fault, **sliders, "lamp.string.in_series": groups}
