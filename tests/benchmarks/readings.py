"""How soon ten million samples are read, measured and made small for a picture, beside two other ways of reading.

    .venv/bin/python tests/benchmarks/readings.py            # 10 million rows of three columns, about 270 MB
    .venv/bin/python tests/benchmarks/readings.py 1000000    # fewer

Each way reads in a process of its own; prints seconds and the most memory it used; asserts nothing.
"""

import csv
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import numpy as np

STEP, FREQUENCY, CHUNK = 1e-6, 50.02, 500_000


def write(path, count):
    """A recording of ten seconds and more at a million samples a second, with noise and rounding."""
    chance = np.random.default_rng(1)
    with path.open("w", encoding="utf-8") as file:
        file.write("Time (s),CH1 (V),CH2 (V)\n")
        for first in range(0, count, CHUNK):
            t = np.arange(first, min(first + CHUNK, count)) * STEP
            turn = 2 * np.pi * FREQUENCY * t
            volts = 3.25 * np.sin(turn) + chance.normal(0, 0.02, t.size)
            amperes = 0.2 * np.cos(turn) + chance.normal(0, 0.003, t.size)
            rows = zip(t.tolist(), volts.tolist(), amperes.tolist(), strict=True)
            file.write("\n".join(f"{a:.6f},{b:.3f},{c:.4f}" for a, b, c in rows) + "\n")


def workbook(path):
    """Read, measure, thin: the workbook's own."""
    from dropper.bench import waveform
    from dropper.bench.waveform import Channel

    marks = [time.perf_counter()]
    recording = waveform.load(path, mains_voltage=Channel("CH1", factor=100), line_current=Channel("CH2", shunt=10.0))
    marks.append(time.perf_counter())
    measurement = waveform.measure(recording)
    marks.append(time.perf_counter())
    waveform.decimate(recording.time, recording.mains_voltage)
    waveform.fold(recording.time, recording.mains_voltage, measurement.frequency.value, measurement.period.phase)
    marks.append(time.perf_counter())
    read, found, thin = np.diff(marks)
    return f"read {read:.1f} s, measured {found:.1f} s ({measurement.count} periods), made small {thin:.1f} s"


def loadtxt(path):
    """NumPy alone."""
    start = time.perf_counter()
    np.loadtxt(path, delimiter=",", skiprows=1)
    return f"read {time.perf_counter() - start:.1f} s"


def module_csv(path):
    """The standard library's csv module and float()."""
    start = time.perf_counter()
    with path.open(newline="", encoding="utf-8") as file:
        rows = csv.reader(file)
        next(rows)
        np.fromiter((float(cell) for row in rows for cell in row), float)
    return f"read {time.perf_counter() - start:.1f} s"


WAYS = {"workbook": workbook, "numpy.loadtxt": loadtxt, "csv module": module_csv}

if __name__ == "__main__":
    if len(sys.argv) > 2:
        told = WAYS[sys.argv[1]](Path(sys.argv[2]))
        most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / (2**20 if sys.platform == "darwin" else 2**10)
        print(f"{sys.argv[1]:15} {told}, {most:.0f} MB at most")
    else:
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / "long.csv"
            count = int(sys.argv[1]) if len(sys.argv) > 1 else 10_000_000
            write(path, count)
            print(f"{count:,} rows, {path.stat().st_size / 1e6:.0f} MB".replace(",", " "))
            for way in WAYS:
                subprocess.run([sys.executable, __file__, way, str(path)], check=True)
