"""Extension of the Jupyter server: whom it trusts, kernels that start early, what the page has to know.

It is switched on for every server of the environment that the library is installed in, however that is started.
"""

import os

import zmq
from jupyter_client.manager import KernelManager
from jupyter_server.serverapp import ServerApp
from jupyter_server.services.kernels.connection.channels import ZMQChannelsWebsocketConnection
from jupyter_server.utils import url_path_join

from .connection import QuickConnection
from .early import NOTEBOOK, EarlyKernelHandler, start_kernel
from .notary import WorkbookNotary, own_notebooks

# An oscilloscope's file goes to its panel in one message; tornado's own limit, 10 MiB, would end the connection.
_MESSAGE = 168_000_000  # bytes in one message of a websocket
_HEAD = 100_000  # bytes left for what a message says beside the file


def _jupyter_server_extension_points():
    return [{"module": "dropper.lab.extension"}]


def _encrypt(server: ServerApp) -> None:
    # What goes between server and kernel is not to be read by others on this computer; kernels warn of it otherwise.
    if hasattr(KernelManager, "transport_encryption") and zmq.has("curve"):
        server.kernel_manager.config.KernelManager.setdefault("transport_encryption", "auto")


def _load_jupyter_server_extension(server: ServerApp) -> None:
    # One page shows the sliders: what it sends need not be sent back to it.
    os.environ.setdefault("JUPYTER_WIDGETS_ECHO", "0")
    _encrypt(server)
    server.contents_manager.notary = WorkbookNotary(parent=server.contents_manager)
    settings = server.web_app.settings
    if settings.get("kernel_websocket_connection_class") is ZMQChannelsWebsocketConnection:
        settings["kernel_websocket_connection_class"] = QuickConnection
    most = settings.setdefault("websocket_max_message_size", _MESSAGE) - _HEAD
    settings.setdefault("page_config_data", {})["dropper"] = {
        "mostBytes": most,
        "lessons": sorted(own_notebooks().values()),
    }
    server.web_app.add_handlers(".*", [(url_path_join(server.base_url, "dropper/kernel"), EarlyKernelHandler)])
    first = os.environ.get(NOTEBOOK)
    if first:
        server.io_loop.call_later(0, start_kernel, server, first)
