"""Prints the pages and looks them over in Chromium; what is found goes into found.json of the folder named."""

import json
import sys
from pathlib import Path

from axe_playwright_python.sync_playwright import Axe
from pages import CASES, LOOKED_OVER, made
from playwright.sync_api import sync_playwright
from server import FLAGS, browser_path

PAPERS = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}  # mm, ISO 216 and ANSI/ASME Y14.1
MARGIN = 8.0  # mm, as on the page
# The distribution's widest sans serif: a page that fits with it fits with any.
WIDE = "const s = document.createElement('style'); s.textContent = `* { font-family: 'DejaVu Sans' !important }`;"
CUT = """[...document.querySelectorAll('main, main *')].filter(node => !node.closest('svg') && node.clientWidth &&
  (node.scrollWidth > node.clientWidth + 1 || node.scrollHeight > node.clientHeight + 1 && node.tagName != 'SPAN'))
  .map(node => node.tagName + '.' + node.className)"""
# Parts of the page that stand over one another, and the drawing's captions where the words beside it stand.
OVER = """(() => {
  const box = node => node.getBoundingClientRect(), hits = (a, b) =>
    a.left < b.right - 1 && b.left < a.right - 1 && a.top < b.bottom - 1 && b.top < a.bottom - 1;
  const parts = [...document.querySelector('main').children], found = [];
  parts.forEach((a, n) => parts.slice(n + 1).forEach(b => { if (hits(box(a), box(b))) found.push(b.className); }));
  const words = [...document.querySelectorAll('.brief p')].map(box);
  document.querySelectorAll('.circuit svg text').forEach(text => {
    const own = box(text), edge = box(text.closest('svg'));
    if (own.left < edge.left || own.right > edge.right || own.top < edge.top || own.bottom > edge.bottom ||
        words.some(each => hits(each, own))) found.push(text.textContent); });
  return found; })()"""


def look(chromium, folder, name, paper):
    """One page on one paper: its PDFs, what is cut off, what keeps people out."""
    width, height = (round((side - 2 * MARGIN) * 96 / 25.4) for side in PAPERS[paper])
    page = chromium.new_page(viewport={"width": width, "height": height})
    asked, said = [], []
    page.on("request", lambda request: asked.append(request.url))
    page.on("console", lambda message: said.append(message.text))
    file = made(name, paper).write(folder / f"{name}_{paper}.html")
    page.goto(file.as_uri())
    found = {"title": page.title(), "name": page.locator("h1").inner_text()}
    found["foreign"] = page.evaluate("document.querySelectorAll('img, script, link, object, iframe, main b b').length")
    if (name, paper) in LOOKED_OVER:
        axe = Axe().run(page).response["violations"]
        found["barriers"] = [f"{rule['id']}: {node['html'][:200]}" for rule in axe for node in rule["nodes"]]
    page.emulate_media(media="print")
    found["cut"], found["over"] = page.evaluate(CUT), page.evaluate(OVER)
    for form in PAPERS:
        (folder / f"{name}_{paper}_on_{form}.pdf").write_bytes(page.pdf(format=form))
    page.evaluate(WIDE + "document.head.append(s)")
    found["cut"] += page.evaluate(CUT)
    (folder / f"{name}_{paper}_wide.pdf").write_bytes(page.pdf(format=paper))
    found["asked"] = [url for url in asked if url != file.as_uri()]
    found["said"] = said
    page.close()
    return found


def main(folder):
    """Look at every page on every paper."""
    with sync_playwright() as play:
        chromium = play.chromium.launch(executable_path=browser_path(), args=FLAGS)
        found = {f"{name} {paper}": look(chromium, folder, name, paper) for name, paper in CASES}
        chromium.close()
    (folder / "found.json").write_text(json.dumps(found), encoding="utf-8")


if __name__ == "__main__":
    main(Path(sys.argv[1]))
