"""How soon a slider move shows in a real browser: the bench panel, a naive redraw, a bare number.

    .venv/bin/python tests/benchmarks/sliders.py

Each has a page and a kernel of its own; they take turns, three rounds in one run. Prints medians
and 95 % figures; asserts nothing. From the key or pointer event in the page to the frame that follows
the changed picture.
"""

import json
import sys
import tempfile
from pathlib import Path

import nbformat
import numpy as np

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent / "browser"))

from playwright.sync_api import sync_playwright
from server import FLAGS, browser_path, workbook

CELLS = [
    "from dropper.lessons import Bench\nBench('lamps/stair_marker.toml', ask=False)",
    """%matplotlib inline
import ipywidgets, matplotlib.pyplot as plt
from dropper import Lamp, replace_at, steady_state
lamp = Lamp.from_toml('lamps/stair_marker.toml')
def naive(volts=(90, 264)):
    r = steady_state(replace_at(lamp, 'mains.voltage', float(volts)), 512)
    figure, axes = plt.subplots(3, 1, sharex=True, figsize=(7.8, 5.6))
    axes[0].plot(r.time, r.mains_voltage, label='mains'); axes[0].plot(r.time, r.bus_voltage, label='bus')
    axes[1].plot(r.time, r.line_current, label='line'); axes[2].plot(r.time, r.string_current, label='string')
    for each in axes: each.legend(); each.grid()
    plt.show()
w = ipywidgets.interactive(naive, volts=(90, 264)); w.add_class('naive-redraw'); w""",
    """import ipywidgets
number = ipywidgets.IntSlider(min=90, max=264, value=230, description='floor')
shown = ipywidgets.HTML('230')
number.observe(lambda c: setattr(shown, 'value', str(c.new)), 'value')
box = ipywidgets.VBox([number, shown]); box.add_class('bare-number'); box""",
]
WAYS = {
    "bench panel": (".noUi-handle[aria-label^='mains voltage']", "svg.dropper-curves"),
    "naive redraw": (".naive-redraw .noUi-handle", ".naive-redraw .jp-OutputArea img, .naive-redraw img"),
    "a number only": (".bare-number .noUi-handle", ".bare-number .widget-html-content"),
}
WATCH = """([css]) => {
  window.marks = {input: [], shown: []};
  const look = () => { const node = document.querySelector(css); return node && (node.src || node.innerHTML); };
  let last = look();
  const note = () => { const now = look(); if (now && now !== last) { last = now;
    requestAnimationFrame(() => window.marks.shown.push(performance.now())); } };
  window.watcher && window.watcher.disconnect();
  window.watcher = new MutationObserver(note);
  window.watcher.observe(document.body, {childList: true, subtree: true, attributes: true, characterData: true});
  if (!window.listening) { window.listening = true;
    for (const kind of ['keydown', 'pointermove', 'mousemove'])
      window.addEventListener(kind, () => window.marks.input.push(performance.now()), true); }
}"""


def keys(page, handle, css, times=60):
    """Milliseconds from key to picture, one a press."""
    page.evaluate(WATCH, [css])
    page.locator(handle).first.focus()
    took = []
    for press in range(times):
        page.evaluate("window.marks.input.length = window.marks.shown.length = 0")
        page.keyboard.press("ArrowLeft" if press % 40 < 20 else "ArrowRight")
        page.wait_for_function("window.marks.shown.length > 0", timeout=20_000)
        page.wait_for_timeout(80)
        marks = page.evaluate("window.marks")
        took.append(marks["shown"][0] - marks["input"][0])
    return took


def drag(page, handle, css, moves=120):
    """Pictures a second in a drag, and milliseconds from its end to the last picture."""
    page.locator(handle).first.scroll_into_view_if_needed()
    box = page.locator(handle).first.bounding_box()
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    page.evaluate(WATCH, [css])
    for move in range(moves):
        page.mouse.move(x - 50 + 50 * np.cos(move * 2 * np.pi / 60), y)
        page.wait_for_timeout(12)
    page.mouse.move(x - 20, y)
    page.wait_for_timeout(1500)
    page.mouse.up()
    marks = page.evaluate("window.marks")
    first, last = marks["input"][0], marks["input"][-2] if len(marks["input"]) > 1 else marks["input"][-1]
    shown = [mark for mark in marks["shown"] if first <= mark]
    end = marks["input"][-1]
    during = sum(mark <= end for mark in shown)
    return during / ((end - first) / 1e3), max(shown[-1] - last, 0) if shown else float("nan")


def main():
    """Measure and print."""
    kernel = {"name": "python3", "display_name": "Python 3 (ipykernel)"}
    found = {way: ([], [], []) for way in WAYS}
    opened = []
    with tempfile.TemporaryDirectory() as folder, workbook(folder) as address, sync_playwright() as play:
        chromium = play.chromium.launch(executable_path=browser_path(), args=FLAGS)

        def visit(name, width=1280, height=900):
            page = chromium.new_page(viewport={"width": width, "height": height})
            page.goto(address.format(page=f"/doc/tree/{name}") + "&reset")
            return page

        def leave(page):
            page.evaluate("window.jupyterapp.serviceManager.sessions.shutdownAll()")
            page.wait_for_timeout(1500)
            page.close()

        for number, cell in enumerate(CELLS):
            book = nbformat.v4.new_notebook(metadata={"dropper": {"live": True}, "kernelspec": kernel})
            book.cells = [nbformat.v4.new_code_cell(cell)]
            nbformat.write(book, Path(folder) / "notebooks" / f"speed_{number}.ipynb")
        for _ in range(3):
            page = visit("00_start_here.ipynb")
            page.wait_for_selector("svg.dropper-curves", timeout=60_000)
            opened.append(page.evaluate("performance.now()") / 1e3)
            leave(page)
            for number, (way, (handle, css)) in enumerate(WAYS.items()):
                page = visit(f"speed_{number}.ipynb")
                page.wait_for_function("document.body.dataset.dropperLive", timeout=120_000)
                page.wait_for_timeout(2000)
                rate, settles = drag(page, handle, css)
                for kept, new in zip(found[way], (keys(page, handle, css, 40), [rate], [settles]), strict=True):
                    kept.extend(new)
                leave(page)
        chromium.close()
    rows = {
        way: (np.median(took), np.quantile(took, 0.95), np.median(rates), np.median(settles))
        for way, (took, rates, settles) in found.items()
    }
    print(f"{'':16}{'key to picture, ms':>22}{'pictures a second':>20}{'settles after, ms':>20}")
    for way, (median, most, rate, settle) in rows.items():
        print(f"{way:16}{median:14.0f} /{most:6.0f}{rate:20.0f}{settle:20.0f}")
    print(f"naive redraw over bench panel: {rows['naive redraw'][0] / rows['bench panel'][0]:.1f} times")
    print(f"page opened to first picture, s: {json.dumps([round(each, 1) for each in opened])}")


if __name__ == "__main__":
    main()
