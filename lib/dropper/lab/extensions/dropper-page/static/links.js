// Links from one notebook to another: a place in it is kept until it has run, and the browser's Back turns the page back.
const wanted = new Map(); // by a notebook's path: the place in it that a link named

function pathOf(address) {
  const found = decodeURIComponent(address).match(/\/(?:files|tree|notebooks)\/(.+\.ipynb)$/);
  return found ? found[1] : '';
}

// The place in a notebook that was asked for, `#Heading-text`, once; '' for its top.
export function placeIn(path) {
  const place = wanted.get(path) || '';
  wanted.delete(path);
  return place;
}

// Brings a place of a notebook into sight, and the focus to its cell; without a place, the notebook's top.
export function turnTo(panel, place) {
  const { content } = panel, name = place.slice(1);
  const heading = node => (node.dataset.jupyterId || node.id) === name;
  const cell = place ? content.widgets.findIndex(one => [...one.node.querySelectorAll('h1,h2,h3,h4,h5,h6')].some(heading)) : 0;
  content.activeCellIndex = Math.max(cell, 0);
  if (panel.isVisible) content.activeCell?.node.focus({ preventScroll: true });
  content.node.querySelectorAll('.jp-WindowedPanel-outer').forEach(node => { node.scrollTop = 0; });
  content.node.scrollTop = 0;
  if (cell > 0) panel.setFragment(place);
}

// The page's address is what the browser goes back to: the same one twice in a row would be one step that does nothing.
function pushOnce() {
  const push = history.pushState;
  history.pushState = function (state, title, url) {
    const same = url && new URL(url, location.href).href === location.href;
    return (same ? history.replaceState : push).call(this, state, title, url);
  };
}

export function watch(app) {
  pushOnce();
  const first = pathOf(location.pathname);
  if (first && location.hash) wanted.set(first, decodeURIComponent(location.hash));
  document.addEventListener('click', event => {
    const link = event.target instanceof Element ? event.target.closest('a[href*=".ipynb"]') : null;
    const path = link ? pathOf(link.pathname) : '';
    if (!path) return;
    if (link.hash) wanted.set(path, decodeURIComponent(link.hash));
    else wanted.delete(path);
  }, true);
  window.addEventListener('popstate', () => {
    const path = pathOf(location.pathname);
    if (path && app.shell.currentWidget?.context?.path !== path) app.commands.execute('docmanager:open', { path });
  });
}
