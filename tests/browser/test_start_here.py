"""The first notebook as a learner meets it, in a real browser."""

import re
from pathlib import Path

import pytest

pytest.importorskip("playwright.sync_api")
from look_over import barriers, late, resize, scrolls_sideways, shot, squeezed, wear
from predict import predict_on_page, press_sure, skip_on_page
from visits import expect

FIRST = "00_start_here.ipynb"


def predicted(opened):
    """The notebook's page, its sliders woken by a prediction."""
    page = opened.page
    predict_on_page(page, "the dropper capacitor")
    expect(page.get_by_text("You said (sure): the dropper capacitor.", exact=True)).to_be_visible()
    return page


@pytest.fixture
def first(open_anew):
    """The notebook open and awake, the same for all tests that leave its lamp as it is."""
    opened = open_anew.last
    if opened is None or opened.purpose != FIRST:
        opened = open_anew(FIRST)
        predicted(opened)
        opened.purpose = FIRST
    return opened


@pytest.fixture
def page(first):
    """The page with every slider where it was at first and nothing kept."""
    first.page.get_by_role("button", name="Reset").click()
    first.page.get_by_role("button", name="Forget it").click()
    expect(first.page.get_by_role("slider", name="dropper C1")).to_have_attribute("aria-valuetext", "330 nF")
    expect(first.page.locator(".dropper-table")).not_to_contain_text("kept")
    return first.page


def give(page, path):
    """Choose a file as a learner does."""
    with page.expect_file_chooser() as chooser:
        page.get_by_role("button", name="Open a lamp file").click()
    chooser.value.set_files(path)


def test_opens_runs_and_asks_first(visit):
    opened = visit(FIRST)
    page = opened.page
    assert late(page) == []
    slider = page.get_by_role("slider", name="dropper C1")
    expect(slider).to_be_visible()
    assert slider.get_attribute("aria-disabled") == "true" or page.locator(".noUi-target[disabled]").count() == 6
    press_sure(page)
    expect(page.locator(".dropper-words", has_text="Choose an answer first, or skip.")).to_be_visible()
    skip_on_page(page)
    expect(page.locator(".noUi-target[disabled]")).to_have_count(0)
    assert opened.errors_in_cells() == []
    assert opened.complaints == []
    assert opened.outside == []


def test_the_verdict_on_the_prediction_comes_from_the_lamp(page):
    for name in ("dropper C1", "series resistor R4"):
        page.get_by_role("slider", name=name).focus()
        page.keyboard.press("ArrowRight")
    expect(page.locator(".dropper-verdict", has_text="a hundred times the series resistor").first).to_be_visible()


def test_a_key_on_a_slider_changes_picture_numbers_sentence_and_drawing(first, page):
    curves = page.locator("svg.dropper-curves")
    before = (
        curves.inner_html(),
        curves.get_attribute("aria-label"),
        curves.screenshot(),
        page.locator(".dropper-table").inner_text(),
        page.locator(".said").inner_text(),
    )
    slider = page.get_by_role("slider", name="dropper C1")
    slider.focus()
    assert slider.get_attribute("aria-valuetext") == "330 nF"
    page.keyboard.press("ArrowRight")
    expect(slider).to_have_attribute("aria-valuetext", "390 nF")
    expect(curves).not_to_have_attribute("aria-label", before[1])
    expect(page.locator(".said")).not_to_have_text(before[4])
    after = (
        curves.inner_html(),
        curves.get_attribute("aria-label"),
        curves.screenshot(),
        page.locator(".dropper-table").inner_text(),
        page.locator(".said").inner_text(),
    )
    for old, new in zip(before, after, strict=True):
        assert old != new
    expect(page.locator('svg[aria-label^="Circuit"]')).to_have_attribute("aria-label", re.compile("390 nF"))
    shot(page, "slider_moved")
    assert first.errors_in_cells() == [] and first.complaints == []


def test_letters_on_a_slider_leave_the_cells_alone(page):
    cells = page.locator(".jp-Cell")
    count = cells.count()
    slider = page.get_by_role("slider", name="smoothing C2")
    slider.focus()
    for key in "mabxydzcvrkjl":
        page.keyboard.press(key)
    page.keyboard.press("d")
    page.keyboard.press("d")
    page.wait_for_timeout(500)
    assert cells.count() == count
    expect(slider).to_be_visible()


def test_every_slider_goes_to_both_ends_without_a_dead_picture(first, page):
    curves = page.locator("svg.dropper-curves")
    for name in ("mains voltage", "mains frequency", "dropper", "smoothing", "LEDs in series", "series resistor"):
        slider = page.get_by_role("slider", name=name)
        slider.focus()
        for key in ("Home", "End"):
            page.keyboard.press(key)
            page.wait_for_timeout(150)
            assert curves.locator("polyline").count() == 4
            said = page.locator(".said").inner_text()
            assert "nan" not in said and len(said) > 60, (name, key, said)
        shot(page, f"ends_{name.replace(' ', '_')}")
        page.get_by_role("button", name="Reset").click()
    expect(page.get_by_role("slider", name="dropper C1")).to_have_attribute("aria-valuetext", "330 nF")
    assert first.errors_in_cells() == [] and first.complaints == []


def test_too_many_leds_say_that_the_lamp_stays_dark(page):
    page.get_by_role("slider", name="mains voltage").focus()
    page.keyboard.press("Home")
    page.get_by_role("slider", name="LEDs in series").focus()
    page.keyboard.press("End")
    expect(page.locator(".said")).to_contain_text("stays dark")
    shot(page, "dark_lamp")


def test_kept_curves_stay_as_a_ghost_with_signed_per_cent(page):
    page.get_by_role("button", name="Keep this one").click()
    page.get_by_role("slider", name="dropper C1").focus()
    page.keyboard.press("ArrowLeft")
    table = page.locator(".dropper-table")
    expect(table).to_contain_text("−")
    expect(table).to_contain_text("kept")
    assert page.locator('svg[aria-hidden="true"] polyline').count() >= 4
    page.get_by_role("button", name="Forget it").click()
    expect(table).not_to_contain_text("kept")


def test_a_number_explains_itself(page):
    page.get_by_role("button", name="how power factor comes about").click()
    expect(page.locator("text=Power factor of the lamp")).to_be_visible()
    expect(page.locator("text=For this lamp as it is")).to_be_visible()
    shot(page, "explained")


def test_the_picture_is_saved_as_a_file_until_it_is_another_one(page):
    box = page.locator(".dropper-panel .dropper-save").first
    box.get_by_role("button", name="Save this picture").click()
    link = box.get_by_role("link", name="stair_marker_bench.png")
    expect(link).to_be_visible(timeout=60_000)
    with page.expect_download() as saved:
        link.click()
    assert saved.value.suggested_filename == "stair_marker_bench.png"
    assert Path(saved.value.path()).read_bytes().startswith(b"\x89PNG")
    page.get_by_role("slider", name="dropper C1").focus()
    page.keyboard.press("ArrowRight")
    expect(link).to_have_count(0)


def test_a_part_can_be_pointed_at(page):
    page.get_by_label("Point at").select_option("dropper C1")
    expect(page.locator(".dropper-parts li")).to_have_count(1)
    expect(page.locator(".dropper-parts")).to_contain_text("in series with the mains")
    page.locator('svg[aria-label^="Circuit"]').scroll_into_view_if_needed()
    shot(page, "pointed_at")


def test_nothing_on_the_page_keeps_people_out(page):
    assert barriers(page) == []


@pytest.mark.parametrize("theme", ["JupyterLab Dark", "JupyterLab Light"])
def test_fits_the_page_and_is_readable_in_both_themes(page, theme):
    wear(page, theme)
    panel = page.locator(".dropper-table")
    panel.scroll_into_view_if_needed()
    wide = scrolls_sideways(page)
    assert wide == [], "nothing scrolls sideways at 1280 pixels"
    assert squeezed(page) == []
    resize(page, 1024, 768)
    assert scrolls_sideways(page) == [] and squeezed(page) == [], "nor at a projector's 1024"
    resize(page, 1280, 900)
    shot(page, theme.replace(" ", "_").lower())
    contrast = page.evaluate(
        """() => {
          const lum = c => { const [r, g, b] = c.match(/[0-9.]+/g).map(Number).map(v => v / 255)
            .map(v => v <= 0.03928 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4);
            return 0.2126 * r + 0.7152 * g + 0.0722 * b; };
          const ground = node => { for (let n = node; n; n = n.parentElement) {
            const c = getComputedStyle(n).backgroundColor;
            if (!/, 0\\)|transparent/.test(c)) return c; } return 'rgb(255,255,255)'; };
          return ['.dropper-table td', '.said', '.dropper-heat .name', '.dropper-parts li'].map(css => {
            const node = document.querySelector(css);
            const [a, b] = [lum(getComputedStyle(node).color), lum(ground(node))].sort((x, y) => y - x);
            return (a + 0.05) / (b + 0.05); });
        }"""
    )
    assert min(contrast) >= 4.5, contrast  # WCAG 2.2, 1.4.3


def test_a_learners_own_lamp_file_and_a_spoilt_one(first, page, tmp_path):
    first.purpose = None  # its lamp is another one from here on
    good = (Path("notebooks/lamps/stair_marker.toml")).read_text(encoding="utf-8").replace("330 nF", "560 nF")
    (tmp_path / "own.toml").write_text(good, encoding="utf-8")
    (tmp_path / "spoilt.toml").write_text(good.replace("560 nF", "560 nH"), encoding="utf-8")
    slider = page.get_by_role("slider", name="dropper C1")
    give(page, tmp_path / "own.toml")
    expect(slider).to_have_attribute("aria-valuetext", "560 nF")
    give(page, tmp_path / "spoilt.toml")
    expect(page.get_by_role("alert")).to_contain_text("'560 nH' is not in F")
    expect(slider).to_have_attribute("aria-valuetext", "560 nF")
    assert page.locator("svg.dropper-curves polyline").count() == 4
