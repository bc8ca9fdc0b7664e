"""One server and one browser for all browser tests; skipped with a reason where there is no browser."""

import os

import pytest
from server import FLAGS, browser_path, workbook


@pytest.fixture(scope="session")
def address(tmp_path_factory):
    """The address of a running workbook, with {page} to fill in."""
    if browser_path() is None:
        if os.environ.get("CI"):
            pytest.fail("CI must have a browser: install the distribution's chromium package")
        pytest.skip("no Chromium installed: the browser tests need the distribution's chromium package")
    with workbook(tmp_path_factory.mktemp("workbook")) as where:
        yield where


@pytest.fixture(scope="session")
def browser(address):
    """The distribution's Chromium, without a window."""
    from playwright.sync_api import expect, sync_playwright

    expect.set_options(timeout=30_000)  # other tests run beside these
    with sync_playwright() as play:
        chromium = play.chromium.launch(executable_path=browser_path(), args=FLAGS)
        yield chromium
        chromium.close()


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


@pytest.fixture
def visit(browser, address):
    """Open notebooks; close them afterwards."""
    visits = []

    def go(notebook, **size):
        visits.append(Visit(browser, address, notebook, **size))
        return visits[-1]

    yield go
    for each in visits:
        each.page.close()


@pytest.fixture(scope="module")
def opened(browser, address, request):
    """The notebook named by the tests' parameter, open for all of them: to open and run one takes ten seconds."""
    visit = Visit(browser, address, request.param)
    yield visit
    visit.page.close()
