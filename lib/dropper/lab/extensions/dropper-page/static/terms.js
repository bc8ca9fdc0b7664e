// Trade words are explained at the word: the first time that one is seen on a page it is underlined with dots, and its
// meaning opens beside it when it is pointed at, reached by Tab or touched; once in each section that is folded, too. All of
// them stand in glossary.json; a word that is `known` there (volt, lamp) is one that a reader brings, and is not marked.
// Texts that change with a slider are left alone.
const PLACES = '.jp-Notebook .jp-RenderedMarkdown, .jp-Notebook .dropper-words.question, .jp-Notebook .dropper-goals';
const NEVER = 'a, button, summary, label, select, code, pre, kbd, svg, h1, h2, h3, h4, h5, h6, math, mjx-container,'
  + ' .MathJax, .dropper-spoken, .dropper-term, [role=button]';
const HEADING = /^H[1-6]$/;
const REST = 250; // ms without a new text
const TRIES = 12; // times that formulas which are not set yet are waited for
const LEAVE = 200; // ms from leaving a word until its meaning goes

const entries = new Map(), forms = new Map(), marked = new WeakMap();
let pattern = null, observer = null, waiting = 0;

const STYLE = `
.dropper-term { text-decoration: underline dotted; text-underline-offset: 0.2em; cursor: help; border-radius: 2px; }
.dropper-term:focus-visible { outline: 3px solid currentColor; outline-offset: 2px; }
.dropper-meaning { position: fixed; z-index: 10000; box-sizing: border-box; max-width: min(320px, calc(100vw - 16px));
  padding: 6px 10px; font: 14px/1.45 var(--jp-content-font-family, sans-serif); color: var(--jp-content-font-color1, #1a1a1a);
  background: var(--jp-layout-color0, #fff); border: 1px solid currentColor; border-radius: 4px; }
.dropper-meaning[hidden] { display: none; }
@media (forced-colors: active) { .dropper-meaning { border-width: 2px; color: CanvasText; background: Canvas; } }
@media print { .dropper-term { text-decoration: none; } .dropper-meaning { display: none; } }`;

function escaped(text) {
  return text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&').replace(/ /g, '\\s+');
}

function learn(glossary) {
  const texts = [];
  for (const entry of glossary) {
    entries.set(entry.word, entry);
    for (const text of [entry.word, ...(entry.forms || [])]) {
      forms.set(text, entry);
      texts.push(text);
    }
  }
  texts.sort((one, other) => other.length - one.length);
  pattern = new RegExp(`(?<![\\p{L}\\p{N}_-])(?:${texts.map(escaped).join('|')})(?![\\p{L}\\p{N}_-])`, 'giu');
}

// A form with a capital in it (LED, X2) is matched as it is written.
function entryOf(found) {
  const text = found.replace(/\s+/g, ' ');
  return forms.get(text) || forms.get(text.toLowerCase());
}

// The words

function term(text, entry) {
  const node = document.createElement('span');
  node.className = 'dropper-term';
  node.dataset.word = entry.word;
  node.tabIndex = 0;
  node.setAttribute('role', 'button');
  node.textContent = text;
  return node;
}

function markText(node, section, page) {
  const parts = [], text = node.data, shown = node.parentElement.checkVisibility();
  let from = 0;
  for (const match of text.matchAll(pattern)) {
    const entry = entryOf(match[0]);
    if (!entry || entry.known || section.has(entry.word) || page.has(entry.word)) continue;
    section.add(entry.word);
    if (shown) page.add(entry.word);
    parts.push(text.slice(from, match.index), term(match[0], entry));
    from = match.index + match[0].length;
  }
  if (parts.length) node.replaceWith(...parts, text.slice(from));
}

// What stands in <details> is no first time for what stands outside.
function* textsOf(place) {
  const walker = document.createTreeWalker(place, NodeFilter.SHOW_ELEMENT | NodeFilter.SHOW_TEXT, node => {
    if (node.nodeType === Node.TEXT_NODE) return NodeFilter.FILTER_ACCEPT;
    if (HEADING.test(node.tagName) || node.matches('.dropper-term')) return NodeFilter.FILTER_ACCEPT;
    return node.matches(NEVER) ? NodeFilter.FILTER_REJECT : NodeFilter.FILTER_SKIP;
  });
  while (walker.nextNode()) yield walker.currentNode;
}

function markNotebook(notebook) {
  const page = new Set();
  let section = new Set(), folded = null, inside = null;
  for (const place of notebook.querySelectorAll(PLACES)) {
    if (place.parentElement.closest(PLACES)) continue;
    const fresh = marked.get(place) !== place.firstChild;
    for (const node of [...textsOf(place)]) {
      if (node.nodeType === Node.ELEMENT_NODE) {
        if (HEADING.test(node.tagName)) {
          if (!place.closest('.jp-OutputArea')) section = new Set();
        } else {
          section.add(node.dataset.word);
          if (node.checkVisibility()) page.add(node.dataset.word);
        }
      } else if (fresh && !node.parentElement.closest(NEVER) && /\p{L}/u.test(node.data) && !node.data.includes('$')) {
        const details = node.parentElement.closest('details');
        if (details && details !== folded) { folded = details; inside = new Set(); }
        markText(node, details ? inside : section, page);
      }
    }
    marked.set(place, place.firstChild);
  }
}

function unset(notebook) {
  return [...notebook.querySelectorAll('.jp-RenderedMarkdown')].some(place => marked.get(place) !== place.firstChild
    && [...textsOf(place)].some(node => node.nodeType === Node.TEXT_NODE && /\$[^$]+\$/.test(node.data)));
}

function mark(tries = TRIES) {
  const notebooks = [...document.querySelectorAll('.jp-Notebook')];
  if (tries && notebooks.some(unset)) {
    waiting = setTimeout(mark, 400, tries - 1);
    return;
  }
  waiting = 0;
  notebooks.forEach(markNotebook);
  observer.takeRecords();
}

function plan() {
  clearTimeout(waiting);
  waiting = setTimeout(() => (window.requestIdleCallback || setTimeout)(() => mark(), { timeout: 1000 }), REST);
}

function concerns(node) {
  return node.nodeType === Node.ELEMENT_NODE && (node.closest(PLACES) || node.querySelector(PLACES));
}

// The meaning

const bubble = document.createElement('div');
let open = null, leaving = 0;

function place() {
  if (!open) return;
  const word = open.getClientRects()[0];
  if (!open.isConnected || !word || word.bottom < 0 || word.top > innerHeight) { close(); return; }
  const { width, height } = bubble.getBoundingClientRect(), below = word.bottom + 6;
  bubble.style.left = `${Math.max(8, Math.min(word.left, innerWidth - width - 8))}px`;
  bubble.style.top = `${below + height < innerHeight ? below : Math.max(8, word.top - height - 6)}px`;
}

function show(word) {
  clearTimeout(leaving);
  if (open === word) return;
  close();
  open = word;
  bubble.textContent = entries.get(word.dataset.word).meaning;
  word.setAttribute('aria-describedby', bubble.id);
  (document.fullscreenElement || document.body).append(bubble);
  bubble.hidden = false;
  place();
}

function close() {
  clearTimeout(leaving);
  if (!open) return;
  open.removeAttribute('aria-describedby');
  open = null;
  bubble.hidden = true;
}

function leave() {
  clearTimeout(leaving);
  leaving = setTimeout(() => { if (open !== document.activeElement) close(); }, LEAVE);
}

function wordAt(event) {
  return event.target instanceof Element ? event.target.closest('.dropper-term') : null;
}

function listen() {
  document.addEventListener('pointerover', event => {
    if (event.pointerType === 'touch') return;
    const word = wordAt(event);
    if (word) show(word);
    else if (event.target === bubble) clearTimeout(leaving);
    else if (open) leave();
  }, { passive: true });
  document.addEventListener('focusin', event => { if (wordAt(event)) show(wordAt(event)); else if (open) close(); });
  document.addEventListener('click', event => { if (wordAt(event)) show(wordAt(event)); });
  document.addEventListener('pointerdown', event => {
    if (open && !wordAt(event) && event.target !== bubble) close();
  }, { capture: true, passive: true });
  document.addEventListener('keydown', event => {
    const word = wordAt(event);
    if (event.key === 'Escape' && open) close();
    else if (word && (event.key === 'Enter' || event.key === ' ') && !event.shiftKey && !event.ctrlKey && !event.altKey) {
      if (open === word) close(); else show(word);
    } else return;
    event.preventDefault();
    event.stopPropagation();
  }, true);
  document.addEventListener('scroll', () => { if (open) requestAnimationFrame(place); }, { capture: true, passive: true });
}

export async function watch() {
  learn(await (await fetch(new URL('glossary.json', import.meta.url))).json());
  const style = document.createElement('style');
  style.textContent = STYLE;
  document.head.append(style);
  Object.assign(bubble, { id: 'dropper-meaning', className: 'dropper-meaning', hidden: true });
  bubble.setAttribute('role', 'tooltip');
  document.body.append(bubble);
  listen();
  observer = new MutationObserver(changes => {
    if (changes.some(change => [...change.addedNodes].some(concerns))) plan();
  });
  observer.observe(document.body, { childList: true, subtree: true });
  plan();
}
