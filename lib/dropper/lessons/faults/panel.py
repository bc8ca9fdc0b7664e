"""Faults panel: pick a fault, predict the light, and see what the other parts must stand."""

from html import escape

import ipywidgets as widgets

from ...circuit.lamp import Lamp
from ...solver.transient import Fault
from ..kit import sliders as controls
from ..kit.lamp_panel import LampPanel
from . import figure, view

_ASKED = Fault("open", "D1")
GUESSES = {
    "dark": "dark",
    "dim": "dim",
    "same": "looks the same",
    "brighter": "brighter",
    "over": "overdriven, until it bangs",
}


class Faults(LampPanel):
    """A lamp with one part broken, beside the healthy one; see `LampPanel`."""

    picture, lesson = figure, view
    decisive = ("fault",)

    def __init__(self, path: str, ask: bool = True):
        self._pending = None  # a fault that waits for a guess
        self._guessed = controls.words()
        self._guess = widgets.HBox(
            [
                controls.button(words, f"Guess that the light is so: {words}", lambda word=word: self.guess(word))
                for word, words in (*GUESSES.items(), (None, "just show it"))
            ]
        )
        self._guess.layout.display = "none"
        super().__init__(path, ask)

    def asides(self) -> list:
        return [self._guessed, self._guess]

    def guess(self, word: str | None) -> None:
        """Guess what the light does with the fault that waits, and see it.

        Parameters
        ----------
        word
            One of `GUESSES`; None: no guess.
        """
        fault, self._pending = self._pending, None
        self._guess.layout.display = "none"
        if fault is None:
            return
        super().move("fault", fault)
        now = self.view.now.word
        told = "No guess made." if word is None else f"You guessed {GUESSES[word]!r}:"
        right = "" if word is None else " right." if word == now else f" it is {GUESSES[now]!r}."
        self._guessed.value = f'<div class="dropper-words" role="status">{escape(told + right)}</div>'

    def move(self, path, value):
        if path != "fault" or self._busy or self.prediction is None:
            super().move(path, value)
            return
        if not value:
            self._wait_no_more()
            super().move(path, value)
            return
        self._pending = value
        words = value.words(self.setting.lamp)
        self._guessed.value = (
            f'<div class="dropper-words question" role="status">{escape(words)}: what does the light do?</div>'
        )
        self._guess.layout.display = ""

    def start_from(self, setting: view.FaultyLamp) -> None:
        super().start_from(setting)
        self._wait_no_more()

    def reset(self) -> None:
        self._wait_no_more()
        super().reset()

    def _wait_no_more(self):
        """Drop the fault that waits for a guess."""
        self._pending, self._guessed.value, self._guess.layout.display = None, "", "none"

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
        word, told = view.fault_verdict(self.question_setting.lamp, _ASKED)
        return {"dark": "dark", "dim": "half", "same": "same"}.get(word, ""), (
            f"{told} The other diodes charge the dropper in one direction until nothing flows: a capacitor blocks dc."
        )

    def can_judge(self) -> bool:
        return super().can_judge() and self.setting.fault == _ASKED

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
