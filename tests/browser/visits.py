"""A page of the browser with a notebook open and run in it."""

from contextlib import suppress

# Another notebook in the same page, or the same one anew.
OPEN = """async path => {
    const app = window.jupyterapp, last = app.shell.currentWidget;
    if (document.body.dataset.jpThemeName !== 'JupyterLab Light')
        await app.commands.execute('apputils:change-theme', {theme: 'JupyterLab Light'});
    await last.sessionContext.shutdown();
    last.dispose();
    delete document.body.dataset.dropperLive;
    await app.commands.execute('docmanager:open', {path});
}"""
# The notebooks behind the one in front are closed.
ALONE = """async () => {
    const app = window.jupyterapp, others = [...app.shell.widgets('main')].filter(one => one !== app.shell.currentWidget);
    for (const other of others) { await other.sessionContext?.shutdown(); other.dispose(); }
}"""
OPEN_BESIDE = "path => void window.jupyterapp.commands.execute('docmanager:open', {path})"
# What the page has sent is answered once the kernel has answered questions put after it; then the page draws it.
ANSWERED = """async () => {
    const here = window.jupyterapp && window.jupyterapp.shell.currentWidget;
    const kernel = here && here.sessionContext && here.sessionContext.session && here.sessionContext.session.kernel;
    const frame = () => new Promise(requestAnimationFrame);
    for (let turn = 0; kernel && turn < 2; turn++)
        await kernel.requestExecute({code: '', silent: true, store_history: false}).done;
    await frame();
    await frame();
}"""


def answered(page):
    """Wait until the kernel has answered what the page has sent, and the page shows it."""
    page.evaluate(ANSWERED)


def expect(thing):
    """Playwright's `expect` of a locator, once what was sent is answered: to look too early costs it much."""
    from playwright import sync_api

    answered(thing.page)
    return sync_api.expect(thing)


class Visit:
    """A page with a notebook open and run, and what went wrong on it."""

    def __init__(self, browser, address, notebook, width=1280, height=900):
        self.notebook, self.purpose, self.fresh = notebook, None, False
        self.page = browser.new_page(viewport={"width": width, "height": height})
        self.complaints, self.outside = [], []
        self.page.on("console", self._heard)
        self.page.on("pageerror", lambda error: self.complaints.append(str(error)))
        self.page.on("request", self._asked)
        self.page.goto(address.format(page=f"/doc/tree/{notebook}") + "&reset")
        self._run()

    def turn_to(self, notebook, width=1280, height=900):
        """Open another notebook in the same page, or the same one anew: a new kernel, the page loaded once."""
        self.notebook, self.purpose, self.fresh = notebook, None, False
        self.complaints.clear()
        self.outside.clear()
        self.page.set_viewport_size({"width": width, "height": height})
        self.page.evaluate(OPEN, notebook)
        self._run()

    def follow(self, link, notebook):
        """Click a link that leads to another notebook, and close the one before; what follows may go on with it."""
        self.complaints.clear()
        self.outside.clear()
        link.click()
        self.notebook, self.purpose = notebook, None
        self._run()
        self.page.evaluate(ALONE)
        self.fresh = True

    def close(self):
        """End the kernel and close the page."""
        from playwright.sync_api import Error

        with suppress(Error):
            self.page.evaluate("window.jupyterapp.shell.currentWidget.sessionContext.shutdown()")
        self.page.close()

    def _run(self):
        self.page.wait_for_function(
            "path => document.body.dataset.dropperLive === path", arg=self.notebook, timeout=120_000
        )

    def _heard(self, message):
        if message.type == "error":
            if "Could not restore the debugger state" not in message.text:  # JupyterLab's, of a page that was left
                self.complaints.append(message.text)

    def _asked(self, request):
        here = ("http://localhost", "http://127.0.0.1", "ws://localhost", "ws://127.0.0.1", "data:", "blob:")
        if not request.url.startswith(here):
            self.outside.append(request.url)

    def errors_in_cells(self):
        """Text of error outputs and of anything printed to stderr."""
        wrong = self.page.locator(
            '.jp-OutputArea-output[data-mime-type="application/vnd.jupyter.error"],'
            '.jp-OutputArea-output[data-mime-type="application/vnd.jupyter.stderr"]'
        )
        return wrong.all_inner_texts()


class Opener:
    """Opens notebooks one after the other in one page: to load the page takes longer than to run a notebook.

    Now and then the page is loaded anew, for it keeps something of each.
    """

    TURNS = 12

    def __init__(self, browser, address):
        self.where, self.last, self.turns = (browser, address), None, 0

    def __call__(self, notebook, **size):
        from playwright.sync_api import Error

        self.turns += 1
        if self.last is not None and self.last.fresh and self.last.notebook == notebook and not size:
            self.last.fresh = False
            return self.last
        try:
            if self.turns % self.TURNS and self.last is not None:
                self.last.turn_to(notebook, **size)
                return self.last
        except Error:  # the page is in no state to go on
            self.turns = 0
        if self.last is not None:
            self.last.close()
        self.last = Visit(*self.where, notebook, **size)
        return self.last
