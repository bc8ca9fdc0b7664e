"""Room: how wide a picture may be on its page, and what of its scales stays from one drawing to the next."""

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass, field

_FALLS_BELOW = 3  # a scale is left once its curves fill less than this part of it


@dataclass
class Room:
    """The room of one picture.

    width: of the picture on its page, in pixels; None for its own. first: how tall the axes may be that stay in sight
    while the sliders are moved, in pixels; None where all axes stand together.
    """

    width: int | None = None
    first: int | None = None
    _tops: dict[int, float] = field(default_factory=dict)
    _shown: dict[int, tuple[float, float]] = field(default_factory=dict)
    _place: int | None = None  # which of the scales is asked for

    def let_go(self) -> None:
        """Forget the scales: the next drawing chooses its own, and says of none that it is another."""
        self._tops.clear()
        self._shown.clear()

    @contextmanager
    def keeping_scales(self) -> Iterator[None]:
        """Have scales stay that are asked for in here, in the order in which they are."""
        self._place = 0
        try:
            with drawing_in(self):
                yield
        finally:
            self._place = None

    def steady(self, largest: float, top: float) -> float:
        """The scale to draw with: the last one while it holds `largest` and a third of it is filled, else `top`."""
        if self._place is None:
            return top
        last = self._tops.get(self._place)
        if last is not None and top <= last < _FALLS_BELOW * largest:
            top = last
        self._tops[self._place] = top
        self._place += 1
        return top

    def has_changed(self, axes: int, ends: tuple[float, float]) -> bool:
        """Whether an axis has other ends than when it was last drawn in here."""
        last, self._shown[axes] = self._shown.get(axes), ends
        return last not in (None, ends)


_HERE: ContextVar[Room | None] = ContextVar("room", default=None)


@contextmanager
def drawing_in(room: Room | None) -> Iterator[None]:
    """Have pictures drawn in here take a room; None for each picture's own size."""
    token = _HERE.set(room)
    try:
        yield
    finally:
        _HERE.reset(token)


def here() -> Room:
    """The room that is drawn in."""
    return _HERE.get() or Room()
