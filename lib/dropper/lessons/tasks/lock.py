"""Lock: one writer at a time, by a file beside the one that is written, on any system."""

import contextlib
import os
import time
from collections.abc import Iterator
from pathlib import Path

PATIENCE, STALE = 2.0, 10.0  # s: how long another writer is waited for, and after how long it is taken for dead


@contextlib.contextmanager
def file_lock(path: Path) -> Iterator:
    """Keep other writers out while reading, changing and writing; after a while go on all the same.

    Parameters
    ----------
    path
        The file; the lock stands beside it until the writing is over.
    """
    lock = path.with_name(f"{path.stem}.lock")
    locked, until = False, time.monotonic() + PATIENCE
    while not locked:
        try:
            os.close(os.open(lock, os.O_CREAT | os.O_EXCL | os.O_WRONLY))
            locked = True
        except FileExistsError:
            with contextlib.suppress(OSError):
                if time.time() - lock.stat().st_mtime > STALE:
                    lock.unlink()
                    continue
            if time.monotonic() > until:
                break
            time.sleep(0.005)
        except OSError:
            break  # a folder that cannot be written to: the writing itself will say so
    try:
        yield
    finally:
        if locked:
            with contextlib.suppress(OSError):
                lock.unlink()
