// A notebook whose metadata says {"dropper": {"live": true}} runs its cells when it opens, if it is trusted: one of the
// workbook's own, or one that a person has run and saved. Any other asks. When its kernel is gone, the cells run again.
// The kernel of a lesson that was left is freed after a while.
import { placeIn, turnTo } from './links.js';
import { dismiss, notice } from './notices.js';
import { putBack, read } from './positions.js';

const GONE = ['restarting', 'autorestarting', 'dead'];
const AT_ONCE = 30_000; // ms after a run of its own accord: a kernel that is gone so soon is not run again
const lessons = new WeakMap();
export const times = { left: 600_000 }; // ms from leaving a lesson until its kernel is freed

class Lesson {
  constructor(app, panel) {
    Object.assign(this, { app, panel, live: false, running: false, gone: false, again: false, last: -Infinity, places: null, left: 0, freed: false });
    panel.sessionContext.statusChanged.connect((_, status) => this.follow(status));
    panel.sessionContext.kernelChanged.connect((_, change) => { if (!change.newValue) this.lose('none'); });
  }

  get inFront() { return this.app.shell.currentWidget === this.panel; }

  trusted() {
    return this.panel.content.widgets.every(cell => cell.model.type !== 'code' || cell.model.trusted);
  }

  async open() {
    const { panel } = this;
    await panel.context.ready;
    if (panel.isDisposed || panel.content.model?.getMetadata('dropper')?.live !== true) return;
    await panel.sessionContext.ready;
    if (panel.isDisposed || !panel.sessionContext.session) return;
    if (this.trusted()) await this.start();
    else {
      notice(panel, 'foreign', "This notebook is not one of the workbook's own, or it was changed elsewhere. Its code can"
        + ' do on this computer what you can do. Run it?', [['Run it', () => { dismiss(panel, 'foreign'); this.start(); }]]);
    }
  }

  async start() {
    this.live = true;
    if (!await this.run()) return;
    const { panel } = this;
    turnTo(panel, placeIn(panel.context.path));
    document.body.dataset.dropperLive = panel.context.path;
  }

  async run() {
    const { app, panel } = this;
    if (!this.inFront) app.shell.activateById(panel.id);
    this.running = true;
    const folded = panel.content.widgets.filter(cell => cell.model.getMetadata('jp-MarkdownHeadingCollapsed') === true);
    try {
      await app.commands.execute('notebook:run-all-cells');
    } finally {
      this.running = false;
    }
    if (panel.isDisposed) return false;
    panel.content.activeCellIndex = 0; // the last cell that ran has unfolded its section
    for (const cell of folded) if (!cell.isDisposed) cell.headingCollapsed = true;
    return true;
  }

  // Left, its kernel is freed after a while unless it is at work; it comes back as after any other end of its kernel.
  leave() {
    clearTimeout(this.left);
    this.left = setTimeout(() => {
      const { panel } = this, context = panel.sessionContext;
      if (panel.isDisposed || this.inFront || !this.live || !context?.session) return;
      if (this.running || context.kernelDisplayStatus === 'busy') this.leave();
      else {
        this.freed = true;
        context.shutdown();
      }
    }, times.left);
  }

  // The kernel

  follow(status) {
    if (!this.live) return;
    if (GONE.includes(status)) {
      if (status === 'autorestarting') closeTheirWord();
      this.lose(status);
    } else if (this.gone && status === 'idle') this.comeBack();
  }

  // A learner's own restart is followed whenever it comes; a kernel that died by itself, not at once again.
  lose(status) {
    if (!this.live || this.panel.isDisposed) return;
    const soon = performance.now() - this.last <= AT_ONCE;
    if (this.gone) {
      if (status !== 'autorestarting' || !soon || !this.again) return;
      this.again = false;
    } else {
      this.gone = true;
      this.again = !this.running && (status !== 'autorestarting' || !soon);
      this.places = this.running && this.places ? this.places : read(this.panel.content);
    }
    const kernel = this.panel.sessionContext.session?.kernel;
    const byHand = [['Run the cells', () => { this.again = true; this.comeBack(); }]];
    if (!this.again) {
      notice(this.panel, 'kernel', 'The kernel, which computes for the panels, has stopped while the cells ran or soon after.'
        + ' They are not run again by themselves, for one of them may be what stops it.', byHand);
    } else if (!kernel || kernel.status === 'dead') {
      notice(this.panel, 'kernel', 'The kernel, which computes for the panels, is not running: nothing moves. Your sliders'
        + ' will stand where they are when the cells have run again.', byHand);
    } else {
      notice(this.panel, 'kernel', 'The kernel, which computes for the panels, has stopped: nothing moves just now. The cells'
        + ' run again by themselves as soon as it is back, and your sliders will stand where they are.');
    }
  }

  async comeBack() {
    const { panel } = this;
    if (!this.gone || !this.again || this.running || !this.inFront) return;
    this.running = true; // one at a time
    const context = panel.sessionContext;
    try {
      if (!context.session?.kernel || context.kernelDisplayStatus === 'dead') {
        await context.changeKernel({ name: context.prevKernelName || 'python3' });
      }
      await new Promise(done => setTimeout(done, 300));
      if (panel.isDisposed) return;
      const now = read(panel.content, this.places), { activeCellIndex } = panel.content;
      if (now.size >= this.places.size) this.places = now;
      const scroller = panel.content.node.querySelector('.jp-WindowedPanel-outer') || panel.content.node;
      const { scrollTop } = scroller;
      if (panel.content.widgets.some(cell => cell.model.executionState === 'running')) { // another hand was quicker
        this.gone = false;
        dismiss(panel, 'kernel');
        return;
      }
      this.gone = false;
      this.last = Infinity; // until the run is over
      await this.run();
      this.last = performance.now();
      if (this.gone || panel.isDisposed) return;
      panel.content.activeCellIndex = activeCellIndex;
      panel.content.activeCell?.node.focus({ preventScroll: true });
      await putBack(panel, this.places);
      scroller.scrollTop = scrollTop;
      const why = this.freed ? 'While you were away this lesson gave its memory back. Now' : 'The kernel had stopped. It is back,';
      this.freed = false;
      notice(panel, 'kernel', `${why} the cells have run again, and your sliders stand where they were. What was kept to`
        + ' compare with is gone: keep it again.');
      document.body.dataset.dropperLive = panel.context.path;
    } finally {
      this.running = false;
    }
  }
}

// JupyterLab's own dialog says the same and stands in the way.
function closeTheirWord(tries = 20) {
  const dialogs = [...document.querySelectorAll('.jp-Dialog')].filter(one => one.querySelectorAll('.jp-Dialog-footer button').length === 1);
  if (dialogs.length) dialogs.at(-1).querySelector('.jp-Dialog-footer button').click();
  else if (tries) setTimeout(closeTheirWord, 50, tries - 1);
}

export function watch(app) {
  let shown = null;
  const look = () => {
    const panel = app.shell.currentWidget;
    if (shown !== panel) lessons.get(shown)?.leave();
    shown = panel;
    if (!panel?.sessionContext || !panel.content || !panel.context) return;
    const lesson = lessons.get(panel);
    if (lesson) {
      clearTimeout(lesson.left);
      if (lesson.live) placeIn(panel.context.path);
      lesson.comeBack();
    } else {
      lessons.set(panel, new Lesson(app, panel));
      lessons.get(panel).open();
    }
  };
  app.shell.currentChanged?.connect(look);
  app.restored.then(look);
}
