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


def late(page):
    """What of a lesson just opened comes too late or stands open that should not, as one line each.

    Heights are from the page's top: one and a half windows of 900 pixels.
    """
    seen = page.evaluate(
        """() => {
          const notebook = document.querySelector('.jp-NotebookPanel:not(.lm-mod-hidden) .jp-Notebook');
          const scroller = notebook.querySelector('.jp-WindowedPanel-outer') || notebook;
          const seen = css => [...notebook.querySelectorAll(css)].filter(node => node.getClientRects().length);
          const top = node => node ? Math.round(node.getBoundingClientRect().top + scroller.scrollTop) : null;
          const field = '.jp-OutputArea-output :is(select, input[type=text])', slider = '.noUi-target';
          const first = seen('.dropper-fit')[0];
          const sliders = seen(slider).filter(node => first && first.contains(node));
          const cells = window.jupyterapp.shell.currentWidget.content.widgets
            .filter(cell => cell.model.type === 'code' && !cell.inputHidden && cell.node.getClientRects().length);
          return {
            control: top(sliders[0] || seen(field)[0]),
            picture: top(seen('.jp-OutputArea-output svg').find(node => node.getBoundingClientRect().height >= 100)),
            equations: seen('mjx-container[display="true"]').length,
            lines: cells.flatMap(cell => cell.model.sharedModel.source.split('\\n')).filter(line => line.trim()).length,
          };
        }"""
    )
    bounds = {"control": 1350, "picture": 1350, "equations": 4, "lines": 20}
    words = {
        "control": "the first slider begins at {} px",
        "picture": "the first picture begins at {} px",
        "equations": "{} displayed equations in sight",
        "lines": "{} lines of code in sight",
    }
    return [
        f"{words[name].format(seen[name])}, at most {most}"
        for name, most in bounds.items()
        if seen[name] is None or seen[name] > most
    ]


def file_list(page, shown):
    """Open the list of files beside the page, or close it."""
    width = page.evaluate("document.querySelector('.jp-NotebookPanel:not(.lm-mod-hidden)').clientWidth")
    if shown:
        page.evaluate("void window.jupyterapp.commands.execute('filebrowser:activate')")
    else:
        page.evaluate("window.jupyterapp.shell.collapseLeft()")
    page.wait_for_function(
        "width => document.querySelector('.jp-NotebookPanel:not(.lm-mod-hidden)').clientWidth !== width", arg=width
    )
    page.wait_for_timeout(300)


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


def unchanged(page, milliseconds=400):
    """Wait until the page has not changed for so long, ten seconds at most: what a move began is done."""
    page.evaluate(
        """milliseconds => new Promise(done => {
          let timer;
          const end = () => { observer.disconnect(); clearTimeout(timer); done(); };
          const again = () => { clearTimeout(timer); timer = setTimeout(end, milliseconds); };
          const observer = new MutationObserver(again);
          observer.observe(document.body, {childList: true, subtree: true, characterData: true});
          setTimeout(end, 10_000);
          again();
        })""",
        milliseconds,
    )


def barriers(page):
    """What axe-core finds in the notebook at rest (WCAG 2 A and AA, best practice), as one line each."""
    from axe_playwright_python.sync_playwright import Axe

    unchanged(page)
    found = Axe().run(page, ".jp-Notebook").response["violations"]
    return [
        f"{rule['id']}: {rule['help']}: {node['html'][:160]}"
        for rule in found
        if rule["id"] not in THEIRS
        for node in rule["nodes"]
    ]


def faint(page):
    """Words and curves of pictures that do not stand out from the page: 4.5:1 and 3:1 (WCAG 2.2, 1.4.3 and 1.4.11).

    What is printed on a drawn part is black or white, and stands on the part.
    """
    return page.evaluate(
        """() => {
          const parts = c => c.match(/[0-9.]+/g).map(Number);
          const light = c => { const [r, g, b] = parts(c).slice(0, 3).map(v => v / 255)
            .map(v => v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4);
            return 0.2126 * r + 0.7152 * g + 0.0722 * b; };
          const ground = node => { for (let n = node; n; n = n.parentElement) {
            const c = getComputedStyle(n).backgroundColor;
            if (parts(c).length < 4 || parts(c)[3] > 0) return c; } return 'rgb(255, 255, 255)'; };
          const ratio = (a, b) => { const [x, y] = [light(a), light(b)].sort((p, q) => q - p);
            return (x + 0.05) / (y + 0.05); };
          const found = new Set();
          for (const svg of document.querySelectorAll('.dropper-frame, svg.dropper-curves')) {
            const paper = ground(svg);
            for (const [css, key, least] of [['text', 'fill', 4.5], ['polyline, line', 'stroke', 3]])
              for (const node of svg.querySelectorAll(css)) {
                if (['#000000', '#fefefe'].includes(node.getAttribute(key))) continue;
                const colour = getComputedStyle(node)[key];
                if (!/rgb/.test(colour) || ratio(colour, paper) < least)
                  found.add(`${css} ${colour} on ${paper}: ${node.textContent}`);
              }
          }
          return [...found];
        }"""
    )
