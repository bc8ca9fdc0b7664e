"""Interrupt: work that goes on between cells is stopped by the kernel's interrupt, as a cell is."""

import signal
import threading
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def interruptible() -> Iterator[None]:
    """Let an interrupt raise KeyboardInterrupt in the block; between cells a kernel hears none.

    Python lets only the main thread say what a signal does; in another one nothing is changed.
    """
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    handler = signal.signal(signal.SIGINT, signal.default_int_handler)
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, handler)
