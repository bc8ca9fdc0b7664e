"""Writers that are killed, one after the other, at any moment of their writing: what they had saved must be there.

`python killed_writers.py FILE KILLS SEED` prints how many saves were acknowledged and what was lost of them.
"""

import os
import random
import signal
import sys
import time
from pathlib import Path

from dropper.lessons.tasks.entries import Entry
from dropper.lessons.tasks.progress import Progress

LONGEST = 0.02  # s: about ten saves


def write_until_killed(path, life, out):
    file = Progress(path)
    for save in range(1, 1_000_000):
        file.save(f"life {life}", Entry(1, tries=save))
        os.write(out, b".")


def saves_before_kill(path, life, wait):
    """How many saves a writer acknowledged before it was killed."""
    seen, out = os.pipe()
    writer = os.fork()
    if not writer:
        write_until_killed(path, life, out)
    os.close(out)
    saves = len(os.read(seen, 1))
    time.sleep(wait)
    os.kill(writer, signal.SIGKILL)
    os.waitpid(writer, 0)
    while dots := os.read(seen, 65536):
        saves += len(dots)
    os.close(seen)
    return saves


def lost_and_left(path, kills, seed):
    """Saves in all, what was lost of them, how many parts and locks the killed writers left."""
    draw, saved, lost, left = random.Random(seed), {}, [], 0
    for life in range(kills):
        saved[f"life {life}"] = saves_before_kill(path, life, draw.uniform(0, LONGEST))
        left += len(os.listdir(path.parent)) - 1
        entries = Progress(path).entries()
        for key, saves in saved.items():
            if key not in entries or entries[key].tries < saves:
                lost.append(f"{key}: {saves} saved, there is {entries.get(key)}")
    return sum(saved.values()), lost, left


if __name__ == "__main__":
    path, kills, seed = Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3])
    total, lost, left = lost_and_left(path, kills, seed)
    print(f"{total} saves, {kills} kills, {left} parts or locks left over, {len(lost)} lost")
    print("\n".join(lost))
