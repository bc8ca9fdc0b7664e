"""Lessons: the panels and the tasks of the workbook, one room a subject.

    from dropper.lessons import Bench, Tasks, of_lesson, question

    Bench("lamps/stair_marker.toml")                # a panel
    Tasks(2)                                        # the tasks of lesson 2, on the page
    question("string_current").ask(seed=7).prompt   # one task, in plain Python

Each room holds `view` (computes what is shown), `figure` (draws it), `panel` (the widgets) and `tasks` (the
questions). A panel is loaded when it is first named: most compute with the theory, which takes a moment.
"""

import lazy_loader as lazy

__getattr__, __dir__, __all__ = lazy.attach(
    __name__,
    submod_attrs={
        "ageing.panel": ["Ageing"],
        "bench.panel": ["Bench"],
        "bench_list.panel": ["BenchList"],
        "catalogue": ["LESSONS", "QUESTIONS", "of_lesson", "question"],
        "conduction.panel": ["Conduction"],
        "design.panel": ["Designer"],
        "fault_finding.hunt_panel": ["Hunt"],
        "fault_finding.panel": ["FaultFinding"],
        "faults.panel": ["Faults"],
        "first_power.panel": ["FirstPower"],
        "ghost_light.panel": ["GhostLight"],
        "kit.guess": ["Guess"],
        "kit.sheet_box": ["SheetBox"],
        "led_curve.panel": ["LedCurve"],
        "load_line.panel": ["LoadLine"],
        "markings.panel": ["Markings"],
        "measurement.panel": ["Measurement"],
        "my_lamp.panel": ["MyLamp"],
        "odd_mains.panel": ["OddMains"],
        "part_check.panel": ["PartCheck", "WhichWay"],
        "plugging.panel": ["Plugging"],
        "plugging.rush_panel": ["Rush"],
        "powers.panel": ["Powers"],
        "recall_panel": ["Recall"],
        "resistor_or_capacitor.panel": ["ResistorOrCapacitor"],
        "sharing.panel": ["Sharing"],
        "smoothing.panel": ["Smoothing"],
        "strings.panel": ["Strings"],
        "scorecard_panel": ["Scorecard"],
        "task_panel": ["Task"],
        "tasks_panel": ["Tasks"],
        "tolerances.panel": ["Tolerances"],
        "touch_current.panel": ["TouchCurrent"],
    },
)
