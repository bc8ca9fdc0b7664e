"""Progress line: what is computed for longer than a blink shows how much of it is done."""

import contextlib
import time
from collections.abc import Iterator

from ...circuit import progress
from ...circuit.html import tag
from .markup import Html

_BLINK, _PACE = 0.15, 0.1  # s: shorter work shows nothing; the line is written anew no sooner than that


class ProgressLine(Html):
    """ "Computing … 40 %" and a bar while something is computed, and nothing else."""

    def __init__(self):
        super().__init__()
        self._started = self._written = self._share = 0.0

    @contextlib.contextmanager
    def watching(self) -> Iterator[None]:
        """Show how much is done of what the block computes."""
        self._started = self._written = time.monotonic()
        self._share = 0.0
        try:
            with progress.listening(self._show):
                yield
        finally:
            if self.value:
                self.value = ""

    def _show(self, share):
        now = time.monotonic()
        if now - self._started < _BLINK or (self.value and now - self._written < _PACE):
            return
        self._written, self._share = now, min(max(share, self._share), 1.0)  # it never goes back
        done = f"{100 * self._share:.0f}"
        bar = tag("progress", max="100", value=done, aria_label="share done")
        self.value = tag("div", f"Computing … {done} % ", bar, css="dropper-words")
