"""Deferred calls: what need not stand between a slider and its curves is done a moment after them."""

import asyncio
from collections.abc import Callable

from IPython import get_ipython


class Deferred:
    """Calls under a name, after a delay, once each however often they are asked for meanwhile.

    Outside a notebook's kernel there is no page to wait for: they are done at once.
    """

    def __init__(self):
        self._due = {}

    @property
    def waits(self) -> bool:
        """Whether there is a page, so that a call waits for its time."""
        return getattr(get_ipython(), "kernel", None) is not None

    def call_later(self, name: str, delay: float, action: Callable[[], None]) -> None:
        """Call `action` after `delay` seconds, unless a call of that name is due already.

        Parameters
        ----------
        name
            One name for each thing to do.
        """
        if not self.waits:
            action()
        elif name not in self._due:
            self._due[name] = asyncio.get_running_loop().call_later(delay, self._call, name, action)

    def _call(self, name, action):
        del self._due[name]
        action()
