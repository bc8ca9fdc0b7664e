"""Picture: the still axes of a figure with the layers over them, or bare paper for a drawing without axes."""

from collections.abc import Iterable, Sequence
from html import escape

from ...circuit.html import Markup
from .arrangement import arranged
from .frame import Axes, Frame
from .overlay import Overlay, Span
from .room import here


class Picture:
    """A frame of axes and layers over it, as it is drawn or, in a room with a width, arranged for that.

    Parameters
    ----------
    size
        Width and height in pixels.
    lead
        Which of the axes stay in sight while sliders are moved, where there is room for no more.
    """

    def __init__(self, size: tuple[int, int], *axes: Axes, lead: int = 0):
        self._frames = {(None, None): Frame(axes, size)}
        self._lead = lead

    @property
    def frame(self) -> Frame:
        """The frame in the room that is drawn in."""
        room = here()
        key = room.width, room.first
        if key not in self._frames:
            drawn = self._frames[None, None]
            axes, size, cut = arranged(drawn.axes, drawn.size, *key, self._lead)
            self._frames[key] = Frame(axes, size, cut, laid=True)
        return self._frames[key]

    @property
    def size(self) -> tuple[int, int]:
        """Width and height in pixels."""
        return self.frame.size

    @property
    def axes(self) -> tuple[Axes, ...]:
        """The axes, each where it stands."""
        return self.frame.axes

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
