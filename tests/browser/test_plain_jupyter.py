"""A Jupyter that was started without the workbook's own command is as live, and as safe under a letter key."""

import os
import shutil
import subprocess
import sys
import tomllib
from contextlib import contextmanager
from pathlib import Path

import pytest

pytest.importorskip("playwright.sync_api")
from predict import skip_on_page
from server import ROOT, address_of, code, write
from visits import expect

LESSON = "04_smoothing_and_flicker.ipynb"


def installed(home):
    """What the wheel puts into an environment, put below a folder from the sources as they are now."""
    project = tomllib.loads((ROOT / "lib" / "pyproject.toml").read_text(encoding="utf-8"))
    for source, target in project["tool"]["hatch"]["build"]["targets"]["wheel"]["shared-data"].items():
        whence, where = ROOT / "lib" / source, home / target
        where.parent.mkdir(parents=True, exist_ok=True)
        (shutil.copytree if whence.is_dir() else shutil.copyfile)(whence, where)
    return home


@contextmanager
def jupyter(home):
    """Start `jupyter lab` with what is installed below a folder; yield its address with {page} to fill in."""
    home = installed(Path(home))
    (home / "notebooks" / "lamps").mkdir(parents=True)
    shutil.copyfile(ROOT / "notebooks" / LESSON, home / "notebooks" / LESSON)
    for lamp in (ROOT / "notebooks" / "lamps").glob("*.toml"):
        shutil.copyfile(lamp, home / "notebooks" / "lamps" / lamp.name)
    write(home, "foreign.ipynb", code("open('ran', 'w')"))
    places = {
        "HOME": home / "home",
        "JUPYTER_CONFIG_DIR": home / "config",
        "JUPYTER_DATA_DIR": home / "data",
        "JUPYTER_RUNTIME_DIR": home / "run",
        "JUPYTER_CONFIG_PATH": home / "etc" / "jupyter",
        "JUPYTER_PATH": home / "share" / "jupyter",
    }
    own = {name: value for name, value in os.environ.items() if not name.startswith(("JUPYTER", "DROPPER"))}
    command = [sys.executable, "-m", "jupyter", "lab", "--no-browser", "--allow-root", "--ServerApp.port=0"]
    command.append(f"--LabApp.app_settings_dir={home / 'share' / 'jupyter' / 'lab' / 'settings'}")
    log = home / "server.log"
    with log.open("w") as output:
        environment = own | {name: str(path) for name, path in places.items()}
        server = subprocess.Popen(
            [*command, home / "notebooks"], cwd=home, stdout=output, stderr=subprocess.STDOUT, env=environment
        )
    try:
        yield address_of(server, log)
    finally:
        server.terminate()
        server.wait(20)


@pytest.mark.wide
@pytest.mark.timeout(180)
def test_plain_jupyter_lab_runs_a_lesson_keeps_its_cells_and_asks_about_a_foreign_one(browser, tmp_path):
    with jupyter(tmp_path) as address:
        page = browser.new_page(viewport={"width": 1280, "height": 900})
        page.goto(address.format(page=f"/lab/tree/{LESSON}"))
        page.wait_for_function("document.body?.dataset.dropperLive", timeout=120_000)
        panel = page.locator(".jp-OutputArea-output").filter(has=page.get_by_role("slider")).first
        skip_on_page(panel)
        expect(panel.locator(".noUi-target[disabled]")).to_have_count(0)
        slider = panel.get_by_role("slider").first
        cells, before = page.locator(".jp-Cell").count(), slider.get_attribute("aria-valuetext")
        slider.focus()
        for key in ("d", "d", "x", "ArrowRight"):
            page.keyboard.press(key)
        expect(slider).not_to_have_attribute("aria-valuetext", before)
        assert page.locator(".jp-Cell").count() == cells, "a letter on a slider deleted a cell"
        assert slider.evaluate("node => node === document.activeElement"), "an arrow key took the focus from the slider"
        assert page.locator(".Toastify__toast").count() == 0, "a pop-up stands over the lesson"
        config = page.evaluate("JSON.parse(document.getElementById('jupyter-config-data').textContent).dropper")
        assert config["mostBytes"] > 100e6, "recordings come in one message"

        page.goto(address.format(page="/lab/tree/foreign.ipynb"))
        page.get_by_role("button", name="Run it").wait_for()
        assert not (tmp_path / "notebooks" / "ran").exists(), "foreign code ran without a question"
        page.close()
