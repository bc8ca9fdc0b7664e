"""What holds of every panel at every width: sliders and picture in sight together, nothing outside, type to be read.

Each lesson is opened once and its window is given one size after the other.
"""

import pytest
from server import ROOT
from visits import answered

WIDE = [(1280, 900), (1600, 900), (1920, 1080), (1024, 768), (800, 900)]
NARROW = [(640, 900), (390, 720), (640, 450), (320, 512), (320, 256)]  # the last three: 1280 x 900 at 200 % and 400 %
SIZES = WIDE + NARROW
SOME = ("00_start_here.ipynb", "04_smoothing_and_flicker.ipynb")
OTHERS = sorted({path.name for path in (ROOT / "notebooks").glob("*.ipynb")} - set(SOME))
LESSONS = [*SOME, *(pytest.param(name, marks=pytest.mark.wide) for name in OTHERS)]

# What reaches out of its panel, or is wider than the page.
OUTSIDE = """() => {
  const found = [], page = document.querySelector('.jp-WindowedPanel-outer');
  if (page.scrollWidth > page.clientWidth + 1) found.push(`the page is ${page.scrollWidth - page.clientWidth} px too wide`);
  for (const panel of document.querySelectorAll('.dropper-fit')) {
    const place = panel.getBoundingClientRect();
    if (!place.width) continue;
    for (const node of panel.querySelectorAll('button, select, input, textarea, .noUi-handle, .widget-label, td, th, svg text, .dropper-words')) {
      const box = node.getBoundingClientRect();
      if (!box.width || node.closest('.dropper-spoken, .dropper-wide, .dropper-after .dropper-table, mjx-container, .dropper-table tr.below')) continue;
      if (box.left < place.left - 1 || box.right > place.right + 1)
        found.push(`${node.tagName} "${(node.textContent || node.value || node.className).trim().slice(0, 40)}" ${Math.round(box.left - place.left)} to ${Math.round(box.right - place.left)} of ${Math.round(place.width)}`);
    }
  }
  return [...new Set(found)];
}"""
# Type of the pictures that is too small on the screen, and words that meet.
TYPE = """() => {
  const found = [];
  for (const stack of document.querySelectorAll('.dropper-stack')) {
    const words = [...stack.querySelectorAll('svg text')].filter(node => node.textContent.trim() && node.getClientRects().length);
    const drawing = !stack.querySelector('.dropper-frame path');
    const boxes = words.map(node => {
      const size = parseFloat(getComputedStyle(node).fontSize) * Math.hypot(node.getScreenCTM().a, node.getScreenCTM().b);
      if (size < 11.5 && !drawing) found.push(`"${node.textContent}" is ${size.toFixed(1)} px`);
      const {left, right, top, bottom} = node.getBoundingClientRect();
      return {node, left: left + 1, right: right - 1, top: top + 3, bottom: bottom - 3, part: node.closest('svg').classList.contains('dropper-more')};
    });
    if (drawing) continue;
    boxes.forEach((a, at) => boxes.slice(at + 1).forEach(b => {
      if (a.part === b.part && a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom)
        found.push(`"${a.node.textContent}" meets "${b.node.textContent}"`);
    }));
  }
  return [...new Set(found)];
}"""
# Sliders that are not in sight together with the first axes once they have the focus.
APART = """async () => {
  const found = [], page = document.querySelector('.jp-WindowedPanel-outer').getBoundingClientRect();
  for (const handle of document.querySelectorAll('.dropper-columns .noUi-handle')) {
    if (!handle.getClientRects().length) continue;
    handle.focus();
    await new Promise(requestAnimationFrame);
    await new Promise(requestAnimationFrame);
    const name = handle.getAttribute('aria-label'), box = handle.getBoundingClientRect();
    const stack = handle.closest('.dropper-columns').querySelector('.dropper-stack');
    const frame = stack.querySelector('.dropper-frame'), picture = frame.getBoundingClientRect();
    const scale = picture.width / frame.viewBox.baseVal.width, axes = frame.querySelector('path');
    const first = axes ? axes.getBoundingClientRect() : picture;
    if (box.top < page.top - 1 || box.bottom > page.bottom + 1) found.push(`${name}: the slider is out of sight`);
    if (first.top < page.top - 1 || first.bottom > page.bottom + 1) found.push(`${name}: the first axes are out of sight`);
    const over = document.elementFromPoint(box.left + box.width / 2, box.top + box.height / 2);
    if (!over || !(handle.contains(over) || over.contains(handle) && over.closest('.noUi-target'))) found.push(`${name}: something lies over its handle`);
  }
  return found;
}"""

# What is on top in the middle of the first axes, once the page has scrolled so far that they stick and others follow.
ON_TOP = """async () => {
  const page = document.querySelector('.jp-WindowedPanel-outer'), found = [];
  for (const more of document.querySelectorAll('.dropper-stack svg.dropper-more.dropper-frame')) {
    if (!more.getClientRects().length) continue;
    const first = more.closest('.dropper-stack').querySelector('svg:not(.dropper-more)');
    page.scrollTop += more.getBoundingClientRect().top - page.getBoundingClientRect().top - 20;
    await new Promise(requestAnimationFrame);
    await new Promise(requestAnimationFrame);
    const box = first.getBoundingClientRect();
    const over = document.elementsFromPoint(box.left + box.width / 2, box.top + box.height / 2);
    const top = over.map(node => node.closest('.dropper-stack svg')).find(Boolean);
    found.push(top ? [...top.classList].join(' ') : 'nothing');
  }
  return found;
}"""


def settle(page, width, height):
    """Give the window a size, and wait until panels and pictures have taken it."""
    page.set_viewport_size({"width": width, "height": height})
    page.wait_for_timeout(250)  # the page's own layout
    answered(page)
    page.wait_for_timeout(550)  # what the picture covers is measured after it is drawn


def show_files(page, shown):
    """Open or shut JupyterLab's list of files."""
    page.evaluate(
        "shown => window.jupyterapp.shell[shown ? 'expandLeft' : 'collapseLeft'](...(shown ? ['filebrowser'] : []))",
        shown,
    )


LOOKS = {"outside": OUTSIDE, "type": TYPE, "apart": APART}


@pytest.fixture(scope="module")
def found(lesson):
    """What each look finds of the page, by the window's size; the page is given every size once."""
    found = {name: {} for name in LOOKS}
    for size in SIZES:
        settle(lesson.page, *size)
        for name, look in LOOKS.items():
            wrong = lesson.page.evaluate(look)
            if wrong:
                found[name]["{} x {}".format(*size)] = wrong
    return found


@pytest.fixture(scope="module")
def lesson(open_anew, request):
    """A lesson whose predictions are skipped, so that its sliders are awake."""
    visit = open_anew(request.param)
    skip = visit.page.get_by_role("button", name="Skip", exact=True).filter(visible=True)
    for _ in range(skip.count()):
        if skip.count():
            skip.first.click()
            answered(visit.page)
    return visit


@pytest.mark.parametrize("lesson", LESSONS, indirect=True, scope="module")
class TestLayout:
    def test_nothing_reaches_out_of_its_panel(self, found):
        assert not found["outside"], found["outside"]

    def test_slider_and_first_axes_are_in_sight_together(self, found):
        assert not found["apart"], found["apart"]

    def test_type_of_pictures_can_be_read_and_words_do_not_meet(self, found):
        assert not found["type"], found["type"]

    def test_further_axes_pass_beneath_the_first(self, lesson):
        settle(lesson.page, 390, 720)
        wrong = [name for name in lesson.page.evaluate(ON_TOP) if "dropper-more" in name or name == "nothing"]
        assert not wrong, f"over the first axes, which stay in sight, lies {wrong}"

    def test_the_list_of_files_takes_its_room_from_the_panels(self, lesson):
        settle(lesson.page, 1280, 900)
        show_files(lesson.page, True)
        settle(lesson.page, 1280, 901)
        found = [*lesson.page.evaluate(OUTSIDE), *lesson.page.evaluate(TYPE)]
        show_files(lesson.page, False)
        assert not found, found
