// Lines above a notebook: they stay in sight while it is scrolled, and a screen reader is told.
import { say } from './voice.js';

const bars = new WeakMap();

// JupyterLab's own Widget, the root of all its classes.
function widgetClass(widget) {
  let found = widget.constructor;
  while (Object.getPrototypeOf(found) !== Function.prototype) found = Object.getPrototypeOf(found);
  return found;
}

function barOf(panel) {
  if (!bars.has(panel)) {
    const bar = new (widgetClass(panel))({ node: document.createElement('div') });
    bar.addClass('dropper-notices');
    bar.node.setAttribute('role', 'region');
    bar.node.setAttribute('aria-label', 'Notices of this notebook');
    bar.hide();
    panel.contentHeader.addWidget(bar);
    bars.set(panel, bar);
    let width = 0;  // the lines are as high as this lets them be
    new ResizeObserver(() => {
      if (bar.node.offsetWidth === width) return;
      width = bar.node.offsetWidth;
      fit(bar);
    }).observe(bar.node);
  }
  return bars.get(panel);
}

function button(words, action) {
  const node = document.createElement('button');
  node.textContent = words;
  node.addEventListener('click', action);
  node.style.cssText = 'font:inherit;margin-left:12px;padding:3px 12px;min-height:28px;cursor:pointer;color:inherit;'
    + 'background:var(--jp-layout-color1);border:1px solid currentColor;border-radius:4px';
  return node;
}

// One line a key; a later one takes its place. `buttons`: words and what they do.
export function notice(panel, key, text, buttons = []) {
  if (!panel || panel.isDisposed || !panel.contentHeader) { say(text); return; }
  dismiss(panel, key);
  const bar = barOf(panel), line = document.createElement('div'), words = document.createElement('span');
  line.dataset.key = key;
  line.style.cssText = 'display:flex;flex-wrap:wrap;align-items:center;gap:4px 0;padding:6px 16px;font-size:14px;line-height:1.45;'
    + 'color:var(--jp-content-font-color1);background:var(--jp-layout-color2);border-bottom:1px solid var(--jp-border-color1);'
    + 'border-left:6px solid #0072b2';
  words.textContent = text;
  words.style.cssText = 'flex:1 1 320px';
  line.append(words);
  for (const [name, action] of buttons) line.append(button(name, action));
  line.append(button('Close', () => dismiss(panel, key)));
  bar.node.append(line);
  bar.show();
  fit(bar);
  if (panel.isVisible) say(text);
}

export function dismiss(panel, key) {
  const bar = bars.get(panel);
  if (!bar) return;
  for (const line of [...bar.node.children]) {
    if (line.dataset.key !== key) continue;
    const focused = line.contains(document.activeElement);
    line.remove();
    if (focused && panel.content) panel.content.activate();
  }
  if (!bar.node.children.length) bar.hide();
  fit(bar);
}

function fit(bar) {
  bar.node.style.minHeight = '';
  bar.node.style.overflow = 'visible';
  if (!bar.node.offsetWidth) return;  // not laid out yet: it is fitted once it has a width
  bar.node.style.minHeight = [...bar.node.children].reduce((sum, line) => sum + line.offsetHeight, 0) + 'px';
  if (bar.parent) bar.parent.fit();
}
