"""What need not stand between a slider and its curves: done a moment after them."""

import asyncio
from collections.abc import Callable

from IPython import get_ipython


class Deferred:
    """Does named things after a delay, once each however often they are asked for meanwhile.

    Outside a notebook's kernel there is no page to wait for: they are done at once.
    """

    def __init__(self):
        self._due = {}

    def soon(self, what: str, delay: float, act: Callable) -> None:
        """Do `act` after `delay` seconds, unless a thing of that name is due already.

        Parameters
        ----------
        delay
            Seconds.
        act
            Called with nothing.
        """
        if getattr(get_ipython(), "kernel", None) is None:
            act()
        elif what not in self._due:
            self._due[what] = asyncio.get_running_loop().call_later(delay, self._now, what, act)

    def _now(self, what, act):
        del self._due[what]
        act()
