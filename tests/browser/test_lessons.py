"""Every lesson as a learner meets it in a real browser: it runs, it asks, its sliders move the picture.

The tests of a lesson share its page and go on from where the one before them left it.
"""

import re
from pathlib import Path

import pytest
import tasks_on_page

pytest.importorskip("playwright.sync_api")
from look_over import barriers, faint, file_list, late, resize, scrolls_sideways, shot, squeezed, wear
from predict import open_derivation, predict_on_page, press_sure, skip_on_page
from visits import answered, expect

COMES_TO = "this formula's own|the formula's ideal lamp gives|it comes to"
LESSONS = sorted(path.name for path in Path("notebooks").glob("[01][0-9]_*.ipynb") if path.name[:2] != "00")

# Prints and bands are picked from lists; test_markings.py goes through those.
SLIDING = [lesson for lesson in LESSONS if not lesson.startswith("11_")]


def awake(opened):
    """The lesson's page with the sliders of all its panels woken, without a prediction where none was made."""
    for stand in stands(opened.page):
        skip_on_page(stand)
        expect(stand.locator(".noUi-target[disabled]")).to_have_count(0)
    return opened.page


def stands(page):
    """The panels of a page that have sliders and a picture."""
    return page.locator(".dropper-panel").all()


@pytest.mark.parametrize("opened", LESSONS, indirect=True)
def test_bet_sliders_and_picture_stand_on_the_first_screen_and_a_half(opened):
    assert late(opened.page) == []


@pytest.mark.parametrize("opened", SLIDING, indirect=True)
def test_a_lesson_runs_asks_first_and_keeps_nobody_out(opened):
    page = opened.page
    assert opened.errors_in_cells() == [] and opened.complaints == [] and opened.outside == []
    for stand in stands(page):
        expect(stand.locator("svg.dropper-curves")).to_have_count(1)
    first = page.locator(".dropper-panel").first
    assert first.locator(".noUi-target[disabled]").count() == first.get_by_role("slider").count() >= 3
    press_sure(first)
    expect(first.locator(".dropper-words", has_text="Choose an answer first, or skip.")).to_be_visible()
    predict_on_page(first)
    expect(first.locator(".dropper-verdict")).to_contain_text("You said (sure):")
    expect(first.locator(".noUi-target[disabled]")).to_have_count(0)
    assert scrolls_sideways(page) == [], "nothing scrolls sideways at 1280 pixels"
    assert barriers(page) == []


def shown(stand):
    """All that a panel shows of its setting."""
    places = (".said", ".dropper-table")
    words = "".join(stand.locator(each).first.inner_text() for each in places)
    return stand.locator("svg.dropper-curves").inner_html() + words


def at_rest(opened, stand):
    """What is shown once nothing more comes: a design, a count of lamps and each ± come after a rest."""
    answered(opened.page)
    before, now = None, shown(stand)
    for _ in range(20):
        if now == before:
            break
        opened.page.wait_for_timeout(1200)
        before, now = now, shown(stand)
    return now


def until(opened, stand, fits):
    """What is shown once that fits, or some seconds later: a panel may still be at work on the last move."""
    answered(opened.page)
    for _ in range(120):
        now = shown(stand)
        if fits(now):
            break
        opened.page.wait_for_timeout(100)
    return now


def sweep(opened, stand, name):
    """Move every slider of a panel to both ends and look at what is shown."""
    page, curves, said = opened.page, stand.locator("svg.dropper-curves"), stand.locator(".said")
    sliders = stand.get_by_role("slider")
    stand.get_by_role("button", name="Keep this one").click()
    sliders.first.press("End")  # a count of lamps begins with a move
    stand.get_by_role("button", name="Reset").click()
    at_first = at_rest(opened, stand)
    for number in range(sliders.count()):
        seen = set()
        for key in ("Home", "End"):
            sliders.nth(number).press(key)
            now = until(opened, stand, lambda text, seen=frozenset(seen): text not in seen)
            picture = curves.inner_html()
            assert "<polyline" in picture and "nan" not in picture
            assert len(said.inner_text()) > 30 and "nan" not in said.inner_text()
            expect(page.get_by_role("alert")).to_have_count(0)
            assert scrolls_sideways(page) == [], "with kept readings beside them nothing is cut off"
            seen.add(now)
            shot(page, f"{name}_{number}_{key}")
        assert len(seen) == 2, f"slider {number} of {name} changes nothing to be seen"
        stand.get_by_role("button", name="Reset").click()
        now = until(opened, stand, lambda text: text == at_first)
        assert now == at_first, f"slider {number} of {name} is not reset"


@pytest.fixture
def still(opened):
    """Nothing moves by itself, which takes the machine's time all the while: test_glow.py looks at that."""
    opened.page.emulate_media(reduced_motion="reduce")
    yield
    opened.page.emulate_media(reduced_motion="no-preference")


@pytest.mark.parametrize("opened", SLIDING, indirect=True)
def test_every_slider_goes_to_both_ends_and_the_picture_with_it(opened, still):
    for place, stand in enumerate(stands(awake(opened))):
        sweep(opened, stand, f"{opened.notebook[:2]}{'abc'[place] if place else ''}")
        stand.get_by_role("button", name="Forget it").click()
    assert opened.errors_in_cells() == [] and opened.complaints == []


@pytest.mark.parametrize("opened", SLIDING, indirect=True)
def test_numbers_explain_themselves_and_a_kept_picture_stays_as_a_ghost(opened, still):
    page = awake(opened)
    for stand in stands(page):
        stand.get_by_role("button", name="Keep this one").click()
        stand.get_by_role("slider").first.focus()
        page.keyboard.press("PageUp")
        expect(stand.locator(".dropper-table").first).to_contain_text("kept")
        assert stand.locator('svg[aria-hidden="true"] polyline').count() >= 1
        whys = stand.locator(".dropper-read button.dropper-why")
        by_formula = 0
        for place in range(min(4, whys.count())):
            name = whys.nth(place).get_attribute("aria-label").removeprefix("how ").removesuffix(" comes about")
            derivation = open_derivation(stand, place)
            expect(derivation).to_contain_text(re.compile(f"{COMES_TO}|{re.escape(name)}: "))
            expect(derivation).not_to_contain_text("$")  # formulas are set, not left as they are written
            by_formula += derivation.locator("mjx-container, .MathJax").count() > 0
            whys.nth(place).click()
            expect(derivation).to_have_count(0)
        assert by_formula, "no number of this panel shows a formula"
        stand.get_by_role("button", name="Forget it").click()


@pytest.mark.parametrize("opened", LESSONS, indirect=True)
def test_tasks_take_answers_give_hints_and_work_themselves_out(opened, still):
    page = awake(opened)
    task = page.locator(".dropper-task")
    expect(task).to_have_count(1)
    assert page.get_by_label("Task", exact=True).locator("option").count() == 3
    tasks_on_page.show_all(page)
    tasks = page.get_by_label("Task", exact=True).locator("option").all_inner_texts()
    assert len(tasks) >= 6
    for name in tasks:
        page.get_by_label("Task", exact=True).select_option(name)
        expect(task).to_contain_text(" ".join(name.split()[1:]))
        if task.locator('input[type="text"]').count():
            break
    field = task.locator('input[type="text"]')
    field.fill("a handful")
    field.press("Enter")
    expect(task.locator(".feedback")).not_to_be_empty()
    for left in ("2", "1", "0"):
        step = tasks_on_page.next_step(task)
        if step:
            step.click()
            expect(task.locator("ol li").nth(2 - int(left))).to_be_visible()
    shot(page, f"{opened.notebook[:2]}_task")
    task.get_by_role("button", name=tasks_on_page.WHOLE_WAY).click()
    expect(task.get_by_text("Worked out with your values")).to_be_visible()
    expect(task).not_to_contain_text("$")  # formulas are set, not left as they are written
    page.get_by_role("button", name=tasks_on_page.NEXT).click()
    expect(task).not_to_contain_text("Worked out with your values")
    assert opened.errors_in_cells() == [] and opened.complaints == []


@pytest.mark.parametrize("opened", LESSONS, indirect=True)
def test_dark_theme_and_a_projectors_narrow_window_lose_nothing(opened):
    page = awake(opened)
    resize(page, 1024, 768)
    assert scrolls_sideways(page) == [] and squeezed(page) == []
    resize(page, 1280, 900)
    wear(page, "JupyterLab Dark")
    page.locator(".dropper-table").first.scroll_into_view_if_needed()
    shot(page, f"{opened.notebook[:2]}_dark")
    found = faint(page)
    file_list(page, True)
    found += barriers(page) + scrolls_sideways(page)
    file_list(page, False)
    wear(page, "JupyterLab Light")
    assert found == [] and faint(page) == []


@pytest.mark.parametrize("opened", LESSONS, indirect=True)
def test_the_last_link_leads_on_to_a_lesson_that_runs(opened):
    place = LESSONS.index(opened.notebook) + 1
    after = LESSONS[place] if place < len(LESSONS) else "00_start_here.ipynb"
    link = opened.page.locator(f'.jp-MarkdownCell a[href*="{after}"]').last
    opened.follow(link, after)
    assert opened.errors_in_cells() == [] and opened.complaints == []
