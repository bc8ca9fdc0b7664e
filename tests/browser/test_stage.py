"""One panel on the whole screen for a class: question, hands, answer when it is asked for, the next class; all by keys."""

import re

import pytest

pytest.importorskip("playwright.sync_api")
from look_over import resize, shot
from visits import expect

LESSON = "06_plug_in_pull_out.ipynb"  # two panels, each with a question
LEAST = 20  # pixels: what the last row reads
SMALL = f"""() => [document.querySelector('.dropper-on-stage'), document.querySelector('.dropper-stage')].flatMap(part => {{
    const small = [], texts = document.createTreeWalker(part, NodeFilter.SHOW_TEXT), zoom = part.style.zoom || 1;
    while (texts.nextNode()) {{
        const one = texts.currentNode.parentElement, circuit = one.closest('svg[role=img]:not(.dropper-curves)');
        if (!texts.currentNode.data.trim() || !one.getClientRects().length || one.closest('.dropper-spoken, style')) continue;
        const scale = circuit ? circuit.clientWidth / circuit.viewBox.baseVal.width : 1;
        const size = parseFloat(getComputedStyle(one).fontSize) * zoom * scale;
        if (size < {LEAST} - 0.1) small.push(`${{texts.currentNode.data.trim()}}: ${{size}}`);
    }}
    return small;
}})"""
STRANGE = """() => [0.02, 0.3, 0.6, 0.98].flatMap(x => [0.02, 0.3, 0.6, 0.98].map(y =>
    document.elementFromPoint(x * innerWidth, y * innerHeight))).filter(one => !one.closest('.dropper-on-stage, .dropper-stage'))
    .map(one => one.className)"""
CUT = """() => [...document.querySelectorAll('.dropper-on-stage, .dropper-stage-foot')]
    .filter(one => one.scrollWidth > one.clientWidth + 1).map(one => one.className)"""


def press(page, *keys):
    for key in keys:
        page.keyboard.press(key)


def counts(page):
    return [int(one.input_value()) for one in page.locator(".dropper-stage input").all()]


def test_a_class_is_asked_shown_and_answered_by_keys_alone(visit):
    opened = visit(LESSON)
    page = opened.page
    page.locator(".dropper-fit").first.wait_for()
    press(page, "F8")
    stage, panel = page.locator(".dropper-stage"), page.locator(".dropper-on-stage")
    question = panel.locator(".question").first.text_content()
    expect(stage.locator("h1")).to_have_text(question)
    nobody = [0] * len(counts(page))
    press(page, "1", "1", "2", "2", "Shift+Digit2", "3")
    stage.get_by_role("button", name="one hand more for").nth(2).click()
    stage.get_by_role("spinbutton").first.fill("7")
    assert counts(page)[:3] == [7, 1, 2]
    stage.locator("h1").focus()

    press(page, "Enter")
    expect(panel.locator(".noUi-target[disabled]")).to_have_count(0)
    answer, verdict = stage.locator(".dropper-stage-answer"), panel.locator(".dropper-verdict .dropper-words").first
    for slider in panel.get_by_role("slider").all():
        slider.focus()
        press(page, "ArrowLeft", "ArrowLeft")
    expect(verdict).not_to_contain_text("Now see for yourself")
    expect(answer).to_be_hidden()
    expect(verdict).to_be_hidden()
    for width, height in ((1024, 768), (1920, 1080)):
        resize(page, width, height)
        page.wait_for_function(f"() => ({SMALL})().length === 0", timeout=5000)
        assert page.evaluate(STRANGE) == [], "something of the page stands over the panel"
        assert page.evaluate(CUT) == [], f"cut off at {width}"
        assert stage.locator("footer").bounding_box()["height"] < 70, "the keys take one line"
        shot(page, f"stage_{width}")
    press(page, "s")
    expect(answer).to_contain_text("Hands for 1:\u00a07, 2:\u00a01, 3:\u00a02")
    assert re.sub(r"\s", "", verdict.locator("b").text_content()) not in re.sub(r"\s", "", answer.text_content())
    assert len(answer.text_content()) > 60, "what came of it is said"

    press(page, "n")
    expect(stage.locator(".dropper-stage-name")).to_have_text("2 of 2")
    press(page, "p")
    expect(stage.locator(".dropper-stage-name")).to_have_text("1 of 2")
    press(page, "Shift+R")
    expect(stage.locator("h1")).to_have_text(question)
    assert counts(page) == nobody and panel.locator(".noUi-target[disabled]").count() >= 3, "as it was at first"
    press(page, "Escape")
    expect(stage).to_have_count(0)
    assert page.locator("[popover], .dropper-held").count() == 0
    expect(page.get_by_role("button", name="For the class")).to_be_visible()
    assert opened.errors_in_cells() == [] and opened.complaints == []
