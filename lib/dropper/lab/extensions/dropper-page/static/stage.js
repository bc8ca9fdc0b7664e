// The stage: one panel on the whole screen, for a class. The question stands alone first, with a count of hands for each
// answer; then the panel, its answer held until it is asked for. All by keys, and by buttons that name them.
import { FOOT, STYLE } from './stage_style.js';
import { tally } from './tally.js';
import { say } from './voice.js';

const LEAST = 20; // pixels of the smallest type
const SETTLED = 400; // ms after the last change of the page
const PANEL = '.jp-OutputArea-output:has(.dropper-fit)';
const QUESTION = '.dropper-words.question', CHOICES = '.widget-radio-box label';
const FIELD = 'input:not([type=radio],[type=checkbox],[type=button]),select,textarea,[contenteditable=true]';
let app, host, stage = null;

function node(name, css, text = '') {
  const made = document.createElement(name);
  made.className = css;
  made.textContent = text;
  return made;
}

// Smallest type of a panel, in pixels without any enlargement; what is only for screen readers does not count. A picture is
// drawn anew for its room and keeps its type; a circuit shrinks with its room and is given larger letters instead.
const CIRCUIT = 'svg[role=img]:not(.dropper-curves)';

function shownTexts(panel) {
  const found = new Set(), texts = document.createTreeWalker(panel, NodeFilter.SHOW_TEXT);
  while (texts.nextNode()) {
    const one = texts.currentNode.parentElement;
    if (texts.currentNode.data.trim() && one.getClientRects().length && !one.closest('.dropper-spoken, sub, sup, style, mjx-container')) found.add(one);
  }
  return [...found];
}

function smallest(panel) {
  const sizes = shownTexts(panel).filter(one => !one.closest(CIRCUIT)).map(one => parseFloat(getComputedStyle(one).fontSize));
  return Math.min(14, ...sizes.filter(size => size >= 8));
}

// What letters of a circuit have to be, in its own units, so that they are large enough on the screen.
function letters(panel, zoom) {
  const scales = [...panel.querySelectorAll(CIRCUIT)].map(svg => svg.clientWidth / svg.viewBox.baseVal.width).filter(scale => scale > 0);
  return LEAST / (zoom * Math.min(1.5, ...scales));
}

class Stage {
  constructor(notebook) {
    Object.assign(this, { notebook, place: 0, panel: null, tallies: new Map(), answered: false, back: document.activeElement });
    const panels = this.panels();
    const seen = panels.filter(one => { const box = one.getBoundingClientRect(); return box.bottom > 80 && box.top < innerHeight * 0.8; });
    const first = [...seen, ...panels].find(one => one.querySelector(QUESTION)) || seen[0];
    this.build();
    this.full(true);
    this.turn(Math.max(panels.indexOf(first), 0));
  }

  panels() {
    return [...this.notebook.content.node.querySelectorAll(PANEL)];
  }

  build() {
    this.asked = node('section', 'dropper-stage-question');
    this.answer = node('p', 'dropper-stage-answer');
    this.answer.setAttribute('role', 'status');
    this.foot = node('footer', 'dropper-stage-foot');
    this.name = node('span', 'dropper-stage-name');
    const actions = [['Question', 'Q', () => this.ask()], ['Answer', 'S', () => this.show()], ['Back', 'P', () => this.turn(this.place - 1)],
      ['Next', 'N', () => this.turn(this.place + 1)], ['New class', '⇧R', () => this.reset()], ['Leave', 'Esc', () => this.leave()]];
    const buttons = actions.map(([words, key, act]) => {
      const one = node('button', '', words);
      one.append(node('kbd', '', key));
      one.setAttribute('aria-keyshortcuts', key.replace('Esc', 'Escape').replace('⇧', 'Shift+'));
      one.addEventListener('click', act);
      return one;
    });
    [this.asker, this.shower, this.before, this.after] = buttons;
    this.foot.append(this.name, ...buttons);
    host = node('div', 'dropper-stage');
    host.popover = 'manual';
    host.setAttribute('role', 'dialog');
    host.setAttribute('aria-label', 'A panel for the class');
    host.append(this.asked, this.answer, this.foot);
    document.body.append(host);
    this.size = new ResizeObserver(() => this.fit());
    this.size.observe(this.foot);
    this.size.observe(this.answer);
    this.watcher = new MutationObserver(() => this.follow());
    this.watcher.observe(this.notebook.content.node, { childList: true, subtree: true, characterData: true });
  }

  full(on) {
    this.wasFull = false;
    if (on) document.documentElement.requestFullscreen?.().then(() => { this.wasFull = true; }).catch(() => {});
    else if (document.fullscreenElement) document.exitFullscreen().catch(() => {});
  }

  // Which panel

  turn(place) {
    const panels = this.panels();
    if (!panels.length || place < 0 || place >= panels.length) return;
    this.place = place;
    this.take(panels[place]);
    const open = this.question() && this.skipper();
    if (open) this.ask();
    else this.go();
  }

  take(panel) {
    this.let(this.panel);
    this.panel = panel;
    panel.classList.add('dropper-on-stage');
    panel.popover = 'manual';
    panel.showPopover();
    if (host.matches(':popover-open')) host.hidePopover();
    host.showPopover(); // above the panel
    this.hold(true);
    this.fit();
    const count = this.panels().length;
    this.before.disabled = this.place === 0;
    this.after.disabled = this.place === count - 1;
    this.name.textContent = `${this.place + 1} of ${count}`;
  }

  let(panel) {
    if (!panel) return;
    if (panel.isConnected && panel.matches(':popover-open')) panel.hidePopover();
    panel.removeAttribute('popover');
    panel.classList.remove('dropper-on-stage', 'dropper-held');
    panel.style.removeProperty('zoom');
  }

  fit() {
    if (!this.panel) return;
    host.style.setProperty(FOOT, `${this.foot.offsetHeight}px`);
    const zoom = Math.ceil(100 * LEAST / smallest(this.panel)) / 100;
    this.panel.style.zoom = zoom; // the picture is drawn anew for the room that is left
    this.panel.style.setProperty('--dropper-letters', `${letters(this.panel, zoom).toFixed(1)}px`);
    this.panel.style.setProperty(FOOT, `${(this.foot.offsetHeight + this.answer.offsetHeight) / zoom}px`);
  }

  // A panel that ran again is another piece of the page in the same place.
  follow() {
    if (this.panel && !this.panel.isConnected && !this.resetting) {
      const panels = this.panels();
      if (panels[this.place]) {
        this.take(panels[this.place]);
        if (host.classList.contains('asks')) this.ask();
        else this.go();
      } else if (!this.notebook.isVisible) this.leave();
    }
    if (this.answered) this.write();
    clearTimeout(this.settling);
    this.settling = setTimeout(() => { if (stage === this) this.fit(); }, SETTLED);
  }

  // Question and answer

  question() {
    return this.panel?.querySelector(QUESTION)?.textContent.trim();
  }

  skipper() {
    return [...this.panel.querySelectorAll('button')].find(one => one.textContent.trim() === 'Skip' && !one.disabled);
  }

  ask() {
    if (!this.question()) return this.go();
    const choices = [...this.panel.querySelectorAll(CHOICES)].map(one => one.textContent.trim());
    const key = `${this.place} ${choices.join('|')}`;
    if (!this.tallies.has(key)) this.tallies.set(key, new Map());
    this.hands = tally(this.asked, this.question(), choices, this.tallies.get(key), () => this.go());
    host.classList.add('asks');
    this.asker.setAttribute('aria-pressed', 'true');
    this.asked.querySelector('h1').focus();
    say(`${this.question()} ${choices.map((one, place) => `${place + 1}: ${one}.`).join(' ')}`);
  }

  // On to the panel: its sliders wake, without a prediction of whoever stands at the keys.
  go() {
    host.classList.remove('asks');
    this.asker.setAttribute('aria-pressed', 'false');
    this.asker.disabled = !this.question();
    this.skipper()?.click();
    const handle = () => this.panel?.querySelector('.noUi-handle:not([aria-disabled=true]), .noUi-handle');
    setTimeout(() => { if (stage === this && !host.classList.contains('asks')) handle()?.focus({ preventScroll: true }); }, 400);
  }

  hold(on) {
    this.answered = !on;
    this.panel.classList.add('dropper-held');
    this.answer.hidden = on;
    this.shower.setAttribute('aria-pressed', String(!on));
    if (!on) this.write();
  }

  write() {
    const line = this.panel.querySelector('.dropper-verdict .dropper-words')?.cloneNode(true);
    line?.querySelector('b')?.remove(); // nobody's prediction
    const hands = this.hands?.words();
    const text = [line?.textContent.replace(/\s+/g, ' ').trim() || 'Nothing is asked on this panel.', hands].filter(Boolean).join(' ');
    if (this.answer.textContent !== text) this.answer.textContent = text;
  }

  show() {
    if (host.classList.contains('asks')) this.go();
    this.hold(this.answered);
    this.fit();
    if (this.answered) say(this.answer.textContent);
  }

  // All panels of the lesson as they were at first, nothing counted.
  async reset() {
    if (this.resetting) return;
    this.resetting = true;
    this.tallies.clear();
    this.hands = null;
    const { content } = this.notebook, active = content.activeCellIndex, count = this.panels().length;
    this.let(this.panel);
    host.classList.add('asks');
    this.asked.replaceChildren(node('h1', '', 'One moment …'));
    try {
      for (const [place, cell] of content.widgets.entries()) {
        if (!cell.node.querySelector(PANEL)) continue;
        content.deselectAll();
        content.activeCellIndex = place;
        await app.commands.execute('notebook:run-cell');
      }
      for (let turn = 0; turn < 100 && this.panels().length < count; turn++) await new Promise(done => setTimeout(done, 100));
    } finally {
      content.activeCellIndex = active;
      this.resetting = false;
    }
    if (stage === this) this.turn(Math.min(this.place, this.panels().length - 1));
  }

  leave() {
    if (stage !== this) return;
    stage = null;
    this.size.disconnect();
    this.watcher.disconnect();
    this.let(this.panel);
    host.remove();
    this.full(false);
    (this.back?.isConnected ? this.back : this.panel)?.focus?.({ preventScroll: true });
    this.panel?.scrollIntoView({ block: 'nearest' });
  }

  // Keys

  press(event) {
    if (event.ctrlKey || event.metaKey || event.altKey) return false;
    if (event.key === 'Escape' || event.key === 'F8') return this.leave(), true;
    const asks = host.classList.contains('asks'), digit = event.code.match(/^(?:Digit|Numpad)([1-9])$/)?.[1];
    if (event.target.matches?.(FIELD)) return false;
    if (asks && digit) return this.hands.count(digit - 1, event.shiftKey ? -1 : 1), true;
    if (asks && event.key === 'Enter' && !event.target.matches?.('button')) return this.go(), true;
    const acts = { q: () => (asks ? this.go() : this.ask()), s: () => this.show(), p: () => this.turn(this.place - 1), n: () => this.turn(this.place + 1) };
    if (event.shiftKey) return event.code === 'KeyR' && (this.reset(), true);
    const act = acts[event.key.toLowerCase()];
    return act ? (act(), true) : false;
  }
}

function begin() {
  const notebook = app.shell.currentWidget;
  if (stage || !notebook?.content?.node?.querySelector(PANEL)) return;
  stage = new Stage(notebook);
}

// A button beside the notebook's own, as JupyterLab's toolbars want it.
function addButton(notebook) {
  if (!notebook?.toolbar || !notebook.content || notebook.node.querySelector('.dropper-stage-button')) return;
  let Widget = notebook.constructor;
  while (Object.getPrototypeOf(Widget) !== Function.prototype) Widget = Object.getPrototypeOf(Widget);
  const widget = new Widget({ node: document.createElement('div') }), one = node('button', '', 'For the class');
  one.title = 'One panel on the whole screen, with its question first (F8)';
  one.setAttribute('aria-keyshortcuts', 'F8');
  one.addEventListener('click', begin);
  widget.addClass('dropper-stage-button');
  widget.node.append(one);
  notebook.toolbar.addItem('dropper-stage', widget);
}

export function watch(application) {
  app = application;
  const style = document.createElement('style');
  style.textContent = STYLE;
  document.head.append(style);
  window.addEventListener('keydown', event => {
    if (stage ? stage.press(event) : event.key === 'F8' && !event.ctrlKey && !event.altKey && !event.shiftKey && (begin(), stage)) {
      event.preventDefault();
      event.stopImmediatePropagation();
    }
  }, true);
  document.addEventListener('fullscreenchange', () => { if (stage?.wasFull && !document.fullscreenElement) stage.leave(); });
  // What lies beneath is out of reach while the stage is up.
  document.addEventListener('focusin', event => {
    if (stage?.panel && !host.contains(event.target) && !stage.panel.contains(event.target)) host.querySelector('button').focus();
  });
  addEventListener('resize', () => stage?.fit());
  const look = () => addButton(app.shell.currentWidget);
  app.shell.currentChanged?.connect(look);
  app.restored.then(look);
}
