"""Tasks on a page: what their buttons are called; the only place of the browser tests that knows."""

import re

JUDGE = "Judge my answer"
STEP = re.compile("^One step on")
WHOLE_WAY = "Work it out for me"
NEXT = "Next task"
MORE = re.compile("^More questions")


def next_step(task):
    """The button for one step more, if there is one left; None otherwise."""
    step = task.get_by_role("button", name=STEP)
    return step if step.count() and step.is_enabled() else None


def show_all(page):
    """Have the list of tasks hold all of the lesson's, not its core alone."""
    more = page.get_by_role("button", name=MORE)
    more.click()
    more.wait_for(state="hidden")
