// A file that is too big for one message to the kernel is refused here, with a sentence; the button stays of use.
import { dismiss, notice } from './notices.js';

const click = HTMLInputElement.prototype.click;
const known = new WeakSet();

function megabytes(bytes) {
  return (bytes / 1e6).toFixed(bytes < 1e7 ? 1 : 0) + ' MB';
}

export function watch(app, most) {
  // The button's field for files is in no document, so that its events reach nobody: it is met when it is clicked.
  HTMLInputElement.prototype.click = function () {
    if (this.type === 'file' && !known.has(this)) {
      known.add(this);
      this.addEventListener('change', event => {
        const panel = app.shell.currentWidget, files = [...this.files];
        dismiss(panel, 'upload');
        if (files.reduce((sum, file) => sum + file.size, 0) <= most) return;
        event.stopImmediatePropagation();
        this.value = '';
        const big = files.reduce((one, other) => (other.size > one.size ? other : one));
        notice(panel, 'upload', `${big.name.slice(0, 80)} has ${megabytes(big.size)}. At most ${megabytes(most)} can be`
          + ' opened here, so it was not sent. Nothing on the page has changed. Keep the part that matters and open that.');
      }, { capture: true });
    }
    return click.call(this);
  };
}
