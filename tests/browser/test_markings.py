"""The lesson on marks in a real browser: lists and fields by keyboard, doubt, a print, a wrong print, a way round."""

import pytest

pytest.importorskip("playwright.sync_api")
from look_over import barriers, scrolls_sideways, shot
from predict import predict_on_page, skip_on_page
from visits import expect

LESSON = "11_read_the_parts.ipynb"


@pytest.mark.wide
def test_bands_prints_and_ways_round_by_keyboard(visit):
    opened = visit(LESSON)
    page = opened.page
    assert opened.errors_in_cells() == [] and opened.complaints == [] and opened.outside == []
    bands, check = page.locator(".dropper-panel").nth(0), page.locator(".dropper-panel").nth(1)
    expect(bands.get_by_label("bands for")).to_be_disabled()
    expect(check.locator("svg.dropper-curves")).not_to_contain_text("cannot tell")  # the answer is not given away
    # The prediction stands where it is asked and again on the panel: one and the same.
    predict_on_page(bands)
    expect(bands.locator(".dropper-verdict")).to_contain_text("You said (sure):")
    first = bands.get_by_label("band 1", exact=True)
    expect(first).to_be_enabled()
    first.focus()
    page.keyboard.type("2")
    page.keyboard.press("Enter")
    expect(bands.locator(".said").first).to_contain_text("2 red")
    bands.get_by_label("not sure of 1").focus()
    page.keyboard.press("Space")
    expect(bands.locator("svg.dropper-curves")).to_contain_text("or orange")
    wanted = bands.get_by_label("bands for")
    wanted.fill("1k 1 %")
    wanted.press("Enter")
    expect(bands.locator("svg.dropper-curves")).to_contain_text("from the right: 110 Ω ±1 %")
    bands.get_by_role("button", name="Keep this one").click()
    bands.get_by_label("bands", exact=True).select_option("6")
    expect(bands.locator(".dropper-table").first).to_contain_text("kept")
    assert scrolls_sideways(page) == [], "with kept readings beside them nothing is cut off"
    bands.get_by_role("button", name="how value, from the left comes about").click()
    expect(bands.get_by_text("IEC 60062:2016")).to_be_visible()
    shot(page, "markings")
    skip_on_page(check)
    read = check.get_by_label("meter reads")
    read.fill("430 nF")
    read.press("Enter")
    expect(check.locator("svg.dropper-curves")).to_contain_text("? cannot tell")
    text = check.get_by_label("on the part")
    text.fill("47Q")
    text.press("Enter")
    expect(check.get_by_role("alert")).to_contain_text("character 3, 'Q'")
    expect(check.locator("svg.dropper-curves")).to_contain_text("423 nF")
    text.fill("471K")
    text.press("Enter")
    expect(check.get_by_role("alert")).to_have_count(0)
    check.get_by_label("take it as").select_option("470 V ±10 %: varistor")
    expect(check.locator(".said").first).to_contain_text("at 1 mA")
    shot(page, "partcheck")
    page.get_by_label("part", exact=True).select_option(label="rectifier diode")
    expect(page.get_by_text("The band is at the CATHODE")).to_be_visible()
    assert scrolls_sideways(page) == [] and barriers(page) == []
    assert opened.errors_in_cells() == [] and opened.complaints == []
