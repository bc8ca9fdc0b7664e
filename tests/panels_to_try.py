"""Panels to try: every panel of the lessons that a lamp file, or something else of the workbook's, puts on a page."""

from dropper import lessons

STAIR = "notebooks/lamps/stair_marker.toml"
OTHERS = ("notebooks/lamps/shelf_strip.toml", "notebooks/lamps/display_case.toml")
OF_LAMPS = (
    "LoadLine",
    "Conduction",
    "Smoothing",
    "Powers",
    "Plugging",
    "Rush",
    "Faults",
    "Ageing",
    "Tolerances",
    "FirstPower",
    "OddMains",
    "GhostLight",
    "Strings",
    "Sharing",
    "Measurement",
    "TouchCurrent",
)
# Panels that start from something else than a lamp file, and from what.
OF_OTHERS = {
    "Designer": ("notebooks/lamps/briefs/door_number.toml",),
    "ResistorOrCapacitor": (),
    "LedCurve": ("notebooks/lamps/bench_led.csv",),
}
ALL = (*OF_OTHERS, *OF_LAMPS)


def new_panel(name, ask=False, path=STAIR):
    return getattr(lessons, name)(*OF_OTHERS.get(name, (path,)), ask=ask)


def ends(slider):
    """The values at a slider's two ends."""
    if hasattr(slider, "options"):
        return slider.options[0][1], slider.options[-1][1]
    return slider.min, slider.max
