"""From one notebook to another and back, what is folded, and kernels of lessons that were left."""

import pytest

pytest.importorskip("playwright.sync_api")
from look_over import barriers
from playwright.sync_api import expect  # a kernel that is at work answers late
from server import code, text, trust, write

LONG = "\n\n".join(f"Line {number} of a text that is longer than the window." for number in range(40))
SLIDER = "import ipywidgets\nipywidgets.IntSlider(description='a slider')"
RUNNING = "() => [...window.jupyterapp.serviceManager.sessions.running()].map(one => one.path).sort()"
# The page script's own module: the same one that is at work.
LEFT = """async ms => {
    const page = [...document.scripts].find(script => script.src.includes('dropper-page')).src;
    (await import(new URL('lessons.js', page))).times.left = ms;
}"""
# At work until a file is there.
BUSY = """() => void window.jupyterapp.shell.currentWidget.sessionContext.session.kernel.requestExecute({
    code: "import time, pathlib\\nwhile not pathlib.Path('done.txt').exists(): time.sleep(0.1)", store_history: false})"""
PLACE = """() => {
    const panel = document.querySelector('.jp-NotebookPanel:not(.lm-mod-hidden)');
    return [...panel.querySelectorAll('.jp-Cell')].indexOf(document.activeElement);
}"""


def shown(page):
    """The notebook that is in front."""
    return page.locator(".jp-NotebookPanel:not(.lm-mod-hidden)")


def live(page, name):
    """Wait until that notebook is in front and has run."""
    page.wait_for_function(
        "path => document.body.dataset.dropperLive === path && window.jupyterapp.shell.currentWidget.context.path === path",
        arg=name,
        timeout=60_000,
    )


@pytest.fixture
def page(open_anew, folder):
    """A lesson of our own with links to another, freshly run."""
    deep = "[deep down](other.ipynb#Deep-down-below) and [its top](other.ipynb)"
    folded = text("## A folded part", **{"jp-MarkdownHeadingCollapsed": True})
    hidden = code("# Something by hand.\nprint('it' + ' ran')", jupyter={"source_hidden": True})
    details = "<details><summary>More</summary>\n\nWhat is inside.\n</details>"
    write(
        folder,
        "one.ipynb",
        text("# One\n\n" + deep),
        SLIDER,
        hidden,
        text(details),
        folded,
        text(LONG),
        "print('folded' + ' ran')",
    )
    write(
        folder,
        "other.ipynb",
        text("# Other\n\n" + LONG),
        SLIDER,
        text("## Deep down *below*\n\nIt is here."),
        text(LONG),
    )
    trust(folder, "one.ipynb", "other.ipynb")
    opened = open_anew("one.ipynb")
    opened.turn_to("one.ipynb")  # its kernel is ready early
    yield opened.page
    opened.close()
    open_anew.last = None  # there are two notebooks in it


def test_a_link_leads_to_its_place_and_back_leads_back(page):
    assert page.evaluate(PLACE) == 0, "the focus is at the top"
    expect(shown(page).get_by_text("2 cells hidden")).to_be_visible()
    page.evaluate("window.same = true")
    steps = page.evaluate("history.length")
    shown(page).get_by_role("link", name="deep down").click()
    live(page, "other.ipynb")
    heading = shown(page).get_by_role("heading", name="Deep down below")
    expect(heading).to_be_in_viewport()
    assert page.evaluate(PLACE) == 2, "the focus is at that place"
    assert heading.bounding_box()["y"] < 450

    page.go_back()
    page.wait_for_function("() => window.jupyterapp.shell.currentWidget.context.path === 'one.ipynb'")
    expect(shown(page).get_by_role("heading", name="One")).to_be_visible()
    page.go_forward()
    page.wait_for_function("() => window.jupyterapp.shell.currentWidget.context.path === 'other.ipynb'")
    page.go_back()
    page.wait_for_function("() => window.jupyterapp.shell.currentWidget.context.path === 'one.ipynb'")
    assert page.url.split("?")[0].endswith("/one.ipynb") and page.evaluate("history.length") == steps + 1

    # Without a place it is the top; the one of before is forgotten.
    page.evaluate(
        "void [...window.jupyterapp.shell.widgets('main')].find(one => one.context?.path === 'other.ipynb').dispose()"
    )
    page.evaluate("void delete document.body.dataset.dropperLive")
    shown(page).get_by_role("link", name="its top").focus()
    page.keyboard.press("Enter")
    live(page, "other.ipynb")
    expect(shown(page).get_by_role("heading", name="Other")).to_be_in_viewport()
    assert page.evaluate(PLACE) == 0
    assert page.evaluate("window.same"), "all of it without loading the page anew"


def test_a_lesson_that_was_left_frees_its_kernel_unless_it_is_at_work_and_comes_back(page, folder):
    done = folder / "notebooks" / "done.txt"
    done.unlink(missing_ok=True)
    page.evaluate(LEFT, 1000)
    slider = shown(page).get_by_role("slider", name="a slider")
    slider.press("ArrowRight")
    page.evaluate(BUSY)
    shown(page).get_by_role("link", name="its top").click()
    live(page, "other.ipynb")
    page.wait_for_timeout(2500)
    assert "one.ipynb" in page.evaluate(RUNNING), "a kernel that is at work is left alone"
    done.touch()
    page.wait_for_function(f"!({RUNNING})().includes('one.ipynb')", timeout=60_000)
    assert "other.ipynb" in page.evaluate(RUNNING)
    assert page.locator(".jp-Dialog").count() == 0

    page.evaluate(LEFT, 600_000)
    page.go_back()
    notices = shown(page).locator(".dropper-notices")
    expect(notices).to_contain_text("While you were away", timeout=60_000)
    expect(notices).to_contain_text("the cells have run again")
    slider = shown(page).get_by_role("slider", name="a slider")
    expect(slider).to_have_attribute("aria-valuetext", "1")
    slider.press("ArrowRight")
    expect(slider).to_have_attribute("aria-valuetext", "2")
    assert {"one.ipynb", "other.ipynb"} <= set(page.evaluate(RUNNING)), "who comes back in time keeps the kernel"


def test_what_is_folded_or_hidden_is_named_opened_by_keys_and_printed(page):
    cells = shown(page).locator(".jp-Cell")
    expect(shown(page).get_by_text("it ran", exact=True)).to_be_visible()
    hidden = shown(page).get_by_role("button", name="Show the code: Something by hand.")
    expect(hidden).to_have_attribute("aria-expanded", "false")
    fold = shown(page).get_by_role("button", name="Show: A folded part, 2 cells hidden")
    expect(fold).to_have_attribute("aria-expanded", "false")
    assert barriers(page) == []
    for opener, number, inside in (
        (hidden, 2, cells.nth(2).locator(".cm-content")),
        (fold, 4, shown(page).get_by_text("folded ran", exact=True)),
    ):
        expect(inside).to_be_hidden()
        opener.focus()
        page.keyboard.press("Enter")
        expect(inside).to_be_visible()
        page.wait_for_timeout(200)
        assert page.evaluate(PLACE) == number, "the focus stays in the cell that was opened"

    height = "document.querySelector('.jp-RenderedMarkdown details').offsetHeight"
    closed = page.evaluate(height)
    page.emulate_media(media="print")
    printed = page.evaluate(height)
    page.emulate_media(media="screen")
    assert printed > closed + 15, "what is folded is printed"
    assert page.evaluate(height) == closed
