"""What the page itself does for a learner: keys and focus that stay, one voice, and no code that nobody asked for."""

import pytest
import tasks_on_page

pytest.importorskip("playwright.sync_api")
from server import trust, write
from visits import OPEN, answered, expect

PANEL = "from dropper.lessons import Smoothing, Tasks\npanel = Smoothing('lamps/stair_marker.toml')\npanel"
TASKS = "from pathlib import Path\nPath('page_progress.json').unlink(missing_ok=True)\ntasks = Tasks(3, 'page_progress.json')\ntasks"
FOCUS = """() => {
    const node = document.activeElement, inside = node.closest('.jp-OutputArea-output');
    return inside ? node.getAttribute('aria-label') || node.textContent.trim() || node.tagName : 'outside: ' + node.tagName;
}"""
# The first task with a number for an answer is put on the page; its answer comes back.
ANSWER = """async () => {
    const kernel = window.jupyterapp.shell.currentWidget.sessionContext.session.kernel;
    const code = `from dropper.lessons import question
tasks.choice.value = next(key for _, key in tasks.choice.options if hasattr(question(key), 'answer'))
print(tasks.task.instance.answer)`;
    const future = kernel.requestExecute({code, store_history: false});
    let text = '';
    future.onIOPub = message => { if (message.header.msg_type === 'stream') text += message.content.text; };
    await future.done;
    return Number(text);
}"""
HEARD = "() => [...document.querySelectorAll('.dropper-voice p')].map(node => node.textContent)"


@pytest.fixture
def opened(open_anew, folder):
    """A notebook of our own with a panel and tasks, freshly run."""
    write(folder, "page.ipynb", PANEL, TASKS)
    trust(folder, "page.ipynb")
    return open_anew("page.ipynb")


def test_keys_and_focus_stay_with_the_control(opened):
    page = opened.page
    stand = page.locator(".dropper-panel")
    cells = page.locator(".jp-Cell").count()

    # A slider that sleeps says so, and keeps the focus though its keys do nothing.
    slider = stand.get_by_role("slider", name="smoothing C2")
    expect(slider).to_have_attribute("aria-disabled", "true")
    place = slider.get_attribute("aria-valuetext")
    slider.focus()
    for key in ("ArrowRight", "ArrowDown", "ArrowLeft", "ArrowUp", "d", "d"):
        page.keyboard.press(key)
        assert page.evaluate(FOCUS) == "smoothing C2", key
    expect(slider).to_have_attribute("aria-valuetext", place)

    # Radio buttons are one group of that question's name, and the arrows go round in it.
    group = stand.get_by_role("radiogroup")
    expect(group).to_have_accessible_name(stand.locator(".question").inner_text() + " I predict:")
    radios = group.get_by_role("radio")
    radios.first.focus()
    page.keyboard.press("ArrowDown")
    page.keyboard.press("ArrowDown")
    expect(radios.nth(2)).to_be_checked()
    expect(radios.nth(2)).to_be_focused()

    # Noted: the buttons are gone now, and the focus goes on to a slider, which is awake.
    stand.get_by_role("button", name="Fairly sure").focus()
    page.keyboard.press("Enter")
    expect(slider).not_to_have_attribute("aria-disabled", "true")
    page.wait_for_function(f"({FOCUS})() !== 'outside: BODY'")
    assert page.evaluate("document.activeElement.getAttribute('role')") == "slider"
    page.wait_for_function(f"({HEARD})().some(text => text.includes('You said (fairly sure):'))")

    # A move says one short line, what it did and not all of the sentence; nothing is said twice.
    page.wait_for_timeout(1000)
    page.evaluate("document.querySelector('.dropper-voice').replaceChildren()")
    slider.press("PageUp")
    page.wait_for_function(f"({HEARD})().length")
    page.wait_for_timeout(1500)
    heard = page.evaluate(HEARD)
    changes = [text for text in heard if not text.startswith(("Reached:", "What did the"))]
    assert len(changes) == 1 and len(changes[0]) <= 120 and len(set(heard)) == len(heard), heard

    # "?" opens how a number comes about below its row, by the keyboard; the focus stays through what a move writes anew.
    why = stand.get_by_role("button", name="how percent flicker comes about")
    why.focus()
    page.keyboard.press("Enter")
    expect(why).to_have_attribute("aria-expanded", "true")
    expect(stand.locator("tr.below mjx-container").first).to_be_visible()
    page.wait_for_timeout(1000)  # the ± of the readings come, and the table is another one
    assert page.evaluate(FOCUS) == "how percent flicker comes about"
    page.wait_for_function(f"({HEARD})().some(text => text.startsWith('How percent flicker'))")
    page.keyboard.press("Space")
    expect(why).to_have_attribute("aria-expanded", "false")
    expect(stand.locator("tr.below")).to_have_count(0)
    assert page.locator(".jp-Cell").count() == cells
    assert opened.complaints == []


def test_a_verdict_is_spoken_before_the_score_and_the_focus_is_not_lost(opened):
    page = opened.page
    task = page.locator(".dropper-task")
    expect(task).to_contain_text("Task 3.")
    page.keyboard.press("Escape")  # the voice is silent until the learner does something
    while step := tasks_on_page.next_step(task):
        step.focus()
        page.keyboard.press("Enter")
        answered(page)
    page.wait_for_function(f"!({FOCUS})().startsWith('outside')")
    page.wait_for_timeout(1000)  # all of the way is said
    page.evaluate("document.querySelector('.dropper-voice').replaceChildren()")
    show = task.get_by_role("button", name=tasks_on_page.WHOLE_WAY)
    show.focus()
    page.keyboard.press("Enter")
    expect(task.get_by_text("Worked out with your values")).to_be_visible()
    page.wait_for_function(f"!({FOCUS})().startsWith('outside')")
    page.wait_for_function(f"({HEARD})().length >= 2")
    heard = page.evaluate(HEARD)
    assert heard[0].startswith("The answer is shown below."), heard
    assert heard[-1].startswith("Lesson 3: "), heard


def test_a_right_answer_is_spoken_once_and_the_score_after_it(opened):
    page = opened.page
    task = page.locator(".dropper-task")
    answer = page.evaluate(ANSWER)
    field = task.locator('input[type="text"]')
    field.fill(f"{answer:.6g}")
    page.wait_for_timeout(1000)
    page.evaluate("document.querySelector('.dropper-voice').replaceChildren()")
    field.press("Enter")
    page.wait_for_function(f"({HEARD})().length >= 2")
    page.wait_for_timeout(1000)
    heard = page.evaluate(HEARD)
    assert "Right" in heard[0] and heard[-1].startswith("Lesson 3: 1 "), heard
    assert len(set(heard)) == len(heard) and sum("Right" in text for text in heard) == 1, heard


def test_a_notebook_from_elsewhere_asks_before_it_runs(opened, folder):
    page = opened.page
    write(
        folder,
        "foreign.ipynb",
        "from pathlib import Path\nPath('foreign_ran.txt').write_text('x')\nprint('it' + ' ran')",
    )
    mark = folder / "notebooks" / "foreign_ran.txt"
    page.evaluate(OPEN, "foreign.ipynb")
    asks = page.get_by_role("region", name="Notices of this notebook")
    expect(asks).to_contain_text("not one of the workbook's own")
    answered(page)
    assert not mark.exists() and page.get_by_text("it ran").count() == 0
    asks.get_by_role("button", name="Run it").click()
    expect(page.get_by_text("it ran", exact=True)).to_be_visible()
    expect(asks.get_by_role("button", name="Run it")).to_have_count(0)
    assert mark.exists()

    # Once it was run and saved it is the learner's own.
    page.evaluate("window.jupyterapp.commands.execute('docmanager:save')")
    mark.unlink()
    opened.turn_to("foreign.ipynb")
    assert mark.exists()
