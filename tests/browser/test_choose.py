"""From a wish to a printed sheet and back, as a person goes about it who wants a lamp."""

import pytest

pytest.importorskip("playwright.sync_api")
from look_over import barriers, scrolls_sideways, shot
from predict import skip_on_page
from visits import expect

LESSON = "10_choose_the_parts.ipynb"


@pytest.mark.wide
def test_a_wish_becomes_a_design_a_sheet_and_a_lamp_again(visit):
    opened = visit(LESSON, width=1280, height=1400)
    page = opened.page
    stand = page.locator(".dropper-panel").first
    said, parts = stand.locator(".said"), stand.get_by_role("table", name="The parts, and what each has to stand")
    skip_on_page(stand)
    expect(parts).to_contain_text("330 nF")

    # Another brief, another name; the design follows once the sliders rest.
    stand.get_by_label("Brief", exact=True).select_option("door number")
    expect(stand.get_by_label("Name of the lamp")).to_have_value("door number")
    stand.get_by_label("Name of the lamp").fill("my door")
    stand.get_by_label("Name of the lamp").press("Enter")
    stand.get_by_label("mains", exact=True).select_option("Brazil, 127 V")
    expect(said).to_contain_text("stand their worst", timeout=20_000)
    expect(parts.get_by_role("row", name="C1 dropper")).to_contain_text("1 µF")
    stand.get_by_label("Why this part?").select_option(index=2)
    expect(stand.get_by_text("% of the wish, and between")).to_be_visible()
    expect(stand.locator("mjx-container").first).to_be_visible()

    # Two designs side by side; wishes that nobody can meet are answered with what can be had.
    stand.get_by_role("button", name="Keep this one").click()
    groups = stand.get_by_role("slider", name="LEDs in series")
    groups.focus()
    page.keyboard.press("End")
    expect(said).to_contain_text("This cannot be met.", timeout=20_000)
    stand.get_by_role("button", name="Take the nearest that can be met").click()
    expect(said).to_contain_text("stand their worst", timeout=20_000)
    assert int(groups.get_attribute("aria-valuetext")) < 60
    stand.get_by_role("button", name="Keep this one").click()
    expect(stand.get_by_role("table", name="Kept, side by side; changes against the first")).to_contain_text(
        "2. my door"
    )
    assert scrolls_sideways(page) == [] and barriers(page) == []
    shot(page, "10_side_by_side")

    # The sheet of what is shown, in a tab of its own, and opened again.
    box = page.locator(".jp-OutputArea-output", has=page.get_by_role("button", name="Write the sheet")).last
    box.get_by_label("Built by").fill("A. Learner")
    box.get_by_role("button", name="Write the sheet").click()
    expect(box.get_by_text("Written:")).to_be_visible(timeout=20_000)
    with page.context.expect_page() as tab:
        box.get_by_role("link", name="sheets/my_door.html").click()
    sheet = tab.value
    expect(sheet.get_by_role("heading", name="my door")).to_be_visible()
    expect(sheet.get_by_text("127 V", exact=False).first).to_be_visible()
    expect(sheet.get_by_text("Built by A. Learner")).to_be_visible()
    sheet.close()
    designed = groups.get_attribute("aria-valuetext")
    groups.focus()
    page.keyboard.press("PageDown")
    expect(groups).not_to_have_attribute("aria-valuetext", designed)
    box.get_by_role("button", name="Open a sheet again").click()
    expect(box.get_by_text("Opened from")).to_contain_text("my door")
    expect(groups).to_have_attribute("aria-valuetext", designed)
    expect(page.get_by_role("alert")).to_have_count(0)
    assert opened.errors_in_cells() == [] and opened.complaints == [] and opened.outside == []
