// A "?" beside a number opens how it comes about: its key is written into the panel's hidden field, and the kernel
// writes the derivation below that row. The table is replaced as a whole at each move: the focus goes to the new button.
let last = null; // of the button that has the focus: its panel and its key

function panelOf(button) {
  return button.closest('.dropper-panel');
}

function toggle(button) {
  const field = panelOf(button)?.querySelector('.dropper-why-field input');
  if (!field) return;
  const key = button.getAttribute('aria-expanded') === 'true' ? '' : button.dataset.explain;
  field.value = key;
  field.dispatchEvent(new Event('change', { bubbles: true }));
}

function keep() {
  if (!last || document.activeElement !== document.body || !last.panel.isConnected) return;
  last.panel.querySelector(`button[data-explain="${CSS.escape(last.key)}"]`)?.focus({ preventScroll: true });
}

export function watch() {
  document.addEventListener('click', event => {
    const button = event.target.closest?.('button[data-explain]');
    if (button) toggle(button);
  });
  document.addEventListener('focusin', event => {
    const button = event.target;
    last = button.matches?.('button[data-explain]') ? { panel: panelOf(button), key: button.dataset.explain } : null;
  });
  document.addEventListener('focusout', event => {
    const button = event.target;
    setTimeout(() => { if (button.isConnected && document.activeElement === document.body) last = null; });
  });
  new MutationObserver(keep).observe(document.body, { childList: true, subtree: true });
}
