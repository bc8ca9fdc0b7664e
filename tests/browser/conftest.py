"""One server and one browser for all browser tests; skipped with a reason where there is no browser."""

import os

import pytest
from server import FLAGS, browser_path, workbook
from visits import Visit


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
