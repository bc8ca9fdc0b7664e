// How much room each picture has is written into its panel's hidden field: the width, and how tall its first axes may be
// where they stay in sight above the sliders. The kernel draws for that; without this script pictures keep their shape.
const WIDTHS = [200, 240, 280, 320, 360, 410, 460, 520, 600, 680, 780, 880, 1000];
const HEIGHTS = [36, 48, 64, 84, 110, 140];
const known = new Map(); // of each panel the width at which it was last looked at

function greatest(steps, most) {
  return steps.filter(step => step <= most).at(-1) || steps[0];
}

// How much of the page the picture covers while it stays in sight: what Tab reaches is scrolled clear of it.
function measure(panel) {
  const frame = panel.querySelector('.dropper-frame');
  if (frame) panel.style.setProperty('--dropper-covered', `${Math.ceil(frame.getBoundingClientRect().height) + 8}px`);
}

// Whether the panel was told; it may not have been drawn yet.
function tell(panel) {
  const frame = panel.querySelector('.dropper-frame'), field = panel.querySelector('.dropper-room input');
  if (!frame || !field || !frame.clientWidth) return false;
  const stage = panel.closest('.dropper-on-stage');
  const page = stage || panel.closest('.jp-WindowedPanel-outer') || panel.closest('.jp-Notebook');
  const columns = panel.querySelector('.dropper-columns');
  const apart = page && columns && getComputedStyle(columns).getPropertyValue('--dropper-apart').trim() === '1';
  const share = apart ? page.clientHeight * 0.45 - (stage || page.clientHeight < 420 ? 30 : 90) : 0;
  const text = `${greatest(WIDTHS, frame.clientWidth + 1)} ${apart ? greatest(HEIGHTS, share) : 0}`;
  if (field.value !== text) {
    field.value = text;
    field.dispatchEvent(new Event('change', { bubbles: true }));
  }
  for (const wait of [0, 500, 2000]) setTimeout(measure, wait, panel);
  return true;
}

export function watch() {
  const look = panel => {
    const width = panel.clientWidth;
    if (width && width !== known.get(panel)) known.set(panel, tell(panel) ? width : 0);
  };
  const sizes = new ResizeObserver(all => all.forEach(one => look(one.target)));
  let due = 0;
  const find = () => {
    due = 0;
    for (const panel of known.keys()) if (!panel.isConnected) { sizes.unobserve(panel); known.delete(panel); }
    document.querySelectorAll('.dropper-fit').forEach(panel => {
      if (!known.has(panel)) { known.set(panel, 0); sizes.observe(panel); }
      else if (!known.get(panel)) look(panel);
    });
  };
  new MutationObserver(() => { due = due || requestAnimationFrame(find); }).observe(document.body, { childList: true, subtree: true });
  window.addEventListener('resize', () => {
    for (const panel of known.keys()) known.set(panel, 0);
    due = due || requestAnimationFrame(find);
  });
  find();
}
