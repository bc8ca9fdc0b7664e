// Loaded by JupyterLab when `python -m dropper` starts it; plain script, no build step.
// 1. A notebook whose metadata says {"dropper": {"live": true}} runs its cells when it opens.
// 2. Slider handles get the name and the value that stand beside them, and the page's own nameless
//    editors and buttons get a name, and what a panel says is repeated in one lasting place, for screen readers.
(() => {
  const done = new WeakSet();

  async function bringToLife(app, panel) {
    if (!panel || !panel.sessionContext || !panel.content || done.has(panel)) return;
    done.add(panel);
    await panel.context.ready;
    const asked = panel.content.model && panel.content.model.getMetadata('dropper');
    if (!asked || asked.live !== true) return;
    await panel.sessionContext.ready;
    if (!panel.sessionContext.session || panel.isDisposed) return;
    if (app.shell.currentWidget !== panel) app.shell.activateById(panel.id);
    await app.commands.execute('notebook:run-all-cells');
    if (panel.isDisposed) return;
    panel.content.activeCellIndex = 0;
    panel.content.node.querySelectorAll('.jp-WindowedPanel-outer').forEach(node => { node.scrollTop = 0; });
    panel.content.node.scrollTop = 0;
    document.body.dataset.dropperLive = panel.context.path;
  }

  function nameSlider(handle) {
    const slider = handle.closest('.widget-inline-hbox, .widget-inline-vbox');
    if (!slider) return;
    const put = (key, source) => {
      const text = source && source.textContent.trim();
      if (text && handle.getAttribute(key) !== text) handle.setAttribute(key, text);
    };
    put('aria-label', slider.querySelector('.widget-label'));
    put('aria-valuetext', slider.querySelector('.widget-readout'));
  }

  const NAMELESS = {
    '.jp-CodeCell .cm-content': 'code of this cell',
    '.jp-MarkdownCell .cm-content': 'text of this cell',
    '.jp-collapseHeadingButton': 'fold or unfold this section'
  };

  function nameTheRest() {
    for (const [css, name] of Object.entries(NAMELESS)) {
      document.querySelectorAll(css + ':not([aria-label])').forEach(node => node.setAttribute('aria-label', name));
    }
  }

  // What a status says is replaced as a whole when it changes; a lasting place that repeats the latest one is
  // what screen readers follow. Nothing is said before the learner does something.
  const voice = document.createElement('div');
  voice.setAttribute('aria-live', 'polite');
  voice.className = 'dropper-voice';
  voice.style.cssText = 'position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)';
  let awake = false, waitingToSpeak = 0;
  const heard = new WeakMap();

  function listen() {
    document.querySelectorAll('[role="status"], [role="alert"]').forEach(node => {
      const place = node.parentElement, text = node.textContent.trim();
      if (!place || heard.get(place) === text) return;
      heard.set(place, text);
      if (!awake || !text) return;
      clearTimeout(waitingToSpeak);
      waitingToSpeak = setTimeout(() => { voice.textContent = text; }, 400);
    });
  }

  function watchSliders() {
    document.body.appendChild(voice);
    for (const event of ['keydown', 'pointerdown']) {
      document.addEventListener(event, () => { awake = true; }, { capture: true, passive: true });
    }
    let waiting = false;
    const look = () => {
      waiting = false;
      document.querySelectorAll('.noUi-handle').forEach(nameSlider);
      nameTheRest();
      listen();
    };
    new MutationObserver(() => {
      if (!waiting) { waiting = true; requestAnimationFrame(look); }
    }).observe(document.body, { childList: true, subtree: true, characterData: true });
    look();
  }

  const plugin = {
    id: 'dropper-page:live',
    autoStart: true,
    activate: app => {
      watchSliders();
      const check = () => bringToLife(app, app.shell.currentWidget);
      if (app.shell.currentChanged) app.shell.currentChanged.connect(check);
      app.restored.then(check);
    }
  };

  const container = {
    init: () => {},
    get: () => Promise.resolve(() => ({ default: plugin, __esModule: true }))
  };
  const scope = (window._JUPYTERLAB = window._JUPYTERLAB || {});
  scope['dropper-page'] = container;
})();
