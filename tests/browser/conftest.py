"""One server and one browser for all browser tests; skipped with a reason where there is no browser."""

import os

import pytest
from server import FLAGS, browser_path, workbook
from visits import Opener


@pytest.fixture(scope="session")
def folder(tmp_path_factory):
    """The folder of the workbook that all browser tests share."""
    return tmp_path_factory.mktemp("workbook")


@pytest.fixture(scope="session")
def address(folder):
    """The address of a running workbook, with {page} to fill in."""
    if browser_path() is None:
        if os.environ.get("CI"):
            pytest.fail("CI must have a browser: install the distribution's chromium package")
        pytest.skip("no Chromium installed: the browser tests need the distribution's chromium package")
    with workbook(folder) as where:
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


@pytest.fixture(scope="session")
def open_anew(browser, address):
    """Open a notebook with a kernel of its own, `open_anew(name)`; `open_anew.last` is what is open."""
    opener = Opener(browser, address)
    yield opener
    if opener.last is not None:
        opener.last.close()


@pytest.fixture(autouse=True)
def no_lamp_of_another_test(request):
    """No test begins with the lamp that another one has chosen."""
    if "address" in request.fixturenames:
        (request.getfixturevalue("folder") / "notebooks" / "my_lamps" / "chosen.toml").unlink(missing_ok=True)


@pytest.fixture
def visit(open_anew):
    """Open a notebook for one test."""
    return open_anew


@pytest.fixture(scope="module")
def opened(open_anew, request):
    """The notebook named by the tests' parameter, open for all of them."""
    return open_anew(request.param)
