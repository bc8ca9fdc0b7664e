// A word when more than a few kernels run, each with memory of its own, and a button that ends those of other lessons.
import { dismiss, notice } from './notices.js';

const MANY = 3;

export function watch(app, lessons) {
  const sessions = app.serviceManager.sessions;
  const names = new Set(lessons);
  let told = 0;

  function others(front) {
    return [...sessions.running()].filter(one =>
      one.type === 'notebook' && one.path !== front.context.path && names.has(one.path.split('/').at(-1)));
  }

  async function endOthers(front) {
    await Promise.all(others(front).map(one => sessions.shutdown(one.id)));
    dismiss(front, 'kernels');
  }

  function look() {
    const front = app.shell.currentWidget;
    if (!front || !front.sessionContext || !front.context) return;
    const count = [...sessions.running()].filter(one => one.type === 'notebook').length;
    if (count <= MANY || !others(front).length) {
      dismiss(front, 'kernels');
      told = 0;
    } else if (count > told) {
      told = count;
      notice(front, 'kernels', `${count} notebooks are running, and each takes memory of this computer. A lesson that is`
        + ' stopped runs again by itself when you come back to it.', [['Stop the other lessons', () => endOthers(front)]]);
    }
  }

  sessions.runningChanged.connect(look);
  app.shell.currentChanged?.connect(look);
}
