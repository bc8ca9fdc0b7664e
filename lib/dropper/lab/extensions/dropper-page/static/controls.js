// Sliders, lists and buttons: names that are read out, keys that stay with them, a focus that is never lost.
const CONTROL = 'select,input,textarea,button,summary,a[href],[role=slider],[tabindex],[contenteditable=true]';
const PLACES = '.jp-OutputArea, .jp-RenderedHTMLCommon';
const SETTLED = 120; // ms after the last change of the page
let groups = 0, last = null;

function put(node, key, text) {
  if (text && node.getAttribute(key) !== text) node.setAttribute(key, text);
}

function nameSlider(handle) {
  const slider = handle.closest('.widget-inline-hbox, .widget-inline-vbox');
  const text = css => slider?.querySelector(css)?.textContent.trim();
  put(handle, 'aria-label', text('.widget-label'));
  put(handle, 'aria-valuetext', text('.widget-readout'));
  const asleep = handle.closest('.noUi-target')?.hasAttribute('disabled');
  if (asleep) put(handle, 'aria-disabled', 'true');
  else if (handle.hasAttribute('aria-disabled')) handle.removeAttribute('aria-disabled');
}

// Radio buttons of one question: one Tab stop, arrows go round inside it, the question is part of their name.
function groupRadios(box) {
  const radios = [...box.querySelectorAll('input[type=radio]')];
  if (!radios.length || radios.every(radio => radio.name && radio.name === box.dataset.group)) return;
  const name = box.dataset.group = 'dropper-' + ++groups;
  radios.forEach(radio => { radio.name = name; });
  box.setAttribute('role', 'radiogroup');
  const question = box.closest('.widget-vbox')?.querySelector('.question');
  const label = box.parentElement.querySelector('.widget-label');
  const names = [question, label].filter(Boolean);
  names.forEach((node, place) => { node.id = node.id || `${name}-${place}`; });
  if (names.length) box.setAttribute('aria-labelledby', names.map(node => node.id).join(' '));
}

const NAMELESS = {
  '.jp-CodeCell .cm-content': 'code of this cell',
  '.jp-MarkdownCell .cm-content': 'text of this cell',
  '.jp-collapseHeadingButton': 'fold or unfold this section'
};

// A control of a panel keeps all its keys, also where the notebook's letters were not switched off.
function markOwnKeys() {
  for (const place of document.querySelectorAll('.jp-OutputArea-output')) {
    place.querySelectorAll(CONTROL).forEach(node => put(node, 'data-lm-suppress-shortcuts', 'true'));
  }
}

function nameAll() {
  markOwnKeys();
  document.querySelectorAll('.noUi-handle').forEach(nameSlider);
  document.querySelectorAll('.widget-radio-box').forEach(groupRadios);
  for (const [css, name] of Object.entries(NAMELESS)) {
    document.querySelectorAll(css + ':not([aria-label])').forEach(node => node.setAttribute('aria-label', name));
  }
}

// JupyterLab listens for its keys on the document; those pressed on a control of a panel do not get there.
function keepKeys(event) {
  if (event.ctrlKey || event.metaKey || event.altKey || !(event.target instanceof Element)) return;
  if (event.target.closest('.cm-editor') || event.target.matches('.jp-Cell')) return;
  if (event.target.closest(PLACES) && event.target.matches(CONTROL)) event.stopPropagation();
}

// What is wider than its place scrolls, and is reached by Tab so that the arrow keys can scroll it.
const SCROLLED = 'mjx-container, .dropper-wide, .dropper-table, .dropper-table tr.below td > div';

function reachScrolled() {
  document.querySelectorAll(SCROLLED).forEach(node => {
    const cut = node.scrollWidth > node.clientWidth + 1 && getComputedStyle(node).overflowX !== 'visible';
    if (cut && !node.hasAttribute('tabindex')) {
      node.tabIndex = 0;
      node.dataset.scrolled = '';
    } else if (!cut && 'scrolled' in node.dataset) {
      node.removeAttribute('tabindex');
      delete node.dataset.scrolled;
    }
  });
}

function awake(control) {
  return !control.disabled && !control.matches('.dropper-term, [data-scrolled]') && !control.closest('[disabled]') && control.getClientRects().length > 0;
}

// A control that goes to sleep or away under the focus hands it on: to the next one of its panel, else to the words.
function keepFocus() {
  if (!last || document.activeElement !== document.body) return;
  const { control, panel } = last;
  if (!panel.isConnected || (control.isConnected && awake(control))) return;
  const follows = node => control.isConnected && control.compareDocumentPosition(node) & Node.DOCUMENT_POSITION_FOLLOWING;
  const all = [...panel.querySelectorAll(CONTROL)].filter(awake);
  let next = all.find(follows) || (control.isConnected ? null : all[0]);
  if (!next) {
    const words = [...panel.querySelectorAll('.dropper-words')].filter(node => node.textContent.trim() && node.getClientRects().length);
    next = words.find(follows) || all.at(-1) || words.at(-1);
    if (next && !next.matches(CONTROL)) next.tabIndex = -1;
  }
  next?.focus({ preventScroll: true });
}

export function watch() {
  document.body.addEventListener('keydown', keepKeys);
  document.addEventListener('focusin', event => {
    const panel = event.target.closest?.('.jp-OutputArea-output');
    last = panel && event.target.matches(CONTROL) ? { control: event.target, panel } : null;
  });
  let due = false, settling = 0;
  new MutationObserver(() => {
    if (!due) { due = true; requestAnimationFrame(() => { due = false; nameAll(); }); }
    clearTimeout(settling);
    settling = setTimeout(() => { keepFocus(); reachScrolled(); }, SETTLED);
  }).observe(document.body, {
    childList: true, subtree: true, characterData: true, attributes: true, attributeFilter: ['disabled']
  });
  // Letters that come late, and another width of the window, make a formula scroll without any change of the page.
  document.fonts.addEventListener('loadingdone', reachScrolled);
  addEventListener('resize', () => requestAnimationFrame(reachScrolled));
  nameAll();
}
