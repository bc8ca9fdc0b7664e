// Where a notebook's sliders, lists and fields stand, read off the page, and put back by the kernel.
const VIEW = 'application/vnd.jupyter.widget-view+json';
const CONTROLS = '.noUi-target, .widget-dropdown select, .widget-select select, .widget-radio-box,'
  + ' .widget-checkbox input, .widget-text input[type=text], .widget-textarea textarea';

function* panels(notebook) {
  for (const cell of notebook.widgets) {
    const outputs = cell.model.type === 'code' ? cell.model.outputs : { length: 0 };
    for (let place = 0, count = 0; place < outputs.length; place++) {
      const view = outputs.get(place).data?.[VIEW], shown = cell.outputArea.widgets[place];
      if (view && shown) yield [`${cell.model.id}/${count++}`, view.model_id, shown.node];
    }
  }
}

function row(node) {
  const widget = node.closest('.widget-inline-hbox, .widget-inline-vbox, .widget-checkbox') || node.parentElement;
  const label = (widget.querySelector('.widget-label, .widget-label-basic')?.textContent || '').replace(/\s+/g, ' ').trim();
  if (node.matches('.noUi-target')) {
    const value = node.noUiSlider.get();
    return ['slider', label, Array.isArray(value) ? value.map(Number) : Number(value), node.hasAttribute('disabled')];
  }
  if (node.matches('.widget-radio-box')) {
    const radios = [...node.querySelectorAll('input')], chosen = radios.findIndex(radio => radio.checked);
    return ['radio', label, chosen < 0 ? null : chosen, radios.every(radio => radio.disabled)];
  }
  if (node.matches('select')) return ['list', label, node.selectedIndex < 0 ? null : node.selectedIndex, node.disabled];
  if (node.type === 'checkbox') return ['check', label, node.checked, node.disabled];
  return ['text', label, node.value, node.disabled];
}

// Of each panel, by its place in the notebook: its controls in the page's order, and which of them has the focus.
// Where the focus has been lost since `before`, it counts as being where it was.
export function read(notebook, before = new Map()) {
  const found = new Map(), lost = document.activeElement === document.body;
  for (const [place, , node] of panels(notebook)) {
    const controls = [...node.querySelectorAll(CONTROLS)];
    if (!controls.length) continue;
    const focused = controls.findIndex(control => control.contains(document.activeElement));
    found.set(place, { rows: controls.map(row), focused: lost ? before.get(place)?.focused ?? -1 : focused });
  }
  return found;
}

export async function putBack(panel, places) {
  const wanted = [];
  for (const [place, id] of panels(panel.content)) {
    if (places.has(place)) wanted.push([id, places.get(place).rows]);
  }
  const kernel = panel.sessionContext.session?.kernel;
  if (!wanted.length || !kernel) return;
  const text = JSON.stringify(JSON.stringify(wanted)); // a JSON text as a Python string
  const code = `import json\nfrom dropper.lessons.kit.positions import restore\nrestore(json.loads(${text}))`;
  await kernel.requestExecute({ code, silent: true, store_history: false }).done;
  for (const [place, , node] of panels(panel.content)) {
    const focused = places.get(place)?.focused ?? -1;
    const control = focused < 0 ? null : [...node.querySelectorAll(CONTROLS)][focused];
    if (control) (control.querySelector('.noUi-handle, input') || control).focus({ preventScroll: true });
  }
}
