"""Panels: sliders, pictures and read-outs for the notebooks. No physics in here."""

from importlib import import_module

# Loaded when asked for: the lessons' panels compute with the theory, which takes longer to load than the bench.
_WHERE = {
    "Bench": "bench",
    "ResistorOrCapacitor": "two_ways",
    "LoadLine": "load_line",
    "Conduction": "conduction",
    "Smoothing": "smoothing",
    "Powers": "powers",
    "Plugging": "plugging",
    "Broken": "broken",
    "Ageing": "ageing",
    "Tolerances": "tolerances",
    "FirstPower": "first_power",
    "BenchList": "bench_list",
    "Guess": "guess",
    "Strings": "strings",
    "Sharing": "sharing",
    "Designer": "design",
    "Markings": "markings",
    "PartCheck": "partcheck",
    "WhichWay": "partcheck",
    "OwnLed": "own_led",
    "Measured": "measured",
    "SheetBox": "sheet_box",
    "Finding": "finding",
    "Hunt": "hunt",
    "Task": "task",
    "Scorecard": "task",
    "Tasks": "tasks",
}

__all__ = list(_WHERE)


def __getattr__(name):
    if name in _WHERE:
        return getattr(import_module(f"{__name__}.{_WHERE[name]}"), name)
    raise AttributeError(f"dropper.panels has no panel {name!r}")
