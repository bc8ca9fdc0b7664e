"""Room note: the hidden field in which the page's script writes how much room a picture has (`layout.js`)."""

import re
from collections.abc import Callable

import ipywidgets as widgets

_LEAST, _MOST = 160, 2400  # pixels


def room_note(take: Callable[[int, int | None], None]) -> widgets.Text:
    """A hidden field; what is written there goes to `take`, and what is no room is left alone.

    Parameters
    ----------
    take
        Called with the width of the picture and the height of its first axes, in pixels; None for the height where
        all axes stand together.
    """
    note = widgets.Text(description="room of the picture", continuous_update=False)
    note.add_class("dropper-room")

    def read(change):
        numbers = re.fullmatch(r"(\d{3,4}) (\d{1,3})", change.new)
        if numbers and _LEAST <= int(numbers[1]) <= _MOST:
            take(int(numbers[1]), int(numbers[2]) or None)

    note.observe(read, "value")
    return note
