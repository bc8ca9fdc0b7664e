"""Goals of the panel on tolerance: what a better part gains, what the years do, and how wide a limit has to be."""

from ...circuit.values import show_reading
from ..kit.goals import Goal
from ..kit.moved import only_moved

_MOST = 99.0  # of a hundred lamps
_TEN = 10.0


def _share(view):
    return 100 * view.within_limit.share if view.within_limit else float("nan")


def _says(view):
    return f"{_share(view):.0f} of a hundred keep within {view.setting.limit:g} %"


def _is_tight(view, first, kept):
    setting = view.setting
    return view.within_limit is not None and setting.limit == _TEN and 0 < setting.dropper <= first.setting.dropper / 2


def _tight(view, first, kept):
    return f"With a dropper of ±{view.setting.dropper:g} %, {_says(view)}. Now try ±1 %: it gains little more."


def _is_ruled(view, first, kept):
    return view.within_limit is not None and view.setting.limit == _TEN and view.setting.dropper <= 1.0


def _ruled(view, first, kept):
    weight, mains = view.formula.weights["mains"], 100 * max(map(abs, view.formula.effect("mains")))
    return (
        f"Even so {_says(view)}. The mains is left: 1 % of it does {weight:.3g} % to the current, up to {mains:.0f} %"
        " in all. No dropper mends that."
    )


def _is_sure(view, first, kept):
    return view.within_limit is not None and _share(view) >= _MOST and only_moved("limit", view.setting, first.setting)


def _sure(view, first, kept):
    return f"{_says(view)}. So much must be allowed with parts as they are sold."


def _is_old(view, first, kept):
    return view.within_limit is not None and view.setting.years >= 10


def _old(view, first, kept):
    return (
        f"After {view.setting.years:g} years the lamp with nominal parts gets"
        f" {show_reading(view.now.string_current_mean, 'A')}; new it got {show_reading(view.design_current, 'A')}. All"
        " lamps go down, and no tolerance that one can buy helps."
    )


GOALS = (
    Goal("tight", "Allow ±10 % of current, and halve the dropper's tolerance.", _is_tight, _tight),
    Goal("ruled", "Still at ±10 %: take the best dropper, ±1 %. What is left?", _is_ruled, _ruled),
    Goal("sure", "By the allowed current alone: have 99 lamps of 100 within it.", _is_sure, _sure),
    Goal("old", "Let ten years pass.", _is_old, _old),
)
