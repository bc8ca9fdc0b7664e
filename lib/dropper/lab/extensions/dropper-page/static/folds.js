// Folded sections and hidden code: names that are read out, keys that open them, a focus that stays where it was opened.
const CODE = '.jp-InputPlaceholder .jp-Placeholder-content, .jp-OutputPlaceholder .jp-Placeholder-content';
const SECTION = '.jp-showHiddenCellsButton';
const OPENED = 60; // ms until what was opened is on the page

function put(node, key, text) {
  if (node.getAttribute(key) !== text) node.setAttribute(key, text);
}

function nameAll() {
  document.querySelectorAll(SECTION).forEach(button => {
    const heading = button.closest('.jp-Cell')?.querySelector('h1, h2, h3, h4, h5, h6');
    const words = heading?.textContent.replace('¶', '').trim();
    if (words) put(button, 'aria-label', `Show: ${words}, ${button.textContent.trim()}`);
    put(button, 'aria-expanded', 'false');
  });
  document.querySelectorAll(CODE).forEach(place => {
    put(place, 'tabindex', '0');
    put(place, 'role', 'button');
    put(place, 'aria-expanded', 'false');
    const hidden = place.closest('.jp-OutputPlaceholder') ? 'output' : 'code';
    put(place, 'aria-label', `Show the ${hidden}: ${place.textContent.replace(/^[\s#]+|[\s…]+$/g, '')}`);
  });
}

// What was opened takes the focus along with it, which would fall to the page.
function follow(event) {
  const opener = event.target instanceof Element ? event.target.closest(`${SECTION}, ${CODE}`) : null;
  const cell = opener?.closest('.jp-Cell');
  if (!cell) return;
  setTimeout(() => { if (document.activeElement === document.body) cell.focus({ preventScroll: true }); }, OPENED);
}

export function watch() {
  const style = document.createElement('style');
  style.textContent = `${CODE.split(', ').map(css => css + ':focus-visible').join(', ')} {
    outline: 3px solid currentColor; outline-offset: -3px; }
    @media print { details::details-content { content-visibility: visible; } }`;
  document.head.append(style);
  document.addEventListener('keydown', event => {
    if (event.key !== 'Enter' && event.key !== ' ') return;
    if (event.shiftKey || event.ctrlKey || event.altKey || event.metaKey || !event.target.matches?.(CODE)) return;
    event.preventDefault();
    event.stopPropagation();
    event.target.click();
  }, true);
  document.addEventListener('click', follow, true); // before what was clicked is gone
  let due = false;
  new MutationObserver(() => {
    if (!due) { due = true; requestAnimationFrame(() => { due = false; nameAll(); }); }
  }).observe(document.body, { childList: true, subtree: true });
  nameAll();
}
