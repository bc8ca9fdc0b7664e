"""How soon a slider move shows in a real browser: every slider of every panel beside that of an empty panel.

    .venv/bin/python tests/benchmarks/sliders.py [panels] [--presses 20]

The empty panel is a bare slider with a line of HTML below it. It stands on each panel's own page, and the two are
pressed in turn, so that both meet the same weather. From the key's event in the page to the second frame after the
change. Prints medians and 95 % figures, and how many times the empty panel's they are; asserts nothing.
"""

import argparse
import sys
import tempfile
from pathlib import Path

import numpy as np

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent / "browser"))

from playwright.sync_api import sync_playwright
from server import FLAGS, browser_path, trust, workbook, write

LAMP = "'lamps/stair_marker.toml'"
PANELS = {
    "Bench": LAMP,
    "ResistorOrCapacitor": "",
    "LoadLine": LAMP,
    "Conduction": LAMP,
    "Smoothing": LAMP,
    "Powers": LAMP,
    "OddMains": LAMP,
    "GhostLight": LAMP,
    "Plugging": LAMP,
    "Rush": LAMP,
    "TouchCurrent": LAMP,
    "Faults": LAMP,
    "FirstPower": LAMP,
    "Ageing": LAMP,
    "Strings": LAMP,
    "Sharing": LAMP,
    "LedCurve": "'lamps/bench_led.csv'",
    "Designer": "'lamps/briefs/door_number.toml'",
    "Tolerances": LAMP,
    "Measurement": LAMP,
}
CELL = """from dropper.lessons import {name}
import ipywidgets
number = ipywidgets.IntSlider(min=0, max=400, value=200, description='empty panel')
shown = ipywidgets.HTML('200')
number.observe(lambda change: setattr(shown, 'value', str(change.new)), 'value')
empty = ipywidgets.VBox([number, shown])
empty.add_class('empty-panel')
ipywidgets.VBox([empty, {name}({arguments}{comma}ask=False)])"""
EMPTY = (".empty-panel .noUi-handle", ".empty-panel .widget-html-content")
CURVES = "svg.dropper-curves"
WATCH = """([css]) => {
  const look = () => { const node = document.querySelector(css); return node && node.outerHTML; };
  window.marks = {pressed: 0, shown: 0};
  const before = look();
  window.watcher && window.watcher.disconnect();
  window.watcher = new MutationObserver(() => {
    if (window.marks.changed || look() === before) return;
    window.marks.changed = true;
    requestAnimationFrame(() => requestAnimationFrame(() => { window.marks.shown = performance.now(); }));
  });
  window.watcher.observe(document.body, {childList: true, subtree: true, attributes: true, characterData: true});
  if (!window.listening) {
    window.listening = true;
    window.addEventListener('keydown', () => { window.marks.pressed = performance.now(); }, true);
  }
}"""


def press(page, handle, css, key):
    """Milliseconds from the key to the second frame after the change; nan where nothing changes."""
    handle.focus()
    page.evaluate(WATCH, [css])
    page.keyboard.press(key)
    try:
        page.wait_for_function("window.marks.shown > 0", timeout=3_000)
    except Exception:
        return float("nan")
    page.wait_for_timeout(120)  # the words that follow
    return page.evaluate("window.marks.shown - window.marks.pressed")


def measure(page, presses):
    """By the slider's name: what it took, and what the empty panel's took beside it."""
    panel = page.locator(".dropper-panel .noUi-handle")
    empty = page.locator(EMPTY[0])
    found = {}
    for place in range(panel.count()):
        handle, took, beside = panel.nth(place), [], []
        handle.scroll_into_view_if_needed()
        low, high, now = (float(handle.get_attribute(f"aria-value{end}")) for end in ("min", "max", "now"))
        ahead = "ArrowRight" if now < (low + high) / 2 else "ArrowLeft"  # each step is a new one
        for _ in range(presses):
            took.append(press(page, handle, CURVES, ahead))
            beside.append(press(page, empty, EMPTY[1], "ArrowRight"))
        found[handle.get_attribute("aria-label")] = took, beside
    return found


def main():
    """Measure and print."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("panels", nargs="*", help=f"of {', '.join(PANELS)}; all without")
    parser.add_argument("--presses", type=int, default=20)
    options = parser.parse_args()
    names = options.panels or list(PANELS)
    print(f"{'':42}{'median, ms':>12}{'empty':>8}{'times':>7}{'95 %, ms':>12}{'empty':>8}{'times':>7}")
    with tempfile.TemporaryDirectory() as folder, workbook(folder) as address, sync_playwright() as play:
        chromium = play.chromium.launch(executable_path=browser_path(), args=FLAGS)
        for name in names:
            arguments = PANELS[name]
            book = f"speed_{name.lower()}.ipynb"
            write(folder, book, CELL.format(name=name, arguments=arguments, comma=", " if arguments else ""))
            trust(folder, book)
            page = chromium.new_page(viewport={"width": 1280, "height": 900})
            page.goto(address.format(page=f"/doc/tree/{book}") + "&reset")
            page.wait_for_function("document.body.dataset.dropperLive", timeout=120_000)
            page.wait_for_timeout(1500)
            for slider, rows in measure(page, options.presses).items():
                took, beside = (np.array(row)[np.isfinite(row)] for row in rows)
                if not took.size:
                    print(f"{name:20}{slider:22} moves nothing")
                    continue
                figures = [np.median(took), np.median(beside), np.quantile(took, 0.95), np.quantile(beside, 0.95)]
                print(
                    f"{name:20}{slider[:21]:22}{figures[0]:12.1f}{figures[1]:8.1f}{figures[0] / figures[1]:7.2f}"
                    f"{figures[2]:12.1f}{figures[3]:8.1f}{figures[2] / figures[3]:7.2f}",
                    flush=True,
                )
            page.evaluate("window.jupyterapp.serviceManager.sessions.shutdownAll()")
            page.wait_for_timeout(1000)
            page.close()
        chromium.close()


if __name__ == "__main__":
    main()
