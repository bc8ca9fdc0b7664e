"""Prediction: a question is answered before the sliders move, and judged once they have shown what it is about."""

from collections.abc import Callable, Mapping

import ipywidgets as widgets

from ...circuit.html import Markup, joined, tag
from ...circuit.values import unbroken
from .sliders import button, words

SURE = {"guess": "A guess", "fairly": "Fairly sure", "sure": "Sure"}
SEEN = {"up": "up", "same": "about the same", "down": "down"}
_FIRST = "Choose an answer first, or skip."


class Prediction(widgets.VBox):
    """A question with a few answers to choose from; the button that notes one says how sure one is of it.

    Once it is answered it folds to one line, which says later what has come of it.

    Parameters
    ----------
    answers
        What can be chosen, by key.
    then
        Called once it is answered or skipped.
    causes
        Why an answer that does not hold does not, by its key.
    name
        Of what the question is about; it stands at the head of the line.

    Attributes
    ----------
    answer : str or None
        The key of the learner's choice; None until then, or when skipped.
    sure : str or None
        A key of `SURE`; None until then, when skipped, or where it is not known.
    answered : bool
        Whether it is answered or skipped.
    choice : widgets.RadioButtons
    sure_buttons : dict of str to widgets.Button
        They note the answer, by key of `SURE`.
    skip_button, show_button : widgets.Button
    seen_buttons : dict of str to widgets.Button
        What was seen, by key of `SEEN`.
    asked_box, line_box, seen_box : widgets.Box
        The question with its answers; the line that it folds to; what was seen.
    reply : Html
        The line: what was predicted, and what has come of it.
    """

    def __init__(
        self,
        question: str,
        answers: Mapping[str, str],
        then: Callable[[], None],
        causes: Mapping[str, str] | None = None,
        name: str = "",
    ):
        self.answer = self.sure = None
        self.answered = False
        self._then, self._causes, self._name, self._name_then = then, causes or {}, name, ""
        self._seen = lambda key: None
        self._question, self.reply, self._seen_text = words(), words(), words()
        self._first = words()  # what is missing
        self.choice = widgets.RadioButtons(
            description="I predict:",
            style={"description_width": "auto"},
            layout=widgets.Layout(width="auto", margin="2px 16px 2px 2px"),
        )
        self.sure_buttons = {
            key: button(text, "Notes your answer", lambda key=key: self.note(key)) for key, text in SURE.items()
        }
        self.skip_button = button("Skip", "Goes on without a prediction", self.skip)
        self.show_button = button("Show the question", "Shows the question and its answers again", self.show_question)
        self.seen_buttons = {key: button(text, "", lambda key=key: self._seen(key)) for key, text in SEEN.items()}
        sure = [words("How sure are you?"), *self.sure_buttons.values(), self.skip_button]
        self.asked_box = widgets.VBox([self._question, self.choice, widgets.HBox(sure), self._first])
        self.seen_box = widgets.HBox([self._seen_text, *self.seen_buttons.values()])
        self.line_box = widgets.HBox([self.reply, self.seen_box, self.show_button])
        self.line_box.layout.display = self.seen_box.layout.display = "none"
        self.line_box.add_class("dropper-verdict")
        for row in (self.asked_box.children[2], self.seen_box):
            row.add_class("dropper-one-tap")
        # The line stands first, so that the next control after a button that notes is a slider.
        super().__init__([self.line_box, self.asked_box])
        self.ask(question, answers, name)

    def ask(self, question: str, answers: Mapping[str, str], name: str = "") -> None:
        """Ask of something else; an answer that is there is kept as one about it, and what came of it is forgotten."""
        self._answers, self._name = answers, name
        self._question.value = tag("div", question, css="dropper-words question")
        options = tuple((text, key) for key, text in answers.items())
        if tuple(self.choice.options) != options:
            chosen = self.choice.value
            self.choice.options = options
            self.choice.value = chosen if chosen in answers else None
        self.choice.orientation = "horizontal" if sum(map(len, answers.values())) < 70 else "vertical"
        self.seen_box.layout.display = "none"
        if self.answered:
            self.tell("")

    def note(self, sure: str | None = None) -> None:
        """Note the answer that is chosen.

        Parameters
        ----------
        sure
            A key of `SURE`; None where it is not known.
        """
        if self.choice.value is None:
            self._first.value = tag("div", _FIRST, css="dropper-words", role="status")
            return
        self.answer, self.sure = self.choice.value, sure
        self._fold()

    def skip(self) -> None:
        """Go on without an answer."""
        self._fold()

    def _fold(self):
        self.answered, self._name_then = True, self._name
        for control in (self.choice, *self.sure_buttons.values(), self.skip_button):
            control.disabled = True
        self._first.value = ""
        self.asked_box.layout.display, self.line_box.layout.display = "none", ""
        self.tell("")
        self._then()

    def show_question(self) -> None:
        """Show the question again beneath the line, or put it away."""
        hidden = self.asked_box.layout.display == "none"
        self.asked_box.layout.display = "" if hidden else "none"
        self.show_button.description = "Hide the question" if hidden else "Show the question"

    def ask_seen(self, question: str, then: Callable[[str], None]) -> None:
        """Ask what was seen, before it is judged; `then` is called with a key of `SEEN`."""
        self._seen = then
        self.tell("", aloud=False)  # the line is known, the question is what is said
        text = tag("div", question, css="dropper-words question", role="status")
        if self._seen_text.value != text:
            self._seen_text.value = text
        self.seen_box.layout.display = ""

    def drop_seen(self) -> None:
        """Take the question of what was seen away."""
        self.seen_box.layout.display, self._seen_text.value = "none", ""

    def withdraw(self, why: str) -> None:
        """Give the question up, for what is on the panel is no longer what it was about."""
        if not self.answered:
            self.skip()
        self.drop_seen()
        self.tell(why)

    def judge(self, right: str, outcome: str, seen: str = "") -> None:
        """Say whether the prediction was right, what the lamp does, and why an answer that does not hold does not.

        Parameters
        ----------
        right
            The key of the answer that holds; "" where none is called so.
        seen
            What was seen, in a sentence.
        """
        self.drop_seen()
        seen = f"{seen} " if seen else ""
        if not right or self.answer is None:
            self.tell(f"{seen}{outcome}")
            return
        word = "Right:" if self.answer == right else "Not so:"
        cause = "" if self.answer == right else self._causes.get(self.answer, "")
        self.tell(joined(seen, tag("strong", word), f" {_after_colon(outcome)} {cause}".rstrip()))

    def tell(self, more: str, aloud: bool = True) -> None:
        """Show what was predicted, and what has come of it.

        Parameters
        ----------
        aloud
            Whether the voice says it.
        """
        of = f" of the {self._name_then}" if self._name_then != self._name else ""
        sure = f" ({SURE[self.sure].lower()})" if self.sure else ""
        said = "No prediction made."
        if self.answer is not None:
            said = f"You said{of}{sure}: {_sentence(self._answers[self.answer])}"
        name = joined(tag("span", f"{self._name}:", css="of"), " ") if self._name else ""
        line = joined(name, tag("b", said), " " if more else "", more)
        line = Markup(unbroken(line))  # escaped already: only spaces change
        self.reply.value = tag("div", line, css="dropper-words", role="status" if aloud else "")


def _sentence(text):
    """An answer as a sentence behind a colon."""
    return _after_colon(text if text.rstrip("”’)").endswith((".", "?", "!")) else f"{text}.")


def _after_colon(sentence):
    """A sentence as it goes on behind a colon: a word in small letters, a symbol or a name such as LED as it is."""
    word = sentence.partition(" ")[0]
    return sentence[:1].lower() + sentence[1:] if word[1:].islower() or word == "A" else sentence
