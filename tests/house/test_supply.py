"""What is installed fits together, starts without a warning, and runs away from the checkout, on each Python there is.

`.ci/versions` makes the environments of the other versions; a version without one is skipped.
"""

import json
import re
import subprocess
import sys
import time
import tomllib
import urllib.request
import zipfile
from pathlib import Path

import pytest
from server import workbook

ROOT = Path(__file__).resolve().parents[2]
PACKAGE = ROOT / "lib" / "dropper"
PROJECT = tomllib.loads((ROOT / "lib" / "pyproject.toml").read_text(encoding="utf-8"))["project"]
VERSIONS = ("3.11", "3.12", "3.13")
OWN = f"{sys.version_info.major}.{sys.version_info.minor}"


def run(python, *arguments, **options):
    done = subprocess.run([python, *arguments], capture_output=True, text=True, **options)
    assert done.returncode == 0, done.stdout[-3000:] + done.stderr[-3000:]
    return done.stdout


def python_of(version):
    """The interpreter of an environment that has what the workbook needs, or None."""
    if version == OWN:
        return Path(sys.executable)
    folder = ROOT / ".venv" / "versions" / version
    return next(
        (path for path in (folder / "bin" / "python", folder / "Scripts" / "python.exe") if path.exists()), None
    )


def test_the_versions_named_are_those_that_are_tried():
    named = {line.split(" :: ")[-1] for line in PROJECT["classifiers"] if re.search(r":: 3\.\d+$", line)}
    assert named == set(VERSIONS) and PROJECT["requires-python"] == f">={VERSIONS[0]}"


def test_the_version_stands_in_one_place():
    import dropper

    assert "version" not in PROJECT and "version" in PROJECT["dynamic"]
    assert f"\n## {dropper.__version__}\n" in (ROOT / "lib" / "CHANGELOG.md").read_text(encoding="utf-8")
    again = [path.name for path in PACKAGE.rglob("*.py") if re.search(r"__version__ = ", path.read_text("utf-8"))]
    assert again == ["__init__.py"]


def test_the_workbook_asks_for_what_the_library_asks_for():
    """Two lists that name a package ask for the same versions of it."""
    ranges = dict(re.match(r"([\w-]+)(.*)", line).groups() for line in PROJECT["dependencies"])
    for place in ("requirements.txt", "tests/requirements.txt"):
        for name, wanted in re.findall(r"^([\w-]+)(>=.*)$", (ROOT / place).read_text(encoding="utf-8"), flags=re.M):
            assert ranges.get(name, wanted) == wanted, f"{name} of {place}"


@pytest.mark.slow
def test_installed_packages_do_not_contradict_one_another():
    assert "No broken requirements" in run(sys.executable, "-m", "pip", "check")


EVERY_MODULE = """
import importlib, pkgutil, warnings
warnings.simplefilter("default")
warnings.filterwarnings("error", module=r"dropper(\\.|$)")
import dropper
for module in pkgutil.walk_packages(dropper.__path__, "dropper."):
    if not module.name.endswith(("__main__", "_config")):  # those start the server, and are read by it
        importlib.import_module(module.name)
lamp = dropper.Lamp.from_toml("notebooks/lamps/stair_marker.toml")
dropper.lessons.Bench("notebooks/lamps/stair_marker.toml"), dropper.lessons.Tasks(1, "no folder/my_progress.json")
dropper.theory.power_factor(clamped_fraction=0.3), dropper.steady_state(lamp).power_factor
"""


@pytest.mark.wide
@pytest.mark.slow
@pytest.mark.parametrize("version", VERSIONS)
def test_no_module_of_ours_is_warned_of(version):
    python = python_of(version) or pytest.skip(f"no environment of Python {version}")
    run(python, "-c", EVERY_MODULE, cwd=ROOT)


@pytest.mark.slow
def test_what_a_person_sees_at_start_has_no_warning(tmp_path):
    with workbook(tmp_path) as address:
        token = address.split("token=")[1]
        host = address.split("{page}")[0]
        for _ in range(600):  # until the first notebook's kernel, which starts with the server, has its say
            if "Kernel started" not in (tmp_path / "server.log").read_text(encoding="utf-8"):
                time.sleep(0.2)  # the server cannot list a kernel that is half begun
                continue
            with urllib.request.urlopen(f"{host}/api/kernels?token={token}") as answer:
                kernels = json.load(answer)
            if kernels and kernels[0]["execution_state"] == "idle":
                break
            time.sleep(0.2)
    log = (tmp_path / "server.log").read_text(encoding="utf-8")
    assert "Kernel started" in log
    wrong = [
        line for line in log.splitlines() if re.match(r"\[[WE] ", line) or re.search("(?i)warning|traceback", line)
    ]
    assert wrong == []


@pytest.fixture(scope="module")
def wheel(tmp_path_factory):
    """Built from `lib` with what is installed, without the network."""
    pytest.importorskip("hatchling")
    folder = tmp_path_factory.mktemp("wheel")
    run(sys.executable, "-m", "pip", "wheel", "-q", "--no-deps", "--no-build-isolation", "-w", folder, ROOT / "lib")
    return next(folder.glob("*.whl"))


@pytest.mark.slow
def test_the_wheel_has_every_file_of_the_package(wheel):
    own = {
        path.relative_to(ROOT / "lib").as_posix()
        for path in PACKAGE.rglob("*")
        if path.is_file() and "__pycache__" not in path.parts and path.suffix not in (".pyc", ".nbi", ".nbc")
    }
    with zipfile.ZipFile(wheel) as file:
        names = set(file.namelist())
        shared = {name: file.read(name) for name in names if ".data/data/" in name}
    assert own - names == set()
    assert {name for name in names if ".dist-info/" not in name} - own - set(shared) == set(), "and nothing else"
    settings = shared.pop(
        f"{wheel.name.split('-py3')[0]}.data/data/share/jupyter/lab/settings/overrides.d/dropper.json"
    )
    assert settings == (PACKAGE / "lab" / "settings" / "overrides.json").read_bytes()
    places = {name.split("/data/", 1)[1].rsplit("/", 1)[0] for name in shared}
    page = "share/jupyter/labextensions/dropper-page"
    assert places == {page, f"{page}/static", "etc/jupyter/jupyter_server_config.d"}, "where Jupyter looks"


AWAY = """
import sys
from pathlib import Path
import dropper
from dropper import Lamp, lessons, steady_state, theory
assert Path(dropper.__file__).is_relative_to(sys.prefix), dropper.__file__
lamp = Lamp.from_toml("lamp.toml")
state = steady_state(lamp)
panel = lessons.Bench("lamp.toml")
print(state.settled, 0 < state.power_factor < 1, len(theory.power_factor.steps) > 2, panel.verdict is not None)
"""


@pytest.mark.wide
@pytest.mark.slow
@pytest.mark.parametrize("version", VERSIONS)
def test_the_wheel_runs_away_from_the_checkout(version, wheel, tmp_path):
    """In a fresh environment that has the wheel, and from this one what it needs."""
    python = python_of(version) or pytest.skip(f"no environment of Python {version}")
    where = "import sysconfig; print(sysconfig.get_path('purelib'))"
    packages = run(python, "-c", where).strip()
    run(python, "-m", "venv", "--without-pip", tmp_path / "fresh")
    fresh = next(path for path in (tmp_path / "fresh").rglob("*") if path.name in ("python", "python.exe"))
    site = Path(run(fresh, "-c", where).strip())
    (site / "needed.pth").write_text(packages + "\n", encoding="utf-8")
    run(python, "-m", "pip", "--python", fresh, "install", "-q", "--no-deps", "--no-index", wheel)
    home = tmp_path / "home"
    home.mkdir()
    (home / "lamp.toml").write_bytes((ROOT / "notebooks" / "lamps" / "stair_marker.toml").read_bytes())
    assert "Getting the solver ready" in run(fresh, "-m", "dropper", "--prepare", cwd=home)
    assert run(fresh, "-W", "error::UserWarning", "-c", AWAY, cwd=home).split() == ["True"] * 4
