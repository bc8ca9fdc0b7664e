"""A lamp typed by keyboard, saved, and found on another page, in a real browser."""

import pytest

pytest.importorskip("playwright.sync_api")
from look_over import scrolls_sideways
from visits import expect

TYPED = (
    "hall lamp",
    "230 V 50 Hz",
    "684J 400V",
    "brown black green gold",
    "220R",
    "",
    "10uF 100V",
    "",
    "",
    "19 x 2",
    "red",
)


@pytest.mark.wide
def test_a_lamp_typed_by_keyboard_is_on_the_next_page(visit):
    opened = visit("00_start_here.ipynb")
    page = opened.page
    page.get_by_role("button", name="My own lamp …").first.press("Enter")
    name = page.get_by_role("textbox", name="Name", exact=True)
    expect(name).to_be_visible()
    name.focus()
    for text in TYPED:
        page.keyboard.type(text)
        page.keyboard.press("Tab")
    form = page.locator(".dropper-form")
    expect(form.get_by_text("680 nF ±5 %, 400 V dc")).to_be_visible()
    expect(form.get_by_text("38 LEDs")).to_be_visible()
    page.get_by_role("button", name="Save", exact=True).press("Enter")
    expect(form.get_by_text("hall lamp is saved as my_lamps/hall_lamp.toml.")).to_be_visible()
    expect(page.get_by_role("combobox", name="Lamp on the bench").locator("option:checked")).to_have_text(
        "mine: hall lamp"
    )
    assert not scrolls_sideways(page)
    assert opened.complaints == []
    assert opened.outside == []
    page = visit("02_what_sets_the_current.ipynb").page
    expect(page.locator(".dropper-words.question", has_text="hall lamp").first).to_be_visible()
