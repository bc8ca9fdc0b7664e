// A show of hands: a question in large type, and for each answer a count that is typed, clicked or pressed.
function node(name, css, text = '') {
  const made = document.createElement(name);
  made.className = css;
  made.textContent = text;
  return made;
}

// Draws into `place`; `counts` (answer's place -> hands) is kept by whoever asks; `then` goes on to the panel.
export function tally(place, question, choices, counts, then) {
  const heading = node('h1', '', question), list = node('ol', ''), fields = [], bars = [];
  heading.tabIndex = -1;
  const draw = () => {
    const most = Math.max(1, ...counts.values());
    fields.forEach((field, one) => {
      const hands = counts.get(one) || 0;
      if (Number(field.value) !== hands || field.value === '') field.value = hands;
      bars[one].style.width = `${100 * hands / most}%`;
    });
  };
  const set = (one, hands) => {
    counts.set(one, Math.min(999, Math.max(0, Math.round(hands) || 0)));
    draw();
  };
  choices.forEach((words, one) => {
    const row = node('li', ''), label = node('label', '', words), field = node('input', '');
    field.type = 'number';
    field.min = 0;
    field.max = 999;
    field.id = `dropper-hands-${one}`;
    label.htmlFor = field.id;
    field.setAttribute('aria-label', `hands for: ${words}`);
    field.addEventListener('input', () => { if (field.value !== '') set(one, Number(field.value)); });
    field.addEventListener('change', draw);
    field.addEventListener('keydown', event => { if (event.key === 'Enter') heading.focus(); });
    const less = node('button', '', '−'), more = node('button', '', '+'), track = node('span', 'track'), bar = node('span', 'bar');
    less.setAttribute('aria-label', `one hand less for: ${words}`);
    more.setAttribute('aria-label', `one hand more for: ${words}`);
    less.addEventListener('click', () => set(one, (counts.get(one) || 0) - 1));
    more.addEventListener('click', () => set(one, (counts.get(one) || 0) + 1));
    track.append(bar);
    row.append(node('kbd', '', String(one + 1)), label, less, field, more, track);
    list.append(row);
    fields.push(field);
    bars.push(bar);
  });
  const on = node('button', 'on', 'To the panel');
  on.append(node('kbd', '', 'Enter'));
  on.addEventListener('click', then);
  const how = choices.length ? 'A number key counts one hand, with Shift one less; or type the count.' : '';
  place.replaceChildren(heading, list, node('p', 'how', how), on);
  draw();
  return {
    count: (one, step) => { if (one < choices.length) set(one, (counts.get(one) || 0) + step); },
    words: () => (counts.size ? `Hands for ${choices.map((_, one) => `${one + 1}:\u00a0${counts.get(one) || 0}`).join(', ')}.` : '')
  };
}
