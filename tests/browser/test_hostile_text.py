"""Hostile names through every panel, page and table in a browser: nothing of them may run, ask or fetch anything."""

import pytest
import tasks_on_page

pytest.importorskip("playwright.sync_api")
from pathlib import Path

import hostile_text
from predict import open_derivation
from server import trust, write
from visits import answered, expect

NAME = "hostile.ipynb"
TESTS = Path(__file__).resolve().parents[1]
SETUP = f"""
import sys
sys.path.insert(0, {str(TESTS)!r})
import hostile_text
from IPython.display import HTML, Markdown, display
path = hostile_text.write_files("hostile", hostile_text.NAMES[0])
import os
os.chdir("hostile")
path = path.relative_to("hostile")
"""
PANELS = "for _, panel in hostile_text.panels(path): display(panel)"
TABLES = """
from dropper import Lamp, lessons
for _, thing in hostile_text.shown(path): display(thing)
for name in hostile_text.NAMES[1:]:
    Lamp.from_toml(path).replace(name=name).to_toml("other.toml")
    display(Lamp.from_toml("other.toml"), lessons.LoadLine("other.toml"), lessons.Guess(name, {"right": name}, name, "right"))
"""
# What a page would do with the text if it took it for HTML.
RUNS = """() => window.hostile || [...document.querySelectorAll(
    '.jp-OutputArea [onerror], .jp-OutputArea [onload], .jp-OutputArea [onfocus], .jp-OutputArea img[src="x"],'
    + '.jp-OutputArea a[href^="javascript:"], .jp-OutputArea script'
)].map(element => element.outerHTML)"""


@pytest.fixture
def page(folder, visit):
    """The page of a notebook of all panels, and what it asked or fetched."""
    write(folder, NAME, SETUP, PANELS, TABLES)
    trust(folder, NAME)
    opened = visit(NAME)
    opened.asked = []
    opened.page.on("dialog", lambda dialog: (opened.asked.append(dialog.message), dialog.dismiss()))
    return opened


def looked_over(opened, what):
    """Nothing has run so far."""
    answered(opened.page)
    assert opened.page.evaluate(RUNS) == [], what
    assert opened.asked == [] and opened.outside == [], what


@pytest.mark.wide
def test_nothing_that_was_typed_runs(page):
    assert page.errors_in_cells() == []
    looked_over(page, "as it was opened")
    here = page.page
    fields = here.locator(".jp-OutputArea .widget-text input[type=text]:enabled:visible").all()
    for field in {field.get_attribute("placeholder") or place: field for place, field in enumerate(fields)}.values():
        field.fill(hostile_text.NAMES[0], timeout=5000)
        field.press("Enter")
    looked_over(page, "typed into every field")
    for words in (
        "Skip",
        "Keep this one",
        "Write the sheet",
        "Judge these readings",
        "Use these points",
        "Open",
        tasks_on_page.JUDGE,
    ):
        for button in here.get_by_role("button", name=words, exact=True).all():
            if button.is_visible() and button.is_enabled():
                button.click(timeout=5000)
        looked_over(page, words)
    for stand in here.locator(".dropper-panel").all():
        open_derivation(stand)
    looked_over(page, "explained")
    expect(here.get_by_role("alert").first).to_be_visible()
    assert not [line for line in page.complaints if "hostile" in line]


@pytest.mark.wide
def test_a_page_of_a_hostile_lamp_runs_nothing(browser, tmp_path):
    asked = []
    tab = browser.new_page()
    tab.on("dialog", lambda dialog: (asked.append(dialog.message), dialog.dismiss()))
    tab.on("request", lambda request: asked.append(request.url) if not request.url.startswith("file:") else None)
    for number, name in enumerate(hostile_text.NAMES):
        path = hostile_text.write_files(tmp_path / str(number), name)
        for label, text in hostile_text.pages(path):
            place = tmp_path / f"{number}_{label.replace(' ', '_')}.html"
            place.write_text(text, encoding="utf-8")
            tab.goto(place.as_uri())
            assert not tab.evaluate("window.hostile"), (label, name)
            assert tab.locator("main img, main script, main a, main svg[onload], main [onfocus]").count() == 0, label
            shown = tab.locator("main").inner_text()
            assert "hostile=1" in shown, f"{label} does not show the text"
    assert asked == []
    tab.close()
