"""The drawn lamp on its page: it moves and stands still when it should, and keeps its colours in forced ones."""

import pytest
from visits import answered

MOVING = "document.getAnimations().filter(one => one.effect.target.closest('.dropper-glow')).length"
STRIP = "document.querySelector('.dropper-glow span').getClientRects().length > 0"
LOOK = """() => {
  const glow = document.querySelector('.dropper-glow'), part = css => getComputedStyle(glow.querySelector(css));
  return {ground: getComputedStyle(glow).backgroundColor, edge: part('.glass').stroke, base: part('.base').fill};
}"""


def luminance(colour):
    """Relative luminance as WCAG 2.2 defines it."""
    parts = [int(part) / 255 for part in colour.removeprefix("rgb(").removesuffix(")").split(",")]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


@pytest.fixture(scope="module")
def page(open_anew):
    visit = open_anew("04_smoothing_and_flicker.ipynb")
    visit.page.get_by_role("button", name="Skip", exact=True).filter(visible=True).first.click()
    answered(visit.page)
    visit.page.wait_for_selector(".dropper-glow")
    return visit.page


def test_it_moves_until_it_is_held_and_a_slider_does_not_let_go(page):
    assert page.evaluate(MOVING) == 1 and not page.evaluate(STRIP)
    page.get_by_role("button", name="Pause", exact=True).click()
    answered(page)
    assert page.evaluate(MOVING) == 0 and page.evaluate(STRIP), "eight discs of a period in its place"
    page.locator(".dropper-columns .noUi-handle").first.press("ArrowLeft")
    answered(page)
    assert page.evaluate(MOVING) == 0
    page.get_by_role("button", name="Go on", exact=True).click()
    answered(page)
    assert page.evaluate(MOVING) == 1


def test_nothing_moves_for_who_wants_no_motion(page):
    page.emulate_media(reduced_motion="reduce")
    assert page.evaluate(MOVING) == 0 and page.evaluate(STRIP)
    assert not page.get_by_role("button", name="Pause", exact=True).is_visible(), "there is nothing to pause"
    page.emulate_media(reduced_motion="no-preference")


def test_dark_glass_is_seen_in_forced_colours_too(page):
    """3:1 of its edge and its base on their ground, WCAG 2.2, 1.4.11."""
    plain = page.evaluate(LOOK)
    page.emulate_media(forced_colors="active")
    forced = page.evaluate(LOOK)
    page.emulate_media(forced_colors="none")
    assert forced == plain
    for part in ("edge", "base"):
        assert (luminance(plain[part]) + 0.05) / (luminance(plain["ground"]) + 0.05) >= 3
