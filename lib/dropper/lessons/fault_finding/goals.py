"""Goals of the hunt: what few and safe readings can find, and what the plug-in meter does not see."""

from ..kit.goals import Goal

_ALL = 100  # points: nothing was guessed, and nothing bought in vain


def _capital(words):
    return words[:1].upper() + words[1:]


def _found(view):
    return view.score is not None and view.score.right


def _is_reasoned(view, first, kept):
    return _found(view) and view.score.points == _ALL and len(view.keys) > 1


def _reasoned(view, first, kept):
    return f"{_capital(view.cause)}. {len(view.keys)} readings of two kinds left no other cause."


def _is_single(view, first, kept):
    return _found(view) and view.score.points == _ALL and len(view.keys) == 1


def _single(view, first, kept):
    return f"{_capital(view.cause)}. {_capital(view.rows[0][1])}: no other fault shows that. So stop there."


def _is_unseen(view, first, kept):
    return _found(view) and "plug-in" in view.keys and view.shown == view.shown_sound


def _unseen(view, first, kept):
    return (
        f"{_capital(view.cause)}. On {view.volts} the meter shows {view.shown} with it, and {view.shown_sound} without."
        " A sound reading is no sound lamp."
    )


def _is_dark(view, first, kept):
    return _found(view) and view.dark and not view.live


def _dark(view, first, kept):
    count = "one reading" if len(view.keys) == 1 else f"{len(view.keys)} readings"
    return f"{_capital(view.cause)}: {count}, cost {view.cost:g}, and no probe on a live part."


GOALS = (
    Goal("reasoned", "Find the fault of hunt 1 and keep all 100 points.", _is_reasoned, _reasoned),
    Goal("single", "Find a fault with a single reading. On the stair marker, try hunt 3.", _is_single, _single),
    Goal("unseen", "Find one that the plug-in meter does not see. Try hunt 8.", _is_unseen, _unseen),
    Goal("dark", "Find out why a lamp is dark, with no live probe. Try hunt 5.", _is_dark, _dark),
)
