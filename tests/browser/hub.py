"""A hub for the tests, on this machine only: two pupils, whose accounts go when the tests are over."""

import os
import pwd
import re
import shutil
import socket
import subprocess
import sys
import time
from contextlib import contextmanager
from dataclasses import dataclass
from importlib.util import find_spec
from pathlib import Path

from server import ROOT

CONFIG = ROOT / "binder" / "jupyterhub_config.py"
TOOLS = ("jupyterhub", "jupyterhub_idle_culler", "firstuseauthenticator", "configurable_http_proxy")
NOBODY = 65534


def tools_are_here():
    """Whether what binder/hub_requirements.txt lists is installed, on a system that has accounts as a hub needs them."""
    return os.name == "posix" and all(map(find_spec, TOOLS))


def accounts_can_be_made():
    """Whether each pupil can have an account: it is a test machine, of which root may do so, and others can run Python."""
    if not os.environ.get("CI") or os.geteuid() != 0 or not shutil.which("useradd"):
        return False
    here = {"user": NOBODY, "group": NOBODY, "extra_groups": [], "cwd": "/", "capture_output": True}
    try:
        return subprocess.run([sys.executable, "-c", "import dropper.lab"], **here).returncode == 0
    except OSError:
        return False


@dataclass
class Hub:
    """A running hub: its address, where the pupils' folders lie, their names, and whether each has an account."""

    address: str
    place: Path
    names: tuple[str, ...]
    accounts: bool

    def may_read(self, name, path):
        """Whether a program of a pupil can read a file."""
        entry = pwd.getpwnam(f"pupil-{name}")
        return subprocess.run(["cat", path], user=entry.pw_uid, group=entry.pw_gid, extra_groups=[]).returncode == 0


def _ports(count):
    sockets = [socket.socket() for _ in range(count)]
    for one in sockets:
        one.bind(("127.0.0.1", 0))
    ports = [one.getsockname()[1] for one in sockets]
    for one in sockets:
        one.close()
    return ports


@contextmanager
def hub(place):
    """Start the hub of binder/ for two pupils; their folders lie in `place`, which others may pass through."""
    names = tuple(f"{name}{os.getpid()}" for name in ("ada", "bea"))
    accounts = accounts_can_be_made()
    place.mkdir(mode=0o711)
    listed, log = place / "pupils.txt", place / "hub.log"
    listed.write_text("\n".join(names))
    outer, inner, routes = _ports(3)
    settings = {
        "DROPPER_PUPILS": str(listed),
        "DROPPER_CLASS": str(place),
        "DROPPER_URL": f"http://127.0.0.1:{outer}",
        "DROPPER_ONE_ACCOUNT": "" if accounts else "1",
    }
    command = [sys.executable, "-m", "jupyterhub", "-f", CONFIG, f"--JupyterHub.hub_port={inner}"]
    command.append(f"--ConfigurableHTTPProxy.api_url=http://127.0.0.1:{routes}")
    with log.open("w") as output:
        running = subprocess.Popen(
            command, cwd=ROOT, stdout=output, stderr=subprocess.STDOUT, env=os.environ | settings
        )
    try:
        for _ in range(600):
            if re.search("JupyterHub is now running", log.read_text()):
                break
            if running.poll() is not None:
                raise RuntimeError(f"the hub did not start:\n{log.read_text()}")
            time.sleep(0.1)
        yield Hub(settings["DROPPER_URL"], place, names, accounts)
    finally:
        running.terminate()
        try:
            running.wait(30)
        except subprocess.TimeoutExpired:
            running.kill()
        if accounts:
            for name in names:
                subprocess.run(["userdel", f"pupil-{name}"], capture_output=True)
