"""Positions: a page's sliders, lists and fields put back where they were, once its cells have run again.

The page reads them off itself, panel by panel, each as a kind, a label and a position. A choice may bring other
sliders, so the controls are looked for anew before each is set.
"""

from collections.abc import Iterable, Iterator, Sequence

import ipywidgets as widgets
from ipywidgets.widgets.widget import _instances as _shown  # every widget of this kernel by the id the page knows

from .prediction import Prediction

_KINDS = {
    "slider": (widgets.SelectionSlider, widgets.SelectionRangeSlider, widgets.IntSlider, widgets.FloatSlider),
    "list": (widgets.Dropdown, widgets.Select),
    "radio": (widgets.RadioButtons,),
    "check": (widgets.Checkbox,),
    "text": (widgets.Text, widgets.Textarea, widgets.Combobox),
}
_ALL = tuple(kind for kinds in _KINDS.values() for kind in kinds)


def controls(
    root: widgets.Widget, owner: Prediction | None = None
) -> Iterator[tuple[widgets.Widget, Prediction | None]]:
    """The controls of a panel in the page's order, each with the prediction it belongs to."""
    if isinstance(root, _ALL):
        yield root, owner
    for child in getattr(root, "children", ()):
        yield from controls(child, root if isinstance(root, Prediction) else owner)


def _put(control, owner, position, asleep):
    if hasattr(control, "index"):
        count = len(control.options)
        if position is not None and 0 <= position < count and control.index != position:
            control.index = position
        if owner is not None and asleep and not owner.answered:
            owner.skip() if control.index is None else owner.note()
    elif control.value != position:
        control.value = type(control.value)(position)


def put_back(root: widgets.Widget, rows: Sequence[Sequence]) -> int:
    """Put the controls of one panel where a page had them.

    Parameters
    ----------
    rows
        Of each control, in the page's order: its kind, its label, its position and whether it was asleep.

    Returns
    -------
    int
        How many were found again.
    """
    seen, count = {}, 0
    for kind, label, position, asleep in rows:
        place = seen[kind, label] = seen.get((kind, label), -1) + 1
        alike = [
            found
            for found in controls(root)
            if isinstance(found[0], _KINDS[kind]) and " ".join(found[0].description.split()) == label
        ]
        if place < len(alike):
            _put(*alike[place], position, asleep)
            count += 1
    return count


def restore(panels: Iterable[tuple[str, Sequence[Sequence]]]) -> None:
    """Put the controls of a page's panels back; each panel is named by the id that the page knows it by."""
    for identity, rows in panels:
        if identity in _shown:
            put_back(_shown[identity], rows)
