"""A hub for a class: every pupil a folder, a progress file, a kernel and an account of their own.

From the folder that holds README.md, with a file of the pupils' names, one a line, of small letters and digits:

    python3 -m venv .venv && .venv/bin/pip install -q -r binder/hub_requirements.txt
    .venv/bin/python -m dropper --prepare
    sudo DROPPER_PUPILS=pupils.txt .venv/bin/jupyterhub -f binder/jupyterhub_config.py

Each pupil chooses a password at the first login. What a class needs else to know stands in binder/class.md.
"""

import asyncio
import os
import pwd
import shutil
import subprocess
import sys
from pathlib import Path

from jupyterhub.spawner import LocalProcessSpawner, SimpleLocalProcessSpawner

c = get_config()  # noqa: F821
TOOLS = Path(sys.executable).parent
NOTEBOOKS = Path(os.environ.get("DROPPER_NOTEBOOKS", "notebooks")).resolve()
PLACE = Path(os.environ.get("DROPPER_CLASS", "/srv/dropper-class")).resolve()
IDLE = int(os.environ.get("DROPPER_IDLE", "1800"))  # s without a sign of life until a pupil's server ends
UNSEEN = 300  # s until a kernel ends that no page is connected to
ACTIVITY = max(1, min(60, IDLE // 2))  # s: idle times shorter than this are not seen
ONE_ACCOUNT = os.environ.get("DROPPER_ONE_ACCOUNT") == "1"
NOBODY = 65534


def _pupils():
    """The names in the class list; the hub does not start without it."""
    listed = os.environ.get("DROPPER_PUPILS")
    if not listed:
        raise SystemExit("Who is in the class? DROPPER_PUPILS names a file with one name a line.")
    names = set(Path(listed).read_text(encoding="utf-8").split())
    wrong = sorted(
        name for name in names if not (name.isascii() and name.isalnum() and name.islower()) or len(name) > 20
    )
    if wrong or not names:
        raise SystemExit(
            f"{listed}: names of small letters and digits, 20 at most, one a line. Not: {wrong or 'an empty list'}"
        )
    return names


def _account(name):
    """The account of the system that a pupil's programs run in; it is made when it is not there.

    An account of that name with another home is somebody else's: the pupil is refused.
    """
    account, home = f"pupil-{name}", PLACE / name
    try:
        entry = pwd.getpwnam(account)
    except KeyError:
        subprocess.run(
            ["useradd", "--create-home", "--home-dir", home, "--user-group", "--shell", "/usr/sbin/nologin", account],
            check=True,
        )
        home.chmod(0o700)
        entry = pwd.getpwnam(account)
    if Path(entry.pw_dir) != home or entry.pw_uid == 0:
        raise RuntimeError(f"The account {account} is not one of this class.")
    return entry


def _as_account(entry):
    return {"user": entry.pw_uid, "group": entry.pw_gid, "extra_groups": [], "cwd": entry.pw_dir}


class AccountSpawner(LocalProcessSpawner):
    """Runs a pupil's server in the pupil's own account, so that no Python of theirs gets into another's folder."""

    def make_preexec_fn(self, name):
        return super().make_preexec_fn(_account(name).pw_name)

    def user_env(self, env):
        entry = _account(self.user.name)
        return env | {"USER": entry.pw_name, "HOME": entry.pw_dir, "SHELL": "/bin/sh"}


async def own_folder(spawner):
    """Put the notebooks that are not there yet into the pupil's folder; the pupil's own account does it."""
    name = spawner.user.name
    if ONE_ACCOUNT:
        home, who = PLACE / name, {}
        home.mkdir(mode=0o700, exist_ok=True)
    else:
        entry = await asyncio.to_thread(_account, name)
        home, who = Path(entry.pw_dir), _as_account(entry)
    copy = [sys.executable, "-m", "dropper.lab.own_folder", NOTEBOOKS, home / "notebooks"]
    await asyncio.to_thread(subprocess.run, copy, check=True, **who)


def _check():
    """Say in a sentence what is not as it must be for accounts; what runs on is as safe as it says."""
    if ONE_ACCOUNT:
        print("One account for all: a pupil's Python can read and change the folder of every other.", file=sys.stderr)
        return
    if os.geteuid() != 0 or not shutil.which("useradd"):
        raise SystemExit(
            "An account for each pupil needs `sudo` and `useradd`. DROPPER_ONE_ACCOUNT=1 runs all in yours: then a"
            " pupil's Python can read and change the folder of every other."
        )
    tried = subprocess.run(
        [sys.executable, "-c", "import dropper.lab"],
        user=NOBODY,
        group=NOBODY,
        extra_groups=[],
        cwd="/",
        capture_output=True,
    )
    if tried.returncode:
        raise SystemExit(
            f"Other accounts cannot run {sys.executable}. Put the workbook where all can read, /opt/dropper."
        )


_check()
PLACE.mkdir(parents=True, exist_ok=True)
PLACE.chmod(0o711)  # each finds the own folder and sees no list of the others

c.JupyterHub.bind_url = os.environ.get("DROPPER_URL", "http://127.0.0.1:8000")
(PLACE / "hub").mkdir(mode=0o700, exist_ok=True)
c.JupyterHub.db_url = f"sqlite:///{PLACE / 'hub' / 'hub.sqlite'}"
c.JupyterHub.cookie_secret_file = str(PLACE / "hub" / "cookie_secret")
c.ConfigurableHTTPProxy.command = os.environ.get("DROPPER_PROXY", str(TOOLS / "configurable-http-proxy")).split()
c.ConfigurableHTTPProxy.pid_file = str(PLACE / "hub" / "proxy.pid")
c.JupyterHub.last_activity_interval = ACTIVITY

c.JupyterHub.authenticator_class = "firstuseauthenticator.FirstUseAuthenticator"
c.FirstUseAuthenticator.dbm_path = str(PLACE / "hub" / "passwords")
c.Authenticator.allowed_users = _pupils()

c.JupyterHub.spawner_class = SimpleLocalProcessSpawner if ONE_ACCOUNT else AccountSpawner
c.SimpleLocalProcessSpawner.home_dir_template = str(PLACE / "{username}")
c.Spawner.pre_spawn_hook = own_folder
c.Spawner.cmd = [str(TOOLS / "jupyterhub-singleuser")]
c.Spawner.notebook_dir, c.Spawner.default_url = "~/notebooks", "/doc/tree/00_start_here.ipynb"
c.Spawner.start_timeout = 120  # s: 24 start in the same minute
c.Spawner.environment = {"JUPYTERHUB_ACTIVITY_INTERVAL": str(ACTIVITY), "OPENBLAS_NUM_THREADS": "1"}
# No language servers and no terminals: memory that no lesson has a use for.
c.Spawner.args = [
    "--LanguageServerManager.autodetect=False",
    "--ServerApp.terminals_enabled=False",
    f"--MappingKernelManager.cull_idle_timeout={min(IDLE, UNSEEN)}",  # of kernels that no page shows
    f"--MappingKernelManager.cull_interval={ACTIVITY}",
]
if ONE_ACCOUNT and os.geteuid() == 0:
    c.Spawner.args.append("--allow-root")

cull = [sys.executable, "-m", "jupyterhub_idle_culler", f"--timeout={IDLE}", f"--cull-every={ACTIVITY}"]
c.JupyterHub.services = [{"name": "cull", "command": cull}]
scopes = ["list:users", "read:users:activity", "read:servers", "delete:servers"]
c.JupyterHub.load_roles = [{"name": "cull", "services": ["cull"], "scopes": scopes}]
