"""Symbols: the drawing package with its SVG side alone.

Where pyplot is installed, schemdraw imports it for a side of its own that is not used here: 45 MB and a third of a
second. That one module of schemdraw's is kept out of its first import.
"""

from __future__ import annotations

import sys
from types import ModuleType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from schemdraw import Drawing

_PYPLOT_SIDE = "schemdraw.backends.mpl"


def elements() -> ModuleType:
    """The module of schemdraw's elements.

    Examples
    --------
    >>> elements().ResistorIEC.__name__
    'ResistorIEC'
    """
    _load()
    import schemdraw.elements

    return schemdraw.elements


def new_drawing(**look: float | str) -> Drawing:
    """An empty drawing that becomes SVG.

    Parameters
    ----------
    look
        What schemdraw's `Drawing.config` takes.
    """
    _load()
    import schemdraw

    schemdraw.use("svg")
    drawing = schemdraw.Drawing(show=False, canvas="svg")
    drawing.config(**look)
    return drawing


def _load():
    """Import schemdraw; in a process that has imported it whole already there is nothing to keep out."""
    if "schemdraw" in sys.modules:
        return
    sys.modules[_PYPLOT_SIDE] = None  # an import of it fails, as where pyplot is not installed
    try:
        import schemdraw.elements  # noqa: F401
    finally:
        del sys.modules[_PYPLOT_SIDE]
