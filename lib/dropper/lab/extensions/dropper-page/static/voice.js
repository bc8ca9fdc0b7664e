// What a panel says is replaced as a whole when it changes; one lasting place that repeats it is what screen readers
// follow. All that changed in one turn is said, in the order in which it stands on the page. Nothing is said before
// the learner does something.
const voice = document.createElement('div');
voice.setAttribute('aria-live', 'polite');
voice.className = 'dropper-voice';
voice.style.cssText = 'position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)';

const TURN = 350; // ms without a change
const LASTING = 6; // the last so many stay
let awake = false, waiting = 0;
const heard = new WeakMap(), queue = new Map();

function plan() {
  clearTimeout(waiting);
  waiting = setTimeout(speak, TURN);
}

// Say a text that stands on no panel.
export function say(text) {
  queue.set({}, text);
  plan();
}

function order([one], [other]) {
  if (!(one instanceof Node) || !(other instanceof Node)) return (other instanceof Node) - (one instanceof Node);
  return one.compareDocumentPosition(other) & Node.DOCUMENT_POSITION_FOLLOWING ? -1 : 1;
}

function speak() {
  const texts = new Set([...queue].sort(order).map(([, text]) => text));
  queue.clear();
  for (const text of texts) {
    const line = document.createElement('p');
    line.textContent = text;
    voice.append(line);
  }
  while (voice.childElementCount > Math.max(LASTING, texts.size)) voice.firstElementChild.remove();
}

function listen() {
  document.querySelectorAll('.jp-OutputArea [role="status"], .jp-OutputArea [role="alert"]').forEach(node => {
    const place = node.parentElement, text = (node.dataset.say ?? node.textContent).replace(/\s+/g, ' ').trim();
    if (node.getAttribute('aria-live') !== 'off') node.setAttribute('aria-live', 'off'); // said once, by the voice
    if (!place || heard.get(place) === text) return;
    if (node.closest('.dropper-held .dropper-verdict')) return; // a class has not asked for its answer yet
    heard.set(place, text);
    if (!awake || !text) return;
    queue.delete(place);
    queue.set(place, text);
    plan();
  });
}

export function watch() {
  document.body.append(voice);
  for (const event of ['keydown', 'pointerdown']) {
    document.addEventListener(event, () => { awake = true; }, { capture: true, passive: true });
  }
  let due = false;
  new MutationObserver(() => {
    if (!due) { due = true; requestAnimationFrame(() => { due = false; listen(); }); }
  }).observe(document.body, { childList: true, subtree: true, characterData: true });
  listen();
}
