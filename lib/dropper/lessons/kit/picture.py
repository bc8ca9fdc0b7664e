"""Picture: the still axes of a figure with the layers over them, or bare paper for a drawing without axes."""

from collections.abc import Iterable, Sequence
from html import escape

from ...circuit.html import Markup
from .frame import Axes, Frame
from .overlay import Overlay, Span


class Picture:
    """A frame of axes and layers over it.

    Parameters
    ----------
    size
        Width and height in pixels.
    """

    def __init__(self, size: tuple[int, int], *axes: Axes):
        self.size, self.axes = size, axes
        self.frame = Frame(axes, size)

    def backdrop(self) -> Markup:
        """The axes, drawn once, as SVG text."""
        return self.frame.svg

    def overlay(self, spans: Sequence[tuple[Span, Span]], ghost: bool = False) -> Overlay:
        """An empty overlay; `ghost` for one that is thin, grey and silent.

        Parameters
        ----------
        spans
            Across and up, for each of the axes.
        """
        return Overlay(self.frame, spans, ghost)


class Paper:
    """The page itself, for a drawing in SVG without axes.

    Parameters
    ----------
    size
        Width and height in pixels.
    """

    def __init__(self, size: tuple[int, int]):
        self.size = size

    def backdrop(self) -> Markup:
        """Room for the drawing, as SVG text."""
        return self._svg('class="dropper-frame" aria-hidden="true"', "")

    def drawing(self, pieces: Iterable[str], sentence: str) -> Markup:
        """Pieces of SVG laid over the paper, with the sentence as their text alternative."""
        label = escape(sentence, quote=True)
        return self._svg(f'class="dropper-curves" role="img" aria-label="{label}"', "".join(pieces))

    def ghost(self, pieces: Iterable[str]) -> Markup:
        """Pieces of SVG laid over the paper that say nothing."""
        return self._svg('aria-hidden="true"', "".join(pieces))

    def _svg(self, role, inner):
        view = f"0 0 {self.size[0]} {self.size[1]}"
        return Markup(f'<svg {role} viewBox="{view}" style="display:block;width:100%;height:auto">{inner}</svg>')
