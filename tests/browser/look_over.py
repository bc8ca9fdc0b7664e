"""What every notebook's page must show: nothing wrong, nothing cut off, nothing that keeps people out."""

import os
from pathlib import Path

PICTURES = os.environ.get("DROPPER_PICTURES")  # a folder; without it no pictures are kept
# The page that JupyterLab puts around the cells: its list of cells holds a heading's button beside them.
THEIRS = {"aria-required-children"}


def shot(page, name):
    """Keep a picture of the page for people to look at, where a folder for it is named."""
    if PICTURES:
        page.screenshot(path=Path(PICTURES) / f"{name}.png")


def wear(page, theme):
    """Change the theme of the whole page."""
    page.evaluate("theme => window.jupyterapp.commands.execute('apputils:change-theme', {theme})", theme)
    page.wait_for_function("theme => document.body.dataset.jpThemeName === theme", arg=theme)
    page.wait_for_timeout(300)  # colours fade in


def resize(page, width, height):
    """Give the page another width, and wait until the notebook has it."""
    width_of = "document.querySelector('.jp-NotebookPanel').clientWidth"
    before = page.evaluate(width_of)
    page.set_viewport_size({"width": width, "height": height})
    page.wait_for_function(f"before => {width_of} !== before", arg=before)
    page.wait_for_timeout(100)


def scrolls_sideways(page):
    """Class names of whatever is wider than its place."""
    return page.evaluate(
        "[...document.querySelectorAll('.jp-Notebook, .jp-OutputArea-output, .jp-WindowedPanel-outer, .widget-vbox, .widget-hbox')]"
        ".filter(n => n.scrollWidth > n.clientWidth + 1).map(n => n.className)"
    )


def squeezed(page):
    """Buttons that are too narrow for their own words."""
    return page.evaluate(
        "[...document.querySelectorAll('.jp-OutputArea-output button')]"
        ".filter(n => n.scrollWidth > n.clientWidth + 1).map(n => n.innerText)"
    )


def barriers(page):
    """What axe-core finds in the notebook (WCAG 2 A and AA, best practice), as one line each."""
    from axe_playwright_python.sync_playwright import Axe

    found = Axe().run(page, ".jp-Notebook").response["violations"]
    return [
        f"{rule['id']}: {rule['help']}: {node['html'][:160]}"
        for rule in found
        if rule["id"] not in THEIRS
        for node in rule["nodes"]
    ]
