"""How soon a lesson is live after its page is opened, beside an empty notebook with one slider.

    .venv/bin/python tests/benchmarks/opening.py [--rounds 3] [--only 04 10]

Each opening is a page of its own with a fresh kernel; lessons and the empty notebook take turns, all in one run.
Live: the first panel's slider has been moved by a key, and what is shown beside it has changed. Prints the median
of the rounds and the difference to the empty notebook, in seconds; asserts nothing.
"""

import argparse
import sys
import tempfile
from pathlib import Path

import numpy as np

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent / "browser"))

from playwright.sync_api import sync_playwright
from server import FLAGS, ROOT, browser_path, trust, workbook, write

EMPTY = "empty.ipynb"
SLIDER = """import ipywidgets
number = ipywidgets.IntSlider(min=90, max=264, value=230, description='floor')
shown = ipywidgets.HTML('230')
number.observe(lambda c: setattr(shown, 'value', str(c.new)), 'value')
box = ipywidgets.VBox([number, shown]); box.add_class('dropper-panel'); box"""
# The first panel that can be moved: its first slider, or the first list of one without sliders.
FIRST = """() => {
  const handle = document.querySelector('.dropper-panel .noUi-handle');
  if (handle) return [handle.closest('.dropper-panel'), handle];
  for (const curves of document.querySelectorAll('svg.dropper-curves')) {
    const panel = curves.closest('.jp-OutputArea-output'), list = panel.querySelector('select');
    if (list && !panel.querySelector('.dropper-panel')) return [panel, list];
  }
  return null;
}"""
AWAKE = f"""() => {{
  const found = ({FIRST})();
  if (!found) return false;
  const [panel, control] = found;
  if (!control.closest('[disabled]')) return true;
  for (const button of document.querySelectorAll('.jp-OutputArea-output button'))
    if (button.textContent.trim() === 'Skip' && !button.disabled) {{ button.click(); break; }}
  return false;
}}"""
SHOWN = "panel => [...panel.querySelectorAll('.widget-html-content')].map(n => n.innerHTML).join()"
READY = f"() => {{ const [panel, control] = ({FIRST})(); window.before = ({SHOWN})(panel); control.focus({{preventScroll: true}}); return control.tagName; }}"
ANSWERED = (
    f"() => {{ const [panel] = ({FIRST})(); return ({SHOWN})(panel) !== window.before && performance.now() / 1e3; }}"
)
RUN = "path => document.body.dataset.dropperLive === path && performance.now() / 1e3"


def open_once(chromium, address, notebook):
    """Seconds from opening the page until its first panel answers, and until all cells have run."""
    page = chromium.new_page(viewport={"width": 1280, "height": 900})
    try:
        page.goto(address.format(page=f"/doc/tree/{notebook}") + "&reset", wait_until="commit")
        page.wait_for_function(AWAKE, timeout=120_000)
        if page.evaluate(READY) == "SELECT":
            page.evaluate(
                f"() => {{ const select = ({FIRST})()[1]; select.selectedIndex += 1;"
                " select.dispatchEvent(new Event('change', {bubbles: true})); }"
            )
        else:
            page.keyboard.press("ArrowRight")
        live = page.wait_for_function(ANSWERED, timeout=120_000).json_value()
        run = page.wait_for_function(RUN, arg=notebook, timeout=120_000).json_value()
        return live, run
    finally:
        page.evaluate("window.jupyterapp.serviceManager.sessions.shutdownAll()")
        page.wait_for_timeout(1500)
        page.close()


def main():
    """Measure and print."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--rounds", type=int, default=3)
    parser.add_argument("--only", nargs="*", default=())
    chosen = parser.parse_args()
    lessons = sorted(path.name for path in (ROOT / "notebooks").glob("[0-9][0-9]_*.ipynb"))
    lessons = [name for name in lessons if not chosen.only or name[:2] in chosen.only]
    took = {name: [] for name in (EMPTY, *lessons)}
    with tempfile.TemporaryDirectory() as folder, workbook(folder) as address, sync_playwright() as play:
        write(folder, EMPTY, SLIDER)
        trust(folder, EMPTY)
        chromium = play.chromium.launch(executable_path=browser_path(), args=FLAGS)
        open_once(chromium, address, EMPTY)  # the browser's cache has the page
        for _ in range(chosen.rounds):
            for name, times in took.items():
                times.append(open_once(chromium, address, name))
                print(f"{name} {times[-1][0]:.1f} {times[-1][1]:.1f}", file=sys.stderr)
        chromium.close()
    floor = np.median([live for live, _ in took[EMPTY]])
    print(f"{'':36}{'live, s':>8}{'more':>7}{'all run, s':>12}   rounds")
    for name, times in took.items():
        live, run = np.median(times, axis=0)
        rounds = " ".join(f"{one:.1f}" for one, _ in times)
        print(f"{name:36}{live:8.1f}{live - floor:+7.1f}{run:12.1f}   {rounds}")


if __name__ == "__main__":
    main()
