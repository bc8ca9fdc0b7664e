"""The hunt and the readings of one's own in a real browser: buy, name, be scored; codes; both themes."""

import re

import pytest

pytest.importorskip("playwright.sync_api")
from look_over import barriers, scrolls_sideways, shot, wear
from visits import expect

LESSON = "13_find_the_fault.ipynb"
PLUG_IN = "read volts, amperes, watts and power factor at a plug-in meter"
LEDS = "count the LEDs that are dark while the lamp is on"


def buy(hunt, words):
    """Take one measurement, and see it in the list."""
    taken = hunt.locator("ol li").count()
    hunt.get_by_label("measurement", exact=True).select_option(label=words)
    expect(hunt.get_by_text(re.compile(r"^Cost \d"))).to_be_visible()
    hunt.get_by_role("button", name="Measure", exact=True).click()
    expect(hunt.locator("ol li")).to_have_count(taken + 1)


def name_part(hunt, words):
    """Name a cause."""
    hunt.get_by_label("part at fault", exact=True).select_option(label=words)
    hunt.get_by_role("button", name="Name the part", exact=True).click()


def begin(hunt, number):
    """The hunt of a number."""
    field = hunt.get_by_label("hunt number")
    field.fill(str(number))
    field.press("Enter")
    hunt.get_by_role("button", name="New hunt").click()
    expect(hunt.locator("ol li")).to_have_count(0)


def bet(hunt):
    """A bet on the note before anything can be measured."""
    expect(hunt.get_by_role("button", name="Measure", exact=True)).to_be_disabled()
    hunt.get_by_label("A diode of the bridge is short.").check()
    hunt.get_by_role("button", name="Fairly sure").click()
    expect(hunt.locator(".dropper-verdict")).to_contain_text("buy readings")


def by_number(page, hunt, told):
    """Three hunts: a wrong name, a clean one, everything bought without live probes."""
    said = hunt.locator(".said:not(.outcome)")
    buy(hunt, PLUG_IN)
    expect(hunt.locator("svg.dropper-curves")).to_have_count(0)  # the odds are help, and are not given unasked
    name_part(hunt, "several shorted groups")
    expect(told).to_contain_text("It is not several shorted groups. 25 points are gone")
    expect(hunt.locator(".dropper-verdict")).to_contain_text("Not so: with one diode short the meter shows")
    expect(hunt.locator('svg[aria-label*="Marked"]')).to_have_count(0)
    hunt.get_by_label("show the odds").check()
    expect(hunt.locator("svg.dropper-curves")).to_contain_text("one diode short")
    expect(said).not_to_contain_text("several groups")
    buy(hunt, LEDS)
    name_part(hunt, "one shorted diode in the bridge")
    expect(told).to_contain_text("Found: one shorted diode in the bridge.")
    expect(told).to_contain_text("1 wrong name")
    expect(hunt.locator('svg[aria-label*="Marked: diode D1 short"]')).to_be_visible()
    shot(page, "hunt_found")
    begin(hunt, 3)
    buy(hunt, PLUG_IN)
    name_part(hunt, "a dropper that has lost capacitance")
    expect(told).to_contain_text("100 points")
    expect(hunt.get_by_label("live measurements allowed")).not_to_be_checked()
    begin(hunt, 8)
    choices = hunt.get_by_label("measurement", exact=True).locator("option")
    names = [name.replace("\xa0", " ") for name in choices.all_inner_texts()[1:]]
    assert PLUG_IN in names and not any("across the string" in name or "before power" in name for name in names), (
        "no live probes are offered"
    )
    for name in names:
        buy(hunt, name)
    expect(choices).to_have_count(1)
    name_part(hunt, "an open smoothing bleeder")
    expect(told).to_contain_text(f"Found: an open smoothing bleeder. 16 points: {len(names)} measurements")
    shot(page, "hunt_all_bought")


def by_code(page, hunt, told):
    """A teacher's code, mistyped and right."""
    hunt.get_by_label("codes of a class, and live measurements").check()
    hunt.get_by_label("hide this fault").select_option(label="a shorted smoothing capacitor")
    hunt.get_by_role("button", name="Make a code").click()
    code = hunt.get_by_text("Code for a class").locator("b").inner_text()
    field = hunt.get_by_label("teacher's code")
    field.fill(code[:-1])
    hunt.get_by_role("button", name="Open the code").click()
    expect(page.get_by_role("alert")).to_contain_text("seven letters and digits")
    field.fill(code.lower())
    hunt.get_by_role("button", name="Open the code").click()
    expect(page.get_by_role("alert")).to_have_count(0)
    hunt.get_by_role("button", name="Hint").click()
    expect(told).to_contain_text("plug-in meter")
    hunt.get_by_role("button", name="Give up").click()
    expect(told).to_contain_text("It was a shorted smoothing capacitor.")


def by_readings(finding):
    """Readings of one's own: a cause, a text that cannot be read, a contradiction."""
    for name, text in (("mains volts", "230"), ("line current", "11 mA"), ("watts", "0.6"), ("power factor", "0.25")):
        field = finding.get_by_label(name, exact=True)
        field.fill(text)
        field.press("Enter")
    expect(finding.locator(".said")).to_contain_text("It is a dropper that has lost")
    expect(finding.get_by_text("What speaks for and against")).to_be_visible()
    field = finding.get_by_label("watts", exact=True)
    field.fill("a few")
    field.press("Enter")
    expect(finding.get_by_role("alert")).to_be_visible()
    expect(finding.locator(".said")).to_contain_text("It is a dropper that has lost")
    field.fill("2.9 W")
    field.press("Enter")
    expect(finding.locator(".said")).to_contain_text("contradict")


def test_the_hunt_and_readings_of_ones_own(visit):
    opened = visit(LESSON)
    page = opened.page
    hunt, finding = page.locator(".dropper-hunt"), page.locator(".dropper-finding")
    told = hunt.locator(".outcome")
    assert opened.errors_in_cells() == [] and opened.outside == []
    bet(hunt)
    by_number(page, hunt, told)
    by_code(page, hunt, told)
    by_readings(finding)
    wear(page, "JupyterLab Dark")
    hunt.locator("svg.dropper-curves").scroll_into_view_if_needed()
    shot(page, "hunt_dark")
    finding.scroll_into_view_if_needed()
    shot(page, "finding_dark")
    assert scrolls_sideways(page) == [] and barriers(page) == []
    assert opened.errors_in_cells() == [] and opened.complaints == []
