"""Goals of the bands: a doubtful band, a resistor that reads from both ends, a meter that decides, the multiplier."""

from ...circuit.values import show
from ..kit.goals import Goal

_MANY = 50  # resistors that doubtful bands leave


def _is_doubtful(view, first, kept):
    return view.setting.doubtful == (1,) and view.count > 0 and view.fit_count is None


def _doubtful(view, first, kept):
    left = "; ".join(candidate.words for candidate in view.candidates[:3])
    return f"Of all colours that look alike here, only {view.count} of them give a value that is sold: {left}."


def _is_both(view, first, kept):
    return bool(view.left and view.right) and view.left.value != view.right.value


def _both(view, first, kept):
    return (
        f"From the left {view.left.text}, from the right {view.right.text}. The gap before the last band may tell, and"
        " an ohmmeter does."
    )


def _is_measured(view, first, kept):
    return view.count >= _MANY and bool(view.fit_count)


def _measured(view, first, kept):
    return (
        f"{view.count} resistors were possible, {view.fit_count} of them fit {view.setting.measured}. One reading does"
        " what no look at the colours does."
    )


def _is_tenfold(view, first, kept):
    best, before = view.best, first.best
    if not (best and before) or view.setting.count != 4 or first.setting.count != 4:
        return False
    now, then = view.setting, first.setting
    alone = (now.first, now.second, now.fourth) == (then.first, then.second, then.fourth) and now.third != then.third
    return alone


def _tenfold(view, first, kept):
    return (
        f"From {show(first.best.value, 'Ω')} to {show(view.best.value, 'Ω')}: a step of this colour is a factor of ten."
        " It is the band to be surest of."
    )


GOALS = (
    Goal("tenfold", "Change the third of the four bands alone.", _is_tenfold, _tenfold),
    Goal("doubtful", "Have the first band alone not sure. How many resistors are left?", _is_doubtful, _doubtful),
    Goal("both", "Find a row of bands that can be read from both ends.", _is_both, _both),
    Goal(
        "measured",
        "Have so many bands not sure that fifty resistors are possible. Then type an ohmmeter's reading.",
        _is_measured,
        _measured,
    ),
)
