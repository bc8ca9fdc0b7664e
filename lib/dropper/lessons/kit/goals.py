"""Goals: what to reach with the sliders; the panel notices when one is reached, and says what it shows."""

import logging
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import ipywidgets as widgets

from ...circuit.fields import about, documented
from ...circuit.html import joined, tag
from ...circuit.values import unbroken
from .markup import Html

_MARKS = {True: ("☑", "reached: "), False: ("☐", "not reached yet: ")}


@documented
@dataclass(frozen=True)
class Goal:
    """Something to reach; `reached` and `words` take the view, the panel's first view, and the kept view or None."""

    key: str = about("what it is called in code.")
    text: str = about("what to reach, in one sentence of at most 20 words.")
    reached: Callable[[Any, Any, Any], bool] = about("whether it is.")
    words: Callable[[Any, Any, Any], str] = about("what it shows, with the numbers of the views.")


class GoalList(widgets.VBox):
    """Goals with a mark each: an empty box, or a ticked one and what was seen when it was reached.

    Parameters
    ----------
    forgiving
        Whether a goal that fails counts as not reached, as on a page; otherwise its error is raised.

    Attributes
    ----------
    seen : dict of str to str
        What was seen when a goal was reached, by the goal's key.
    marks : Html
        The list.
    news : Html
        What was reached last, for the voice alone.
    """

    def __init__(self, goals: tuple[Goal, ...], forgiving: Callable[[], bool] = lambda: False):
        self.goals, self._forgiving, self.seen = goals, forgiving, {}
        self.marks, self.news = Html(), Html()
        super().__init__([self.marks, self.news])
        self._write()

    def check(self, view: Any, first_view: Any, kept_view: Any) -> None:
        """Tick the goals that a view reaches; those that were reached stay so."""
        fresh = {}
        for goal in self.goals:
            if goal.key not in self.seen:
                text = self._attempt(goal, view, first_view, kept_view)
                if text:
                    fresh[goal.key] = text
        if fresh:
            self.seen |= fresh
            self._write()
            news = " ".join(f"Reached: {text}" for text in fresh.values())
            self.news.value = tag("div", unbroken(news), css="dropper-spoken", role="status")

    def clear(self) -> None:
        """Tick nothing: another lamp is on the panel."""
        self.seen, self.news.value = {}, ""
        self._write()

    def _attempt(self, goal, *views):
        try:
            return goal.words(*views) if goal.reached(*views) else ""
        except Exception:
            if not self._forgiving():
                raise
            logging.getLogger(__name__).exception("the goal %s cannot be looked at", goal.key)
            return ""

    def _write(self):
        rows = [self._row(goal) for goal in self.goals]
        head = tag("b", "Try") if rows else ""
        self.marks.value = tag("div", head, tag("ul", *rows), css="dropper-words dropper-goals") if rows else ""

    def _row(self, goal):
        text = self.seen.get(goal.key, "")
        mark, spoken = _MARKS[bool(text)]
        box = joined(tag("span", mark, css="mark", aria_hidden="true"), tag("span", spoken, css="dropper-spoken"))
        shows = tag("span", f" {unbroken(text)}", css="shows") if text else ""
        return tag("li", box, tag("span", goal.text), shows, css="reached" if text else "")
