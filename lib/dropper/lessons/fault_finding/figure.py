"""Fault-finding figure: the likeliest causes as bars, now and before any reading, and what readings say in words."""

from .hunt_figure import PICTURE, backdrop, odds_bars, scales
from .view import View

__all__ = ["PICTURE", "backdrop", "overlay", "scales", "sentence"]


def overlay(view: View, scale: int, sentence: str) -> str:
    """The bars of one view.

    Parameters
    ----------
    scale
        From `scales`.
    sentence
        The text alternative.
    """
    return odds_bars(view.bars, sentence, "before any reading", scale)


def sentence(view: View) -> str:
    """The picture in words."""
    head = (
        "Nothing is read yet; the bars are what is usually met."
        if not view.count
        else (f"From {view.count} reading{'s' * (view.count > 1)}.")
    )
    return f"{head} {view.verdict}"
