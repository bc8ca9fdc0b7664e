"""A notebook open in the browser."""


class Visit:
    """A page with a notebook open and run, and what went wrong on it."""

    def __init__(self, browser, address, notebook, width=1280, height=900):
        self.notebook = notebook
        self.page = browser.new_page(viewport={"width": width, "height": height})
        self.complaints, self.outside = [], []
        self.page.on("console", self._heard)
        self.page.on("pageerror", lambda error: self.complaints.append(str(error)))
        self.page.on("request", self._asked)
        self.page.goto(address.format(page=f"/doc/tree/{notebook}") + "&reset")
        self.page.wait_for_function("document.body.dataset.dropperLive", timeout=120_000)

    def _heard(self, message):
        if message.type == "error":
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
