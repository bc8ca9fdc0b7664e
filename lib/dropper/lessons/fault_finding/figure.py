"""Fault-finding figure: odds of every cause as bars, now and before any reading, and what readings say in words."""

from .hunt_figure import PICTURE, backdrop, odds_bars, scales
from .hunt_view import leading
from .view import View

__all__ = ["PICTURE", "backdrop", "overlay", "scales", "sentence"]


def overlay(view: View, scale: None, sentence: str) -> str:
    """The bars of one view.

    Parameters
    ----------
    sentence
        The text alternative.
    """
    return odds_bars(view.bars, sentence, "before any reading")


def sentence(view: View) -> str:
    """The picture in words."""
    head = (
        "Nothing is read yet; the bars are what is usually met."
        if not view.count
        else (f"From {view.count} reading{'s' * (view.count > 1)}.")
    )
    return f"{head} The odds: {', '.join(leading(view.bars)) or 'none above 2 %'}. {view.verdict}"
