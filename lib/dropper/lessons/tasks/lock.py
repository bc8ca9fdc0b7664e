"""Lock: one writer at a time, by a file beside the one that is written; the system frees it when its process ends."""

import contextlib
import os
from collections.abc import Iterator
from pathlib import Path

from filelock import FileLock, Timeout

PATIENCE, AGAIN = 10.0, 0.002  # s: how long another writer is waited for, and how often it is looked for


class FileTrouble(Exception):
    """A learner's file that cannot be read or written; the message continues a sentence that begins with its name."""


@contextlib.contextmanager
def file_lock(path: Path) -> Iterator:
    """Keep other writers out while reading, changing and writing.

    Parameters
    ----------
    path
        The file; the lock stands beside it until the writing is over. One left by a process that has ended
        holds nobody up and goes with the next writing.

    Raises
    ------
    FileTrouble
        When another process does not let go of it, or the folder cannot be written to.
    """
    if not path.parent.is_dir():
        raise FileTrouble("cannot be written (its folder is not there)")
    lock = FileLock(path.with_name(f"{path.stem}.lock"), timeout=PATIENCE, poll_interval=AGAIN)
    try:
        lock.acquire()
    except Timeout:
        raise FileTrouble("is being written by another program") from None
    except OSError as error:
        raise FileTrouble(f"cannot be written ({error.strerror})") from None
    try:
        yield
    finally:
        with contextlib.suppress(OSError):  # who waits for it sees that it is gone, and makes its own
            os.unlink(lock.lock_file)
        lock.release()
