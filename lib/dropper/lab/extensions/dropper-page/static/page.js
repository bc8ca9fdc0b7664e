// Loaded by JupyterLab before anything of its own; plain script, no build step. The parts beside it are modules:
// lessons.js   a notebook of the workbook runs when it opens, and again after its kernel is gone
// notices.js   lines above a notebook, with buttons
// voice.js     what changes is said, for screen readers
// controls.js  names, keys and focus of sliders, lists and buttons
// stage.js     one panel on the whole screen, for a class; tally.js its show of hands, stage_style.js how it looks
// why.js       how a number comes about, opened below it
// layout.js    pictures are drawn as wide as there is room
// uploads.js   a file that is too big is refused before it is sent
// kernels.js   a word when many kernels run
// links.js     links to a place in another notebook, and the browser's Back
// folds.js     folded sections and hidden code: names, keys, focus
// terms.js     trade words are explained at the word
(() => {
  const here = document.currentScript.src;
  const part = name => import(new URL(name, here).href);
  const parts = Promise.all(['lessons.js', 'voice.js', 'controls.js', 'layout.js', 'uploads.js', 'kernels.js',
    'links.js', 'folds.js', 'terms.js', 'why.js', 'stage.js'].map(part));

  // The kernel starts while the page is loading.
  const config = JSON.parse(document.getElementById('jupyter-config-data')?.textContent || '{}');
  const shown = location.pathname.match(/\/(?:tree|notebooks)\/(.+\.ipynb)$/);
  if (shown && config.dropper) {
    const xsrf = document.cookie.match(/(?:^|; )_xsrf=([^;]*)/);
    const headers = { 'Content-Type': 'application/json' };
    if (xsrf) headers['X-XSRFToken'] = xsrf[1];
    if (config.token) headers.Authorization = 'token ' + config.token;
    fetch((config.baseUrl || '/') + 'dropper/kernel', {
      method: 'POST', headers, credentials: 'same-origin', body: JSON.stringify({ path: decodeURIComponent(shown[1]) })
    }).catch(() => {});
  }

  const plugin = {
    id: 'dropper-page:live',
    autoStart: true,
    activate: async app => {
      const [lessons, voice, controls, layout, uploads, kernels, links, folds, terms, why, stage] = await parts;
      controls.watch();
      why.watch();
      stage.watch(app);
      layout.watch();
      voice.watch();
      uploads.watch(app, config.dropper ? config.dropper.mostBytes : 10_000_000);
      kernels.watch(app, config.dropper ? config.dropper.lessons : []);
      links.watch(app);
      lessons.watch(app);
      folds.watch();
      terms.watch().catch(error => console.warn('dropper: words are not explained', error));
    }
  };
  const container = {
    init: () => {},
    get: () => Promise.resolve(() => ({ default: plugin, __esModule: true }))
  };
  const scope = (window._JUPYTERLAB = window._JUPYTERLAB || {});
  scope['dropper-page'] = container;
})();
