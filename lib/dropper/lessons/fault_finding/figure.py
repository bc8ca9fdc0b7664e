"""What readings say, in words; the bars are those of the hunt."""

from .hunt_figure import PICTURE, backdrop, overlay
from .hunt_view import leading

BEFORE = "before any reading"

__all__ = ["BEFORE", "PICTURE", "backdrop", "overlay", "sentence"]


def sentence(view) -> str:
    """The picture in words.

    Parameters
    ----------
    view : lessons.finding.View
    """
    head = (
        "Nothing is read yet; the bars are what is usually met."
        if not view.taken
        else (f"From {view.taken} reading{'s' * (view.taken > 1)}.")
    )
    return f"{head} The odds: {', '.join(leading(view.bars)) or 'none above 2 %'}. {view.verdict}"
