"""Trade words are explained at the word: which are marked, how a meaning opens and closes, what must not be touched."""

import re

import pytest

pytest.importorskip("playwright.sync_api")
from look_over import barriers, wear
from predict import skip_on_page
from server import text, trust, write
from visits import expect

FIRST = """# A dropper in a heading

The dropper feeds the **string**. A dropper is written `dropper`, or [dropper](terms.ipynb), or $\\text{dropper}\\;R_\\text{bleeder}$.
A voltage, an X2 part, an x2, a led.

<details><summary>The bleeder in a summary</summary>

Nobody has to open this to learn what a bleeder is.
</details>

Then comes the *bleeder*, and the smoothing
capacitor. The bleeder again."""
SECOND = """## Another section

The Droppers of this section have a voltage, and it has a ripple: $$x = \\text{string}$$"""
PANEL = "from dropper.lessons import Smoothing\npanel = Smoothing('lamps/stair_marker.toml')\npanel"
MARKED = """number => [...document.querySelectorAll('.jp-Cell')[number].querySelectorAll('.dropper-term')]
    .map(node => node.textContent.replace(/\\s+/g, ' '))"""
CONTRAST = """node => {
    const light = css => { const [r, g, b] = css.match(/[0-9.]+/g).map(Number).slice(0, 3).map(v => v / 255)
        .map(v => v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4);
        return 0.2126 * r + 0.7152 * g + 0.0722 * b; };
    const style = getComputedStyle(node);
    const [less, more] = [light(style.color), light(style.backgroundColor)].sort((one, other) => one - other);
    return (more + 0.05) / (less + 0.05);
}"""


@pytest.fixture
def opened(open_anew, folder):
    """A notebook of our own with two sections and a panel; what is to be marked is."""
    visit = open_anew.last
    if visit is None or visit.purpose != "terms":
        write(folder, "terms.ipynb", text(FIRST), text(SECOND), PANEL)
        trust(folder, "terms.ipynb")
        visit = open_anew("terms.ipynb")
        visit.purpose = "terms"
        expect(visit.page.locator(".jp-Cell").nth(1).locator(".dropper-term")).not_to_have_count(0)
    visit.page.keyboard.press("Escape")
    visit.page.mouse.move(5, 5)
    expect(visit.page.get_by_role("tooltip")).to_be_hidden()
    return visit


def word(page, name):
    """The first marked word of that name."""
    return page.get_by_role("button", name=name, exact=True).first


def test_a_word_is_marked_once_a_page_and_never_in_code_links_headings_or_formulas(opened):
    page = opened.page
    assert page.evaluate(MARKED, 0) == ["dropper", "string", "X2", "bleeder", "bleeder", "smoothing capacitor"]
    assert page.locator("details .dropper-term").all_text_contents() == ["bleeder"]
    assert page.evaluate(MARKED, 1) == ["ripple"], "the others are explained above; a voltage is known"
    for place in ("h1", "h2", "a", "code", "summary", "mjx-container"):
        assert page.locator(f".jp-RenderedMarkdown {place}").count() >= 1, place
        assert page.locator(f"{place} .dropper-term").count() == 0, place
    assert page.locator(".question .dropper-term").count() >= 1, "a panel's question too"
    assert page.locator(".said .dropper-term").count() == 0, "what changes with a slider is left alone"
    assert barriers(page) == [] and opened.complaints == []


def test_a_meaning_opens_by_pointing_by_focus_and_by_touch_and_escape_closes_it(opened):
    page, tip = opened.page, opened.page.get_by_role("tooltip")
    meaning = re.compile("a resistor across a capacitor that empties it")

    word(page, "X2").hover()
    expect(tip).to_contain_text("tested for use straight across the mains")
    tip.hover()  # the pointer may go into the meaning
    page.wait_for_timeout(500)
    expect(tip).to_be_visible()
    page.mouse.move(5, 5)
    expect(tip).to_be_hidden()

    bleeder = page.locator(".jp-Cell em .dropper-term")
    page.locator("summary").first.focus()
    page.keyboard.press("Tab")  # what is folded is no Tab stop
    expect(bleeder).to_be_focused()
    expect(tip).to_have_text(meaning)
    expect(bleeder).to_have_accessible_description(meaning)
    box, below = tip.bounding_box(), bleeder.bounding_box()
    assert below["y"] + below["height"] <= box["y"] <= below["y"] + below["height"] + 12 and box["x"] >= 0
    page.keyboard.press("Escape")
    expect(tip).to_be_hidden()
    expect(bleeder).to_be_focused()
    assert page.locator(".jp-mod-editMode").count() == 0
    for key in ("Enter", "Space"):
        page.keyboard.press(key)
        expect(tip).to_have_text(meaning)
        page.keyboard.press(key)
        expect(tip).to_be_hidden()
    for key in ("ArrowDown", "d", "d"):
        page.keyboard.press(key)
        expect(bleeder).to_be_focused()
    page.keyboard.press("Shift+Tab")

    bleeder.dispatch_event("click")  # a finger that points at nothing first
    expect(tip).to_have_text(meaning)
    page.locator("h1").first.click()
    expect(tip).to_be_hidden()


def test_marks_move_nothing(opened):
    """Texts are as high as the same texts with no marks in them, and stand at the same places."""
    places = "[...document.querySelectorAll('.jp-RenderedMarkdown p, .question')].map(n => JSON.stringify(n.getBoundingClientRect()))"
    page = opened.page
    marked = page.evaluate(places)
    page.evaluate(
        """() => document.querySelectorAll('.dropper-term').forEach(node => {
            const parent = node.parentNode;
            node.replaceWith(...node.childNodes);
            parent.normalize();
        })"""
    )
    opened.purpose = None  # its marks are gone
    assert page.locator(".dropper-term").count() == 0 and page.evaluate(places) == marked


def test_meanings_are_to_be_read_in_the_dark_and_in_a_persons_own_colours(opened):
    page, tip, bleeder = (
        opened.page,
        opened.page.get_by_role("tooltip"),
        opened.page.locator(".jp-Cell em .dropper-term"),
    )
    for theme in ("JupyterLab Dark", "JupyterLab Light"):
        wear(page, theme)
        bleeder.hover()
        expect(tip).to_be_visible()
        assert tip.evaluate(CONTRAST) >= 7, theme
        assert bleeder.evaluate("node => getComputedStyle(node).textDecorationStyle") == "dotted"
    page.emulate_media(forced_colors="active")
    assert tip.evaluate(CONTRAST) >= 7
    edge = tip.evaluate("node => [getComputedStyle(node).borderTopWidth, getComputedStyle(node).borderTopStyle]")
    page.emulate_media(forced_colors="none")
    assert edge == ["2px", "solid"]


def test_a_sliders_move_marks_nothing_anew(opened):
    page, stand = opened.page, opened.page.locator(".dropper-panel")
    skip_on_page(stand)
    passes = "[...document.querySelectorAll('.dropper-term')]"
    page.evaluate(f"window.marks = {passes}")
    said = stand.locator(".said").inner_text()
    stand.get_by_role("slider").first.press("ArrowRight")
    expect(stand.locator(".said")).not_to_have_text(said)
    page.wait_for_timeout(1500)
    assert page.evaluate(f"{passes}.length === window.marks.length && window.marks.every(node => node.isConnected)")
