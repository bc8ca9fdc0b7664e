"""Questions from before on a page: one line until they are wanted, one question at a time, gone in one click."""

import pytest
import tasks_on_page

pytest.importorskip("playwright.sync_api")
from visits import expect

LOW = 80  # px: what they may take of a page until they are wanted
NOTEBOOK = "05_watts_and_power_factor.ipynb"


def test_they_are_one_line_then_one_question_then_one_line_again(visit):
    opened = visit(NOTEBOOK)
    recall = opened.page.locator(".dropper-recall")
    expect(recall).to_contain_text("questions from before")
    assert recall.bounding_box()["height"] < LOW
    assert recall.evaluate("box => box.closest('.jp-Cell-outputWrapper').getBoundingClientRect().height") < LOW
    recall.get_by_role("button", name="Begin").click()
    expect(recall).to_contain_text("1 of 5 from before")
    answer(recall)
    expect(recall.locator(".feedback")).not_to_be_empty()
    expect(recall).to_contain_text("Worked out with these numbers")
    expect(recall).not_to_contain_text("$")
    recall.get_by_role("button", name="Next question").click()
    expect(recall).to_contain_text("2 of 5 from before")
    recall.get_by_role("button", name="Skip the rest").click()
    expect(recall).to_contain_text("of 1 right")
    assert recall.bounding_box()["height"] < LOW
    assert opened.errors_in_cells() == [] and opened.complaints == []


def answer(recall):
    """Type a number, or choose the first answer, and have it judged."""
    if recall.locator('input[type="text"]').count():
        recall.locator('input[type="text"]').fill("1")
        recall.locator('input[type="text"]').press("Tab")
    else:
        recall.get_by_role("radio").first.check()
    recall.get_by_role("button", name=tasks_on_page.JUDGE).click()
