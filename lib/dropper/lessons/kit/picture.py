"""Picture: the still axes of a figure with the layers over them, or white paper for a drawing without axes."""

from collections.abc import Iterable, Sequence
from html import escape

from ...results.style import PAPER
from .frame import Axes, draw_frame
from .overlay import Overlay, Span


class Picture:
    """A frame of axes, drawn when it is first needed, and layers over it.

    Parameters
    ----------
    size
        Width and height in pixels.
    """

    def __init__(self, size: tuple[int, int], *axes: Axes):
        self.size, self.axes = size, axes

    def backdrop(self) -> str:
        """The axes, drawn once, as an HTML image."""
        return draw_frame(self.axes, self.size).backdrop()

    def overlay(self, spans: Sequence[tuple[Span, Span]], ghost: bool = False) -> Overlay:
        """An empty overlay; `ghost` for one that is thin, grey and silent.

        Parameters
        ----------
        spans
            Across and up, for each of the axes.
        """
        return Overlay(draw_frame(self.axes, self.size), spans, ghost)


class Paper:
    """White paper for a drawing in SVG.

    Parameters
    ----------
    size
        Width and height in pixels.
    """

    def __init__(self, size: tuple[int, int]):
        self.size = size

    def backdrop(self) -> str:
        """The paper, as SVG text."""
        return self._svg('aria-hidden="true"', f'<rect width="{self.size[0]}" height="{self.size[1]}" fill="{PAPER}"/>')

    def drawing(self, pieces: Iterable[str], sentence: str) -> str:
        """Pieces of SVG laid over the paper, with the sentence as their text alternative."""
        label = escape(sentence, quote=True)
        return self._svg(f'class="dropper-curves" role="img" aria-label="{label}"', "".join(pieces))

    def ghost(self, pieces: Iterable[str]) -> str:
        """Pieces of SVG laid over the paper that say nothing."""
        return self._svg('aria-hidden="true"', "".join(pieces))

    def _svg(self, role, inner):
        view = f"0 0 {self.size[0]} {self.size[1]}"
        return f'<svg {role} viewBox="{view}" style="display:block;width:100%;height:auto">{inner}</svg>'
