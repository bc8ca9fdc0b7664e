"""LED fit: an LED of the learner's own, from its data sheet, or fitted to volts and amperes measured on it.

    from dropper.bench import led_fit

    fit = led_fit.from_csv("lamps/bench_led.csv")           # columns of volts and of milliamperes
    print(fit)                                              # how well the curve meets the points, and where it ends
    lamp = dataclasses.replace(lamp, string=dataclasses.replace(lamp.string, led=fit.led))

    led_fit.fit([2.62, 2.71, 2.83, 3.02], [0.001, 0.003, 0.008, 0.02]).led
    led_fit.from_sheet("my white one", 3.1, 0.020, current_limit=0.030, least=2.8, greatest=3.4).led("least")

Measure on a low dc voltage with a resistor in series, never on a lamp that is plugged in.
"""

from .columns import from_csv, read_csv
from .data_sheet import from_sheet
from .fit import fit, fit_points
from .points import MeasuredPoints, check_points
from .result import LedFit, Point

__all__ = [
    "LedFit",
    "MeasuredPoints",
    "Point",
    "check_points",
    "fit",
    "fit_points",
    "from_csv",
    "from_sheet",
    "read_csv",
]
