"""What JupyterLab is asked for is really asked for, and stays on this machine."""

import json
import os
import subprocess
import sys

import pytest
from dropper.lab import HERE
from dropper.lab.connection import QuickConnection
from jupyter_server.services.kernels.connection.channels import ZMQChannelsWebsocketConnection


@pytest.mark.slow
def test_the_server_takes_our_settings_and_listens_here_only():
    said = subprocess.run(
        [sys.executable, "-m", "jupyter", "lab", "--show-config-json"],
        env=os.environ | {"JUPYTER_CONFIG_PATH": str(HERE)},
        capture_output=True,
        text=True,
        check=True,
    ).stdout
    config = json.loads(said[said.index("{") :])
    assert config["ServerApp"]["ip"] == "localhost"
    assert config["ServerApp"]["kernel_websocket_connection_class"] == "dropper.lab.connection.QuickConnection"
    assert config["ServerApp"]["jpserver_extensions"]["dropper.lab.extension"] is True
    assert config["ServerApp"]["tornado_settings"]["websocket_max_message_size"] > 100e6, (
        "recordings come in one message"
    )
    assert config["LabApp"]["app_settings_dir"] == str(HERE / "settings")
    assert "token" not in config.get("IdentityProvider", {}), "the token stays on"
    assert issubclass(QuickConnection, ZMQChannelsWebsocketConnection)


def test_no_single_letter_acts_on_a_notebook_and_no_news_pop_up():
    settings = json.loads((HERE / "settings" / "overrides.json").read_text(encoding="utf-8"))
    shortcuts = settings["@jupyterlab/shortcuts-extension:shortcuts"]["shortcuts"]
    off = {(entry["command"], tuple(entry["keys"])) for entry in shortcuts if entry["disabled"]}
    for command, keys in (("notebook:delete-cell", ("D", "D")), ("notebook:change-cell-to-markdown", ("M",))):
        assert (command, keys) in off
    assert settings["@jupyterlab/apputils-extension:notification"]["fetchNews"] == "false"
    assert settings["@jupyterlab/notebook-extension:tracker"]["kernelShutdown"] is True, (
        "a closed lesson frees its memory"
    )
    assert settings["@jupyterlab/apputils-extension:kernels-settings"]["commsOverSubshells"] == "disabled"
