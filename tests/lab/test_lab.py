"""What JupyterLab is asked for is really asked for, and stays on this machine."""

import json
import os
import subprocess
import sys

import pytest
from dropper.lab import HERE
from dropper.lab.connection import QuickConnection
from dropper.lab.extension import _load_jupyter_server_extension
from dropper.lab.notary import WorkbookNotary
from jupyter_client.manager import KernelManager
from jupyter_server.serverapp import ServerApp
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
    assert config["ServerApp"]["jpserver_extensions"]["dropper.lab.extension"] is True
    assert config["LabApp"]["app_settings_dir"] == str(HERE / "settings")
    assert "token" not in config.get("IdentityProvider", {}), "the token stays on"


def test_a_server_of_any_kind_gets_what_the_sliders_need(tmp_path):
    """The library's extension brings it along, so that it does not hang on how the server was started."""
    server = ServerApp(runtime_dir=str(tmp_path), root_dir=str(tmp_path))
    server.initialize(argv=[], find_extensions=False, new_httpserver=False)
    connection = server.web_app.settings["kernel_websocket_connection_class"]
    assert connection is ZMQChannelsWebsocketConnection, "the server's own before"
    _load_jupyter_server_extension(server)
    settings = server.web_app.settings
    assert settings["kernel_websocket_connection_class"] is QuickConnection
    assert settings["websocket_max_message_size"] > settings["page_config_data"]["dropper"]["mostBytes"] > 100e6, (
        "recordings come in one message"
    )
    assert isinstance(server.contents_manager.notary, WorkbookNotary)
    if hasattr(KernelManager, "transport_encryption"):
        kernel = server.kernel_manager.kernel_manager_factory(parent=server.kernel_manager)
        assert kernel.transport_encryption == "auto", "what a kernel is told is for nobody else on the computer"


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


def test_to_ask_for_the_settings_loads_no_solver():
    """24 servers run in a class, and none of them computes a lamp."""
    said = subprocess.run(
        [
            sys.executable,
            "-c",
            "import sys, dropper.lab.extension; print(*{'numba', 'numpy', 'sympy'} & set(sys.modules))",
        ],
        capture_output=True,
        text=True,
        check=True,
    ).stdout
    assert said.strip() == ""
