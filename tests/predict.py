"""Predict: how a test answers a panel's question, without a page and on one; the only place that knows its buttons."""


def predict(prediction, answer=None, sure="sure"):
    """Note an answer of a `Prediction`, its first where none is named; `answer=False` skips it."""
    if answer is False:
        prediction.skip_button.click()
        return
    prediction.choice.value = answer or prediction.choice.options[0][1]
    prediction.sure_buttons[sure].click()


def predict_on_page(stand, answer=None, sure="Sure"):
    """The same on a page: choose an answer by its words, the first where none is named, and press how sure one is."""
    radio = stand.get_by_label(answer) if answer else stand.get_by_role("radio")
    radio.first.check()
    press_sure(stand, sure)


def press_sure(stand, sure="Sure"):
    """Press the button that notes the answer."""
    stand.get_by_role("button", name=sure, exact=True).first.click()


def skip_on_page(stand):
    """Go on without a prediction, where one is asked; the first of them."""
    skip = stand.get_by_role("button", name="Skip").first
    if skip.count() and skip.is_visible() and skip.is_enabled():
        skip.click()


def say_seen(panel):
    """Say what the reading did that is asked about before the verdict, where one is, as it was."""
    seen = panel.prediction.seen_box.layout.display != "none" and panel.observation()
    if seen:
        panel.prediction.seen_buttons[min(seen.truths)].click()


def open_derivation(stand, place=0):
    """Open how a number comes about by the "?" in its row, and give what is opened."""
    stand.locator("button.dropper-why").nth(place).click()
    return stand.locator("tr.below, .dropper-explained p, .dropper-explained .dropper-words").first
