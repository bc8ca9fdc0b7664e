"""A hub for a class, as binder/class.md has it: two pupils log in and work, and neither comes near the other's things."""

import json
import os
import tempfile
from pathlib import Path

import pytest

pytest.importorskip("playwright.sync_api")
from hub import hub, tools_are_here
from playwright.sync_api import expect
from predict import predict_on_page, skip_on_page

LESSON = "04_smoothing_and_flicker.ipynb"
PROGRESS = "notebooks/my_progress.json"


@pytest.fixture
def running():
    if not tools_are_here():
        if os.environ.get("CI"):
            pytest.fail("CI must have the hub's tools: binder/hub_requirements.txt")
        pytest.skip("no hub here: binder/hub_requirements.txt has what a hub for a class needs")
    with tempfile.TemporaryDirectory() as folder:  # not pytest's own, which other accounts cannot pass through
        Path(folder).chmod(0o711)
        with hub(Path(folder) / "class") as one:
            yield one


def log_in(browser, running, name):
    page = browser.new_context(viewport={"width": 1280, "height": 900}).new_page()
    page.goto(f"{running.address}/hub/login?next=/hub/user-redirect/doc/tree/{LESSON}", wait_until="commit")
    page.fill("#username_input", name)
    page.fill("#password_input", f"word of {name}")
    page.click("#login_submit", no_wait_after=True)
    return page


def predictions(running, name):
    """What is noted in a pupil's progress file, by panel."""
    path = running.place / name / PROGRESS
    return json.loads(path.read_text(encoding="utf-8")).get("predictions", {}) if path.exists() else {}


@pytest.mark.timeout(240)
def test_two_pupils_work_each_in_a_folder_of_their_own(browser, running):
    ada, bea = running.names
    pages = {name: log_in(browser, running, name) for name in running.names}
    for name, page in pages.items():
        page.wait_for_function("document.body?.dataset.dropperLive", timeout=120_000)
        panel = page.locator(".jp-OutputArea-output").filter(has=page.get_by_role("slider")).first
        if name == ada:
            predict_on_page(panel)
        else:
            skip_on_page(panel)
        slider = panel.get_by_role("slider").first
        expect(panel.locator(".noUi-target[disabled]")).to_have_count(0)
        cells, before = page.locator(".jp-Cell").count(), slider.get_attribute("aria-valuetext")
        slider.focus()
        for key in ("ArrowRight", "d", "d"):
            page.keyboard.press(key)
        expect(slider).not_to_have_attribute("aria-valuetext", before)
        assert page.locator(".jp-Cell").count() == cells, f"{name}: a letter on a slider deleted a cell"
    for _ in range(100):
        if predictions(running, ada):
            break
        pages[ada].wait_for_timeout(100)
    assert predictions(running, ada), "what a pupil predicted is in the pupil's own progress"
    assert not predictions(running, bea), "one pupil's prediction is in the other's progress"
    assert not (running.place / bea / "notebooks" / "teaching").exists(), "the teacher's pages are not for pupils"
    answer = pages[bea].request.get(f"{running.address}/user/{ada}/api/contents/my_progress.json")
    assert answer.status == 403, "one pupil's page reads the other's files"
    if running.accounts:
        mine = running.place / ada / PROGRESS
        assert running.may_read(ada, mine) and not running.may_read(bea, mine), "one pupil's Python reads the other's"
    for page in pages.values():
        page.context.close()
