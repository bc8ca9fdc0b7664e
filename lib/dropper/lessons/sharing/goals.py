"""Goals of LEDs side by side: how unevenly they share, what evens it out, and one that is open or of another kind."""

from ...circuit.values import show, show_reading
from ..kit.goals import Goal
from ..kit.moved import only_moved

_MUCH, _EVEN, _ALL = 1.9, 1.06, 0.99


def _one_in_twenty(view):
    return view.many.percentile(95)


def _is_uneven(view, first, kept):
    return only_moved("scatter", view.setting, first.setting) and _one_in_twenty(view) >= _MUCH


def _uneven(view, first, kept):
    return (
        f"With {view.setting.scatter:g} mV of scatter one set in twenty has an LED with {_one_in_twenty(view):.2g}"
        " times its share. A voltmeter shows nothing of it: all have one voltage."
    )


def _is_evened(view, first, kept):
    now, before = view.setting, first.setting
    return (
        now.odd is None
        and now.scatter >= before.scatter > 0
        and view.many.hottest.mean() <= _EVEN < first.many.hottest.mean()
    )


def _evened(view, first, kept):
    setting, means = view.setting, []
    if setting.resistor:
        means.append(f"{show(setting.resistor, 'Ω')} in each branch")
    if setting.in_branch > 1:
        means.append(f"{setting.in_branch} LEDs in each branch")
    what = " and ".join(means) or "fewer side by side or less current"
    return (
        f"With {what} the hottest carries {view.many.hottest.mean():.2f} times its share on average; at first"
        f" {first.many.hottest.mean():.2f}. A branch that is less steep shares better."
    )


def _is_open(view, first, kept):
    return view.setting.odd == "open"


def _open(view, first, kept):
    lit = sorted(current for current in view.shared.currents if current)
    return (
        f"The others take over: {' and '.join(show_reading(current, 'A') for current in lit)}, where even shares were"
        f" {show(first.even_share, 'A')}. The string goes on, and the eye may miss it."
    )


def _is_greedy(view, first, kept):
    return max(view.shared.shares) >= _ALL


def _greedy(view, first, kept):
    odd = view.odd or "one branch"
    return f"With {odd}, one branch takes {100 * max(view.shared.shares):.3g} % and the others stay dark."


GOALS = (
    Goal("uneven", "By the scatter alone: let one set in twenty have 1.9 times its share.", _is_uneven, _uneven),
    Goal("evened", "With no better LEDs, bring the hottest to 1.06 times its share on average.", _is_evened, _evened),
    Goal("open", "Let the last branch be open. Who takes its current?", _is_open, _open),
    Goal("greedy", "Let one branch take all of the current.", _is_greedy, _greedy),
)
