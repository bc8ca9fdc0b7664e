"""A kernel that is gone, files that are too big, many kernels: the page says so, and goes on by itself where it can."""

import os
import signal
from pathlib import Path

import pytest

pytest.importorskip("playwright.sync_api")
from playwright.sync_api import expect  # a kernel that is gone answers nothing
from predict import skip_on_page
from server import trust, write
from visits import OPEN_BESIDE, answered

PANEL = "from dropper.lessons import Smoothing\npanel = Smoothing('lamps/stair_marker.toml')\npanel"
PROCESS = """async () => {
    const kernel = window.jupyterapp.shell.currentWidget.sessionContext.session.kernel;
    const future = kernel.requestExecute({code: 'import os; print(os.getpid())', store_history: false});
    let text = '';
    future.onIOPub = message => { if (message.header.msg_type === 'stream') text += message.content.text; };
    await future.done;
    return Number(text);
}"""


def notices(page):
    """The lines above the notebook that is shown."""
    return page.locator(".jp-NotebookPanel:not(.lm-mod-hidden) .dropper-notices")


def kill(page):
    """End the kernel's process as a system does that has no memory left."""
    os.kill(page.evaluate(PROCESS), signal.SIGKILL)


@pytest.fixture
def opened(open_anew, folder):
    """A notebook of our own with one panel, its sliders awake."""
    write(folder, "panel.ipynb", PANEL)
    trust(folder, "panel.ipynb")
    visit = open_anew("panel.ipynb")
    skip_on_page(visit.page)
    expect(visit.page.locator(".noUi-target[disabled]")).to_have_count(0)
    return visit


def test_the_panel_comes_back_as_it_was_after_a_kill_and_after_a_restart(opened):
    page, stand = opened.page, opened.page.locator(".dropper-panel")
    for slider, key in (("smoothing C2", "End"), ("LEDs in series", "PageDown"), ("dropper C1", "ArrowRight")):
        stand.get_by_role("slider", name=slider).press(key)
    answered(page)
    places = [slider.get_attribute("aria-valuetext") for slider in stand.get_by_role("slider").all()]
    said = stand.locator(".said").inner_text()
    stand.get_by_role("slider", name="LEDs in series").focus()

    kill(page)
    expect(notices(page)).to_contain_text("has stopped")
    expect(notices(page)).to_contain_text("the cells have run again", timeout=90_000)
    assert page.locator(".jp-Dialog").count() == 0, "nothing stands in the way"
    expect(stand.locator(".said")).to_have_text(said)
    assert [slider.get_attribute("aria-valuetext") for slider in stand.get_by_role("slider").all()] == places
    expect(stand.get_by_role("slider", name="LEDs in series")).to_be_focused()
    page.wait_for_function("document.querySelector('.dropper-voice').textContent.includes('have run again')")
    notices(page).get_by_role("button", name="Close").click()

    # It answers: one step there and back is the same picture again.
    page.keyboard.press("Tab")
    slider = stand.get_by_role("slider", name="dropper C1")
    slider.press("ArrowLeft")
    expect(stand.locator(".said")).not_to_have_text(said)
    slider.press("ArrowRight")
    expect(stand.locator(".said")).to_have_text(said)

    page.evaluate("void window.jupyterapp.commands.execute('kernelmenu:restart')")
    page.locator(".jp-Dialog").get_by_role("button", name="Confirm Kernel Restart").click()
    expect(notices(page)).to_contain_text("the cells have run again", timeout=90_000)
    expect(stand.locator(".said")).to_have_text(said)
    assert opened.errors_in_cells() == []


def test_a_cell_that_ends_its_kernel_is_not_run_for_ever(open_anew, folder):
    count = folder / "notebooks" / "times.txt"
    count.unlink(missing_ok=True)
    cell = "import os\nfrom pathlib import Path\n" + "\n".join(
        [
            "times = Path('times.txt')",
            "times.write_text(str(1 + int(times.read_text() if times.exists() else 0)))",
            "if times.read_text() != '1':\n    os._exit(1)",
        ]
    )
    write(folder, "deadly.ipynb", cell)
    trust(folder, "deadly.ipynb")
    page = open_anew("deadly.ipynb").page
    kill(page)
    expect(notices(page)).to_contain_text("not run again by themselves", timeout=90_000)
    page.wait_for_timeout(3000)
    assert count.read_text() == "2", "run when opened and once more"
    count.write_text("0")
    notices(page).get_by_role("button", name="Run the cells").click()
    expect(notices(page)).to_contain_text("the cells have run again", timeout=90_000)
    assert count.read_text() == "1"


def test_a_file_that_is_too_big_is_refused_with_a_sentence_and_the_button_stays_of_use(opened, tmp_path):
    page, stand = opened.page, opened.page.locator(".dropper-panel")

    def give(path):
        with page.expect_file_chooser() as chooser:
            stand.get_by_role("button", name="Open a lamp file").click()
        chooser.value.set_files(path)

    huge, large, own = (tmp_path / f"{name}.toml" for name in ("huge", "large", "own"))
    with huge.open("wb") as file:
        file.truncate(169_000_000)
    lamp = Path("notebooks/lamps/stair_marker.toml").read_text(encoding="utf-8")
    large.write_text(lamp + "# and a line that says nothing\n" * 400_000, encoding="utf-8")
    own.write_text(lamp.replace("330 nF", "560 nF"), encoding="utf-8")

    give(huge)
    expect(notices(page)).to_contain_text("huge.toml has 169 MB. At most 168 MB can be opened here")
    give(large)  # 12 MB: more than the server takes by itself
    expect(notices(page)).to_be_hidden()
    expect(stand.get_by_role("alert").or_(stand.get_by_role("slider", name="dropper C1")).first).to_be_visible()
    answered(page)
    give(own)
    expect(stand.get_by_role("slider", name="dropper C1")).to_have_attribute("aria-valuetext", "560 nF")
    expect(notices(page)).to_be_hidden()


def test_a_notice_is_as_high_as_its_lines_from_the_first_and_at_every_width(opened):
    """A line that is measured before it has a width, or in a narrow window, is many lines high: it must not stay so."""
    page = opened.page
    say = """async () => {
        const page = [...document.scripts].find(script => script.src.includes('dropper-page')).src;
        const { notice } = await import(new URL('notices.js', page));
        notice(window.jupyterapp.shell.currentWidget, 'try', 'Words that need several lines in a narrow window. '.repeat(4));
    }"""
    heights = """() => {
        const bar = document.querySelector('.jp-NotebookPanel:not(.lm-mod-hidden) .dropper-notices');
        return [bar.offsetHeight, [...bar.children].reduce((sum, line) => sum + line.offsetHeight, 0)];
    }"""

    def seen(width):
        page.set_viewport_size({"width": width, "height": 900})
        page.wait_for_timeout(500)
        return page.evaluate(heights)

    page.evaluate(say)
    bar, lines = seen(1280)
    assert bar == lines < 90, "one or two lines when it is first shown"
    bar, lines = seen(420)
    assert bar == lines > 90, "several in a narrow window"
    bar, lines = seen(1280)
    assert bar == lines < 90, "and few again in a wide one"


def test_a_closed_lesson_frees_its_kernel_and_many_open_ones_can_be_stopped(opened, folder, open_anew):
    page = opened.page
    running = "() => [...window.jupyterapp.serviceManager.sessions.running()].map(one => one.path).sort()"
    lessons = [f"beside/{path.name}" for path in sorted(Path("notebooks").glob("0[1-3]_*.ipynb"))]
    (folder / "notebooks" / "beside").mkdir()
    for lesson in lessons:
        write(folder, lesson, "import ipywidgets\nipywidgets.IntSlider(description='a slider')")
        trust(folder, lesson)
        page.evaluate(OPEN_BESIDE, lesson)
        page.wait_for_function("path => document.body.dataset.dropperLive === path", arg=lesson, timeout=120_000)
        answered(page)  # the page has come to rest
        slider = page.locator(".jp-NotebookPanel:not(.lm-mod-hidden)").get_by_role("slider")
        slider.press("ArrowRight")
        expect(slider).to_have_attribute("aria-valuetext", "1")
    expect(notices(page)).to_contain_text("notebooks are running")
    page.wait_for_function("() => document.querySelector('.dropper-notices:not(.lm-mod-hidden)').offsetHeight < 90")
    notices(page).get_by_role("button", name="Stop the other lessons").click()
    page.wait_for_function(f"({running})().length === 2")
    assert page.evaluate(running) == [lessons[-1], "panel.ipynb"], "a notebook that is no lesson keeps what it has"
    expect(notices(page)).to_be_hidden()

    # Back to one that was stopped: it runs again by itself.
    page.evaluate(OPEN_BESIDE, lessons[0])
    expect(notices(page)).to_contain_text("the cells have run again", timeout=120_000)
    expect(slider).to_have_attribute("aria-valuetext", "1")

    page.evaluate("void window.jupyterapp.commands.execute('application:close')")
    page.wait_for_function(f"name => !({running})().includes(name)", arg=lessons[0])
    open_anew.last = None
    opened.close()
